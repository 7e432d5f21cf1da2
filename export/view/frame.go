package view

import (
	"fmt"
	"math"

	"ringtrack/gear/plane"
	"ringtrack/gear/solid"
)

// frame is the eye's: three directions of length 1, at right angles.
type frame struct{ right, up, toward solid.Point3 }

func frameOf(from solid.Point3) (frame, error) {
	l := from.Len()
	if !(l > 0) || math.IsInf(l, 0) {
		return frame{}, fmt.Errorf("view: the direction (%g, %g, %g); it must be finite and not zero", from.X, from.Y, from.Z)
	}
	f := frame{toward: from.Mul(1 / l)}
	f.right = solid.Point3{X: -f.toward.Y, Y: f.toward.X}
	if l = f.right.Len(); l < 1e-9 { // along z
		f.right, l = solid.Point3{X: 1}, 1
	}
	f.right = f.right.Mul(1 / l)
	f.up = f.toward.Cross(f.right)
	return f, nil
}

// see returns p as seen: to the right, upward and towards the eye.
func (f frame) see(p solid.Point3) solid.Point3 {
	return solid.Point3{X: p.Dot(f.right), Y: p.Dot(f.up), Z: p.Dot(f.toward)}
}

// box returns the box of the corners of facets, as seen.
func (f frame) box(m *solid.Mesh) plane.Box {
	b := plane.NoBox()
	for _, k := range m.Facets {
		for _, c := range k {
			p := f.see(m.Vertices[c])
			b = b.Add(plane.Vec{X: p.X, Y: p.Y})
		}
	}
	return b
}

// lamp returns the direction to the lamp in the eye's frame, length 1: over the
// left shoulder, or under it for an eye that looks up, so that the flat face
// before it is bright.
func (f frame) lamp() solid.Point3 {
	l := solid.Point3{X: -6. / 11, Y: 6. / 11, Z: 7. / 11}
	if f.toward.Z < 0 {
		l.Y = -l.Y
	}
	return l
}
