package budget

import (
	"math"

	"ringtrack/involute"
)

// zone is where flanks touch: a pinion tooth whose centre stands t pitches
// counter-clockwise of the line of centres touches the ring tooth counter-
// clockwise of it while lo <= t <= hi, and the other one while lo <= -t <= hi.
// Outside, a tip's corner comes near the other flank; between them is a gap.
type zone struct {
	lo, hi       float64
	loPer, hiPer float64   // by which lo and hi fall for each mm that the axes stand further apart
	gaps         []float64 // mm of arc, over t from lo-gapReach to hi+gapReach, evenly
}

// gapReach is how far outside the zone gaps are looked at, pitches. gapSize is
// the number of steps of the table.
const (
	gapReach = 1.25
	gapSize  = 240
)

// contactZone takes the zone from the path of contact. A tooth in mid space
// touches at L0 = rb1 (alpha_w + psi1) along the line of action.
func (m *model) contactZone() zone {
	base := 2 * math.Pi * m.rb1 / float64(m.z1)
	mid := m.rb1 * (m.p.WorkingPressureAngle + m.psi1)
	path := m.p.Path
	from := math.Max(path.RingTip, path.PinionForm)
	to := math.Min(path.PinionTip, path.RingForm)
	z := zone{lo: (from - mid) / base, hi: (to - mid) / base}
	// The line of action turns by da/(a tan alpha_w), and the ring's tip comes
	// nearer to the pinion's base tangent point by da/sin alpha_w.
	z.hiPer = m.rb1 / (m.a * m.tanW) / base
	z.loPer = z.hiPer + 1/(m.tanW*m.cosW*base)
	for i := range gapSize + 1 {
		t := z.lo - gapReach + (z.hi-z.lo+2*gapReach)*float64(i)/gapSize
		switch {
		case t < z.lo:
			z.gaps = append(z.gaps, math.Max(0, m.ringTipGap(t)))
		case t > z.hi:
			z.gaps = append(z.gaps, math.Max(0, m.pinionTipGap(t)))
		default:
			z.gaps = append(z.gaps, 0)
		}
	}
	return z
}

// pinionTipGap returns the gap between the corner of the pinion's tip and the
// ring's flank while other flanks touch, arc on the working circles.
func (m *model) pinionTipGap(t float64) float64 {
	tooth := m.p.Pinion.Tooth
	beta := 2*math.Pi*t/float64(m.z1) + tooth.HalfAngle(tooth.TipRadius)
	sin, cos := math.Sincos(beta)
	x, y := m.a+tooth.TipRadius*cos, tooth.TipRadius*sin
	half := m.psi2 - involute.Inv(involute.PressureAngle(m.rb2, math.Hypot(x, y)))
	return (2*math.Pi*t/float64(m.z2)+half-math.Atan2(y, x))*m.working - m.nominal()/2
}

// ringTipGap is the same for the corner of the ring's tip and the pinion's flank.
func (m *model) ringTipGap(t float64) float64 {
	space := m.p.Ring.Space
	omega := 2*math.Pi*t/float64(m.z2) + space.HalfAngle(space.TipRadius) - m.nominal()/(2*m.working)
	sin, cos := math.Sincos(omega)
	x, y := space.TipRadius*cos-m.a, space.TipRadius*sin
	half := m.psi1 - involute.Inv(involute.PressureAngle(m.rb1, math.Hypot(x, y)))
	return (math.Atan2(y, x) - 2*math.Pi*t/float64(m.z1) - half) * m.working * float64(m.z1) / float64(m.z2)
}

// gap returns the gap of a tooth at t, mm of arc, where the axes stand d mm
// further apart than drawn; beyond the reach that at its end.
func (z *zone) gap(t, d float64) float64 {
	if t < (z.lo+z.hi)/2 {
		t += z.loPer * d
	} else {
		t += z.hiPer * d
	}
	u := (t - z.lo + gapReach) / (z.hi - z.lo + 2*gapReach) * gapSize
	u = math.Min(math.Max(u, 0), gapSize)
	i := min(int(u), gapSize-1)
	return z.gaps[i] + (u-float64(i))*(z.gaps[i+1]-z.gaps[i])
}

// shape is how single ring teeth are displaced.
type shape struct {
	oval      float64 // mm, amplitude of the radius
	direction float64 // place of a largest radius
	steps     []float64
	from      []int   // the spaces in which the steps lie, rising
	pitch     float64 // the ring's pitch is too large by this fraction
}

// bent returns how the ring's rim is displaced at a place: outward and counter-
// clockwise, for a rim that is bent and not stretched (its length stays).
func (h *shape) bent(place float64) (outward, along float64) {
	sin, cos := math.Sincos(2 * (place - h.direction))
	return h.oval * cos, -h.oval / 2 * sin
}

// moved returns how ring tooth k is displaced, as seen from the place x: outward
// there, and counter-clockwise. Tooth k stands between the spaces k and k+1.
func (m *model) moved(h *shape, k int, x float64) (outward, along float64) {
	if h.oval != 0 {
		theta := 2 * math.Pi * (float64(k) + 0.5) / float64(m.z2)
		w, v := h.bent(theta)
		sin, cos := math.Sincos(theta - x)
		outward, along = w*cos-v*sin, w*sin+v*cos
	}
	return outward, along + m.stepped(h, k)
}

// stepped returns by how much the segment of tooth k stands off, mm of arc: the
// sum of the steps at the joints before it, from space 0 on.
func (m *model) stepped(h *shape, k int) float64 {
	if len(h.from) == 0 {
		return 0
	}
	k = ((k % m.z2) + m.z2) % m.z2
	sum := 0.0
	for i, j := range h.from {
		if k >= j { // a joint in space j lies before tooth j
			sum += h.steps[i]
		}
	}
	return sum
}

// local returns what displaced teeth add to the play where the place x faces the
// pinion: the ring's play is bounded by the teeth that touch, so it grows by the
// least that a tooth gives way on one side less the most that one comes on the
// other. The axes stand d mm further apart than drawn.
func (m *model) local(h *shape, x, d float64) float64 {
	z := &m.zone
	at := x * float64(m.z2) / (2 * math.Pi)
	pitch := h.pitch * 2 * math.Pi * m.working / float64(m.z2)
	low, high := math.Inf(1), math.Inf(-1)
	for n := int(math.Ceil(at + z.lo - gapReach)); float64(n) <= at+z.hi+gapReach; n++ {
		t := float64(n) - at
		out, along := m.moved(h, n, x)
		low = math.Min(low, along+out*m.tanW+pitch*t+z.gap(t, d))
	}
	for n := int(math.Ceil(at - z.hi - gapReach)); float64(n) <= at-z.lo+gapReach; n++ {
		t := float64(n) - at
		out, along := m.moved(h, n-1, x)
		high = math.Max(high, along-out*m.tanW+pitch*t-z.gap(-t, d))
	}
	return low - high
}
