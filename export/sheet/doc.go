// Package sheet lays out drawings of a design on paper.
//
// A sheet is a figure in paper millimetres; what it shows of the design is
// drawn to a scale of ISO 5455 (1:1, 1:2, 1:5 and their decades, from memory),
// which the sheet states.
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

// chord returns the chordal tolerance of curves in a view: a hundredth of a
// millimetre on the paper.
func (v view) chord() float64 { return 0.01 / v.scale }

// window is a rectangle on the paper.
type window struct{ min, max plane.Vec }

func (w window) size() plane.Vec   { return w.max.Sub(w.min) }
func (w window) centre() plane.Vec { return w.min.Add(w.max).Mul(0.5) }

func deg(a float64) float64 { return a * 180 / math.Pi }
