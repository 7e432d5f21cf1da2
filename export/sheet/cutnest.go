package sheet

import (
	"fmt"
	"math"
	"sort"

	"ringtrack/export/figure"
	"ringtrack/gear/plane"
)

// NestOptions of CutSheets.
type NestOptions struct {
	Width, Height float64 // mm, of the sheet
	Edge          float64 // mm kept free along the sheet's edge
	Spacing       float64 // mm between cuts of different parts
	// Openings lets small parts be cut from the waste inside the openings of
	// others. They are then cut first; see the note in the file.
	Openings bool
}

// CutSheet is one sheet with parts on it.
type CutSheet struct {
	Drawing figure.Drawing // the sheet's lower left corner is the origin
	Placed  []Placed
	Used    float64 // share of the sheet that becomes parts, 0..1
}

// Placed says where a part's own origin lies on the sheet.
type Placed struct {
	Name string
	At   plane.Vec
}

// CutSheets lays all copies of the parts on as many sheets as they need.
//
// Method: by boxes, unturned, the largest first. A part goes into the smallest
// round opening that has room, if openings are allowed, then onto the first row
// (of the first sheet) that is high and long enough, then onto a new row, then
// onto a new sheet. It is simple and leaves more waste than a good hand would;
// Used says how much.
//
// Errors: *FitError for a part larger than the sheet and for a spacing smaller
// than a kerf; numbers out of range; those of Cut.
func CutSheets(parts []CutPart, opt NestOptions) ([]CutSheet, error) {
	if err := opt.check(parts); err != nil {
		return nil, fmt.Errorf("sheet: cut: %w", err)
	}
	n := nest{opt: opt}
	for _, it := range items(parts) {
		if err := n.put(it); err != nil {
			return nil, fmt.Errorf("sheet: cut: %w", err)
		}
	}
	for i := range n.sheets {
		s := &n.sheets[i]
		var area float64
		for _, p := range n.placed[i] {
			d, err := p.part.at(plane.Moved(p.at))
			if err != nil {
				return nil, err
			}
			s.Drawing.Outlines = append(s.Drawing.Outlines, d.Outlines...)
			s.Placed = append(s.Placed, Placed{p.part.Name, p.at})
			area += p.part.Region.Area()
		}
		inOrder(s.Drawing.Outlines)
		s.Used = area / (opt.Width * opt.Height)
		s.Drawing.Notes = append(cutNotes(kinds(n.placed[i])), fmt.Sprintf("Sheet %d of %d, %.6g by %.6g mm: %.0f %% of it becomes parts.", i+1, len(n.sheets), opt.Width, opt.Height, 100*s.Used))
	}
	return n.sheets, nil
}

// kinds returns the parts among the items, each once.
func kinds(items []item) []CutPart {
	var out []CutPart
	seen := map[string]bool{}
	for _, i := range items {
		if !seen[i.part.Name] {
			seen[i.part.Name] = true
			out = append(out, i.part)
		}
	}
	return out
}

func (o NestOptions) check(parts []CutPart) error {
	if !(o.Width > 0 && o.Height > 0 && o.Width <= 1e4 && o.Height <= 1e4) {
		return fmt.Errorf("a sheet of %g by %g mm", o.Width, o.Height)
	}
	if !(o.Edge >= 0 && o.Spacing >= 0) {
		return fmt.Errorf("an edge of %g mm and a spacing of %g mm", o.Edge, o.Spacing)
	}
	if len(parts) == 0 {
		return fmt.Errorf("no part to cut")
	}
	for _, p := range parts {
		if err := p.check(); err != nil {
			return fmt.Errorf("%s: %w", p.Name, err)
		}
		if o.Spacing < p.Kerf {
			return &FitError{Spacing, p.Name, o.Spacing, p.Kerf, fmt.Sprintf("%s: a spacing of %g mm leaves nothing between cuts %g mm wide", p.Name, o.Spacing, p.Kerf)}
		}
	}
	return nil
}

// item is one copy of a part.
type item struct {
	part CutPart
	box  plane.Box
	at   plane.Vec // of its own origin, when placed
}

// items returns every copy, the largest first.
func items(parts []CutPart) []item {
	var out []item
	for _, p := range parts {
		b := p.Region.Outer.Box()
		for range max(p.Copies, 1) {
			out = append(out, item{part: p, box: b})
		}
	}
	area := func(i item) float64 { s := i.box.Size(); return s.X * s.Y }
	sort.SliceStable(out, func(a, b int) bool { return area(out[a]) > area(out[b]) })
	return out
}

// room is where parts can be laid in rows: a rectangle from min to max, or the
// inside of a circle.
type room struct {
	sheet    int
	min, max plane.Vec
	centre   plane.Vec
	radius   float64 // 0 for a rectangle
	rows     []roomRow
}

// roomRow is filled from left to right.
type roomRow struct{ low, high, next, end float64 }

// nest is the state of the work.
type nest struct {
	opt    NestOptions
	sheets []CutSheet
	placed [][]item
	rooms  []*room // of sheets, in order
	holes  []*room // openings
}

func (n *nest) put(it item) error {
	sort.SliceStable(n.holes, func(a, b int) bool { return n.holes[a].radius < n.holes[b].radius })
	for _, r := range append(append([]*room{}, n.holes...), n.rooms...) {
		if at, ok := r.lay(it.box.Size(), n.opt.Spacing); ok {
			n.place(it, r.sheet, at)
			return nil
		}
	}
	e := n.opt.Edge
	r := &room{sheet: len(n.sheets), min: plane.Vec{X: e, Y: e}, max: plane.Vec{X: n.opt.Width - e, Y: n.opt.Height - e}}
	at, ok := r.lay(it.box.Size(), n.opt.Spacing)
	if !ok {
		s := it.box.Size()
		found, limit := s.X, n.opt.Width-2*e
		if s.X <= limit {
			found, limit = s.Y, n.opt.Height-2*e
		}
		return &FitError{SheetSize, it.part.Name, found, limit, fmt.Sprintf("%s measures %.6g by %.6g mm and the sheet has room for %.6g by %.6g", it.part.Name, s.X, s.Y, n.opt.Width-2*e, n.opt.Height-2*e)}
	}
	n.rooms = append(n.rooms, r)
	n.sheets = append(n.sheets, CutSheet{})
	n.placed = append(n.placed, nil)
	n.place(it, r.sheet, at)
	return nil
}

// place notes where the item's box has its lower left corner, and the opening
// that comes with it.
func (n *nest) place(it item, sheet int, corner plane.Vec) {
	it.at = corner.Sub(it.box.Min)
	n.placed[sheet] = append(n.placed[sheet], it)
	if !n.opt.Openings {
		return
	}
	var best plane.Loop
	radius := 0.0
	for _, h := range it.part.Region.Holes {
		if least, _ := h.Radii(); least > radius && h.Contains(h.Centre) {
			best, radius = h, least
		}
	}
	if radius > n.opt.Spacing {
		n.holes = append(n.holes, &room{sheet: sheet, centre: best.Centre.Add(it.at), radius: radius - n.opt.Spacing})
	}
}

// lay finds a place for a box of that size and takes it.
func (r *room) lay(size plane.Vec, spacing float64) (plane.Vec, bool) {
	const slack = 1e-9
	for i := range r.rows {
		w := &r.rows[i]
		if size.Y <= w.high-w.low+slack && w.next+size.X <= w.end+slack {
			at := plane.Vec{X: w.next, Y: w.low}
			w.next += size.X + spacing
			return at, true
		}
	}
	low := r.min.Y
	if r.radius > 0 {
		low = r.centre.Y - math.Sqrt(math.Max(0, r.radius*r.radius-size.X*size.X/4))
	}
	if len(r.rows) > 0 {
		low = r.rows[len(r.rows)-1].high + spacing
	}
	from, to := r.between(low, low+size.Y)
	if size.X > to-from+slack {
		return plane.Vec{}, false
	}
	r.rows = append(r.rows, roomRow{low, low + size.Y, from + size.X + spacing, to})
	return plane.Vec{X: from, Y: low}, true
}

// between returns how far a row between two heights reaches; to < from when it
// does not lie in the room.
func (r *room) between(low, high float64) (from, to float64) {
	const slack = 1e-9
	if r.radius == 0 {
		if high > r.max.Y+slack {
			return 1, 0
		}
		return r.min.X, r.max.X
	}
	far := math.Max(math.Abs(low-r.centre.Y), math.Abs(high-r.centre.Y))
	if far > r.radius {
		return 1, 0
	}
	half := math.Sqrt(r.radius*r.radius - far*far)
	return r.centre.X - half, r.centre.X + half
}
