package sheet

import (
	"fmt"
	"math"

	"ringtrack/export/figure"
	"ringtrack/gear/drive"
	"ringtrack/gear/plane"
)

// Paper of the assembly sheet: A4 across (ISO 216).
const (
	paperWidth  = 297
	paperHeight = 210
	edge        = 10
)

// Assembly draws the pair in mesh as designed: the whole of it on the left,
// the meshing teeth enlarged on the right, each with reference, base and tip
// circles and the line of action; a legend and the figures that matter. The
// design must have a pair.
func Assembly(d *drive.Design) figure.Figure {
	f := figure.Figure{Width: paperWidth, Height: paperHeight, Title: d.Job.Title}
	f.Add(figure.Shape{Path: figure.Rectangle(plane.Vec{}, plane.Vec{X: paperWidth, Y: paperHeight}), Style: figure.Style{Fill: paper}})
	whole := window{plane.Vec{X: edge, Y: edge}, plane.Vec{X: 172, Y: 186}}
	detail := window{plane.Vec{X: 180, Y: 92}, plane.Vec{X: paperWidth - edge, Y: 186}}
	head(&f, d)
	drawWhole(&f, d, whole)
	drawDetail(&f, d, detail)
	drawLegend(&f, d, plane.Vec{X: 180, Y: 86})
	drawFigures(&f, d, plane.Vec{X: 232, Y: 83})
	return f
}

var paper = figure.Colour{R: 255, G: 255, B: 255, A: 255}

func text(f *figure.Figure, at plane.Vec, size float64, s string) {
	f.Add(figure.Text{At: at, Size: size, Text: s})
}

func head(f *figure.Figure, d *drive.Design) {
	text(f, plane.Vec{X: edge, Y: 197}, 4.2, d.Job.Title)
	text(f, plane.Vec{X: edge, Y: 190.5}, 2.4, fmt.Sprintf(
		"pinion and ring track in mesh, as designed, seen from above; lengths in mm. Verdict: %s", d.Verdict()))
}

// drawWhole draws ring and pinion with their circles, the centre distance and
// the outer diameter.
func drawWhole(f *figure.Figure, d *drive.Design, w window) {
	p := d.Pair
	room := math.Min(w.size().X-14, w.size().Y-26)
	v := view{scale: scaleFor(d.Ring.Outer, room), at: w.centre().Add(plane.Vec{Y: 6})}
	teeth(f, d, v, w)
	circles(f, d, v, w)
	centre := plane.Vec{X: p.CentreDistance}
	cross(f, v, w, plane.Vec{}, d.Ring.Outer/2*1.03)
	cross(f, v, w, centre, p.Pinion.TipDiameter/2*1.25)
	lineOfAction(f, d, v, w)
	tightestTooth(f, d, v)
	below := -d.Ring.Outer/2*v.scale - 7
	f.Add(figure.Linear{From: v.point(plane.Vec{}), To: v.point(centre), Offset: below, Text: fmt.Sprintf("%.3f", p.CentreDistance)})
	f.Add(figure.Radial(v.point(plane.Vec{}), d.Ring.Outer/2*v.scale, 2.25, 6, fmt.Sprintf("Ø %.4g", d.Ring.Outer)))
	text(f, plane.Vec{X: w.min.X, Y: w.min.Y}, 2.4, "whole, "+scaleText(v.scale))
}

// teeth draws both members as areas.
func teeth(f *figure.Figure, d *drive.Design, v view, w window) {
	area(f, v, w, figure.Look(figure.Ring), d.Ring.Body.Region().Loops()...)
	pinion := d.Pinion.Body.Region().Map(plane.Moved(plane.Vec{X: d.Pair.CentreDistance}))
	area(f, v, w, figure.Look(figure.Pinion), pinion.Loops()...)
}

// circles draws reference, base and tip circles of both members.
func circles(f *figure.Figure, d *drive.Design, v view, w window) {
	p := d.Pair
	c := plane.Vec{X: p.CentreDistance}
	for _, m := range []struct {
		c                    plane.Vec
		reference, base, tip float64
	}{
		{c, p.Pinion.ReferenceDiameter, p.Pinion.BaseDiameter, p.Pinion.TipDiameter},
		{plane.Vec{}, p.Ring.ReferenceDiameter, p.Ring.BaseDiameter, p.Ring.TipDiameter},
	} {
		circle(f, v, w, figure.Look(figure.ReferenceCircle), m.c, m.reference/2)
		circle(f, v, w, figure.Look(figure.BaseCircle), m.c, m.base/2)
		circle(f, v, w, figure.Look(figure.TipCircle), m.c, m.tip/2)
	}
}

// cross draws centre lines through a point.
func cross(f *figure.Figure, v view, w window, c plane.Vec, reach float64) {
	s := figure.Look(figure.CentreLine)
	line(f, v, w, s, c.Sub(plane.Vec{X: reach}), c.Add(plane.Vec{X: reach}))
	line(f, v, w, s, c.Sub(plane.Vec{Y: reach}), c.Add(plane.Vec{Y: reach}))
}

// lineOfAction draws the straight line on which the flanks touch, thin from the
// pinion's base circle on and thick where they truly do.
func lineOfAction(f *figure.Figure, d *drive.Design, v view, w window) {
	p := d.Pair
	s, c := math.Sincos(p.WorkingPressureAngle)
	at := func(l float64) plane.Vec { // l from the pinion's base tangent point
		r := p.Pinion.BaseDiameter / 2
		return plane.Vec{X: p.CentreDistance + r*c + l*s, Y: r*s - l*c}
	}
	style := figure.Look(figure.LineOfAction)
	thin := style
	thin.Width /= 3
	from, to := math.Max(p.Path.RingTip, p.Path.PinionForm), p.Path.PinionTip
	line(f, v, w, thin, at(0), at(to+p.Pinion.Module))
	line(f, v, w, style, at(from), at(to))
}

// drawDetail draws the meshing teeth enlarged.
func drawDetail(f *figure.Figure, d *drive.Design, w window) {
	p := d.Pair
	span := 4.2 * math.Pi * p.Pinion.Module
	v := view{
		scale:  scaleFor(span, math.Min(w.size().X, w.size().Y)*1.25),
		centre: plane.Vec{X: p.Pinion.WorkingDiameter/2 + p.CentreDistance - p.Pinion.Module*0.6}, at: w.centre(),
	}
	teeth(f, d, v, w)
	circles(f, d, v, w)
	line(f, v, w, figure.Look(figure.CentreLine), plane.Vec{}, plane.Vec{X: d.Ring.Outer})
	lineOfAction(f, d, v, w)
	f.Add(figure.Shape{Path: figure.Rectangle(w.min, w.max), Style: figure.Look(figure.Dimension)})
	text(f, plane.Vec{X: w.min.X, Y: w.max.Y + 2}, 2.4, "where they mesh, "+scaleText(v.scale))
}

func drawLegend(f *figure.Figure, d *drive.Design, at plane.Vec) {
	f.Add(figure.Legend{At: at, Size: 2.1, Entries: append([]figure.Entry{
		{Style: figure.Look(figure.Pinion), Text: "pinion"},
		{Style: figure.Look(figure.Ring), Text: "ring track"},
		{Style: figure.Look(figure.ReferenceCircle), Text: "reference circles"},
		{Style: figure.Look(figure.BaseCircle), Text: "base circles"},
		{Style: figure.Look(figure.TipCircle), Text: "tip circles"},
		{Style: figure.Look(figure.LineOfAction), Text: "path of contact"},
	}, tightestEntry(d)...)})
}

// drawFigures lists what decides the mesh.
func drawFigures(f *figure.Figure, d *drive.Design, at plane.Vec) {
	p := d.Pair
	b := p.Backlash
	lines := []string{
		fmt.Sprintf("teeth  %d / %d,  module %.4g", p.Pinion.Teeth, p.Ring.Teeth, p.Pinion.Module),
		fmt.Sprintf("pressure angle  %.4g°", deg(p.Pinion.PressureAngle)),
		fmt.Sprintf("profile shifts  %.2f / %.2f", p.Pinion.Shift, p.Ring.Shift),
		fmt.Sprintf("tip diameters  %.2f / %.2f", p.Pinion.TipDiameter, p.Ring.TipDiameter),
		fmt.Sprintf("centre distance  %.3f ± %.3g", p.CentreDistance, p.Wish.Spread),
		fmt.Sprintf("backlash  %.3f  (%.3f° at the ring)", b.Circumferential, deg(b.AngleRing)),
		fmt.Sprintf("contact ratio  %.2f", p.ContactRatio),
		fmt.Sprintf("ratio  1 : %.4g", p.Ratio()),
		"Guard the mesh: it draws fingers in.",
		"Isolate the supply before reaching in.",
	}
	for i, l := range lines {
		text(f, at.Sub(plane.Vec{Y: float64(i) * 4.6}), 2.2, l)
	}
}
