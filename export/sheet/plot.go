package sheet

import (
	"fmt"
	"math"
	"strings"

	"ringtrack/export/figure"
	"ringtrack/gear/plane"
)

// series is one line of a diagram.
type series struct {
	name  string
	style figure.Style
	pts   []plane.Vec // in the axes' units
}

// diagram is a plot of lines over a common axis.
type diagram struct {
	at         window // of the axes, on the paper
	xName      string
	yName      string
	series     []series
	fromZero   bool // the y axis begins at 0
	xMin, xMax float64
}

// niceStep returns a step of 1, 2 or 5 times a power of ten that divides a range
// into about n parts.
func niceStep(span float64, n int) float64 {
	if !(span > 0) {
		return 1
	}
	raw := span / float64(n)
	p := math.Pow(10, math.Floor(math.Log10(raw)))
	for _, s := range []float64{1, 2, 5, 10} {
		if s*p >= raw*(1-1e-9) {
			return s * p
		}
	}
	return 10 * p
}

// yRange returns the range of the y axis and its step.
func (d diagram) yRange() (lo, hi, step float64) {
	lo, hi = math.Inf(1), math.Inf(-1)
	for _, s := range d.series {
		for _, p := range s.pts {
			if !math.IsNaN(p.Y) && !math.IsInf(p.Y, 0) {
				lo, hi = math.Min(lo, p.Y), math.Max(hi, p.Y)
			}
		}
	}
	if lo > hi {
		lo, hi = 0, 1
	}
	if d.fromZero {
		lo, hi = math.Min(0, lo), math.Max(0, hi)
	}
	if hi-lo < 1e-9*math.Max(1, math.Abs(hi)) {
		lo, hi = lo-0.5e-3, hi+0.5e-3
	}
	step = niceStep(hi-lo, 4)
	return math.Floor(lo/step+1e-9) * step, math.Ceil(hi/step-1e-9) * step, step
}

// draw adds the diagram to the figure: axes with ticks, lines, and the lines'
// names above it with a sample of each.
func (d diagram) draw(f *figure.Figure) {
	lo, hi, step := d.yRange()
	size := d.at.size()
	place := func(x, y float64) plane.Vec {
		return plane.Vec{X: d.at.min.X + (x-d.xMin)/(d.xMax-d.xMin)*size.X, Y: d.at.min.Y + (y-lo)/(hi-lo)*size.Y}
	}
	grid := figure.Look(figure.Hatching)
	grid.Stroke = figure.Colour{R: 0xc4, G: 0xc4, B: 0xc4, A: 255}
	for k := math.Round(lo / step); k*step <= hi+step/2; k++ {
		y := k * step
		f.Add(figure.Shape{Path: figure.Lines(place(d.xMin, y), place(d.xMax, y)), Style: grid})
		f.Add(figure.Text{At: place(d.xMin, y).Sub(plane.Vec{X: 1.2}), Size: 1.9, Along: figure.Right, Up: figure.Middle, Text: tick(y, step)})
	}
	xs := niceStep(d.xMax-d.xMin, 6)
	for k := math.Ceil(d.xMin/xs - 1e-9); k*xs <= d.xMax+1e-9*xs; k++ {
		x := k * xs
		f.Add(figure.Shape{Path: figure.Lines(place(x, lo), place(x, hi)), Style: grid})
		f.Add(figure.Text{At: place(x, lo).Sub(plane.Vec{Y: 3.4}), Size: 1.9, Along: figure.Middle, Text: tick(x, xs)})
	}
	f.Add(figure.Shape{Path: figure.Rectangle(d.at.min, d.at.max), Style: figure.Look(figure.Dimension)})
	for _, s := range d.series {
		d.line(f, s, place)
	}
	f.Add(figure.Text{At: plane.Vec{X: d.at.max.X, Y: d.at.min.Y - 7}, Size: 2.1, Along: figure.Right, Text: d.xName})
	d.names(f)
}

// line adds one series, broken where a value is missing.
func (d diagram) line(f *figure.Figure, s series, place func(x, y float64) plane.Vec) {
	var run []plane.Vec
	flush := func() {
		if len(run) > 1 {
			f.Add(figure.Shape{Path: figure.Lines(run...), Style: s.style})
		}
		run = nil
	}
	for _, p := range s.pts {
		if math.IsNaN(p.Y) || math.IsInf(p.Y, 0) {
			flush()
			continue
		}
		run = append(run, place(p.X, p.Y))
	}
	flush()
}

// names writes the y axis's name and the series' names above the diagram.
func (d diagram) names(f *figure.Figure) {
	at := plane.Vec{X: d.at.min.X, Y: d.at.max.Y + 2.2}
	f.Add(figure.Text{At: at, Size: 2.3, Text: d.yName})
	if len(d.series) < 2 {
		return
	}
	x := d.at.max.X
	for i := len(d.series) - 1; i >= 0; i-- {
		s := d.series[i]
		if s.name == "" {
			continue
		}
		w, err := figure.TextWidth(s.name, 2.1)
		if err != nil {
			w = 20
		}
		f.Add(figure.Text{At: plane.Vec{X: x - w, Y: at.Y}, Size: 2.1, Text: s.name})
		f.Add(figure.Shape{Path: figure.Lines(plane.Vec{X: x - w - 11, Y: at.Y + 1}, plane.Vec{X: x - w - 2, Y: at.Y + 1}), Style: s.style})
		x -= w + 16
	}
}

// tick writes a number with the decimals that its step asks for.
func tick(v, step float64) string {
	digits := int(math.Max(0, math.Ceil(-math.Log10(step)-1e-9)))
	t := fmt.Sprintf("%.*f", digits, v)
	if strings.Trim(t, "-0.") == "" {
		return strings.TrimPrefix(t, "-")
	}
	return t
}
