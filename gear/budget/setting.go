package budget

import "math"

// Setting is how to set the centre distance on the built drive: turn the
// platform until the tightest tooth faces the pinion, push the platform away
// from the pinion (the tight side of the bearing's play), lay paper of the
// thickness given between the teeth, push the motor outward until the paper is
// just held, and fasten it. Parts, run-outs and joints are then in the setting.
type Setting struct {
	Spot     Spot    // where to set it
	Play     float64 // mm of backlash to leave there: the target and what climate can still take
	Distance float64 // mm: where that puts the motor when parts are as drawn and the platform stands mid play
	Move     float64 // mm from the drawn distance; negative: toward the ring's centre
	// Paper is the thickness of a strip that runs through the mesh and lies on both
	// flanks of a tooth: half the normal backlash, mm.
	Paper float64
}

// setting works out the setting for a turn.
func (m *model) setting(b *assembly, t *Turn, target float64, rows []Cause) Setting {
	s := Setting{Spot: t.Tightest, Play: target}
	for _, c := range rows {
		if c.Name == Temperature || c.Name == Moisture {
			s.Play -= c.Effect.Least
		}
	}
	s.Paper = s.Play * m.cosW / 2
	// What the tightest spot lacks against true teeth stays the same while the
	// motor moves, to second order in the move.
	c, _ := m.changeOf(b)
	lack := m.play(c) - t.Tightest.Play
	s.Move = m.distanceFor(s.Play+lack, c) - m.s.BearingPlay.Value/2
	s.Distance = m.a + s.Move
	return s
}

// distanceFor returns how far to move the axes apart, mm, for true teeth to have
// that play. Play falls as the distance grows; where even the least distance
// leaves too little, that one is returned.
func (m *model) distanceFor(play float64, c change) float64 {
	f := func(d float64) float64 {
		k := c
		k.distance += d
		return m.play(k) - play
	}
	lo, hi := -(m.a - (m.rb2 - m.rb1)), m.p.Pinion.Module
	for f(hi) > 0 && hi < m.a {
		hi *= 2
	}
	if f(lo) <= 0 {
		return lo
	}
	for range 100 {
		if mid := (lo + hi) / 2; f(mid) > 0 {
			lo = mid
		} else {
			hi = mid
		}
	}
	return (lo + hi) / 2
}

// touching returns the contact ratio after the axes moved apart by d mm.
func (m *model) touching(d float64) float64 {
	a, base := m.a+d, m.rb2-m.rb1
	if a <= base {
		return 0
	}
	rt := m.p.Ring.TipDiameter / 2
	tip := math.Sqrt(math.Max(0, rt*rt-m.rb2*m.rb2)) - math.Sqrt((a-base)*(a+base))
	from := math.Max(tip, m.p.Path.PinionForm)
	return math.Max(0, m.p.Path.PinionTip-from) * float64(m.z1) / (2 * math.Pi * m.rb1)
}
