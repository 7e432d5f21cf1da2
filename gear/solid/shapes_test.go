package solid

import (
	"math"

	"ringtrack/gear/plane"
)

// toothed returns a counter-clockwise loop of z trapezoidal teeth between the
// radii r1 < r2, with arcs on both circles.
func toothed(z int, r1, r2 float64) plane.Loop {
	p := 2 * math.Pi / float64(z)
	at := func(r, k float64) plane.Vec { return plane.Polar(r, k*p) }
	return plane.Loop{Fold: z, Unit: []plane.Piece{
		plane.Arc{R: r1, A0: 0, Sweep: 0.4 * p},
		plane.Line{A: at(r1, 0.4), B: at(r2, 0.55)},
		plane.Arc{R: r2, A0: 0.55 * p, Sweep: 0.3 * p},
		plane.Line{A: at(r2, 0.85), B: at(r1, 1)},
	}}
}

// ring returns a ring of z inner teeth with holes on a circle.
func ring(z int, module float64, holes int) plane.Region {
	r := module * float64(z) / 2
	reg := plane.Region{
		Outer: plane.CircleLoop(plane.Vec{}, r+8*module),
		Holes: []plane.Loop{toothed(z, r-module, r+1.25*module).Reverse()},
	}
	for i := range holes {
		c := plane.Polar(r+5*module, 2*math.Pi*float64(i)/float64(holes))
		reg.Holes = append(reg.Holes, plane.CircleLoop(c, 1.1*module).Reverse())
	}
	return reg
}

// pinion returns a toothed wheel with a round bore.
func pinion(z int, module float64) plane.Region {
	r := module * float64(z) / 2
	return plane.Region{
		Outer: toothed(z, r-1.25*module, r+module),
		Holes: []plane.Loop{plane.CircleLoop(plane.Vec{}, r/3).Reverse()},
	}
}

// polygons flattens a region.
func polygons(r plane.Region, chord float64) [][]plane.Vec {
	var out [][]plane.Vec
	for _, l := range r.Loops() {
		out = append(out, l.Flatten(chord))
	}
	return out
}

// annulus returns two circles of n points each.
func annulus(n int, r1, r2 float64) [][]plane.Vec {
	out := [][]plane.Vec{make([]plane.Vec, n), make([]plane.Vec, n)}
	for i := range n {
		a := 2 * math.Pi * float64(i) / float64(n)
		out[0][i], out[1][n-1-i] = plane.Polar(r2, a), plane.Polar(r1, a)
	}
	return out
}

func count(loops [][]plane.Vec) int {
	n := 0
	for _, l := range loops {
		n += len(l)
	}
	return n
}
