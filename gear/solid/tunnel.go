package solid

import (
	"fmt"
	"math"

	"ringtrack/gear/plane"
)

// mouth is where a tunnel starts or ends: an opening in a wall, or the rim of a
// flat face across the channel.
type mouth interface {
	// between returns the vertices of the lower and of the upper rim from
	// generator j to the next, with w rising.
	between(j int) (low, high []int32)
}

// flat is a section of a channel in a plane across its axis.
type flat struct{ low, high []int32 } // by generator

func (f *flat) between(j int) (low, high []int32) { return f.low[j : j+2], f.high[j : j+2] }

// loop returns the rim as a polygon, counter-clockwise as seen from outward, in
// the coordinates w and z.
func (f *flat) loop(m *Mesh, ws []float64) (ids []int32, pts []plane.Vec) {
	add := func(v int32, w float64) {
		ids, pts = append(ids, v), append(pts, plane.Vec{X: w, Y: m.Vertices[v].Z})
	}
	n := len(ws) - 1
	for j := range ws {
		add(f.low[j], ws[j])
	}
	for j := n - 1; j > 0; j-- {
		add(f.high[j], ws[j])
	}
	return ids, pts
}

// tunnel is a stretch of a channel through material.
type tunnel struct {
	step         int
	outer, inner mouth
	plan         []plane.Vec // its outline from above
	low, high    float64     // heights that it may take up
	channel      int
}

// borer adds one channel's tunnels to the mesh.
type borer struct {
	*drilling
	m       *Mesh
	walls   []*standing
	tunnels []tunnel
}

// run adds the openings and flat faces and lists the tunnels between them.
func (b *borer) run() error {
	var outer mouth // of the tunnel in the material, nil in a hollow
	var start []plane.Vec
	for i, s := range b.channel.Steps {
		for k := range b.passes[i] {
			p := &b.passes[i][k]
			if (p.dir > 0) != (outer == nil) {
				return b.fail(MissesBody, i, p.wall)
			}
			o, err := b.walls[p.wall].open(b.m, b.drilling, i, p)
			if err != nil {
				return err
			}
			if outer == nil {
				outer, start = o, b.walls[p.wall].outline(o)
				continue
			}
			b.add(i, outer, o, start, b.walls[p.wall].outline(o))
			outer = nil
		}
		if outer == nil {
			continue
		}
		end := b.section(i, s.To)
		b.add(i, outer, end, start, b.across(i, s.To))
		outer = nil
		next, err := b.shoulder(i, end)
		if err != nil {
			return err
		}
		if next != nil {
			outer, start = next, b.across(i+1, s.To)
		}
	}
	return nil
}

// outline returns the wall's points within an opening, with w rising.
func (st *standing) outline(o *opening) []plane.Vec {
	out := make([]plane.Vec, len(o.points))
	for i, k := range o.points {
		out[i] = st.base[k]
	}
	return out
}

func (b *borer) add(step int, outer, inner mouth, from, to []plane.Vec) {
	t := tunnel{step: step, outer: outer, inner: inner, channel: b.number}
	t.plan = append(t.plan, from...)
	for i := len(to) - 1; i >= 0; i-- {
		t.plan = append(t.plan, to[i])
	}
	low, high := b.channel.Steps[step].span()
	t.low, t.high = b.channel.Z+low, b.channel.Z+high
	b.tunnels = append(b.tunnels, t)
}

// at returns the point of the plan at t and w.
func (b *borer) at(t, w float64) plane.Vec {
	return plane.Polar(1, b.channel.Angle).Mul(t).Add(plane.Polar(1, b.channel.Angle).Right().Mul(-w))
}

// across returns the two sides of step i at t.
func (b *borer) across(i int, t float64) []plane.Vec {
	r := b.channel.Steps[i].Radius
	return []plane.Vec{b.at(t, -r), b.at(t, r)}
}

// section adds the vertices of step i's section at t.
func (b *borer) section(i int, t float64) *flat {
	f := &flat{}
	ws := b.samples[i]
	for j, w := range ws {
		low, high := b.channel.Steps[i].at(w)
		p := b.at(t, w)
		v := b.m.addVertex(p, b.channel.Z+low)
		f.low = append(f.low, v)
		if j > 0 && j < len(ws)-1 {
			v = b.m.addVertex(p, b.channel.Z+high)
		}
		f.high = append(f.high, v)
	}
	return f
}

// shoulder closes step i in the material at its end: a flat face, with the next
// step's section open in it or about it. It returns that section, nil after the
// last step.
func (b *borer) shoulder(i int, end *flat) (mouth, error) {
	ids, pts := end.loop(b.m, b.samples[i])
	if i+1 == len(b.channel.Steps) {
		return nil, b.face(i, ids, [][]plane.Vec{pts}, true)
	}
	next := b.section(i+1, b.channel.Steps[i].To)
	ids2, pts2 := next.loop(b.m, b.samples[i+1])
	if b.channel.Steps[i].Radius > b.channel.Steps[i+1].Radius {
		reverse(ids2)
		reverse(pts2)
		return next, b.face(i, append(ids, ids2...), [][]plane.Vec{pts, pts2}, true)
	}
	reverse(ids)
	reverse(pts)
	return next, b.face(i, append(ids2, ids...), [][]plane.Vec{pts2, pts}, false)
}

func reverse[T any](s []T) {
	for i, j := 0, len(s)-1; i < j; i, j = i+1, j-1 {
		s[i], s[j] = s[j], s[i]
	}
}

// face adds a flat face across the channel, seen from outward or from within.
func (b *borer) face(step int, ids []int32, loops [][]plane.Vec, outward bool) error {
	tris, err := Triangulate(loops)
	if err != nil {
		return b.fail(BadShoulder, step, -1)
	}
	b.m.addFace(ids, tris, outward)
	return nil
}

// addFace adds triangles over vertices by their place in ids, or turned over.
func (m *Mesh) addFace(ids []int32, tris [][3]int32, as bool) {
	for _, t := range tris {
		if !as {
			t[1], t[2] = t[2], t[1]
		}
		m.Facets = append(m.Facets, [3]int32{ids[t[0]], ids[t[1]], ids[t[2]]})
	}
}

// wall adds a tunnel's facets, strip by strip between two generators.
func (b *borer) wall(t tunnel) error {
	for j := range len(b.samples[t.step]) - 1 {
		ol, oh := t.outer.between(j)
		il, ih := t.inner.between(j)
		if err := b.strip(ol, il, true); err != nil {
			return err
		}
		if err := b.strip(oh, ih, false); err != nil {
			return err
		}
	}
	return nil
}

// strip adds the flat strip between two rims, both with w rising; floor says
// that the hollow lies above it.
func (b *borer) strip(outer, inner []int32, floor bool) error {
	ids := append(make([]int32, 0, len(outer)+len(inner)), outer...)
	for i := len(inner) - 1; i >= 0; i-- {
		ids = append(ids, inner[i])
	}
	pts := make([]plane.Vec, len(ids))
	for i, v := range ids {
		p := b.m.Vertices[v]
		pts[i] = plane.Vec{X: p.X, Y: p.Y}.Turn(-b.channel.Angle)
	}
	if len(ids) == 4 && convex(pts) {
		tris := [][3]int32{{0, 1, 2}, {0, 2, 3}}
		if pts[3].Sub(pts[1]).Len() < pts[2].Sub(pts[0]).Len() {
			tris = [][3]int32{{0, 1, 3}, {1, 2, 3}}
		}
		b.m.addFace(ids, tris, floor)
		return nil
	}
	tris, err := Triangulate([][]plane.Vec{pts})
	if err != nil {
		return fmt.Errorf("channel %d at (%.6g, %.6g): %w", b.number, b.m.Vertices[ids[0]].X, b.m.Vertices[ids[0]].Y, err)
	}
	b.m.addFace(ids, tris, floor)
	return nil
}

// convex reports whether four points turn left at each corner.
func convex(p []plane.Vec) bool {
	for i := range 4 {
		if orient(p[i], p[(i+1)%4], p[(i+2)%4]) <= 0 {
			return false
		}
	}
	return true
}

// apart returns an error when tunnels of two channels may have a point in common:
// their heights overlap and so do their outlines from above.
func apart(all []tunnel) error {
	for i, a := range all {
		for _, b := range all[:i] {
			if a.channel == b.channel || a.low > b.high || b.low > a.high || !overlaps(a.plan, b.plan) {
				continue
			}
			return &ChannelError{Kind: MeetsChannel, Channel: b.channel, Step: b.step, Wall: -1, Other: a.channel, Below: math.NaN(), Above: math.NaN()}
		}
	}
	return nil
}

// overlaps reports whether two polygons have a point in common.
func overlaps(p, q []plane.Vec) bool {
	for i, a := range p {
		b := p[(i+1)%len(p)]
		for j, c := range q {
			if touching(a, b, c, q[(j+1)%len(q)]) {
				return true
			}
		}
	}
	return inPolygon(p, q[0]) || inPolygon(q, p[0])
}

// touching reports whether the closed segments ab and cd have a common point.
func touching(a, b, c, d plane.Vec) bool {
	if before(b, a) {
		a, b = b, a
	}
	if before(d, c) {
		c, d = d, c
	}
	return meet(a, b, c, d)
}

// inPolygon reports whether p lies in the polygon, by the crossings of the ray to
// the right.
func inPolygon(poly []plane.Vec, p plane.Vec) bool {
	in := false
	for i, a := range poly {
		b := poly[(i+1)%len(poly)]
		if (a.Y > p.Y) != (b.Y > p.Y) && (orient(a, b, p) > 0) == (b.Y > a.Y) {
			in = !in
		}
	}
	return in
}
