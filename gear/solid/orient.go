package solid

import (
	"math"

	"ringtrack/gear/plane"
)

// Bounds of the two floating-point filters, for eps = 2^-53: beyond them the
// computed sign is the true one. The factors follow from counting the roundings
// on the longest path of each expression.
const (
	eps         = 1.0 / (1 << 53)
	orientBound = (3 + 16*eps) * eps
	circleBound = (10 + 96*eps) * eps

	// coordLimit is the greatest magnitude of a coordinate: products of four
	// stay finite.
	coordLimit = 1e50
	// underflow is more than all that gradual underflow can take from an
	// orientation or a circle test below coordLimit.
	underflow = 1e-150
)

// orient returns +1 when a, b, c turn to the left, -1 when they turn to the
// right and 0 when they are exactly collinear. It is exact for coordinates of
// magnitude up to coordLimit.
//
// Method: the determinant in floating point when it exceeds its error bound,
// otherwise the sign of the exact sum of the six products.
func orient(a, b, c plane.Vec) int {
	l := (a.X - c.X) * (b.Y - c.Y)
	r := (a.Y - c.Y) * (b.X - c.X)
	det := l - r
	bound := orientBound*(math.Abs(l)+math.Abs(r)) + underflow
	switch {
	case det > bound:
		return 1
	case det < -bound:
		return -1
	}
	return orientExact(a, b, c)
}

// inCircle reports whether d certainly lies strictly inside the circle through
// a, b, c, which turn to the left. It is false when d lies outside or within
// rounding of the circle.
func inCircle(a, b, c, d plane.Vec) bool {
	ax, ay := a.X-d.X, a.Y-d.Y
	bx, by := b.X-d.X, b.Y-d.Y
	cx, cy := c.X-d.X, c.Y-d.Y
	bc1, bc2 := bx*cy, cx*by
	ca1, ca2 := cx*ay, ax*cy
	ab1, ab2 := ax*by, bx*ay
	al := ax*ax + ay*ay
	bl := bx*bx + by*by
	cl := cx*cx + cy*cy
	det := al*(bc1-bc2) + bl*(ca1-ca2) + cl*(ab1-ab2)
	size := al*(math.Abs(bc1)+math.Abs(bc2)) + bl*(math.Abs(ca1)+math.Abs(ca2)) + cl*(math.Abs(ab1)+math.Abs(ab2))
	return det > circleBound*size+underflow
}

// collinear reports whether three points lie exactly on one line: their
// shadows on the three coordinate planes do.
func collinear(a, b, c Point3) bool {
	xy := func(p Point3) plane.Vec { return plane.Vec{X: p.X, Y: p.Y} }
	yz := func(p Point3) plane.Vec { return plane.Vec{X: p.Y, Y: p.Z} }
	zx := func(p Point3) plane.Vec { return plane.Vec{X: p.Z, Y: p.X} }
	return orient(xy(a), xy(b), xy(c)) == 0 && orient(yz(a), yz(b), yz(c)) == 0 && orient(zx(a), zx(b), zx(c)) == 0
}
