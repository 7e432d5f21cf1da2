package load

import "math"

// Curvature returns the radius, mm, of the cylinder that presses on a plane as
// these two flanks press on each other: 1/(1/rho1 + 1/rho2), rho2 negative for
// a hollow flank.
func Curvature(rho1, rho2 float64) float64 { return 1 / (1/rho1 + 1/rho2) }

// Pressure returns the greatest pressure, MPa, between two cylinders.
//
//	line    N/mm, force over length of contact
//	radius  mm, as by Curvature
//
// sqrt(line E*/(pi radius)), 1/E* = (1 - nu1^2)/E1 + (1 - nu2^2)/E2. Source:
// Hertz 1881, as in textbooks of machine design (from memory).
func Pressure(line, radius float64, a, b Elastic) float64 {
	return math.Sqrt(line / (math.Pi * radius * (1/a.wide() + 1/b.wide())))
}

// halfWidth returns b_H, mm, half the width of the contact strip.
func halfWidth(line, radius float64, a, b Elastic) float64 {
	return math.Sqrt(4 * line * radius / math.Pi * (1/a.wide() + 1/b.wide()))
}

// Flattening returns by how much, mm, the two flanks come nearer at the
// contact, measured at the depths t1 and t2 (Lever.Depth).
//
// line (1 - nu^2)/(pi E) (2 ln(2 t/b_H) - nu/(1 - nu)), summed over both. Source:
// Weber and Banaschek 1953 (from memory), written for two materials. A strip
// wider than about the tooth's depth is beyond the formula; that member's part
// then counts as nothing.
func Flattening(line, radius, t1, t2 float64, a, b Elastic) float64 {
	if !(line > 0) {
		return 0
	}
	h := halfWidth(line, radius, a, b)
	one := func(t float64, e Elastic) float64 {
		return line / (math.Pi * e.wide()) * (2*math.Log(2*t/h) - e.Poisson/(1-e.Poisson))
	}
	return math.Max(0, one(t1, a)) + math.Max(0, one(t2, b))
}
