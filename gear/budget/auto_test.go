package budget

import (
	"context"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ringtrack/gear"
	"ringtrack/gear/find"
)

func auto(t *testing.T, p *gear.Pair, s Spreads, o Options) (Choice, []find.Finding) {
	t.Helper()
	c, found, err := Auto(context.Background(), p, s, o)
	require.NoError(t, err)
	return c, found
}

// The backlash chosen keeps the target, one step less does not, on every basis.
func TestAutoIsSmallest(t *testing.T) {
	for _, basis := range []Basis{RootSumSquare, WorstCase, Chance} {
		c, found := auto(t, standard(t), usual(), Options{Target: 0.05, Basis: basis})
		assert.Empty(t, found)
		least := func(play float64) float64 {
			r, _, err := Work(context.Background(), pairOf(t, 2.5, 15, 104, play, 0.5), usual(), Options{Target: 0.05})
			require.NoError(t, err)
			return map[Basis]float64{RootSumSquare: r.Least.RootSumSquare, WorstCase: r.Least.WorstCase, Chance: r.Builds.Least.Low}[basis]
		}
		// The choice was made at another backlash: displaced teeth begin to touch a
		// little elsewhere.
		assert.GreaterOrEqual(t, least(c.Backlash), 0.05-0.002, "basis %d", basis)
		assert.Less(t, least(c.Backlash-1.0/perMM), 0.05+0.002, "basis %d", basis)
		assert.InDelta(t, math.Round(c.Backlash*perMM)/perMM, c.Backlash, 1e-12)
	}
}

// Halving the costliest cause wins what was said.
func TestAutoHalving(t *testing.T) {
	s := usual()
	c, _ := auto(t, standard(t), s, Options{Target: 0.05})
	require.Equal(t, BearingPlay, c.Costliest)
	assert.Equal(t, "mounting.bearing_play", c.Key)
	s.BearingPlay = s.BearingPlay.half()
	less, _ := auto(t, standard(t), s, Options{Target: 0.05})
	assert.InDelta(t, c.HalvingWins, c.Needed-less.Needed, 0.002)
}

func TestAutoExact(t *testing.T) {
	c, found := auto(t, standard(t), Spreads{}, Options{Target: 0.02})
	assert.Empty(t, found)
	assert.InDelta(t, 0.02, c.Backlash, 1e-9)
	assert.Empty(t, c.Costliest)
}

// A target that no backlash reaches is a fault that names the cause.
func TestAutoUnreachable(t *testing.T) {
	s := usual()
	s.BearingPlay = Guess(2.4)
	c, found := auto(t, standard(t), s, Options{Target: 0.05, MostBacklash: 0.8})
	require.Len(t, found, 1)
	f := found[0]
	assert.Equal(t, find.LittleBacklash, f.Code)
	assert.Equal(t, find.Fault, f.Level)
	assert.Equal(t, "teeth.backlash", f.About)
	assert.InDelta(t, c.Needed, *f.Found, 1e-12)
	assert.InDelta(t, 0.8, *f.Limit, 1e-12)
	assert.Contains(t, f.Text, "bearing's play")
	assert.Contains(t, f.Text, "mounting.bearing_play")
	assert.Greater(t, c.HalvingWins, 0.3)
}

// The least that shifts and centre distance leave is never undercut.
func TestAutoFree(t *testing.T) {
	p, found := gear.Resolve(gear.Wish{
		Module: 2.5, PressureAngle: 20 * deg, Share: 0.5, RackType: 'A', LeastTip: 0.2, Backlash: gear.Fixed(0.1),
		Pinion: gear.MemberWish{Teeth: 15, Shift: gear.Fixed(0.16)}, Ring: gear.MemberWish{Teeth: 104, Shift: gear.Fixed(0.16)},
		CentreDistance: gear.Fixed(111.25 - 0.6),
	})
	require.NotNil(t, p, "%v", found)
	c, _ := auto(t, p, Spreads{}, Options{})
	assert.InDelta(t, p.Backlash.Free, c.Needed, 1e-9)
	assert.Greater(t, c.Needed, 0.4)
}

func TestDefaultTarget(t *testing.T) {
	assert.Greater(t, DefaultTarget("printed"), DefaultTarget("cut"))
	assert.Greater(t, DefaultTarget("cut"), DefaultTarget("exact"))
	assert.Positive(t, DefaultTarget("exact"))
}

// Every cause has words, and the words for sentences begin small.
func TestWords(t *testing.T) {
	m := modelOf(t, standard(t), usual())
	causes, _, _ := m.causes()
	for _, c := range causes {
		assert.NotEmpty(t, Words(c.Name), c.Name)
		assert.Equal(t, strings.ToLower(Words(c.Name)), Words(c.Name))
	}
	for _, tt := range []struct {
		v    float64
		want string
	}{{0.15, "0.15"}, {0.05, "0.05"}, {0.012, "0.012"}, {1.2, "1.2"}, {2, "2"}, {0, "0"}, {-0.00001, "0"}} {
		assert.Equal(t, tt.want, num(tt.v))
	}
}
