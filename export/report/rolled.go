package report

import (
	"fmt"
	"math"

	"ringtrack/gear/roll"
)

// Rolled is what rolling the outlines against each other found. Lengths mm,
// angles radians.
type Rolled struct {
	Source  string // files, design
	Pitches float64
	// Least, Mean and Greatest are the circumferential backlash, an arc on the
	// working circle.
	Least, Mean, Greatest float64
	AtTooth               int // ring space with the least, 0 on +x, counter-clockwise
	// Forward and Backward are the transmission error along the line of action,
	// peak to peak; NaN where the base radii are not known.
	Forward, Backward float64
	SmallestGap       float64
	Binds             bool
	Where             string // empty unless it binds
	Result            *roll.Result
}

// NewRolled gathers the report's figures from a rolling.
func NewRolled(r roll.Result, source string) *Rolled {
	out := &Rolled{
		Source: source, Pitches: pitches(r), Result: &r,
		Least: r.Backlash.Least.Arc, Mean: r.Backlash.Mean.Arc, Greatest: r.Backlash.Greatest.Arc,
		AtTooth: space(r, r.Backlash.LeastAt),
		Forward: action(r.Forward.Error), Backward: action(r.Backward.Error),
		SmallestGap: r.Gap.Distance, Binds: r.Binding != nil,
	}
	if b := r.Binding; b != nil {
		out.Where = bindingText(r)
		out.AtTooth = space(r, b.At)
	}
	return out
}

// action returns an error along the line of action; NaN when the base radii
// were not known.
func action(a roll.Amount) float64 {
	if a.Action == 0 && a.Ring != 0 {
		return math.NaN()
	}
	return a.Action
}

// pitches returns how many pitches were rolled.
func pitches(r roll.Result) float64 {
	switch r.Span {
	case roll.OnePitch:
		return 1
	case roll.RingTurn:
		return float64(r.RingTeeth)
	}
	return float64(r.RingTeeth*r.PinionTeeth) / float64(gcd(r.RingTeeth, r.PinionTeeth))
}

func gcd(a, b int) int {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// space returns the ring's tooth space that stands in the mesh at a position,
// numbered counter-clockwise from the one on +x at ring angle 0.
func space(r roll.Result, at roll.Interval) int {
	n := r.RingTeeth
	k := int(math.Round(-at.Exact / (2 * math.Pi) * float64(n)))
	return ((k % n) + n) % n
}

// bindingText says where and by how much it binds.
func bindingText(r roll.Result) string {
	b := r.Binding
	at := space(r, b.At)
	share := ""
	if b.Share > 0 && b.Share < 1 {
		share = fmt.Sprintf(", in %.0f %% of the positions", 100*b.Share)
	}
	if j := b.At.Jam; j != nil {
		who := "the ring's tip runs into the pinion's root"
		if j.PinionTip {
			who = "the pinion's tip runs into the ring's root"
		}
		return fmt.Sprintf("%s by %.3f mm at ring space %d%s", who, j.Depth, at, share)
	}
	text := fmt.Sprintf("the teeth overlap by %.3f mm at ring space %d", b.By.Arc, at)
	if c := b.At.Low; c.Valid {
		text += fmt.Sprintf(", touching at radius %.3f mm of the pinion and %.3f mm of the ring", c.PinionRadius, c.RingRadius)
	}
	return text + share
}
