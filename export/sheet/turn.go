package sheet

import (
	"fmt"
	"math"

	"ringtrack/export/figure"
	"ringtrack/gear/budget"
	"ringtrack/gear/drive"
	"ringtrack/gear/plane"
)

// turnLine is the least play at each place, turnBand what it swings to.
var (
	turnLine = figure.Style{Stroke: figure.Colour{R: 0x12, G: 0x46, B: 0x7b, A: 255}, Width: 0.6}
	turnBand = figure.Style{Fill: figure.Colour{R: 0xdf, G: 0xe8, B: 0xf2, A: 255}}
)

// polar maps play at a place on the ring to the paper: the ring as it lies in its
// files, space 0 on the right, play outward from a circle of none.
type polar struct {
	c      plane.Vec
	inner  float64 // mm, radius at the least play drawn
	outer  float64
	lo, hi float64 // mm of backlash
}

func (p polar) radius(play float64) float64 {
	return p.inner + (math.Min(math.Max(play, p.lo), p.hi)-p.lo)/(p.hi-p.lo)*(p.outer-p.inner)
}

func (p polar) at(place, play float64) plane.Vec {
	return p.c.Add(plane.Vec{X: p.radius(play)}.Turn(place))
}

// drawTurn draws the backlash round a whole turn.
func drawTurn(f *figure.Figure, d *drive.Design, c plane.Vec, radius float64) {
	t := d.Budget.Turn
	lo, hi := math.Min(0, t.Tightest.Play), math.Max(t.Loosest.Play, 1e-3)
	step := niceStep(hi-lo, 4)
	p := polar{c: c, inner: 0.3 * radius, outer: radius, lo: math.Floor(lo/step+1e-9) * step, hi: math.Ceil(hi/step-1e-9) * step}
	text(f, plane.Vec{X: 162, Y: c.Y + radius + 10}, 2.6, "Backlash round a turn of parts as drawn (mm), by place on the ring")
	p.area(f, t.Points)
	p.rings(f, step)
	if d.Budget.Target > 0 {
		f.Add(figure.Shape{Path: figure.Circle(c, p.radius(d.Budget.Target)), Style: keep})
	}
	f.Add(figure.Shape{Path: figure.Circle(c, p.radius(0)), Style: stop})
	p.run(f, t.Points)
	p.joints(f, t)
	p.spot(f, t.Tightest, "tightest")
	if t.Loosest.Play-t.Tightest.Play > 1e-6 {
		p.spot(f, t.Loosest, "loosest")
	}
	if !t.Measured && t.Loosest.Play-t.Tightest.Play > 1e-6 {
		f.Add(figure.Text{At: c.Sub(plane.Vec{Y: radius + 8}), Size: 2, Along: figure.Middle,
			Text: "where deviations lie was not measured: they are laid together"})
	}
}

// rings draws the scale: circles of equal play.
func (p polar) rings(f *figure.Figure, step float64) {
	grid := figure.Look(figure.Hatching)
	grid.Stroke = figure.Colour{R: 0xb4, G: 0xb4, B: 0xb4, A: 255}
	for k := math.Round(p.lo / step); k*step <= p.hi+step/2; k++ {
		r := p.radius(k * step)
		f.Add(figure.Shape{Path: figure.Circle(p.c, r), Style: grid})
		f.Add(figure.Text{At: p.c.Add(plane.Vec{X: r + 1.7}.Turn(1.2)), Size: 1.8, Along: figure.Middle, Up: figure.Middle, Text: tick(k*step, step)})
	}
}

// area fills from the least to the greatest play at each place.
func (p polar) area(f *figure.Figure, pts []budget.Point) {
	var out, in []plane.Vec
	for _, v := range pts {
		out, in = append(out, p.at(v.Place, v.Greatest)), append(in, p.at(v.Place, v.Least))
	}
	for i, k := 0, len(in)-1; i < k; i, k = i+1, k-1 {
		in[i], in[k] = in[k], in[i]
	}
	f.Add(figure.Shape{Path: append(figure.Polygon(out...), figure.Polygon(in...)...), Style: turnBand})
}

// run draws the least play.
func (p polar) run(f *figure.Figure, pts []budget.Point) {
	var line []plane.Vec
	for _, v := range pts {
		line = append(line, p.at(v.Place, v.Least))
	}
	f.Add(figure.Shape{Path: figure.Polygon(line...), Style: turnLine})
}

// joints draws a ray at each joint.
func (p polar) joints(f *figure.Figure, t budget.Turn) {
	for i, x := range t.JointAt {
		f.Add(figure.Shape{Path: figure.Lines(p.at(x, p.lo), p.at(x, p.hi)), Style: figure.Look(figure.CentreLine)})
		f.Add(figure.Text{At: p.c.Add(plane.Vec{X: p.outer + 2.5}.Turn(x)), Size: 1.9, Along: figure.Middle, Up: figure.Middle, Text: fmt.Sprintf("joint %d", i+1)})
	}
}

// spot marks a place with its space and play.
func (p polar) spot(f *figure.Figure, s budget.Spot, word string) {
	at := p.at(s.Place, s.Play)
	style := figure.Look(figure.Contact)
	style.Width = 0.4
	f.Add(figure.Shape{Path: figure.Circle(at, 1.3), Style: style})
	along, aside := figure.Left, 0.8
	if math.Cos(s.Place) < 0 {
		along, aside = figure.Right, -0.8
	}
	out := p.c.Add(plane.Vec{X: p.outer + 3}.Turn(s.Place))
	f.Add(figure.Shape{Path: figure.Lines(at.Add(plane.Vec{X: 1.3}.Turn(s.Place)), out), Style: edged})
	lift := plane.Vec{Y: 1.4}
	words := out.Add(plane.Vec{X: aside})
	f.Add(figure.Text{At: words.Add(lift), Size: 2, Along: along, Up: figure.Middle, Text: word})
	f.Add(figure.Text{At: words.Sub(lift), Size: 2, Along: along, Up: figure.Middle, Text: fmt.Sprintf("%.3f, space %d", s.Play, s.Space)})
}

// tightest is the look of the mark at the tightest tooth.
func tightest() figure.Style {
	s := figure.Look(figure.Contact)
	s.Width, s.Fill = 0.2, s.Stroke
	return s
}

// hasTightest reports whether one place of the turn is tighter than others.
func hasTightest(d *drive.Design) bool {
	return d.Budget != nil && d.Budget.Turn.Loosest.Play-d.Budget.Turn.Tightest.Play > 1e-6
}

// tightestTooth marks on a drawing of the pair where the turn is tightest: an
// arrow in the ring's rim, against the space.
func tightestTooth(f *figure.Figure, d *drive.Design, v view) {
	if !hasTightest(d) {
		return
	}
	along := plane.Vec{X: 1}.Turn(d.Budget.Turn.Tightest.Place)
	at := func(r float64) plane.Vec { return v.point(along.Mul(r)) }
	m, root := d.Pair.Ring.Module, d.Pair.Ring.RootDiameter/2
	tip, back := at(root+0.1*m), at(math.Min(root+2*m, d.Ring.Outer/2))
	side := along.Turn(math.Pi / 2).Mul(0.4 * back.Sub(tip).Len())
	f.Add(figure.Shape{Path: figure.Polygon(tip, back.Add(side), back.Sub(side)), Style: tightest()})
}

// tightestEntry explains the mark in a legend.
func tightestEntry(d *drive.Design) []figure.Entry {
	if !hasTightest(d) {
		return nil
	}
	return []figure.Entry{{Style: tightest(), Text: fmt.Sprintf("tightest, space %d", d.Budget.Turn.Tightest.Space)}}
}
