package sheet

import (
	"fmt"
	"math"

	"ringtrack/export/figure"
	"ringtrack/gear/plane"
	"ringtrack/gear/roll"
)

// Rolling is what the pictures of a rolling show.
type Rolling struct {
	Title  string
	Pair   roll.Pair
	Result roll.Result
}

// Rolled draws a rolling on one sheet: backlash and transmission error against
// the angle, the contact at the tightest place to scale, and the place of the
// smallest gap beside the contact.
func Rolled(r Rolling) figure.Figure {
	f := figure.Figure{Width: 270, Height: 200, Title: r.Title}
	f.Add(figure.Shape{Path: figure.Rectangle(plane.Vec{}, plane.Vec{X: f.Width, Y: f.Height}), Style: figure.Style{Fill: paper}})
	text(&f, plane.Vec{X: 10, Y: 188}, 4, r.Title)
	text(&f, plane.Vec{X: 10, Y: 181.5}, 2.4, r.summary())
	top := window{plane.Vec{X: 24, Y: 112}, plane.Vec{X: 260, Y: 168}}
	low := window{plane.Vec{X: 24, Y: 24}, plane.Vec{X: 124, Y: 84}}
	r.playDiagram(top).draw(&f)
	r.errorDiagram(low).draw(&f)
	left := window{plane.Vec{X: 134, Y: 17}, plane.Vec{X: 195, Y: 84}}
	right := window{plane.Vec{X: 199, Y: 17}, plane.Vec{X: 260, Y: 84}}
	r.drawContact(&f, left)
	r.drawGap(&f, right)
	f.Add(figure.Legend{At: plane.Vec{X: 206, Y: 193}, Size: 2, Entries: []figure.Entry{
		{Style: figure.Look(figure.Pinion), Text: "pinion"},
		{Style: figure.Look(figure.Ring), Text: "ring"},
		{Style: figure.Look(figure.Contact), Text: "contact, smallest gap"},
	}})
	return f
}

func (r Rolling) summary() string {
	b := r.Result.Backlash
	if r.Result.Binding != nil {
		return fmt.Sprintf("It BINDS. Play on the working circle %.3f to %.3f mm.", b.Least.Arc, b.Greatest.Arc)
	}
	return fmt.Sprintf("It turns freely: play on the working circle %.3f to %.3f mm, mean %.3f mm.", b.Least.Arc, b.Greatest.Arc, b.Mean.Arc)
}

// axis returns the angle to plot against, in degrees, its name and its range.
func (r Rolling) axis() (of func(roll.Interval) float64, name string, lo, hi float64) {
	if r.Result.Span == roll.OnePitch {
		of, name = func(v roll.Interval) float64 { return deg(v.PinionAngle) }, "pinion angle over one pitch, degrees"
	} else {
		of, name = func(v roll.Interval) float64 { return deg(v.Exact) }, "ring angle, degrees"
	}
	p := r.Result.Positions
	return of, name, of(p[0]), of(p[len(p)-1])
}

func (r Rolling) playDiagram(w window) diagram {
	of, name, lo, hi := r.axis()
	s := series{style: figure.Look(figure.Pinion)}
	s.style.Fill = figure.Colour{}
	for _, v := range r.Result.Positions {
		s.pts = append(s.pts, plane.Vec{X: of(v), Y: v.Width() * r.Result.WorkingRing})
	}
	return diagram{at: w, xName: name, yName: "backlash, arc on the working circle, mm", series: []series{s}, fromZero: true, xMin: lo, xMax: hi}
}

// errorDiagram shows how far the driven ring departs from the exact ratio, as
// an arc on its working circle, in both directions.
func (r Rolling) errorDiagram(w window) diagram {
	of, name, lo, hi := r.axis()
	forward := series{name: "forward", style: figure.Look(figure.Pinion)}
	backward := series{name: "backward", style: figure.Look(figure.BaseCircle)}
	forward.style.Fill = figure.Colour{}
	for _, v := range r.Result.Positions {
		scale := 1000 * r.Result.WorkingRing
		forward.pts = append(forward.pts, plane.Vec{X: of(v), Y: (v.Lo - v.Exact - r.Result.Forward.Offset.Ring) * scale})
		backward.pts = append(backward.pts, plane.Vec{X: of(v), Y: (v.Hi - v.Exact - r.Result.Backward.Offset.Ring) * scale})
	}
	return diagram{at: w, xName: name, yName: "departure from the ratio, um", series: []series{forward, backward}, xMin: lo, xMax: hi}
}

// place puts both outlines at a pinion and a ring angle.
func (r Rolling) place(pinion, ring float64) (p, g plane.Loop) {
	p = r.Pair.Pinion.Map(plane.Moved(r.Pair.PinionOff)).Map(plane.Turned(pinion)).Map(plane.Moved(plane.Vec{X: r.Pair.CentreDistance}))
	g = r.Pair.Ring.Map(plane.Moved(r.Pair.RingOff)).Map(plane.Turned(ring))
	return p, g
}

// drawMesh draws the outlines near a point: the pinion as an area, the ring as
// everything outside its outline.
func (r Rolling) drawMesh(f *figure.Figure, w window, v view, pinion, ring float64) {
	p, g := r.place(pinion, ring)
	_, outer := r.Pair.Ring.Radii()
	area(f, v, w, figure.Look(figure.Ring), plane.CircleLoop(plane.Vec{}, 2*outer), g)
	area(f, v, w, figure.Look(figure.Pinion), p)
	f.Add(figure.Shape{Path: figure.Rectangle(w.min, w.max), Style: figure.Look(figure.Dimension)})
}

// pitch returns the arc of a pitch on the working circle.
func (r Rolling) pitch() float64 {
	return 2 * math.Pi * r.Result.WorkingRing / float64(r.Result.RingTeeth)
}

// drawContact draws the tightest place with the ring driven forward and marks
// where the flanks touch.
func (r Rolling) drawContact(f *figure.Figure, w window) {
	at := r.Result.Backlash.LeastAt
	if b := r.Result.Binding; b != nil {
		at = b.At
	}
	v := view{scale: 0.9 * w.size().Y / (2.6 * r.pitch()), centre: plane.Vec{X: r.Result.WorkingRing}, at: w.centre()}
	r.drawMesh(f, w, v, at.PinionAngle, at.Lo)
	for _, c := range []roll.Contact{at.Low} {
		if c.Valid {
			mark(f, w, v.point(c.At))
		}
	}
	text(f, plane.Vec{X: w.min.X, Y: w.max.Y + 2.2}, 2.3, "contact at the tightest place")
	text(f, plane.Vec{X: w.min.X, Y: w.min.Y - 5}, 2, fmt.Sprintf("%.3g : 1, ring driven forward", v.scale))
}

// drawGap draws the place of the smallest gap with the ring in mid play.
func (r Rolling) drawGap(f *figure.Figure, w window) {
	g := r.Result.Gap
	if math.IsInf(g.Distance, 0) {
		return
	}
	middle := g.OnPinion.Add(g.OnRing).Mul(0.5)
	v := view{scale: 0.9 * w.size().Y / (1.1 * r.pitch()), centre: middle, at: w.centre()}
	r.drawMesh(f, w, v, g.PinionAngle, g.RingAngle)
	f.Add(figure.Shape{Path: figure.Lines(v.point(g.OnPinion), v.point(g.OnRing)), Style: figure.Look(figure.Contact)})
	text(f, plane.Vec{X: w.min.X, Y: w.max.Y + 2.2}, 2.3, "smallest gap in mid play")
	text(f, plane.Vec{X: w.min.X, Y: w.min.Y - 5}, 2, fmt.Sprintf("%.3g : 1, gap %.3f mm", v.scale, g.Distance))
}

// mark rings a point.
func mark(f *figure.Figure, w window, at plane.Vec) {
	if at.X < w.min.X || at.X > w.max.X || at.Y < w.min.Y || at.Y > w.max.Y {
		return
	}
	f.Add(figure.Shape{Path: figure.Circle(at, 1.6), Style: figure.Look(figure.Contact)})
	f.Add(figure.Shape{Path: figure.Circle(at, 0.35), Style: figure.Style{Fill: figure.Look(figure.Contact).Stroke}})
}

// Turning returns n pictures of one pitch: the pinion driving the ring forward
// by one tooth, contact points marked.
func Turning(r Rolling, e *roll.Engine, n int) []figure.Figure {
	out := make([]figure.Figure, n)
	pitch := 2 * math.Pi / float64(r.Result.PinionTeeth)
	for i := range out {
		at := e.Free(pitch * float64(i) / float64(n))
		f := figure.Figure{Width: 120, Height: 120, Title: r.Title}
		f.Add(figure.Shape{Path: figure.Rectangle(plane.Vec{}, plane.Vec{X: 120, Y: 120}), Style: figure.Style{Fill: paper}})
		w := window{plane.Vec{X: 4, Y: 4}, plane.Vec{X: 116, Y: 110}}
		v := view{scale: w.size().Y / (4.5 * r.pitch()), centre: plane.Vec{X: r.Result.WorkingRing - 0.2*r.pitch()}, at: w.centre()}
		r.drawMesh(&f, w, v, at.PinionAngle, at.Lo)
		if at.Low.Valid {
			mark(&f, w, v.point(at.Low.At))
		}
		text(&f, plane.Vec{X: 4, Y: 113}, 2.6, fmt.Sprintf("%s, pinion at %.1f degrees", r.Title, deg(at.PinionAngle)))
		out[i] = f
	}
	return out
}
