package gear

import (
	"math"

	"ringtrack/involute"
)

// Choice is a value that may be given or left to the rule.
type Choice struct {
	Value float64
	Given bool
}

// Fixed returns a given value.
func Fixed(v float64) Choice { return Choice{v, true} }

// or returns the given value, otherwise v.
func (c Choice) or(v float64) float64 {
	if c.Given {
		return c.Value
	}
	return v
}

// Wish is what a pair is resolved from.
type Wish struct {
	Module         float64 // mm
	PressureAngle  float64 // of the basic rack
	Pinion, Ring   MemberWish
	CentreDistance Choice  // mm
	Backlash       Choice  // j_wt, mm
	Share          float64 // part of the thinning taken from the pinion, 0..1
	RackType       byte    // 'A' to 'D'
	LeastTip       float64 // mm, least tip thickness
	Spread         float64 // mm, the centre distance is good to plus or minus this
	ProcessPlay    float64 // mm, what the default backlash adds for the way of making
}

// MemberWish is one member's part of it.
type MemberWish struct {
	Teeth      int
	Shift      Choice // profile shift coefficient
	TipRadius  Choice // mm
	Addendum   Choice // over m, instead of the rack's
	Dedendum   Choice // over m
	RootRadius Choice // over m; of the ring: the arc in its corners
}

// rack returns the member's basic rack and what decided its root radius. With a
// given addendum or dedendum the radius is the least of the type's value, the
// one that uses up the clearance, and full round.
func (w Wish) rack(m MemberWish) (involute.Rack, involute.RadiusRule, error) {
	r, rule, err := involute.StandardRack(w.RackType, w.PressureAngle)
	if !(m.Addendum.Given || m.Dedendum.Given || m.RootRadius.Given) {
		return r, rule, err
	}
	r.Addendum = m.Addendum.or(r.Addendum)
	r.Dedendum = m.Dedendum.or(r.Dedendum)
	if m.RootRadius.Given {
		r.RootRadius, rule = m.RootRadius.Value, involute.RadiusGiven
		return r, rule, r.Check()
	}
	if c := (r.Dedendum - r.Addendum) / (1 - math.Sin(r.PressureAngle)); c > 0 && c < r.RootRadius {
		r.RootRadius, rule = c, involute.RadiusOfDepth
	}
	if full := r.FullRound(); full > 0 && full < r.RootRadius {
		r.RootRadius, rule = full, involute.RadiusOfRound
	}
	return r, rule, r.Check()
}

// Chosen is one value that the rule chose.
type Chosen struct {
	Key    string  // the job's key, section.key
	Value  float64 // mm, or a coefficient
	Reason string
}
