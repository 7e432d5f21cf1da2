package figure_test

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
	"ringtrack/export/figure"
	"ringtrack/gear/plane"
)

func TestPartCutsHolesFirst(t *testing.T) {
	d := figure.Part(plane.Region{Outer: plane.CircleLoop(plane.Vec{}, 9), Holes: []plane.Loop{plane.CircleLoop(plane.Vec{}, 2).Reverse()}})
	if len(d.Outlines) != 2 || d.Outlines[0].Layer != figure.CutInside || d.Outlines[1].Layer != figure.CutOutside {
		t.Errorf("%+v", d)
	}
}

func TestStepsSplitAndDrop(t *testing.T) {
	fine := figure.Fineness{Chord: 0.01, Sweep: math.Pi / 2, Decimals: 3}
	s, err := figure.Steps(plane.CircleLoop(plane.Vec{X: 1}, 5), fine)
	if err != nil || len(s) != 4 || math.Abs(s[1].At.X-1) > 1e-12 || s[1].Sweep != math.Pi/2 || s[1].R != 5 {
		t.Errorf("%+v %v", s, err)
	}
	// A piece of 0.1 um is not there at three decimals, at any place of the loop.
	p := []plane.Vec{{X: 0, Y: 0}, {X: 10, Y: 0}, {X: 10, Y: 10}, {X: 10.0001, Y: 10.0001}, {X: 0, Y: 10}}
	for turn := range p {
		var l plane.Loop
		for i := range p {
			l.Unit = append(l.Unit, plane.Line{A: p[(i+turn)%5], B: p[(i+turn+1)%5]})
		}
		if s, err := figure.Steps(l, fine); err != nil || len(s) != 4 {
			t.Errorf("turned by %d: %d steps, %v", turn, len(s), err)
		}
	}
}

func TestArcBetween(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := plane.Vec{X: rapid.Float64Range(-100, 100).Draw(t, "ax"), Y: rapid.Float64Range(-100, 100).Draw(t, "ay")}
		b := a.Add(plane.Polar(rapid.Float64Range(0.01, 100).Draw(t, "length"), rapid.Float64Range(-4, 4).Draw(t, "angle")))
		sweep := rapid.Float64Range(0.001, 6.2).Draw(t, "sweep")
		if rapid.Bool().Draw(t, "right") {
			sweep = -sweep
		}
		arc := figure.ArcBetween(a, b, sweep)
		tol := 1e-14 * (arc.R + arc.C.Len() + 1) * 4
		if arc.At(0).Sub(a).Len() > tol || arc.At(1).Sub(b).Len() > tol || arc.Sweep != sweep {
			t.Fatalf("%+v runs from %v to %v, want %v to %v", arc, arc.At(0), arc.At(1), a, b)
		}
	})
}

func TestBoxOfSteps(t *testing.T) {
	s, err := figure.Steps(plane.CircleLoop(plane.Vec{X: 3, Y: 4}, 2), figure.Fineness{Chord: 1, Sweep: math.Pi, Decimals: 6})
	if err != nil {
		t.Fatal(err)
	}
	b := figure.Box(s)
	for _, d := range []float64{b.Min.X - 1, b.Min.Y - 2, b.Max.X - 5, b.Max.Y - 6} {
		if math.Abs(d) > 1e-12 {
			t.Errorf("box %+v", b)
		}
	}
}

func TestClose(t *testing.T) {
	v := func(x, y float64) plane.Vec { return plane.Vec{X: x, Y: y} }
	half := plane.Arc{R: 5, Sweep: math.Pi}
	for name, tt := range map[string]struct {
		pieces []plane.Piece
		n      int // pieces of the loop, 0 when refused
		want   string
	}{
		"exact":           {[]plane.Piece{half, plane.Line{A: v(-5, 0), B: v(5, 0)}}, 2, ""},
		"line moved":      {[]plane.Piece{half, plane.Line{A: v(-5, 0), B: v(5.0005, 0)}}, 2, ""},
		"bridged":         {[]plane.Piece{half, plane.Line{A: v(-5.0005, 0), B: v(5, 0)}}, 3, ""},
		"whole circle":    {[]plane.Piece{plane.Circle(v(1, 1), 2)}, 1, ""},
		"too wide":        {[]plane.Piece{half, plane.Line{A: v(-5, 0), B: v(5.1, 0)}}, 0, "open: 0.1 mm"},
		"nothing":         {nil, 0, "encloses nothing"},
		"there and back":  {[]plane.Piece{plane.Line{A: v(0, 0), B: v(5, 0)}, plane.Line{A: v(5, 0), B: v(0, 0)}}, 0, "encloses nothing"},
		"not a number":    {[]plane.Piece{plane.Circle(v(math.NaN(), 0), 2)}, 0, "open"},
		"one open line":   {[]plane.Piece{plane.Line{A: v(0, 0), B: v(5, 0)}}, 0, "open"},
		"one nearly line": {[]plane.Piece{plane.Line{A: v(0, 0), B: v(0.0005, 0)}}, 0, "encloses nothing"},
	} {
		l, err := figure.Close(tt.pieces, 0.001)
		if tt.n == 0 {
			if err == nil || !strings.Contains(err.Error(), tt.want) {
				t.Errorf("%s: %v, want %q", name, err, tt.want)
			}
			continue
		}
		if err != nil || len(l.Unit) != tt.n {
			t.Errorf("%s: %d pieces, %v", name, len(l.Unit), err)
		} else if err := l.Check(1e-9); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
}
