package budget

import (
	"context"
	"math"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ringtrack/gear"
	"ringtrack/gear/find"
)

// rolledPairs are the pairs whose builds are rolled: without a common factor of
// the tooth counts, with some, and with a whole ratio.
func rolledPairs(t testing.TB) map[string]*gear.Pair {
	return map[string]*gear.Pair{
		"15/104": standard(t),
		"16/72":  pairOf(t, 2, 16, 72, 0.6, 0.5),
		"15/105": pairOf(t, 2.5, 15, 105, 0.6, 0.5),
		"13/91":  pairOf(t, 2, 13, 91, 0.6, 0.5),
	}
}

// Builds rolled with their real outlines agree with the formulas within 5 % or
// 0.005 mm: 10 of each pair, 200 when slow tests are asked for.
func TestRolledBuilds(t *testing.T) {
	n := 10
	if asked() {
		n = 200
	}
	for name, p := range rolledPairs(t) {
		t.Run(name, func(t *testing.T) {
			r, _, err := Work(context.Background(), p, usual(), Options{Target: 0.05, Rolled: n, MostRolled: n, Seed: 11})
			require.NoError(t, err)
			c := r.Rolled
			t.Logf("%d builds: worst %.4f mm at %.4f mm; %d off by more", n, c.Off, c.OffRolled, c.Disagreeing)
			assert.Equal(t, n, c.Builds)
			assert.LessOrEqual(t, c.Disagreeing, max(1, n/20))
			assert.Less(t, c.Off, 0.03)
			assert.Zero(t, c.Failed)
			assert.Zero(t, c.Verdicts)
			// The figure itself: the least that 97.7 of 100 keep.
			rolled := quantiles(c.LeastOfBuild)
			formula := quantiles(r.Builds.leastOfBuilds[:n])
			assert.True(t, agree(formula.Mean-2*formula.Deviation, rolled.Mean-2*rolled.Deviation),
				"%.4f, rolled %.4f", formula.Mean-2*formula.Deviation, rolled.Mean-2*rolled.Deviation)
		})
	}
}

// Each cause alone, against the real outlines.
func TestRolledCauses(t *testing.T) {
	u := usual()
	for name, s := range map[string]Spreads{
		"making":   {MakingPinion: u.MakingPinion, MakingRing: u.MakingRing},
		"distance": {CentreDistance: u.CentreDistance, BearingPlay: u.BearingPlay},
		"ring":     {RingRunout: u.RingRunout}, "pinion": {PinionRunout: u.PinionRunout},
		"oval": {RingOvality: u.RingOvality}, "tilt": {Tilt: u.Tilt, FaceWidth: u.FaceWidth},
		"joints": {JointStep: u.JointStep, Segments: 3, FirstJoint: 7}, "climate": {Climate: u.Climate},
	} {
		m := modelOf(t, standard(t), s)
		q := m.quick()
		d, b := newDice(4), assembly{}
		for i := range 2 {
			d.draw(m, i, &b)
			want, _ := q.extremes(&b)
			got, err := m.roll(&b)
			require.NoError(t, err, name)
			assert.InDelta(t, got.Least, want.Least, 0.003, "%s, build %d", name, i)
			assert.InDelta(t, got.Greatest, want.Greatest, 0.006, "%s, build %d", name, i)
		}
	}
}

// whole rolls an assembly over the whole cycle, eight positions a pitch, and
// returns its least play and whether it binds. It knows nothing of where the
// formulas expect the tightest place.
func whole(m *model, b *assembly) (least float64, binds bool, err error) {
	s, err := m.sections(b)
	if err != nil {
		return 0, true, err
	}
	least = math.Inf(1)
	n := 8 * m.turns() * m.z2
	for i := range n {
		v, jam := s.at(2 * math.Pi * float64(i) / float64(8*m.z1))
		least = math.Min(least, v)
		binds = binds || jam || v < 0
	}
	return least, binds, nil
}

// The share of builds that bind, against brute force: sampled assemblies rolled
// whole. Verdicts agree except where the least play is within the accuracy of
// nothing.
func TestBindingShareBruteForce(t *testing.T) {
	n := 12
	if asked() {
		n = 100
	}
	p := pairOf(t, 2, 16, 72, 0.26, 0.5) // so little that about a third of the builds bind
	m := modelOf(t, p, usual())
	builds, err := m.chance(context.Background(), n, 21, 0, 0)
	require.NoError(t, err)
	assert.Greater(t, builds.BindingShare, 0.1)
	assert.Less(t, builds.BindingShare, 0.9)
	bound, ties := 0, 0
	var mu sync.Mutex
	require.NoError(t, spread(context.Background(), n, 0, func() func(int) {
		d, b := newDice(21), assembly{}
		return func(i int) {
			d.draw(m, i, &b)
			least, binds, err := whole(m, &b)
			mu.Lock()
			defer mu.Unlock()
			assert.NoError(t, err)
			if binds {
				bound++
			}
			if math.Abs(least) < agreeMM {
				ties++
				return
			}
			assert.Equal(t, binds, builds.leastOfBuilds[i] < 0, "build %d: formula %.4f, rolled %.4f", i, builds.leastOfBuilds[i], least)
		}
	}))
	assert.InDelta(t, float64(bound)/float64(n), builds.BindingShare, float64(ties)/float64(n)+1e-9)
}

// Teeth that are out of the formulas' reach: a joint so bad that it takes more
// than the play. The budget rolls, and says so.
func TestBudgetRollsWhereFormulasFail(t *testing.T) {
	p := pairOf(t, 2, 9, 60, 0.8, 0) // tips shortened for no spread at all: they run into roots further apart
	s := Spreads{CentreDistance: Measured(0.9), JointStep: Measured(0.4), Segments: 6, RingOvality: Measured(0.8)}
	r, found, err := Work(context.Background(), p, s, Options{Rolled: 10, MostRolled: 20, Seed: 2})
	require.NoError(t, err)
	require.NotNil(t, r, "%v", found)
	require.True(t, r.Rolled.Replaced, "worst %.4f at %.4f", r.Rolled.Off, r.Rolled.OffRolled)
	assert.Equal(t, 20, r.Rolled.Builds)
	assert.Equal(t, 20, r.Builds.Count)
	bound := 0
	for _, v := range r.Rolled.LeastOfBuild {
		if v < 0 {
			bound++
		}
	}
	assert.InDelta(t, float64(bound)/20, r.Builds.BindingShare, 1e-12)
	assert.InDelta(t, r.Builds.Least.Mean-2*r.Builds.Least.Deviation, r.Least.RootSumSquare, 1e-12)
}

// Where tips run into roots the correction takes play away, and a clear pair has
// none.
func TestDepths(t *testing.T) {
	clear := modelOf(t, standard(t), Spreads{CentreDistance: Measured(0.2)})
	for _, d := range []float64{-0.3, -0.1, 0, 0.1, 0.3} {
		assert.Zero(t, clear.depth.of(d))
	}
	tight := modelOf(t, pairOf(t, 2, 13, 91, 0.6, 0), Spreads{CentreDistance: Measured(0.3)})
	assert.Zero(t, tight.depth.of(0))
	assert.Less(t, tight.depth.of(0.4), -0.01)
	assert.LessOrEqual(t, tight.depth.of(0.4), tight.depth.of(0.2))

	r, found, err := Work(context.Background(), pairOf(t, 2, 13, 91, 0.6, 0), Spreads{CentreDistance: Measured(0.3)}, Options{})
	require.NoError(t, err)
	assert.InDelta(t, 0.45, r.Reach, 1e-12)
	assert.Greater(t, r.TipsClear, 0.0)
	assert.Less(t, r.TipsClear, 0.3)
	require.NotEmpty(t, found)
	assert.Equal(t, find.RingTipInterference, found[0].Code)
}
