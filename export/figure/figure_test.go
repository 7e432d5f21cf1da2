package figure_test

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
	"ringtrack/export/figure"
	"ringtrack/gear/plane"
)

func marks(t *testing.T, items ...figure.Item) []figure.Mark {
	t.Helper()
	m, err := figure.Figure{Width: 200, Height: 200, Items: items}.Marks()
	if err != nil {
		t.Fatal(err)
	}
	return m
}

func box(p figure.Path) plane.Box {
	b := plane.NoBox()
	for _, r := range p.Runs(0.001) {
		for _, v := range r.Points {
			b = b.Add(v)
		}
	}
	return b
}

// TestTextStandsWhereItShould: capitals are as high as asked, and every
// alignment and turn puts the words in their place.
func TestTextStandsWhereItShould(t *testing.T) {
	at := plane.Vec{X: 50, Y: 60}
	m := marks(t, figure.Text{At: at, Size: 5, Text: "HEH"})
	b := box(m[0].Path)
	if math.Abs(b.Min.Y-60) > 0.01 || math.Abs(b.Max.Y-65) > 0.01 || b.Min.X < 50 || b.Min.X > 51 {
		t.Errorf("box %+v", b)
	}
	w, err := figure.TextWidth("HEH", 5)
	if err != nil || w < b.Size().X || w > b.Size().X+1.5 {
		t.Errorf("width %g, letters %g, %v", w, b.Size().X, err)
	}
	mid := box(marks(t, figure.Text{At: at, Size: 5, Along: figure.Middle, Up: figure.Middle, Text: "HEH"})[0].Path)
	if c := mid.Min.Add(mid.Max).Mul(0.5).Sub(at); c.Len() > 0.05 {
		t.Errorf("middle off by %v", c)
	}
	right := box(marks(t, figure.Text{At: at, Size: 5, Along: figure.Right, Up: figure.Right, Text: "HEH"})[0].Path)
	if right.Max.X > 50 || right.Max.X < 49 || math.Abs(right.Max.Y-60) > 0.01 {
		t.Errorf("right %+v", right)
	}
	up := box(marks(t, figure.Text{At: at, Size: 5, Angle: math.Pi / 2, Text: "HEH"})[0].Path)
	if math.Abs(up.Max.X-50) > 0.01 || math.Abs(up.Min.X-45) > 0.01 || up.Min.Y < 60 {
		t.Errorf("turned %+v", up)
	}
}

func TestTextNeverFails(t *testing.T) {
	for _, s := range []string{"", "αβγδεζθλμρσφψωΔΣΩ ±°×÷Øµ−–…²≤≥", "⌀ 5", "漢字", "\xff\xfe", "a\nb", strings.Repeat("long ", 50)} {
		if _, err := figure.TextWidth(s, 2.5); err != nil {
			t.Errorf("%q: %v", s, err)
		}
	}
	a, _ := figure.TextWidth("⌀", 3)
	b, _ := figure.TextWidth("Ø", 3)
	if a != b || a == 0 {
		t.Errorf("the diameter sign is %g wide, its stand-in %g", a, b)
	}
}

// TestLinear: at any place and turn the arrows' points lie on the two ends'
// perpendiculars and the words are upright.
func TestLinear(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		from := plane.Vec{X: rapid.Float64Range(50, 150).Draw(t, "x"), Y: rapid.Float64Range(50, 150).Draw(t, "y")}
		to := from.Add(plane.Polar(rapid.Float64Range(0.5, 50).Draw(t, "length"), rapid.Float64Range(-4, 4).Draw(t, "angle")))
		off := rapid.Float64Range(-20, 20).Draw(t, "offset")
		m, err := figure.Figure{Width: 200, Height: 200, Items: []figure.Item{figure.Linear{From: from, To: to, Offset: off, Text: "12.5"}}}.Marks()
		if err != nil {
			t.Fatal(err)
		}
		if len(m) != 4 || m[3].Label != "12.5" {
			t.Fatalf("%d marks", len(m))
		}
		along := to.Sub(from).Mul(1 / to.Sub(from).Len())
		left := plane.Vec{X: -along.Y, Y: along.X}.Mul(off)
		heads := m[1].Path.Runs(0.01)
		if len(heads) != 2 || heads[0].Points[0].Sub(from.Add(left)).Len() > 1e-9 || heads[1].Points[0].Sub(to.Add(left)).Len() > 1e-9 {
			t.Fatalf("arrows at %v", heads)
		}
	})
}

func TestDegenerateDimensions(t *testing.T) {
	p := plane.Vec{X: 9, Y: 9}
	marks(t, figure.Linear{From: p, To: p, Offset: 3, Text: "0"}, figure.Leader{At: p, Knee: p, Text: "x"}, figure.Linear{From: p, To: plane.Vec{X: 20, Y: 9}},
		figure.Legend{At: p}, figure.Hatch{}, figure.Shape{}, figure.Text{})
}

// TestHatchCovers: the lines' length times their distance is the area.
func TestHatchCovers(t *testing.T) {
	c := plane.Vec{X: 100, Y: 100}
	ring := append(figure.Circle(c, 40), figure.Circle(c, 25)...)
	for _, angle := range []float64{0, 0.3, math.Pi / 4, 2} {
		m := marks(t, figure.Hatch{Path: ring, Angle: angle, Spacing: 0.5})
		sum := 0.0
		for _, r := range m[0].Path.Runs(0.01) {
			sum += r.Points[1].Sub(r.Points[0]).Len()
			mid := r.Points[0].Add(r.Points[1]).Mul(0.5).Sub(c).Len()
			if mid > 40 {
				t.Fatalf("a line at radius %g", mid)
			}
		}
		if want := math.Pi * (1600 - 625); math.Abs(0.5*sum-want) > 0.005*want {
			t.Errorf("at %g: covers %g, want %g", angle, 0.5*sum, want)
		}
	}
}

func TestRunsKeepTheTolerance(t *testing.T) {
	for _, tol := range []float64{0.1, 0.01, 0.001} {
		for _, r := range figure.Circle(plane.Vec{}, 50).Runs(tol) {
			if !r.Closed {
				t.Error("the circle is open")
			}
			for i, a := range r.Points {
				b := r.Points[(i+1)%len(r.Points)]
				if math.Abs(a.Len()-50) > 1e-9 || 50-a.Add(b).Mul(0.5).Len() > tol {
					t.Fatalf("chord %d of %d leaves the circle", i, len(r.Points))
				}
			}
		}
	}
}

func TestLegendHoldsItsWords(t *testing.T) {
	l := figure.Legend{At: plane.Vec{X: 20, Y: 180}, Entries: []figure.Entry{{figure.Look(figure.Pinion), "pinion"}, {figure.Look(figure.BaseCircle), "a rather long name of a circle"}}}
	w, h, err := l.Extent()
	if err != nil {
		t.Fatal(err)
	}
	for _, m := range marks(t, l) {
		if b := box(m.Path); b.Min.X < 20-1e-9 || b.Max.X > 20+w+1e-9 || b.Max.Y > 180+1e-9 || b.Min.Y < 180-h-1e-9 {
			t.Errorf("%q at %+v leaves the frame of %g by %g", m.Label, b, w, h)
		}
	}
}

// luminance as WCAG 2 defines it.
func luminance(c figure.Colour) float64 {
	lin := func(v uint8) float64 {
		x := float64(v) / 255
		if x <= 0.04045 {
			return x / 12.92
		}
		return math.Pow((x+0.055)/1.055, 2.4)
	}
	return 0.2126*lin(c.R) + 0.7152*lin(c.G) + 0.0722*lin(c.B)
}

// TestLooksCanBeToldApart in grey: every line stands out from paper by a
// contrast of 4.5, and circles and areas differ in more than hue.
func TestLooksCanBeToldApart(t *testing.T) {
	for _, r := range figure.Roles() {
		if c := 1.05 / (luminance(figure.Look(r).Stroke) + 0.05); c < 4.5 {
			t.Errorf("role %d: contrast %.2f", r, c)
		}
	}
	lines := []figure.Role{figure.ReferenceCircle, figure.WorkingCircle, figure.BaseCircle, figure.TipCircle, figure.RootCircle, figure.LineOfAction, figure.Contact}
	for i, a := range lines {
		for _, b := range lines[:i] {
			x, y := figure.Look(a), figure.Look(b)
			dash := len(x.Dash) != len(y.Dash) || len(x.Dash) > 0 && math.Abs(math.Log(x.Dash[0]/y.Dash[0])) > 0.5
			if weight := math.Abs(math.Log(x.Width / y.Width)); !dash && weight < 0.3 {
				t.Errorf("roles %d and %d differ in hue alone", a, b)
			}
		}
	}
	areas := []figure.Role{figure.Pinion, figure.Ring, figure.Plate}
	for i, a := range areas {
		for _, b := range areas[:i] {
			x, y := luminance(figure.Look(a).Fill), luminance(figure.Look(b).Fill)
			if a == figure.Ring && b == figure.Pinion && math.Abs(x-y) < 0.15 {
				t.Errorf("areas %d and %d are alike in grey: %.2f and %.2f", a, b, x, y)
			}
		}
	}
}

func TestMarksRefuse(t *testing.T) {
	for name, tt := range map[string]struct {
		f    figure.Figure
		want string
	}{
		"no size":  {figure.Figure{}, "a side of 0 mm"},
		"NaN size": {figure.Figure{Width: math.NaN(), Height: 20}, "a side of NaN"},
		"NaN": {figure.Figure{Width: 100, Height: 100, Items: []figure.Item{figure.Text{}, figure.Linear{To: plane.Vec{X: math.NaN()}}}},
			"item 1 (figure.Linear)"},
		"negative width": {figure.Figure{Width: 100, Height: 100, Items: []figure.Item{figure.Shape{Style: figure.Style{Width: -1}}}}, "a line -1 mm wide"},
	} {
		if _, err := tt.f.Marks(); err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func BenchmarkText(b *testing.B) {
	for b.Loop() {
		if _, err := figure.TextWidth("a = 111.250 mm, αw = 20.0°, ± 0.1", 2.5); err != nil {
			b.Fatal(err)
		}
	}
}
