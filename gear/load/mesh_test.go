package load

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ringtrack/gear/part"
	"ringtrack/gear/stock"
)

func mechanics(t testing.TB, name string) stock.Mechanics {
	t.Helper()
	m, ok := stock.FindMechanics(name)
	require.True(t, ok, name)
	return m
}

func ringMesh(t testing.TB, e1, e2 Elastic) *Mesh {
	t.Helper()
	m, err := NewMesh(pair(t, 2.5, 15, 104), Making{Face: 10, Pinion: e1, Ring: e2})
	require.NoError(t, err)
	return m
}

func TestSharesAddUp(t *testing.T) {
	m := ringMesh(t, pla, pla)
	c, err := m.Course(500)
	require.NoError(t, err)
	sums := map[int]float64{}
	for _, p := range c.Points {
		phase := math.Mod((p.Length-m.Start)/m.BasePitch()+1e-9, 1)
		sums[int(math.Round(phase*steps))%steps] += p.Share
		assert.True(t, p.Share > 0 && p.Share <= 1+1e-12)
		assert.InEpsilon(t, c.Normal/m.Face*p.Share, p.Line, 1e-12)
	}
	require.Len(t, sums, steps)
	for _, s := range sums {
		assert.InDelta(t, 1, s, 1e-9)
	}
	assert.InEpsilon(t, 500, c.Normal*m.Pinion.Base, 1e-12)
	assert.True(t, c.Stiffness.Least < c.Stiffness.Mean && c.Stiffness.Mean < c.Stiffness.Greatest)
	// Where one pair is alone it carries everything; pairs share where two are.
	one, two := false, false
	for _, p := range c.Points {
		one = one || p.Pairs == 1 && p.Share == 1
		two = two || p.Pairs == 2 && p.Share < 0.9
	}
	assert.True(t, one && two)
}

// A softer material gives way in proportion, a wider face in inverse proportion
// (flattening, which is not linear, is a small part with equal force a width).
func TestCourseScales(t *testing.T) {
	a, err := ringMesh(t, pla, pla).Course(500)
	require.NoError(t, err)
	half := Elastic{pla.Modulus / 2, pla.Poisson}
	b, err := ringMesh(t, half, half).Course(250)
	require.NoError(t, err)
	assert.InEpsilon(t, a.Yield.Greatest, b.Yield.Greatest, 1e-9, "half the modulus under half the load")
	wide := ringMesh(t, pla, pla)
	wide.Face *= 3
	c, err := wide.Course(1500)
	require.NoError(t, err)
	assert.InEpsilon(t, a.Yield.Mean, c.Yield.Mean, 1e-9)
	assert.InEpsilon(t, a.Pressure.Pressure, c.Pressure.Pressure, 1e-9)
}

// ISO 6336-1 replaces an internal wheel by a rack: 18.18 N/(mm um) for 20 teeth
// (from memory). Only the order of size can be asked for.
func TestStiffnessOfARing(t *testing.T) {
	p := pair(t, 5, 20, 100)
	m, err := NewMesh(p, Making{Face: 10, Pinion: steel, Ring: steel})
	require.NoError(t, err)
	c, err := m.PairStiffness(m.PitchPoint(), 300)
	require.NoError(t, err)
	t.Logf("%.2f N/(mm um), ISO 6336-1 with a rack 18.18", c/1000)
	assert.InEpsilon(t, 18.18, c/1000, 0.15)
}

// A rim that hangs free between screws is softer, and a thin one much softer.
func TestRimYields(t *testing.T) {
	stiff := func(r Rim) float64 {
		m, err := NewMesh(pair(t, 2.5, 15, 104), Making{Face: 10, Pinion: pla, Ring: pla, Rim: r})
		require.NoError(t, err)
		c, err := m.PairStiffness(m.PitchPoint(), 10)
		require.NoError(t, err)
		return c
	}
	held := stiff(Rim{})
	assert.Equal(t, held, stiff(Rim{Thickness: 9}))
	a, b := stiff(Rim{9, 40}), stiff(Rim{4, 40})
	assert.Less(t, a, held)
	assert.Less(t, b, a/1.5)
}

func TestWindUp(t *testing.T) {
	m := ringMesh(t, pla, pla)
	w, err := m.WindUp(500)
	require.NoError(t, err)
	assert.InEpsilon(t, 500*104.0/15, w.Torque, 1e-12)
	assert.InEpsilon(t, w.Torque, w.Rate*w.Teeth, 1e-12)
	c, err := m.Course(500)
	require.NoError(t, err)
	assert.InEpsilon(t, c.Yield.Greatest, w.Most*m.Wheel.Base, 1e-12)
}

// Squeezed by the allowance, both flanks give way by it together.
func TestAllowance(t *testing.T) {
	m := ringMesh(t, tpu, pla)
	a, err := m.Allowance(500, 0.1, 0.5)
	require.NoError(t, err)
	assert.InEpsilon(t, 0.1*500/m.Pinion.Base, a.Squeeze, 1e-12)
	c, err := m.Course(50)
	require.NoError(t, err)
	assert.InEpsilon(t, 2*c.Yield.Least, a.Normal, 1e-9)
	assert.Greater(t, a.Circumferential, a.Normal)
	hard, err := ringMesh(t, steel, steel).Allowance(500, 0.1, 0.2)
	require.NoError(t, err)
	assert.Less(t, hard.Circumferential, 0.001, "steel allows nothing")
	assert.Less(t, a.Drag, 500*0.1)
	none, err := m.Allowance(500, 0, 0.5)
	require.NoError(t, err)
	assert.Zero(t, none)
	_, err = m.Allowance(500, 2, 0.5)
	assert.Error(t, err)
}

func TestSkipBounds(t *testing.T) {
	p := pair(t, 2.5, 15, 104)
	soft, hard := ringMesh(t, Elastic{24, 0.48}, pla), ringMesh(t, Elastic{250, 0.48}, pla)
	s, err := SkipBounds(soft, hard, p.Pinion.TipDiameter/2, p.Ring.TipDiameter/2)
	require.NoError(t, err)
	assert.InDelta(t, p.CentreDistance+p.Pinion.TipDiameter/2-p.Ring.TipDiameter/2, s.Depth, 1e-12)
	assert.Greater(t, s.NotAbove, 50*s.NotBelow)
	c, err := soft.Course(s.NotBelow)
	require.NoError(t, err)
	assert.InEpsilon(t, 0.07*2.5, c.Yield.Greatest, 1e-4)
}

func TestHubOnADShaft(t *testing.T) {
	screw, ok := FindScrewHold("m3")
	require.True(t, ok)
	h := Hub{
		Bore: part.Bore{Shape: "d", Diameter: 6, AcrossFlat: 5.5, Clearance: 0.1}, Length: 12, TipRadius: 21, Face: 12,
		Material: mechanics(t, "pla"), Print: stock.Print{Infill: 1}, Temperature: 23,
	}
	got, err := h.Holding()
	require.NoError(t, err)
	// Chord of a 6 mm shaft filed by 0.5 mm: 3.32 mm (common practice tables).
	assert.InDelta(t, 3.32, FlatWidth(6, 5.5), 0.005)
	assert.InEpsilon(t, 23*12*FlatWidth(6, 5.5)*FlatWidth(6, 5.5)/12, got.Flat, 1e-12)
	assert.True(t, got.Catches)
	// The corner of the shaft meets the bore's flat, seen from the common centre.
	assert.InEpsilon(t, 2*(math.Acos(2.5/3)-math.Acos(2.55/3)), got.Slack, 1e-12)
	assert.InDelta(t, 0.1/12, got.Tilt, 1e-6)
	assert.InDelta(t, 42*0.1/12, got.Wobble, 1e-4)
	assert.InDelta(t, 0.05, got.Runout, 1e-12)
	// The makers of small plastic pinions allow up to 500 N mm: what lasts is of that order.
	assert.True(t, got.Torque > 50 && got.Torque < 500, "%g", got.Torque)

	warm := h
	warm.Temperature = 45
	w, err := warm.Holding()
	require.NoError(t, err)
	assert.InEpsilon(t, got.Flat*(1-22.0/34), w.Warm, 1e-9, "softens at 57")
	assert.Less(t, w.Torque, got.Torque/2)

	loose := h
	loose.Bore.Clearance = 1.1
	l, err := loose.Holding()
	require.NoError(t, err)
	assert.False(t, l.Catches)
	assert.Zero(t, l.Flat)

	// A nut in plastic: about 0.6 N m at the first slip on a 6 mm shaft, 0.1 to
	// 0.15 of it usable (from memory).
	round := h
	round.Bore.Shape, round.Screw, round.Nut = "round", &screw, true
	r, err := round.Holding()
	require.NoError(t, err)
	assert.InDelta(t, 600, r.Slip, 100)
	assert.True(t, r.Screw >= 100 && r.Screw <= 160, "%g", r.Screw)
	_, err = Hub{}.Holding()
	assert.Error(t, err)
}

func TestBadInput(t *testing.T) {
	p := pair(t, 2.5, 15, 104)
	var bad *InputError
	_, err := NewMesh(p, Making{Face: 10, Pinion: Elastic{0, 0.3}, Ring: pla})
	assert.ErrorAs(t, err, &bad, "zero modulus")
	_, err = NewMesh(p, Making{Face: 10, Pinion: Elastic{100, 0.5}, Ring: pla})
	assert.ErrorAs(t, err, &bad)
	_, err = NewMesh(p, Making{Pinion: pla, Ring: pla})
	assert.ErrorAs(t, err, &bad, "no width")
	m := ringMesh(t, pla, pla)
	for _, v := range []float64{0, -1, math.NaN(), math.Inf(1)} {
		_, err = m.Course(v)
		assert.ErrorAs(t, err, &bad, "%g", v)
		_, err = m.Relief(v)
		assert.ErrorAs(t, err, &bad, "%g", v)
	}
	_, err = m.PairStiffness(m.End+5, 10)
	assert.ErrorAs(t, err, &bad)
	_, err = NewProfile(nil, false)
	assert.ErrorAs(t, err, &bad)
	_, err = Analyse(Task{Pair: p})
	assert.ErrorAs(t, err, &bad)
}
