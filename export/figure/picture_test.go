package figure_test

import (
	"math"
	"testing"

	"ringtrack/export/figure"
	"ringtrack/gear/plane"
)

func stroke(p figure.Path) figure.Shape {
	return figure.Shape{Path: p, Style: figure.Style{Stroke: figure.Colour{A: 255}, Width: 0.2}}
}

// TestPicture: marks outside the window are left out, those that touch it stay
// whole and are moved.
func TestPicture(t *testing.T) {
	f := figure.Figure{Width: 100, Height: 100}
	f.Add(stroke(figure.Circle(plane.Vec{X: 20, Y: 20}, 5)), stroke(figure.Circle(plane.Vec{X: 80, Y: 20}, 5)),
		stroke(figure.Arc(plane.Vec{X: 40, Y: 10}, 20, math.Pi, -math.Pi)))
	marks, err := f.Marks()
	if err != nil {
		t.Fatal(err)
	}
	if b := figure.Extent(marks[2:3]); math.Abs(b.Max.Y-30.1) > 1e-9 || math.Abs(b.Min.Y-9.9) > 1e-9 {
		t.Errorf("an arc's extent %v", b)
	}
	g := figure.Figure{Width: 100, Height: 100}
	g.Add(figure.Picture{Marks: marks, Move: plane.Vec{X: 7}, Window: plane.Box{Min: plane.Vec{X: 0, Y: 22}, Max: plane.Vec{X: 50, Y: 50}}})
	got, err := g.Marks()
	if err != nil {
		t.Fatal(err)
	}
	if len(got) != 2 || got[0].Path[1].C != (plane.Vec{X: 27, Y: 20}) {
		t.Errorf("%d marks, %+v", len(got), got[0].Path)
	}
	if marks[0].Path[1].C != (plane.Vec{X: 20, Y: 20}) {
		t.Error("the marks given were changed")
	}
}

// TestStretched: about the middle of the paper; circles become ellipses, equal
// factors keep arcs, the width of lines stays.
func TestStretched(t *testing.T) {
	f := figure.Figure{Width: 200, Height: 100}
	c := plane.Vec{X: 120, Y: 40}
	f.Add(stroke(figure.Circle(c, 30)))
	for _, k := range [][2]float64{{0.99, 1.02}, {1.01, 1.01}} {
		g, err := f.Stretched(k[0], k[1])
		if err != nil {
			t.Fatal(err)
		}
		marks, err := g.Marks()
		if err != nil {
			t.Fatal(err)
		}
		mid := plane.Vec{X: 100 + 20*k[0], Y: 50 - 10*k[1]}
		m := marks[0]
		if m.Style.Width != 0.2 || (len(m.Path) == 3) != (k[0] == k[1]) {
			t.Errorf("%v: width %g, %d segments", k, m.Style.Width, len(m.Path))
		}
		for _, s := range m.Path {
			v := s.P.Sub(mid)
			if r := math.Hypot(v.X/k[0], v.Y/k[1]); math.Abs(r-30) > 1e-9 {
				t.Fatalf("%v: a point at %g", k, r)
			}
		}
	}
}
