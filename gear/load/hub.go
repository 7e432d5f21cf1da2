package load

import (
	"math"

	"ringtrack/gear/part"
	"ringtrack/gear/stock"
)

// Hub is a pinion's bore on its shaft.
type Hub struct {
	Bore        part.Bore
	Length      float64 // mm of bore that bears on the shaft
	Flat        float64 // mm of it that bears on the shaft's flat; 0: all
	TipRadius   float64 // mm, of the pinion
	Face        float64 // mm, of the pinion's teeth
	Material    stock.Mechanics
	Print       stock.Print
	Temperature float64 // degC, the warmest it gets
	Screw       *ScrewHold
	Nut         bool // the screw sits in a nut trapped in the hub
}

// Holding is what a hub holds.
type Holding struct {
	Flat     float64 // N mm: torque at which the bore's flat yields, short and at 23 degC
	Warm     float64 // N mm: the same at the hub's temperature
	Creep    float64 // N mm: the same for weeks: beyond it the bore works itself round
	Slip     float64 // N mm: at which the set screw slips on a round shaft; 0 without one
	Screw    float64 // N mm: usable part of Slip
	Torque   float64 // N mm: what may be asked of the hub for long, the larger of Creep and Screw
	Blow     float64 // N mm: what it stands once, the larger of Warm and Slip
	Catches  bool    // the flat stops the shaft from turning
	Slack    float64 // radians of the shaft, from one flat's corner to the other
	Tilt     float64 // radians to either side
	Wobble   float64 // mm to and fro along the axis at the tip circle, from the tilt
	Runout   float64 // mm: eccentricity from the clearance, either way
	AcrossBy float64 // mm: by which the tooth's flank stands askew over its face width
	Source   string
}

// holdingSource names what the estimate rests on.
const holdingSource = "pressure rising evenly from the middle of the flat to its corner, at most the tensile strength: common practice; creep a third, flexible a quarter: common practice"

// Holding returns what the hub holds and how it wobbles.
//
// The flat presses on one half of its width, nothing in the middle and most at
// the corner: p L w^2/12 with w the flat's width. The tensile strength stands
// for the crushing strength, which for plastics is higher; the corner of a loose
// bore bears on less than half, and the two roughly cancel (common practice, not
// measured). Screw and flat are not added: the first slip decides.
//
// Clearances are the designed ones; what the process adds is the measured part's
// matter.
//
// Errors: *InputError for a bore without length or diameter.
func (h Hub) Holding() (Holding, error) {
	for _, c := range []struct {
		what string
		v    float64
	}{{"the length of the bore in mm", h.Length}, {"the shaft's diameter in mm", h.Bore.Diameter}} {
		if err := positive(c.what, c.v); err != nil {
			return Holding{}, err
		}
	}
	out := Holding{Source: holdingSource}
	r := h.Bore.Diameter / 2
	if h.Bore.Shape == "d" {
		out.Slack, out.Catches = h.slack()
		strength := StrainOf(h.Material, h.Print, 23).Strength.Least
		w := FlatWidth(h.Bore.Diameter, h.Bore.AcrossFlat)
		long := h.Length
		if h.Flat > 0 {
			long = math.Min(long, h.Flat)
		}
		if out.Catches {
			out.Flat = strength * long * w * w / 12
		}
		out.Warm = out.Flat * h.Material.Warm(h.Temperature)
		out.Creep = out.Warm * h.Material.Lasting()
	}
	if h.Screw != nil {
		out.Slip, out.Screw = h.Screw.Torque(r, h.Nut)
	}
	out.Torque = math.Max(out.Creep, out.Screw)
	out.Blow = math.Max(out.Warm, out.Slip)
	out.Tilt = math.Atan2(h.Bore.Clearance, h.Length)
	out.Wobble = 2 * h.TipRadius * math.Tan(out.Tilt)
	out.Runout = h.Bore.Clearance / 2
	out.AcrossBy = h.Face * math.Tan(out.Tilt)
	return out, nil
}

// FlatWidth returns the width of a shaft's flat, mm: the chord at AcrossFlat from
// the far side.
func FlatWidth(diameter, acrossFlat float64) float64 {
	r := diameter / 2
	f := acrossFlat - r
	if f >= r || f <= -r {
		return 0
	}
	return 2 * math.Sqrt((r-f)*(r+f))
}

// slack returns by how much the shaft turns in a bore about the same centre,
// from one corner of its flat on the bore's flat to the other, and whether the
// flat stops it at all.
func (h Hub) slack() (angle float64, catches bool) {
	r := h.Bore.Diameter / 2
	shaft, bore := h.Bore.AcrossFlat-r, h.Bore.FlatDistance()
	switch {
	case bore <= shaft:
		return 0, true
	case bore >= r:
		return 0, false
	}
	return 2 * (math.Acos(shaft/r) - math.Acos(bore/r)), true
}
