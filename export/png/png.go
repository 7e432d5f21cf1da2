// Package png renders figures as PNG pictures.
//
// Pictures are anti-aliased, on white, of 8 bits a colour. A figure has the
// same bytes whenever it is rendered. Lines thinner than a pixel are drawn a
// pixel wide, so that they stay visible. Lengths of a figure are millimetres
// of paper; the width in pixels decides the scale.
//
// Errors are those of the figure, of a size out of range and of writing; no
// function panics.
package png

import (
	"fmt"
	"image"
	"io"
	"math"

	"ringtrack/export/figure"
)

// Options of Write. The zero value is the default.
type Options struct {
	Width int // pixels, 16..MaxSide; 0 is DefaultWidth
}

const (
	// DefaultWidth shows a figure whole on a common screen.
	DefaultWidth = 1200
	// MaxSide is the largest width and height in pixels.
	MaxSide = 4800
)

// Write renders the figure. The height follows from the paper's proportions.
// It does not close w.
//
// Errors, before the first byte: those of the figure's Marks, a width or a
// height out of range.
func Write(w io.Writer, f figure.Figure, opt Options) error {
	img, err := Render(f, opt)
	if err != nil {
		return err
	}
	if err := encode(w, img); err != nil {
		return fmt.Errorf("png: %w", err)
	}
	return nil
}

// Render returns the picture that Write encodes.
func Render(f figure.Figure, opt Options) (*image.RGBA, error) {
	if opt.Width == 0 {
		opt.Width = DefaultWidth
	}
	marks, err := f.Marks()
	if err != nil {
		return nil, fmt.Errorf("png: %w", err)
	}
	scale := float64(opt.Width) / f.Width
	height := int(math.Ceil(f.Height*scale - 1e-6))
	if opt.Width < 16 || opt.Width > MaxSide || height > MaxSide {
		return nil, fmt.Errorf("png: %d by %d pixels; 16 to %d are allowed", opt.Width, height, MaxSide)
	}
	c := newCanvas(opt.Width, max(height, 1), scale)
	for _, m := range marks {
		c.mark(m)
	}
	return c.img, nil
}
