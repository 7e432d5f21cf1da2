package involute

import "math"

// Curve is a piece of involute as a smooth parametric curve over the roll angle
// t. It satisfies any interface that asks for At and Span.
type Curve struct {
	Base  float64 // base radius, mm
	Phase float64 // polar angle at which the involute leaves the base circle
	Hand  float64 // +1: the polar angle grows with t; -1: it falls
	T0    float64 // range of t, 0 < T0 < T1
	T1    float64
}

// Span returns the range of the roll angle.
func (c Curve) Span() (t0, t1 float64) { return c.T0, c.T1 }

// At returns the point at roll angle t and its first and second derivatives.
func (c Curve) At(t float64) (x, y, dx, dy, ddx, ddy float64) {
	s, k := math.Sincos(c.Phase + c.Hand*t)
	b, h := c.Base, c.Hand
	return b * (k + h*t*s), b * (s - h*t*k),
		b * t * k, b * t * s,
		b * (k - h*t*s), b * (s + h*t*k)
}

// Trochoid is the fillet that the rounded corner of a rack cuts while it rolls
// on the reference circle, over the angle theta between the rack's datum line
// and the contact normal: pi/2 at the root circle, alpha at the joint with the
// involute.
type Trochoid struct {
	Radius float64 // reference radius r, mm
	Depth  float64 // G, mm: how far the corner arc's centre lies below the pitch line
	Corner float64 // rho, mm: radius of the corner arc
	Across float64 // mm along the rack from the space's centre line to the arc's centre
	Centre float64 // polar angle of the space's centre line
	Hand   float64 // +1: the flank lies counter-clockwise of the space's centre, -1: clockwise
	T0, T1 float64 // range of theta
}

// Span returns the range of theta.
func (c Trochoid) Span() (t0, t1 float64) { return c.T0, c.T1 }

// At returns the point at theta and its first and second derivatives by theta.
func (c Trochoid) At(theta float64) (x, y, dx, dy, ddx, ddy float64) {
	s, k := math.Sincos(theta)
	g, r := c.Depth, c.Radius
	l := g/s + c.Corner // from the pitch point to the contact point
	l1 := -g * k / (s * s)
	l2 := g * (1 + k*k) / (s * s * s)
	// In the fixed frame: a along the space's centre line, b across it.
	a, b := r-l*s, l*k
	a1, b1 := -l1*s-l*k, l1*k-l*s
	a2, b2 := -l2*s-2*l1*k+l*s, l2*k-2*l1*s-l*k
	// The gear has rolled by phi.
	phi := (g*k/s - c.Across) / r
	p1 := -g / (r * s * s)
	p2 := 2 * g * k / (r * s * s * s)
	// Turning by -phi in the (a, b) frame, b positive toward the flank.
	da, db := a1+p1*b, b1-p1*a
	dda := a2 + 2*p1*b1 + p2*b - p1*p1*a
	ddb := b2 - 2*p1*a1 - p2*a - p1*p1*b
	sn, cs := math.Sincos(c.Centre - c.Hand*phi)
	h := c.Hand
	turn := func(u, v float64) (float64, float64) { return cs*u - sn*h*v, sn*u + cs*h*v }
	x, y = turn(a, b)
	dx, dy = turn(da, db)
	ddx, ddy = turn(dda, ddb)
	return
}

// polar returns radius and angle from the space's centre line, positive toward
// the flank, without the turn to Centre.
func (c Trochoid) polar(theta float64) (r, angle float64) {
	s, k := math.Sincos(theta)
	l := c.Depth/s + c.Corner
	a, b := c.Radius-l*s, l*k
	phi := (c.Depth*k/s - c.Across) / c.Radius
	return math.Hypot(a, b), math.Atan2(b, a) - phi
}
