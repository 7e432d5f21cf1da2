package png

import (
	"image"
	"image/draw"
	"math"

	"golang.org/x/image/vector"

	"ringtrack/export/figure"
	"ringtrack/gear/plane"
)

// flat in pixels: how far chords may leave curves.
const flat = 0.1

// finest width of a line in pixels.
const finest = 1.0

// canvas is a picture in the making.
type canvas struct {
	img   *image.RGBA
	mask  *image.Alpha // coverage of the mark at hand, as large as the picture
	ras   vector.Rasterizer
	scale float64 // pixels to a millimetre
	// Of the mark at hand: pixels of its upper left corner.
	left, top float64
}

func newCanvas(w, h int, scale float64) *canvas {
	c := &canvas{img: image.NewRGBA(image.Rect(0, 0, w, h)), mask: image.NewAlpha(image.Rect(0, 0, w, h)), scale: scale}
	if len(c.img.Pix) > 0 {
		c.img.Pix[0] = 255
	}
	for n := 1; n < len(c.img.Pix); n *= 2 {
		copy(c.img.Pix[n:], c.img.Pix[:n])
	}
	return c
}

// mark draws the filling, then the line over it.
func (c *canvas) mark(m figure.Mark) {
	runs := c.runs(m.Path)
	if m.Style.Fill.A != 0 {
		if area, ok := c.begin(runs, 0); ok {
			for _, r := range runs {
				c.fill(r)
			}
			c.end(area, m.Style.Fill)
		}
	}
	if m.Style.Stroke.A == 0 || m.Style.Width == 0 {
		return
	}
	half := math.Max(m.Style.Width*c.scale, finest) / 2
	if area, ok := c.begin(runs, half+1); ok {
		s := stroker{ras: &c.ras, half: float32(half), left: c.left, top: c.top}
		for _, r := range runs {
			s.run(r, m.Style.Dash, c.scale)
		}
		c.end(area, m.Style.Stroke)
	}
}

// runs returns the path in pixels, y downward.
func (c *canvas) runs(p figure.Path) []figure.Run {
	runs := p.Runs(flat / c.scale)
	h := float64(c.img.Rect.Dy())
	for _, r := range runs {
		for i, v := range r.Points {
			r.Points[i] = plane.Vec{X: v.X * c.scale, Y: h - v.Y*c.scale}
		}
	}
	return runs
}

// begin prepares the rasteriser for the part of the picture that the runs, grown
// by edge pixels, can touch.
func (c *canvas) begin(runs []figure.Run, edge float64) (image.Rectangle, bool) {
	b := plane.NoBox()
	for _, r := range runs {
		for _, v := range r.Points {
			b = b.Add(v)
		}
	}
	w, h := float64(c.img.Rect.Dx()), float64(c.img.Rect.Dy())
	clamp := func(v, hi float64) int { return int(math.Min(math.Max(v, 0), hi)) }
	area := image.Rect(
		clamp(math.Floor(b.Min.X-edge), w), clamp(math.Floor(b.Min.Y-edge), h),
		clamp(math.Ceil(b.Max.X+edge), w), clamp(math.Ceil(b.Max.Y+edge), h))
	if area.Empty() {
		return area, false
	}
	c.left, c.top = float64(area.Min.X), float64(area.Min.Y)
	c.ras.Reset(area.Dx(), area.Dy())
	c.ras.DrawOp = draw.Src // the mask is written anew
	return area, true
}

func (c *canvas) fill(r figure.Run) {
	for i, v := range r.Points {
		x, y := float32(v.X-c.left), float32(v.Y-c.top)
		if i == 0 {
			c.ras.MoveTo(x, y)
		} else {
			c.ras.LineTo(x, y)
		}
	}
	c.ras.ClosePath()
}

// end lays the colour over the picture where the mask says so.
func (c *canvas) end(area image.Rectangle, col figure.Colour) {
	c.ras.Draw(c.mask, area, image.Opaque, image.Point{})
	for y := area.Min.Y; y < area.Max.Y; y++ {
		cover := c.mask.Pix[c.mask.PixOffset(area.Min.X, y) : c.mask.PixOffset(area.Max.X-1, y)+1]
		blend(c.img.Pix[c.img.PixOffset(area.Min.X, y):], cover, col)
	}
}

// blend lays a colour over pixels; the picture is opaque throughout.
func blend(pix, cover []uint8, col figure.Colour) {
	for i, a := range cover {
		if a == 0 {
			continue
		}
		p := pix[4*i : 4*i+4 : 4*i+4]
		k := uint32(a) * uint32(col.A)
		if k == 255*255 {
			p[0], p[1], p[2] = col.R, col.G, col.B
			continue
		}
		p[0] = mix(p[0], col.R, k)
		p[1] = mix(p[1], col.G, k)
		p[2] = mix(p[2], col.B, k)
	}
}

// mix returns the colour k/255² of the way from one to the other.
func mix(from, to uint8, k uint32) uint8 {
	const one = 255 * 255
	return uint8((uint32(from)*(one-k) + uint32(to)*k + one/2) / one)
}
