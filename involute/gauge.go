package involute

import "math"

// Span returns W_k, the base tangent length over k teeth of the thinned tooth.
//
// W_k = m cos(alpha) (pi (k - 1/2) + z inv(alpha)) + 2 x m sin(alpha) - ds cos(alpha).
// Source: ISO 21771:2007, span measurement (from memory).
func (t *Tooth) Span(k int) float64 {
	s := t.Spec
	sin, cos := math.Sincos(s.Rack.PressureAngle)
	z := float64(s.Teeth)
	return s.Module*cos*(math.Pi*(float64(k)-0.5)+z*Inv(s.Rack.PressureAngle)) +
		2*s.Shift*s.Module*sin - s.Thinning*cos
}

// SpanTeeth returns the number of teeth over which the span is best measured:
// the one that touches nearest to the middle of the flank, and the radius at
// which the jaws touch. ok is false when no count touches the true flank.
func (t *Tooth) SpanTeeth() (k int, contact float64, ok bool) {
	middle := (t.FormLength + StringLength(t.BaseRadius, t.TipRadius)) / 2
	best := math.Inf(1)
	for i := 1; i <= t.Spec.Teeth/2+1; i++ {
		half := t.Span(i) / 2
		if d := math.Abs(half - middle); d < best {
			best, k = d, i
		}
	}
	half := t.Span(k) / 2
	contact = math.Hypot(t.BaseRadius, half)
	return k, contact, half > t.FormLength && contact < t.TipRadius
}

// Pins is a dimension over, or between, two pins.
type Pins struct {
	Diameter  float64 // of each pin, mm
	Dimension float64 // over the pins (external) or between them (internal), mm
	Centre    float64 // radius of the pins' centres, mm
	Contact   float64 // radius at which a pin touches the flanks, mm
}

// OverPins returns the dimension over two pins of diameter dp in opposite
// spaces, or as nearly opposite as an odd number of teeth has them.
//
// inv(phi) = dp/db + s/d + inv(alpha) - pi/z; M = db/cos(phi) + dp, for odd z
// with db/cos(phi) times cos(90 deg/z). Source: handbook of gear technology,
// pin measurement; check values in testdata.
//
// Errors: *DomainError when the pin drops below the base circle.
func (t *Tooth) OverPins(dp float64) (Pins, error) {
	rb := t.BaseRadius
	phi, err := InvInverse(dp/(2*rb) + t.baseHalf() - t.turn - math.Pi/float64(t.Spec.Teeth))
	if err != nil {
		return Pins{}, &DomainError{BadArgument, "the pin's diameter in mm", dp, "larger: it touches no involute"}
	}
	c := rb / math.Cos(phi)
	return Pins{dp, 2*c*oddFactor(t.Spec.Teeth) + dp, c, contactRadius(rb, rb*math.Tan(phi)-dp/2)}, nil
}

// BetweenPins returns the dimension between two pins of diameter dp in opposite
// spaces of the internal gear.
//
// inv(phi) = e/d + inv(alpha) - dp/db; M = db/cos(phi) - dp, for odd z with
// db/cos(phi) times cos(90 deg/z). Source as for OverPins.
//
// Errors: *DomainError when the pin is too thick to touch the involutes.
func (p *Space) BetweenPins(dp float64) (Pins, error) {
	rb := p.BaseRadius
	phi, err := InvInverse(p.baseHalf() + p.turn - dp/(2*rb))
	if err != nil {
		return Pins{}, &DomainError{BadArgument, "the pin's diameter in mm", dp, "smaller: it touches no involute"}
	}
	c := rb / math.Cos(phi)
	return Pins{dp, 2*c*oddFactor(p.Spec.Teeth) - dp, c, contactRadius(rb, rb*math.Tan(phi)+dp/2)}, nil
}

func contactRadius(rb, l float64) float64 {
	if l < 0 {
		return 0
	}
	return math.Hypot(rb, l)
}

func oddFactor(z int) float64 {
	if z%2 == 0 {
		return 1
	}
	return math.Cos(math.Pi / 2 / float64(z))
}

// IdealPin returns the diameter of the pin that touches the flanks at radius r.
// The usual choice is r = d/2 + x m.
func (t *Tooth) IdealPin(r float64) float64 {
	rb := t.BaseRadius
	half := math.Pi/float64(t.Spec.Teeth) - (t.baseHalf() - t.turn) // of the space, on the base circle
	phi := StringLength(rb, r)/rb + half
	return 2 * rb * (Inv(phi) + half)
}

// IdealPin returns the diameter of the pin that touches the ring's flanks at
// radius r. The usual choice is r = d/2 + x m.
func (p *Space) IdealPin(r float64) float64 {
	rb := p.BaseRadius
	half := p.baseHalf() + p.turn
	phi := StringLength(rb, r)/rb - half
	return 2 * rb * (half - Inv(phi))
}
