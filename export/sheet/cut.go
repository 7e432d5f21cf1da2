package sheet

import (
	"fmt"
	"math"
	"sort"

	"ringtrack/export/figure"
	"ringtrack/gear/plane"
)

// CutPart is a part to be cut out of sheet material, at its own place.
type CutPart struct {
	Name    string
	Region  plane.Region // as drawn: kerf in it
	Kerf    float64      // mm in total that is in it, 0 for none
	Engrave []plane.Loop // marks on the surface
	Copies  int          // 0 is 1
	Tabs    Tabs
}

// Tabs are bridges left in a part's outside, so that it stays in the sheet. The
// zero value is none. They stand on straight or round stretches, on a toothed
// outside on the tips of teeth; never on flanks and never in holes.
type Tabs struct {
	Count int     // 1..64
	Width float64 // mm, 0.1..10; 0.3 to 0.8 is common practice
}

// Cut returns one part at its own place as a cut file: engraved marks first,
// then the outlines from the smallest to the largest, so that everything inside
// another is cut while it is still held.
//
// Errors: a kerf or a number of copies below 0, tabs out of range; *FitError for
// tabs without a place.
func Cut(p CutPart) (figure.Drawing, error) {
	d, err := p.at(plane.Same())
	if err != nil {
		return figure.Drawing{}, err
	}
	inOrder(d.Outlines)
	d.Notes = cutNotes([]CutPart{p})
	return d, nil
}

// at returns the part's outlines in a place.
func (p CutPart) at(m plane.Similarity) (figure.Drawing, error) {
	tabs := p.Tabs
	if err := p.check(); err != nil {
		return figure.Drawing{}, fmt.Errorf("sheet: cut: %s: %w", p.Name, err)
	}
	var d figure.Drawing
	for _, l := range p.Engrave {
		d.Outlines = append(d.Outlines, figure.Outline{Layer: figure.Engrave, Loop: l.Map(m)})
	}
	d.Outlines = append(d.Outlines, figure.Part(p.Region.Map(m)).Outlines...)
	if tabs.Count > 0 {
		outside := &d.Outlines[len(d.Outlines)-1]
		bridges, err := bridgesOn(p.Name, outside.Loop, tabs)
		if err != nil {
			return d, fmt.Errorf("sheet: cut: %s: %w", p.Name, err)
		}
		outside.Bridges = bridges
	}
	return d, nil
}

func (p CutPart) check() error {
	tabs := p.Tabs
	switch {
	case !(p.Kerf >= 0) || math.IsInf(p.Kerf, 0):
		return fmt.Errorf("a kerf of %g mm", p.Kerf)
	case p.Copies < 0:
		return fmt.Errorf("%d copies", p.Copies)
	case len(p.Region.Outer.Unit) == 0:
		return fmt.Errorf("it has no outside")
	case tabs.Count < 0 || tabs.Count > 64:
		return fmt.Errorf("%d bridges; 0 to 64 are left", tabs.Count)
	case tabs.Count > 0 && !(tabs.Width >= 0.1 && tabs.Width <= 10):
		return fmt.Errorf("bridges of %g mm; 0.1 to 10 are left", tabs.Width)
	}
	return nil
}

// inOrder sorts outlines into the order of cuts.
func inOrder(list []figure.Outline) {
	rank := func(o figure.Outline) float64 {
		if o.Layer == figure.Engrave {
			return -1
		}
		return math.Abs(o.Loop.Area())
	}
	keys := make(map[int]float64, len(list))
	order := make([]int, len(list))
	for i, o := range list {
		order[i], keys[i] = i, rank(o)
	}
	sort.SliceStable(order, func(a, b int) bool { return keys[order[a]] < keys[order[b]] })
	sorted := make([]figure.Outline, len(list))
	for i, k := range order {
		sorted[i] = list[k]
	}
	copy(list, sorted)
}

// cutNotes are written into the file.
func cutNotes(parts []CutPart) []string {
	var out []string
	for _, p := range parts {
		s := fmt.Sprintf("%s: no kerf is in these outlines", p.Name)
		if p.Kerf > 0 {
			s = fmt.Sprintf("%s: a kerf of %.4g mm is already in these outlines, outside on outsides and inside on holes; cut along the lines without any further compensation", p.Name, p.Kerf)
		}
		out = append(out, s)
	}
	out = append(out, "Cut in the order of the file: marks first, then from the smallest outline to the largest, so that what lies inside another is cut before it. Do not let the machine sort by layers.",
		"A cut is not quite square to the sheet: turn one member of a meshing pair over, so that the two tapers meet.")
	for _, p := range parts {
		if p.Tabs.Count > 0 {
			out = append(out, fmt.Sprintf("%s: %d bridges of %.4g mm are left in its outside: break them and file them flush.", p.Name, p.Tabs.Count, p.Tabs.Width))
		}
	}
	return out
}
