package plane

import "math"

// Hit is a point where a loop's unit crosses a circle about the loop's centre.
type Hit struct {
	Piece int     // index in Unit
	U     float64 // parameter on it
	Angle float64 // polar angle of the point about the centre, in (-pi, pi]
}

// AtRadius returns where the unit crosses the circle of radius r about the
// loop's centre, in the order of travel. A piece that lies on the circle has no
// crossing.
func (l Loop) AtRadius(r float64) []Hit {
	var out []Hit
	for i, p := range l.Unit {
		for _, u := range radiusRoots(p, l.Centre, r) {
			out = append(out, Hit{i, u, p.At(u).Sub(l.Centre).Angle()})
		}
	}
	return out
}

// radiusRoots returns the parameters at which the piece crosses the circle.
func radiusRoots(p Piece, c Vec, r float64) []float64 {
	const n = 24
	f := func(u float64) float64 { return p.At(u).Sub(c).Len() - r }
	var out []float64
	last := f(0)
	for i := 1; i <= n; i++ {
		u := float64(i) / n
		now := f(u)
		if (last < 0) != (now < 0) && math.Abs(now-last) > 1e-13+4e-15*r { // more than rounding
			out = append(out, root(f, u-1.0/n, u))
		}
		last = now
	}
	return out
}

// Radii returns the least and the greatest distance of the loop from its centre.
func (l Loop) Radii() (least, greatest float64) {
	least, greatest = math.Inf(1), 0
	for _, p := range l.Unit {
		f := func(u float64) float64 { return p.At(u).Sub(l.Centre).Len() }
		least = math.Min(least, extreme(f, 1))
		greatest = math.Max(greatest, -extreme(f, -1))
	}
	return least, greatest
}

// extreme returns the least value of sign*f over [0, 1]: the least of samples,
// polished by golden section beside it.
func extreme(f func(float64) float64, sign float64) float64 {
	const n = 16
	best, at := math.Inf(1), 0.0
	for i := range n + 1 {
		u := float64(i) / n
		if v := sign * f(u); v < best {
			best, at = v, u
		}
	}
	a, b := math.Max(0, at-1.0/n), math.Min(1, at+1.0/n)
	for range 48 {
		const phi = 0.6180339887498949
		u, v := b-phi*(b-a), a+phi*(b-a)
		if sign*f(u) < sign*f(v) {
			b = v
		} else {
			a = u
		}
	}
	return math.Min(best, sign*f((a+b)/2))
}

// Extent returns how far the piece reaches in the direction at the polar angle
// a: the greatest p . (cos a, sin a), and whether that is inside the piece and
// not at one of its ends.
func Extent(p Piece, a float64) (reach float64, inside bool) {
	s, c := math.Sincos(a)
	dir := Vec{c, s}
	reach = -extreme(func(u float64) float64 { return p.At(u).Dot(dir) }, -1)
	ends := math.Max(p.At(0).Dot(dir), p.At(1).Dot(dir))
	return reach, reach > ends+1e-12
}

// PieceDistance returns the distance of p from the nearest point of the piece.
func PieceDistance(piece Piece, p Vec) float64 { return distance(piece, p) }
