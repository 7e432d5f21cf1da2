package involute_test

import (
	"errors"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"ringtrack/involute"
)

// TestStandardRacks gives each type's root radius at 20 degrees and away from it
// by hand: the least of the type's value, cP/(1 - sin alpha) and full round,
// (pi/4 - hfP tan alpha)/tan(45 deg - alpha/2).
func TestStandardRacks(t *testing.T) {
	for _, tt := range []struct {
		kind                byte
		alpha               float64
		dedendum, radius    float64
		places              int // 0: the radius is exact
		rule                involute.RadiusRule
		straight, leastFull float64 // straight dedendum and full round, 4 places; 0: not checked
	}{
		{'A', 20, 1.25, 0.38, 0, involute.RadiusOfType, 1.0000, 0.4719},
		{'B', 20, 1.25, 0.30, 0, involute.RadiusOfType, 1.0526, 0.4719},
		{'C', 20, 1.25, 0.25, 0, involute.RadiusOfType, 1.0855, 0.4719},
		{'D', 20, 1.40, 0.39, 0, involute.RadiusOfType, 1.1434, 0.3939},
		{'A', 14.5, 1.25, 0.3335, 4, involute.RadiusOfDepth, 1.0000, 0}, // 0.25/(1 - 0.25038)
		{'A', 22.5, 1.25, 0.38, 0, involute.RadiusOfType, 0, 0.4005},
		{'A', 25, 1.25, 0.3179, 4, involute.RadiusOfRound, 0, 0.3179}, // (0.78540 - 0.58288)/0.63707
		{'A', 30, 1.25, 0.1103, 4, involute.RadiusOfRound, 0, 0.1103}, // (0.78540 - 0.72169)/0.57735
		{'B', 25, 1.25, 0.30, 0, involute.RadiusOfType, 0, 0},
		{'C', 30, 1.25, 0.1103, 4, involute.RadiusOfRound, 0, 0},
		{'D', 14.5, 1.40, 0.39, 0, involute.RadiusOfType, 0, 0},
		{'D', 25, 1.40, 0.2081, 4, involute.RadiusOfRound, 0, 0}, // (0.78540 - 0.65283)/0.63707
		{'D', 29.2, 1.40, 0.0051, 4, involute.RadiusOfRound, 0, 0},
	} {
		r, rule, err := involute.StandardRack(tt.kind, deg(tt.alpha))
		require.NoError(t, err, "%c %g", tt.kind, tt.alpha)
		require.Equal(t, 1.0, r.Addendum)
		require.Equal(t, tt.dedendum, r.Dedendum)
		require.Equal(t, tt.rule, rule, "%c %g", tt.kind, tt.alpha)
		within := 0.0
		if tt.places > 0 {
			within = 0.5 * math.Pow10(-tt.places)
		}
		require.InDelta(t, tt.radius, r.RootRadius, within, "%c %g", tt.kind, tt.alpha)
		if tt.straight > 0 {
			require.InDelta(t, tt.straight, r.StraightDedendum(), 0.5e-4)
		}
		if tt.leastFull > 0 {
			require.InDelta(t, tt.leastFull, r.FullRound(), 0.5e-4)
		}
	}
}

func TestRackWithoutLand(t *testing.T) {
	// atan(pi/4/1.4) = 29.291 degrees: from there on type D's flanks meet above
	// the root line.
	for _, alpha := range []float64{29.3, 30} {
		_, _, err := involute.StandardRack('D', deg(alpha))
		var d *involute.DomainError
		require.ErrorAs(t, err, &d)
		require.Equal(t, involute.BadRack, d.Cause)
		require.Equal(t, 1.4, d.Value)
	}
	for _, kind := range []byte("ABC") {
		_, _, err := involute.StandardRack(kind, deg(30))
		require.NoError(t, err)
	}
	_, _, err := involute.StandardRack('E', deg(20))
	require.Error(t, err)
}

func TestRackCheck(t *testing.T) {
	good := involute.Rack{PressureAngle: deg(20), Addendum: 1, Dedendum: 1.25, RootRadius: 0.38}
	require.NoError(t, good.Check())
	nan := math.NaN()
	for name, change := range map[string]func(*involute.Rack){
		"no pressure angle":    func(r *involute.Rack) { r.PressureAngle = 0 },
		"upright":              func(r *involute.Rack) { r.PressureAngle = math.Pi / 2 },
		"NaN angle":            func(r *involute.Rack) { r.PressureAngle = nan },
		"no addendum":          func(r *involute.Rack) { r.Addendum = 0 },
		"NaN addendum":         func(r *involute.Rack) { r.Addendum = nan },
		"no dedendum":          func(r *involute.Rack) { r.Dedendum = -1 },
		"flanks meet":          func(r *involute.Rack) { r.Dedendum = 2.2 },
		"radius above round":   func(r *involute.Rack) { r.RootRadius = 0.48 },
		"negative root radius": func(r *involute.Rack) { r.RootRadius = -0.1 },
		"NaN root radius":      func(r *involute.Rack) { r.RootRadius = nan },
	} {
		bad := good
		change(&bad)
		var d *involute.DomainError
		require.ErrorAs(t, bad.Check(), &d, name)
		require.Equal(t, involute.BadRack, d.Cause, name)
	}
	full := good
	full.RootRadius = good.FullRound()
	require.NoError(t, full.Check())
}

// TestUndercutLimit finds the limit of each rack on the teeth themselves: one
// step of shift below SmallestShift undercuts, SmallestShift does not.
func TestUndercutLimit(t *testing.T) {
	found := 0
	for _, kind := range []byte("ABCD") {
		for _, alpha := range []float64{14.5, 17.5, 20, 22.5, 25, 28} {
			rack, _, err := involute.StandardRack(kind, deg(alpha))
			require.NoError(t, err)
			for _, z := range []int{8, 12, 17, 25, 40} {
				x := rack.SmallestShift(z, 0)
				require.InDelta(t, float64(z), rack.SmallestTeeth(x), 1e-9)
				at := func(x float64) *involute.Tooth {
					s := involute.ToothSpec{Module: 1, Teeth: z, Rack: rack, Shift: x}
					s.TipRadius = math.Min(float64(z)/2+1+x, s.PointRadius()*(1-1e-6))
					tooth, err := involute.NewTooth(s)
					var d *involute.DomainError
					if errors.As(err, &d) {
						require.Equal(t, involute.TipInside, d.Cause) // pointed at once
						return nil
					}
					return tooth
				}
				onset, below, above := at(x+1e-6), at(x-0.02), at(rack.SmallestShift(z, 0.1))
				if onset == nil || below == nil || above == nil {
					continue
				}
				found++
				require.Zero(t, onset.Undercut)
				require.Greater(t, below.Undercut, 0.0, "%c %g z %d", kind, alpha, z)
				require.Less(t, below.Undercut, 0.01)
				require.InDelta(t, 0.1, above.FormLength, 1e-12)
			}
		}
	}
	require.Greater(t, found, 100)
}

// TestFirstTeethWithoutUndercut is the well-known 17 and what becomes of it:
// type A cuts less than 0.02 um from 17 teeth at module 1, type B needs 18.
func TestFirstTeethWithoutUndercut(t *testing.T) {
	a, _, err := involute.StandardRack('A', deg(20))
	require.NoError(t, err)
	b, _, err := involute.StandardRack('B', deg(20))
	require.NoError(t, err)
	a17 := newTooth(t, a, 1, 17, 0)
	require.InDelta(t, -0.0165, a17.RackLength, 0.5e-4)
	require.Greater(t, a17.Undercut, 0.0)
	require.Less(t, a17.Undercut, 0.02e-3)
	a18 := newTooth(t, a, 1, 18, 0)
	require.Zero(t, a18.Undercut)
	b18 := newTooth(t, b, 1, 18, 0)
	require.InDelta(t, 0.0006, b18.RackLength, 0.5e-4)
	require.Zero(t, b18.Undercut)
	require.Greater(t, newTooth(t, b, 1, 17, 0).Undercut, 0.0)
}
