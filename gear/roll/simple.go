package roll

import (
	"sort"

	"ringtrack/gear/plane"
)

// band is an element with its range of radii about the axis.
type band struct {
	e      *element
	lo, hi float64
}

// crossesItself looks for two elements of the first teeth whose chords cross,
// and returns where. Elements are cut at the borders of the teeth, so both belong
// to one tooth. In the order of their least radii, each is compared with those
// that begin before it ends.
func (m *member) crossesItself(teeth int) (at plane.Vec, tooth int, found bool) {
	var bands []band
	for i := range teeth {
		bands = bands[:0]
		elems := m.of(i)
		for k := range elems {
			lo, hi := elems[k].reach(plane.Vec{})
			bands = append(bands, band{&elems[k], lo, hi})
		}
		sort.Slice(bands, func(a, b int) bool { return bands[a].lo < bands[b].lo })
		for k := range bands {
			for n := k + 1; n < len(bands) && bands[n].lo <= bands[k].hi; n++ {
				if a, b := bands[k].e, bands[n].e; crossed(a.a, a.b, b.a, b.b) {
					return a.a, i, true
				}
			}
		}
	}
	return plane.Vec{}, 0, false
}

// crossed reports whether two lines cross, each passing from one side of the
// other to the other side.
func crossed(a, b, c, d plane.Vec) bool {
	if apart(a, b, c, d, 0) {
		return false
	}
	v, w := b.Sub(a), d.Sub(c)
	s, t := v.Cross(c.Sub(a)), v.Cross(d.Sub(a))
	if !(s < 0 && t > 0) && !(s > 0 && t < 0) {
		return false
	}
	s, t = w.Cross(a.Sub(c)), w.Cross(b.Sub(c))
	return (s < 0 && t > 0) || (s > 0 && t < 0)
}
