package budget

import (
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ringtrack/gear"
)

// table reads a file of testdata: the fields of every row by its id.
func tableOf(t *testing.T, name string) map[string][]string {
	t.Helper()
	data, err := os.ReadFile("testdata/" + name)
	require.NoError(t, err)
	out := map[string][]string{}
	for line := range strings.Lines(string(data)) {
		if strings.HasPrefix(line, "#") {
			continue
		}
		f := strings.Split(line, "|")
		for i := range f {
			f[i] = strings.TrimSpace(f[i])
		}
		out[f[0]] = f
	}
	return out
}

func numberOf(t *testing.T, text string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(text, 64)
	require.NoError(t, err)
	return v
}

func TestSumWorkedChain(t *testing.T) {
	rows := tableOf(t, "chain.txt")
	v := func(id string) float64 { return numberOf(t, rows[id][2]) }
	nominal := v("CH-1") - v("CH-3") - v("CH-5") - v("CH-7")
	assert.InDelta(t, v("CH-9"), nominal, 1e-12)
	var causes []Cause
	for _, id := range []string{"CH-2", "CH-4", "CH-6", "CH-8"} {
		causes = append(causes, Cause{Name: id, Effect: Effect{-v(id), v(id)}})
	}
	least, greatest := Sum(nominal, causes)
	assert.InDelta(t, v("CH-10"), least.WorstCase, 1e-12)
	assert.InDelta(t, v("CH-11"), greatest.WorstCase, 1e-12)
	assert.InDelta(t, v("CH-9")-v("CH-12"), least.RootSumSquare, 1e-12)
	assert.InDelta(t, v("CH-9")+v("CH-12"), greatest.RootSumSquare, 1e-12)
	// The nominal that keeps the target, as backlash is chosen.
	needed := nominal - least.WorstCase + v("CH-13")
	assert.InDelta(t, v("CH-14"), v("CH-1")+needed-nominal, 1e-12)
}

func TestSumKinds(t *testing.T) {
	causes := []Cause{
		{Name: "chance", Effect: Effect{-0.3, 0.3}},
		{Name: "one-sided", Effect: Effect{0, 0.8}}, // middle 0.4, half 0.4
		{Name: "turn", EveryTurn: true, Effect: Effect{-0.1, 0.2}},
	}
	least, greatest := Sum(1, causes)
	assert.InDelta(t, 1-0.3-0.1, least.WorstCase, 1e-15)
	assert.InDelta(t, 1+0.3+0.8+0.2, greatest.WorstCase, 1e-15)
	assert.InDelta(t, 1+0.4-0.1-0.5, least.RootSumSquare, 1e-15)
	assert.InDelta(t, 1+0.4+0.2+0.5, greatest.RootSumSquare, 1e-15)

	// What they do together goes in as the square of the distance.
	with, _ := Sum(1, append(causes, Cause{Name: Together, Effect: Effect{-0.04, 0}}))
	assert.InDelta(t, least.WorstCase-0.04, with.WorstCase, 1e-15)
	assert.InDelta(t, least.RootSumSquare-0.04*(0.2*0.2)/(0.4*0.4), with.RootSumSquare, 1e-15)
}

// Every row is what its formula says, and the rows add up to the exact play with
// everything at its end.
func TestRows(t *testing.T) {
	p, s := standard(t), usual()
	s.Climate = Climate{}
	m := modelOf(t, p, s)
	causes, least, greatest := m.causes()
	by := map[string]Effect{}
	for _, c := range causes {
		by[c.Name] = c.Effect
	}
	tan, cos := math.Tan(p.WorkingPressureAngle), math.Cos(p.WorkingPressureAngle)
	for _, tt := range []struct {
		name string
		want float64
	}{
		{MakingPinion, 2 * 0.05 / cos}, {MakingRing, 2 * 0.05 / cos},
		{CentreDistance, 2 * 0.1 * tan}, {BearingPlay, 0.5 * tan},
		{RingRunout, 0.2 * tan}, {PinionRunout, 0.1 * tan}, {RingOvality, 0.2 * tan},
	} {
		assert.InEpsilon(t, -tt.want, by[tt.name].Least, 0.012, tt.name)
		assert.InEpsilon(t, tt.want, by[tt.name].Greatest, 0.012, tt.name)
	}
	assert.InDelta(t, -0.1, by[JointStep].Least, 1e-3)
	assert.InDelta(t, -0.5*deg*10, by[Tilt].Least, 1e-12)
	assert.InDelta(t, -0.5*deg*10*math.Sin(p.WorkingPressureAngle), by[Tilt].Greatest, 1e-12)

	sum := m.nominal()
	for _, c := range causes {
		sum += c.Effect.Least
	}
	assert.InDelta(t, least.WorstCase, sum, 1e-12)
	exact := m.play(change{distance: 0.1 + 0.25 + 0.1 + 0.05, flank1: 0.05, flank2: 0.05, deeper: 0.1}) +
		m.ovality().Least + by[JointStep].Least + by[Tilt].Least
	assert.InDelta(t, exact, least.WorstCase, 1e-12)
	assert.Greater(t, greatest.WorstCase, greatest.RootSumSquare)
	assert.Less(t, least.WorstCase, least.RootSumSquare)
}

func TestPlayFormula(t *testing.T) {
	rows := tableOf(t, "published.txt")
	zero := func(alpha float64, z1, z2 int, play float64) *model {
		p, found := gear.Resolve(gear.Wish{
			Module: 1, PressureAngle: alpha * deg, Share: 0.5, RackType: 'A', LeastTip: 0.1, Backlash: gear.Fixed(play),
			Pinion: gear.MemberWish{Teeth: z1, Shift: gear.Fixed(0)}, Ring: gear.MemberWish{Teeth: z2, Shift: gear.Fixed(0)},
		})
		require.NotNil(t, p, "%v", found)
		return modelOf(t, p, Spreads{})
	}
	// The published play is an arc on the working circles of the moved axes, here
	// it is one on the nominal ones: the same normal backlash.
	m := zero(20, 30, 80, 0)
	moved := math.Acos((m.rb2 - m.rb1) / (m.a - 0.1))
	got := m.involutes(change{distance: -0.1}) * m.cosW / math.Cos(moved)
	assert.InDelta(t, numberOf(t, rows["BLX-391"][3]), got, 1e-11)

	// A small change of the centre distance over the play that it makes.
	for id, alpha := range map[string]float64{"BL-365": 14.5, "BL-366": 20} {
		m := zero(alpha, 30, 80, 0.3)
		const h = 1e-4
		slope := (m.involutes(change{distance: -h}) - m.involutes(change{distance: h})) / (2 * h)
		assert.InDelta(t, numberOf(t, rows[id][3]), 1/slope, 0.0005, id)
	}
	assert.InDelta(t, 0.3, zero(20, 30, 80, 0.3).nominal(), 1e-12)
}
