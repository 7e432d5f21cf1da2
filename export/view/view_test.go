package view_test

import (
	"bytes"
	"math"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"ringtrack/export/figure"
	"ringtrack/export/png"
	"ringtrack/export/svg"
	"ringtrack/export/view"
	"ringtrack/gear/plane"
	"ringtrack/gear/solid"
)

// stroke is a straight piece of a line.
type stroke struct{ a, b plane.Vec }

func (s stroke) length() float64 { return s.b.Sub(s.a).Len() }

func strokes(d view.Drawing) (out []stroke, runs []figure.Run) {
	for _, m := range d.Marks {
		if m.Style.Fill.A != 0 {
			continue
		}
		for _, r := range m.Path.Runs(0.01) {
			runs = append(runs, r)
			for i, p := range r.Points {
				if i > 0 {
					out = append(out, stroke{r.Points[i-1], p})
				}
			}
			if r.Closed {
				out = append(out, stroke{r.Points[len(r.Points)-1], r.Points[0]})
			}
		}
	}
	return out, runs
}

func draw(t *testing.T, m *solid.Mesh, from solid.Point3, opt view.Options) view.Drawing {
	t.Helper()
	d, err := view.Draw(m, from, opt)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// figureOf puts a drawing on paper of its size.
func figureOf(d view.Drawing) figure.Figure {
	size := d.Box.Size()
	f := figure.Figure{Width: size.X + 10, Height: size.Y + 10}
	f.Add(figure.Picture{Marks: d.Marks, Window: figure.Extent(d.Marks), Move: plane.Vec{X: 5, Y: 5}.Sub(d.Box.Min)})
	return f
}

func picture(t *testing.T, f figure.Figure) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := svg.WriteFigure(&b, f); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// keep writes a picture into the directory named by RINGTRACK_PICTURES, if
// there is one.
func keep(t *testing.T, name string, f figure.Figure) {
	t.Helper()
	dir := os.Getenv("RINGTRACK_PICTURES")
	if dir == "" {
		return
	}
	var b bytes.Buffer
	if err := png.Write(&b, f, png.Options{Width: 1800}); err != nil {
		t.Fatal(err)
	}
	for ending, data := range map[string][]byte{".png": b.Bytes(), ".svg": picture(t, f)} {
		if err := os.WriteFile(filepath.Join(dir, name+ending), data, 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

// Lines end a little beyond their edges: at most so far, and twice in a line.
const overhang = 0.15

func TestNearBoxHidesEdges(t *testing.T) {
	m := boxes(
		solid.Point3{X: 0, Y: 5, Z: 0}, solid.Point3{X: 10, Y: 6, Z: 10},
		solid.Point3{X: 5, Y: 0, Z: 3}, solid.Point3{X: 15, Y: 1, Z: 7},
	)
	for name, tt := range map[string]struct {
		from solid.Point3
		want float64 // mm of the far box's edge at x = 10 that are seen
	}{
		"from the front": {solid.Point3{Y: -2}, 6},
		"from behind":    {solid.Point3{Y: 2}, 10},
	} {
		d := draw(t, m, tt.from, view.Options{})
		all, _ := strokes(d)
		side := math.Copysign(1, -tt.from.Y) // x as seen
		got := 0.0
		for _, s := range all {
			if math.Abs(s.a.X*side-10) < 0.02 && math.Abs(s.b.X*side-10) < 0.02 {
				got += s.length()
			}
		}
		if math.Abs(got-tt.want) > 4*overhang {
			t.Errorf("%s: %.3f mm of the edge are seen, want %g", name, got, tt.want)
		}
	}
}

func TestBoxShowsNineEdges(t *testing.T) {
	m := boxes(solid.Point3{}, solid.Point3{X: 10, Y: 20, Z: 30})
	all, runs := strokes(draw(t, m, view.Above(), view.Options{}))
	if len(all) != 9 {
		t.Errorf("%d edges in %d lines, want 9", len(all), len(runs))
	}
}

func TestCylinderShowsTwoSidesAndTwoCircles(t *testing.T) {
	const r, h = 10, 15
	m := mesh(t, &solid.Body{Walls: []solid.Wall{{Loop: plane.CircleLoop(plane.Vec{}, r), Low: 0, High: h}}}, 0.001)
	d := draw(t, m, view.Above(), view.Options{})
	sin, cos := math.Sincos(35 * math.Pi / 180)
	all, runs := strokes(d)
	onCircle := func(p plane.Vec, z float64) bool {
		return math.Abs(math.Hypot(p.X, (p.Y-z*cos)/sin)-r) < 0.03
	}
	var sides [2]int
	var top, foot float64
	for _, s := range all {
		mid := s.a.Add(s.b).Mul(0.5)
		switch {
		case math.Abs(s.length()-h*cos) < 2*overhang && math.Abs(math.Abs(mid.X)-r) < 0.02:
			if mid.X > 0 {
				sides[1]++
			} else {
				sides[0]++
			}
		case onCircle(mid, h):
			top += s.length()
		case onCircle(mid, 0) && mid.Y < 0.2:
			foot += s.length()
		case s.length() > overhang:
			t.Errorf("a line from %v to %v is no edge of the cylinder", s.a, s.b)
		}
	}
	round := 0.0
	for i := range 1000 {
		a := (float64(i) + 0.5) * 2 * math.Pi / 1000
		round += math.Hypot(math.Sin(a), sin*math.Cos(a)) * r * 2 * math.Pi / 1000
	}
	if sides != [2]int{1, 1} || math.Abs(top-round) > 0.5 || math.Abs(foot-round/2) > 0.5 {
		t.Errorf("%d sides, %.2f mm of the upper circle (want %.2f), %.2f mm of the lower (want %.2f)", sides, top, round, foot, round/2)
	}
	if len(runs) > 6 {
		t.Errorf("%d lines: they are broken", len(runs))
	}
	if got, want := tonedArea(d), 2*r*h*cos+math.Pi*r*r*sin; math.Abs(got-want) > 0.01*want {
		t.Errorf("%.2f mm2 of tone, the part is seen on %.2f", got, want)
	}
}

func TestCylinderSidesAreWhole(t *testing.T) {
	const h = 15
	for _, chord := range []float64{0.001, 0.01, 0.1} {
		for _, r := range []float64{3, 10, 40} {
			m := mesh(t, &solid.Body{Walls: []solid.Wall{
				{Loop: plane.CircleLoop(plane.Vec{}, r+20), Low: -2, High: 0},
				{Loop: plane.CircleLoop(plane.Vec{}, r), Low: 0, High: h},
			}}, chord)
			for turn := 0.1; turn < 6; turn += 0.7 {
				d := draw(t, m, view.From(turn, 0.6), view.Options{})
				all, _ := strokes(d)
				pixel := d.Box.Size().X / view.DefaultRaster
				for _, side := range []float64{-1, 1} {
					for i := range 50 {
						p := plane.Vec{X: side * r, Y: (float64(i) + 0.5) / 50 * h * math.Cos(0.6)}
						if away := nearest(all, p); away > 2*pixel+2*chord {
							t.Errorf("chord %g, radius %g, turn %.1f: no line at %v, the nearest is %.3f mm away", chord, r, turn, p, away)
							break
						}
					}
				}
			}
		}
	}
}

// nearest returns the distance from p to the nearest stroke.
func nearest(all []stroke, p plane.Vec) float64 {
	best := math.Inf(1)
	for _, s := range all {
		d, v := s.b.Sub(s.a), p.Sub(s.a)
		if l := d.Dot(d); l > 0 {
			v = v.Sub(d.Mul(math.Min(1, math.Max(0, v.Dot(d)/l))))
		}
		best = math.Min(best, v.Len())
	}
	return best
}

// tonedArea returns the area of the brightest tone, which lies under all.
func tonedArea(d view.Drawing) float64 {
	sum := 0.0
	for _, r := range d.Marks[0].Path.Runs(0.01) {
		for i, p := range r.Points {
			sum += p.Cross(r.Points[(i+1)%len(r.Points)]) / 2
		}
	}
	return sum
}

func TestPartsWithoutCrumbs(t *testing.T) {
	for name, b := range map[string]*solid.Body{"pinion": pinion(t), "ring": ring(t)} {
		m := mesh(t, b, 0.005)
		for side, from := range map[string]solid.Point3{"above": view.Above(), "below": view.Below()} {
			box, err := view.Extent(m, from)
			if err != nil {
				t.Fatal(err)
			}
			d := draw(t, m, from, view.Options{Scale: 180 / box.Size().X})
			f := figureOf(d)
			data := picture(t, f)
			if len(data) > 300_000 {
				t.Errorf("%s from %s: %d bytes of SVG", name, side, len(data))
			}
			if !bytes.Equal(data, picture(t, figureOf(draw(t, m, from, view.Options{Scale: 180 / box.Size().X})))) {
				t.Errorf("%s from %s: drawn twice, the bytes differ", name, side)
			}
			_, runs := strokes(d)
			for _, r := range runs {
				l := 0.0
				for i := 1; i < len(r.Points); i++ {
					l += r.Points[i].Sub(r.Points[i-1]).Len()
				}
				if l < 0.2 {
					t.Errorf("%s from %s: a line of %.3f mm at %v", name, side, l, r.Points[0])
				}
			}
			t.Logf("%s from %s: %d facets, %d lines, %d bytes of SVG", name, side, len(m.Facets), len(runs), len(data))
			keep(t, "view-"+name+"-"+side, f)
		}
	}
}

func TestScaleAndColours(t *testing.T) {
	m := boxes(solid.Point3{}, solid.Point3{X: 10, Y: 20, Z: 30})
	one, two := draw(t, m, view.Above(), view.Options{}), draw(t, m, view.Above(), view.Options{Scale: 2})
	if a, b := one.Box.Size().Mul(2), two.Box.Size(); a.Sub(b).Len() > 1e-9 {
		t.Errorf("at 2 : 1 the box is %v, want %v", b, a)
	}
	if e := figure.Extent(two.Marks); !(e.Min.Sub(two.Box.Min).Len() < 0.5 && e.Max.Sub(two.Box.Max).Len() < 0.5) {
		t.Errorf("the marks lie in %v, the box is %v", e, two.Box)
	}
	lines := draw(t, m, view.Above(), view.Options{Look: figure.Style{Stroke: figure.Colour{A: 255}, Width: 0.3}})
	for _, k := range lines.Marks {
		if k.Style.Fill.A != 0 {
			t.Error("tones without a colour to fill with")
		}
	}
	if !reflect.DeepEqual(one, draw(t, m, view.Above().Mul(8), view.Options{})) {
		t.Error("the direction's length matters")
	}
}

func TestBadInput(t *testing.T) {
	good := boxes(solid.Point3{}, solid.Point3{X: 1, Y: 1, Z: 1})
	with := func(change func(m *solid.Mesh)) *solid.Mesh {
		m := boxes(solid.Point3{}, solid.Point3{X: 1, Y: 1, Z: 1})
		change(m)
		return m
	}
	nan := math.NaN()
	for _, tt := range []struct {
		name string
		mesh *solid.Mesh
		from solid.Point3
		opt  view.Options
		want string
	}{
		{"no mesh", nil, view.Above(), view.Options{}, "no facets"},
		{"empty mesh", &solid.Mesh{}, view.Above(), view.Options{}, "no facets"},
		{"NaN vertex", with(func(m *solid.Mesh) { m.Vertices[3].Y = nan }), view.Above(), view.Options{}, "vertex 3"},
		{"infinite vertex", with(func(m *solid.Mesh) { m.Vertices[0].X = math.Inf(1) }), view.Above(), view.Options{}, "vertex 0"},
		{"missing vertex", with(func(m *solid.Mesh) { m.Facets[2][1] = 8 }), view.Above(), view.Options{}, "facet 2 names vertex 8"},
		{"negative vertex", with(func(m *solid.Mesh) { m.Facets[2][1] = -1 }), view.Above(), view.Options{}, "vertex -1"},
		{"no extent", with(func(m *solid.Mesh) { clear(m.Vertices) }), view.Above(), view.Options{}, "no extent"},
		{"zero direction", good, solid.Point3{}, view.Options{}, "direction"},
		{"NaN direction", good, solid.Point3{X: nan}, view.Options{}, "direction"},
		{"endless direction", good, solid.Point3{Z: math.Inf(1)}, view.Options{}, "direction"},
		{"scale", good, view.Above(), view.Options{Scale: -1}, "scale of -1"},
		{"NaN scale", good, view.Above(), view.Options{Scale: nan}, "scale"},
		{"crease", good, view.Above(), view.Options{Crease: 4}, "crease of 4"},
		{"raster", good, view.Above(), view.Options{Raster: 9999}, "raster of 9999"},
		{"tones", good, view.Above(), view.Options{Tones: 9}, "9 tones"},
		{"width", good, view.Above(), view.Options{Look: figure.Style{Width: nan}}, "wide"},
	} {
		if _, err := view.Draw(tt.mesh, tt.from, tt.opt); err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%s: %v, want an error with %q", tt.name, err, tt.want)
		}
	}
}

func TestOddMeshes(t *testing.T) {
	open := boxes(solid.Point3{}, solid.Point3{X: 1, Y: 1, Z: 1})
	open.Facets = open.Facets[:7]
	flat := boxes(solid.Point3{}, solid.Point3{X: 1, Y: 1})
	twice := boxes(solid.Point3{}, solid.Point3{X: 1, Y: 1, Z: 1}, solid.Point3{}, solid.Point3{X: 1, Y: 1, Z: 1})
	for _, m := range []*solid.Mesh{open, flat, twice} {
		for _, from := range []solid.Point3{view.Above(), view.Below(), {Z: 1}, {Z: -1}, {X: 1}, {Y: 1e-300, Z: 1}} {
			if _, err := view.Draw(m, from, view.Options{Raster: 200}); err != nil {
				t.Errorf("from %v: %v", from, err)
			}
		}
	}
}

func BenchmarkDraw(b *testing.B) {
	for _, k := range []struct {
		name string
		body *solid.Body
	}{{"pinion-5um", pinion(b)}, {"ring-5um", ring(b)}} {
		m := mesh(b, k.body, 0.005)
		b.Run(k.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := view.Draw(m, view.Above(), view.Options{}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
