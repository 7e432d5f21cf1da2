package sheet

import (
	"fmt"
	"math"
	"strings"

	"ringtrack/export/figure"
	"ringtrack/gear/plane"
)

// PrintWords stand on every page that must be true to size.
const PrintWords = "print at 100 %, not fit to page"

// checkMark is a length to be measured on the print.
type checkMark struct {
	length float64 // mm
	parts  int
	text   string
}

var checkMarks = [2]checkMark{{100, 10, "100 mm"}, {4 * inch, 4, "4 in"}}

// strip draws what stands beside and below the window: marks in both
// directions, words and the map.
func (g tiles) strip(f *figure.Figure, t Template, row, column int) {
	left := pageEdge + sideStrip
	for i, m := range checkMarks {
		m.draw(f, plane.Vec{X: left, Y: pageEdge + bottomStrip - 7.5 - 8.5*float64(i)}, 0)
		m.draw(f, plane.Vec{X: pageEdge + 4 + 7*float64(i), Y: pageEdge + bottomStrip + 2}, math.Pi/2)
	}
	pages := ""
	if g.rows*g.columns > 1 {
		pages = fmt.Sprintf("  page %s, %d of %d.", tileName(row, column), row*g.columns+column+1, g.rows*g.columns)
	}
	f.Add(figure.Text{At: plane.Vec{X: left, Y: pageEdge + 8.8}, Size: 2.8, Text: PrintWords + ". Measure the marks both ways before you drill."})
	f.Add(figure.Text{At: plane.Vec{X: left, Y: pageEdge + 4.6}, Size: 2.1, Text: t.Title + "." + pages})
	f.Add(figure.Text{At: plane.Vec{X: left, Y: pageEdge + 0.8}, Size: 2.1, Text: g.how(t)})
	g.pageMap(f, t, row, column)
}

// how says how pages become one drawing, and the template's own notes.
func (g tiles) how(t Template) string {
	var s []string
	if g.rows*g.columns > 1 {
		s = append(s, "Cut one neighbour along the dashes, lay its register marks on the other's.")
	}
	return strings.Join(append(s, t.Notes...), "  ")
}

// draw draws the mark from a place on: a line with a bar at both ends, whose
// middles are the length apart.
func (m checkMark) draw(f *figure.Figure, at plane.Vec, angle float64) {
	x := plane.Polar(1, angle)
	y := plane.Polar(1, angle+math.Pi/2)
	place := func(along, up float64) plane.Vec { return at.Add(x.Mul(along)).Add(y.Mul(up)) }
	f.Add(figure.Shape{Path: figure.Lines(place(0, 0), place(m.length, 0)), Style: fine})
	for i := 0; i <= m.parts; i++ {
		reach := 0.9
		if i == 0 || i == m.parts {
			reach = 2.2
		}
		along := m.length * float64(i) / float64(m.parts)
		f.Add(figure.Shape{Path: figure.Lines(place(along, -reach), place(along, reach)), Style: fine})
	}
	f.Add(figure.Text{At: place(m.length/2, 1.3), Size: 2.2, Angle: angle, Along: figure.Middle, Text: m.text, Halo: 0.4})
}

// pageMap draws the tiles small, the page at hand dark, with the outlines.
func (g tiles) pageMap(f *figure.Figure, t Template, row, column int) {
	if g.rows*g.columns == 1 {
		return
	}
	step := g.step()
	whole := plane.Vec{X: float64(g.columns)*step.X + overlap, Y: float64(g.rows)*step.Y + overlap}
	k := math.Min(34/whole.X, (bottomStrip-12)/whole.Y)
	at := plane.Vec{X: g.paper.Width - pageEdge - whole.X*k, Y: pageEdge + bottomStrip - 2 - whole.Y*k}
	first := g.corner(g.rows-1, 0)
	place := func(p plane.Vec) plane.Vec { return at.Add(p.Sub(first).Mul(k)) }
	cell := func(r, c int) (plane.Vec, plane.Vec) {
		a := g.corner(r, c)
		return place(a), place(a.Add(step).Add(plane.Vec{X: overlap, Y: overlap}))
	}
	a, b := cell(row, column)
	f.Add(figure.Shape{Path: figure.Rectangle(a, b), Style: figure.Style{Fill: figure.Colour{R: 0xd4, G: 0xd4, B: 0xd4, A: 255}}})
	m := plane.Moved(first.Mul(-1)).Then(plane.Scaled(k)).Then(plane.Moved(at))
	f.Add(figure.Shape{Path: figure.Loops(m, 0.05, t.Outlines...), Style: figure.Style{Stroke: faint.Stroke, Width: 0.08}})
	for r := range g.rows {
		for c := range g.columns {
			a, b := cell(r, c)
			f.Add(figure.Shape{Path: figure.Rectangle(a, b), Style: faint})
			f.Add(figure.Text{At: a.Add(b).Mul(0.5), Size: 1.8, Along: figure.Middle, Up: figure.Middle, Text: tileName(r, c), Halo: 0.3})
		}
	}
}
