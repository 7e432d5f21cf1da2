package solid

import (
	"fmt"
	"math"
)

// ChannelKind is why a channel cannot be drilled.
type ChannelKind int

// The kinds of ChannelError.
const (
	MeetsLevel   ChannelKind = iota // it meets the end, a chamfer, cone or fillet of a wall
	RunsOff                         // its sides run off a wall, or the wall turns back within them
	CutsAskew                       // a wall crosses the plane of an end or of a shoulder
	MeetsChannel                    // two channels meet
	MissesBody                      // it passes no material
	BadShoulder                     // neither of two sections that follow one another lies within the other
)

// ChannelError says why a channel cannot be drilled, and what would do.
type ChannelError struct {
	Kind    ChannelKind
	Channel int    // which, from 0
	Step    int    // which of its steps
	Wall    int    // the wall concerned, -1 for none
	Name    string // of that wall
	Other   int    // the other channel, -1 for none

	// For MeetsLevel: the nearest heights of the axis, below and above, at which
	// the channel clears every end and slope of the walls on its way; NaN where
	// there is none within the body.
	Below, Above float64
	// For RunsOff: the radius below which the step stays on the wall, mm. For
	// CutsAskew: the nearest places of the end, inward and outward, that leave
	// the wall whole, mm from the axis.
	Radius          float64
	Inward, Outward float64
}

// Error says it in one sentence.
func (e *ChannelError) Error() string {
	who := fmt.Sprintf("channel %d, step %d,", e.Channel, e.Step)
	wall := fmt.Sprintf("wall %d", e.Wall)
	if e.Name != "" {
		wall += " (" + e.Name + ")"
	}
	switch e.Kind {
	case MeetsLevel:
		return fmt.Sprintf("%s meets an end or a slope of %s: %s", who, wall, e.heights())
	case RunsOff:
		return fmt.Sprintf("%s runs off %s: its radius must be below %.6g mm", who, wall, e.Radius)
	case CutsAskew:
		return fmt.Sprintf("%s ends within %s: it must end less than %.6g mm from the axis, or more than %.6g mm", who, wall, e.Inward, e.Outward)
	case MeetsChannel:
		return fmt.Sprintf("channels %d and %d meet", e.Channel, e.Other)
	case BadShoulder:
		return fmt.Sprintf("%s and the next cross: one section must lie within the other", who)
	}
	return fmt.Sprintf("channel %d passes no material", e.Channel)
}

func (e *ChannelError) heights() string {
	below, above := !math.IsNaN(e.Below), !math.IsNaN(e.Above)
	switch {
	case below && above:
		return fmt.Sprintf("its axis must lie below %.6g mm or above %.6g mm", e.Below, e.Above)
	case below:
		return fmt.Sprintf("its axis must lie below %.6g mm", e.Below)
	case above:
		return fmt.Sprintf("its axis must lie above %.6g mm", e.Above)
	}
	return "no height of its axis clears them all"
}
