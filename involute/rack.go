package involute

import "math"

// Rack is the basic rack profile of ISO 53, its lengths over m.
type Rack struct {
	PressureAngle float64 // alpha, radians
	Addendum      float64 // haP
	Dedendum      float64 // hfP
	RootRadius    float64 // rho_fP
}

// RadiusRule says what decided a rack's root radius.
type RadiusRule string

// The rules, in the order in which they are tried.
const (
	RadiusOfType  RadiusRule = "the type's value"
	RadiusOfDepth RadiusRule = "cP/(1 - sin alpha)"
	RadiusOfRound RadiusRule = "full round"
	RadiusGiven   RadiusRule = "given"
)

// StandardRack returns the basic rack of type A, B, C or D at the pressure
// angle alpha (radians) and what decided its root radius.
//
// Values: ISO 53:1998, table 1 (from memory; A, B, C: haP 1, cP 0.25, rho 0.38,
// 0.30, 0.25; D: cP 0.40, rho 0.39). The standard knows 20 degrees alone. Away
// from it addendum and dedendum stay and the root radius is the least of the
// type's value, cP/(1 - sin alpha), where the fillet would use up the whole
// clearance, and full round.
//
// Errors: *DomainError for another type, or where the rack has no land left
// (type D from 29.3 degrees).
func StandardRack(kind byte, alpha float64) (Rack, RadiusRule, error) {
	r := Rack{PressureAngle: alpha, Addendum: 1}
	clearance := 0.25
	switch kind {
	case 'A':
		r.RootRadius = 0.38
	case 'B':
		r.RootRadius = 0.30
	case 'C':
		r.RootRadius = 0.25
	case 'D':
		clearance, r.RootRadius = 0.40, 0.39
	default:
		return Rack{}, "", &DomainError{BadRack, "the rack's type", float64(kind), "A, B, C or D"}
	}
	r.Dedendum = r.Addendum + clearance
	rule := RadiusOfType
	if math.Abs(alpha-20*math.Pi/180) > 1e-12 {
		if v := clearance / (1 - math.Sin(alpha)); v < r.RootRadius {
			r.RootRadius, rule = v, RadiusOfDepth
		}
		if v := r.FullRound(); v < r.RootRadius {
			r.RootRadius, rule = v, RadiusOfRound
		}
	}
	return r, rule, r.Check()
}

// FullRound returns the root radius, over m, at which the rack's root is one
// arc from flank to flank; 0 or less where the flanks meet above the root line.
func (r Rack) FullRound() float64 {
	return (math.Pi/4 - r.Dedendum*math.Tan(r.PressureAngle)) / math.Tan(math.Pi/4-r.PressureAngle/2)
}

// StraightDedendum returns hFfP, over m: how far below the datum line the
// rack's straight flank reaches.
func (r Rack) StraightDedendum() float64 {
	return r.Dedendum - r.RootRadius*(1-math.Sin(r.PressureAngle))
}

// Check returns a *DomainError when no rack has these proportions.
func (r Rack) Check() error {
	switch full := r.FullRound(); {
	case !(r.PressureAngle > 0 && r.PressureAngle < math.Pi/2):
		return &DomainError{BadRack, "the rack's pressure angle in radians", r.PressureAngle, "between 0 and pi/2"}
	case !(r.Addendum > 0):
		return &DomainError{BadRack, "the rack's addendum over m", r.Addendum, "more than 0"}
	case !(r.Dedendum > 0):
		return &DomainError{BadRack, "the rack's dedendum over m", r.Dedendum, "more than 0"}
	case !(full > 0):
		return &DomainError{BadRack, "the rack's dedendum over m", r.Dedendum, "less than pi/4 / tan(alpha), where its flanks meet"}
	case !(r.RootRadius >= 0 && r.RootRadius <= full*(1+1e-12)):
		return &DomainError{BadRack, "the rack's root radius over m", r.RootRadius, "from 0 to full round"}
	}
	return nil
}

// SmallestTeeth returns the number of teeth, as a real number, from which the
// rack at profile shift x undercuts no tooth: 2 (hFfP - x)/sin^2 alpha.
func (r Rack) SmallestTeeth(x float64) float64 {
	s := math.Sin(r.PressureAngle)
	return 2 * (r.StraightDedendum() - x) / (s * s)
}

// SmallestShift returns the profile shift coefficient from which the rack
// leaves at least the length l (over m) of the line of action between the base
// tangent point and the form point of a gear with z teeth; l = 0 is the
// undercut limit.
func (r Rack) SmallestShift(z int, l float64) float64 {
	s := math.Sin(r.PressureAngle)
	return r.StraightDedendum() - s*(float64(z)*s/2-l)
}
