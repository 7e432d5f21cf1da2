package load

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ringtrack/gear/find"
	"ringtrack/gear/part"
	"ringtrack/gear/stock"
)

func task(t testing.TB, pinion, ring string) Task {
	return Task{
		Pair: pair(t, 2.5, 15, 104), Face: 10, Temperature: 23,
		Pinion: Part{mechanics(t, pinion), stock.Print{Infill: 0.4, Walls: 1.8}},
		Ring:   Part{mechanics(t, ring), stock.Print{Infill: 0.4, Walls: 1.8}},
		Cases: []Case{
			{Name: Working, Torque: 300}, {Name: Stall, Torque: 2000, Rare: true},
			{Name: DeadStop, Torque: 1500, Rare: true, Bound: true}, {Name: Hand, Torque: 2200, Rare: true},
		},
		Hub: &Hub{
			Bore: part.Bore{Shape: "d", Diameter: 6, AcrossFlat: 5.5, Clearance: 0.1}, Length: 12, TipRadius: 21, Face: 12,
			Material: mechanics(t, pinion), Print: stock.Print{Infill: 0.4, Walls: 1.8}, Temperature: 23,
		},
	}
}

func codes(list []find.Finding) map[find.Code]int {
	out := map[find.Code]int{}
	for _, f := range list {
		out[f.Code]++
	}
	return out
}

func TestAnalysisOfAHardPair(t *testing.T) {
	a, err := Analyse(task(t, "petg", "pla"))
	require.NoError(t, err)
	for _, r := range a.Ratings {
		t.Logf("%-18s Lewis %.2f, tangent %.2f (ring %.2f) MPa, on the way %.2f; flank %.1f MPa; bends %.3f; safety %.1f of %.1f / %.1f",
			r.Case.Name, r.Pinion.Lewis, r.Pinion.Tangent, r.Wheel.Tangent, r.Pinion.Course, r.Pressure, r.Bending, r.Pinion.Safety, r.Pinion.Needed, r.Wheel.Safety)
		// Both methods bound the same tooth: the notch makes the difference.
		assert.True(t, r.Pinion.Tangent > 0.8*r.Pinion.Lewis && r.Pinion.Tangent < 2*r.Pinion.Lewis)
		assert.Less(t, r.Pinion.Course, r.Pinion.Tangent/ShareFactor(a.Mesh.ContactRatio())*1.0001)
		assert.InEpsilon(t, r.Normal*r.Normal, r.Separating*r.Separating+r.Tangential*r.Tangential, 0.2)
	}
	assert.Len(t, a.Ratings, 4)
	assert.Equal(t, Working, a.Working.Name)
	assert.NotNil(t, a.Holding)
	assert.Less(t, a.Skipping.NotBelow, a.Skipping.NotAbove)
	assert.Zero(t, codes(a.Findings)[find.NarrowFace])
}

// A flexible pinion is told how wide it must be, and so wide it is good.
func TestSoftPinionTooNarrow(t *testing.T) {
	k := task(t, "tpu-95a", "pla")
	k.Cases[0].Torque = 800
	a, err := Analyse(k)
	require.NoError(t, err)
	var f *find.Finding
	for i := range a.Findings {
		if a.Findings[i].Code == find.NarrowFace {
			f = &a.Findings[i]
		}
	}
	require.NotNil(t, f, "%v", a.Findings)
	assert.Equal(t, find.Fault, f.Level)
	require.Greater(t, *f.Limit, k.Face)
	t.Logf("%s; allowance %.3f mm", f.Text, a.Allowance.Circumferential)
	k.Face = *f.Limit + 0.01
	b, err := Analyse(k)
	require.NoError(t, err)
	assert.Zero(t, codes(b.Findings)[find.NarrowFace], "%v", b.Findings)
}

func TestAnalysisOfBadWishes(t *testing.T) {
	k := task(t, "pla", "pla")
	k.Temperature = 60
	a, err := Analyse(k)
	require.NoError(t, err)
	assert.Equal(t, 2, codes(a.Findings)[find.TooWarm])
	assert.Positive(t, find.Count(a.Findings, find.Fault))

	k = task(t, "pla", "pla")
	k.Cases = []Case{{Name: Working, Torque: 50000}}
	a, err = Analyse(k)
	require.NoError(t, err)
	assert.Equal(t, "fault", find.Worst(a.Findings))
	assert.Equal(t, 2, codes(a.Findings)[find.ToothOverload])
	assert.Equal(t, 1, codes(a.Findings)[find.HubSlips])

	k.Cases = []Case{{Name: DeadStop, Torque: 50000, Rare: true, Bound: true}}
	a, err = Analyse(k)
	require.NoError(t, err)
	assert.Equal(t, "caution", find.Worst(a.Findings), "an upper bound condemns nothing")

	k = task(t, "pla", "pla")
	k.Hub.Bore.Clearance = 1.2
	a, err = Analyse(k)
	require.NoError(t, err)
	assert.Equal(t, 1, codes(a.Findings)[find.HubSlips])

	k = task(t, "pla", "pla")
	k.Pinion.Material.Modulus = stock.Range{}
	_, err = Analyse(k)
	assert.Error(t, err, "zero modulus")
}

// A first-cut torque for a printed gear of module 1, 20 teeth, 6 mm wide, comes
// out at about 0.3 N m, well below the 0.8 to 1.0 N m that a published test of
// moulded gears of that size applies (Polymer Testing 123, 2023, 108033).
func TestFirstCutTorque(t *testing.T) {
	p := external(t, tooth(t, 1, 20, 0))
	f, err := p.Form(p.Tip(), 1, 20*degree)
	require.NoError(t, err)
	m, _ := stock.FindMechanics("pla")
	torque := 10 * m.ToothRoot.Usual * 6 * 1 / (f.YF * f.YS) // d/2 = 10
	assert.True(t, torque > 150 && torque < 400, "%g N mm", torque)
}

func BenchmarkAnalysis(b *testing.B) {
	k := task(b, "tpu-95a", "pla")
	for b.Loop() {
		if _, err := Analyse(k); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkCourse(b *testing.B) {
	m := ringMesh(b, pla, pla)
	for b.Loop() {
		if _, err := m.Course(500); err != nil {
			b.Fatal(err)
		}
	}
}
