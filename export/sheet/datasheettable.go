package sheet

import (
	"fmt"
	"math"

	"ringtrack/export/figure"
	"ringtrack/gear"
	"ringtrack/gear/drive"
	"ringtrack/gear/plane"
)

// dataRow is a line of the gear table; a heading has a name alone.
type dataRow struct{ name, pinion, ring string }

// gearTable draws the table at the right.
func gearTable(f *figure.Figure, d *drive.Design) {
	const (
		left, right = titleLeft, paperWidth - sheetFrame
		first, next = left + 60.0, left + 60.0 + 26.5
		top         = paperHeight - sheetFrame
	)
	rows := append(gearRows(d), measureRows(d)...)
	height := math.Min(5, (top-sheetFrame-titleHeight-1)/float64(len(rows)))
	line := func(a, b plane.Vec, w float64) {
		f.Add(figure.Shape{Path: figure.Lines(a, b), Style: figure.Style{Stroke: visible.Stroke, Width: w}})
	}
	y := top
	for _, r := range rows {
		heading := r.pinion == "" && r.ring == ""
		size := 2.0
		if heading {
			f.Add(figure.Shape{Path: figure.Rectangle(plane.Vec{X: left, Y: y - height}, plane.Vec{X: right, Y: y}), Style: figure.Style{Fill: figure.Colour{R: 0xe8, G: 0xe8, B: 0xe8, A: 255}}})
		}
		base := y - height/2
		f.Add(figure.Text{At: plane.Vec{X: left + 1.5, Y: base}, Size: size, Up: figure.Middle, Text: r.name})
		if r.pinion != "" && r.ring == "" { // one value for both
			f.Add(figure.Text{At: plane.Vec{X: (first + right) / 2, Y: base}, Size: size, Along: figure.Middle, Up: figure.Middle, Text: r.pinion})
		} else {
			f.Add(figure.Text{At: plane.Vec{X: (first + next) / 2, Y: base}, Size: size, Along: figure.Middle, Up: figure.Middle, Text: r.pinion},
				figure.Text{At: plane.Vec{X: (next + right) / 2, Y: base}, Size: size, Along: figure.Middle, Up: figure.Middle, Text: r.ring})
			if !heading {
				line(plane.Vec{X: next, Y: y}, plane.Vec{X: next, Y: y - height}, 0.13)
			}
		}
		if !heading {
			line(plane.Vec{X: first, Y: y}, plane.Vec{X: first, Y: y - height}, 0.13)
		}
		y -= height
		line(plane.Vec{X: left, Y: y}, plane.Vec{X: right, Y: y}, 0.13)
	}
	line(plane.Vec{X: left, Y: top}, plane.Vec{X: left, Y: y}, 0.5)
	line(plane.Vec{X: left, Y: y}, plane.Vec{X: right, Y: y}, 0.35)
}

// gearRows are the data of the teeth as designed.
func gearRows(d *drive.Design) []dataRow {
	p := d.Pair
	a, b := p.Pinion.Member, p.Ring.Member
	mm := func(name string, of func(gear.Member) float64) dataRow {
		return dataRow{name, fmt.Sprintf("%.3f", of(a)), fmt.Sprintf("%.3f", of(b))}
	}
	rack := func(m gear.Member) string {
		return fmt.Sprintf("%.3g / %.3g / %.3g", m.Rack.Addendum, m.Rack.Dedendum, m.Rack.RootRadius)
	}
	return []dataRow{
		{name: "Teeth as designed, mm"},
		{"", "pinion", "ring track"},
		{"form of teeth", "external spur", "internal spur"},
		{"number of teeth  z", fmt.Sprint(a.Teeth), fmt.Sprint(b.Teeth)},
		{"module  m", fmt.Sprintf("%.5g", a.Module), ""},
		{"pressure angle  α", fmt.Sprintf("%.5g°", deg(a.PressureAngle)), ""},
		{"rack: addendum / dedendum / radius, × m", rack(a), rack(b)},
		{"profile shift coefficient  x", fmt.Sprintf("%+.3f", a.Shift), fmt.Sprintf("%+.3f", b.Shift)},
		mm("reference diameter  d", func(m gear.Member) float64 { return m.ReferenceDiameter }),
		mm("base diameter  db", func(m gear.Member) float64 { return m.BaseDiameter }),
		mm("tip diameter  da", func(m gear.Member) float64 { return m.TipDiameter }),
		mm("root diameter  df", func(m gear.Member) float64 { return m.RootDiameter }),
		mm("form diameter  dF", func(m gear.Member) float64 { return m.FormDiameter }),
		mm("tooth depth  h", func(m gear.Member) float64 { return math.Abs(m.TipDiameter-m.RootDiameter) / 2 }),
		mm("tooth thickness on d  s", func(m gear.Member) float64 { return m.ToothThickness }),
		mm("of which thinned for backlash", func(m gear.Member) float64 { return m.Thinning }),
		{"face width  b", fmt.Sprintf("%.4g", d.Pinion.Body.Height), fmt.Sprintf("%.4g", d.Ring.Body.Height)},
		{"material", orDash(d.Job.Pinion.Material), orDash(d.Job.Ring.Material)},
		{"made", d.Job.Pinion.Making.Kind, d.Job.Ring.Making.Kind},
		{name: "Mesh"},
		{"centre distance  a", distanceWords(d), ""},
		{"working pressure angle  αw", fmt.Sprintf("%.4g°", deg(p.WorkingPressureAngle)), ""},
		{"circumferential backlash at a  jwt", fmt.Sprintf("%.3f", p.Backlash.Circumferential), ""},
		{"contact ratio  εα", fmt.Sprintf("%.3f", p.ContactRatio), ""},
		{"tip clearance  c", fmt.Sprintf("%.3f", p.TipClearancePinion), fmt.Sprintf("%.3f", p.TipClearanceRing)},
	}
}

// distanceWords states the centre distance with its spread, if it has one.
func distanceWords(d *drive.Design) string {
	if d.Pair.Wish.Spread == 0 {
		return fmt.Sprintf("%.3f", d.Pair.CentreDistance)
	}
	return fmt.Sprintf("%.3f ± %.3g", d.Pair.CentreDistance, d.Pair.Wish.Spread)
}

func orDash(s string) string {
	if s == "" {
		return "not given"
	}
	return s
}

// measureRows are what calipers and pins read.
func measureRows(d *drive.Design) []dataRow {
	p := d.Pair
	out := []dataRow{{name: "To measure, mm: finished part  (in the drawing file)"}}
	value := func(designed, drawn float64, made bool) string {
		if math.IsNaN(drawn) || !made {
			return fmt.Sprintf("%.3f", designed)
		}
		return fmt.Sprintf("%.3f (%.3f)", designed, drawn)
	}
	if p.Pinion.SpanTeeth > 0 {
		out = append(out, dataRow{fmt.Sprintf("span over %d teeth  W", p.Pinion.SpanTeeth),
			value(p.Pinion.Finished().Span, d.Pinion.Gauge.Span, d.Pinion.Drawn), "–"})
	}
	pins := dataRow{"pins: diameter", "–", "–"}
	over := dataRow{"over pins  M, between pins", "–", "–"}
	wall := dataRow{"wall: rim to pin in a space", "–", "–"}
	if q := p.Pinion.Pins; q != nil {
		pins.pinion = fmt.Sprintf("%.4g", q.Diameter)
		over.pinion = value(p.Pinion.Finished().Pins, d.Pinion.Gauge.Pins, d.Pinion.Drawn)
	}
	if q := p.Ring.Pins; q != nil {
		pins.ring = fmt.Sprintf("%.4g", q.Diameter)
		over.ring = value(p.Ring.Finished().Pins, d.Ring.Gauge.Pins, d.Ring.Drawn)
		wall.ring = fmt.Sprintf("%.3f", d.Ring.Outer/2-q.Centre+q.Diameter/2)
	}
	return append(out, pins, over, wall,
		dataRow{"wall: rim to tooth tip", "–", fmt.Sprintf("%.3f", (d.Ring.Outer-p.Ring.TipDiameter)/2)},
		dataRow{"tip diameter in the drawing file", drawnValue(d.Pinion.Gauge.TipDiameter, d.Pinion.Drawn), drawnValue(d.Ring.Gauge.TipDiameter, d.Ring.Drawn)})
}

func drawnValue(v float64, made bool) string {
	if !made || math.IsNaN(v) {
		return "–"
	}
	return fmt.Sprintf("%.3f", v)
}
