// Package gif renders figures as one animated GIF picture.
//
// All figures of an animation have the same paper. Colours are reduced to those
// of the figures' roles and to steps between them, without dithering, so flat
// areas stay flat and the same figures give the same bytes.
package gif

import (
	"fmt"
	"image"
	"image/color"
	stddraw "image/draw"
	stdgif "image/gif"
	"io"
	"runtime"
	"sync"

	"ringtrack/export/figure"
	"ringtrack/export/png"
)

// Options of Write. The zero value is the default.
type Options struct {
	Width int // pixels, 16..2000; 0 is DefaultWidth
	Delay int // hundredths of a second between pictures; 0 is DefaultDelay
}

// Defaults of Options.
const (
	DefaultWidth = 480
	DefaultDelay = 6
	mostWidth    = 2000
)

// Write writes the figures as an animation that repeats for ever. Errors: no
// figures, a width out of range, and those of the figures and of writing.
func Write(w io.Writer, frames []figure.Figure, opt Options) error {
	if opt.Width == 0 {
		opt.Width = DefaultWidth
	}
	if opt.Delay <= 0 {
		opt.Delay = DefaultDelay
	}
	if len(frames) == 0 {
		return fmt.Errorf("gif: an animation needs pictures")
	}
	if opt.Width > mostWidth {
		return fmt.Errorf("gif: %d pixels wide; at most %d are allowed", opt.Width, mostWidth)
	}
	g := &stdgif.GIF{Image: make([]*image.Paletted, len(frames)), Delay: make([]int, len(frames))}
	errs := make([]error, len(frames))
	pal := colours()
	each(len(frames), func(i int) {
		g.Delay[i] = opt.Delay
		g.Image[i], errs[i] = render(frames[i], opt.Width, pal)
	})
	for i, err := range errs {
		if err != nil {
			return fmt.Errorf("gif: picture %d: %w", i, err)
		}
	}
	if err := stdgif.EncodeAll(w, g); err != nil {
		return fmt.Errorf("gif: %w", err)
	}
	return nil
}

// colours returns the palette: white, ink and the roles' colours, and four steps
// from one to the next of every pair, which is what smoothed edges need.
func colours() color.Palette {
	base := []figure.Colour{{R: 255, G: 255, B: 255, A: 255}, {R: 0x20, G: 0x20, B: 0x20, A: 255}}
	for _, r := range []figure.Role{figure.Pinion, figure.Ring, figure.Contact} {
		look := figure.Look(r)
		base = append(base, look.Stroke)
		if look.Fill.A != 0 {
			base = append(base, look.Fill)
		}
	}
	const steps = 4
	var out color.Palette
	for i, a := range base {
		out = append(out, color.RGBA{a.R, a.G, a.B, 255})
		for _, b := range base[i+1:] {
			for k := 1; k < steps; k++ {
				mix := func(x, y uint8) uint8 { return uint8((int(x)*(steps-k) + int(y)*k) / steps) }
				out = append(out, color.RGBA{mix(a.R, b.R), mix(a.G, b.G), mix(a.B, b.B), 255})
			}
		}
	}
	return out
}

func render(f figure.Figure, width int, pal color.Palette) (*image.Paletted, error) {
	img, err := png.Render(f, png.Options{Width: width})
	if err != nil {
		return nil, err
	}
	out := image.NewPaletted(img.Bounds(), pal)
	stddraw.Draw(out, out.Bounds(), img, image.Point{}, stddraw.Src)
	return out, nil
}

// each calls f for 0..n-1 on all processors.
func each(n int, f func(i int)) {
	var wg sync.WaitGroup
	next := make(chan int)
	for range runtime.GOMAXPROCS(0) {
		wg.Go(func() {
			for i := range next {
				f(i)
			}
		})
	}
	for i := range n {
		next <- i
	}
	close(next)
	wg.Wait()
}
