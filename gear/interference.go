package gear

import "math"

// Margin is one condition of free running: how much is left, in mm, positive
// when clear, at the nominal centre distance and at the worse end of its spread.
type Margin struct {
	Applies  bool // false when the geometry has no such place
	Nominal  float64
	AtSpread float64 // the lesser of both ends
	AtCentre float64 // the centre distance at which that is
}

// Clear reports whether nothing touches at either end.
func (m Margin) Clear() bool { return !m.Applies || math.Min(m.Nominal, m.AtSpread) >= 0 }

// Least returns the smaller of the two margins, +Inf where none applies.
func (m Margin) Least() float64 {
	if !m.Applies {
		return math.Inf(1)
	}
	return math.Min(m.Nominal, m.AtSpread)
}

// Interference holds the four margins.
type Interference struct {
	RingTip   Margin // ring's tip on the pinion's root: along the line of action
	PinionTip Margin // pinion's tip on the ring's root corner: along the line of action
	TipOnTip  Margin // where the tip circles cross: arc on the ring's tip circle
	Radial    Margin // the same while the pinion is pushed in radially
}

// margins works out all four at the nominal distance and both ends.
func (s *state) margins() Interference {
	var out Interference
	at := func(f func(mesh) (float64, bool)) Margin {
		var m Margin
		m.Nominal, m.Applies = f(s.nominal)
		m.AtSpread, m.AtCentre = m.Nominal, s.nominal.a
		for _, e := range []mesh{s.near, s.far} {
			if v, ok := f(e); ok && (!m.Applies || v < m.AtSpread) {
				if !m.Applies {
					m.Nominal = v
				}
				m.AtSpread, m.AtCentre, m.Applies = v, e.a, true
			}
		}
		return m
	}
	out.RingTip = at(func(m mesh) (float64, bool) {
		p := m.path(s.tooth, s.space)
		return p.ringTip - p.pinionForm, true
	})
	out.PinionTip = at(func(m mesh) (float64, bool) {
		p := m.path(s.tooth, s.space)
		return p.ringForm - p.pinionTip, true
	})
	out.TipOnTip = at(func(m mesh) (float64, bool) { return m.tipToTip(s.tooth.TipRadius, s.space.TipRadius) })
	out.Radial = at(func(m mesh) (float64, bool) { return m.radialAssembly(s.tooth.TipRadius, s.space.TipRadius) })
	return out
}
