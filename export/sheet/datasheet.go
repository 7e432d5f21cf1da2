package sheet

import (
	"fmt"
	"math"

	"ringtrack/export/figure"
	"ringtrack/gear/drive"
	"ringtrack/gear/plane"
)

// The places on the gear data sheet, mm; A4 across.
const (
	sheetFrame  = 8.0
	viewsRight  = 172.0
	titleHeight = 26.0
	titleLeft   = 176.0
	notesTop    = 49.0
)

// Datasheet returns the gear data sheet of a design: both members in face view
// and section, the table of gear data, what to measure with calipers and pins,
// notes and cautions. One page, A4 across.
//
// The table has what drawings of cylindrical gears usually state (after ISO
// 1340, from memory; the representation of gears after ISO 2203, from memory).
//
// Errors: a design without a pair.
func Datasheet(d *drive.Design) (figure.Figure, error) {
	if d == nil || d.Pair == nil {
		return figure.Figure{}, fmt.Errorf("sheet: data sheet: the design has no teeth")
	}
	f := figure.Figure{Width: paperWidth, Height: paperHeight, Title: "Gear data: " + d.Job.Title}
	frame := figure.Style{Stroke: figure.Colour{A: 255}, Width: 0.5}
	f.Add(figure.Shape{Path: figure.Rectangle(plane.Vec{X: sheetFrame, Y: sheetFrame}, plane.Vec{X: paperWidth - sheetFrame, Y: paperHeight - sheetFrame}), Style: frame})
	pinionScale := pinionViews(&f, d, window{plane.Vec{X: 12, Y: 136}, plane.Vec{X: viewsRight, Y: 198}})
	ringScale := ringViews(&f, d, window{plane.Vec{X: 12, Y: notesTop + 5}, plane.Vec{X: viewsRight, Y: 133}})
	gearTable(&f, d)
	sheetNotes(&f, d)
	titleBlock(&f, d, pinionScale, ringScale)
	return f, nil
}

// The lines of views, after ISO 128-2.
var (
	visible = figure.Style{Stroke: figure.Colour{R: 0x10, G: 0x10, B: 0x10, A: 255}, Width: 0.5}
	thinner = figure.Style{Stroke: figure.Colour{R: 0x10, G: 0x10, B: 0x10, A: 255}, Width: 0.18}
)

// pinionViews draws the pinion's face view and axial section.
func pinionViews(f *figure.Figure, d *drive.Design, w window) float64 {
	p, body := d.Pair.Pinion, d.Pinion.Body
	s := scaleFor(p.TipDiameter, w.size().Y-18)
	face := view{scale: s, at: plane.Vec{X: w.min.X + 50, Y: w.centre().Y}}
	teeth := body.Region()
	outline(f, face, teeth.Loops()...)
	chain(f, face, plane.Vec{}, p.ReferenceDiameter)
	cross(f, face, w, plane.Vec{}, p.TipDiameter/2+5/s)
	screwCentres(f, face, holePlaces(d.Pinion.Holes))
	hole := 0.0
	if b := d.Pinion.Bore; b != nil {
		hole = b.HoleDiameter()
		f.Add(label(face, plane.Vec{}, hole/2, -0.85, 0.62*p.TipDiameter*s, fmt.Sprintf("Ø %.4g %s", hole, boreWords(b.Shape, b.AcrossFlat+b.Clearance))))
	}
	pitch := 2 * math.Pi / float64(p.Teeth)
	f.Add(label(face, plane.Vec{}, p.TipDiameter/2, pitch*math.Round(2.75/pitch), 6, fmt.Sprintf("Ø %.3f", p.TipDiameter)))
	cut := view{scale: s, at: plane.Vec{X: w.min.X + 128, Y: w.centre().Y}}
	section{outer: p.TipDiameter, root: p.RootDiameter, reference: p.ReferenceDiameter, hole: hole, width: body.Height}.draw(f, cut)
	f.Add(figure.Text{At: plane.Vec{X: w.min.X, Y: w.max.Y - 4}, Size: 2.8, Text: "Pinion, " + scaleText(s)})
	return s
}

func boreWords(shape string, flat float64) string {
	if shape == "d" {
		return fmt.Sprintf("with flat, %.4g across", flat)
	}
	return ""
}

// ringViews draws the ring's face view, its teeth near the mesh, and the axial
// section.
func ringViews(f *figure.Figure, d *drive.Design, w window) float64 {
	r, body := d.Pair.Ring, d.Ring.Body
	s := scaleFor(d.Ring.Outer, w.size().Y-6)
	face := view{scale: s, at: plane.Vec{X: w.min.X + 50, Y: w.centre().Y}}
	for _, c := range body.Contours {
		if c.Name == "teeth" {
			few(f, face, c.Designed, visible)
			continue
		}
		outline(f, face, c.Designed)
	}
	f.Add(figure.Shape{Path: figure.Circle(face.at, r.TipDiameter/2*s), Style: visible})
	chain(f, face, plane.Vec{}, r.ReferenceDiameter)
	cross(f, face, w, plane.Vec{}, d.Ring.Outer/2+4/s)
	f.Add(label(face, plane.Vec{}, d.Ring.Outer/2, 2.3, 5, fmt.Sprintf("Ø %.4g", d.Ring.Outer)))
	if h := d.Ring.Holes; h != nil {
		chain(f, face, plane.Vec{}, h.Circle)
		f.Add(label(face, plane.Polar(h.Circle/2, h.Angle), h.Diameter/2, 0.75, 11, fmt.Sprintf("%d × Ø %.4g on Ø %.5g", h.Count, h.Diameter, h.Circle)))
	}
	cut := view{scale: s, at: plane.Vec{X: w.min.X + 128, Y: w.centre().Y}}
	section{outer: d.Ring.Outer, root: r.RootDiameter, reference: r.ReferenceDiameter, tip: r.TipDiameter, width: body.Height, internal: true}.draw(f, cut)
	f.Add(figure.Text{At: plane.Vec{X: w.min.X, Y: w.max.Y - 1}, Size: 2.8, Text: "Ring track, " + scaleText(s)})
	return s
}

// outline draws loops in full lines.
func outline(f *figure.Figure, v view, loops ...plane.Loop) {
	style := visible
	style.Width = 0.35
	f.Add(figure.Shape{Path: figure.Loops(v.similarity(), 0, loops...), Style: style})
}

// few draws the pitches of a toothed loop about +x.
func few(f *figure.Figure, v view, l plane.Loop, style figure.Style) {
	style.Width = 0.25
	const pitches = 4.0
	reach := pitches * math.Pi / float64(l.Turns())
	for _, run := range runs(l.Map(v.similarity())) {
		mid := run[len(run)/2].P.Sub(v.at)
		if math.Abs(mid.Angle()) < reach {
			f.Add(figure.Shape{Path: run, Style: style})
		}
	}
}

// chain draws a circle that is imagined.
func chain(f *figure.Figure, v view, c plane.Vec, diameter float64) {
	s := figure.Look(figure.CentreLine)
	s.Dash = []float64{6, 1, 0.6, 1}
	f.Add(figure.Shape{Path: figure.Circle(v.point(c), diameter/2*v.scale), Style: s})
}

func screwCentres(f *figure.Figure, v view, places []plane.Vec) {
	for _, p := range places {
		cross(f, v, window{plane.Vec{}, plane.Vec{X: paperWidth, Y: paperHeight}}, p, 3/v.scale)
	}
}

// label is a leader to a circle of the design, its knee out mm of paper away.
func label(v view, c plane.Vec, r, angle, out float64, words string) figure.Leader {
	l := figure.Radial(v.point(c), r*v.scale, angle, out, words)
	l.Size = 2.2
	return l
}

// section is an axial section: teeth are shown whole, material hatched.
type section struct {
	outer, root, reference, tip, hole, width float64
	internal                                 bool
}

func (s section) draw(f *figure.Figure, v view) {
	k := v.scale
	half := math.Max(s.width*k, 3) / 2
	level := func(r, dx float64) plane.Vec { return v.at.Add(plane.Vec{X: dx, Y: r * k / 2}) }
	inner, metalOut := s.hole, s.root
	if s.internal {
		inner, metalOut = s.root, s.outer
	}
	for _, side := range []float64{1, -1} {
		metal := figure.Rectangle(level(side*inner, -half), level(side*metalOut, half))
		f.Add(figure.Hatch{Path: metal, Angle: math.Pi / 4, Spacing: 1.6})
		far, near := s.outer, s.hole
		if s.internal {
			far, near = s.outer, s.tip
		}
		f.Add(figure.Shape{Path: figure.Rectangle(level(side*near, -half), level(side*far, half)), Style: visible})
		f.Add(figure.Shape{Path: figure.Lines(level(side*s.root, -half), level(side*s.root, half)), Style: visible})
		centre := figure.Look(figure.CentreLine)
		f.Add(figure.Shape{Path: figure.Lines(level(side*s.reference, -half-3), level(side*s.reference, half+3)), Style: centre})
	}
	if s.internal { // the edges of the opening behind the section
		for _, dx := range []float64{-half, half} {
			f.Add(figure.Shape{Path: figure.Lines(level(s.tip, dx), level(-s.tip, dx)), Style: thinner})
		}
	}
	f.Add(figure.Shape{Path: figure.Lines(level(0, -half-5), level(0, half+5)), Style: figure.Look(figure.CentreLine)})
	f.Add(figure.Linear{From: level(-s.outer, -half), To: level(-s.outer, half), Offset: -5, Text: fmt.Sprintf("%.4g", s.width), Size: 2.2})
	f.Add(figure.Linear{From: level(-s.reference, half), To: level(s.reference, half), Offset: -12, Text: fmt.Sprintf("Ø %.3f", s.reference), Size: 2.2})
}
