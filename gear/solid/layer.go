package solid

import (
	"fmt"
	"slices"

	"ringtrack/gear/plane"
)

// layers lists the checks that the walls neither touch nor cross and are nested
// rightly just below and just above every height where one begins, bends or
// ends. Between two such heights every wall moves evenly, so that what is sound
// at both is sound between. Equal sections are checked once.
func (w *builder) layers() []*task {
	zs := w.heights(func(wall *Wall) []float64 {
		low, high := wall.upright()
		return []float64{wall.Low, low, high, wall.High}
	})
	var out []*task
	seen := map[string]bool{}
	for _, z := range zs {
		for _, above := range []bool{false, true} {
			alive, key := w.alive(z, above)
			if len(alive) > 0 && !seen[key] {
				seen[key] = true
				out = append(out, &task{z: z, do: func(t *task) error { return w.layer(t.z, alive) }})
			}
		}
	}
	return out
}

// alive returns the walls that stand just below or above z, and a key that tells
// their section there.
func (w *builder) alive(z float64, above bool) (list []int, key string) {
	var k []byte
	for i := range w.body.Walls {
		wall := &w.body.Walls[i]
		if above && (z < wall.Low || z >= wall.High) || !above && (z <= wall.Low || z > wall.High) {
			continue
		}
		list = append(list, i)
		k = fmt.Appendf(k, "%d:%x ", i, wall.shiftAt(z))
	}
	return list, string(k)
}

// layer checks the section of the walls at z.
func (w *builder) layer(z float64, alive []int) error {
	borders := make([]border, len(alive))
	loops := make([][]plane.Vec, len(alive))
	for k, i := range alive {
		borders[k] = border{w.standing[i].sectionAt(z), i}
		loops[k] = borders[k].pts
	}
	s, err := newSweep(loops)
	if err == nil {
		err = s.run()
	}
	if err != nil {
		return named(err, borders)
	}
	return nil
}

// sectionAt returns the wall's polygon at height z. In the middle of a slope,
// corners that ridges cut off are left out.
func (st *standing) sectionAt(z float64) rim {
	w := st.wall
	low, high := w.upright()
	switch {
	case z == w.Low:
		return st.foot
	case z == w.High:
		return st.head
	case z >= low && z <= high:
		return rim{pts: st.base}
	}
	s := w.shiftAt(z)
	if s > 0 || len(st.roof.points) == 0 && st.roof.smooth() {
		return rim{pts: st.shifted(s)}
	}
	var r rim
	for t, m := range st.turns {
		for _, c := range st.roof.cols {
			if c.life >= -s {
				r.pts = append(r.pts, moved(m, t, c.p.Add(c.n.Mul(-s))))
			}
		}
	}
	r.pts = slices.Compact(r.pts)
	return r
}
