package load

import (
	"math"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// standard returns the profile of a full-depth tooth of z teeth, or of a rack.
func standard(t testing.TB, z string) *Profile {
	if n, err := strconv.Atoi(z); err == nil {
		return external(t, tooth(t, 1, n, 0))
	}
	return rackProfile(t)
}

// The closed form to 1e-9, the printed table within 0.8 %: it was read from
// charts.
func TestFormFactorsOfTheTextbook(t *testing.T) {
	worst := 0.0
	for _, r := range rows(t, "form-factors.txt") {
		p := standard(t, r[1])
		f, err := p.Form(p.Tip(), 1, 20*degree)
		require.NoError(t, err)
		got := f.YF
		if r[0] == "YSa" {
			got = f.YS
		}
		tol := 1e-9
		if r[1] == "inf" {
			tol = 2e-6 // the rack was recomputed as a gear of 1e7 teeth
		}
		assert.InEpsilon(t, num(t, r[3]), got, tol, "%v", r)
		off := got/num(t, r[2]) - 1
		worst = math.Max(worst, math.Abs(off))
		assert.Less(t, math.Abs(off), 0.008, "%v", r)
		assert.True(t, f.InRange)
	}
	t.Logf("worst difference from the printed table: %.2f %%", 100*worst)
}

func TestCriticalSections(t *testing.T) {
	for _, r := range rows(t, "section.txt") {
		z, err := strconv.Atoi(r[1])
		require.NoError(t, err)
		p := external(t, tooth(t, 1, z, num(t, r[2])))
		f, err := p.Form(p.Tip(), 1, 20*degree)
		require.NoError(t, err)
		got := map[string]float64{"sF": f.Thickness, "rF": f.Radius, "hF": f.Arm, "aFan": f.LoadAngle / degree}[r[0]]
		assert.InEpsilon(t, num(t, r[3]), got, 1e-9, "%v", r)
	}
}

// The parabola lies at most 6 % from the printed table, and never above it by
// more than its rounding: the old table was drawn by hand, with a larger fillet.
func TestLewisOfTheTextbook(t *testing.T) {
	low, high := 0.0, -1.0
	for _, r := range rows(t, "lewis.txt") {
		p := standard(t, r[0])
		l := p.Lewis(p.Tip(), 1)
		off := l.Y/num(t, r[1]) - 1
		low, high = math.Min(low, off), math.Max(high, off)
		assert.Less(t, math.Abs(off), 0.06, "%v: %.4f", r, l.Y)
		assert.InDelta(t, l.Thickness*l.Thickness/l.Arm/6, l.Y, 1e-12, "Y = t^2/(6 h m)")
	}
	t.Logf("between %.2f %% and %.2f %% of the printed table", 100*low, 100*high)
	assert.Less(t, high, 0.01)
}
