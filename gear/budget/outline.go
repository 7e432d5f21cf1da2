package budget

import (
	"math"

	"ringtrack/gear/plane"
	"ringtrack/gear/roll"
)

// chord is the greatest distance of the rolled outlines from the exact ones, mm:
// it moves a play by at most 2 chord/cos alpha_w, a fifth of what the comparison
// allows.
const chord = 0.0005

// outlines returns the assembly's real outlines, ready to roll: flanks offset
// exactly by what the making left, scaled by the climate, ring teeth displaced
// one by one. lean moves the pinion sideways by this many times the tilt: half
// the face width, either way, gives the sections at the ends of the face.
//
// Errors: those of the offset.
func (m *model) outlines(b *assembly, lean float64) (roll.Pair, error) {
	c, _ := m.changeOf(b)
	pinion, err := m.p.Pinion.Outline().Offset(c.flank1)
	if err != nil {
		return roll.Pair{}, err
	}
	ring, err := m.p.Ring.Outline().Offset(c.flank2)
	if err != nil {
		return roll.Pair{}, err
	}
	pinion, ring = pinion.Map(plane.Scaled(1+c.grow1)), ring.Map(plane.Scaled(1+c.grow2))
	return roll.Pair{
		Pinion:         facets(pinion, chord),
		Ring:           m.displaced(ring, b),
		CentreDistance: m.a*(1+c.plate) + c.distance,
		PinionOff:      plane.Polar(m.s.PinionRunout.Value/2, b.pinion).Add(plane.Polar(lean*m.s.Tilt.Value, b.tilt)),
		RingOff:        plane.Polar(m.s.RingRunout.Value/2, b.ring),
	}, nil
}

// facets returns the loop as straight pieces, its symmetry kept.
func facets(l plane.Loop, chord float64) plane.Loop {
	pts := l.Flatten(chord)
	out := plane.Loop{Fold: l.Fold, Centre: l.Centre}
	for i := range len(pts) / l.Turns() {
		out.Unit = append(out.Unit, plane.Line{A: pts[i], B: pts[(i+1)%len(pts)]})
	}
	return out
}

// displaced returns the ring as straight pieces, every tooth moved as a rigid
// body with its part of the rim; the root in the middle of a space is stretched.
func (m *model) displaced(ring plane.Loop, b *assembly) plane.Loop {
	h := &shape{oval: m.s.RingOvality.Value / 2, direction: b.oval, steps: b.steps, from: m.joints}
	moves := h.oval != 0
	for _, s := range b.steps {
		moves = moves || s != 0
	}
	if !moves {
		return facets(ring, chord)
	}
	maps := make([]plane.Similarity, m.z2)
	for k := range maps {
		maps[k] = m.rigid(h, k)
	}
	pts := ring.Flatten(chord)
	pitch := 2 * math.Pi / float64(m.z2)
	for i, p := range pts {
		k := int(math.Floor(p.Angle() / pitch)) // tooth k stands half a pitch past space k
		pts[i] = maps[((k%m.z2)+m.z2)%m.z2].Point(p)
	}
	out := plane.Loop{Fold: -1}
	for i := range pts {
		out.Unit = append(out.Unit, plane.Line{A: pts[i], B: pts[(i+1)%len(pts)]})
	}
	return out
}

// rigid returns the motion of tooth k: with the rim outward, along, and turned as
// the rim turns there.
func (m *model) rigid(h *shape, k int) plane.Similarity {
	theta := 2 * math.Pi * (float64(k) + 0.5) / float64(m.z2)
	out, along := h.bent(theta)
	along += m.stepped(h, k)
	turn := 1.5 * h.oval / m.working * math.Sin(2*(theta-h.direction))
	at := plane.Polar(m.working, theta)
	to := at.Add(plane.Polar(out, theta)).Add(plane.Polar(along, theta+math.Pi/2))
	return plane.Moved(at.Mul(-1)).Then(plane.Turned(turn)).Then(plane.Moved(to))
}
