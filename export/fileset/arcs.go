package fileset

import (
	"fmt"
	"slices"

	"ringtrack/export/figure"
	"ringtrack/gear/plane"
)

// withArcs returns the drawing with arcs within tol mm for its smooth pieces.
func withArcs(d figure.Drawing, tol float64) (figure.Drawing, error) {
	out := figure.Drawing{Notes: d.Notes, Outlines: slices.Clone(d.Outlines)}
	for i := range out.Outlines {
		o := &out.Outlines[i]
		var err error
		if o.Loop, err = fittedLoop(o.Loop, tol); err != nil {
			return out, fmt.Errorf("outline %d on layer %s: %w", i, o.Layer, err)
		}
	}
	return out, nil
}

// fittedRegion returns the region with arcs within tol mm for its smooth pieces.
func fittedRegion(r plane.Region, tol float64) (plane.Region, error) {
	outer, err := fittedLoop(r.Outer, tol)
	out := plane.Region{Outer: outer}
	for _, h := range r.Holes {
		l, e := fittedLoop(h, tol)
		if err == nil {
			err = e
		}
		out.Holes = append(out.Holes, l)
	}
	return out, err
}

func fittedLoop(l plane.Loop, tol float64) (plane.Loop, error) {
	smooth := func(p plane.Piece) bool { _, ok := p.(plane.Curve); return ok }
	if !slices.ContainsFunc(l.Unit, smooth) {
		return l, nil
	}
	fit, err := l.Arcs(tol)
	return fit.Loop, err
}
