package view

import (
	"math"

	"ringtrack/gear/plane"
	"ringtrack/gear/solid"
)

// part is a stretch of an edge, about a pixel long, that is seen or not as a
// whole.
type part struct {
	from, to plane.Vec
	length   float64 // pixels
	kind     kind
	seen     bool
}

// parts returns a chain's stretches in order, each tried against the raster.
func (s *scene) parts(buf []part, edges []edge, c chain) []part {
	buf = buf[:0]
	for _, end := range c.ends {
		e := edges[end/2]
		a, b := s.at[vertex(edges, end)], s.at[vertex(edges, end^1)]
		d := b.Sub(a)
		length := math.Hypot(d.X, d.Y)
		n, beside := math.Max(1, math.Ceil(length)), 0.0
		for i := 0.0; i < n; i++ {
			p, q := a.Add(d.Mul(i/n)), a.Add(d.Mul((i+1)/n))
			seen, outer := s.seen(a.Add(d.Mul((i+0.5)/n)), e)
			if outer {
				beside++
			}
			buf = append(buf, part{
				from: plane.Vec{X: p.X, Y: p.Y}, to: plane.Vec{X: q.X, Y: q.Y},
				length: length / n, kind: e.kind, seen: seen,
			})
		}
		if beside > n/2 { // it bounds the part
			for i := len(buf) - int(n); i < len(buf); i++ {
				buf[i].kind = contour
			}
		}
	}
	return buf
}

const (
	// doubt in pixels is how far a face may lie before an edge without hiding it.
	doubt = 0.6
	// steepest in pixels: a face beside the edge rises by no more than that
	// within a pixel.
	steepest = 3
	// bulge in pixels is how far an edge, or a corner of its facet, may lie from the
	// plane of another facet for both to be of one round face.
	bulge = 1.5
	// alike is the least cosine between that facet's normal and those at the edge:
	// that of 30 degrees.
	alike = 0.866
	// most of the four pixels about a point decide, but half are enough to be
	// empty at the part's outline.
	most, half = 3, 2
)

// seen reports whether point p of an edge is before what the raster shows at
// most of the four pixels about it, and whether half of them are empty. The
// edge's own faces do not hide it.
func (s *scene) seen(p solid.Point3, e edge) (seen, outer bool) {
	x, y := int(math.Floor(p.X-0.5)), int(math.Floor(p.Y-0.5))
	free, empty := 0, 0
	for i := range 4 {
		px, py := x+i%2, y+i/2
		if px < 0 || py < 0 || px >= s.raster.w || py >= s.raster.h {
			empty++
			continue
		}
		at := py*s.raster.w + px
		if s.raster.face[at] < 0 {
			empty++
			continue
		}
		before := float64(s.raster.depth[at]) - p.Z
		dx, dy := float64(px)+0.5-p.X, float64(py)+0.5-p.Y
		if before <= doubt || s.own(p, e.front, s.raster.face[at], before, dx, dy) ||
			e.other >= 0 && s.own(p, e.other, s.raster.face[at], before, dx, dy) {
			free++
		}
	}
	outer = empty >= half
	return outer || free+empty >= most, outer
}

// own reports whether facet g, seen (dx, dy) pixels beside point p of an edge of
// facet f and so far before it, is of the face that f belongs to.
func (s *scene) own(p solid.Point3, f, g int32, before, dx, dy float64) bool {
	if s.faces[f].front && before <= math.Min(s.rise(f, dx, dy), steepest)+doubt {
		return true
	}
	if f == g {
		return true
	}
	if s.patch[f] != s.patch[g] || s.bend(f, g) < alike {
		return false
	}
	n, k := s.faces[g].normal, s.facets[f]
	level := n.Dot(s.at[s.facets[g][0]])
	for _, v := range [...]solid.Point3{p, s.at[k[0]], s.at[k[1]], s.at[k[2]]} {
		if math.Abs(n.Dot(v)-level) <= bulge {
			return true
		}
	}
	return false
}

// rise returns by how much face f comes nearer over (dx, dy) pixels.
func (s *scene) rise(f int32, dx, dy float64) float64 {
	n := s.faces[f].normal
	return -(n.X*dx + n.Y*dy) / n.Z
}
