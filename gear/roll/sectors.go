package roll

import (
	"math"

	"ringtrack/gear/plane"
)

// sector returns the number of the tooth, not yet reduced, to which the polar
// direction v about the centre belongs: from the middle of one space to the next.
func (m *member) sector(v plane.Vec) int {
	s := (v.Angle() - m.phase) / m.pitch
	if !m.spaceFirst {
		s += 0.5
	}
	return int(math.Floor(s))
}

// border returns the direction of the border before sector s.
func (m *member) border(s int) plane.Vec {
	a := m.phase + float64(s)*m.pitch
	if !m.spaceFirst {
		a -= m.pitch / 2
	}
	return plane.Polar(1, a)
}

// cutAtBorders splits elements at the middles of the spaces and gives every
// element its tooth.
func (m *member) cutAtBorders(all []element) []element {
	out := make([]element, 0, len(all)+2*m.teeth)
	for i := range all {
		rest := all[i]
		sa, sb := m.sector(rest.a.Sub(m.centre)), m.sector(rest.b.Sub(m.centre))
		for range m.teeth {
			if sa == sb {
				break
			}
			part, more, ok := m.cut(rest, sa)
			if !ok {
				sb = m.sector(rest.at((rest.u0 + rest.u1) / 2).Sub(m.centre))
				break
			}
			s := m.sector(part.at((part.u0 + part.u1) / 2).Sub(m.centre))
			out = append(out, m.owned(part, s))
			rest = more
			sa = m.sector(rest.at(rest.u0 + (rest.u1-rest.u0)*1e-6).Sub(m.centre))
		}
		out = append(out, m.owned(rest, sb))
	}
	return out
}

// owned returns the element with the tooth of sector s.
func (m *member) owned(e element, s int) element {
	e.tooth = int32(((s % m.teeth) + m.teeth) % m.teeth)
	return e
}

// cut splits the element where it leaves its first sector, sa, if it does so
// inside.
func (m *member) cut(e element, sa int) (before, after element, ok bool) {
	a, b := e.a.Sub(m.centre), e.b.Sub(m.centre)
	edge := sa // leaving clockwise, through the border before sector sa
	if a.Cross(b) > 0 {
		edge = sa + 1
	}
	d := m.border(edge)
	f := func(u float64) float64 { return d.Cross(e.at(u).Sub(m.centre)) }
	if f(e.u0)*f(e.u1) >= 0 {
		return e, e, false
	}
	u := signChange(f, e.u0, e.u1)
	if !(u > e.u0 && u < e.u1) {
		return e, e, false
	}
	before, after = e.split(u)
	if before.a == before.b || after.a == after.b {
		return e, e, false
	}
	return before, after, true
}

// deal sorts the elements by tooth, in the loop's order within each.
func (m *member) deal(all []element) {
	n := len(all)
	start := 0
	for i := range n { // begin at a border, so that no tooth is torn apart
		if all[i].tooth != all[(i+n-1)%n].tooth {
			start = i
			break
		}
	}
	m.first = make([]int32, m.teeth+1)
	for i := range all {
		m.first[all[i].tooth+1]++
	}
	for i := range m.teeth {
		m.first[i+1] += m.first[i]
	}
	next := append([]int32(nil), m.first...)
	m.elems = make([]element, n)
	for k := range n {
		e := all[(start+k)%n]
		m.elems[next[e.tooth]] = e
		next[e.tooth]++
	}
}

// of returns the elements of tooth i.
func (m *member) of(i int) []element { return m.elems[m.first[i]:m.first[i+1]] }
