package sheet

import (
	"fmt"
	"math"

	"ringtrack/export/figure"
	"ringtrack/gear/plane"
)

// The layout of a page, mm. Printers leave about 5 mm of paper free (common
// practice); the strips hold the marks to be measured.
const (
	pageEdge    = 10.0
	sideStrip   = 15.0 // left: marks up the page
	bottomStrip = 34.0 // below: marks across the page, words, the map
	overlap     = 10.0 // of neighbouring tiles
	inch        = 25.4
	leastWindow = 40.0
)

// tiles is a drawing divided into pages, row by row from the upper left.
type tiles struct {
	paper         Paper
	rows, columns int
	box           plane.Box // of the drawing
	origin        plane.Vec // of the drawing, at the window's lower left on the upper left tile
}

// tile divides the box for the paper. The rows of pages are larger than the box;
// within that room the seams are moved off the places that have a weight.
func tile(box plane.Box, p Paper, weights map[plane.Vec]float64) (tiles, error) {
	best := tiles{}
	for _, q := range []Paper{p, p.across()} {
		g := tiles{paper: q, box: box}
		w := g.window()
		if w.size().X < leastWindow || w.size().Y < leastWindow || q.Width < pageEdge+sideStrip+4*inch+pageEdge+40 || q.Height < 2*pageEdge+bottomStrip+4*inch+4 {
			continue
		}
		count := func(size, room float64) int {
			return max(1, int(math.Ceil((size-overlap)/(room-overlap)-1e-9)))
		}
		g.columns, g.rows = count(box.Size().X, w.size().X), count(box.Size().Y, w.size().Y)
		if best.rows == 0 || g.rows*g.columns < best.rows*best.columns {
			best = g
		}
	}
	switch {
	case best.rows == 0:
		return best, fmt.Errorf("paper of %g by %g mm is too small: the marks of 4 in need at least %g by %g mm",
			p.Width, p.Height, pageEdge+sideStrip+4*inch+pageEdge+40, 2*pageEdge+bottomStrip+4*inch+4)
	case best.rows*best.columns > mostTiles:
		return best, &FitError{Pages, "", float64(best.rows * best.columns), mostTiles, fmt.Sprintf("a drawing of %.0f by %.0f mm takes %d pages of this paper; at most %d are made",
			box.Size().X, box.Size().Y, best.rows*best.columns, mostTiles)}
	}
	best.place(weights)
	return best, nil
}

// place sets the origin: the drawing in the middle of the pages, or as near to
// that as the seams allow.
func (g *tiles) place(weights map[plane.Vec]float64) {
	const tries = 6 // either way
	step := g.step()
	room := plane.Vec{X: float64(g.columns)*step.X + overlap, Y: float64(g.rows)*step.Y + overlap}
	mid := g.box.Min.Add(g.box.Max).Mul(0.5)
	spare := room.Sub(g.box.Size()).Mul(0.5)
	least := math.Inf(1)
	for i := range (2*tries + 1) * (2*tries + 1) {
		dx, dy := zigzag(i/(2*tries+1))/tries*spare.X, zigzag(i%(2*tries+1))/tries*spare.Y
		try := *g
		try.origin = plane.Vec{X: mid.X - room.X/2 + dx, Y: mid.Y + room.Y/2 - g.window().size().Y + dy}
		if w := try.onSeams(weights); w < least {
			least, *g = w, try
		}
	}
}

// zigzag counts 0, 1, -1, 2, -2 and so on.
func zigzag(i int) float64 {
	if i%2 == 1 {
		return float64(i/2 + 1)
	}
	return -float64(i / 2)
}

// onSeams returns the weight of the places in or near the overlap of two tiles.
func (g tiles) onSeams(weights map[plane.Vec]float64) float64 {
	const beside = 6.0
	sum := 0.0
	step := g.step()
	in := func(from, step, at float64, n int) bool {
		k := math.Floor((at - from + beside) / step)
		return k >= 1 && int(k) < n && at < from+k*step+overlap+beside
	}
	for p, w := range weights {
		low := g.origin.Y - float64(g.rows-1)*step.Y
		if in(g.origin.X, step.X, p.X, g.columns) || in(low, step.Y, p.Y, g.rows) {
			sum += w
		}
	}
	return sum
}

// window is where the drawing lies on a page.
func (g tiles) window() window {
	return window{plane.Vec{X: pageEdge + sideStrip, Y: pageEdge + bottomStrip}, plane.Vec{X: g.paper.Width - pageEdge, Y: g.paper.Height - pageEdge}}
}

// step is the way from one tile to the next.
func (g tiles) step() plane.Vec {
	return g.window().size().Sub(plane.Vec{X: overlap, Y: overlap})
}

// corner is the drawing's point at the lower left of a tile's window.
func (g tiles) corner(row, column int) plane.Vec {
	s := g.step()
	return g.origin.Add(plane.Vec{X: float64(column) * s.X, Y: -float64(row) * s.Y})
}

// name of a tile: a letter for its row, a number for its column.
func tileName(row, column int) string {
	letter := string(rune('A' + row%26))
	if row >= 26 {
		letter = "A" + letter
	}
	return fmt.Sprintf("%s%d", letter, column+1)
}

// page draws tile i.
func (g tiles) page(t Template, marks []figure.Mark, i int) figure.Figure {
	row, column := i/g.columns, i%g.columns
	f := figure.Figure{Width: g.paper.Width, Height: g.paper.Height, Title: t.Title}
	w := g.window()
	corner := g.corner(row, column)
	move := w.min.Sub(corner)
	g.grid(&f, corner)
	f.Add(figure.Picture{Marks: marks, Move: move, Window: plane.Box{Min: corner, Max: corner.Add(w.size())}})
	g.mask(&f)
	f.Add(figure.Shape{Path: figure.Rectangle(w.min, w.max), Style: faint})
	g.seams(&f, row, column)
	g.strip(&f, t, row, column)
	return f
}

// The looks of what helps on a page but is not the drawing.
var (
	faint = figure.Style{Stroke: figure.Colour{R: 0xa8, G: 0xa8, B: 0xa8, A: 255}, Width: 0.1}
	fine  = figure.Style{Stroke: figure.Colour{A: 255}, Width: 0.1}
)

// grid draws lines every 50 mm of the drawing, which go on over all tiles.
func (g tiles) grid(f *figure.Figure, corner plane.Vec) {
	const every = 50.0
	w := g.window()
	s := figure.Style{Stroke: figure.Colour{R: 0xd8, G: 0xd8, B: 0xd8, A: 255}, Width: 0.1}
	for x := math.Ceil(corner.X/every) * every; x < corner.X+w.size().X; x += every {
		at := w.min.X + x - corner.X
		f.Add(figure.Shape{Path: figure.Lines(plane.Vec{X: at, Y: w.min.Y}, plane.Vec{X: at, Y: w.max.Y}), Style: s})
	}
	for y := math.Ceil(corner.Y/every) * every; y < corner.Y+w.size().Y; y += every {
		at := w.min.Y + y - corner.Y
		f.Add(figure.Shape{Path: figure.Lines(plane.Vec{X: w.min.X, Y: at}, plane.Vec{X: w.max.X, Y: at}), Style: s})
	}
}

// mask covers what of the drawing lies outside the window.
func (g tiles) mask(f *figure.Figure) {
	const beyond = 3.0 // the paper's own edge
	w := g.window()
	o, p := plane.Vec{X: -beyond, Y: -beyond}, plane.Vec{X: g.paper.Width + beyond, Y: g.paper.Height + beyond}
	for _, r := range [][2]plane.Vec{
		{o, {X: w.min.X, Y: p.Y}}, {{X: w.max.X, Y: o.Y}, p}, {o, {X: p.X, Y: w.min.Y}}, {{X: o.X, Y: w.max.Y}, p},
	} {
		f.Add(figure.Shape{Path: figure.Rectangle(r[0], r[1]), Style: figure.Style{Fill: paper}})
	}
}

// seams draws the lines along which tiles are cut or laid, in the middle of
// their overlap, register marks on them and marks to cut by outside the window.
func (g tiles) seams(f *figure.Figure, row, column int) {
	w := g.window()
	dash := figure.Style{Stroke: figure.Colour{R: 0x60, G: 0x60, B: 0x60, A: 255}, Width: 0.1, Dash: []float64{4, 2}}
	xs, ys := []float64{}, []float64{}
	side := func(has bool, list *[]float64, at float64) {
		if has {
			*list = append(*list, at)
		}
	}
	side(column > 0, &xs, w.min.X+overlap/2)
	side(column+1 < g.columns, &xs, w.max.X-overlap/2)
	side(row > 0, &ys, w.max.Y-overlap/2)
	side(row+1 < g.rows, &ys, w.min.Y+overlap/2)
	mid := w.centre()
	for _, x := range xs {
		f.Add(figure.Shape{Path: figure.Lines(plane.Vec{X: x, Y: w.min.Y}, plane.Vec{X: x, Y: w.max.Y}), Style: dash})
		register(f, plane.Vec{X: x, Y: mid.Y})
		for _, y := range []float64{w.min.Y - 4, w.max.Y} {
			f.Add(figure.Shape{Path: figure.Lines(plane.Vec{X: x, Y: y}, plane.Vec{X: x, Y: y + 4}), Style: fine})
		}
		for _, y := range ys {
			register(f, plane.Vec{X: x, Y: y})
		}
	}
	for _, y := range ys {
		f.Add(figure.Shape{Path: figure.Lines(plane.Vec{X: w.min.X, Y: y}, plane.Vec{X: w.max.X, Y: y}), Style: dash})
		register(f, plane.Vec{X: mid.X, Y: y})
		for _, x := range []float64{w.min.X - 4, w.max.X} {
			f.Add(figure.Shape{Path: figure.Lines(plane.Vec{X: x, Y: y}, plane.Vec{X: x + 4, Y: y}), Style: fine})
		}
	}
	g.neighbours(f, row, column)
}

// neighbours writes at every seam which tile lies beyond it.
func (g tiles) neighbours(f *figure.Figure, row, column int) {
	w := g.window()
	at := func(p plane.Vec, angle float64, r, c int) {
		f.Add(figure.Text{At: p, Size: 1.8, Angle: angle, Along: figure.Middle, Up: figure.Middle, Text: tileName(r, c) + " beyond", Halo: 0.4})
	}
	mid, in := w.centre(), overlap/4
	if column > 0 {
		at(plane.Vec{X: w.min.X + in, Y: mid.Y + 25}, math.Pi/2, row, column-1)
	}
	if column+1 < g.columns {
		at(plane.Vec{X: w.max.X - in, Y: mid.Y + 25}, math.Pi/2, row, column+1)
	}
	if row > 0 {
		at(plane.Vec{X: mid.X + 25, Y: w.max.Y - in}, 0, row-1, column)
	}
	if row+1 < g.rows {
		at(plane.Vec{X: mid.X + 25, Y: w.min.Y + in}, 0, row+1, column)
	}
}

// register draws a cross in a circle that lies on both neighbours.
func register(f *figure.Figure, c plane.Vec) {
	f.Add(figure.Shape{Path: figure.Circle(c, 1.8), Style: fine})
	f.Add(figure.Shape{Path: figure.Lines(c.Add(plane.Vec{X: -3}), c.Add(plane.Vec{X: 3})), Style: fine})
	f.Add(figure.Shape{Path: figure.Lines(c.Add(plane.Vec{Y: -3}), c.Add(plane.Vec{Y: 3})), Style: fine})
}
