package svg_test

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"math"
	"strings"
	"testing"

	"ringtrack/export/figure"
	"ringtrack/export/svg"
	"ringtrack/gear/plane"
)

func sample() figure.Figure {
	f := figure.Figure{Width: 60, Height: 40, Title: "Waves <α>"}
	f.Add(figure.Shape{Path: figure.Loops(plane.Moved(plane.Vec{X: 15, Y: 20}), 0.1, wavy(9, 1, 8), plane.CircleLoop(plane.Vec{}, 3).Reverse()), Style: figure.Look(figure.Pinion)})
	f.Add(figure.Shape{Path: figure.Circle(plane.Vec{X: 15, Y: 20}, 9), Style: figure.Look(figure.ReferenceCircle)})
	f.Add(figure.Linear{From: plane.Vec{X: 15, Y: 20}, To: plane.Vec{X: 45, Y: 20}, Offset: 14, Text: "±1"})
	f.Add(figure.Shape{Path: figure.Arc(plane.Vec{X: 45, Y: 20}, 5, 1, -4.5), Style: figure.Style{Stroke: figure.Colour{R: 1, G: 2, B: 3, A: 128}, Width: 0.5}})
	return f
}

func TestFigureGolden(t *testing.T) {
	var b, again bytes.Buffer
	for _, w := range []io.Writer{&b, &again} {
		if err := svg.WriteFigure(w, sample()); err != nil {
			t.Fatal(err)
		}
	}
	if !bytes.Equal(b.Bytes(), again.Bytes()) {
		t.Fatal("the second file differs from the first")
	}
	golden(t, "figure.svg", b.Bytes())
	for dec := xml.NewDecoder(&again); ; {
		if _, err := dec.Token(); err == io.EOF {
			break
		} else if err != nil {
			t.Fatal(err)
		}
	}
	for _, s := range []string{`width="60mm" height="40mm" viewBox="0 0 60 40"`, "<title>Waves &lt;α&gt;</title>", `aria-label="±1"`, `stroke-opacity="0.502"`} {
		if !strings.Contains(b.String(), s) {
			t.Errorf("%s is not in the file", s)
		}
	}
}

// TestFigurePlaces: closed shapes, read back as outlines, are where they were
// drawn.
func TestFigurePlaces(t *testing.T) {
	c := plane.Vec{X: 30, Y: 10}
	f := figure.Figure{Width: 60, Height: 40}
	f.Add(figure.Shape{Path: figure.Circle(c, 7), Style: figure.Look(figure.Ring)})
	f.Add(figure.Shape{Path: figure.Loops(plane.Moved(c), 0.001, wavy(5, 0.5, 40)), Style: figure.Look(figure.Pinion)})
	var b bytes.Buffer
	if err := svg.WriteFigure(&b, f); err != nil {
		t.Fatal(err)
	}
	res := read(t, b.Bytes())
	if len(res.Outlines) != 3 { // the paper is one too
		t.Fatalf("%d outlines", len(res.Outlines))
	}
	for i, want := range []plane.Box{
		{Min: plane.Vec{X: 0, Y: -40}, Max: plane.Vec{X: 60, Y: 0}},
		{Min: plane.Vec{X: 23, Y: -37}, Max: plane.Vec{X: 37, Y: -23}},
		{Min: plane.Vec{X: 24.5, Y: -35.5}, Max: plane.Vec{X: 35.5, Y: -24.5}},
	} {
		got := res.Outlines[i].Loop.Box()
		if got.Min.Sub(want.Min).Len() > 0.002 || got.Max.Sub(want.Max).Len() > 0.002 {
			t.Errorf("outline %d: %+v, want %+v", i, got, want)
		}
	}
	for _, p := range res.Outlines[2].Loop.Unit { // rounding does not add up
		v := p.At(0).Sub(plane.Vec{X: 30, Y: -30})
		if off := wavy(5, 0.5, 40).Distance(v); off > 0.0008 {
			t.Fatalf("a corner is %g mm off", off)
		}
	}
}

func TestFigureRefuses(t *testing.T) {
	var b bytes.Buffer
	f := figure.Figure{Width: 60, Height: math.Inf(1)}
	if err := svg.WriteFigure(&b, f); err == nil || b.Len() != 0 {
		t.Errorf("%v, %d bytes", err, b.Len())
	}
	for _, n := range []int{0, 500, 1000} {
		if err := svg.WriteFigure(&failing{n}, sample()); !errors.Is(err, errFull) {
			t.Errorf("after %d bytes: %v", n, err)
		}
	}
}
