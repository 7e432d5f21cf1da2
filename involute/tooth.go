package involute

import (
	"fmt"
	"math"
)

// ToothSpec describes a tooth of an external gear as a rack cuts it.
type ToothSpec struct {
	Module    float64 // mm
	Teeth     int     // z >= 1
	Rack      Rack
	Shift     float64 // profile shift coefficient x
	TipRadius float64 // mm
	Thinning  float64 // mm of arc taken off the thickness on the reference circle, half from each flank
}

// Tooth is one tooth of an external gear, its centre on the x axis. Thinning
// turns each flank together with its fillet about the gear's centre: diameters
// and form circle stay, the root arc grows.
type Tooth struct {
	Spec            ToothSpec
	ReferenceRadius float64
	BaseRadius      float64
	RootRadius      float64
	TipRadius       float64
	FormRadius      float64 // where the true flank ends at the root
	FormLength      float64 // L_F: the same along the line of action, from the base tangent point; never negative
	RackLength      float64 // L_F by the rack's straight flank alone; negative when it undercuts
	Undercut        float64 // mm of involute lost, radially; 0 without undercut
	Thickness       float64 // arc on the reference circle, thinned
	Neck            float64 // least thickness (arc) along the fillets, thinned

	joint float64 // theta at which fillet and involute meet
	turn  float64 // by which thinning turned each flank
}

// NewTooth works out the tooth.
//
// Errors: *DomainError naming what has no tooth: the rack, a root circle that
// vanishes, a tip inside the form circle (or above the point of the tooth), or
// fillets that cut the tooth off.
func NewTooth(s ToothSpec) (*Tooth, error) {
	if err := s.Rack.Check(); err != nil {
		return nil, err
	}
	m, z := s.Module, float64(s.Teeth)
	r := m * z / 2
	sin, cos := math.Sincos(s.Rack.PressureAngle)
	t := &Tooth{
		Spec: s, ReferenceRadius: r, BaseRadius: r * cos, TipRadius: s.TipRadius,
		RootRadius: r - m*(s.Rack.Dedendum-s.Shift),
		RackLength: r*sin - m*(s.Rack.StraightDedendum()-s.Shift)/sin,
		Thickness:  m*(math.Pi/2+2*s.Shift*math.Tan(s.Rack.PressureAngle)) - s.Thinning,
		turn:       s.Thinning / (2 * r),
	}
	if !(t.RootRadius > 0) {
		return nil, &DomainError{RootLost, "the root circle's radius in mm", t.RootRadius, "more than 0"}
	}
	t.findJoint()
	if t.FormRadius >= t.TipRadius {
		return nil, &DomainError{TipInside, "the tip circle's radius in mm", t.TipRadius,
			fmt.Sprintf("more than the form circle's %.6g", t.FormRadius)}
	}
	if p := t.PointRadius(); !(t.TipRadius < p) {
		return nil, &DomainError{Pointed, "the tip circle's radius in mm", t.TipRadius,
			fmt.Sprintf("less than %.6g, where the tooth comes to a point", p)}
	}
	if t.Neck = t.neck(); !(t.Neck > 0) {
		return nil, &DomainError{CutOff, "the tooth's thickness at its root in mm", t.Neck, "more than 0"}
	}
	return t, nil
}

// findJoint finds where fillet and involute meet: at the end of the rack's
// straight flank, or, undercut, at their crossing, found by bracketing.
func (t *Tooth) findJoint() {
	alpha := t.Spec.Rack.PressureAngle
	rb := t.BaseRadius
	if t.RackLength >= 0 {
		t.joint = alpha
		t.FormLength = t.RackLength
		t.FormRadius = math.Hypot(rb, t.FormLength)
		return
	}
	f := t.trochoid(1)
	// excess is positive while the fillet leaves the tooth thicker than the involute.
	excess := func(theta float64) (d, l float64) {
		r, a := f.polar(theta)
		l = StringLength(rb, r)
		return (math.Pi/float64(t.Spec.Teeth) - a) - (t.baseHalf() - invAt(rb, l)), l
	}
	// The fillet's radius falls from its end at alpha to the root circle inside
	// the base circle; the crossing lies before it passes the base circle.
	lo, hi := alpha, math.Pi/2
	for range 100 {
		mid := (lo + hi) / 2
		if d, l := excess(mid); d > 0 && l > 0 {
			lo = mid
		} else {
			hi = mid
		}
	}
	t.joint = (lo + hi) / 2
	_, t.FormLength = excess(lo)
	t.FormRadius = math.Hypot(rb, t.FormLength)
	t.Undercut = t.FormLength * t.FormLength / (t.FormRadius + rb) // = FormRadius - rb
}

// trochoid returns the unthinned fillet with its space's centre on the x axis.
func (t *Tooth) trochoid(hand float64) Trochoid {
	s := t.Spec
	m, k := s.Module, s.Rack
	d := k.Dedendum - k.RootRadius
	return Trochoid{
		Radius: t.ReferenceRadius, Corner: m * k.RootRadius, Depth: m * (d - s.Shift),
		Across: m * (math.Pi/4 - d*math.Tan(k.PressureAngle) - k.RootRadius/math.Cos(k.PressureAngle)),
		Hand:   hand, T0: t.joint, T1: math.Pi / 2,
	}
}

// baseHalf returns the half tooth angle that the unthinned involutes would have
// on the base circle.
func (t *Tooth) baseHalf() float64 { return t.Spec.baseHalf() }

func (s ToothSpec) baseHalf() float64 {
	return (math.Pi/2+2*s.Shift*math.Tan(s.Rack.PressureAngle))/float64(s.Teeth) + Inv(s.Rack.PressureAngle)
}

// neck returns the least thickness along the fillets.
func (t *Tooth) neck() float64 {
	const n = 64
	f := t.trochoid(1)
	least := math.Inf(1)
	for i := range n + 1 {
		r, a := f.polar(t.joint + (math.Pi/2-t.joint)*float64(i)/n)
		least = math.Min(least, 2*r*(math.Pi/float64(t.Spec.Teeth)-a-t.turn))
	}
	return least
}

// HalfAngle returns half the tooth angle at radius r on the involutes, thinned:
// s/d + inv alpha - inv alpha_r. It is negative beyond the point of the tooth.
func (t *Tooth) HalfAngle(r float64) float64 {
	return t.baseHalf() - t.turn - invAt(t.BaseRadius, StringLength(t.BaseRadius, r))
}

// ThicknessAt returns the tooth thickness, an arc in mm, at radius r between
// the form circle and the tip circle.
func (t *Tooth) ThicknessAt(r float64) float64 { return 2 * r * t.HalfAngle(r) }

// PointRadius returns the radius at which the flanks of such a tooth meet.
func (s ToothSpec) PointRadius() float64 {
	d := s.Module * float64(s.Teeth)
	return pointRadius(d/2*math.Cos(s.Rack.PressureAngle), s.baseHalf()-s.Thinning/d)
}

// PointRadius returns the radius at which the flanks meet.
func (t *Tooth) PointRadius() float64 { return t.Spec.PointRadius() }

// pointRadius returns where involutes with the half angle half on the base
// circle meet; rb where they do not reach it.
func pointRadius(rb, half float64) float64 {
	a, err := InvInverse(half)
	if err != nil {
		return rb
	}
	return rb / math.Cos(a)
}

// RadiusOfLand returns the largest radius, at most from, at which the tooth is
// at least land mm thick (arc); the form radius when it is thinner everywhere
// on the flank.
func (t *Tooth) RadiusOfLand(land, from float64) float64 {
	const n = 200
	top := math.Min(from, t.PointRadius())
	if t.ThicknessAt(top) >= land {
		return top
	}
	step := (top - t.FormRadius) / n
	for i := 1; i <= n; i++ {
		lo := top - float64(i)*step
		if t.ThicknessAt(lo) < land {
			continue
		}
		hi := lo + step
		for range 60 {
			if mid := (lo + hi) / 2; t.ThicknessAt(mid) >= land {
				lo = mid
			} else {
				hi = mid
			}
		}
		return lo
	}
	return t.FormRadius
}

// WithTip returns the same tooth with another tip radius.
func (t *Tooth) WithTip(r float64) (*Tooth, error) {
	s := t.Spec
	s.TipRadius = r
	return NewTooth(s)
}

// Flank returns the involute of the flank clockwise of the tooth's centre
// (hand +1, below the x axis) or of the other one (hand -1), from the form
// circle to the tip.
func (t *Tooth) Flank(hand float64) Curve {
	rb := t.BaseRadius
	return Curve{
		Base: rb, Phase: -hand * (t.baseHalf() - t.turn), Hand: hand,
		T0: math.Max(t.FormLength/rb, leastRoll), T1: StringLength(rb, t.TipRadius) / rb,
	}
}

// leastRoll keeps a flank that begins on the base circle clear of the cusp,
// where its direction is undefined; it moves the end by rb * 5e-15.
const leastRoll = 1e-7

// Fillet returns the trochoid beside the same flank, from its joint with the
// involute (T0) to the root circle (T1).
func (t *Tooth) Fillet(hand float64) Trochoid {
	f := t.trochoid(hand)
	f.Centre = hand * (t.turn - math.Pi/float64(t.Spec.Teeth))
	return f
}

// RootHalf returns half the angle of the arc on the root circle between two teeth.
func (t *Tooth) RootHalf() float64 {
	return t.trochoid(1).Across/t.ReferenceRadius + t.turn
}
