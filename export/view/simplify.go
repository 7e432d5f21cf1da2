package view

import "ringtrack/gear/plane"

// simplify returns some of the points, the first and the last among them, such
// that none of the others is more than tol away from the line through those
// that are left.
//
// Method: Douglas and Peucker. Where the two ends are the same point, the
// distance is from that point, which splits a closed run at its far side.
func simplify(pts []plane.Vec, tol float64) []plane.Vec {
	keep := make([]bool, len(pts))
	keep[0], keep[len(pts)-1] = true, true
	stack := [][2]int{{0, len(pts) - 1}}
	for len(stack) > 0 {
		i, j := stack[len(stack)-1][0], stack[len(stack)-1][1]
		stack = stack[:len(stack)-1]
		worst, at := tol*tol, -1
		a, d := pts[i], pts[j].Sub(pts[i])
		dd := d.Dot(d)
		for k := i + 1; k < j; k++ {
			if far := apart(pts[k].Sub(a), d, dd); far > worst {
				worst, at = far, k
			}
		}
		if at >= 0 {
			keep[at] = true
			stack = append(stack, [2]int{i, at}, [2]int{at, j})
		}
	}
	out := pts[:0:0]
	for i, k := range keep {
		if k {
			out = append(out, pts[i])
		}
	}
	return out
}

// apart returns the square of the distance of v from the stretch from 0 to d; dd
// is d's square.
func apart(v, d plane.Vec, dd float64) float64 {
	along := v.Dot(d)
	switch {
	case along <= 0:
		return v.Dot(v)
	case along >= dd:
		v = v.Sub(d)
		return v.Dot(v)
	}
	c := v.Cross(d)
	return c * c / dd
}
