package view

import (
	"math"

	"ringtrack/gear/plane"
)

// settle gives a pixel whose tone none of its four neighbours shares the tone
// of the one on its left, or below if that is nothing: faces narrower than a
// pixel would leave dots.
func (r *raster) settle() {
	for y := 1; y < r.h-1; y++ {
		for i := y*r.w + 1; i < (y+1)*r.w-1; i++ {
			t, left, below := r.tone[i], r.tone[i-1], r.tone[i-r.w]
			if t == 0 || t == left || t == below || t == r.tone[i+1] || t == r.tone[i+r.w] {
				continue
			}
			if left == 0 {
				left = below
			}
			if left != 0 {
				r.tone[i] = left
			}
		}
	}
}

// borders returns, for each tone from 1 on, the borders of the area of that
// tone and darker ones, in pixels: closed runs whose last point is the first,
// the area on their left. Those about fewer than smallestArea pixels are left
// out.
func (r *raster) borders(tones int) [][][]plane.Vec {
	out := make([][][]plane.Vec, tones)
	done := make([]uint8, len(r.tone)) // a bit for each tone: the pixel's lower side was walked
	for y := 1; y < r.h; y++ {
		for x := range r.w {
			i := y*r.w + x
			for k := r.tone[i-r.w] + 1; k <= r.tone[i]; k++ {
				if done[i]&(1<<(k-1)) == 0 {
					if l, area := r.border(x, y, k, done); math.Abs(area) >= smallestArea {
						out[k-1] = append(out[k-1], l)
					}
				}
			}
		}
	}
	return out
}

// border walks round the pixels as dark as tone or darker, from the lower side
// of pixel (x, y) to the right, and returns the middles of the sides before and
// after each turn, and the area within.
func (r *raster) border(x, y int, tone uint8, done []uint8) (pts []plane.Vec, area float64) {
	dark := func(x, y int) bool {
		return x >= 0 && y >= 0 && x < r.w && y < r.h && r.tone[y*r.w+x] >= tone
	}
	middle := func(x, y, dx, dy int) plane.Vec {
		return plane.Vec{X: float64(x) + float64(dx)/2, Y: float64(y) + float64(dy)/2}
	}
	startX, startY := x, y
	dx, dy := 1, 0
	for {
		if dx == 1 {
			done[y*r.w+x] |= 1 << (tone - 1)
		}
		before := middle(x, y, dx, dy)
		area -= float64(y * dx)
		x, y = x+dx, y+dy
		// The pixels ahead, on the left and on the right of the way.
		left := dark(x+(dx-dy-1)/2, y+(dx+dy-1)/2)
		right := dark(x+(dx+dy-1)/2, y+(dy-dx-1)/2)
		switch {
		case !left:
			pts, dx, dy = append(pts, before), -dy, dx
			pts = append(pts, middle(x, y, dx, dy))
		case right:
			pts, dx, dy = append(pts, before), dy, -dx
			pts = append(pts, middle(x, y, dx, dy))
		}
		if x == startX && y == startY && dx == 1 {
			return append(pts, pts[0]), area
		}
	}
}
