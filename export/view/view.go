package view

import (
	"fmt"
	"math"

	"ringtrack/export/figure"
	"ringtrack/gear/plane"
	"ringtrack/gear/solid"
)

// Options of Draw. The zero value is the default.
type Options struct {
	Scale  float64 // mm of paper for 1 mm, above 0; 0 is 1
	Crease float64 // radians, 0..pi: facets that meet at more are an edge; 0 is DefaultCrease
	Raster int     // pixels of the greater side, 64..4096; 0 is DefaultRaster
	Tones  int     // 1..8; 0 is DefaultTones

	// Look gives the colours: Fill of the brightest faces, Stroke of lines and,
	// halfway to it, of the darkest faces; Width in mm of contours, creases have
	// two thirds of it. Without a Fill there are no tones. The zero Look is that of
	// figure.Plate.
	Look figure.Style
}

const (
	// DefaultCrease is 25 degrees: more than the facets of round walls turn at
	// the tolerances of printing, less than a chamfer of 45 degrees does.
	DefaultCrease = 25 * math.Pi / 180
	// DefaultRaster gives pixels of a tenth of a millimetre on a sheet of A4.
	DefaultRaster = 1800
	// DefaultTones tell the faces of a prism apart and stay few enough to be
	// seen as steps.
	DefaultTones = 6
)

// Drawing is a part as seen.
type Drawing struct {
	Marks []figure.Mark // tones from bright to dark, then creases, then contours
	Box   plane.Box     // mm of paper, of the part without its lines' width
}

// From returns the direction from the part towards an eye at turn about z,
// counter-clockwise from x, and at rise above the horizon, radians.
func From(turn, rise float64) solid.Point3 {
	st, ct := math.Sincos(turn)
	sr, cr := math.Sincos(rise)
	return solid.Point3{X: ct * cr, Y: st * cr, Z: sr}
}

// Above returns the usual direction: 35 degrees above the horizon, from the
// front and a little to the right, so that no face of a part that is symmetrical
// about its axes is seen edge-on.
func Above() solid.Point3 { return From(-67*math.Pi/180, 35*math.Pi/180) }

// Below returns Above's mirror image: from under the part.
func Below() solid.Point3 { return From(-67*math.Pi/180, -35*math.Pi/180) }

// Extent returns the box of the part as seen, in mm of the mesh.
//
// Errors: those of Draw that concern the mesh and the direction.
func Extent(m *solid.Mesh, from solid.Point3) (plane.Box, error) {
	f, err := frameOf(from)
	if err == nil {
		err = check(m)
	}
	if err != nil {
		return plane.Box{}, err
	}
	return f.box(m), nil
}

// Draw draws the mesh as seen by an eye in the direction from, of any length;
// z is upward on paper, or y if from is along z.
//
// Errors: a mesh without facets, with a corner that it does not have or a
// coordinate that is not finite or beyond 1e6 mm; a direction of no length or
// not finite; an option out of range; nothing to be seen.
func Draw(m *solid.Mesh, from solid.Point3, opt Options) (Drawing, error) {
	if err := opt.complete(); err != nil {
		return Drawing{}, err
	}
	f, err := frameOf(from)
	if err == nil {
		err = check(m)
	}
	if err != nil {
		return Drawing{}, err
	}
	box := f.box(m)
	side := math.Max(box.Max.X-box.Min.X, box.Max.Y-box.Min.Y)
	if !(side > 0) {
		return Drawing{}, fmt.Errorf("view: the part has no extent")
	}
	s := newScene(m, f, box, side/float64(opt.Raster), math.Cos(opt.Crease))
	k := s.pixel * opt.Scale
	toPaper := plane.Scaled(k).Then(plane.Moved(s.corner.Mul(opt.Scale)))
	d := Drawing{Box: plane.Box{Min: box.Min.Mul(opt.Scale), Max: box.Max.Mul(opt.Scale)}}
	d.Marks = append(d.Marks, s.tones(opt, f.lamp(), toPaper)...)
	d.Marks = append(d.Marks, s.lines(opt, toPaper, figure.PaperChord/k)...)
	return d, nil
}

// complete fills in the defaults.
func (o *Options) complete() error {
	if o.Scale == 0 {
		o.Scale = 1
	}
	if o.Crease == 0 {
		o.Crease = DefaultCrease
	}
	if o.Raster == 0 {
		o.Raster = DefaultRaster
	}
	if o.Tones == 0 {
		o.Tones = DefaultTones
	}
	if o.Look.Fill.A == 0 && o.Look.Stroke.A == 0 && o.Look.Width == 0 {
		o.Look = figure.Look(figure.Plate)
	}
	switch {
	case !(o.Scale > 0 && o.Scale <= 1e6):
		return fmt.Errorf("view: a scale of %g; it must be above 0 and at most 1e6", o.Scale)
	case !(o.Crease > 0 && o.Crease <= math.Pi):
		return fmt.Errorf("view: a crease of %g rad; it must be above 0 and at most pi", o.Crease)
	case o.Raster < 64 || o.Raster > 4096:
		return fmt.Errorf("view: a raster of %d pixels; 64 to 4096 are allowed", o.Raster)
	case o.Tones < 1 || o.Tones > mostTones:
		return fmt.Errorf("view: %d tones; 1 to %d are allowed", o.Tones, mostTones)
	case !(o.Look.Width >= 0 && o.Look.Width <= 100):
		return fmt.Errorf("view: lines %g mm wide; 0 to 100 are allowed", o.Look.Width)
	}
	return nil
}

// farthest in mm that a coordinate may be from zero.
const farthest = 1e6

func check(m *solid.Mesh) error {
	if m == nil || len(m.Facets) == 0 {
		return fmt.Errorf("view: the mesh has no facets")
	}
	within := func(v float64) bool { return v >= -farthest && v <= farthest }
	for i, v := range m.Vertices {
		if !within(v.X) || !within(v.Y) || !within(v.Z) {
			return fmt.Errorf("view: vertex %d at (%g, %g, %g); finite numbers to %g mm are allowed", i, v.X, v.Y, v.Z, farthest)
		}
	}
	for i, f := range m.Facets {
		for _, c := range f {
			if c < 0 || int(c) >= len(m.Vertices) {
				return fmt.Errorf("view: facet %d names vertex %d; there are %d", i, c, len(m.Vertices))
			}
		}
	}
	return nil
}
