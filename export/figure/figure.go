package figure

import (
	"fmt"

	"ringtrack/export/number"
)

// Figure is a picture on a sheet of paper.
type Figure struct {
	Width, Height float64 // mm, 10..2000
	Title         string
	Items         []Item // later ones lie over earlier ones
}

// Item is something in a figure: Shape, Text, Linear, Leader, Hatch or Legend.
type Item interface {
	marks() ([]Mark, error)
}

// Mark is what a renderer draws: a path and its style. Renderers need nothing
// else.
type Mark struct {
	Path  Path
	Style Style
	Label string // the words, when the path is a line of text
}

// Shape is a path in a style.
type Shape struct {
	Path  Path
	Style Style
}

func (s Shape) marks() ([]Mark, error) { return []Mark{{Path: s.Path, Style: s.Style}}, nil }

// Add appends items.
func (f *Figure) Add(items ...Item) { f.Items = append(f.Items, items...) }

// far is how many papers away from its edge something may lie.
const far = 10

// Marks returns what is to be drawn, in order.
//
// Errors: a paper size out of range, an item with a number that is not finite
// or that lies ten papers away, both with the item's place in the list.
func (f Figure) Marks() ([]Mark, error) {
	for _, v := range [...]float64{f.Width, f.Height} {
		if !(v >= 10 && v <= 2000) {
			return nil, fmt.Errorf("figure: a side of %g mm; 10 to 2000 is allowed", v)
		}
	}
	var out []Mark
	for i, it := range f.Items {
		marks, err := it.marks()
		if err != nil {
			return nil, fmt.Errorf("figure: item %d (%T): %w", i, it, err)
		}
		for _, m := range marks {
			if err := f.check(m); err != nil {
				return nil, fmt.Errorf("figure: item %d (%T): %w", i, it, err)
			}
		}
		out = append(out, marks...)
	}
	return out, nil
}

func (f Figure) check(m Mark) error {
	limit := far * max(f.Width, f.Height)
	within := func(v float64) bool { return v >= -limit && v <= limit }
	for _, s := range m.Path {
		ok := within(s.P.X) && within(s.P.Y) && number.Finite(s.C.X, s.C.Y, s.Sweep)
		if ok && s.Op == ArcTo { // a flat arc's centre may be far away, what is drawn may not
			ok = s.Sweep >= -7 && s.Sweep <= 7 && (within(s.C.X) && within(s.C.Y) || s.Sweep > -3 && s.Sweep < 3)
		}
		if !ok {
			return fmt.Errorf("a point (%g, %g) is not on the paper or near it", s.P.X, s.P.Y)
		}
	}
	if !(m.Style.Width >= 0 && m.Style.Width <= limit) {
		return fmt.Errorf("a line %g mm wide", m.Style.Width)
	}
	sum := 0.0
	for _, d := range m.Style.Dash {
		if !(d >= 0 && d <= limit) {
			return fmt.Errorf("a dash of %g mm", d)
		}
		sum += d
	}
	if len(m.Style.Dash) > 0 && sum < 0.1 {
		return fmt.Errorf("dashes that repeat after %g mm; at least 0.1", sum)
	}
	return nil
}
