package plane

import "math"

// nodes divides the curve so that every chord's sagitta is at most chord: the
// nodes share out the integral of sqrt(curvature) evenly, which is the fewest
// that the tolerance allows to first order, and the true sagittas then decide.
func (c Curve) nodes(chord float64) []float64 {
	const m = 64
	var cum [m + 1]float64
	at := func(u float64) float64 {
		f := c.Frame(u)
		return f.V.Len() * math.Sqrt(math.Abs(f.K))
	}
	for i := range m {
		// Midpoint rule: sound where curvature grows without bound at an end.
		cum[i+1] = cum[i] + at((float64(i)+0.5)/m)/m
	}
	n := int(math.Ceil(cum[m]/math.Sqrt(8*chord) - 1e-9))
	for n = max(n, 1); ; n += max(1, n/32) {
		us := share(cum[:], n)
		if c.sagitta(us) <= chord {
			return us
		}
	}
}

// share returns n+1 parameters from 0 to 1 that divide the cumulative integral
// evenly; cum has its values at equal steps of u.
func share(cum []float64, n int) []float64 {
	us := even(n)
	last := len(cum) - 1
	k := 0
	for i := 1; i < n; i++ {
		want := cum[last] * float64(i) / float64(n)
		for k < last-1 && cum[k+1] < want {
			k++
		}
		if step := cum[k+1] - cum[k]; step > 0 {
			us[i] = (float64(k) + (want-cum[k])/step) / float64(last)
		}
	}
	return us
}

// sagitta returns the greatest distance of the curve from its chords.
func (c Curve) sagitta(us []float64) float64 {
	worst := 0.0
	for i := 1; i < len(us); i++ {
		a, b := c.At(us[i-1]), c.At(us[i])
		worst = math.Max(worst, c.departure(us[i-1], us[i], a, b))
	}
	return worst
}

// departure returns the greatest distance of the curve between u0 and u1 from
// the chord ab: at the chord's ends the curve leaves and meets it on opposite
// sides, and where it is farthest its tangent is parallel to it.
func (c Curve) departure(u0, u1 float64, a, b Vec) float64 {
	dir := b.Sub(a).unit()
	lean := func(u float64) float64 { return dir.Cross(c.Frame(u).V) }
	worst := 0.0
	const parts = 4
	for i := range parts {
		lo := u0 + (u1-u0)*float64(i)/parts
		hi := u0 + (u1-u0)*float64(i+1)/parts
		worst = math.Max(worst, math.Abs(dir.Cross(c.At(hi).Sub(a))))
		if l, h := lean(lo), lean(hi); (l < 0) != (h < 0) {
			z := rootLoose(lean, lo, hi)
			worst = math.Max(worst, math.Abs(dir.Cross(c.At(z).Sub(a))))
		}
	}
	return worst
}

// rootLoose returns a zero of f between lo and hi to a millionth of the
// interval: the departure at its maximum is flat, so its value is then good to
// 1e-12 of itself.
func rootLoose(f func(float64) float64, lo, hi float64) float64 {
	a, b := f(lo), f(hi)
	width := (hi - lo) * 1e-6
	for hi-lo > width && b != a {
		m := (lo*b - hi*a) / (b - a)
		if m-lo < 0.05*(hi-lo) || hi-m < 0.05*(hi-lo) {
			m = (lo + hi) / 2
		}
		v := f(m)
		if v == 0 {
			return m
		}
		if (v < 0) == (a < 0) {
			lo, a = m, v
		} else {
			hi, b = m, v
		}
	}
	return (lo + hi) / 2
}
