package png_test

import (
	"bytes"
	"errors"
	"flag"
	"fmt"
	"image"
	"image/color"
	"image/draw"
	stdpng "image/png"
	"io"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"ringtrack/export/figure"
	"ringtrack/export/png"
	"ringtrack/export/svg"
	"ringtrack/gear/plane"
)

var (
	update = flag.Bool("update", false, "write the golden files anew")
	show   = flag.String("show", "", "folder to write the sample figures to")
)

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

// assembly is a wavy pinion in a wavy ring with circles, dimensions, words and
// a legend.
func assembly() figure.Figure {
	f := figure.Figure{Width: 240, Height: 200, Title: "Wavy pinion in a wavy ring"}
	c := plane.Vec{X: 90, Y: 100}
	ring := plane.Moved(c)
	pin := c.Add(plane.Vec{X: 56})
	pinion := plane.Turned(math.Pi / 12).Then(plane.Moved(pin))
	var teeth figure.Path
	teeth = append(teeth, figure.Loops(ring, 0, plane.CircleLoop(plane.Vec{}, 80), wavy(70, 2, 60).Reverse())...)
	f.Add(figure.Shape{Path: teeth, Style: figure.Look(figure.Ring)})
	f.Add(figure.Shape{Path: figure.Loops(pinion, 0, wavy(14, 2, 12), plane.CircleLoop(plane.Vec{}, 3).Reverse()), Style: figure.Look(figure.Pinion)})
	for i := range 12 {
		at := c.Add(plane.Polar(76, math.Pi/12+float64(i)*math.Pi/6))
		f.Add(figure.Shape{Path: figure.Circle(at, 1.7), Style: figure.Style{Stroke: figure.Look(figure.Ring).Stroke, Width: 0.35, Fill: figure.Colour{R: 255, G: 255, B: 255, A: 255}}})
	}
	for _, k := range []struct {
		role   figure.Role
		c      plane.Vec
		radius float64
	}{{figure.ReferenceCircle, c, 70}, {figure.BaseCircle, c, 65.8}, {figure.TipCircle, c, 68},
		{figure.ReferenceCircle, pin, 14}, {figure.BaseCircle, pin, 13.1}, {figure.TipCircle, pin, 16}} {
		f.Add(figure.Shape{Path: figure.Circle(k.c, k.radius), Style: figure.Look(k.role)})
	}
	f.Add(figure.Shape{Path: figure.Lines(plane.Vec{X: 5, Y: 100}, plane.Vec{X: 178, Y: 100}), Style: figure.Look(figure.CentreLine)})
	f.Add(figure.Shape{Path: figure.Lines(plane.Vec{X: 90, Y: 15}, plane.Vec{X: 90, Y: 185}), Style: figure.Look(figure.CentreLine)})
	f.Add(figure.Shape{Path: figure.Lines(pin.Add(plane.Vec{X: 14.8, Y: -5}), pin.Add(plane.Vec{X: 11, Y: 9})), Style: figure.Look(figure.LineOfAction)})
	f.Add(figure.Linear{From: c, To: pin, Offset: 30, Text: "a = 56.000 ± 0.10"})
	f.Add(figure.Linear{From: c.Add(plane.Vec{X: -80}), To: c.Add(plane.Vec{X: -70}), Offset: -25, Text: "10"})
	f.Add(figure.Linear{From: plane.Vec{X: 60, Y: 60}, To: plane.Vec{X: 62, Y: 60}, Offset: 5, Text: "2.0"})
	f.Add(figure.Linear{From: c.Add(plane.Vec{Y: -80}), To: c.Add(plane.Vec{Y: 80}), Offset: 84, Text: "Ø 160"})
	r := figure.Radial(c, 70, 2.2, -18, "Ø 140 reference circle")
	f.Add(r, figure.Radial(pin, 3, -2.2, 14, "Ø 6.10"))
	f.Add(figure.Text{At: plane.Vec{X: 178, Y: 190}, Size: 3.5, Text: "α = 20°, αw = 21.3°"})
	f.Add(figure.Text{At: plane.Vec{X: 178, Y: 183}, Text: "εα = 1.62, jwt = 0.36 mm ± 0.05"})
	f.Add(figure.Text{At: plane.Vec{X: 178, Y: 177}, Text: "Größe, Ångström, Москва, 12 µm"})
	f.Add(figure.Text{At: plane.Vec{X: 12, Y: 20}, Angle: math.Pi / 2, Text: "turned by 90°"})
	f.Add(figure.Text{At: plane.Vec{X: 235, Y: 5}, Along: figure.Right, Text: "true size when printed at 100 %, not fit to page"})
	f.Add(figure.Hatch{Path: figure.Rectangle(plane.Vec{X: 190, Y: 20}, plane.Vec{X: 225, Y: 40}), Angle: math.Pi / 4})
	f.Add(figure.Shape{Path: figure.Rectangle(plane.Vec{X: 190, Y: 20}, plane.Vec{X: 225, Y: 40}), Style: figure.Style{Stroke: figure.Look(figure.Plate).Stroke, Width: 0.35}})
	f.Add(legend())
	return f
}

func legend() figure.Legend {
	l := figure.Legend{At: plane.Vec{X: 178, Y: 168}}
	for role, name := range []string{"pinion", "ring", "plate", "reference circle", "working circle", "base circle", "tip circle",
		"root circle", "line of action", "centre line", "dimension", "note", "contact", "hatching"} {
		l.Entries = append(l.Entries, figure.Entry{Style: figure.Look(figure.Role(role)), Text: name})
	}
	return l
}

// words has dimensions in every direction, narrow ones, and long words.
func words() figure.Figure {
	f := figure.Figure{Width: 180, Height: 130}
	c := plane.Vec{X: 55, Y: 75}
	for i := range 12 {
		a := float64(i) * math.Pi / 6
		f.Add(figure.Linear{From: c.Add(plane.Polar(12, a)), To: c.Add(plane.Polar(38, a)), Offset: 4, Text: fmt.Sprintf("%d°", 30*i)})
		f.Add(figure.Radial(c, 7, a+0.2, -3, ""))
	}
	f.Add(figure.Shape{Path: figure.Circle(c, 7), Style: figure.Look(figure.Plate)})
	for i, d := range []float64{0.5, 2, 4, 8, 16, 30} {
		at := plane.Vec{X: 105, Y: 22 + 14*float64(i)}
		f.Add(figure.Linear{From: at, To: at.Add(plane.Vec{X: d}), Offset: 6, Text: fmt.Sprintf("%.3f ± 0.05 mm", d)})
		f.Add(figure.Shape{Path: figure.Rectangle(at, at.Add(plane.Vec{X: d, Y: -2})), Style: figure.Look(figure.Ring)})
	}
	f.Add(figure.Text{At: plane.Vec{X: 90, Y: 122}, Along: figure.Middle, Size: 3.5, Text: "Δα ≤ 0.5°, Σ 漢 (unknown letter), Ø 12 −0.02 … µm, ½ × ¾, \"quoted\" <b> & 'so'"})
	f.Add(figure.Text{At: plane.Vec{X: 90, Y: 8}, Along: figure.Middle, Size: 1.8, Text: "small words of 1.8 mm: cut on the outside of the line; kerf 0.15 mm is in the drawing already"})
	ring := append(figure.Circle(plane.Vec{X: 20, Y: 18}, 10), figure.Circle(plane.Vec{X: 20, Y: 18}, 6)...)
	f.Add(figure.Hatch{Path: ring, Angle: -math.Pi / 4, Spacing: 1.2}, figure.Shape{Path: ring, Style: figure.Style{Stroke: figure.Look(figure.Plate).Stroke, Width: 0.5}})
	zig := figure.Lines(plane.Vec{X: 36, Y: 14}, plane.Vec{X: 42, Y: 26}, plane.Vec{X: 46, Y: 14}, plane.Vec{X: 47, Y: 26}, plane.Vec{X: 62, Y: 26}, plane.Vec{X: 50, Y: 20})
	f.Add(figure.Shape{Path: zig, Style: figure.Style{Stroke: figure.Look(figure.Contact).Stroke, Width: 2}})
	return f
}

// TestSamples renders the samples; with -show DIR it writes them there to be
// looked at.
func TestSamples(t *testing.T) {
	for name, f := range map[string]figure.Figure{"assembly": assembly(), "words": words()} {
		var p, s bytes.Buffer
		if err := png.Write(&p, f, png.Options{}); err != nil {
			t.Fatal(err)
		}
		if err := svg.WriteFigure(&s, f); err != nil {
			t.Fatal(err)
		}
		img, err := stdpng.Decode(bytes.NewReader(p.Bytes()))
		if err != nil || img.Bounds().Dx() != 1200 || img.Bounds().Dy() != int(math.Round(1200*f.Height/f.Width)) {
			t.Fatalf("%v %v", img.Bounds(), err)
		}
		t.Logf("%s: png %d bytes, svg %d bytes", name, p.Len(), s.Len())
		if *show != "" {
			for ext, b := range map[string][]byte{".png": p.Bytes(), ".svg": s.Bytes()} {
				if err := os.WriteFile(filepath.Join(*show, name+ext), b, 0o644); err != nil {
					t.Fatal(err)
				}
			}
		}
	}
}

// small is a figure whose picture is worth keeping whole.
func small() figure.Figure {
	f := figure.Figure{Width: 40, Height: 24}
	f.Add(figure.Shape{Path: figure.Loops(plane.Moved(plane.Vec{X: 12, Y: 12}), 0, wavy(8, 1, 9)), Style: figure.Look(figure.Pinion)})
	f.Add(figure.Shape{Path: figure.Circle(plane.Vec{X: 12, Y: 12}, 8), Style: figure.Look(figure.ReferenceCircle)})
	f.Add(figure.Text{At: plane.Vec{X: 23, Y: 11}, Text: "α ±1°"})
	return f
}

func TestGolden(t *testing.T) {
	var b, again bytes.Buffer
	for _, w := range []io.Writer{&b, &again} {
		if err := png.Write(w, small(), png.Options{Width: 160}); err != nil {
			t.Fatal(err)
		}
	}
	if !bytes.Equal(b.Bytes(), again.Bytes()) {
		t.Fatal("the second picture differs from the first")
	}
	path := filepath.Join("testdata", "golden", "small.png")
	if *update {
		if err := os.WriteFile(path, b.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	file, err := os.ReadFile(path)
	if err != nil {
		t.Fatalf("%v\nwrite it with: go test ./export/png -update", err)
	}
	// The pixels are ours; how they are compressed may change with the library.
	want, got := pixels(t, file), pixels(t, b.Bytes())
	if !bytes.Equal(want, got) {
		t.Errorf("the picture differs from %s; look at it before you write it anew with -update", path)
	}
}

func pixels(t *testing.T, file []byte) []byte {
	t.Helper()
	img, err := stdpng.Decode(bytes.NewReader(file))
	if err != nil {
		t.Fatal(err)
	}
	out := image.NewRGBA(img.Bounds())
	draw.Draw(out, out.Rect, img, image.Point{}, draw.Src)
	return out.Pix
}

// TestEncodedPixels: what another decoder finds is what was rendered.
func TestEncodedPixels(t *testing.T) {
	for _, width := range []int{16, 17, 333, 1200} {
		img, err := png.Render(assembly(), png.Options{Width: width})
		if err != nil {
			t.Fatal(err)
		}
		var b bytes.Buffer
		if err := png.Write(&b, assembly(), png.Options{Width: width}); err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(pixels(t, b.Bytes()), img.Pix) {
			t.Errorf("%d pixels wide: not the same picture", width)
		}
	}
}

// darkness sums up how much of the picture a black shape covers, in pixels.
func darkness(t *testing.T, f figure.Figure, width int) float64 {
	t.Helper()
	img, err := png.Render(f, png.Options{Width: width})
	if err != nil {
		t.Fatal(err)
	}
	sum := 0.0
	for i := 0; i < len(img.Pix); i += 4 {
		sum += 1 - float64(img.Pix[i])/255
	}
	return sum
}

// TestCoverage: areas and lines cover as many pixels as they should.
func TestCoverage(t *testing.T) {
	black := figure.Colour{A: 255}
	c := plane.Vec{X: 50.3, Y: 49.8}
	square := figure.Polygon(plane.Vec{X: 20.25, Y: 20.75}, plane.Vec{X: 70.5, Y: 20.75}, plane.Vec{X: 70.5, Y: 60}, plane.Vec{X: 20.25, Y: 60})
	for name, tt := range map[string]struct {
		shape figure.Shape
		mm2   float64
	}{
		"disc":           {figure.Shape{Path: figure.Circle(c, 30), Style: figure.Style{Fill: black}}, 900 * math.Pi},
		"annulus":        {figure.Shape{Path: append(figure.Circle(c, 30), figure.Loops(plane.Moved(c), 0, plane.CircleLoop(plane.Vec{}, 20).Reverse())...), Style: figure.Style{Fill: black}}, 500 * math.Pi},
		"circle's line":  {figure.Shape{Path: figure.Circle(c, 30), Style: figure.Style{Stroke: black, Width: 2}}, 120 * math.Pi},
		"wide open line": {figure.Shape{Path: figure.Lines(plane.Vec{X: 10, Y: 10}, plane.Vec{X: 80, Y: 33}), Style: figure.Style{Stroke: black, Width: 3}}, 3 * math.Hypot(70, 23)},
		"round corners":  {figure.Shape{Path: square, Style: figure.Style{Stroke: black, Width: 4}}, (2*(50.25+39.25))*4 - 4*4 + math.Pi*4},
		"dashes":         {figure.Shape{Path: figure.Lines(plane.Vec{X: 10, Y: 50}, plane.Vec{X: 90, Y: 50}), Style: figure.Style{Stroke: black, Width: 2, Dash: []float64{3, 2}}}, 96},
		"dashes around":  {figure.Shape{Path: square, Style: figure.Style{Stroke: black, Width: 1, Dash: []float64{1, 1}}}, 89.5},
		"over the edge":  {figure.Shape{Path: figure.Circle(plane.Vec{X: 100, Y: 0}, 30), Style: figure.Style{Fill: black}}, 225 * math.Pi},
		"half a tone":    {figure.Shape{Path: square, Style: figure.Style{Fill: figure.Colour{A: 51}}}, 50.25 * 39.25 / 5},
	} {
		for _, width := range []int{200, 1000} {
			f := figure.Figure{Width: 100, Height: 100, Items: []figure.Item{tt.shape}}
			k := float64(width) / 100
			if got, want := darkness(t, f, width), tt.mm2*k*k; math.Abs(got-want) > 0.012*want {
				t.Errorf("%s at %d: %.1f pixels, want %.1f", name, width, got, want)
			}
		}
	}
}

func TestColoursAndPlaces(t *testing.T) {
	f := figure.Figure{Width: 100, Height: 50}
	f.Add(figure.Shape{Path: figure.Rectangle(plane.Vec{}, plane.Vec{X: 10, Y: 10}), Style: figure.Look(figure.Pinion)})
	img, err := png.Render(f, png.Options{Width: 200})
	if err != nil {
		t.Fatal(err)
	}
	fill := figure.Look(figure.Pinion).Fill
	if got := img.RGBAAt(10, 90); got != (color.RGBA{fill.R, fill.G, fill.B, 255}) {
		t.Errorf("lower left is %v", got)
	}
	if got := img.RGBAAt(10, 10); got != (color.RGBA{255, 255, 255, 255}) {
		t.Errorf("upper left is %v", got)
	}
}

func TestRefuses(t *testing.T) {
	bad := func(items ...figure.Item) figure.Figure { return figure.Figure{Width: 100, Height: 50, Items: items} }
	at := plane.Vec{X: math.NaN()}
	for name, tt := range map[string]struct {
		f    figure.Figure
		opt  png.Options
		want string
	}{
		"no paper":     {figure.Figure{}, png.Options{}, "a side of 0 mm"},
		"too wide":     {bad(), png.Options{Width: 100_000}, "pixels"},
		"too narrow":   {bad(), png.Options{Width: 3}, "pixels"},
		"negative":     {bad(), png.Options{Width: -3}, "pixels"},
		"too tall":     {figure.Figure{Width: 10, Height: 2000}, png.Options{}, "pixels"},
		"NaN":          {bad(figure.Shape{Path: figure.Lines(at, at)}), png.Options{}, "item 0 (figure.Shape)"},
		"far away":     {bad(figure.Text{At: plane.Vec{X: 1e9}, Text: "x"}), png.Options{}, "not on the paper"},
		"fine dashes":  {bad(figure.Shape{Style: figure.Style{Dash: []float64{0, 0}}}), png.Options{}, "dashes"},
		"broad line":   {bad(figure.Shape{Style: figure.Style{Width: math.Inf(1)}}), png.Options{}, "mm wide"},
		"fine hatch":   {bad(figure.Hatch{Spacing: 1e-9}), png.Options{}, "hatching"},
		"endless turn": {bad(figure.Shape{Path: figure.Arc(plane.Vec{}, 5, 0, 1e9)}), png.Options{}, "not on the paper"},
	} {
		var b bytes.Buffer
		err := png.Write(&b, tt.f, tt.opt)
		if err == nil || !strings.Contains(err.Error(), tt.want) || b.Len() != 0 {
			t.Errorf("%s: %v, %d bytes", name, err, b.Len())
		}
	}
}

type failing struct{}

var errFull = errors.New("full")

func (failing) Write([]byte) (int, error) { return 0, errFull }

func TestWriteErrorIsReported(t *testing.T) {
	if err := png.Write(failing{}, small(), png.Options{}); !errors.Is(err, errFull) {
		t.Error(err)
	}
}

// busy has 20,000 chords in a ring, a pinion, circles and words.
func busy() figure.Figure {
	f := assembly()
	var pts []plane.Vec
	for i := range 20000 {
		a := 2 * math.Pi * float64(i) / 20000
		pts = append(pts, plane.Vec{X: 90, Y: 100}.Add(plane.Polar(62+2*math.Cos(104*a), a)))
	}
	f.Add(figure.Shape{Path: figure.Polygon(pts...), Style: figure.Style{Stroke: figure.Look(figure.Ring).Stroke, Width: 0.35}})
	return f
}

func BenchmarkWrite20000(b *testing.B) {
	f := busy()
	for b.Loop() {
		if err := png.Write(io.Discard, f, png.Options{}); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkRender20000(b *testing.B) {
	f := busy()
	for b.Loop() {
		if _, err := png.Render(f, png.Options{}); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkMarks20000(b *testing.B) {
	f := busy()
	for b.Loop() {
		if _, err := f.Marks(); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkSVG20000(b *testing.B) {
	f := busy()
	for b.Loop() {
		if err := svg.WriteFigure(io.Discard, f); err != nil {
			b.Fatal(err)
		}
	}
}
