package plane

import "math"

// gauss8 holds nodes and weights of the 8-point Gauss-Legendre rule on [0, 1].
var gauss8 = [8][2]float64{
	{0.019855071751231884, 0.050614268145188130}, {0.101666761293186630, 0.111190517226687235},
	{0.237233795041835507, 0.156853322938943644}, {0.408282678752175098, 0.181341891689180991},
	{0.591717321247824902, 0.181341891689180991}, {0.762766204958164493, 0.156853322938943644},
	{0.898333238706813370, 0.111190517226687235}, {0.980144928248768116, 0.050614268145188130},
}

// integrate sums f over [0, 1] in four panels of eight points.
func integrate(f func(u float64) float64) float64 {
	const panels = 4
	sum := 0.0
	for i := range panels {
		for _, g := range gauss8 {
			sum += g[1] / panels * f((float64(i)+g[0])/panels)
		}
	}
	return sum
}

func (c Curve) length() float64 {
	return integrate(func(u float64) float64 { return c.Frame(u).V.Len() })
}

func (c Curve) areaTerm() float64 {
	return integrate(func(u float64) float64 { f := c.Frame(u); return f.P.Cross(f.V) }) / 2
}

// Length returns the length of the loop in mm.
func (l Loop) Length() float64 {
	sum := 0.0
	for _, p := range l.Unit {
		sum += p.length()
	}
	return sum * float64(l.Turns())
}

// Area returns the signed area in mm2: positive for a counter-clockwise loop.
func (l Loop) Area() float64 {
	sum := 0.0
	for _, p := range l.Unit {
		sum += p.Map(Moved(l.Centre.Mul(-1))).areaTerm()
	}
	return sum * float64(l.Turns())
}

// Area returns the region's area in mm2: the outer loop's less the holes'.
func (r Region) Area() float64 {
	sum := r.Outer.Area()
	for _, h := range r.Holes {
		sum += h.Area()
	}
	return sum
}

// Box returns a box that holds the loop.
func (l Loop) Box() Box {
	b := NoBox()
	for p := range l.All() {
		b = b.Union(p.Box())
	}
	return b
}

// Distance returns the distance of p from the nearest point of the loop.
func (l Loop) Distance(p Vec) float64 {
	best := math.Inf(1)
	for q := range l.All() {
		if boxDistance(q.Box(), p) < best {
			best = math.Min(best, distance(q, p))
		}
	}
	return best
}

// boxDistance returns the distance from p to the box, 0 inside it.
func boxDistance(b Box, p Vec) float64 {
	dx := math.Max(0, math.Max(b.Min.X-p.X, p.X-b.Max.X))
	dy := math.Max(0, math.Max(b.Min.Y-p.Y, p.Y-b.Max.Y))
	return math.Hypot(dx, dy)
}

// distance returns the distance from q to the piece.
func distance(piece Piece, q Vec) float64 {
	ends := math.Min(piece.At(0).Sub(q).Len(), piece.At(1).Sub(q).Len())
	switch p := piece.(type) {
	case Line:
		v := p.B.Sub(p.A)
		if t := q.Sub(p.A).Dot(v); t > 0 && t < v.Dot(v) {
			return math.Abs(v.unit().Cross(q.Sub(p.A)))
		}
		return ends
	case Arc:
		if p.holdsAngle(q.Sub(p.C).Angle()) {
			return math.Abs(q.Sub(p.C).Len() - p.R)
		}
		return ends
	}
	return math.Min(ends, curveDistance(piece, q))
}

// holdsAngle reports whether the polar angle a about the centre lies on the arc.
func (a Arc) holdsAngle(at float64) bool {
	d := math.Mod((at-a.A0)*math.Copysign(1, a.Sweep), 2*math.Pi)
	if d < 0 {
		d += 2 * math.Pi
	}
	return d <= math.Abs(a.Sweep)
}

// curveDistance finds the feet of the perpendiculars from q: between samples
// the sign of (p - q).v changes where the distance is least.
func curveDistance(c Piece, q Vec) float64 {
	const n = 16
	best := math.Inf(1)
	foot := func(u float64) float64 { f := c.Frame(u); return f.P.Sub(q).Dot(f.V) }
	last := foot(0)
	for i := 1; i <= n; i++ {
		u := float64(i) / n
		now := foot(u)
		if last < 0 && now >= 0 {
			z := root(foot, u-1.0/n, u)
			best = math.Min(best, c.At(z).Sub(q).Len())
		}
		last = now
	}
	return best
}

// root returns a zero of f between lo and hi, where f changes sign, by the
// Illinois form of false position with bisection as the fallback.
func root(f func(float64) float64, lo, hi float64) float64 {
	a, b := f(lo), f(hi)
	if a == 0 {
		return lo
	}
	if b == 0 {
		return hi
	}
	side := 0
	for range 100 {
		m := (lo*b - hi*a) / (b - a)
		if !(m > lo && m < hi) {
			m = (lo + hi) / 2
		}
		v := f(m)
		if v == 0 || hi-lo < 1e-15*(1+math.Abs(m)) {
			return m
		}
		if (v > 0) == (b > 0) {
			hi, b = m, v
			if side == 1 {
				a /= 2
			}
			side = 1
		} else {
			lo, a = m, v
			if side == -1 {
				b /= 2
			}
			side = -1
		}
	}
	return (lo + hi) / 2
}

// Contains reports whether p lies strictly inside the loop. The loop is
// flattened finer than p's distance from it, so the answer is that of the exact
// outline; a point within 1e-9 mm of the outline counts as outside.
func (l Loop) Contains(p Vec) bool {
	d := l.Distance(p)
	if d < 1e-9 {
		return false
	}
	return insidePolygon(l.Flatten(math.Max(d/2, 1e-9)), p)
}

// insidePolygon counts the crossings of the ray from p to the right.
func insidePolygon(poly []Vec, p Vec) bool {
	in := false
	for i, a := range poly {
		b := poly[(i+1)%len(poly)]
		if (a.Y > p.Y) != (b.Y > p.Y) && p.X < a.X+(p.Y-a.Y)/(b.Y-a.Y)*(b.X-a.X) {
			in = !in
		}
	}
	return in
}
