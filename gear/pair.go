package gear

import (
	"ringtrack/involute"
)

// Pair is a pinion and a ring at their centre distance, as designed: thinned
// for backlash, before making allowances.
type Pair struct {
	Wish   Wish
	Pinion Pinion
	Ring   Ring

	ReferenceCentreDistance float64
	CentreDistance          float64
	WorkingPressureAngle    float64
	ContactRatio            float64 // usable
	ContactRatioFormula     float64
	Path                    Path
	Backlash                Backlash
	TipClearancePinion      float64 // pinion's tip to the ring's root
	TipClearanceRing        float64 // ring's tip to the pinion's root
	TipCornerGap            float64 // least distance of the pinion's tip corner from the ring's root corner over a pass; +Inf where it never comes into the space
	Interference            Interference
	Chosen                  []Chosen
}

// Member is what pinion and ring have in common. Diameters in mm.
type Member struct {
	Teeth             int
	Module            float64
	PressureAngle     float64
	Rack              involute.Rack // of the ring, RootRadius is its corner arc over m
	RadiusRule        involute.RadiusRule
	Shift             float64
	ReferenceDiameter float64
	BaseDiameter      float64
	WorkingDiameter   float64
	TipDiameter       float64
	RootDiameter      float64
	FormDiameter      float64
	ActiveDiameter    float64
	ToothThickness    float64 // arc on the reference circle
	SpaceWidth        float64 // arc on the reference circle
	TipThickness      float64 // arc on the tip circle
	Thinning          float64 // of the tooth (pinion), widening of the space (ring), arc on the reference circle
	Pins              *involute.Pins
	Flexible          *Flexible // nil: the teeth are not changed for bending
}

// Pinion is the small gear.
type Pinion struct {
	Member
	Tooth      *involute.Tooth
	Undercut   float64 // mm of involute lost, radially
	SpanTeeth  int     // 0 when no span touches the flanks
	SpanLength float64
}

// Ring is the internal gear.
type Ring struct {
	Member
	Space *involute.Space
}

// Path holds the lengths along the line of action, from the pinion's base
// tangent point.
type Path struct{ RingTip, PinionForm, PinionTip, RingForm float64 }

// Backlash holds the play of the parts as designed at the nominal centre distance.
type Backlash struct {
	Circumferential float64 // j_wt, arc on the working circles, mm
	Normal          float64 // j_bn, mm
	Radial          float64 // j_r = j_wt/(2 tan alpha_w), mm (ISO 21771)
	AnglePinion     float64 // radians
	AngleRing       float64
	Source          string  // given, rule; budget where the budget chose what is given
	Asked           float64 // what was given or the rule came to
	Free            float64 // j_wt that shifts and centre distance alone leave
	AtFar           float64 // j_wt at the larger end of the spread
}

// Ratio returns z2/z1.
func (p *Pair) Ratio() float64 { return float64(p.Ring.Teeth) / float64(p.Pinion.Teeth) }

// CommonFactor returns the greatest common divisor of the tooth counts.
func (p *Pair) CommonFactor() int {
	a, b := p.Pinion.Teeth, p.Ring.Teeth
	for b != 0 {
		a, b = b, a%b
	}
	return a
}
