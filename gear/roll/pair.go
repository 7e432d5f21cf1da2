package roll

import (
	"fmt"
	"math"

	"ringtrack/gear/plane"
)

// Pair is two outlines at a centre distance.
type Pair struct {
	Pinion         plane.Loop // counter-clockwise: material inside
	Ring           plane.Loop // clockwise: material outside
	CentreDistance float64    // mm, more than 0
	PinionOff      plane.Vec  // mm, where the pinion's centre lies as seen from its axis, at pinion angle 0
	RingOff        plane.Vec  // mm, the same for the ring
}

// Span says over how much of the motion to roll.
type Span int

// The spans.
const (
	// Auto takes one pitch where all teeth are alike and both centres true, and
	// a turn of the ring otherwise.
	Auto Span = iota
	OnePitch
	RingTurn
	// WholeCycle goes on until the same pair of teeth meets again.
	WholeCycle
)

// Options are the choices of a rolling. Zero values stand for the defaults.
type Options struct {
	PinionTeeth, RingTeeth int     // 0: counted on the outlines
	BaseRing               float64 // base radius of the ring's flanks, mm, for amounts along the line of action; 0: not known
	Span                   Span
	Steps                  int     // positions a pitch, 720
	CoarseSteps            int     // positions a pitch over a turn or cycle, 24
	Touch                  float64 // mm of arc at the working circle within which a pair of flanks counts as touching, 1e-6
	Join                   float64 // mm, the largest gap between neighbouring pieces of a loop, 1e-6
	Workers                int     // goroutines, the number of processors; results do not depend on it
	// Progress, if set, is called with the positions done so far, in rising
	// order and never by two goroutines at once.
	Progress func(done, total int)
}

// InputError says why a pair cannot be rolled.
type InputError struct {
	Member string // "pinion", "ring", or "" for both together
	Text   string
}

func (e *InputError) Error() string {
	if e.Member == "" {
		return e.Text
	}
	return "the " + e.Member + ": " + e.Text
}

func bad(member, format string, args ...any) error {
	return &InputError{member, fmt.Sprintf(format, args...)}
}

// withDefaults fills in what was left open.
func (o Options) withDefaults() Options {
	def := func(v *int, d int) {
		if *v <= 0 {
			*v = d
		}
	}
	def(&o.Steps, 720)
	def(&o.CoarseSteps, 24)
	if !(o.Touch > 0) {
		o.Touch = 1e-6
	}
	if !(o.Join > 0) {
		o.Join = 1e-6
	}
	return o
}

// checkNumbers refuses what is no number or no distance.
func (p Pair) checkNumbers() error {
	finite := func(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }
	if !finite(p.CentreDistance) || p.CentreDistance <= 0 {
		return bad("", "the centre distance is %g mm; it must be more than 0", p.CentreDistance)
	}
	for _, v := range []float64{p.PinionOff.X, p.PinionOff.Y, p.RingOff.X, p.RingOff.Y} {
		if !finite(v) {
			return bad("", "an eccentricity is %g mm; it must be a number", v)
		}
	}
	return nil
}
