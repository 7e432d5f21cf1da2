package figure

import (
	"fmt"
	"math"
	"sort"

	"ringtrack/gear/plane"
)

// Hatch fills closed runs with parallel lines; where runs overlap, every
// second area stays free.
type Hatch struct {
	Path    Path
	Angle   float64
	Spacing float64 // mm, 0.1 or more; 0 is 2
	Style   Style   // the zero style is Look(Hatching)
}

func (h Hatch) marks() ([]Mark, error) {
	if h.Spacing == 0 {
		h.Spacing = 2
	}
	if !(h.Spacing >= 0.1) {
		return nil, fmt.Errorf("hatching every %g mm; at least 0.1", h.Spacing)
	}
	if h.Style.Stroke.A == 0 {
		h.Style = Look(Hatching)
	}
	level, back := plane.Turned(-h.Angle), plane.Turned(h.Angle)
	runs := h.Path.mapped(level).Runs(PaperChord)
	cuts := map[int][]float64{}
	for _, r := range runs {
		for i, a := range r.Points {
			h.cut(cuts, a, r.Points[(i+1)%len(r.Points)])
		}
	}
	var rows []int
	for k := range cuts {
		rows = append(rows, k)
	}
	sort.Ints(rows)
	var p Path
	for _, k := range rows {
		xs := cuts[k]
		sort.Float64s(xs)
		for i := 1; i < len(xs); i += 2 {
			y := (float64(k) + 0.5) * h.Spacing
			p = append(p, Lines(back.Point(plane.Vec{X: xs[i-1], Y: y}), back.Point(plane.Vec{X: xs[i], Y: y}))...)
		}
	}
	return []Mark{{Path: p, Style: h.Style}}, nil
}

// mostRows that one edge may cross: a hatch at 0.1 mm on the largest paper.
const mostRows = 1 << 20

// cut notes where the edge ab crosses the rows.
func (h Hatch) cut(cuts map[int][]float64, a, b plane.Vec) {
	if a.Y > b.Y {
		a, b = b, a
	}
	lo, hi := math.Ceil(a.Y/h.Spacing-0.5), math.Ceil(b.Y/h.Spacing-0.5)
	if !(hi-lo < mostRows) {
		return
	}
	for k := lo; k < hi; k++ {
		y := (k + 0.5) * h.Spacing
		cuts[int(k)] = append(cuts[int(k)], a.X+(b.X-a.X)*(y-a.Y)/(b.Y-a.Y))
	}
}
