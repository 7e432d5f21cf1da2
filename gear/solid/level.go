package solid

import (
	"errors"
	"math"
	"slices"

	"ringtrack/gear/plane"
)

// levels lists the horizontal faces: at every height where walls begin or end,
// what lies below but not above looks up, what lies above but not below looks
// down.
func (w *builder) levels() []*task {
	var out []*task
	for _, z := range w.heights(func(wall *Wall) []float64 { return []float64{wall.Low, wall.High} }) {
		out = append(out, &task{z: z, do: w.level})
	}
	return out
}

// heights returns the distinct heights that of names, rising.
func (w *builder) heights(of func(*Wall) []float64) []float64 {
	var zs []float64
	for i := range w.body.Walls {
		zs = append(zs, of(&w.body.Walls[i])...)
	}
	slices.Sort(zs)
	return slices.Compact(zs)
}

// border is a ring that bounds a horizontal face.
type border struct {
	rim
	wall int
}

// reversed returns the border in the opposite direction.
func (b border) reversed() border {
	b.ids, b.pts = slices.Clone(b.ids), slices.Clone(b.pts)
	slices.Reverse(b.ids)
	slices.Reverse(b.pts)
	return b
}

// level finds the faces at one height.
func (w *builder) level(t *task) error {
	var ends, starts []border
	for i, st := range w.standing {
		if st.wall.High == t.z {
			ends = append(ends, border{st.head, i})
		}
		if st.wall.Low == t.z {
			starts = append(starts, border{st.foot, i})
		}
	}
	up, down, err := divideLevel(ends, starts)
	if err != nil {
		return err
	}
	if err := t.face(up, true); err != nil {
		return err
	}
	return t.face(down, false)
}

// face adds the face within the borders.
func (t *task) face(borders []border, up bool) error {
	if len(borders) == 0 {
		return nil
	}
	f := face3{up: up}
	var loops [][]plane.Vec
	for _, b := range borders {
		f.ids, loops = append(f.ids, b.ids...), append(loops, b.pts)
	}
	var err error
	if f.tris, err = Triangulate(loops); err != nil {
		return named(err, borders)
	}
	t.faces = append(t.faces, f)
	return nil
}

// named returns the error of a sweep over the borders, with the numbers of walls.
// Of borders that cross, the sweep may first notice that one lies wrongly: that
// they cross says more.
func named(err error, borders []border) error {
	var s *ShapeError
	if !errors.As(err, &s) {
		return err
	}
	if c := crossingBorders(borders); c != nil {
		return c
	}
	e := *s
	for i, l := range e.Loop {
		e.Loop[i] = borders[l].wall
	}
	return &e
}

// divideLevel sorts the borders of a level at which walls end and others start.
// Seen from above, the material below less that above is +1 where the level
// looks up and -1 where it looks down; each border is the edge of one of these.
func divideLevel(ends, starts []border) (up, down []border, err error) {
	all := append([]border(nil), ends...)
	for _, s := range starts {
		all = append(all, s.reversed())
	}
	boxes := make([]plane.Box, len(all))
	turn := make([]int, len(all))
	for i, b := range all {
		boxes[i] = plane.NoBox()
		for _, p := range b.pts {
			boxes[i] = boxes[i].Add(p)
		}
		turn[i] = sign(turnOf(b.pts))
	}
	for i, b := range all {
		outside := 0
		for j, c := range all {
			if i != j && boxes[j].Meets(boxes[i]) && inPolygon(c.pts, b.pts[0]) {
				outside += turn[j]
			}
		}
		switch inside := outside + turn[i]; {
		case max(outside, inside) == 1 && min(outside, inside) == 0:
			up = append(up, b)
		case max(outside, inside) == 0 && min(outside, inside) == -1:
			down = append(down, b.reversed())
		default:
			err = &ShapeError{Kind: WrongWay, Loop: [2]int{b.wall, b.wall}, At: b.pts[0]}
		}
	}
	if len(up) > 0 && len(down) > 0 || err != nil { // else Triangulate finds what crosses
		if e := crossingBorders(all); e != nil {
			return nil, nil, e
		}
	}
	return up, down, err
}

// turnOf returns twice a polygon's signed area.
func turnOf(p []plane.Vec) float64 {
	var s sum
	for i := 1; i+1 < len(p); i++ {
		s.add(p[i].Sub(p[0]).Cross(p[i+1].Sub(p[0])))
	}
	return s.value()
}

// crossingBorders returns an error for two borders that touch or cross. Edges
// are looked up in a grid of cells about as large as an edge is long.
func crossingBorders(all []border) *ShapeError {
	g := newEdgeGrid(all)
	for i, b := range all {
		for k := range b.pts {
			if e := g.meets(i, k); e != nil {
				return e
			}
		}
	}
	return nil
}

// edgeGrid finds edges near a place.
type edgeGrid struct {
	all   []border
	min   plane.Vec
	cell  float64
	cells map[[2]int32][][2]int32 // border and edge
}

func newEdgeGrid(all []border) *edgeGrid {
	g := &edgeGrid{all: all, cells: map[[2]int32][][2]int32{}}
	box, length, n := plane.NoBox(), 0.0, 0
	for _, b := range all {
		for k, p := range b.pts {
			box = box.Add(p)
			length += b.pts[(k+1)%len(b.pts)].Sub(p).Len()
			n++
		}
	}
	g.min = box.Min
	size := math.Max(box.Size().X, box.Size().Y)
	g.cell = math.Max(length/float64(n), size/4096)
	for i, b := range all {
		for k := range b.pts {
			g.each(i, k, func(c [2]int32) { g.cells[c] = append(g.cells[c], [2]int32{int32(i), int32(k)}) })
		}
	}
	return g
}

// each calls f with the cells that edge k of border i may touch.
func (g *edgeGrid) each(i, k int, f func([2]int32)) {
	a, b := g.edge(i, k)
	box := plane.NoBox().Add(a.Sub(g.min)).Add(b.Sub(g.min))
	for x := int32(box.Min.X / g.cell); x <= int32(box.Max.X/g.cell); x++ {
		for y := int32(box.Min.Y / g.cell); y <= int32(box.Max.Y/g.cell); y++ {
			f([2]int32{x, y})
		}
	}
}

func (g *edgeGrid) edge(i, k int) (a, b plane.Vec) {
	p := g.all[i].pts
	return p[k], p[(k+1)%len(p)]
}

// meets returns an error when edge k of border i has a point in common with one
// of an earlier border.
func (g *edgeGrid) meets(i, k int) (found *ShapeError) {
	a, b := g.edge(i, k)
	g.each(i, k, func(c [2]int32) {
		for _, o := range g.cells[c] {
			if int(o[0]) >= i || found != nil {
				continue
			}
			if c, d := g.edge(int(o[0]), int(o[1])); touching(a, b, c, d) {
				found = &ShapeError{Kind: Crossing, Loop: [2]int{g.all[o[0]].wall, g.all[i].wall}, Point: [2]int{int(o[1]), k}, At: a}
			}
		}
	})
	return found
}
