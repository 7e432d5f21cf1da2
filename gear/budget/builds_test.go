package budget

import (
	"context"
	"encoding/json"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// linear is spreads whose effects are linear and differ from build to build, small
// enough that backlash is straight over them.
func linear() Spreads {
	return Spreads{MakingPinion: Measured(0.02), MakingRing: Measured(0.03), CentreDistance: Measured(0.03), BearingPlay: Measured(0.1)}
}

// Chance reproduces the root sum of squares within its sampling error: four
// standard errors of mean, deviation and two-sigma bound.
func TestChanceIsRootSumSquare(t *testing.T) {
	const n = 100000
	m := modelOf(t, standard(t), linear())
	_, least, greatest := m.causes()
	for _, seed := range []uint64{0, 1, 2} {
		b, err := m.chance(context.Background(), n, seed, 0, 0)
		require.NoError(t, err)
		sigma := (m.nominal() - least.RootSumSquare) / 2
		assert.InDelta(t, m.nominal(), b.Least.Mean, 4*sigma/math.Sqrt(n)+2e-4) // 2e-4: curvature
		assert.InDelta(t, sigma, b.Least.Deviation, 4*sigma/math.Sqrt(2*n))
		tail := 4 * math.Sqrt(lowTail*(1-lowTail)/n) / (math.Exp(-2) / math.Sqrt(2*math.Pi)) * sigma
		assert.InDelta(t, least.RootSumSquare, b.Least.Low, tail+0.03*sigma) // the disc's law is not normal
		assert.InDelta(t, greatest.RootSumSquare, b.Greatest.High, tail+0.03*sigma)
	}
}

// With normal causes alone the tail too is the root sum of squares'.
func TestChanceTail(t *testing.T) {
	const n = 200000
	s := linear()
	s.BearingPlay = Amount{}
	m := modelOf(t, standard(t), s)
	_, least, _ := m.causes()
	b, err := m.chance(context.Background(), n, 7, least.RootSumSquare, 0)
	require.NoError(t, err)
	assert.InDelta(t, 1-lowTail, b.TargetShare, 4*math.Sqrt(lowTail*(1-lowTail)/n)+1e-3)
}

// What comes round every turn lies in every build.
func TestChanceEveryTurn(t *testing.T) {
	s := Spreads{RingRunout: Measured(0.2)}
	m := modelOf(t, standard(t), s)
	_, least, greatest := m.causes()
	assert.InDelta(t, least.WorstCase, least.RootSumSquare, 1e-9)
	b, err := m.chance(context.Background(), 1000, 1, 0, 0)
	require.NoError(t, err)
	assert.InDelta(t, least.WorstCase, b.Least.Greatest, 1e-4)
	assert.InDelta(t, least.WorstCase, b.Least.Least, 1e-4)
	assert.InDelta(t, greatest.WorstCase, b.Greatest.Mean, 1e-4)
}

// The laws that builds are drawn by: mean, and twice the deviation is the amount.
func TestDrawnLaws(t *testing.T) {
	const n = 50000
	m := modelOf(t, standard(t), usual())
	d, b := newDice(3), assembly{}
	sums := map[string][2]float64{}
	add := func(name string, v float64) { s := sums[name]; sums[name] = [2]float64{s[0] + v, s[1] + v*v} }
	for i := range n {
		d.draw(m, i, &b)
		add("flank1", b.flank1)
		add("flank2", b.flank2)
		add("distance", b.distance)
		add("bearing", b.inBearing)
		add("heat", b.temperature)
		add("damp", b.damp)
		add("step", b.steps[0])
		require.LessOrEqual(t, math.Abs(b.inBearing), 0.25)
		require.True(t, b.temperature >= 15 && b.temperature <= 30 && b.damp >= 0 && b.damp <= 1)
		require.InDelta(t, 0, b.steps[0]+b.steps[1]+b.steps[2]+b.steps[3], 1e-15)
	}
	for name, want := range map[string][2]float64{
		"flank1": {0, 0.05}, "flank2": {0, 0.05}, "distance": {0, 0.1}, "bearing": {0, 0.25},
		"heat": {22.5, 7.5}, "damp": {0.5, 0.5}, "step": {0, 0.1 * math.Sqrt(0.75)}, // less the mean of four
	} {
		mean := sums[name][0] / n
		twice := 2 * math.Sqrt(sums[name][1]/n-mean*mean)
		assert.InDelta(t, want[0], mean, 4*want[1]/2/math.Sqrt(n), name)
		assert.InEpsilon(t, want[1], twice, 4/math.Sqrt(2*n), name)
	}
}

// A build keeps its luck when another amount changes.
func TestBuildsKeepTheirLuck(t *testing.T) {
	s := usual()
	one := modelOf(t, standard(t), s)
	s.BearingPlay = Amount{}
	other := modelOf(t, standard(t), s)
	a, b := assembly{}, assembly{}
	newDice(5).draw(one, 77, &a)
	newDice(5).draw(other, 77, &b)
	assert.Equal(t, a.flank1, b.flank1)
	assert.Equal(t, a.temperature, b.temperature)
	assert.Equal(t, a.steps, b.steps)
	assert.Zero(t, b.inBearing)
}

// Same seed, same bytes, whatever the number of workers; another seed, others.
func TestSameBytes(t *testing.T) {
	bytes := func(seed uint64, workers int) string {
		r, found, err := Work(context.Background(), standard(t), usual(),
			Options{Target: 0.05, Seed: seed, Workers: workers, Builds: 3000, Rolled: 2, RimRadius: 150})
		require.NoError(t, err)
		require.NotNil(t, r)
		text, err := json.Marshal([]any{r, found, r.Builds.leastOfBuilds})
		require.NoError(t, err)
		return string(text)
	}
	first := bytes(1, 1)
	for _, workers := range []int{2, 3, 7} {
		assert.Equal(t, first, bytes(1, workers))
	}
	assert.NotEqual(t, first, bytes(2, 1))
}

func TestCancelled(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	_, _, err := Work(ctx, standard(t), usual(), Options{})
	assert.ErrorIs(t, err, context.Canceled)
	_, _, err = Auto(ctx, standard(t), usual(), Options{})
	assert.ErrorIs(t, err, context.Canceled)
}

// Flanks that scatter one by one take about as much from a turn of a hundred teeth
// as two parts that are fat as a whole.
func TestFlanksOneByOne(t *testing.T) {
	const turns, teeth = 2000, 104
	d := newDice(9)
	d.source.Seed(1, 2)
	sum := 0.0
	for range turns {
		least := math.Inf(1)
		for range teeth {
			four := d.rand.NormFloat64() + d.rand.NormFloat64() + d.rand.NormFloat64() + d.rand.NormFloat64()
			least = math.Min(least, four)
		}
		sum += least
	}
	assert.InDelta(t, -5.0, sum/turns, 0.1)
	assert.InDelta(t, 5.7, 2*math.Sqrt(2*4), 0.05) // two deviations of 2 (f1 + f2)
}
