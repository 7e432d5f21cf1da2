package solid

import "math"

// Welder numbers points of 32-bit coordinates, equal ones alike. The zero value
// is ready for use. It keeps 12 bytes a point and up to 16 for finding it.
type Welder struct {
	points [][3]float32
	table  []int32 // number + 1, open addressing
}

// Add returns the number of point p: that of an earlier equal point, otherwise
// the next. Negative zero equals zero. NaN equals nothing.
func (w *Welder) Add(p [3]float32) int32 {
	w.Reserve(len(w.points) + 1)
	for i := range p {
		p[i] += 0 // turns -0 into 0
	}
	for at := w.place(p); ; at = (at + 1) & uint32(len(w.table)-1) {
		k := w.table[at] - 1
		if k < 0 {
			w.points = append(w.points, p)
			w.table[at] = int32(len(w.points))
			return int32(len(w.points) - 1)
		}
		if w.points[k] == p {
			return k
		}
	}
}

// Points returns the points by number. The caller must not change them while
// more are added.
func (w *Welder) Points() [][3]float32 { return w.points }

// Reserve makes room for n points in all.
func (w *Welder) Reserve(n int) {
	if 2*n <= len(w.table) {
		return
	}
	size := 1024
	for size < 2*n {
		size *= 2
	}
	w.table = make([]int32, size)
	for k, p := range w.points {
		at := w.place(p)
		for w.table[at] != 0 {
			at = (at + 1) & uint32(size-1)
		}
		w.table[at] = int32(k + 1)
	}
}

// place returns where the search for p starts.
func (w *Welder) place(p [3]float32) uint32 { return pointHash(p) & uint32(len(w.table)-1) }

// pointHash mixes a point's bits into 32.
func pointHash(p [3]float32) uint32 {
	const a, b = 0x9E3779B97F4A7C15, 0xBF58476D1CE4E5B9
	k := uint64(math.Float32bits(p[0]))<<32 | uint64(math.Float32bits(p[1]))
	k = (k ^ uint64(math.Float32bits(p[2]))*b) * a
	k = (k ^ k>>32) * b
	return uint32(k >> 32)
}
