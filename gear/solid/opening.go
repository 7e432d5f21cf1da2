package solid

import (
	"fmt"
	"sort"

	"ringtrack/gear/plane"
)

// opening is the hole that a channel's step makes in a wall. Its lists run with
// w rising, over the wall's points within the step's width.
type opening struct {
	step     Step
	z        float64 // of the axis
	dir      int     // +1 where w rises along the loop
	first    int     // the loop's point at which it begins in the loop's order
	low      []int32 // vertices of the lower rim
	high     []int32 // of the upper; the tips are the same vertex in both
	sampleAt []int   // place in the lists of each generator
	points   []int   // the loop's points
	ws       []float64
}

// open adds the vertices of a pass on a raised wall. ws are the generators' w.
func (st *standing) open(m *Mesh, d *drilling, step int, p *pass) (*opening, error) {
	ws := d.samples[step]
	o := &opening{step: d.channel.Steps[step], z: d.channel.Z, dir: p.dir, ws: ws}
	n := len(st.base)
	at := make([]int, len(ws))
	for j, q := range p.at {
		var err error
		if at[j], err = st.index(q.piece, q.u); err != nil {
			return nil, err
		}
	}
	o.first = at[0]
	if p.dir < 0 {
		o.first = at[len(at)-1]
	}
	for j := range at {
		if j > 0 {
			ahead := ((at[j]-at[j-1])*p.dir%n + n) % n
			if ahead == 0 || len(o.points)+ahead > n {
				return nil, fmt.Errorf("the chordal tolerance is too coarse for a channel of radius %g mm", o.step.Radius)
			}
			for k := 1; k < ahead; k++ {
				o.points = append(o.points, ((at[j-1]+k*p.dir)%n+n)%n)
			}
		}
		o.sampleAt = append(o.sampleAt, len(o.points))
		o.points = append(o.points, at[j])
	}
	o.rise(m, st, plane.Polar(1, d.channel.Angle).Right().Mul(-1))
	st.holes = append(st.holes, o)
	return o, nil
}

// rise adds the rims' vertices: on the generators as the section has it, on the
// wall's points between them straight between those.
func (o *opening) rise(m *Mesh, st *standing, side plane.Vec) {
	j := 0
	for k, pt := range o.points {
		p := st.base[pt]
		for j+1 < len(o.sampleAt)-1 && o.sampleAt[j+1] <= k {
			j++
		}
		low, high := o.step.at(o.ws[j])
		if k != o.sampleAt[j] {
			l, h := o.step.at(o.ws[j+1])
			f := 1.0
			if k != o.sampleAt[j+1] {
				f = (p.Dot(side) - o.ws[j]) / (o.ws[j+1] - o.ws[j])
			}
			low, high = low+f*(l-low), high+f*(h-high)
		}
		lo := m.addVertex(p, o.z+low)
		hi := lo
		if k > 0 && k < len(o.points)-1 {
			hi = m.addVertex(p, o.z+high)
		}
		o.low, o.high = append(o.low, lo), append(o.high, hi)
	}
}

// between returns the rims' vertices from generator j to the next.
func (o *opening) between(j int) (low, high []int32) {
	a, b := o.sampleAt[j], o.sampleAt[j+1]+1
	return o.low[a:b], o.high[a:b]
}

// covers returns the place in the lists of the loop's point i, -1 if none.
func (o *opening) covers(i, n int) int {
	k := ((i-o.first)%n + n) % n
	if k >= len(o.points) {
		return -1
	}
	if o.dir < 0 {
		return len(o.points) - 1 - k
	}
	return k
}

// wallUp adds the facets of the vertical part: each strip between two
// neighbouring points, less the openings in it.
func (st *standing) wallUp(m *Mesh) {
	n := len(st.base)
	if st.low.ids[0] == st.high.ids[0] {
		return
	}
	sort.SliceStable(st.holes, func(i, j int) bool { return st.holes[i].z < st.holes[j].z })
	left := st.uprights(0)
	for i := range n {
		k := (i + 1) % n
		right := st.uprights(k)
		a, b := 0, 0
		for _, o := range st.holes {
			p, q := o.covers(i, n), o.covers(k, n)
			if p < 0 || q < 0 || p-q != -o.dir {
				continue
			}
			la, rb := placeOf(left, o.low[p]), placeOf(right, o.low[q])
			m.zip(left[a:la+1], right[b:rb+1], true)
			a, b = placeOf(left, o.high[p]), placeOf(right, o.high[q])
		}
		m.zip(left[a:], right[b:], true)
		left = right
	}
}

// uprights returns the vertices above point i of the loop, from bottom to top.
func (st *standing) uprights(i int) []int32 {
	out := make([]int32, 1, 2+2*len(st.holes))
	out[0] = st.low.ids[i]
	for _, o := range st.holes {
		if k := o.covers(i, len(st.base)); k >= 0 {
			if out = append(out, o.low[k]); o.high[k] != o.low[k] {
				out = append(out, o.high[k])
			}
		}
	}
	return append(out, st.high.ids[i])
}

func placeOf(list []int32, v int32) int {
	for i, w := range list {
		if w == v {
			return i
		}
	}
	return 0
}

// zip adds the facets between two rows of vertices, as seen from outside with the
// rows running up, or running down. Rows may begin, or end, in the same vertex.
//
// The nearer of the two next vertices comes first: a vertex that belongs to the
// strips on both sides of a row (a ridge's, where its column is narrower than
// can be told) is then joined to nothing that the other strip joins it to.
func (m *Mesh) zip(left, right []int32, up bool) {
	along := 1.0
	if !up {
		along = -1
	}
	a, b := 0, 0
	for a+1 < len(left) || b+1 < len(right) {
		f := [3]int32{left[a], right[b], 0}
		if b+1 < len(right) && (a+1 == len(left) || along*(m.Vertices[right[b+1]].Z-m.Vertices[left[a+1]].Z) <= 0) {
			b++
			f[2] = right[b]
		} else {
			a++
			f[2] = left[a]
		}
		if !up {
			f[0], f[1] = f[1], f[0]
		}
		if f[0] != f[1] && f[1] != f[2] && f[2] != f[0] {
			m.Facets = append(m.Facets, f)
		}
	}
}
