package view

import (
	"math"

	"ringtrack/gear/solid"
)

// raster holds, for each pixel's centre, the nearest facet, its depth and its
// tone. Row 0 is the lowest.
type raster struct {
	w, h  int
	depth []float32
	face  []int32 // -1 where there is nothing
	tone  []uint8 // 0 where there is nothing
}

func newRaster(w, h int) raster {
	r := raster{w: w, h: h, depth: make([]float32, w*h), face: make([]int32, w*h)}
	lowest := float32(math.Inf(-1))
	for i := range r.depth {
		r.depth[i], r.face[i] = lowest, -1
	}
	return r
}

// facet enters a facet that faces the eye.
func (r *raster) facet(a, b, c, normal solid.Point3, face int32) {
	// On the facet's plane the depth changes by gx a pixel to the right and by
	// gy a pixel upward; rounding must not carry it beyond the corners.
	gx, gy := -normal.X/normal.Z, -normal.Y/normal.Z
	near, far := max(a.Z, b.Z, c.Z), min(a.Z, b.Z, c.Z)
	y0 := max(0, int(math.Ceil(min(a.Y, b.Y, c.Y)-0.5)))
	y1 := min(r.h-1, int(math.Floor(max(a.Y, b.Y, c.Y)-0.5)))
	for y := y0; y <= y1; y++ {
		fy := float64(y) + 0.5
		lo, hi := math.Inf(1), math.Inf(-1)
		lo, hi = crossing(a, b, fy, lo, hi)
		lo, hi = crossing(b, c, fy, lo, hi)
		lo, hi = crossing(c, a, fy, lo, hi)
		if !(lo <= hi) {
			continue
		}
		x0, x1 := max(0, int(math.Ceil(lo-0.5))), min(r.w-1, int(math.Floor(hi-0.5)))
		z := a.Z + (float64(x0)+0.5-a.X)*gx + (fy-a.Y)*gy
		for i, end := y*r.w+x0, y*r.w+x1; i <= end; i++ {
			if d := float32(min(max(z, far), near)); d > r.depth[i] {
				r.depth[i], r.face[i] = d, face
			}
			z += gx
		}
	}
}

// crossing widens lo..hi by where the side from p to q crosses the height y.
func crossing(p, q solid.Point3, y, lo, hi float64) (float64, float64) {
	if p.Y > q.Y {
		p, q = q, p // the same number whichever way the side runs
	}
	if y < p.Y || y > q.Y {
		return lo, hi
	}
	x := p.X
	if q.Y > p.Y {
		x += (q.X - p.X) * ((y - p.Y) / (q.Y - p.Y))
	} else {
		lo, hi = min(lo, q.X), max(hi, q.X)
	}
	return min(lo, x), max(hi, x)
}
