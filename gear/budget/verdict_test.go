package budget

import (
	"context"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ringtrack/gear/find"
)

func work(t *testing.T, play float64, s Spreads, o Options) (*Result, []find.Finding) {
	t.Helper()
	o.Target = 0.05
	r, found, err := Work(context.Background(), pairOf(t, 2.5, 15, 104, play, 0.5), s, o)
	require.NoError(t, err)
	require.NotNil(t, r, "%v", found)
	return r, found
}

func TestVerdictGo(t *testing.T) {
	r, found := work(t, 0.7, usual(), Options{})
	v := r.Verdict
	assert.Equal(t, Go, v.Word)
	assert.Equal(t, "no", v.Binds)
	assert.Contains(t, v.Sentence, "run free")
	assert.Contains(t, v.Where, "the first joint")
	assert.Equal(t, "measure", v.Change.Kind)
	assert.Equal(t, r.WorstGuess, v.Change.Cause)
	assert.Zero(t, find.Count(found, find.Fault))
}

func TestVerdictDoNot(t *testing.T) {
	r, found := work(t, 0.2, usual(), Options{})
	v := r.Verdict
	assert.Equal(t, DoNot, v.Word)
	assert.Equal(t, "will", v.Binds)
	assert.Contains(t, v.Sentence, "It will bind at the first joint")
	assert.Contains(t, v.Sentence, "toward the ring's centre")
	require.Equal(t, 1, find.Count(found, find.Fault))
	assert.Equal(t, find.Jams, found[0].Code)
}

// The move that is told cures: with the motor there, the verdict is go, and one
// step less is not enough.
func TestVerdictMove(t *testing.T) {
	r, _ := work(t, 0.45, usual(), Options{})
	v := r.Verdict
	require.Equal(t, Marginal, v.Word)
	require.Equal(t, "move", v.Change.Kind)
	assert.Positive(t, v.Change.Value)
	m := modelOf(t, pairOf(t, 2.5, 15, 104, 0.45, 0.5), usual())
	low := func(move float64) float64 {
		c := *m
		c.a -= move
		b, err := c.chance(context.Background(), 10000, 0, 0.05, 0)
		require.NoError(t, err)
		return b.Least.Low
	}
	assert.GreaterOrEqual(t, low(v.Change.Value), 0.05-0.002)
	assert.Less(t, low(v.Change.Value-1.0/perMM), 0.05+0.002)
}

// Exact parts on an exact mount need no change and raise no finding.
func TestVerdictExact(t *testing.T) {
	r, found := work(t, 0.3, Spreads{}, Options{RimRadius: 150})
	assert.Equal(t, Go, r.Verdict.Word)
	assert.Empty(t, found)
	assert.Empty(t, r.Verdict.Change.Kind)
	assert.Empty(t, r.WorstGuess)
	assert.InDelta(t, 0.3, r.Builds.Least.Least, 1e-9)
	// 0.3 mm at the working circle of 130 mm.
	working := r.Felt.Nominal.Arc / r.Felt.Nominal.Angle
	assert.InDelta(t, 130, working, 0.1)
	assert.InDelta(t, 0.3*150/130, r.Felt.Nominal.Rim, 1e-3)
}

// Only guesses are reported, and the one that matters most is the caution.
func TestGuesses(t *testing.T) {
	s := usual()
	s.BearingPlay.Guessed = false
	r, found := work(t, 0.7, s, Options{})
	cautions := 0
	for _, f := range found {
		if f.Code != find.Guessed {
			continue
		}
		assert.NotEqual(t, "mounting.bearing_play", f.About)
		assert.NotEqual(t, "mounting.centre_distance_spread", f.About)
		if f.Level == find.Caution {
			cautions++
			assert.Equal(t, r.Row(r.WorstGuess).Key, f.About)
		}
	}
	assert.Equal(t, 1, cautions)
	best := 0.0
	for _, c := range r.Causes {
		if c.Guessed {
			best = math.Max(best, c.HalvingWins)
		}
	}
	assert.InDelta(t, best, r.Row(r.WorstGuess).HalvingWins, 1e-12)
}

// Measured directions move the tightest place.
func TestMeasuredDirections(t *testing.T) {
	s := Spreads{RingRunout: Measured(0.2)}
	r, _ := work(t, 0.6, s, Options{Directions: &Directions{Ring: 1}})
	assert.True(t, r.Turn.Measured)
	assert.InDelta(t, 1+math.Pi, r.Turn.Tightest.Place, 2*math.Pi/104)
	assert.InDelta(t, math.Pi-1, r.Turn.Tightest.Platform, 2*math.Pi/104)
	r, _ = work(t, 0.6, s, Options{})
	assert.False(t, r.Turn.Measured)
}

func TestMovementOf(t *testing.T) {
	pla, ok := MovementOf("PLA")
	assert.True(t, ok)
	assert.True(t, pla.Guessed)
	assert.InDelta(t, 68e-6, pla.Expansion, 1e-12)
	_, ok = MovementOf("cheese")
	assert.False(t, ok)
	for _, m := range movements {
		assert.True(t, m.expansion > 0 && m.expansion < 1e-3 && m.moisture >= 0 && m.moisture <= 0.05, m.name)
	}
}

// A ring that grows on a plate that does not has more play when warm.
func TestClimate(t *testing.T) {
	s := Spreads{Climate: Climate{Low: 0, High: 40, Set: 20, Ring: Movement{Expansion: 70e-6}, Pinion: Movement{Expansion: 70e-6}}}
	r, _ := work(t, 0.6, s, Options{})
	e := r.Row(Temperature).Effect
	m := modelOf(t, standard(t), s)
	want := 2 * m.tanW * 70e-6 * 20 * m.a // as if the plate had shrunk
	assert.InEpsilon(t, want, e.Greatest, 0.02)
	assert.InEpsilon(t, -want, e.Least, 0.02)
	assert.Zero(t, r.Row(Moisture).Effect)
	// All alike: the play only scales.
	s.Climate.Base = s.Climate.Ring
	r, _ = work(t, 0.6, s, Options{})
	assert.InDelta(t, 0.6*70e-6*20, r.Row(Temperature).Effect.Greatest, 1e-6)
}
