package roll

import "math"

// Meeting follows one tooth of the pinion and the ring tooth that it meets when
// the pinion drives forward (counter-clockwise) or backward, as if there were no
// other teeth, and returns the first and the last contact, in the order of a
// pinion turning counter-clockwise, at which the two flanks touch with a common
// tangent. ok is false where they never do, as between polygons.
//
// The two events are bracketed among 400 positions and bisected to rounding.
func (e *Engine) Meeting(tooth int, forward bool) (first, last Contact, ok bool) {
	if e.pinion.straight() && e.ring.straight() {
		return Contact{}, Contact{}, false
	}
	const n = 400
	middle := -e.pinion.phase - float64(tooth)*e.pinion.pitch
	half := math.Min(e.limit, math.Pi*(1-1e-9))
	var b bench
	at := func(i int) float64 { return middle + half*(2*float64(i)/n-1) }
	smooth := func(phi float64) bool { return e.alone(&b, tooth, forward, phi).Smooth() }
	from, to, start := 0, -1, -1
	for i := range n + 1 {
		switch s := smooth(at(i)); {
		case s && start < 0:
			start = i
		case !s:
			start = -1
		}
		if start >= 0 && i-start > to-from {
			from, to = start, i
		}
	}
	if to < from {
		return Contact{}, Contact{}, false
	}
	lo, hi := at(from), at(to)
	if from > 0 {
		lo = edge(smooth, lo, at(from-1))
	}
	if to < n {
		hi = edge(smooth, hi, at(to+1))
	}
	return e.alone(&b, tooth, forward, lo), e.alone(&b, tooth, forward, hi), true
}

// edge returns the last angle, from in toward out, at which holds is true.
func edge(holds func(float64) bool, in, out float64) float64 {
	for range 60 {
		m := (in + out) / 2
		if m == in || m == out {
			break
		}
		if holds(m) {
			in = m
		} else {
			out = m
		}
	}
	return in
}

// alone returns where one pinion tooth meets its ring tooth.
func (e *Engine) alone(b *bench, tooth int, forward bool, phi float64) Contact {
	at := e.position(phi)
	b.reset()
	t := b.place(e, tooth, e.angleOf(tooth, at), at)
	mate := t.space
	if !forward {
		mate = (t.space + e.ring.teeth - 1) % e.ring.teeth
	}
	b.pair(e, at, t, mate, forward)
	if len(b.pairs) == 0 {
		return Contact{}
	}
	return e.contact(&b.pairs[0], at)
}

// straight reports whether the outline has no curve.
func (m *member) straight() bool {
	for i := range m.elems {
		if m.elems[i].piece != nil {
			return false
		}
	}
	return true
}
