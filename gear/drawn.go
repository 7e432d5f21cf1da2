package gear

import (
	"math"

	"ringtrack/gear/plane"
	"ringtrack/involute"
)

// Drawn is what a drawn toothed outline measures, taken on the loop itself.
// Lengths in mm; a quantity that cannot be measured there is NaN.
type Drawn struct {
	TipDiameter    float64
	RootDiameter   float64
	ToothThickness float64 // arc on the reference circle
	SpaceWidth     float64 // arc on the reference circle
	Span           float64 // over the member's span teeth
	Pins           float64 // over (pinion) or between (ring) the member's pins
}

// MeasurePinion measures a drawn pinion outline.
func (p Pinion) MeasurePinion(l plane.Loop) Drawn {
	d := Drawn{Span: math.NaN(), Pins: math.NaN()}
	root, tip := l.Radii()
	d.TipDiameter, d.RootDiameter = 2*tip, 2*root
	r := p.ReferenceDiameter / 2
	d.ToothThickness = arcAt(l, r)
	d.SpaceWidth = math.Pi*p.Module - d.ToothThickness
	if p.SpanTeeth > 0 {
		d.Span = spanOn(l, p.SpanTeeth)
	}
	if p.Pins != nil {
		d.Pins = pinsOn(l, p.Pins.Diameter, math.Pi/float64(p.Teeth), p.Pins.Centre, p.Teeth, 1)
	}
	return d
}

// MeasureRing measures a drawn ring outline.
func (r Ring) MeasureRing(l plane.Loop) Drawn {
	d := Drawn{Span: math.NaN(), Pins: math.NaN()}
	tip, root := l.Radii()
	d.TipDiameter, d.RootDiameter = 2*tip, 2*root
	d.SpaceWidth = arcAt(l, r.ReferenceDiameter/2)
	d.ToothThickness = math.Pi*r.Module - d.SpaceWidth
	if r.Pins != nil {
		d.Pins = pinsOn(l, r.Pins.Diameter, 0, r.Pins.Centre, r.Teeth, -1)
	}
	return d
}

// arcAt returns the arc, centred on the x axis, that the unit's two crossings
// with the circle of radius r cut out; NaN where there are not two.
func arcAt(l plane.Loop, r float64) float64 {
	h := l.AtRadius(r)
	if len(h) != 2 {
		return math.NaN()
	}
	return r * math.Abs(h[1].Angle-h[0].Angle)
}

// spanOn measures the base tangent length over k teeth: turned so that the
// group of teeth stands symmetrically to the x axis, its last flank reaches
// half the span in y. NaN where a jaw would touch an edge.
func spanOn(l plane.Loop, k int) float64 {
	turn := plane.Turned(float64(k-1) * math.Pi / float64(l.Turns()))
	best := math.NaN()
	for _, p := range l.Unit {
		c, ok := p.(plane.Curve)
		if !ok {
			continue
		}
		if _, flank := c.Base.(involute.Curve); !flank {
			continue
		}
		if reach, inside := plane.Extent(p.Map(turn), math.Pi/2); inside && !(reach <= best) {
			best = reach
		}
	}
	return 2 * best
}

// pinsOn measures over (side +1) or between (side -1) two pins of diameter dp in
// the spaces beside the direction axis: the pin's centre lies on that axis where
// its distance from the loop's unit is half its diameter; start is where theory
// expects it.
func pinsOn(l plane.Loop, dp, axis, start float64, teeth int, side float64) float64 {
	gap := func(r float64) float64 {
		c := plane.Polar(r, axis)
		d := math.Inf(1)
		for _, p := range l.Unit {
			d = math.Min(d, plane.PieceDistance(p, c))
		}
		return d - dp/2
	}
	// Over pins the gap grows outward, between pins inward.
	lo, hi := start-dp/2, start+dp/2
	if side < 0 {
		lo, hi = hi, lo
	}
	if gap(lo) > 0 || gap(hi) < 0 {
		return math.NaN()
	}
	for range 80 {
		if mid := (lo + hi) / 2; gap(mid) < 0 {
			lo = mid
		} else {
			hi = mid
		}
	}
	c := (lo + hi) / 2
	if teeth%2 == 1 {
		return 2*c*math.Cos(math.Pi/2/float64(teeth)) + side*dp
	}
	return 2*c + side*dp
}
