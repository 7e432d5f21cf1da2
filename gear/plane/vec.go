package plane

import "math"

// Vec is a point or a direction in the plane, in mm.
type Vec struct{ X, Y float64 }

// Polar returns the point at radius r and angle a about the origin.
func Polar(r, a float64) Vec {
	s, c := math.Sincos(a)
	return Vec{r * c, r * s}
}

// Add returns v + w.
func (v Vec) Add(w Vec) Vec { return Vec{v.X + w.X, v.Y + w.Y} }

// Sub returns v - w.
func (v Vec) Sub(w Vec) Vec { return Vec{v.X - w.X, v.Y - w.Y} }

// Mul returns k v.
func (v Vec) Mul(k float64) Vec { return Vec{k * v.X, k * v.Y} }

// Dot returns the scalar product of v and w.
func (v Vec) Dot(w Vec) float64 { return v.X*w.X + v.Y*w.Y }

// Cross returns the z component of v x w: positive when w lies to the left of v.
func (v Vec) Cross(w Vec) float64 { return v.X*w.Y - v.Y*w.X }

// Len returns the length of v.
func (v Vec) Len() float64 { return math.Hypot(v.X, v.Y) }

// Angle returns the polar angle of v in (-pi, pi].
func (v Vec) Angle() float64 { return math.Atan2(v.Y, v.X) }

// Right returns v turned by a quarter clockwise.
func (v Vec) Right() Vec { return Vec{v.Y, -v.X} }

// Turn returns v turned by a about the origin.
func (v Vec) Turn(a float64) Vec {
	s, c := math.Sincos(a)
	return Vec{c*v.X - s*v.Y, s*v.X + c*v.Y}
}

// unit returns v / |v|, or the zero vector for the zero vector.
func (v Vec) unit() Vec {
	l := v.Len()
	if l == 0 {
		return Vec{}
	}
	return Vec{v.X / l, v.Y / l}
}

// Box is an axis-parallel rectangle. The zero value is not empty: use NoBox.
type Box struct{ Min, Max Vec }

// NoBox returns the empty box: anything added to it becomes the box.
func NoBox() Box {
	i := math.Inf(1)
	return Box{Vec{i, i}, Vec{-i, -i}}
}

// Add returns the least box that holds b and p.
func (b Box) Add(p Vec) Box {
	return Box{
		Vec{math.Min(b.Min.X, p.X), math.Min(b.Min.Y, p.Y)},
		Vec{math.Max(b.Max.X, p.X), math.Max(b.Max.Y, p.Y)},
	}
}

// Union returns the least box that holds both.
func (b Box) Union(c Box) Box { return b.Add(c.Min).Add(c.Max) }

// Grow returns the box with every side moved outward by d.
func (b Box) Grow(d float64) Box {
	return Box{Vec{b.Min.X - d, b.Min.Y - d}, Vec{b.Max.X + d, b.Max.Y + d}}
}

// Meets reports whether the two boxes share a point.
func (b Box) Meets(c Box) bool {
	return b.Min.X <= c.Max.X && c.Min.X <= b.Max.X && b.Min.Y <= c.Max.Y && c.Min.Y <= b.Max.Y
}

// Size returns width and height.
func (b Box) Size() Vec { return b.Max.Sub(b.Min) }

// Similarity maps p to Scale * Turn(Angle)(p, or its mirror image in the x axis) + Shift.
type Similarity struct {
	c, s   float64 // scale*cos, scale*sin
	mirror bool    // y is negated first
	Shift  Vec
}

// Same returns the identity.
func Same() Similarity { return Similarity{c: 1} }

// Turned returns the turn by a about the origin.
func Turned(a float64) Similarity {
	s, c := math.Sincos(a)
	return Similarity{c: c, s: s}
}

// Moved returns the translation by v.
func Moved(v Vec) Similarity { return Similarity{c: 1, Shift: v} }

// Scaled returns the scaling by k > 0 about the origin.
func Scaled(k float64) Similarity { return Similarity{c: k} }

// Mirrored returns the reflection in the x axis: (x, y) becomes (x, -y).
func Mirrored() Similarity { return Similarity{c: 1, mirror: true} }

// Scale returns the factor by which lengths change.
func (m Similarity) Scale() float64 { return math.Hypot(m.c, m.s) }

// Mirrors reports whether the map turns left into right.
func (m Similarity) Mirrors() bool { return m.mirror }

// Point maps a point.
func (m Similarity) Point(p Vec) Vec { return m.Direction(p).Add(m.Shift) }

// Direction maps a difference of points.
func (m Similarity) Direction(p Vec) Vec {
	if m.mirror {
		p.Y = -p.Y
	}
	return Vec{m.c*p.X - m.s*p.Y, m.s*p.X + m.c*p.Y}
}

// Then returns the map that does m first and n after it.
func (m Similarity) Then(n Similarity) Similarity {
	s := m.s
	if n.mirror {
		s = -s
	}
	return Similarity{
		c: n.c*m.c - n.s*s, s: n.s*m.c + n.c*s,
		mirror: m.mirror != n.mirror, Shift: n.Point(m.Shift),
	}
}

// angle returns the turn of the map, mirror aside.
func (m Similarity) angle() float64 { return math.Atan2(m.s, m.c) }
