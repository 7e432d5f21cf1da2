package plane

import "math"

// crossing is a point common to two pieces, at parameter u of the first and v
// of the second.
type crossing struct{ u, v float64 }

// crossings returns where two pieces cross or touch, polished to rounding.
// Both are sampled into chords, chords that meet or nearly meet start a Newton
// iteration on the exact pieces, and results are kept once.
func crossings(p, q Piece) []crossing {
	if !p.Box().Meets(q.Box()) {
		return nil
	}
	ps, qs := samples(p), samples(q)
	var out []crossing
	for i := 1; i < len(ps); i++ {
		pb := chordBox(ps[i-1], ps[i])
		for j := 1; j < len(qs); j++ {
			if !pb.Meets(chordBox(qs[j-1], qs[j])) {
				continue
			}
			u0 := (float64(i) - 0.5) / float64(len(ps)-1)
			v0 := (float64(j) - 0.5) / float64(len(qs)-1)
			if c, ok := polish(p, q, u0, v0); ok && !known(out, c) {
				out = append(out, c)
			}
		}
	}
	return out
}

func known(list []crossing, c crossing) bool {
	for _, k := range list {
		if math.Abs(k.u-c.u) < 1e-7 && math.Abs(k.v-c.v) < 1e-7 {
			return true
		}
	}
	return false
}

// samples returns points along a piece, enough that a chord's sagitta is small
// beside its length.
func samples(p Piece) []Vec {
	n := 1
	switch a := p.(type) {
	case Arc:
		n = 1 + int(math.Abs(a.Sweep)/0.2)
	case Curve:
		n = 12
	}
	out := make([]Vec, n+1)
	for i := range out {
		out[i] = p.At(float64(i) / float64(n))
	}
	return out
}

// chordBox is the chord's box grown by a tenth of its length, which holds the
// piece of curve between.
func chordBox(a, b Vec) Box {
	return NoBox().Add(a).Add(b).Grow(0.1*b.Sub(a).Len() + 1e-12)
}

// polish runs Newton's method on p(u) = q(v) from a start.
func polish(p, q Piece, u, v float64) (crossing, bool) {
	const edge = 1e-9
	for range 40 {
		f, g := p.Frame(u), q.Frame(v)
		d := g.P.Sub(f.P)
		det := f.V.Cross(g.V)
		if math.Abs(det) < 1e-14*f.V.Len()*g.V.Len() {
			return crossing{}, false
		}
		du, dv := d.Cross(g.V)/det, d.Cross(f.V)/det
		un := math.Min(1.05, math.Max(-0.05, u+du))
		vn := math.Min(1.05, math.Max(-0.05, v+dv))
		done := math.Abs(un-u) < 1e-15 && math.Abs(vn-v) < 1e-15
		u, v = un, vn
		if done {
			break
		}
	}
	if u < -edge || u > 1+edge || v < -edge || v > 1+edge {
		return crossing{}, false
	}
	u, v = math.Min(1, math.Max(0, u)), math.Min(1, math.Max(0, v))
	if p.At(u).Sub(q.At(v)).Len() > 1e-9 {
		return crossing{}, false
	}
	return crossing{u, v}, true
}
