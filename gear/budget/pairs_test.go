package budget

import (
	"context"
	"math"
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"ringtrack/gear"
)

const deg = math.Pi / 180

// pairOf returns a pair with the given backlash whose tips stay clear over a
// spread of the centre distance.
func pairOf(t testing.TB, module float64, z1, z2 int, play, spread float64) *gear.Pair {
	t.Helper()
	p, found := gear.Resolve(gear.Wish{
		Module: module, PressureAngle: 20 * deg, Pinion: gear.MemberWish{Teeth: z1}, Ring: gear.MemberWish{Teeth: z2},
		Backlash: gear.Fixed(play), Share: 0.5, RackType: 'A', LeastTip: 0.2, Spread: spread,
	})
	require.NotNil(t, p, "%v", found)
	return p
}

// standard is the pair of most tests.
func standard(t testing.TB) *gear.Pair { return pairOf(t, 2.5, 15, 104, 0.6, 0.5) }

// usual is the spreads of a printed drive on a bought bearing.
func usual() Spreads {
	pla, _ := MovementOf("pla")
	ply, _ := MovementOf("plywood")
	return Spreads{
		MakingPinion: Guess(0.05), MakingRing: Guess(0.05), CentreDistance: Measured(0.1), BearingPlay: Guess(0.5),
		RingRunout: Guess(0.2), PinionRunout: Guess(0.1), RingOvality: Guess(0.2), JointStep: Guess(0.1), Segments: 4,
		Tilt: Guess(0.5 * deg), FaceWidth: 10,
		Climate: Climate{Low: 15, High: 30, Set: Reference, Pinion: pla, Ring: pla, Base: ply},
	}
}

// asked reports whether slow tests are asked for.
func asked() bool { return os.Getenv("RINGTRACK_SLOW") == "1" }

// modelOf returns the model of a pair.
func modelOf(t testing.TB, p *gear.Pair, s Spreads) *model {
	t.Helper()
	m, err := newModel(context.Background(), p, s, 0)
	require.NoError(t, err)
	return m
}
