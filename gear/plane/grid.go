package plane

import "math"

// grid finds the boxes near a place without looking at all of them: the plane
// is divided into square cells, each with the indices of the boxes that touch it.
type grid struct {
	boxes []Box
	min   Vec
	cell  float64
	nx    int
	ny    int
	cells [][]int32
	seen  []int32 // the last query that gave out each box
	query int32
}

// newGrid makes about as many cells as there are boxes.
func newGrid(boxes []Box) *grid {
	all := NoBox()
	for _, b := range boxes {
		all = all.Union(b)
	}
	size := all.Size()
	g := &grid{boxes: boxes, min: all.Min, seen: make([]int32, len(boxes))}
	g.cell = math.Max(math.Sqrt(size.X*size.Y/float64(len(boxes)+1)), math.Max(size.X, size.Y)/1000)
	if !(g.cell > 0) {
		g.cell = 1
	}
	g.nx, g.ny = int(size.X/g.cell)+1, int(size.Y/g.cell)+1
	g.cells = make([][]int32, g.nx*g.ny)
	for i, b := range boxes {
		g.each(b, func(c int) { g.cells[c] = append(g.cells[c], int32(i)) })
	}
	return g
}

// each calls f with every cell that the box touches.
func (g *grid) each(b Box, f func(cell int)) {
	clamp := func(v float64, n int) int { return int(math.Max(0, math.Min(float64(n-1), math.Floor(v/g.cell)))) }
	x0, x1 := clamp(b.Min.X-g.min.X, g.nx), clamp(b.Max.X-g.min.X, g.nx)
	y0, y1 := clamp(b.Min.Y-g.min.Y, g.ny), clamp(b.Max.Y-g.min.Y, g.ny)
	for y := y0; y <= y1; y++ {
		for x := x0; x <= x1; x++ {
			f(y*g.nx + x)
		}
	}
}

// near calls f with every box that meets b, each once.
func (g *grid) near(b Box, f func(i int)) {
	g.query++
	g.each(b, func(c int) {
		for _, i := range g.cells[c] {
			if g.seen[i] != g.query && g.boxes[i].Meets(b) {
				g.seen[i] = g.query
				f(int(i))
			}
		}
	})
}
