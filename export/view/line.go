package view

import (
	"math"

	"ringtrack/export/figure"
	"ringtrack/gear/plane"
)

// Lengths in pixels below which the raster's word is not taken.
const (
	shortestGap  = 3.0 // that is left in a line
	shortestLine = 3.0 // that is drawn
)

const (
	// creaseWidth is the width of creases in that of contours.
	creaseWidth = 2.0 / 3
	// overhang in its width is how far a line goes beyond its end, so that those
	// that meet in a corner leave no notch.
	overhang = 0.4
)

// lines returns the marks of creases and of contours; tol in pixels is how far
// they may leave the edges.
func (s *scene) lines(opt Options, toPaper plane.Similarity, tol float64) []figure.Mark {
	var paths [kinds]figure.Path
	var styles [kinds]figure.Style
	for k := range styles {
		styles[k] = figure.Style{Stroke: opt.Look.Stroke, Width: opt.Look.Width}
	}
	styles[crease].Width *= creaseWidth
	var buf []part
	edges := s.edges(math.Cos(opt.Crease))
	for _, c := range s.chains(edges) {
		buf = s.parts(buf, edges, c)
		whole := tidy(buf, c.closed)
		if !whole {
			buf = startAtChange(buf, c.closed)
		}
		for i := 0; i < len(buf); {
			j := i + 1
			for j < len(buf) && buf[j].seen == buf[i].seen && buf[j].kind == buf[i].kind {
				j++
			}
			if buf[i].seen {
				all := whole && c.closed && j-i == len(buf)
				k := buf[i].kind
				paths[k] = addLine(paths[k], buf[i:j], all, toPaper, tol, styles[k].Width*overhang/toPaper.Scale())
			}
			i = j
		}
	}
	var out []figure.Mark
	for k, p := range paths {
		if style := styles[k]; len(p) > 0 && style.Width > 0 && style.Stroke.A != 0 {
			out = append(out, figure.Mark{Path: p, Style: style})
		}
	}
	return out
}

// tidy overrules what the raster says of short stretches: gaps are closed, then
// short pieces are dropped. It reports whether all is seen.
func tidy(p []part, closed bool) bool {
	overrule(p, closed, false, shortestGap)
	overrule(p, closed, true, shortestLine)
	for i := range p {
		if !p[i].seen {
			return false
		}
	}
	return true
}

// overrule turns stretches that are seen, or not, and are shorter than least.
// What is said of a whole chain stays if it is not seen.
func overrule(p []part, closed, seen bool, least float64) {
	if closed {
		p = startAtChange(p, true)
	}
	for i := 0; i < len(p); {
		j, length := i, 0.0
		for j < len(p) && p[j].seen == p[i].seen {
			length += p[j].length
			j++
		}
		if p[i].seen == seen && length < least && (seen || j-i < len(p)) {
			for k := i; k < j; k++ {
				p[k].seen = !seen
			}
		}
		i = j
	}
}

// startAtChange turns a closed chain's parts, in place, so that the first
// follows one that is seen otherwise or is of another kind.
func startAtChange(p []part, closed bool) []part {
	if !closed {
		return p
	}
	for i := range p {
		before := p[(i+len(p)-1)%len(p)]
		if before.seen != p[i].seen || before.kind != p[i].kind {
			turned := append(append(make([]part, 0, len(p)), p[i:]...), p[:i]...)
			copy(p, turned)
			return p
		}
	}
	return p
}

// addLine adds parts in a row as a run that goes beyond its ends by some pixels.
func addLine(path figure.Path, p []part, closed bool, toPaper plane.Similarity, tol, beyond float64) figure.Path {
	pts := make([]plane.Vec, 0, len(p)+1)
	pts = append(pts, p[0].from)
	for _, q := range p {
		pts = append(pts, q.to)
	}
	pts = simplify(pts, tol)
	if n := len(pts); !closed {
		first, last := onward(pts[1], pts[0], beyond), onward(pts[n-2], pts[n-1], beyond)
		pts[0], pts[n-1] = first, last
	}
	return addRun(path, pts, closed, toPaper)
}

// onward returns the point that is l further than b on the way from a.
func onward(a, b plane.Vec, l float64) plane.Vec {
	d := b.Sub(a)
	if d.Len() == 0 {
		return b
	}
	return b.Add(d.Mul(l / d.Len()))
}

// addRun adds points as a run on paper; the last point of a closed one is its
// first again.
func addRun(path figure.Path, pts []plane.Vec, closed bool, toPaper plane.Similarity) figure.Path {
	if closed {
		pts = pts[:len(pts)-1]
	}
	for i, v := range pts {
		if v = toPaper.Point(v); i == 0 {
			path.Move(v)
		} else {
			path.Line(v)
		}
	}
	if closed {
		path = append(path, figure.Segment{Op: figure.CloseTo, P: toPaper.Point(pts[0])})
	}
	return path
}
