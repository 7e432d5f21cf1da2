package plane_test

import (
	"math"

	"pgregory.net/rapid"

	"ringtrack/gear/plane"
)

// ellipse is x = A cos t, y = B sin t.
type ellipse struct{ A, B, T0, T1 float64 }

func (e ellipse) Span() (t0, t1 float64) { return e.T0, e.T1 }

func (e ellipse) At(t float64) (x, y, dx, dy, ddx, ddy float64) {
	s, c := math.Sincos(t)
	return e.A * c, e.B * s, -e.A * s, e.B * c, -e.A * c, -e.B * s
}

// flower is the curve r = R + W cos(N t) over one of its N waves.
type flower struct {
	R, W float64
	N    int
}

func (f flower) Span() (t0, t1 float64) {
	return -math.Pi / float64(f.N), math.Pi / float64(f.N)
}

func (f flower) At(t float64) (x, y, dx, dy, ddx, ddy float64) {
	n := float64(f.N)
	s, c := math.Sincos(t)
	sn, cn := math.Sincos(n * t)
	r, r1, r2 := f.R+f.W*cn, -f.W*n*sn, -f.W*n*n*cn
	return r * c, r * s, r1*c - r*s, r1*s + r*c,
		r2*c - 2*r1*s - r*c, r2*s + 2*r1*c - r*s
}

// ellipseLoop returns an ellipse in four quarters.
func ellipseLoop(a, b float64) plane.Loop {
	l := plane.Loop{Fold: 1}
	for i := range 4 {
		q := math.Pi / 2 * float64(i)
		l.Unit = append(l.Unit, plane.NewCurve(ellipse{a, b, q, q + math.Pi/2}))
	}
	return l
}

// flowerLoop returns a flower, each wave in two halves, n at least 2.
func flowerLoop(r, w float64, n int) plane.Loop {
	whole := plane.NewCurve(flower{r, w, n})
	return plane.Loop{Unit: []plane.Piece{whole.Cut(0, 0.5), whole.Cut(0.5, 1)}, Fold: n}
}

// rounded returns a rectangle about the origin with corners of radius r, as four
// lines and four arcs; r = 0 leaves the corners sharp.
func rounded(w, h, r float64) plane.Loop {
	l := plane.Loop{Fold: 1}
	a, b := w/2, h/2
	corners := [4]plane.Vec{{X: a, Y: -b}, {X: a, Y: b}, {X: -a, Y: b}, {X: -a, Y: -b}}
	for i, c := range corners {
		next := corners[(i+1)%4]
		along := next.Sub(c)
		along = along.Mul(1 / along.Len())
		l.Unit = append(l.Unit, plane.Line{A: c.Add(along.Mul(r)), B: next.Sub(along.Mul(r))})
		if r > 0 {
			inward := plane.Vec{X: -along.Y, Y: along.X}
			centre := next.Sub(along.Mul(r)).Add(inward.Mul(r))
			l.Unit = append(l.Unit, plane.Arc{C: centre, R: r, A0: along.Right().Angle(), Sweep: math.Pi / 2})
		}
	}
	return l
}

// cog returns a wheel of n square teeth between two radii, each tooth the part
// of the pitch, with a fillet of radius r in each root corner (0: sharp).
func cog(n int, root, tip, part, r float64) plane.Loop {
	pitch := 2 * math.Pi / float64(n)
	half := part * pitch / 2
	// The flanks run parallel to the tooth's axis at y = +-w.
	w := root * math.Sin(half)
	tipHalf := math.Asin(w / tip)
	unit := []plane.Piece{}
	// Below the x axis going out, over the tip, and back in above it.
	// The fillet's centre: y = w + r, at the distance root + r from the centre.
	centreHalf, foot := half, math.Sqrt(root*root-w*w)
	if r > 0 {
		cx := math.Sqrt((root+r)*(root+r) - (w+r)*(w+r))
		centreHalf, foot = math.Atan2(w+r, cx), cx
		unit = append(unit, plane.Arc{C: plane.Vec{X: cx, Y: -w - r}, R: r, A0: -centreHalf + math.Pi, Sweep: -(math.Pi/2 - centreHalf)})
	}
	unit = append(unit,
		plane.Line{A: plane.Vec{X: foot, Y: -w}, B: plane.Polar(tip, -tipHalf)},
		plane.Arc{R: tip, A0: -tipHalf, Sweep: 2 * tipHalf},
		plane.Line{A: plane.Polar(tip, tipHalf), B: plane.Vec{X: foot, Y: w}},
	)
	if r > 0 {
		unit = append(unit, plane.Arc{C: plane.Vec{X: foot, Y: w + r}, R: r, A0: -math.Pi / 2, Sweep: -(math.Pi/2 - centreHalf)})
	}
	unit = append(unit, plane.Arc{R: root, A0: centreHalf, Sweep: pitch - 2*centreHalf})
	return plane.Loop{Unit: unit, Fold: n}
}

// anyLoop draws one of the shapes above.
func anyLoop(t *rapid.T) plane.Loop {
	switch rapid.SampledFrom([]string{"ellipse", "flower", "rounded", "cog"}).Draw(t, "shape") {
	case "ellipse":
		return ellipseLoop(rapid.Float64Range(5, 20).Draw(t, "a"), rapid.Float64Range(5, 20).Draw(t, "b"))
	case "flower":
		n := rapid.IntRange(4, 20).Draw(t, "n")
		return flowerLoop(20, rapid.Float64Range(0.1, 8/float64(n)).Draw(t, "w"), n)
	case "rounded":
		return rounded(rapid.Float64Range(5, 30).Draw(t, "w"), rapid.Float64Range(5, 30).Draw(t, "h"), rapid.SampledFrom([]float64{0, 0.3, 2}).Draw(t, "r"))
	default:
		return cog(rapid.IntRange(3, 24).Draw(t, "n"), 15, rapid.Float64Range(16.5, 19).Draw(t, "tip"),
			rapid.Float64Range(0.3, 0.6).Draw(t, "part"), rapid.SampledFrom([]float64{0, 0.2, 0.4}).Draw(t, "r"))
	}
}

// anyMap draws a turn by an odd angle, perhaps a mirror, the scale of inches and
// a shift of ten metres.
func anyMap(t *rapid.T) plane.Similarity {
	m := plane.Turned(rapid.Float64Range(-4, 4).Draw(t, "turn"))
	if rapid.Bool().Draw(t, "mirror") {
		m = m.Then(plane.Mirrored())
	}
	m = m.Then(plane.Scaled(rapid.SampledFrom([]float64{1, 25.4, 1 / 25.4}).Draw(t, "scale")))
	far := rapid.SampledFrom([]float64{0, 1e4}).Draw(t, "far")
	return m.Then(plane.Moved(plane.Vec{X: far, Y: -far / 3}))
}

// polygonArea returns the signed area of a polygon.
func polygonArea(p []plane.Vec) float64 {
	sum := 0.0
	for i, a := range p {
		sum += a.Sub(p[0]).Cross(p[(i+1)%len(p)].Sub(p[0])) / 2
	}
	return sum
}

// polygonContains counts crossings; polygonDistance takes the nearest edge.
func polygonContains(poly []plane.Vec, p plane.Vec) bool {
	in := false
	for i, a := range poly {
		b := poly[(i+1)%len(poly)]
		if (a.Y > p.Y) != (b.Y > p.Y) && (b.Sub(a).Cross(p.Sub(a)) > 0) == (b.Y > a.Y) {
			in = !in
		}
	}
	return in
}

func polygonDistance(poly []plane.Vec, p plane.Vec) float64 {
	best := math.Inf(1)
	for i, a := range poly {
		d := poly[(i+1)%len(poly)].Sub(a)
		u := math.Max(0, math.Min(1, p.Sub(a).Dot(d)/d.Dot(d)))
		best = math.Min(best, p.Sub(a.Add(d.Mul(u))).Len())
	}
	return best
}
