package budget

import "math"

// pinionAngle returns the angle at which the pinion stands while the place x
// faces it in the platform's turn number c, counted from 0.
func (m *model) pinionAngle(x float64, c int) float64 {
	return -(x + 2*math.Pi*float64(c)) * float64(m.z2) / float64(m.z1)
}

// Turn is the backlash round a whole turn of the platform, of parts as drawn at
// the drawn centre distance, with the bearing in the middle of its play.
type Turn struct {
	Measured bool    // directions were given; otherwise all deviations are laid together at one place
	Points   []Point // in the order of place
	Tightest Spot    // over all meetings of all teeth
	Loosest  Spot
	Joints   []int // the spaces that hold a joint
	JointAt  []float64
	Steps    []float64 // mm: the pitch across each joint is too large by this
}

// Point is the backlash at one place of the ring, mm.
type Point struct {
	Place    float64 // radians, on the ring
	Space    int     // the space nearest to it
	Play     float64 // in the first turn
	Least    float64 // over all turns until the same teeth meet again
	Greatest float64
}

// Spot is one place of the turn.
type Spot struct {
	Place       float64 // radians, on the ring
	Platform    float64 // radians in [0, 2 pi): how far the platform has turned then
	Space       int     // the ring's space that faces the pinion
	PinionAngle float64 // radians in [0, 2 pi)
	Play        float64 // mm
	Joint       int     // the joint within contact, counted from 1; 0: none
}

// A turn looks at about this many places of the ring, but at least 4 a pitch and
// at most 12, and at each at no more than this many phases of the pinion, evenly.
const (
	placesOfTurn = 2000
	mostPhases   = 32
)

// turn works out the turn of an assembly.
func (m *model) turn(b *assembly) Turn {
	h := &shape{oval: m.s.RingOvality.Value / 2, direction: b.oval, steps: b.steps, from: m.joints}
	c, pitch := m.changeOf(b)
	h.pitch = pitch
	per := min(12, max(4, (placesOfTurn+m.z2-1)/m.z2))
	t := Turn{Joints: m.joints, Steps: b.steps, Points: make([]Point, m.z2*per)}
	for _, j := range m.joints {
		t.JointAt = append(t.JointAt, 2*math.Pi*float64(j)/float64(m.z2))
	}
	t.Tightest.Play, t.Loosest.Play = math.Inf(1), math.Inf(-1)
	for i := range t.Points {
		x := 2 * math.Pi * float64(i) / float64(len(t.Points))
		t.Points[i] = m.point(b, h, c, x, &t)
	}
	return t
}

// turns returns after how many turns of the platform the same teeth meet again.
func (m *model) turns() int {
	a, b := m.z1, m.z2
	for b != 0 {
		a, b = b, a%b
	}
	return m.z1 / a
}

// point works out one place and keeps the tightest and loosest spots.
func (m *model) point(b *assembly, h *shape, c change, x float64, t *Turn) Point {
	p := Point{Place: x, Space: int(math.Round(x*float64(m.z2)/(2*math.Pi))) % m.z2, Least: math.Inf(1), Greatest: math.Inf(-1)}
	c.distance -= m.s.RingRunout.Value / 2 * math.Cos(b.ring-x)
	c.deeper -= h.oval * math.Cos(2*(x-h.direction))
	local := m.local(h, x, m.reaches(c))
	n := m.turns()
	step := max(1, n/mostPhases)
	tight, loose := 0, 0
	least, greatest := math.Inf(1), math.Inf(-1)
	for k := 0; k < n; k += step {
		v := m.pinionPart(m.pinionAngle(x, k), b.pinion, b.tilt)
		if v < least {
			least, tight = v, k
		}
		if v > greatest {
			greatest, loose = v, k
		}
	}
	p.Play = m.meeting(b, c, x, 0) + local
	p.Least = m.meeting(b, c, x, tight) + local
	p.Greatest = m.meeting(b, c, x, loose) + local
	if p.Least < t.Tightest.Play-1e-12 { // equal places: the first
		t.Tightest = m.spot(x, tight, p.Least)
	}
	if p.Greatest > t.Loosest.Play+1e-12 {
		t.Loosest = m.spot(x, loose, p.Greatest)
	}
	return p
}

// meeting returns the play of true ring teeth at place x in turn k of the
// platform; c holds everything but the pinion's deviations.
func (m *model) meeting(b *assembly, c change, x float64, k int) float64 {
	phi := m.pinionAngle(x, k)
	c.distance += m.s.PinionRunout.Value / 2 * math.Cos(phi+b.pinion)
	return m.leaning(c, phi+b.tilt)
}

func (m *model) spot(x float64, k int, play float64) Spot {
	s := Spot{Place: x, Platform: around(-x), PinionAngle: around(m.pinionAngle(x, k)), Play: play}
	at := x * float64(m.z2) / (2 * math.Pi)
	s.Space = int(math.Round(at)) % m.z2
	reach := math.Max(math.Abs(m.zone.lo), math.Abs(m.zone.hi)) + 0.5
	for i, j := range m.joints {
		d := math.Abs(at - float64(j))
		if math.Min(d, float64(m.z2)-d) <= reach {
			s.Joint = i + 1
			break
		}
	}
	return s
}

// around brings an angle into [0, 2 pi).
func around(a float64) float64 {
	a = math.Mod(a, 2*math.Pi)
	if a < 0 {
		return a + 2*math.Pi
	}
	return a + 0 // no negative zero
}
