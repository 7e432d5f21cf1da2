package solid

import (
	"fmt"
	"math"
	"slices"
	"sync"
)

// Mesh returns the body's surface.
//
//	chord  greatest distance of a drawn chord from the exact outline, slope or
//	       channel, mm, at least 1e-12 of the body's greatest width. What lies
//	       nearer than chord/64 along an outline (a corner beside a generator of
//	       a channel) is drawn as one.
//
// The mesh is closed and outward (see the package comment), one shell for a body
// that hangs together, and has no facet without area. Walls, level faces,
// slopes and channels share vertex indices.
//
// Method: every loop is divided once, with points where channels need them.
// Between neighbouring points the wall is a flat strip, and what a channel opens
// in it has straight rims; the channel's own strips run along its axis from rim
// to rim. Edges follow the loop's parallels and the ridges between them.
//
// Errors: *ShapeError (wrapped) when walls touch or cross at some height, or run
// the wrong way round; its loops are the numbers of walls. *ChannelError for a
// channel that cannot be drilled. Others name the wall.
func (b *Body) Mesh(chord float64) (*Mesh, error) {
	if err := b.check(); err != nil {
		return nil, fmt.Errorf("body: %w", err)
	}
	if least := 1e-12 * b.size(); !(chord > 0 && chord >= least) || math.IsInf(chord, 0) {
		return nil, fmt.Errorf("body: a chordal tolerance of %g mm is not usable here, at least %.3g mm is", chord, least)
	}
	w := &builder{body: b, chord: chord, m: &Mesh{}}
	if err := w.run(); err != nil {
		return nil, fmt.Errorf("body: %w", err)
	}
	return w.m, nil
}

// builder is the state of one call of Mesh.
type builder struct {
	body     *Body
	chord    float64
	m        *Mesh
	need     []map[int][]float64 // by wall: parameters on pieces; nil where no channel passes
	drilled  []*drilling
	standing []*standing
}

// run does the work in order; the horizontal faces and the checks of the layers,
// which need the walls' rings alone, beside the rest.
func (w *builder) run() error {
	if err := w.drill(); err != nil {
		return err
	}
	if err := w.stand(); err != nil {
		return err
	}
	checks, levels := w.layers(), w.levels()
	wait := sync.WaitGroup{}
	for _, t := range append(append([]*task(nil), checks...), levels...) {
		wait.Go(func() { t.err = t.do(t) })
	}
	err := w.bore()
	wait.Wait()
	for _, t := range checks {
		if t.err != nil {
			return fmt.Errorf("at z = %.6g mm: %w", t.z, t.err)
		}
	}
	if err != nil {
		return err
	}
	for _, t := range levels {
		if t.err != nil {
			return fmt.Errorf("at z = %.6g mm: %w", t.z, t.err)
		}
		for _, f := range t.faces {
			w.m.addFace(f.ids, f.tris, f.up)
		}
	}
	return nil
}

// task is a piece of work at one height that needs nothing but finished rings.
type task struct {
	z     float64
	do    func(*task) error
	err   error
	faces []face3
}

// face3 is a horizontal face: triangles over a list of vertices.
type face3 struct {
	ids  []int32
	tris [][3]int32
	up   bool
}

// drill finds what every channel passes.
func (w *builder) drill() error {
	w.need = make([]map[int][]float64, len(w.body.Walls))
	for i := range w.body.Channels {
		d, err := w.body.drill(i)
		if err != nil {
			return err
		}
		d.spot(w.chord, w.need)
		w.drilled = append(w.drilled, d)
	}
	return nil
}

// stand divides the loops and adds rings and slopes.
func (w *builder) stand() error {
	for i := range w.body.Walls {
		st, err := stand(&w.body.Walls[i], w.need[i], w.chord)
		if err != nil {
			return fmt.Errorf("%s: %w", w.body.wallName(i), err)
		}
		w.standing = append(w.standing, st)
	}
	n := 0
	for _, st := range w.standing {
		n += 4 * len(st.base)
	}
	w.m.Vertices = make([]Point3, 0, n)
	w.m.Facets = make([][3]int32, 0, 3*n)
	for _, st := range w.standing {
		st.raise(w.m)
	}
	return nil
}

// bore opens the walls, adds the channels and then the walls.
func (w *builder) bore() error {
	var all []tunnel
	borers := make([]*borer, len(w.drilled))
	for i, d := range w.drilled {
		b := &borer{drilling: d, m: w.m, walls: w.standing}
		if err := b.run(); err != nil {
			return err
		}
		borers[i] = b
		all = append(all, b.tunnels...)
	}
	if err := apart(all); err != nil {
		return err
	}
	for _, b := range borers {
		for _, t := range b.tunnels {
			if err := b.wall(t); err != nil {
				return err
			}
		}
	}
	w.m.Facets = slices.Grow(w.m.Facets, 2*len(w.m.Vertices))
	for _, st := range w.standing {
		st.wallUp(w.m)
	}
	return nil
}
