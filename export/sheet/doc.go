// Package sheet lays out drawings of a design: on paper to be read, on paper to
// drill by, and on sheets of material to be cut.
//
// # Drawings to be read
//
// Assembly and Datasheet are figures in paper millimetres. What they show of
// the design is drawn to a scale of ISO 5455 (1:1, 1:2, 1:5 and their decades,
// from memory), which they state.
//
// # Templates
//
// Templates are pages at true size, as large a drawing in tiles as need be,
// with marks of 100 mm and 4 in to be measured on the print. Paper is for
// drilling and for laying parts on: a sheet changes its length by about 0.2 %
// with heat and moisture (common practice), so teeth are not cut by it.
//
// # Cut files
//
// Cut, CutSheets and Layers turn drawn parts into drawings for a cutter: in the
// order of cuts, with bridges, several on a sheet, in layers.
//
// # Units and failure
//
// Lengths are millimetres, angles radians. Errors say which number is out of
// range or what does not fit, in the words of the workshop; no function panics.
package sheet

import (
	"fmt"
	"math"

	"ringtrack/gear/plane"
)

// scaleFor returns the largest scale of the series at which size mm fit room mm.
func scaleFor(size, room float64) float64 {
	for decade := 100.0; decade > 1e-6; decade /= 10 {
		for _, step := range []float64{10, 5, 2} {
			if s := decade * step / 10; s*size <= room {
				return s
			}
		}
	}
	return 1e-6
}

// scaleText writes a scale as a ratio.
func scaleText(s float64) string {
	if s >= 1 {
		return fmt.Sprintf("%.4g : 1", s)
	}
	return fmt.Sprintf("1 : %.4g", 1/s)
}

// view maps design millimetres to the paper.
type view struct {
	scale  float64
	centre plane.Vec // of the design
	at     plane.Vec // where it lies on the paper
}

func (v view) similarity() plane.Similarity {
	return plane.Moved(v.centre.Mul(-1)).Then(plane.Scaled(v.scale)).Then(plane.Moved(v.at))
}

func (v view) point(p plane.Vec) plane.Vec { return v.similarity().Point(p) }

// window is a rectangle on the paper.
type window struct{ min, max plane.Vec }

func (w window) size() plane.Vec   { return w.max.Sub(w.min) }
func (w window) centre() plane.Vec { return w.min.Add(w.max).Mul(0.5) }

func deg(a float64) float64 { return a * 180 / math.Pi }
