package sheet

import (
	"fmt"
	"math"
	"strings"

	"ringtrack/export/figure"
	"ringtrack/gear/drive"
	"ringtrack/gear/find"
	"ringtrack/gear/part"
	"ringtrack/gear/plane"
)

// sheetNotes writes how to measure, what was found and the cautions, as many
// lines as there is room for: findings give way before cautions do.
func sheetNotes(f *figure.Figure, d *drive.Design) {
	const left, right, size, step = sheetFrame + 3, viewsRight, 1.8, 3.05
	f.Add(figure.Shape{Path: figure.Lines(plane.Vec{X: sheetFrame, Y: notesTop}, plane.Vec{X: titleLeft, Y: notesTop}), Style: figure.Style{Stroke: visible.Stroke, Width: 0.25}})
	measuring := []string{
		"Measure span and pins with the caliper's jaws along the axis, at three places round the part; the pins are drill shanks. The ring is measured at its wall: from the rim to a pin laid in a space and to a tooth's tip.",
		"Content of the table after ISO 1340, views after ISO 2203 (both from memory). No accuracy grade is claimed: printed and cut teeth are outside the grades.",
	}
	var cautions []string
	for _, c := range drive.Cautions() {
		cautions = append(cautions, "Caution: "+c)
	}
	fixed := wrapped(append(measuring, cautions...), right-left, size)
	room := int(math.Floor((notesTop-sheetFrame-3)/step)) - len(fixed)
	lines := append([]string{}, wrapped(measuring, right-left, size)...)
	lines = append(lines, wrapped(findings(d, room), right-left, size)...)
	lines = append(lines, wrapped(cautions, right-left, size)...)
	for i, l := range lines {
		f.Add(figure.Text{At: plane.Vec{X: left, Y: notesTop - 4 - step*float64(i)}, Size: size, Text: l})
	}
}

// findings are those of the design that are more than notes, as many as fit
// into that many lines; where some do not, a line says so.
func findings(d *drive.Design, room int) []string {
	var all []string
	for _, x := range d.Findings {
		if x.Level != find.Note {
			all = append(all, fmt.Sprintf("Found, %s: %s.", x.Code, strings.TrimSuffix(x.Text, ".")))
		}
	}
	for n := len(all); n > 0; n-- {
		list := all[:n:n]
		if n < len(all) {
			list = append(list, fmt.Sprintf("and %d more findings: see the report.", len(all)-n))
		}
		if len(wrapped(list, viewsRight-sheetFrame-3, 1.8)) <= room {
			return list
		}
	}
	if len(all) > 0 && room > 0 {
		return []string{fmt.Sprintf("%d findings: see the report.", len(all))}
	}
	return nil
}

// wrapped breaks texts into lines no longer than width mm at that size of
// capitals; the lines after a text's first begin with a blank space.
func wrapped(texts []string, width, size float64) []string {
	var out []string
	blank, err := figure.TextWidth(" ", size)
	if err != nil {
		return texts
	}
	for _, t := range texts {
		line, long := "", 0.0
		for _, word := range strings.Fields(t) {
			w, err := figure.TextWidth(word, size)
			switch {
			case line == "":
				line, long = word, w
			case err != nil || long+blank+w > width-2:
				out = append(out, line)
				line, long = word, w
			default:
				line, long = line+" "+word, long+blank+w
			}
		}
		out = append(out, line)
	}
	return out
}

// titleBlock draws the block at the lower right.
func titleBlock(f *figure.Figure, d *drive.Design, pinion, ring float64) {
	const left, right, low = titleLeft, paperWidth - sheetFrame, sheetFrame
	high := low + titleHeight
	line := func(x0, y0, x1, y1, w float64) {
		f.Add(figure.Shape{Path: figure.Lines(plane.Vec{X: x0, Y: y0}, plane.Vec{X: x1, Y: y1}), Style: figure.Style{Stroke: visible.Stroke, Width: w}})
	}
	cell := func(x, y float64, name, value string, size float64) {
		f.Add(figure.Text{At: plane.Vec{X: x + 1.5, Y: y - 2.9}, Size: 1.5, Text: name, Colour: figure.Colour{R: 0x50, G: 0x50, B: 0x50, A: 255}},
			figure.Text{At: plane.Vec{X: x + 1.5, Y: y - 3.9 - size}, Size: size, Text: value})
	}
	mid := low + titleHeight/2
	third := left + (right-left)/3
	line(left, high, right, high, 0.5)
	line(left, low, left, notesTop, 0.5)
	line(left, mid, right, mid, 0.25)
	cell(left, high, "part", shortened(d.Job.Title, right-left-4, 3.2), 3.2)
	cell(left, mid, "sheet", "Gear data", 2.6)
	line(third, low, third, mid, 0.25)
	cell(third, mid, "scale, pinion and ring", scaleText(pinion)+",  "+scaleText(ring), 2.2)
	last := third + (right-left)/3
	line(last, low, last, mid, 0.25)
	cell(last, mid, "lengths in mm; checks say", d.Verdict(), 2.6)
}

// shortened returns the text, or as much of it as fits.
func shortened(s string, width, size float64) string {
	r := []rune(s)
	for n := len(r); n > 1; n-- {
		t := string(r[:n])
		if n < len(r) {
			t += " .."
		}
		if w, err := figure.TextWidth(t, size); err == nil && w <= width {
			return t
		}
	}
	return s
}

// holePlaces returns the middles of a circle of holes about the origin.
func holePlaces(h *part.Holes) []plane.Vec {
	if h == nil {
		return nil
	}
	out := make([]plane.Vec, h.Count)
	for i := range out {
		out[i] = plane.Polar(h.Circle/2, h.Angle+2*math.Pi*float64(i)/float64(h.Count))
	}
	return out
}
