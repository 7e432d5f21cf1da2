package sheet

import (
	"fmt"
	"math"

	"ringtrack/export/figure"
	"ringtrack/gear/drive"
	"ringtrack/gear/load"
	"ringtrack/gear/machine"
	"ringtrack/gear/plane"
)

// HasLoad reports whether Load has something to show of a design.
func HasLoad(d *drive.Design) bool {
	l := d.Load
	return l != nil && (len(l.Points) > 0 || l.Analysis != nil && len(l.Analysis.Ratings) > 0)
}

// Load draws what motor and teeth have in hand: the platform's speed against the
// torque of the motor's shaft, with the points at which it starts and turns, and
// the safety of the teeth against the stress at their root, with every load
// case. What is not known is left out.
func Load(d *drive.Design) figure.Figure {
	f := figure.Figure{Width: 270, Height: 200, Title: d.Job.Title}
	f.Add(figure.Shape{Path: figure.Rectangle(plane.Vec{}, plane.Vec{X: f.Width, Y: f.Height}), Style: figure.Style{Fill: paper}})
	text(&f, plane.Vec{X: 10, Y: 188}, 4, d.Job.Title)
	text(&f, plane.Vec{X: 10, Y: 181.5}, 2.4, "what motor and teeth have in hand. Verdict: "+d.Verdict())
	speedTorque(&f, d, window{plane.Vec{X: 22, Y: 24}, plane.Vec{X: 126, Y: 160}})
	stressSafety(&f, d, window{plane.Vec{X: 156, Y: 24}, plane.Vec{X: 260, Y: 160}})
	return f
}

// supplyStyle is the look of the line of a supply: dashes differ, by turns.
func supplyStyle(i int) figure.Style {
	s := figure.Look([]figure.Role{figure.Pinion, figure.BaseCircle, figure.TipCircle, figure.ReferenceCircle}[i%4])
	s.Fill = figure.Colour{}
	s.Width = 0.4
	return s
}

// speedTorque draws a line for each supply, and where the platform turns and
// starts.
func speedTorque(f *figure.Figure, d *drive.Design, w window) {
	l := d.Load
	if len(l.Points) == 0 {
		text(f, plane.Vec{X: w.min.X, Y: w.centre().Y}, 2.4, "Without [platform] no working point is known.")
		return
	}
	m := l.Machine
	at := l.Points[0]
	most := 1.05 * math.Max(at.Stall, at.Start)
	for _, p := range l.Points {
		most = math.Max(most, 1.05*p.Stall)
	}
	g := diagram{at: w, xName: "torque of the motor's output shaft, N mm", yName: "speed of the platform, rpm", fromZero: true, xMax: most}
	for i, p := range l.Points {
		g.series = append(g.series, series{style: supplyStyle(i), pts: motorLine(m, p.Supply)})
	}
	g.draw(f)
	for i, p := range l.Points {
		name := fmt.Sprintf("%.3g V", p.Supply)
		if m.Motor.Kind == machine.Stepper {
			name = "pull-out torque"
		}
		// Beside the line, each a little farther along it.
		q := g.series[i].pts
		at := q[0].Add(q[len(q)-1].Sub(q[0]).Mul(0.3 + 0.12*float64(i)))
		if len(q) > 2 {
			at = q[1]
		}
		text(f, g.place(at.X, at.Y).Add(plane.Vec{X: 1.5, Y: 1.2}), 2.1, name)
		if p.Starts {
			mark(f, w, g.place(p.Uphill, machine.ToRPM(p.Slowest)))
		}
	}
	g.upright(f, at.Start, 0.88, "starting takes")
	g.upright(f, at.Usable, 0.80, "for long: "+at.Limit)
	if lim := m.Motor.GearboxLimit; lim > 0 && lim < most {
		g.upright(f, lim, 0.72, "the gearbox's limit")
	}
	where := "Rings: where the platform turns, uphill."
	if m.Motor.Kind == machine.Stepper {
		where = "Ring: the fastest, uphill, with half the pull-out torque in hand."
	}
	text(f, plane.Vec{X: w.min.X, Y: 10}, 2.1, where)
}

// motorLine returns the platform's speed, rpm, over the motor's torque.
func motorLine(m *machine.Drive, supply float64) []plane.Vec {
	if m.Motor.Kind == machine.DC {
		return []plane.Vec{{Y: machine.ToRPM(m.Motor.NoLoadAt(supply) / m.Ratio())}, {X: m.Motor.StallAt(supply)}}
	}
	var out []plane.Vec
	for _, c := range m.Motor.Curve {
		out = append(out, plane.Vec{X: c.Torque, Y: machine.ToRPM(c.Speed / m.Ratio())})
	}
	return append(out, plane.Vec{Y: out[len(out)-1].Y}) // no speed beyond the curve's last
}

// place returns where a point of the diagram lies on the paper.
func (d diagram) place(x, y float64) plane.Vec {
	lo, hi, _ := d.yRange()
	size := d.at.size()
	return plane.Vec{X: d.at.min.X + (x-d.xMin)/(d.xMax-d.xMin)*size.X, Y: d.at.min.Y + (y-lo)/(hi-lo)*size.Y}
}

// upright draws a line across the diagram at x and writes its name beside it, at
// a part of the height.
func (d diagram) upright(f *figure.Figure, x, at float64, name string) {
	px := d.place(x, 0).X
	s := figure.Look(figure.LineOfAction)
	s.Width = 0.25
	f.Add(figure.Shape{Path: figure.Lines(plane.Vec{X: px, Y: d.at.min.Y}, plane.Vec{X: px, Y: d.at.max.Y}), Style: s})
	y := d.at.min.Y + at*d.at.size().Y
	t := figure.Text{At: plane.Vec{X: px + 1, Y: y}, Size: 2.1, Text: name}
	if wide, err := figure.TextWidth(name, 2.1); err == nil && px+1+wide > d.at.max.X {
		t.At.X, t.Along = px-1, figure.Right
	}
	f.Add(t)
}

// logAxis is an axis in decades.
type logAxis struct {
	lo, hi   float64 // of the values, powers of ten times 1, 2 or 5
	from, to float64 // on the paper
}

// newLogAxis returns an axis about the values.
func newLogAxis(values []float64, from, to float64) logAxis {
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, v := range values {
		if v > 0 && !math.IsInf(v, 1) {
			lo, hi = math.Min(lo, v), math.Max(hi, v)
		}
	}
	return logAxis{nice125(lo/1.2, false), nice125(hi*1.2, true), from, to}
}

// nice125 returns the next 1, 2 or 5 times a power of ten, up or down.
func nice125(v float64, up bool) float64 {
	p := math.Pow(10, math.Floor(math.Log10(v)))
	steps := []float64{1, 2, 5, 10}
	if up {
		for _, s := range steps {
			if s*p >= v*(1-1e-9) {
				return s * p
			}
		}
		return 10 * p
	}
	for i := len(steps) - 1; i >= 0; i-- {
		if steps[i]*p <= v*(1+1e-9) {
			return steps[i] * p
		}
	}
	return p
}

func (a logAxis) at(v float64) float64 {
	return a.from + (a.to-a.from)*math.Log(v/a.lo)/math.Log(a.hi/a.lo)
}

// ticks returns 1, 2 and 5 in every decade; over many decades 1 alone.
func (a logAxis) ticks() []float64 {
	steps := []float64{1, 2, 5}
	if a.hi/a.lo > 1e4 {
		steps = steps[:1]
	}
	var out []float64
	for p := math.Pow(10, math.Floor(math.Log10(a.lo))); p <= a.hi; p *= 10 {
		for _, s := range steps {
			if v := s * p; v >= a.lo*(1-1e-9) && v <= a.hi*(1+1e-9) {
				out = append(out, v)
			}
		}
	}
	return out
}

// stressSafety draws each member's safety over its stress: the cases, and what
// is asked of each.
func stressSafety(f *figure.Figure, d *drive.Design, w window) {
	a := d.Load.Analysis
	if a == nil || len(a.Ratings) == 0 {
		text(f, plane.Vec{X: w.min.X, Y: w.centre().Y}, 2.4, "Name the materials of pinion and ring to see the teeth's safety.")
		return
	}
	var xs, ys []float64
	for _, r := range a.Ratings {
		for _, t := range []load.ToothRating{r.Pinion, r.Wheel} {
			xs, ys = append(xs, t.Tangent), append(ys, t.Safety, t.Needed, 1)
		}
	}
	x, y := newLogAxis(xs, w.min.X, w.max.X), newLogAxis(ys, w.min.Y, w.max.Y)
	logGrid(f, w, x, y)
	text(f, plane.Vec{X: w.min.X, Y: w.max.Y + 2.2}, 2.3, "safety of the teeth")
	f.Add(figure.Text{At: plane.Vec{X: w.max.X, Y: w.min.Y - 7}, Size: 2.1, Along: figure.Right, Text: "stress at the root, MPa (tangent method)"})
	for i, m := range []struct {
		role figure.Role
		name string
		of   func(load.Rating) load.ToothRating
	}{{figure.Pinion, "pinion", func(r load.Rating) load.ToothRating { return r.Pinion }}, {figure.Ring, "ring", func(r load.Rating) load.ToothRating { return r.Wheel }}} {
		style := figure.Look(m.role)
		style.Fill = figure.Colour{}
		style.Width = 0.3
		var line []plane.Vec
		for _, v := range []float64{x.lo, x.hi} {
			s := m.of(a.Ratings[0]).Strength
			line = append(line, plane.Vec{X: x.at(v), Y: y.at(s / v)})
		}
		for _, run := range clipLine(line, w) {
			f.Add(figure.Shape{Path: figure.Lines(run...), Style: style})
		}
		for k, r := range a.Ratings {
			t := m.of(r)
			p := plane.Vec{X: x.at(t.Tangent), Y: y.at(t.Safety)}
			style.Fill = figure.Look(m.role).Fill
			f.Add(figure.Shape{Path: figure.Circle(p, 1.4), Style: style})
			f.Add(figure.Text{At: p, Size: 1.7, Along: figure.Middle, Up: figure.Middle, Text: fmt.Sprint(k + 1)})
			asked := y.at(t.Needed)
			f.Add(figure.Shape{Path: figure.Lines(plane.Vec{X: p.X - 2.5, Y: asked}, plane.Vec{X: p.X + 2.5, Y: asked}), Style: style})
		}
		text(f, plane.Vec{X: w.min.X + float64(i)*22, Y: w.max.Y + 6.5}, 2.1, m.name)
		f.Add(figure.Shape{Path: figure.Lines(plane.Vec{X: w.min.X + float64(i)*22 + 9, Y: w.max.Y + 7.3}, plane.Vec{X: w.min.X + float64(i)*22 + 17, Y: w.max.Y + 7.3}), Style: style})
	}
	key := ""
	for k, r := range a.Ratings {
		if k > 0 {
			key += ",  "
		}
		key += fmt.Sprintf("%d %s", k+1, r.Case.Name)
	}
	text(f, plane.Vec{X: w.min.X, Y: 10}, 2.1, key)
	text(f, plane.Vec{X: w.min.X, Y: 6}, 2.1, "Dashes: the safety asked for. A dead stop is an upper bound.")
}

func logGrid(f *figure.Figure, w window, x, y logAxis) {
	grid := figure.Look(figure.Hatching)
	grid.Stroke = figure.Colour{R: 0xc4, G: 0xc4, B: 0xc4, A: 255}
	for _, v := range x.ticks() {
		px := x.at(v)
		f.Add(figure.Shape{Path: figure.Lines(plane.Vec{X: px, Y: w.min.Y}, plane.Vec{X: px, Y: w.max.Y}), Style: grid})
		f.Add(figure.Text{At: plane.Vec{X: px, Y: w.min.Y - 3.4}, Size: 1.9, Along: figure.Middle, Text: fmt.Sprintf("%g", v)})
	}
	for _, v := range y.ticks() {
		py := y.at(v)
		style := grid
		if v == 1 {
			style = figure.Look(figure.Contact)
			style.Width = 0.3
		}
		f.Add(figure.Shape{Path: figure.Lines(plane.Vec{X: w.min.X, Y: py}, plane.Vec{X: w.max.X, Y: py}), Style: style})
		f.Add(figure.Text{At: plane.Vec{X: w.min.X - 1.2, Y: py}, Size: 1.9, Along: figure.Right, Up: figure.Middle, Text: fmt.Sprintf("%g", v)})
	}
	f.Add(figure.Shape{Path: figure.Rectangle(w.min, w.max), Style: figure.Look(figure.Dimension)})
}
