package figure

import (
	"math"

	"ringtrack/gear/plane"
)

// Entry is one line of a legend.
type Entry struct {
	Style Style
	Text  string
}

// Legend explains styles: a sample and a name each, in a frame.
type Legend struct {
	At      plane.Vec // upper left corner
	Entries []Entry
	Size    float64 // mm, height of capitals; 0 is TextSize
}

// Proportions of a legend in heights of its text.
const (
	rowHeight    = 2.2
	sampleLength = 7.0
	legendEdge   = 1.0
)

func (l Legend) size() float64 {
	if l.Size == 0 {
		return TextSize
	}
	return l.Size
}

// Extent returns the frame's width and height in mm.
func (l Legend) Extent() (w, h float64, err error) {
	for _, e := range l.Entries {
		t, err := TextWidth(e.Text, l.size())
		if err != nil {
			return 0, 0, err
		}
		w = math.Max(w, t)
	}
	return w + (sampleLength+1+2*legendEdge)*l.size(), (rowHeight*float64(len(l.Entries)) + legendEdge) * l.size(), nil
}

func (l Legend) marks() ([]Mark, error) {
	w, h, err := l.Extent()
	if err != nil {
		return nil, err
	}
	s := l.size()
	frame := Rectangle(l.At, l.At.Add(plane.Vec{X: w, Y: -h}))
	out := []Mark{{Path: frame, Style: Style{Stroke: ink, Width: 0.13, Fill: white}}}
	for i, e := range l.Entries {
		y := l.At.Y - (legendEdge/2+rowHeight*(float64(i)+0.5))*s
		a := plane.Vec{X: l.At.X + legendEdge*s, Y: y}
		b := a.Add(plane.Vec{X: sampleLength * s})
		sample := Lines(a, b)
		if e.Style.Fill.A != 0 {
			sample = Rectangle(a.Add(plane.Vec{Y: -0.6 * s}), b.Add(plane.Vec{Y: 0.6 * s}))
		}
		out = append(out, Mark{Path: sample, Style: e.Style})
		words, err := Text{At: b.Add(plane.Vec{X: s}), Size: s, Up: Middle, Text: e.Text}.marks()
		if err != nil {
			return nil, err
		}
		out = append(out, words...)
	}
	return out, nil
}
