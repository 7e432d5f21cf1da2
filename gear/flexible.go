package gear

import (
	"math"

	"ringtrack/gear/plane"
)

// Flexible is what a member's teeth are changed by because they bend: backlash
// that yielding flanks make up for is given back to the teeth, and tips that
// would meet the next tooth too early are taken back. The change comes after the
// thinning and before the making.
type Flexible struct {
	Thicker      float64    // mm of arc on the reference circle: teeth thicker, spaces narrower
	Relief       float64    // mm taken off the flank along its normal, at the tip
	Length       float64    // mm along the line of action over which the relief fades out
	From         float64    // mm, radius at which the relief begins; 0 without one
	TipThickness float64    // mm, arc on the tip circle, as it comes out
	Outline      plane.Loop // toothed outline as it comes out
}

// Finished returns what the finished pinion's teeth measure: as designed, with
// the flexible step. NaN for what cannot be measured.
func (p Pinion) Finished() Drawn {
	if p.Flexible != nil {
		return p.MeasurePinion(p.Flexible.Outline)
	}
	d := Drawn{
		TipDiameter: p.TipDiameter, RootDiameter: p.RootDiameter, ToothThickness: p.ToothThickness, SpaceWidth: p.SpaceWidth,
		Span: math.NaN(), Pins: math.NaN(),
	}
	if p.SpanTeeth > 0 {
		d.Span = p.SpanLength
	}
	if p.Pins != nil {
		d.Pins = p.Pins.Dimension
	}
	return d
}

// Finished returns the same for the ring.
func (r Ring) Finished() Drawn {
	if r.Flexible != nil {
		return r.MeasureRing(r.Flexible.Outline)
	}
	d := Drawn{
		TipDiameter: r.TipDiameter, RootDiameter: r.RootDiameter, ToothThickness: r.ToothThickness, SpaceWidth: r.SpaceWidth,
		Span: math.NaN(), Pins: math.NaN(),
	}
	if r.Pins != nil {
		d.Pins = r.Pins.Dimension
	}
	return d
}

// GivenBack returns the circumferential backlash, mm, that was given back to
// flexible teeth.
func (p *Pair) GivenBack() float64 {
	sum := 0.0
	for _, x := range []*Flexible{p.Pinion.Flexible, p.Ring.Flexible} {
		if x != nil {
			sum += x.Thicker
		}
	}
	return sum * math.Cos(p.Pinion.PressureAngle) / math.Cos(p.WorkingPressureAngle)
}
