package involute

import "math"

// Inv returns the involute function tan(alpha) - alpha.
//
//	alpha  radians, 0 <= alpha < pi/2
//
// The relative error is below 2e-15 for alpha from 1e-6 to 1.5690.
//
// Method: below 1 rad the two terms cancel, so Lambert's continued fraction
// tan(a) = a/(1 - q), q = a^2/(3 - a^2/(5 - ...)), gives tan(a) - a = a q/(1 - q)
// without a difference (Abramowitz and Stegun, 4.3.94, from memory).
//
// Outside the domain the result is that of the formula, or NaN.
func Inv(alpha float64) float64 {
	if math.Abs(alpha) >= 1 {
		return math.Tan(alpha) - alpha
	}
	s := alpha * alpha
	q := 0.0
	for k := 23.0; k >= 3; k -= 2 {
		q = s / (k - q)
	}
	return alpha * q / (1 - q)
}

// InvInverse returns the pressure angle alpha with Inv(alpha) = v.
//
//	v      inv(alpha), radians, 0 <= v < +Inf
//	alpha  radians, 0 <= alpha < pi/2
//
// The relative error of alpha is below 2e-15 for alpha from 1e-6 to 1.5690.
//
// Method: Newton from the right. Inv is convex and rising, and both cbrt(3v)
// and atan(v + pi/2) lie at or above the root, so the steps fall monotonically
// and cannot leave the domain.
//
// Errors: *DomainError when v is negative, NaN or infinite.
func InvInverse(v float64) (float64, error) {
	if !(v >= 0) || math.IsInf(v, 1) {
		return 0, &DomainError{BadArgument, "the involute function's value", v, "0 or more, finite"}
	}
	if v == 0 {
		return 0, nil
	}
	a := math.Min(math.Cbrt(3*v), math.Atan(v+math.Pi/2))
	for range 60 {
		t := math.Tan(a)
		step := (Inv(a) - v) / (t * t)
		next := a - step
		if !(next > 0 && next < a) {
			break // rounding, or the tangent's own limit near pi/2: no progress
		}
		a = next
	}
	return a, nil
}

// PressureAngle returns the pressure angle of the involute of base radius rb at
// radius r, 0 where r <= rb.
func PressureAngle(rb, r float64) float64 {
	if r <= rb {
		return 0
	}
	return math.Atan2(StringLength(rb, r), rb)
}

// StringLength returns L, the length along the tangent to the base circle at
// which the involute has radius r: sqrt(r^2 - rb^2), 0 where r <= rb.
func StringLength(rb, r float64) float64 {
	if r <= rb {
		return 0
	}
	return math.Sqrt((r - rb) * (r + rb))
}

// invAt returns Inv of the pressure angle at string length l.
func invAt(rb, l float64) float64 { return Inv(math.Atan2(l, rb)) }
