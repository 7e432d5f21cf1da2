package stock_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ringtrack/gear/stock"
)

// Every printed range lies inside the table's: a printed value outside it would
// be left unsaid.
func TestMechanicsHoldThePrinted(t *testing.T) {
	for _, r := range rows(t, "mechanics.tsv") {
		m, ok := stock.FindMechanics(r[0])
		require.True(t, ok, r[0])
		have := map[string]stock.Range{
			"modulus": m.Modulus, "strength": m.Strength, "layers": m.Layers, "softening": m.Softening, "friction": m.Friction,
		}[r[1]]
		require.NotEmpty(t, have.Source, "%v", r)
		assert.LessOrEqual(t, have.Least, num(t, r[2])*1.01, "%v", r)
		assert.GreaterOrEqual(t, have.Most, num(t, r[3])*0.99, "%v", r)
	}
}

func TestMechanicsAreWhole(t *testing.T) {
	for _, name := range stock.MaterialNames() {
		_, ok := stock.FindMechanics(name)
		assert.True(t, ok, name)
	}
	assert.Subset(t, stock.MechanicsNames(), stock.MaterialNames())
	for _, name := range stock.MechanicsNames() {
		m, _ := stock.FindMechanics(name)
		for what, r := range map[string]stock.Range{
			"modulus": m.Modulus, "strength": m.Strength, "layers": m.Layers, "poisson": m.Poisson, "expansion": m.Expansion,
			"service": m.Service, "softening": m.Softening, "friction": m.Friction, "root": m.ToothRoot,
		} {
			assert.True(t, 0 < r.Least && r.Least <= r.Usual && r.Usual <= r.Most, "%s %s: %+v", name, what, r)
			assert.NotEmpty(t, r.Source, "%s %s", name, what)
		}
		assert.True(t, 0 <= m.Moisture.Least && m.Moisture.Least <= m.Moisture.Usual && m.Moisture.Usual <= m.Moisture.Most && m.Moisture.Most < 0.03, name)
		assert.NotEmpty(t, m.Moisture.Source, name)
		assert.LessOrEqual(t, m.Layers.Most, 1.0, name)
		assert.Less(t, m.Poisson.Most, 0.5, name)
		assert.LessOrEqual(t, m.Service.Usual, m.Softening.Usual, name)
		assert.Less(t, m.ToothRoot.Usual, m.Strength.Usual/2.4, "%s: what lasts is far below what breaks", name)
	}
	_, ok := stock.FindMechanics("unobtainium")
	assert.False(t, ok)
	near, ok := stock.Nearest("tpu95a", stock.MechanicsNames())
	assert.True(t, ok)
	assert.Equal(t, "tpu-95a", near)
}

func TestMechanicsAreCopies(t *testing.T) {
	a, _ := stock.FindMechanics("pla")
	a.Modulus.Usual = 1
	b, _ := stock.FindMechanics("PLA")
	assert.Equal(t, 3000.0, b.Modulus.Usual)
	assert.Equal(t, stock.Range{Least: 2, Usual: 4, Most: 6, Source: "x"}, stock.Range{Least: 1, Usual: 2, Most: 3, Source: "x"}.Scaled(2))
}

// A section as thick as its walls is solid; without walls the infill's square
// counts; more walls and more infill never weaken.
func TestPrintsDerate(t *testing.T) {
	assert.Equal(t, 1.0, stock.Print{Infill: 0.1, Walls: 2, Thickness: 4}.Stiffness())
	assert.Equal(t, 1.0, stock.Print{}.Stiffness())
	assert.InDelta(t, 0.04, stock.Print{Infill: 0.2, Thickness: 4}.Stiffness(), 1e-12)
	assert.InDelta(t, 1-0.96/8, stock.Print{Infill: 0.2, Walls: 1, Thickness: 4}.Stiffness(), 1e-12)
	last := 0.0
	for i := range 11 {
		k := stock.Print{Infill: float64(i) / 10, Walls: 0.9, Thickness: 4}.Stiffness()
		assert.GreaterOrEqual(t, k, last)
		last = k
	}
	assert.Equal(t, 1.0, last)
	m, _ := stock.FindMechanics("pla")
	assert.InDelta(t, m.Layers.Usual, stock.Print{Infill: 1, Thickness: 4, Upright: true}.Strength(m), 1e-12)
	assert.InDelta(t, 1, stock.Print{Infill: 1, Thickness: 4}.Strength(m), 1e-12)
}

func TestWarmthWeakens(t *testing.T) {
	m, _ := stock.FindMechanics("pla")
	assert.Equal(t, 1.0, m.Warm(10))
	assert.Equal(t, 1.0, m.Warm(23))
	assert.InDelta(t, 0.5, m.Warm(40), 1e-12)
	assert.Zero(t, m.Warm(57))
	assert.Zero(t, m.Warm(200))
	steel, _ := stock.FindMechanics("steel")
	assert.Equal(t, 1.0, steel.Lasting())
	soft, _ := stock.FindMechanics("tpu-95a")
	assert.Less(t, soft.Lasting(), m.Lasting())
}

// Worked by hand from the printed formulas: 60 A is about 3.6 MPa by Gent and 5.9
// by Qi; A and D meet where D = A - 50.
func TestShore(t *testing.T) {
	r, ok := stock.ModulusOfShore('A', 60)
	require.True(t, ok)
	assert.InDelta(t, 0.0981*(56+7.62336*60)/(0.137505*(254-2.54*60)), r.Least, 1e-12)
	assert.InDelta(t, 3.61, r.Least, 0.01)
	assert.InDelta(t, math.Pow(10, 0.0235*60-0.6403), r.Most, 1e-12)
	d, ok := stock.ModulusOfShore('D', 45)
	require.True(t, ok)
	a, ok := stock.ModulusOfShore('a', 95)
	require.True(t, ok)
	assert.InDelta(t, d.Usual, math.Min(a.Least, a.Most), 3, "95 A is about 45 D")
	assert.True(t, a.Usual > 24 && a.Usual < 250, "within what 95 A is sold with: %g", a.Usual)
	last := 0.0
	for h := 20.0; h <= 98; h++ {
		r, ok := stock.ModulusOfShore('A', h)
		require.True(t, ok)
		assert.True(t, r.Least <= r.Usual && r.Usual <= r.Most)
		if h <= 95 {
			assert.Greater(t, r.Usual, last)
			last = r.Usual
		}
	}
	for _, bad := range []struct {
		scale byte
		h     float64
	}{{'A', 10}, {'A', 99}, {'D', 20}, {'D', 80}, {'C', 50}, {'A', math.NaN()}} {
		_, ok := stock.ModulusOfShore(bad.scale, bad.h)
		assert.False(t, ok, "%+v", bad)
	}
}
