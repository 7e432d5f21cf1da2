package involute

import (
	"fmt"
	"math"
)

// SpaceSpec describes the tooth space of an internal gear.
type SpaceSpec struct {
	Module    float64 // mm
	Teeth     int     // z >= 1
	Rack      Rack    // RootRadius is not used: Corner says the arc
	Shift     float64 // profile shift coefficient x, positive enlarges the diameters
	TipRadius float64 // mm, the circle on which the ring's teeth end
	Corner    float64 // mm, wanted radius of the arc in each root corner
	Widening  float64 // mm of arc added to the space on the reference circle, half on each side
}

// Space is one tooth space of an internal gear, its centre on the x axis. In
// each root corner stands one circular arc tangent to the flank and to the root
// circle; where the flanks meet before the root circle, one arc tangent to both.
// Widening turns each flank together with its arc about the gear's centre.
type Space struct {
	Spec            SpaceSpec
	ReferenceRadius float64
	BaseRadius      float64
	TipRadius       float64
	RootRadius      float64 // as it came out: less than asked where the root circle vanishes
	CornerRadius    float64 // as it came out: at most full round
	FormRadius      float64 // where the true flank ends at the root
	FormLength      float64 // the same as a string length of the ring's involute
	Width           float64 // space width, arc on the reference circle, widened
	FullRound       bool    // one arc from flank to flank (before widening)

	centreRadius float64 // polar radius of the corner arc's centre
	centreHalf   float64 // and its polar angle, unwidened
	turn         float64 // by which widening turned each flank
}

// NewSpace works out the space.
//
// Errors: *DomainError naming what has no space: a tip inside the base circle,
// a root circle at or inside the tip circle, or ring teeth without a tip.
func NewSpace(s SpaceSpec) (*Space, error) {
	m, z := s.Module, float64(s.Teeth)
	r := m * z / 2
	p := &Space{
		Spec: s, ReferenceRadius: r, BaseRadius: r * math.Cos(s.Rack.PressureAngle),
		TipRadius:  s.TipRadius,
		RootRadius: r + m*(s.Rack.Dedendum+s.Shift),
		Width:      m*(math.Pi/2+2*s.Shift*math.Tan(s.Rack.PressureAngle)) + s.Widening,
		turn:       s.Widening / (2 * r),
	}
	if !(p.TipRadius > p.BaseRadius) {
		return nil, &DomainError{InsideBase, "the ring's tip radius in mm", p.TipRadius,
			fmt.Sprintf("more than its base circle's %.6g", p.BaseRadius)}
	}
	if !(s.Corner > 0) {
		return nil, &DomainError{BadCorner, "the ring's root radius in mm", s.Corner, "more than 0"}
	}
	if err := p.corner(); err != nil {
		return nil, err
	}
	if p.FormRadius <= p.TipRadius {
		return nil, &DomainError{TipInside, "the ring's tip radius in mm", p.TipRadius,
			fmt.Sprintf("less than its form circle's %.6g", p.FormRadius)}
	}
	if half := math.Pi/z - p.HalfAngle(p.TipRadius); !(half > 0) {
		return nil, &DomainError{Pointed, "the ring tooth's tip thickness in mm", 2 * p.TipRadius * half, "more than 0"}
	}
	return p, nil
}

// baseHalf returns the half space angle that the unwidened involutes would have
// on the base circle.
func (p *Space) baseHalf() float64 {
	s := p.Spec
	return (math.Pi/2+2*s.Shift*math.Tan(s.Rack.PressureAngle))/float64(s.Teeth) + Inv(s.Rack.PressureAngle)
}

// corner places the corner arc. Its centre lies on the flank's parallel curve,
// which is the same involute with its string shorter by the arc's radius, so
// both tangencies have closed forms in the string length.
func (p *Space) corner() error {
	rb, rf := p.BaseRadius, p.RootRadius
	rho := p.Spec.Corner
	if full := p.fullRound(rf); full > 0 {
		if p.FullRound = rho >= full; p.FullRound {
			rho = full
		}
		if !(rf-rho > rb) {
			return &DomainError{BadCorner, "the ring's root radius in mm", rho,
				fmt.Sprintf("less than %.6g, from root circle to base circle", rf-rb)}
		}
		p.place(rho, rho+StringLength(rb, rf-rho))
		return nil
	}
	// The flanks meet before the root circle: the arc stands between both.
	p.FullRound = true
	l := p.stringBetween(rho)
	if !(l > rho) {
		return &DomainError{BadCorner, "the ring's root radius in mm", rho, "small enough to stand between the flanks"}
	}
	p.place(rho, l)
	p.RootRadius = p.centreRadius + rho
	return nil
}

// place puts a corner arc of radius rho where the flank's string is l long.
func (p *Space) place(rho, l float64) {
	rb := p.BaseRadius
	p.CornerRadius, p.FormLength, p.FormRadius = rho, l, math.Hypot(rb, l)
	p.centreRadius = math.Hypot(rb, l-rho)
	p.centreHalf = p.centreAngle(rho, l)
	if p.FullRound {
		p.centreHalf = 0
	}
}

// centreAngle returns the polar angle of the arc's centre from the space's
// centre line, before widening.
func (p *Space) centreAngle(rho, l float64) float64 {
	return p.baseHalf() - l/p.BaseRadius + math.Atan2(l-rho, p.BaseRadius)
}

// fullRound returns the radius at which one arc touches both flanks and the
// root circle of radius rf; 0 where the flanks meet before it.
func (p *Space) fullRound(rf float64) float64 {
	rb := p.BaseRadius
	if rf <= rb || p.baseHalf() <= invAt(rb, StringLength(rb, rf)) {
		return 0
	}
	lo, hi := 0.0, rf-rb
	for range 80 {
		rho := (lo + hi) / 2
		if p.centreAngle(rho, rho+StringLength(rb, rf-rho)) > 0 {
			lo = rho
		} else {
			hi = rho
		}
	}
	return lo
}

// stringBetween returns the string length at which an arc of radius rho touches
// both flanks, 0 if it does nowhere outside the base circle.
func (p *Space) stringBetween(rho float64) float64 {
	lo, hi := rho, StringLength(p.BaseRadius, pointRadius(p.BaseRadius, p.baseHalf()))
	if p.centreAngle(rho, lo) <= 0 {
		return 0
	}
	for range 80 {
		if l := (lo + hi) / 2; p.centreAngle(rho, l) > 0 {
			lo = l
		} else {
			hi = l
		}
	}
	return lo
}

// CornerFor returns the largest corner radius, at most the one asked for, whose
// arc leaves the flank whole up to the string length l; 0 when none does.
func (p *Space) CornerFor(l float64) float64 {
	rb := p.BaseRadius
	rf := p.ReferenceRadius + p.Spec.Module*(p.Spec.Rack.Dedendum+p.Spec.Shift)
	if p.FormLength >= l {
		return p.CornerRadius
	}
	if p.fullRound(rf) > 0 {
		if l >= StringLength(rb, rf) {
			return 0 // the flank itself ends there
		}
		// (l - rho)^2 = (rf - rho)^2 - rb^2, solved for rho.
		return math.Min(p.CornerRadius, (StringLength(rb, rf)*StringLength(rb, rf)-l*l)/(2*(rf-l)))
	}
	lo, hi := 0.0, p.CornerRadius
	for range 80 {
		if rho := (lo + hi) / 2; p.stringBetween(rho) >= l {
			lo = rho
		} else {
			hi = rho
		}
	}
	return lo
}

// HalfAngle returns half the space angle at radius r on the involutes, widened:
// e/d + inv alpha - inv alpha_r.
func (p *Space) HalfAngle(r float64) float64 {
	return p.baseHalf() + p.turn - invAt(p.BaseRadius, StringLength(p.BaseRadius, r))
}

// WidthAt returns the space width, an arc in mm, at radius r between the tip
// circle and the form circle.
func (p *Space) WidthAt(r float64) float64 { return 2 * r * p.HalfAngle(r) }

// ToothThicknessAt returns the thickness of the ring's tooth, an arc in mm.
func (p *Space) ToothThicknessAt(r float64) float64 {
	return 2 * r * (math.Pi/float64(p.Spec.Teeth) - p.HalfAngle(r))
}

// Flank returns the involute of the flank counter-clockwise of the space's
// centre (hand -1, above the x axis) or of the other one (hand +1), from the
// tip circle to the form circle.
func (p *Space) Flank(hand float64) Curve {
	rb := p.BaseRadius
	return Curve{
		Base: rb, Phase: -hand * (p.baseHalf() + p.turn), Hand: hand,
		T0: StringLength(rb, p.TipRadius) / rb, T1: p.FormLength / rb,
	}
}

// CornerArc is the circular arc in a root corner of a Space.
type CornerArc struct {
	X, Y, R  float64 // centre and radius, mm
	From, To float64 // polar angles about the centre: at the flank and at the root circle
}

// Corner returns the arc beside the same flank.
func (p *Space) Corner(hand float64) CornerArc {
	at := -hand * (p.centreHalf + p.turn)
	s, c := math.Sincos(at)
	// The flank's normal points along its string: at the roll angle t the
	// string's direction is phase + hand*t - hand*pi/2.
	dir := -hand*(p.baseHalf()+p.turn) + hand*(p.FormLength/p.BaseRadius) - hand*math.Pi/2
	return CornerArc{X: p.centreRadius * c, Y: p.centreRadius * s, R: p.CornerRadius, From: dir, To: at}
}

// RootHalf returns half the angle of the arc on the root circle.
func (p *Space) RootHalf() float64 { return p.centreHalf + p.turn }
