package solid

import (
	"math"
	"math/big"

	"ringtrack/gear/plane"
)

// orient3Bound is the relative error of the determinant below, from counting the
// roundings on its longest path.
const orient3Bound = (7 + 56*eps) * eps

// orient3 returns +1 when d lies behind the plane through a, b, c, seen from
// where they run counter-clockwise, -1 when it lies before it and 0 when it lies
// exactly in it. It is exact for finite coordinates of magnitude up to coordLimit.
//
// Method: the determinant in floating point when it exceeds its error bound,
// otherwise in whole numbers.
func orient3(a, b, c, d Point3) int {
	p, q, r := a.Sub(d), b.Sub(d), c.Sub(d)
	if p.Z == 0 && q.Z == 0 && r.Z == 0 || p.X == 0 && q.X == 0 && r.X == 0 || p.Y == 0 && q.Y == 0 && r.Y == 0 {
		return 0 // a difference of zero is exact
	}
	qr1, qr2 := q.X*r.Y, r.X*q.Y
	rp1, rp2 := r.X*p.Y, p.X*r.Y
	pq1, pq2 := p.X*q.Y, q.X*p.Y
	det := p.Z*(qr1-qr2) + q.Z*(rp1-rp2) + r.Z*(pq1-pq2)
	size := math.Abs(p.Z)*(math.Abs(qr1)+math.Abs(qr2)) +
		math.Abs(q.Z)*(math.Abs(rp1)+math.Abs(rp2)) + math.Abs(r.Z)*(math.Abs(pq1)+math.Abs(pq2))
	switch bound := orient3Bound*size + underflow; {
	case det > bound:
		return 1
	case det < -bound:
		return -1
	}
	return orient3Exact(a, b, c, d)
}

// orient3Exact is orient3 in whole numbers: all coordinates are brought to one
// power of two.
func orient3Exact(a, b, c, d Point3) int {
	const none = 1 << 20
	least := none
	for _, p := range []Point3{a, b, c, d} {
		for _, v := range []float64{p.X, p.Y, p.Z} {
			if v != 0 {
				_, e := math.Frexp(v)
				least = min(least, e-53)
			}
		}
	}
	whole := func(v float64) *big.Int {
		if v == 0 {
			return new(big.Int)
		}
		f, e := math.Frexp(v)
		return new(big.Int).Lsh(big.NewInt(int64(f*(1<<53))), uint(e-53-least))
	}
	var m [3][3]*big.Int
	for i, p := range []Point3{a, b, c} {
		m[i] = [3]*big.Int{
			new(big.Int).Sub(whole(p.X), whole(d.X)),
			new(big.Int).Sub(whole(p.Y), whole(d.Y)),
			new(big.Int).Sub(whole(p.Z), whole(d.Z)),
		}
	}
	det := new(big.Int)
	for i := range 3 {
		j, k := (i+1)%3, (i+2)%3
		minor := new(big.Int).Mul(m[j][0], m[k][1])
		minor.Sub(minor, new(big.Int).Mul(m[k][0], m[j][1]))
		det.Add(det, minor.Mul(minor, m[i][2]))
	}
	return det.Sign()
}

// shadow returns p without one coordinate: 0 for x, 1 for y, 2 for z.
func shadow(p Point3, axis int) plane.Vec {
	switch axis {
	case 0:
		return plane.Vec{X: p.Y, Y: p.Z}
	case 1:
		return plane.Vec{X: p.Z, Y: p.X}
	}
	return plane.Vec{X: p.X, Y: p.Y}
}

// triangle3 is a facet with its corners' places.
type triangle3 [3]Point3

// axis returns an axis along which the triangle casts a shadow with an area, and
// 3 for a triangle without one.
func (t *triangle3) axis() int {
	for axis := range 3 {
		if orient(shadow(t[0], axis), shadow(t[1], axis), shadow(t[2], axis)) != 0 {
			return axis
		}
	}
	return 3
}

// meetsSegment reports whether the closed segment pq and the closed triangle have
// a point in common. sp and sq are the sides of the triangle's plane on which p
// and q lie, as orient3 tells them.
func (t *triangle3) meetsSegment(p, q Point3, sp, sq int) bool {
	switch {
	case sp*sq > 0:
		return false
	case sp == 0 && sq == 0:
		return t.meetsFlat(p, q)
	case sp == 0:
		return t.meetsFlat(p, p)
	case sq == 0:
		return t.meetsFlat(q, q)
	}
	a, b, c := orient3(p, q, t[0], t[1]), orient3(p, q, t[1], t[2]), orient3(p, q, t[2], t[0])
	return a >= 0 && b >= 0 && c >= 0 || a <= 0 && b <= 0 && c <= 0
}

// meetsFlat is meetsSegment for a segment, or a point, in the triangle's plane.
func (t *triangle3) meetsFlat(p, q Point3) bool {
	axis := t.axis()
	if axis == 3 {
		return false
	}
	a, b, c := shadow(t[0], axis), shadow(t[1], axis), shadow(t[2], axis)
	u, v := shadow(p, axis), shadow(q, axis)
	x, y, z := orient(a, b, u), orient(b, c, u), orient(c, a, u)
	if x >= 0 && y >= 0 && z >= 0 || x <= 0 && y <= 0 && z <= 0 {
		return true
	}
	return u != v && (touching(u, v, a, b) || touching(u, v, b, c) || touching(u, v, c, a))
}
