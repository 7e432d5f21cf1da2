package sheet

import (
	"fmt"
	"math"

	"ringtrack/export/figure"
	"ringtrack/gear/plane"
)

// Template is what is marked out at true size: on wood before it is drilled, on
// paper to lay a part on. Places are mm, y upward, in the drawing's own frame.
type Template struct {
	Title    string
	Outlines []plane.Loop     // thin lines to lay parts on
	Circles  []TemplateCircle // chain lines, named
	Holes    []TemplateHole
	Axes     []TemplateAxis
	Centres  []TemplateCentres
	Notes    []string // printed below the drawing's name on every page's strip
}

// TemplateCircle is a circle that is imagined, such as that of the screws.
type TemplateCircle struct {
	Centre   plane.Vec
	Diameter float64 // mm
	Text     string
	Angle    float64 // radians, where its words stand
}

// TemplateHole is a hole to be drilled.
type TemplateHole struct {
	At       plane.Vec
	Diameter float64 // mm, of the drill
	Text     string  // empty: the diameter
}

// TemplateAxis is a place about which something turns.
type TemplateAxis struct {
	At       plane.Vec
	Diameter float64 // mm of its bore or shaft, 0 for none
	Text     string
}

// TemplateCentres is a line of centres with its distance.
type TemplateCentres struct {
	From, To plane.Vec
	Text     string
}

// TemplateOptions of Templates.
type TemplateOptions struct {
	Paper Paper
	// ScaleX and ScaleY are what an earlier print of a page measured over what it
	// should have measured, across and up the page as it lies; 0 is 1. 0.9..1.1.
	ScaleX, ScaleY float64
}

func (o TemplateOptions) filled() (TemplateOptions, error) {
	for _, v := range []*float64{&o.ScaleX, &o.ScaleY} {
		if *v == 0 {
			*v = 1
		}
		if !(*v >= 0.9 && *v <= 1.1) {
			return o, fmt.Errorf("a scale of %g (measured over true); 0.9 to 1.1 can be corrected", *v)
		}
	}
	return o, nil
}

// Templates lays the template out on pages of the paper, at true size when they
// are printed at 100 %. A drawing larger than the paper is divided into tiles;
// the way round of the paper that needs fewer pages is taken. Every page has
// marks of 100 mm and 4 in in both directions, the pages of a drawing in tiles
// also a map, lines to cut along and register marks that lie on both
// neighbours.
//
// Errors: a paper too small for the marks; *FitError for a drawing that needs
// more than mostTiles pages; one that is empty, a scale out of range, a number that is not finite.
func Templates(t Template, opt TemplateOptions) ([]figure.Figure, error) {
	opt, err := opt.filled()
	if err != nil {
		return nil, fmt.Errorf("sheet: template: %w", err)
	}
	drawing := figure.Figure{Width: 2000, Height: 2000}
	t.draw(&drawing)
	marks, err := drawing.Marks()
	if err != nil {
		return nil, fmt.Errorf("sheet: template: %w", err)
	}
	box := figure.Extent(marks)
	if len(marks) == 0 || !(box.Size().Len() > 0) {
		return nil, fmt.Errorf("sheet: template: nothing to draw")
	}
	grid, err := tile(box, opt.Paper, t.weights())
	if err != nil {
		return nil, fmt.Errorf("sheet: template: %w", err)
	}
	var pages []figure.Figure
	for i := range grid.rows * grid.columns {
		f := grid.page(t, marks, i)
		if opt.ScaleX != 1 || opt.ScaleY != 1 {
			if f, err = f.Stretched(1/opt.ScaleX, 1/opt.ScaleY); err != nil {
				return nil, fmt.Errorf("sheet: template: %w", err)
			}
		}
		pages = append(pages, f)
	}
	return pages, nil
}

// weights returns the places that should not lie on a seam: an axis counts as
// ten holes.
func (t Template) weights() map[plane.Vec]float64 {
	out := map[plane.Vec]float64{}
	for _, h := range t.Holes {
		out[h.At]++
	}
	for _, a := range t.Axes {
		out[a.At] += 10
	}
	return out
}

// mostTiles is the largest number of pages: 40 sheets are more than anyone
// joins true.
const mostTiles = 40

// draw puts the template into a figure, in its own frame.
func (t Template) draw(f *figure.Figure) {
	thin := figure.Style{Stroke: figure.Look(figure.Plate).Stroke, Width: 0.13}
	for _, l := range t.Outlines {
		for _, p := range runs(l) {
			f.Add(figure.Shape{Path: p, Style: thin})
		}
	}
	for _, c := range t.Circles {
		f.Add(figure.Shape{Path: figure.Circle(c.Centre, c.Diameter/2), Style: figure.Look(figure.ReferenceCircle)})
		f.Add(figure.Radial(c.Centre, c.Diameter/2, c.Angle, 14, c.Text))
	}
	for _, c := range t.Centres {
		f.Add(figure.Shape{Path: figure.Lines(c.From, c.To), Style: figure.Look(figure.CentreLine)})
		f.Add(figure.Linear{From: c.From, To: c.To, Offset: -14, Text: c.Text, Size: 3})
	}
	for _, a := range t.Axes {
		t.axis(f, a)
	}
	for _, h := range t.Holes {
		t.hole(f, h)
	}
}

// runs returns a loop pitch by pitch as open paths, in arcs that leave it by
// less than a printer shows; chords where there are no arcs.
func runs(l plane.Loop) []figure.Path {
	if fit, err := l.Arcs(figure.PaperChord / 2); err == nil {
		l = fit.Loop
	}
	var out []figure.Path
	unit := max(len(l.Unit), 1)
	var p figure.Path
	i := 0
	for q := range figure.Chords(l, figure.PaperChord/2).All() {
		if i%unit == 0 {
			if len(p) > 0 {
				out = append(out, p)
			}
			p = nil
			p.Move(q.At(0))
		}
		if a, ok := q.(plane.Arc); ok {
			p.Arc(a.C, a.Sweep)
		} else {
			p.Line(q.At(1))
		}
		i++
	}
	return append(out, p)
}

// axis draws a cross with a ring about it and, if it has one, its bore.
func (t Template) axis(f *figure.Figure, a TemplateAxis) {
	s := figure.Style{Stroke: figure.Colour{A: 255}, Width: 0.15}
	reach := math.Max(a.Diameter/2, 3) + 5
	crosshair(f, a.At, reach, s)
	if a.Diameter > 0 {
		f.Add(figure.Shape{Path: figure.Circle(a.At, a.Diameter/2), Style: s})
	}
	f.Add(figure.Leader{At: a.At.Add(plane.Polar(math.Max(a.Diameter/2, 1), math.Pi/3)), Knee: a.At.Add(plane.Vec{X: 0.7 * reach, Y: 1.2 * reach}), Text: a.Text, Size: 3})
}

// hole draws the drill's circle and a cross whose middle is open for the punch.
func (t Template) hole(f *figure.Figure, h TemplateHole) {
	s := figure.Style{Stroke: figure.Colour{A: 255}, Width: 0.15}
	f.Add(figure.Shape{Path: figure.Circle(h.At, h.Diameter/2), Style: s})
	crosshair(f, h.At, h.Diameter/2+2.5, s)
	words := h.Text
	if words == "" {
		words = fmt.Sprintf("Ø %.4g", h.Diameter)
	}
	f.Add(figure.Text{At: h.At.Add(plane.Vec{X: h.Diameter/2 + 1.2, Y: 1.2}), Size: 2.2, Text: words, Halo: 0.4})
}

// crosshair draws a cross without its very middle and a dot there.
func crosshair(f *figure.Figure, c plane.Vec, reach float64, s figure.Style) {
	const open = 0.4
	for i := range 4 {
		d := plane.Polar(1, float64(i)*math.Pi/2)
		f.Add(figure.Shape{Path: figure.Lines(c.Add(d.Mul(open)), c.Add(d.Mul(reach))), Style: s})
	}
	f.Add(figure.Shape{Path: figure.Circle(c, 0.1), Style: figure.Style{Fill: s.Stroke}})
}
