package png

import (
	"math"

	"golang.org/x/image/vector"

	"ringtrack/export/figure"
	"ringtrack/gear/plane"
)

// stroker draws lines of a width as areas: one rectangle a chord and one wedge
// a corner, all in the same direction, so that where they overlap they are
// covered once.
type stroker struct {
	ras       *vector.Rasterizer
	half      float32
	left, top float64
}

type point struct{ x, y float32 }

// run draws a run of pixels, dashed by lengths in mm.
func (s *stroker) run(r figure.Run, dash []float64, scale float64) {
	if len(dash) == 0 {
		s.line(r.Points, r.Closed)
		return
	}
	pts := r.Points
	if r.Closed {
		pts = append(append([]plane.Vec(nil), pts...), pts[0])
	}
	s.dashed(pts, dash, scale)
}

// mostDashes of one run.
const mostDashes = 100_000

func (s *stroker) dashed(pts []plane.Vec, dash []float64, scale float64) {
	k, left, count := 0, dash[0]*scale, 0
	cur := []plane.Vec{pts[0]}
	for i := 1; i < len(pts); i++ {
		a, b := pts[i-1], pts[i]
		length := b.Sub(a).Len()
		if length == 0 {
			continue
		}
		along := 0.0
		for ; length-along > left && count < mostDashes; count++ {
			along += left
			q := a.Add(b.Sub(a).Mul(along / length))
			if k%2 == 0 {
				s.line(append(cur, q), false)
			}
			cur = append(cur[:0:0], q)
			k++
			left = dash[k%len(dash)] * scale
			if left <= 0 {
				left = 1e-9
			}
		}
		left -= length - along
		cur = append(cur, b)
	}
	if k%2 == 0 && len(cur) > 1 {
		s.line(cur, false)
	}
}

// line draws through the points. Corners are round, ends square cut.
func (s *stroker) line(pts []plane.Vec, closed bool) {
	n := len(pts)
	last := n - 1
	if closed {
		last = n
	}
	var first, before point // normals, half the width long
	have := false
	for i := 0; i < last; i++ {
		a, b := pts[i], pts[(i+1)%n]
		d := b.Sub(a)
		l := d.Len()
		if l < 1e-6 {
			continue
		}
		k := float64(s.half) / l
		norm := point{float32(d.Y * k), float32(-d.X * k)}
		pa, pb := s.at(a), s.at(b)
		s.chord(pa, pb, norm)
		if have {
			s.corner(pa, before, norm)
		} else {
			first, have = norm, true
		}
		before = norm
	}
	if closed && have {
		s.corner(s.at(pts[0]), before, first)
	}
}

func (s *stroker) at(v plane.Vec) point {
	return point{float32(v.X - s.left), float32(v.Y - s.top)}
}

func (s *stroker) chord(a, b, n point) {
	s.ras.MoveTo(a.x+n.x, a.y+n.y)
	s.ras.LineTo(b.x+n.x, b.y+n.y)
	s.ras.LineTo(b.x-n.x, b.y-n.y)
	s.ras.LineTo(a.x-n.x, a.y-n.y)
	s.ras.ClosePath()
}

// wedge in pixels: a gap less wide at the line's edge is not filled.
const wedge = 0.02

// corner fills the gap that opens at p on the outer side between two chords
// with the normals m and n.
func (s *stroker) corner(p, m, n point) {
	cross := m.x*n.y - m.y*n.x
	dot := m.x*n.x + m.y*n.y
	if dot > 0 && cross*cross < wedge*wedge*s.half*s.half {
		return
	}
	// The gap lies on the side of +m to +n when the line turns away from it.
	a, b := n, m
	if cross < 0 {
		a, b = point{-m.x, -m.y}, point{-n.x, -n.y}
	}
	turn := math.Abs(math.Atan2(float64(cross), float64(dot)))
	s.ras.MoveTo(p.x, p.y)
	s.ras.LineTo(p.x+b.x, p.y+b.y)
	steps := int(turn * math.Sqrt(float64(s.half)/(8*flat)))
	sin64, cos64 := math.Sincos(turn / float64(steps+1))
	sin, cos := float32(sin64), float32(cos64)
	for range steps {
		// The conversions keep every platform's rounding the same.
		b = point{float32(b.x*cos) - float32(b.y*sin), float32(b.x*sin) + float32(b.y*cos)}
		s.ras.LineTo(p.x+b.x, p.y+b.y)
	}
	s.ras.LineTo(p.x+a.x, p.y+a.y)
	s.ras.ClosePath()
}
