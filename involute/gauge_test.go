package involute_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"ringtrack/involute"
)

// nearestToFlank returns the least distance of a point from the involute piece.
func nearestToFlank(c involute.Curve, px, py float64) float64 {
	at := func(u float64) float64 {
		x, y, _, _, _, _ := c.At(u)
		return math.Hypot(x-px, y-py)
	}
	best, n := 0, 400
	step := (c.T1 - c.T0) / float64(n)
	for i := range n + 1 {
		if at(c.T0+float64(i)*step) < at(c.T0+float64(best)*step) {
			best = i
		}
	}
	lo, hi := c.T0+float64(best-1)*step, c.T0+float64(best+1)*step
	for range 100 {
		a, b := lo+(hi-lo)/3, hi-(hi-lo)/3
		if at(a) < at(b) {
			hi = b
		} else {
			lo = a
		}
	}
	return at((lo + hi) / 2)
}

// TestPinTouchesBothFlanks puts the pin where OverPins and BetweenPins say and
// measures its distance from the drawn flanks.
func TestPinTouchesBothFlanks(t *testing.T) {
	over, between := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		tooth := anyTooth(t)
		m, z := tooth.Spec.Module, float64(tooth.Spec.Teeth)
		dp := tooth.IdealPin((tooth.FormRadius+tooth.TipRadius)/2) * rapid.Float64Range(0.9, 1.1).Draw(t, "pin")
		if p, err := tooth.OverPins(dp); err == nil && p.Contact > tooth.FormRadius*1.0001 && p.Contact < tooth.TipRadius*0.9999 {
			over++
			s, c := math.Sincos(-math.Pi / z) // the space clockwise of the tooth
			require.InDelta(t, dp/2, nearestToFlank(tooth.Flank(1), p.Centre*c, p.Centre*s), 1e-7*m+1e-10*p.Centre)
			opposite := math.Pi // two pins in spaces as nearly opposite as can be
			if tooth.Spec.Teeth%2 == 1 {
				opposite -= math.Pi / z
			}
			require.InEpsilon(t, 2*p.Centre*math.Sin(opposite/2)+dp, p.Dimension, 1e-12)
		}
		space := anySpace(t)
		m, z = space.Spec.Module, float64(space.Spec.Teeth)
		dp = space.IdealPin((space.FormRadius+space.TipRadius)/2) * rapid.Float64Range(0.9, 1.1).Draw(t, "pin")
		if p, err := space.BetweenPins(dp); err == nil && p.Contact > space.TipRadius*1.0001 && p.Contact < space.FormRadius*0.9999 {
			between++
			require.InDelta(t, dp/2, nearestToFlank(space.Flank(1), p.Centre, 0), 1e-7*m+1e-10*p.Centre)
			opposite := math.Pi
			if space.Spec.Teeth%2 == 1 {
				opposite -= math.Pi / z
			}
			require.InEpsilon(t, 2*p.Centre*math.Sin(opposite/2)-dp, p.Dimension, 1e-12)
		}
	})
	require.Greater(t, over, 20)
	require.Greater(t, between, 20)
}

// TestIdealPinTouchesThere: the ideal pin for a radius touches at that radius.
func TestIdealPinTouchesThere(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tooth, space := anyTooth(t), anySpace(t)
		f := rapid.Float64Range(0.1, 0.9).Draw(t, "f")
		r := tooth.FormRadius + f*(tooth.TipRadius-tooth.FormRadius)
		if p, err := tooth.OverPins(tooth.IdealPin(r)); err == nil {
			require.InEpsilon(t, r, p.Contact, 1e-9)
		}
		r = space.TipRadius + f*(space.FormRadius-space.TipRadius)
		if p, err := space.BetweenPins(space.IdealPin(r)); err == nil && space.IdealPin(r) > 0 {
			require.InEpsilon(t, r, p.Contact, 1e-9)
		}
	})
}

func TestPinsThatDoNotFit(t *testing.T) {
	in := map[string]float64{"m": 1, "alpha": 20, "z": 20, "x": 0}
	_, err := gaugeTooth(t, in).OverPins(0.01)
	var d *involute.DomainError
	require.ErrorAs(t, err, &d)
	require.Equal(t, 0.01, d.Value)
	in["z"] = 40
	_, err = spaceOf(t, in).BetweenPins(3)
	require.ErrorAs(t, err, &d)
	require.Equal(t, 3.0, d.Value)
}

// TestSpan: the jaws touch the outer flanks of k teeth at half the span along
// the base tangent; the teeth are those whose contact is nearest mid-flank.
func TestSpan(t *testing.T) {
	measured := 0
	rapid.Check(t, func(t *rapid.T) {
		tooth := anyTooth(t)
		k, contact, ok := tooth.SpanTeeth()
		if !ok {
			return
		}
		measured++
		w := tooth.Span(k)
		require.InEpsilon(t, math.Hypot(tooth.BaseRadius, w/2), contact, 1e-12)
		require.True(t, contact > tooth.FormRadius && contact < tooth.TipRadius)
		// Turned so that the group stands square to the jaw, the outer flank of
		// its last tooth reaches half the span and no further.
		turn := float64(k-1) * math.Pi / float64(tooth.Spec.Teeth)
		c := tooth.Flank(-1)
		c.Phase += turn
		most := math.Inf(-1)
		const n = 4000
		for i := range n + 1 {
			_, y, _, _, _, _ := c.At(c.T0 + (c.T1-c.T0)*float64(i)/n)
			most = math.Max(most, y)
		}
		require.InDelta(t, w/2, most, 1e-6*w)
		require.InDelta(t, math.Pi*tooth.Spec.Module*math.Cos(tooth.Spec.Rack.PressureAngle), tooth.Span(k+1)-w, 1e-10*w)
	})
	require.Greater(t, measured, 20)
}

// TestSpanTeeth: handbook rules for the number of teeth: z/9 + 0.5 at 20 degrees
// unshifted; 3.78787, so 4, for 24 teeth with x = 0.4 (Elements of Metric Gear
// Technology, table 10-8, from memory).
func TestSpanTeeth(t *testing.T) {
	for z, want := range map[float64]int{17: 2, 20: 3, 36: 5, 50: 6, 100: 12} {
		k, _, ok := toothOf(t, map[string]float64{"m": 1, "alpha": 20, "z": z}).SpanTeeth()
		require.True(t, ok)
		require.InDelta(t, want, k, 1, "z %g", z)
	}
	k, _, ok := toothOf(t, map[string]float64{"m": 3, "alpha": 20, "z": 24, "x": 0.4}).SpanTeeth()
	require.True(t, ok)
	require.Equal(t, 4, k)
}
