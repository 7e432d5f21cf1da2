package budget

import (
	"context"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"ringtrack/gear"
	"ringtrack/gear/find"
)

func TestBadInput(t *testing.T) {
	nan := math.NaN()
	for _, tt := range []struct {
		name  string
		code  find.Code
		about string
		set   func(*Spreads, *Options)
	}{
		{"negative making", find.OutOfRange, "making.pinion.spread", func(s *Spreads, _ *Options) { s.MakingPinion.Value = -0.05 }},
		{"negative ring making", find.OutOfRange, "making.ring.spread", func(s *Spreads, _ *Options) { s.MakingRing.Value = -0.05 }},
		{"negative distance", find.OutOfRange, "mounting.centre_distance_spread", func(s *Spreads, _ *Options) { s.CentreDistance.Value = -0.1 }},
		{"negative play", find.OutOfRange, "mounting.bearing_play", func(s *Spreads, _ *Options) { s.BearingPlay.Value = -0.1 }},
		{"play over the module", find.OutOfRange, "mounting.bearing_play", func(s *Spreads, _ *Options) { s.BearingPlay.Value = 2.6 }},
		{"run-out over the module", find.OutOfRange, "mounting.ring_runout", func(s *Spreads, _ *Options) { s.RingRunout.Value = 3 }},
		{"run-out no number", find.OutOfRange, "mounting.pinion_runout", func(s *Spreads, _ *Options) { s.PinionRunout.Value = nan }},
		{"oval without end", find.OutOfRange, "mounting.ring_ovality", func(s *Spreads, _ *Options) { s.RingOvality.Value = math.Inf(1) }},
		{"step over the module", find.OutOfRange, "mounting.joint_step", func(s *Spreads, _ *Options) { s.JointStep.Value = 2.51 }},
		{"step without joints", find.Contradicts, "mounting.joint_step", func(s *Spreads, _ *Options) { s.Segments = 1 }},
		{"too many segments", find.OutOfRange, "ring.segments", func(s *Spreads, _ *Options) { s.Segments = 105 }},
		{"negative tilt", find.OutOfRange, "mounting.tilt", func(s *Spreads, _ *Options) { s.Tilt.Value = -0.01 }},
		{"tilt over the module", find.OutOfRange, "mounting.tilt", func(s *Spreads, _ *Options) { s.Tilt.Value = 0.26 }},
		{"tilt without a face", find.OutOfRange, "ring.face_width", func(s *Spreads, _ *Options) { s.FaceWidth = 0 }},
		{"temperatures crossed", find.Contradicts, "mounting.temperature", func(s *Spreads, _ *Options) { s.Climate.Low = 40 }},
		{"set outside the range", find.Contradicts, "mounting.temperature", func(s *Spreads, _ *Options) { s.Climate.Set = 10 }},
		{"furnace", find.OutOfRange, "mounting.temperature", func(s *Spreads, _ *Options) { s.Climate.High = 900 }},
		{"temperature no number", find.OutOfRange, "mounting.temperature", func(s *Spreads, _ *Options) { s.Climate.High = nan }},
		{"growth", find.OutOfRange, "ring.material", func(s *Spreads, _ *Options) { s.Climate.Ring.Expansion = 1 }},
		{"negative target", find.OutOfRange, "teeth.backlash", func(_ *Spreads, o *Options) { o.Target = -0.1 }},
		{"contradictory play", find.Contradicts, "teeth.backlash", func(_ *Spreads, o *Options) { o.Target = 0.7 }},
		{"steps without joints", find.Contradicts, "mounting.joint_step", func(_ *Spreads, o *Options) { o.Directions = &Directions{Steps: []float64{0.1}} }},
		{"measured step", find.OutOfRange, "mounting.joint_step", func(_ *Spreads, o *Options) { o.Directions = &Directions{Steps: []float64{9, 0, 0, 0}} }},
		{"direction no number", find.OutOfRange, "mounting", func(_ *Spreads, o *Options) { o.Directions = &Directions{Oval: nan} }},
		{"rim", find.OutOfRange, "platform.diameter", func(_ *Spreads, o *Options) { o.RimRadius = -1 }},
	} {
		t.Run(tt.name, func(t *testing.T) {
			s, o := usual(), Options{Target: 0.05, Builds: 10}
			tt.set(&s, &o)
			r, found, err := Work(context.Background(), standard(t), s, o)
			require.NoError(t, err)
			assert.Nil(t, r)
			require.Len(t, found, 1, "%v", found)
			assert.Equal(t, tt.code, found[0].Code)
			assert.Equal(t, tt.about, found[0].About)
			assert.Equal(t, find.Fault, found[0].Level)
			assert.NotEmpty(t, found[0].Text)
			_, again := auto(t, standard(t), s, o)
			assert.Equal(t, found, again)
		})
	}
}

// All that is wrong comes at once.
func TestBadInputTogether(t *testing.T) {
	s := usual()
	s.BearingPlay.Value, s.RingRunout.Value, s.Climate.Low = -1, 9, 50
	_, found, err := Work(context.Background(), standard(t), s, Options{})
	require.NoError(t, err)
	assert.Len(t, found, 3)
}

// Whatever is allowed gives numbers: rows that add up, bounds in order, shares
// between 0 and 1, nothing that is not a number.
func TestAllowedInput(t *testing.T) {
	pairs := []*gear.Pair{standard(t), pairOf(t, 1, 9, 40, 0.2, 0.1), pairOf(t, 3, 20, 60, 0.3, 0.1)}
	rapid.Check(t, func(rt *rapid.T) {
		p := rapid.SampledFrom(pairs).Draw(rt, "pair")
		mod := p.Pinion.Module
		length := func(name string) Amount {
			return Amount{rapid.Float64Range(0, mod).Draw(rt, name), rapid.Bool().Draw(rt, name+" guessed")}
		}
		s := Spreads{
			MakingPinion: length("pinion"), MakingRing: length("ring"), CentreDistance: length("distance"), BearingPlay: length("play"),
			RingRunout: length("ring run-out"), PinionRunout: length("pinion run-out"), RingOvality: length("oval"),
			JointStep: length("step"), Segments: rapid.IntRange(2, 12).Draw(rt, "segments"), FirstJoint: rapid.IntRange(-5, 50).Draw(rt, "first"),
			Tilt: Measured(rapid.Float64Range(0, 0.02).Draw(rt, "tilt")), FaceWidth: 10,
			Climate: Climate{Low: 0, High: 40, Set: 20, Ring: Movement{Expansion: rapid.Float64Range(-1e-4, 1e-4).Draw(rt, "heat"), Moisture: 0.01}},
		}
		r, found, err := Work(context.Background(), p, s, Options{Builds: 200, Target: 0.01, RimRadius: 200})
		require.NoError(rt, err)
		require.NotNil(rt, r, "%v", found)
		sum := r.Nominal
		for _, c := range r.Causes {
			require.True(rt, finite(c.Effect.Least, c.Effect.Greatest, c.HalvingWins), "%+v", c)
			sum += c.Effect.Least
		}
		assert.InDelta(rt, r.Least.WorstCase, sum, 1e-9)
		b := r.Builds
		require.True(rt, finite(r.Least.WorstCase, r.Least.RootSumSquare, r.Greatest.WorstCase, r.Greatest.RootSumSquare,
			b.Least.Low, b.Greatest.High, r.Turn.Tightest.Play, r.Turn.Loosest.Play, r.Setting.Distance, r.Auto.Backlash, r.Verdict.Change.Value))
		assert.True(rt, b.BindingShare >= 0 && b.BindingShare <= 1 && b.TargetShare+b.BindingShare <= 1+1e-12)
		assert.NotEmpty(rt, r.Verdict.Sentence)
	})
}
