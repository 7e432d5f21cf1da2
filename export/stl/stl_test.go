package stl

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	reference "github.com/hschendel/stl"
	"github.com/stretchr/testify/require"

	"ringtrack/gear/plane"
	"ringtrack/gear/solid"
)

// wheel returns a disk with a square tooth row and a bore.
func wheel(tb testing.TB, chord float64) *solid.Mesh {
	tb.Helper()
	const z = 24
	p := 2 * math.Pi / z
	r1, r2 := 20.0, 22.0
	at := func(r, k float64) plane.Vec { return plane.Polar(r, k*p) }
	r := plane.Region{
		Outer: plane.Loop{Fold: z, Unit: []plane.Piece{
			plane.Arc{R: r1, Sweep: p / 2}, plane.Line{A: at(r1, 0.5), B: at(r2, 0.6)},
			plane.Arc{R: r2, A0: 0.6 * p, Sweep: 0.3 * p}, plane.Line{A: at(r2, 0.9), B: at(r1, 1)},
		}},
		Holes: []plane.Loop{plane.CircleLoop(plane.Vec{X: 1}, 6).Reverse()},
	}
	m, err := solid.Prism(r, 0, 8, chord)
	require.NoError(tb, err)
	return m
}

func written(tb testing.TB, m *solid.Mesh, opt Options) []byte {
	tb.Helper()
	var b bytes.Buffer
	require.NoError(tb, Write(&b, m, opt))
	return b.Bytes()
}

func TestWrittenFileInAnotherReader(t *testing.T) {
	m := wheel(t, 0.001)
	data := written(t, m, Options{Name: "pinion"})
	s, err := reference.ReadAll(bytes.NewReader(data))
	require.NoError(t, err)
	require.False(t, s.IsAscii)
	require.Equal(t, fmt.Sprintf("%-80s", "ringtrack pinion"), string(data[:80]))
	r, err := m.Float32()
	require.NoError(t, err)
	require.Len(t, s.Triangles, len(r.Facets))
	for i, f := range r.Facets {
		tri := s.Triangles[i]
		for k, v := range f {
			p := r.Vertices[v]
			require.Equal(t, reference.Vec3{float32(p.X), float32(p.Y), float32(p.Z)}, tri.Vertices[k])
		}
		n := r.Normal(i)
		n = n.Mul(1 / n.Len())
		for k, v := range [3]float64{n.X, n.Y, n.Z} {
			require.InDelta(t, v, tri.Normal[k], 6e-8) // half a step of a 32-bit number below 1
		}
	}
	require.Empty(t, s.Validate())
}

func TestWrittenFileReadBack(t *testing.T) {
	m := wheel(t, 0.001)
	want, err := m.Float32()
	require.NoError(t, err)
	data := written(t, m, Options{})
	require.Len(t, data, 84+50*len(m.Facets))
	require.Equal(t, data, written(t, m, Options{}))
	path := filepath.Join(t.TempDir(), "wheel.stl")
	require.NoError(t, os.WriteFile(path, data, 0o644))
	file, err := os.Open(path)
	require.NoError(t, err)
	defer file.Close()
	for name, r := range map[string]io.Reader{
		"sized": bytes.NewReader(data), "file": file, "pipe": io.MultiReader(bytes.NewReader(data)),
	} {
		t.Run(name, func(t *testing.T) {
			got, err := Read(r, ReadOptions{})
			require.NoError(t, err)
			requireSameFacets(t, want, got)
			rep := got.Check()
			require.NoError(t, rep.Err())
			require.Equal(t, 0, rep.Euler)
			require.InEpsilon(t, m.Volume(), got.Volume(), 1e-6)
		})
	}
}

// requireSameFacets compares meshes whose vertices are numbered differently.
func requireSameFacets(t *testing.T, want, got *solid.Mesh) {
	t.Helper()
	require.Len(t, got.Vertices, len(want.Vertices))
	require.Len(t, got.Facets, len(want.Facets))
	for i := range want.Facets {
		for k := range 3 {
			require.Equal(t, want.Vertices[want.Facets[i][k]], got.Vertices[got.Facets[i][k]])
		}
	}
}

func TestTextOfAnotherWriter(t *testing.T) {
	m := wheel(t, 0.01)
	s, err := reference.ReadAll(bytes.NewReader(written(t, m, Options{})))
	require.NoError(t, err)
	s.IsAscii, s.Name = true, "wheel"
	var b bytes.Buffer
	require.NoError(t, s.WriteAll(&b))
	want, err := m.Float32()
	require.NoError(t, err)
	got, err := Read(&b, ReadOptions{})
	require.NoError(t, err)
	requireSameFacets(t, want, got)
}

const triangle = `solid a name of two words
  FACET normal 0 0 1
    outer loop
      vertex 0 0 0
      vertex 1.0e0 0 -0
      vertex 0 +1 0
    endloop
  endfacet
endsolid a name of two words
`

func TestText(t *testing.T) {
	for name, text := range map[string]string{
		"plain": triangle, "dos": strings.ReplaceAll(triangle, "\n", "\r\n"), "blank before": "\n " + triangle,
		"no last line end": strings.TrimSpace(triangle),
	} {
		t.Run(name, func(t *testing.T) {
			m, err := Read(strings.NewReader(text), ReadOptions{})
			require.NoError(t, err)
			require.Equal(t, &solid.Mesh{
				Vertices: []solid.Point3{{}, {X: 1}, {Y: 1}}, Facets: [][3]int32{{0, 1, 2}},
			}, m)
		})
	}
	m, err := Read(strings.NewReader(triangle+triangle), ReadOptions{})
	require.NoError(t, err)
	require.Len(t, m.Facets, 2)
}

func TestBadText(t *testing.T) {
	change := func(a, b string) string { return strings.Replace(triangle, a, b, 1) }
	for _, tt := range []struct {
		name, text, says string
		facet, line      int
	}{
		{"NaN", change("1.0e0", "NaN"), "second corner is not a finite", 0, 5},
		{"infinite normal", change("0 0 1", "0 0 inf"), "normal is not a finite", 0, 2},
		{"beyond 32 bits", change("1.0e0", "1e39"), "second corner is out of range", 0, 5},
		{"no number", change("1.0e0", "one"), `expected a number, found "one"`, 0, 5},
		{"comma", change("1.0e0", "1,0"), `expected a number`, 0, 5},
		{"a corner missing", change("      vertex 0 +1 0\n", ""), `expected vertex, found "endloop"`, 0, 6},
		{"cut short", triangle[:strings.Index(triangle, "loop")], "the end of the file", 0, 3},
		{"only solid", "solid", "expected facet or endsolid, found the end", 0, 1},
		{"other word", change("outer", "inner"), `expected outer, found "inner"`, 0, 3},
		{"something after", triangle + "more", `expected solid, found "more"`, 1, 10},
	} {
		t.Run(tt.name, func(t *testing.T) {
			_, err := Read(strings.NewReader(tt.text), ReadOptions{})
			var f *FormatError
			require.ErrorAs(t, err, &f)
			require.Contains(t, err.Error(), tt.says)
			require.Equal(t, [2]int{tt.facet, tt.line}, [2]int{f.Facet, f.Line})
		})
	}
	_, err := Read(strings.NewReader("solid\n"+strings.Repeat("x", 1<<20)), ReadOptions{})
	require.ErrorContains(t, err, "too long")
	_, err = Read(strings.NewReader(triangle+triangle), ReadOptions{MaxFacets: 1})
	require.ErrorContains(t, err, "more than the 1 facets")
}

func TestBadBinary(t *testing.T) {
	good := written(t, wheel(t, 0.05), Options{})
	spoil := func(at int, v float32) []byte {
		b := bytes.Clone(good)
		binary.LittleEndian.PutUint32(b[at:], math.Float32bits(v))
		return b
	}
	promise := func(n uint32, b []byte) []byte {
		b = bytes.Clone(b)
		binary.LittleEndian.PutUint32(b[80:], n)
		return b
	}
	nan, inf := float32(math.NaN()), float32(math.Inf(-1))
	n := uint32(len(good)-84) / 50
	for _, tt := range []struct {
		name  string
		data  []byte
		facet int
		says  string
	}{
		{"empty", nil, -1, "file"},
		{"half a header", good[:40], -1, "shorter than the 84 bytes"},
		{"cut short", good[:len(good)-1], -1, "file"},
		{"one byte more", append(bytes.Clone(good), 0), -1, "file"},
		{"one facet too many promised", promise(n+1, good), -1, "file"},
		{"one too few", promise(n-1, good), -1, "file"},
		{"four thousand million in 84 bytes", promise(math.MaxUint32, good[:84]), -1, "4294967295 facets"},
		{"NaN corner", spoil(84+50*3+12, nan), 3, "facet 3: the first corner is not a finite"},
		{"infinite corner", spoil(84+50*7+40, inf), 7, "facet 7: the third corner"},
		{"NaN normal", spoil(84, nan), 0, "facet 0: the normal"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			for _, r := range []io.Reader{bytes.NewReader(tt.data), io.MultiReader(bytes.NewReader(tt.data))} {
				_, err := Read(r, ReadOptions{})
				var f *FormatError
				require.ErrorAs(t, err, &f)
				require.Equal(t, tt.facet, f.Facet)
				require.Contains(t, err.Error(), tt.says)
			}
		})
	}
	_, err := Read(bytes.NewReader(good), ReadOptions{MaxFacets: int(n) - 1})
	require.ErrorContains(t, err, "allowed")
}

func TestBinaryThatBeginsWithSolid(t *testing.T) {
	data := written(t, wheel(t, 0.05), Options{})
	copy(data, "solid made elsewhere")
	for _, r := range []io.Reader{bytes.NewReader(data), io.MultiReader(bytes.NewReader(data))} {
		m, err := Read(r, ReadOptions{})
		require.NoError(t, err)
		require.NoError(t, m.Check().Err())
	}
}

// A promise of facets costs nothing until they come.
func TestPromisesAllocateNothing(t *testing.T) {
	data := make([]byte, 84)
	binary.LittleEndian.PutUint32(data[80:], 90_000_000)
	r := testing.Benchmark(func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			_, err := Read(io.MultiReader(bytes.NewReader(data)), ReadOptions{})
			require.Error(b, err)
		}
	})
	require.Less(t, r.AllocedBytesPerOp(), int64(200_000))
}

func TestWriteRefusals(t *testing.T) {
	m := wheel(t, 0.05)
	for name, opt := range map[string]Options{
		"too long": {Name: strings.Repeat("x", 71)}, "line end": {Name: "a\nb"}, "not ASCII": {Name: "Ø"},
	} {
		var b bytes.Buffer
		require.Error(t, Write(&b, m, opt), name)
		require.Zero(t, b.Len(), name)
	}
	require.NoError(t, Write(io.Discard, m, Options{Name: strings.Repeat("x", 70)}))
	fine := wheel(t, 0.05)
	for i := range fine.Vertices {
		fine.Vertices[i].X *= 1e-60
	}
	var p *solid.PrecisionError
	require.ErrorAs(t, Write(io.Discard, fine, Options{}), &p)
	_, err := facetCount(math.MaxUint32)
	require.NoError(t, err)
	_, err = facetCount(math.MaxUint32 + 1)
	require.Error(t, err)
}

// A header may look like text only when the name does.
func TestHeaderNeverBeginsWithSolid(t *testing.T) {
	data := written(t, wheel(t, 0.05), Options{Name: "solid"})
	require.True(t, bytes.HasPrefix(data, []byte("ringtrack solid ")))
}

// failing accepts so many bytes.
type failing struct {
	left  int
	calls int
}

var errFull = errors.New("no space left")

func (f *failing) Write(p []byte) (int, error) {
	f.calls++
	if len(p) > f.left {
		return f.left, errFull
	}
	f.left -= len(p)
	return len(p), nil
}

func TestWriteKeepsTheFirstError(t *testing.T) {
	m := wheel(t, 1e-5)
	require.Greater(t, len(m.Facets), 3000)
	for _, left := range []int{0, 60_000, 84 + 50*len(m.Facets) - 1} {
		f := &failing{left: left}
		require.ErrorIs(t, Write(f, m, Options{}), errFull)
		require.LessOrEqual(t, f.calls, 1+left/(1023*facetSize)+1)
	}
	require.NoError(t, Write(&failing{left: 84 + 50*len(m.Facets)}, m, Options{}))
}

func TestReadPassesOnErrors(t *testing.T) {
	data := written(t, wheel(t, 1e-4), Options{})
	text := []byte(strings.Repeat(triangle, 500))
	for _, d := range [][]byte{data[:0], data[:100], data[:80_000], text[:500], text[:70_000]} {
		r := io.MultiReader(bytes.NewReader(d), brokenReader{})
		_, err := Read(r, ReadOptions{})
		require.ErrorIs(t, err, errFull)
	}
}

type brokenReader struct{}

func (brokenReader) Read([]byte) (int, error) { return 0, errFull }

func FuzzRead(f *testing.F) {
	data := written(f, wheel(f, 0.05), Options{})
	f.Add(data[:84+50*4])
	four := bytes.Clone(data[:84+50*4])
	binary.LittleEndian.PutUint32(four[80:], 4)
	f.Add(four)
	f.Add(append([]byte("solid"), four[5:]...))
	f.Add([]byte(triangle))
	f.Add([]byte(triangle + triangle[:70]))
	f.Add([]byte("solid \x00"))
	f.Add(make([]byte, 84))
	f.Fuzz(func(t *testing.T, data []byte) {
		m, err := Read(bytes.NewReader(data), ReadOptions{})
		p, perr := Read(io.MultiReader(bytes.NewReader(data)), ReadOptions{MaxFacets: 1 << 20})
		if err != nil {
			var fe *FormatError
			if !errors.As(err, &fe) {
				t.Fatalf("unexpected kind of error: %v", err)
			}
			return
		}
		if perr == nil {
			require.Equal(t, m, p)
		}
		rep := m.Check() // must not panic
		if rep.Err() != nil || len(m.Facets) == 0 {
			return
		}
		var b bytes.Buffer
		if Write(&b, m, Options{}) != nil {
			return
		}
		again, err := Read(&b, ReadOptions{})
		require.NoError(t, err)
		require.NoError(t, again.Check().Err())
	})
}
