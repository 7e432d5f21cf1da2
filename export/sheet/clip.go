package sheet

import (
	"ringtrack/export/figure"
	"ringtrack/gear/plane"
)

// clipArea returns the part of a closed polygon inside the window, as a closed
// run for filling: cut along one side after the other (Sutherland and Hodgman,
// 1974, from memory). Its edges along the window are not outlines.
func clipArea(poly []plane.Vec, w window) []plane.Vec {
	sides := []func(plane.Vec) float64{ // positive inside
		func(p plane.Vec) float64 { return p.X - w.min.X },
		func(p plane.Vec) float64 { return w.max.X - p.X },
		func(p plane.Vec) float64 { return p.Y - w.min.Y },
		func(p plane.Vec) float64 { return w.max.Y - p.Y },
	}
	for _, side := range sides {
		var out []plane.Vec
		for i, b := range poly {
			a := poly[(i+len(poly)-1)%len(poly)]
			da, db := side(a), side(b)
			if (da > 0) != (db > 0) {
				out = append(out, a.Add(b.Sub(a).Mul(da/(da-db))))
			}
			if db > 0 {
				out = append(out, b)
			}
		}
		poly = out
	}
	return poly
}

// clipLine returns the parts of a run of points inside the window.
func clipLine(pts []plane.Vec, w window) [][]plane.Vec {
	var out [][]plane.Vec
	var run []plane.Vec
	flush := func() {
		if len(run) > 1 {
			out = append(out, run)
		}
		run = nil
	}
	for i := 1; i < len(pts); i++ {
		a, b, ok := clipSegment(pts[i-1], pts[i], w)
		if !ok {
			flush()
			continue
		}
		if len(run) == 0 || run[len(run)-1] != a {
			flush()
			run = append(run, a)
		}
		run = append(run, b)
		if b != pts[i] {
			flush()
		}
	}
	flush()
	return out
}

// clipSegment cuts a segment to the window (Liang and Barsky, 1984, from memory).
func clipSegment(a, b plane.Vec, w window) (plane.Vec, plane.Vec, bool) {
	d := b.Sub(a)
	t0, t1 := 0.0, 1.0
	for _, e := range [4][2]float64{
		{-d.X, a.X - w.min.X}, {d.X, w.max.X - a.X}, {-d.Y, a.Y - w.min.Y}, {d.Y, w.max.Y - a.Y},
	} {
		p, q := e[0], e[1]
		switch {
		case p == 0 && q < 0:
			return a, b, false
		case p < 0:
			t0 = max(t0, q/p)
		case p > 0:
			t1 = min(t1, q/p)
		}
	}
	if t0 > t1 {
		return a, b, false
	}
	from, to := a, b
	if t0 > 0 {
		from = a.Add(d.Mul(t0))
	}
	if t1 < 1 {
		to = a.Add(d.Mul(t1))
	}
	return from, to, true
}

// area adds a filled, clipped region of loops (opposite directions cancel) and
// its clipped outline.
func area(f *figure.Figure, v view, w window, style figure.Style, loops ...plane.Loop) {
	var fill figure.Path
	var lines []figure.Path
	for _, l := range loops {
		pts := l.Map(v.similarity()).Flatten(0.01)
		if part := clipArea(pts, w); len(part) > 2 {
			fill = append(fill, figure.Polygon(part...)...)
		}
		for _, run := range clipLine(append(pts, pts[0]), w) {
			lines = append(lines, figure.Lines(run...))
		}
	}
	f.Add(figure.Shape{Path: fill, Style: figure.Style{Fill: style.Fill}})
	stroke := style
	stroke.Fill = figure.Colour{}
	for _, p := range lines {
		f.Add(figure.Shape{Path: p, Style: stroke})
	}
}

// circle adds a clipped circle.
func circle(f *figure.Figure, v view, w window, style figure.Style, c plane.Vec, r float64) {
	pts := plane.CircleLoop(c, r).Map(v.similarity()).Flatten(0.01)
	style.Fill = figure.Colour{}
	for _, run := range clipLine(append(pts, pts[0]), w) {
		f.Add(figure.Shape{Path: figure.Lines(run...), Style: style})
	}
}

// line adds a clipped straight line.
func line(f *figure.Figure, v view, w window, style figure.Style, a, b plane.Vec) {
	if p, q, ok := clipSegment(v.point(a), v.point(b), w); ok {
		f.Add(figure.Shape{Path: figure.Lines(p, q), Style: style})
	}
}
