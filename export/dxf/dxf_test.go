package dxf_test

import (
	"bytes"
	"errors"
	"flag"
	"io"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"pgregory.net/rapid"
	"ringtrack/export/dxf"
	"ringtrack/export/figure"
	"ringtrack/gear/plane"
)

var (
	update = flag.Bool("update", false, "write the golden files anew")
	show   = flag.String("show", "", "folder to write the sample drawings to")
)

func golden(t *testing.T, name string, got []byte) {
	t.Helper()
	path := filepath.Join("testdata", "golden", name)
	if *update {
		if err := os.WriteFile(path, got, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatalf("%v\nwrite it with: go test ./export/dxf -update", err)
	}
	g, w := strings.Split(string(got), "\n"), strings.Split(string(want), "\n")
	for i := range max(len(g), len(w)) {
		if i >= len(g) || i >= len(w) || g[i] != w[i] {
			t.Fatalf("%s differs at line %d of %d (got %d lines)", path, i+1, len(w), len(g))
		}
	}
}

// wave is one pitch of a wavy circle, a stand-in for a toothed outline.
type wave struct {
	r, a float64
	n    int
}

func (w wave) Span() (float64, float64) { return 0, 2 * math.Pi / float64(w.n) }
func (w wave) At(t float64) (x, y, dx, dy, ddx, ddy float64) {
	k := float64(w.n)
	s, c := math.Sincos(t)
	r, r1, r2 := w.r+w.a*math.Cos(k*t), -w.a*k*math.Sin(k*t), -w.a*k*k*math.Cos(k*t)
	return r * c, r * s, r1*c - r*s, r1*s + r*c, (r2-r)*c - 2*r1*s, (r2-r)*s + 2*r1*c
}

func wavy(r, a float64, n int) plane.Loop {
	return plane.Loop{Unit: []plane.Piece{plane.NewCurve(wave{r, a, n})}, Fold: n}
}

// pinionLike has a smooth outside, a D-shaped bore and a screw hole.
func pinionLike() figure.Drawing {
	flat := 0.5
	bore := plane.Loop{Unit: []plane.Piece{
		plane.Arc{R: 3, A0: flat, Sweep: 2*math.Pi - 2*flat},
		plane.Line{A: plane.Polar(3, -flat), B: plane.Polar(3, flat)},
	}}
	d := figure.Part(plane.Region{Outer: wavy(12, 1, 8),
		Holes: []plane.Loop{bore.Reverse(), plane.CircleLoop(plane.Vec{X: 6.5, Y: 0}, 1).Reverse()}})
	d.Notes = []string{"8 waves, 12 mm ± 1 mm"}
	return d
}

func write(t testing.TB, d figure.Drawing, opt dxf.Options) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := dxf.Write(&b, d, opt); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func read(t testing.TB, b []byte) *dxf.Result {
	t.Helper()
	res, err := dxf.Read(bytes.NewReader(b), dxf.Limits{})
	if err != nil {
		t.Fatal(err)
	}
	return res
}

func TestWriteGolden(t *testing.T) {
	got := write(t, pinionLike(), dxf.Options{Chord: 0.05})
	if again := write(t, pinionLike(), dxf.Options{Chord: 0.05}); !bytes.Equal(got, again) {
		t.Fatal("the second file differs from the first")
	}
	golden(t, "pinion-like.dxf", got)
	for _, s := range []string{"\n$INSUNITS\n70\n4\n", "\n$MEASUREMENT\n70\n1\n", "at most 0.05 mm", "\nAC1015\n"} {
		if !bytes.Contains(got, []byte(s)) {
			t.Errorf("%q is not in the file", s)
		}
	}
}

// sameSteps compares the vertices, turns and radii of two drawings.
func sameSteps(t interface{ Fatalf(string, ...any) }, want, got figure.Drawing, chord float64, decimals int) {
	if len(want.Outlines) != len(got.Outlines) {
		t.Fatalf("%d outlines written, %d read", len(want.Outlines), len(got.Outlines))
	}
	half := 0.5*math.Pow(10, -float64(decimals)) + 1e-12
	for i, o := range want.Outlines {
		fine := figure.Fineness{Chord: chord, Sweep: math.Pi, Decimals: decimals}
		a, err := figure.Steps(o.Loop, fine)
		if err != nil {
			t.Fatalf("%v", err)
		}
		g := got.Outlines[i]
		if g.Layer != o.Layer || len(g.Loop.Unit) != len(a) || g.Loop.Turns() != 1 {
			t.Fatalf("outline %d: layer %s, %d pieces; want %s, %d", i, g.Layer, len(g.Loop.Unit), o.Layer, len(a))
		}
		for k, p := range g.Loop.Unit {
			at := p.At(0)
			arc, ok := p.(plane.Arc)
			near := half
			if ok { // the rounding of a far centre
				near += 1e-14 * (arc.R + arc.C.Len())
			}
			if math.Abs(at.X-a[k].At.X) > near || math.Abs(at.Y-a[k].At.Y) > near {
				t.Fatalf("outline %d vertex %d: read %v, want %v", i, k, at, a[k].At)
			}
			if ok != (a[k].Sweep != 0) || ok && math.Abs(arc.Sweep-a[k].Sweep) > 1e-10 {
				t.Fatalf("outline %d piece %d: read %+v, want %+v", i, k, p, a[k])
			}
			if ok {
				exact := figure.ArcBetween(a[k].At, a[(k+1)%len(a)].At, a[k].Sweep)
				if d := arc.At(0.5).Sub(exact.At(0.5)).Len(); d > 4*half {
					t.Fatalf("outline %d piece %d: middle of the arc %g mm off", i, k, d)
				}
			}
		}
		if err := g.Loop.Check(1e-9); err != nil {
			t.Fatalf("outline %d: %v", i, err)
		}
	}
}

func TestReadBack(t *testing.T) {
	for _, decimals := range []int{3, 5, 7, 9} {
		d := pinionLike()
		res := read(t, write(t, d, dxf.Options{Chord: 0.01, Decimals: decimals}))
		sameSteps(t, d, res.Drawing, 0.01, decimals)
		if res.Unit != "millimetre" || res.Assumed || res.Version != "AC1015" || len(res.Remarks) != 0 {
			t.Errorf("%+v", res)
		}
		if len(res.Notes) != 3 || res.Notes[2] != `8 waves, 12 mm \U+00B1 1 mm` {
			t.Errorf("notes %q", res.Notes)
		}
		for i, o := range d.Outlines {
			want, got := o.Loop.Area(), res.Outlines[i].Loop.Area()
			if math.Abs(got-want) > 0.01*o.Loop.Length() {
				t.Errorf("outline %d: area %g, want %g", i, got, want)
			}
		}
	}
}

// TestVerticesOnTheCurve: every vertex lies on the exact outline within the
// last decimal, and no chord leaves it by more than the tolerance.
func TestVerticesOnTheCurve(t *testing.T) {
	l := wavy(30, 2, 15)
	for _, chord := range []float64{0.1, 0.005, 1e-4} {
		d := figure.Drawing{Outlines: []figure.Outline{{Layer: figure.CutOutside, Loop: l}}}
		for _, p := range read(t, write(t, d, dxf.Options{Chord: chord})).Outlines[0].Loop.Unit {
			if off := l.Distance(p.At(0)); off > 1e-7 {
				t.Fatalf("vertex %v is %g mm off", p.At(0), off)
			}
			for _, u := range []float64{0.25, 0.5, 0.75} {
				if off := l.Distance(p.At(u)); off > chord+1e-7 {
					t.Fatalf("chord %g mm off at %g", off, chord)
				}
			}
		}
	}
}

func TestExtents(t *testing.T) {
	d := figure.Drawing{Outlines: []figure.Outline{{Layer: figure.CutOutside,
		Loop: plane.CircleLoop(plane.Vec{X: 1, Y: 2}, 5)}}}
	got := string(write(t, d, dxf.Options{}))
	if !strings.Contains(got, "$EXTMIN\n10\n-4\n20\n-3\n30\n0\n9\n$EXTMAX\n10\n6\n20\n7\n30\n0\n") {
		t.Errorf("wrong extents in %.600s", got)
	}
}

func TestWriteRefuses(t *testing.T) {
	circle := plane.CircleLoop(plane.Vec{}, 5)
	one := func(l plane.Loop) figure.Drawing {
		return figure.Drawing{Outlines: []figure.Outline{{Layer: figure.CutOutside, Loop: l}}}
	}
	nan := plane.CircleLoop(plane.Vec{X: math.NaN()}, 5)
	open := plane.Loop{Unit: []plane.Piece{plane.Arc{R: 5, Sweep: 3}}}
	speck := plane.CircleLoop(plane.Vec{}, 1e-9)
	layer := one(circle)
	layer.Outlines[0].Layer = "CUT OUTSIDE"
	note := one(circle)
	note.Notes = []string{"two\nlines"}
	for _, tt := range []struct {
		d    figure.Drawing
		opt  dxf.Options
		want string
	}{
		{figure.Drawing{}, dxf.Options{}, "no outlines"},
		{one(nan), dxf.Options{}, "NaN"},
		{one(open), dxf.Options{}, "from the start of the next"},
		{one(plane.Loop{}), dxf.Options{}, "no pieces"},
		{one(speck), dxf.Options{}, "nothing is left"},
		{layer, dxf.Options{}, `layer name "CUT OUTSIDE"`},
		{note, dxf.Options{}, "not one line"},
		{one(circle), dxf.Options{Chord: -1}, "chordal tolerance"},
		{one(circle), dxf.Options{Chord: math.NaN()}, "chordal tolerance"},
		{one(circle), dxf.Options{Decimals: 20}, "decimals"},
	} {
		var b bytes.Buffer
		err := dxf.Write(&b, tt.d, tt.opt)
		if err == nil || !strings.Contains(err.Error(), tt.want) || b.Len() != 0 {
			t.Errorf("got %v and %d bytes, want %q", err, b.Len(), tt.want)
		}
	}
}

// failing accepts n bytes.
type failing struct{ n int }

var errFull = errors.New("full")

func (f *failing) Write(b []byte) (int, error) {
	if len(b) > f.n {
		return f.n, errFull
	}
	f.n -= len(b)
	return len(b), nil
}

func TestWriteErrorIsReported(t *testing.T) {
	d := pinionLike()
	size := len(write(t, d, dxf.Options{Chord: 1e-4}))
	for _, n := range []int{0, 100, size / 2, size - 1} {
		if err := dxf.Write(&failing{n}, d, dxf.Options{Chord: 1e-4}); !errors.Is(err, errFull) {
			t.Errorf("after %d bytes: %v", n, err)
		}
	}
}

// randomLoop draws a loop of lines and arcs about a star-shaped polygon.
func randomLoop(t *rapid.T) plane.Loop {
	n := rapid.IntRange(3, 12).Draw(t, "corners")
	c := plane.Vec{X: rapid.Float64Range(-500, 500).Draw(t, "x"), Y: rapid.Float64Range(-500, 500).Draw(t, "y")}
	ps := make([]plane.Vec, n)
	for i := range ps {
		ps[i] = c.Add(plane.Polar(rapid.Float64Range(0.5, 100).Draw(t, "r"), 2*math.Pi*float64(i)/float64(n)))
	}
	l := plane.Loop{}
	for i, p := range ps {
		q := ps[(i+1)%n]
		s := rapid.Float64Range(-6, 6).Draw(t, "sweep")
		if math.Abs(s) < 1e-3 {
			l.Unit = append(l.Unit, plane.Line{A: p, B: q})
		} else {
			l.Unit = append(l.Unit, figure.ArcBetween(p, q, s))
		}
	}
	if rapid.Bool().Draw(t, "clockwise") {
		l = l.Reverse()
	}
	return l
}

func TestRoundTripProperty(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := figure.Drawing{}
		for range rapid.IntRange(1, 4).Draw(t, "outlines") {
			layer := rapid.SampledFrom([]figure.Layer{figure.CutOutside, figure.CutInside, figure.Engrave}).Draw(t, "layer")
			d.Outlines = append(d.Outlines, figure.Outline{Layer: layer, Loop: randomLoop(t)})
		}
		var b bytes.Buffer
		if err := dxf.Write(&b, d, dxf.Options{}); err != nil {
			t.Fatal(err)
		}
		res, err := dxf.Read(&b, dxf.Limits{})
		if err != nil {
			t.Fatal(err)
		}
		sameSteps(t, d, res.Drawing, dxf.DefaultChord, dxf.DefaultDecimals)
	})
}

func ringLike() figure.Drawing {
	r := plane.Region{Outer: plane.CircleLoop(plane.Vec{}, 147), Holes: []plane.Loop{wavy(130, 2.8, 104).Reverse()}}
	for i := range 24 {
		r.Holes = append(r.Holes, plane.CircleLoop(plane.Polar(140, float64(i)*math.Pi/12), 2.2).Reverse())
	}
	return figure.Part(r)
}

func BenchmarkWriteRing(b *testing.B) {
	d := ringLike()
	for b.Loop() {
		if err := dxf.Write(io.Discard, d, dxf.Options{Chord: 0.0001}); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkReadRing(b *testing.B) {
	data := write(b, ringLike(), dxf.Options{Chord: 0.0001})
	b.SetBytes(int64(len(data)))
	for b.Loop() {
		if _, err := dxf.Read(bytes.NewReader(data), dxf.Limits{}); err != nil {
			b.Fatal(err)
		}
	}
}
