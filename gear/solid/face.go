package solid

import (
	"math"

	"ringtrack/gear/plane"
)

// face is a stretch of a sloping edge: the parallels, to the left, of one piece
// of the loop; or, where the loop turns right in a corner, the fan about it.
// It is described over u from 0 to 1 and the distance s >= 0 from the loop.
type face struct {
	piece     plane.Piece // nil for a fan
	apex      plane.Vec   // of a fan
	a0, sweep float64     // polar angle of a fan's first normal, and its turn
}

// frame returns the point on the loop at u, the unit normal to the left, and
// how the parallel at distance s runs: its derivative by u.
func (f *face) frame(u, s float64) (p, n, d plane.Vec) {
	if f.piece == nil {
		n = plane.Polar(1, f.a0+u*f.sweep)
		return f.apex, n, n.Right().Mul(-s * f.sweep)
	}
	fr := f.piece.Frame(u)
	speed := fr.V.Len()
	if speed == 0 { // a cusp at an end: the direction just inside
		const inside = 1e-6
		v := f.piece.Frame(u + math.Copysign(inside, 0.5-u)).V
		return fr.P, v.Right().Mul(-1 / v.Len()), v
	}
	return fr.P, fr.V.Right().Mul(-1 / speed), fr.V.Mul(1 - s*fr.K)
}

// at returns the point at u on the parallel at distance s.
func (f *face) at(u, s float64) plane.Vec {
	if s == 0 && f.piece != nil {
		return f.piece.At(u)
	}
	p, n, _ := f.frame(u, s)
	return p.Add(n.Mul(s))
}

// forward reports whether the parallel with derivative d at u runs the loop's way
// there: it has not turned back on itself.
func (f *face) forward(u float64, d plane.Vec) bool {
	return f.piece == nil || d.Dot(f.piece.Frame(u).V) > 0
}

// folds returns the distance at which the parallel begins to turn back on itself
// at the end u of the face; infinite for a circle, which vanishes as a whole.
func (f *face) folds(u float64) float64 {
	switch f.piece.(type) {
	case nil, plane.Line, plane.Arc:
		return math.Inf(1)
	}
	if k := f.piece.Frame(u).K; k > 0 {
		return 1 / k
	}
	return math.Inf(1)
}

// vanishes returns the distance at which a circular face has shrunk to a point,
// infinite for others.
func (f *face) vanishes() float64 {
	if a, ok := f.piece.(plane.Arc); ok && a.Sweep > 0 {
		return a.R
	}
	return math.Inf(1)
}

// divide returns the parameters from u0 to u1, both included, between which the
// face may be drawn straight: no chord leaves it by more than chord, nor its
// parallels at the distance left and, to the other side, right.
func (f *face) divide(u0, u1, left, right, chord float64) []float64 {
	switch p := f.piece.(type) {
	case nil:
		return spread(u0, u1, arcCount(left, (u1-u0)*f.sweep, chord))
	case plane.Line:
		return []float64{u0, u1}
	case plane.Arc:
		r := math.Max(p.R+right, p.R-left)
		if p.Sweep < 0 {
			r = math.Max(p.R+left, p.R-right)
		}
		return spread(u0, u1, arcCount(r, (u1-u0)*p.Sweep, chord))
	}
	return f.divideCurve(u0, u1, left, right, chord)
}

func arcCount(r, sweep, chord float64) int {
	return max(1, int(math.Ceil(math.Abs(sweep)/arcStep(r, chord)-1e-9)))
}

// spread returns n+1 numbers from a to b at equal steps.
func spread(a, b float64, n int) []float64 {
	out := make([]float64, n+1)
	for i := range out {
		out[i] = a + (b-a)*float64(i)/float64(n)
	}
	out[n] = b
	return out
}

// divideCurve shares out the integral of sqrt(curvature) evenly, which is the
// fewest chords to first order; the true departures then decide.
func (f *face) divideCurve(u0, u1, left, right, chord float64) []float64 {
	const m = 48
	var cum [m + 1]float64
	for i := range m {
		fr := f.piece.Frame(u0 + (u1-u0)*(float64(i)+0.5)/m)
		gain := math.Max(1, math.Max(1-left*fr.K, 1+right*fr.K))
		cum[i+1] = cum[i] + fr.V.Len()*math.Sqrt(math.Abs(fr.K)*gain)/m
	}
	n := max(1, int(math.Ceil(cum[m]*(u1-u0)/math.Sqrt(8*chord)-1e-9)))
	for ; ; n += max(1, n/32) {
		us := shareOut(cum[:], u0, u1, n)
		good := true
		for i := 1; i < len(us) && good; i++ {
			good = f.departure(us[i-1], us[i], left, right) <= chord
		}
		if good || n >= pointLimit/64 {
			return us
		}
	}
}

// shareOut returns n+1 parameters from u0 to u1 that divide the cumulative
// integral, given at equal steps, evenly.
func shareOut(cum []float64, u0, u1 float64, n int) []float64 {
	us := spread(u0, u1, n)
	last := len(cum) - 1
	k := 0
	for i := 1; i < n; i++ {
		want := cum[last] * float64(i) / float64(n)
		for k < last-1 && cum[k+1] < want {
			k++
		}
		if step := cum[k+1] - cum[k]; step > 0 {
			us[i] = u0 + (u1-u0)*(float64(k)+(want-cum[k])/step)/float64(last)
		}
	}
	return us
}

// departure returns the greatest distance of the face between u0 and u1 from
// its chord, on the loop and on its parallels at left and right.
func (f *face) departure(u0, u1, left, right float64) float64 {
	switch p := f.piece.(type) {
	case nil:
		return left * (1 - math.Cos((u1-u0)*f.sweep/2))
	case plane.Line:
		return 0
	case plane.Arc:
		r := math.Max(p.R+right, p.R-left)
		if p.Sweep < 0 {
			r = math.Max(p.R+left, p.R-right)
		}
		return r * (1 - math.Cos((u1-u0)*p.Sweep/2))
	}
	worst := f.departureAt(u0, u1, 0)
	if left > 0 {
		worst = math.Max(worst, f.departureAt(u0, u1, left))
	}
	if right > 0 {
		worst = math.Max(worst, f.departureAt(u0, u1, -right))
	}
	return worst
}

// departureAt is departure on the parallel at s: where the curve is farthest from its
// chord its tangent is parallel to it.
func (f *face) departureAt(u0, u1, s float64) float64 {
	a, b := f.at(u0, s), f.at(u1, s)
	dir := b.Sub(a)
	if l := dir.Len(); l > 0 {
		dir = dir.Mul(1 / l)
	}
	lean := func(u float64) float64 { _, _, d := f.frame(u, s); return dir.Cross(d) }
	off := func(u float64) float64 { return math.Abs(dir.Cross(f.at(u, s).Sub(a))) }
	const parts = 4
	worst, l := 0.0, lean(u0)
	for i := range parts {
		lo, hi := u0+(u1-u0)*float64(i)/parts, u0+(u1-u0)*float64(i+1)/parts
		worst = math.Max(worst, off(hi))
		h := lean(hi)
		if (l < 0) != (h < 0) {
			worst = math.Max(worst, off(zero(lean, lo, hi, (hi-lo)*1e-6)))
		}
		l = h
	}
	return worst
}

// zero returns a zero of f between lo and hi, where f changes sign, to within
// width: false position, with bisection where that creeps.
func zero(f func(float64) float64, lo, hi, width float64) float64 {
	a, b := f(lo), f(hi)
	if a == 0 {
		return lo
	}
	if b == 0 {
		return hi
	}
	side := 0
	for range 200 {
		if math.Abs(hi-lo) <= width {
			break
		}
		m := (lo*b - hi*a) / (b - a)
		if !(m > math.Min(lo, hi) && m < math.Max(lo, hi)) {
			m = (lo + hi) / 2
		}
		v := f(m)
		if v == 0 || m == lo || m == hi {
			return m
		}
		if (v > 0) == (b > 0) {
			hi, b = m, v
			if side == 1 {
				a /= 2
			}
			side = 1
		} else {
			lo, a = m, v
			if side == -1 {
				b /= 2
			}
			side = -1
		}
	}
	return (lo + hi) / 2
}
