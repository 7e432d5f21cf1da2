// Package part makes bodies of teeth: the pinion with its bore, the ring with
// its rim and screw holes.
//
// A Body is a toothed section, loops with their roles as designed and as drawn,
// and a Shape: hub, flange, set screws, edges and what else makes it a solid.
// Lengths are millimetres, angles radians; the place is that of the part's
// files: the gear's centre at the origin, the pinion's tooth or the ring's space
// on +x, z from 0 up, as it lies on the bed.
package part

import (
	"ringtrack/gear"
	"ringtrack/gear/plane"
)

// Contour is one loop of a body's section.
type Contour struct {
	Name     string // teeth, outside, bore, screw hole
	Role     gear.Role
	Designed plane.Loop
	Drawn    plane.Loop // what the files hold: allowances in it; zero until Draw
}

// Body is a part.
type Body struct {
	Name     string    // pinion, ring
	Height   float64   // face width: of the toothed part alone
	Contours []Contour // of the toothed section, the outer one first
	Shape    Shape     // what it has beyond its section
}

// Region returns the section as designed.
func (b Body) Region() plane.Region {
	return b.region(func(c Contour) plane.Loop { return c.Designed })
}

// DrawnRegion returns the section as drawn.
func (b Body) DrawnRegion() plane.Region {
	return b.region(func(c Contour) plane.Loop { return c.Drawn })
}

func (b Body) region(of func(Contour) plane.Loop) plane.Region {
	var r plane.Region
	for i, c := range b.Contours {
		if i == 0 {
			r.Outer = of(c)
		} else {
			r.Holes = append(r.Holes, of(c))
		}
	}
	return r
}

// Contour returns the body's first contour of that name.
func (b Body) Contour(name string) (Contour, bool) {
	for _, c := range b.Contours {
		if c.Name == name {
			return c, true
		}
	}
	return Contour{}, false
}

// Draw works out every drawn contour from the designed one. The error names the
// first contour that is lost.
func (b *Body) Draw(m gear.Making) (lost string, err error) {
	for i := range b.Contours {
		c := &b.Contours[i]
		if c.Drawn, err = m.Draw(c.Designed, c.Role); err != nil {
			return c.Name, err
		}
	}
	return "", nil
}

// Names of contours.
const (
	TeethContour   = "teeth"
	OutsideContour = "outside"
	BoreContour    = "bore"
	ScrewHole      = "screw hole"
)
