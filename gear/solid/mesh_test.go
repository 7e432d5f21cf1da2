package solid

import (
	"errors"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"ringtrack/gear/plane"
)

// requirePrism checks what Prism promises, and what is left after rounding.
func requirePrism(t failer, r plane.Region, z0, z1, chord float64) *Mesh {
	t.Helper()
	m, err := Prism(r, z0, z1, chord)
	if err != nil {
		t.Fatalf("%v", err)
	}
	loops := polygons(r, chord)
	rep := m.Check()
	if err := rep.Err(); err != nil {
		t.Fatalf("%v", err)
	}
	if rep.Euler != 2-2*len(r.Holes) || rep.Shells != 1 || rep.Vertices != 2*count(loops) {
		t.Fatalf("report %+v for %d holes", rep, len(r.Holes))
	}
	want := doubleArea(loops) / 2 * (z1 - z0)
	if got := m.Volume(); math.Abs(got-want) > 1e-12*want {
		t.Fatalf("volume %v, want %v, off by %.3g", got, want, got/want-1)
	}
	return m
}

// requireRounded rounds the mesh and checks that it still is one.
func requireRounded(t failer, m *Mesh, relative float64) *Mesh {
	t.Helper()
	f, err := m.Float32()
	if err != nil {
		t.Fatalf("%v", err)
	}
	if err := f.Check().Err(); err != nil {
		t.Fatalf("%v", err)
	}
	for i := range f.Facets {
		if f.Normal(i).Len() == 0 {
			t.Fatalf("facet %d has no normal", i)
		}
	}
	if got, want := f.Volume(), m.Volume(); math.Abs(got-want) > relative*want {
		t.Fatalf("volume %v, want %v", got, want)
	}
	return f
}

func TestPrismsOfToothedSections(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		gear, move := drawGear(t), drawMove(t)
		z := rapid.SampledFrom([]float64{0, 100}).Draw(t, "z")
		chord := rapid.SampledFrom([]float64{0.01, 0.001}).Draw(t, "chord") * move.Scale()
		m := requirePrism(t, gear.Map(move), z, z+8*move.Scale(), chord)
		if z == 0 && move.Shift == (plane.Vec{}) {
			requireRounded(t, m, 1e-6)
		}
	})
}

func TestPrismAgainstItsExactVolume(t *testing.T) {
	r := plane.Region{
		Outer: plane.CircleLoop(plane.Vec{}, 20),
		Holes: []plane.Loop{plane.CircleLoop(plane.Vec{X: 5}, 6).Reverse()},
	}
	exact := r.Area() * 7
	last := math.Inf(1)
	for _, chord := range []float64{0.1, 0.01, 0.001, 0.0001} {
		m := requirePrism(t, r, -2, 5, chord)
		off := math.Abs(m.Volume() - exact)
		require.LessOrEqual(t, off, chord*r.Outer.Length()*7+chord*r.Holes[0].Length()*7)
		require.Less(t, off, last/5)
		last = off
		require.InDelta(t, 2*r.Area()+7*(r.Outer.Length()+r.Holes[0].Length()), m.Area(), 1000*chord)
		require.Equal(t, -2.0, m.Box().Min.Z)
		require.Equal(t, 7.0, m.Box().Size().Z)
	}
}

func TestPrismRefusesBadInput(t *testing.T) {
	good := pinion(12, 1)
	apart := plane.Region{Outer: plane.Loop{Unit: []plane.Piece{
		plane.Line{B: plane.Vec{X: 4}}, plane.Line{A: plane.Vec{X: 4.1}, B: plane.Vec{Y: 4}}, plane.Line{A: plane.Vec{Y: 4}},
	}}}
	hole := func(x, r float64) plane.Region {
		return plane.Region{
			Outer: good.Outer,
			Holes: append([]plane.Loop{plane.CircleLoop(plane.Vec{X: x}, r).Reverse()}, good.Holes...),
		}
	}
	for _, tt := range []struct {
		name          string
		r             plane.Region
		z0, z1, chord float64
		says          string
	}{
		{"upside down", good, 1, 0, 0.01, "heights"},
		{"no height", good, 1, 1, 0.01, "heights"},
		{"NaN height", good, math.NaN(), 1, 0.01, "heights"},
		{"infinite height", good, 0, math.Inf(1), 0.01, "heights"},
		{"no tolerance", good, 0, 1, 0, "tolerance"},
		{"negative tolerance", good, 0, 1, -1, "tolerance"},
		{"NaN tolerance", good, 0, 1, math.NaN(), "tolerance"},
		{"infinite tolerance", good, 0, 1, math.Inf(1), "tolerance"},
		{"far too fine", good, 0, 1, 1e-13, "tolerance"},
		{"empty", plane.Region{}, 0, 1, 0.01, "no pieces"},
		{"pieces apart", apart, 0, 1, 0.01, "loop 0"},
		{"hole through the teeth", hole(5, 1), 0, 1, 0.01, "cross"},
		{"hole in the bore", hole(0, 1), 0, 1, 0.01, "wrong way"},
		{"hole outside", hole(30, 1), 0, 1, 0.01, "wrong way"},
		{"hole not turned", plane.Region{Outer: good.Outer, Holes: []plane.Loop{plane.CircleLoop(plane.Vec{}, 1)}}, 0, 1, 0.01, "wrong way"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			m, err := Prism(tt.r, tt.z0, tt.z1, tt.chord)
			require.Nil(t, m)
			require.Error(t, err)
			require.Regexp(t, tt.says, err.Error())
		})
	}
}

func TestPrismDropsRepeatedPoints(t *testing.T) {
	a, b, c := plane.Vec{}, plane.Vec{X: 1}, plane.Vec{Y: 1}
	r := plane.Region{Outer: plane.Loop{Unit: []plane.Piece{
		plane.Line{A: a, B: b}, plane.Line{A: b, B: b}, plane.Line{A: b, B: c}, plane.Line{A: c, B: a}, plane.Line{A: a, B: a},
	}}}
	m, err := Prism(r, 0, 1, 0.1)
	require.NoError(t, err)
	require.Len(t, m.Vertices, 6)
	require.NoError(t, m.Check().Err())
}

// cube is the unit cube, point i at the bits of i.
func cube() *Mesh {
	m := &Mesh{Facets: [][3]int32{
		{0, 2, 3}, {0, 3, 1}, {4, 5, 7}, {4, 7, 6}, {0, 1, 5}, {0, 5, 4},
		{2, 6, 7}, {2, 7, 3}, {0, 4, 6}, {0, 6, 2}, {1, 3, 7}, {1, 7, 5},
	}}
	for i := range 8 {
		m.Vertices = append(m.Vertices, Point3{float64(i & 1), float64(i >> 1 & 1), float64(i >> 2 & 1)})
	}
	return m
}

func TestCheckFindsWhatIsWrong(t *testing.T) {
	require.NoError(t, cube().Check().Err())
	require.Equal(t, Report{Vertices: 8, Edges: 18, Facets: 12, Shells: 1, Euler: 2}, cube().Check())
	kinds := func(m *Mesh) map[ProblemKind]int {
		out := map[ProblemKind]int{}
		for _, p := range m.Check().Problems {
			out[p.Kind]++
			require.NotEmpty(t, p.Error())
		}
		return out
	}
	for _, tt := range []struct {
		name  string
		spoil func(m *Mesh)
		want  map[ProblemKind]int
	}{
		{"empty", func(m *Mesh) { *m = Mesh{} }, map[ProblemKind]int{InsideOut: 1}},
		{"a facet lost", func(m *Mesh) { m.Facets = m.Facets[1:] }, map[ProblemKind]int{OpenEdge: 3}},
		{"a facet twice", func(m *Mesh) { m.Facets = append(m.Facets, m.Facets[0]) }, map[ProblemKind]int{ReusedEdge: 3}},
		{"a facet turned", func(m *Mesh) { m.Facets[0] = [3]int32{0, 3, 2} }, map[ProblemKind]int{OpenEdge: 3, ReusedEdge: 3}},
		{"inside out", func(m *Mesh) {
			for i, f := range m.Facets {
				m.Facets[i] = [3]int32{f[0], f[2], f[1]}
			}
		}, map[ProblemKind]int{InsideOut: 1}},
		{"bad index", func(m *Mesh) { m.Facets[0][1] = 8; m.Facets[1][1] = -1 }, map[ProblemKind]int{BadIndex: 2}},
		{"unused", func(m *Mesh) { m.Vertices = append(m.Vertices, Point3{}) }, map[ProblemKind]int{Unused: 1}},
		{"NaN", func(m *Mesh) { m.Vertices[7].X = math.NaN() }, map[ProblemKind]int{NotFinite: 1}},
		{"flat facet", func(m *Mesh) {
			m.Vertices = append(m.Vertices, Point3{0.5, 0.5, 0})
			m.Facets[0], m.Facets[1] = [3]int32{0, 2, 3}, [3]int32{0, 8, 1}
			m.Facets = append(m.Facets, [3]int32{8, 3, 1}, [3]int32{0, 3, 8})
		}, map[ProblemKind]int{ZeroArea: 1}},
		{"two cubes share a corner", func(m *Mesh) {
			for _, v := range cube().Vertices[1:] {
				m.Vertices = append(m.Vertices, v.Mul(-1))
			}
			at := func(i int32) int32 {
				if i == 0 {
					return 0
				}
				return i + 7
			}
			for _, f := range cube().Facets {
				m.Facets = append(m.Facets, [3]int32{at(f[0]), at(f[2]), at(f[1])})
			}
		}, map[ProblemKind]int{PinchedVertex: 1}},
	} {
		t.Run(tt.name, func(t *testing.T) {
			m := cube()
			tt.spoil(m)
			require.Equal(t, tt.want, kinds(m))
			require.Error(t, m.Check().Err())
		})
	}
}

// Points that lie closer than the step of 32-bit numbers round onto one line,
// onto each other and past each other.
func TestRoundingRepairsFineArcs(t *testing.T) {
	for _, tt := range []struct {
		shift, chord, relative float64
	}{
		{0, 1e-5, 1e-6}, {0, 1e-8, 1e-6}, {1e3, 1e-7, 1e-3}, {1e3, 1e-9, 1e-3}, {2e3, 1e-9, 1e-3},
	} {
		r := plane.Region{
			Outer: toothed(20, 1, 1.2),
			Holes: []plane.Loop{plane.CircleLoop(plane.Vec{X: 0.03}, 0.5).Reverse()},
		}.Map(plane.Moved(plane.Vec{X: tt.shift, Y: tt.shift / 3}))
		m := requirePrism(t, r, 0, 10, tt.chord)
		before := Mesh{append([]Point3(nil), m.Vertices...), append([][3]int32(nil), m.Facets...)}
		f := requireRounded(t, m, tt.relative)
		require.Equal(t, before, *m)
		bad, lost := flatAfterRounding(m)
		if tt.shift == 2e3 {
			require.Positive(t, bad+lost)
		}
		t.Logf("shift %g, chord %g: %d facets, %d flat or turned over, %d lost, %d points of %d left",
			tt.shift, tt.chord, len(m.Facets), bad, lost, len(f.Vertices), len(m.Vertices))
	}
}

// A point just beside the diagonal of a cube's bottom rounds onto it.
func TestRoundingFlipsAFlatFacet(t *testing.T) {
	m := cube()
	m.Vertices = append(m.Vertices, Point3{0.5, 0.5 - 1e-9, 0})
	m.Facets[1] = [3]int32{0, 3, 8}
	m.Facets = append(m.Facets, [3]int32{0, 8, 1}, [3]int32{8, 3, 1})
	require.NoError(t, m.Check().Err())
	bad, lost := flatAfterRounding(m)
	require.Equal(t, [2]int{1, 0}, [2]int{bad, lost})
	f := requireRounded(t, m, 1e-8)
	require.Len(t, f.Facets, len(m.Facets))
	require.Equal(t, 1.0, f.Volume())
}

// flatAfterRounding counts the facets that plain rounding spoils: those without
// area or turned over, and those with an edge of no length.
func flatAfterRounding(m *Mesh) (bad, lost int) {
	r := rounding{from: m}
	if r.roundAll() != nil {
		return 0, 0
	}
	r.renumber(r.weld())
	if r.listBad() != nil {
		return 0, 0
	}
	return len(r.bad), len(m.Facets) - len(r.to.Facets)
}

func TestRoundingReportsWhatItCannotHold(t *testing.T) {
	thin := plane.Region{
		Outer: plane.CircleLoop(plane.Vec{}, 100),
		Holes: []plane.Loop{plane.CircleLoop(plane.Vec{}, 100-1e-7).Reverse()},
	}
	m, err := Prism(thin, 0, 10, 1e-2)
	require.NoError(t, err)
	_, err = m.Float32()
	var p *PrecisionError
	require.ErrorAs(t, err, &p)
	require.InDelta(t, 7.6e-6, p.Step, 1e-7)
	require.Contains(t, err.Error(), "tolerance")

	fine := plane.Region{Outer: toothed(20, 1, 1.2)}.Map(plane.Moved(plane.Vec{X: 1e4}))
	m, err = Prism(fine, 0, 10, 1e-8)
	require.NoError(t, err)
	_, err = m.Float32()
	require.ErrorAs(t, err, &p)
	require.InDelta(t, 9.8e-4, p.Step, 1e-5)

	m = cube()
	m.Vertices[7].X = 1e39
	_, err = m.Float32()
	require.ErrorAs(t, err, &p)

	m = cube()
	for i := range m.Vertices {
		m.Vertices[i] = m.Vertices[i].Mul(1e-60)
	}
	_, err = m.Float32()
	require.ErrorAs(t, err, &p)

	for _, v := range []float64{math.NaN(), math.Inf(1)} {
		m = cube()
		m.Vertices[7].X = v
		_, err = m.Float32()
		var bad Problem
		require.True(t, errors.As(err, &bad))
		require.Equal(t, NotFinite, bad.Kind)
	}
	m = cube()
	m.Facets[3][0] = 99
	_, err = m.Float32()
	require.Error(t, err)
}

// Plates at the edge of what 32-bit numbers hold: either they are held, or the
// error says why not.
func TestRoundingNeverBreaksAMesh(t *testing.T) {
	held := 0
	rapid.Check(t, func(t *rapid.T) {
		shift := rapid.SampledFrom([]float64{0, 1e2, 1e4, 1e6}).Draw(t, "shift")
		r := plane.Region{Outer: drawStar(t, 0.5, 0.8), Holes: drawGrid(t, 0.17)}.Map(plane.Moved(plane.Vec{X: shift, Y: shift / 3}))
		m, err := Prism(r, 0, 1, rapid.SampledFrom([]float64{1e-2, 1e-4, 1e-5}).Draw(t, "chord"))
		if err != nil {
			t.Fatalf("%v", err)
		}
		f, err := m.Float32()
		var p *PrecisionError
		switch {
		case err == nil:
			held++
			if err := f.Check().Err(); err != nil {
				t.Fatalf("%v", err)
			}
		case !errors.As(err, &p):
			t.Fatalf("%v", err)
		}
	})
	require.Positive(t, held)
}

func TestWelderTakesNegativeZeroForZero(t *testing.T) {
	var w Welder
	zero := float32(0)
	require.Equal(t, int32(0), w.Add([3]float32{0, 1, 0}))
	require.Equal(t, int32(1), w.Add([3]float32{1, 1, 0}))
	require.Equal(t, int32(0), w.Add([3]float32{-zero * 1, 1, float32(math.Copysign(0, -1))}))
	for i := range 5000 {
		require.Equal(t, int32(2+i), w.Add([3]float32{float32(i), 2, 3}))
	}
	for i := range 5000 {
		require.Equal(t, int32(2+i), w.Add([3]float32{float32(i), 2, 3}))
	}
	require.False(t, math.Signbit(float64(w.Points()[0][2])))
}

func TestAllApart(t *testing.T) {
	var pts []Point3
	for i := range 100_000 {
		pts = append(pts, Point3{float64(i % 100), float64(i / 100 % 100), float64(i / 10_000)})
	}
	require.True(t, allApart(nil))
	require.True(t, allApart(pts))
	for _, i := range []int{0, 1, 50_000, 99_999} {
		require.False(t, allApart(append(pts, pts[i])))
	}
}
