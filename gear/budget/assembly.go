package budget

import (
	"math"
	"math/rand/v2"
)

// assembly is one build on one day.
type assembly struct {
	distance       float64 // mm, centre distance as set less nominal
	flank1, flank2 float64 // mm by which the flanks came out too fat
	inBearing      float64 // mm by which the ring's axis has moved toward the pinion
	temperature    float64 // degC
	damp           float64 // share of the moisture, 0 to 1
	ring, oval     float64 // directions, as in Directions
	pinion, tilt   float64
	steps          []float64 // mm, for each joint; their sum is 0
}

// change returns what moves the pair as a whole, and the error of the ring's pitch.
func (m *model) changeOf(b *assembly) (change, float64) {
	c, pitch := m.climate(b.temperature, b.damp)
	c.distance = b.distance - b.inBearing
	c.flank1, c.flank2 = b.flank1, b.flank2
	return c, pitch
}

// asDrawn returns the assembly of true parts at the drawn distance, set
// temperature and dry, with its deviations round the turn where they were
// measured; where not, so that all are tightest at the first joint, or at space 0
// without joints.
func (m *model) asDrawn(d *Directions) assembly {
	b := assembly{temperature: m.s.Climate.Set}
	if d != nil {
		b.ring, b.oval, b.pinion, b.tilt = d.Ring, d.Oval, d.Pinion, d.Tilt
		b.steps = closed(append([]float64(nil), d.Steps...))
	} else {
		x := 0.0
		if len(m.joints) > 0 {
			x = 2 * math.Pi * float64(m.joints[0]) / float64(m.z2)
		}
		phi := m.pinionAngle(x, 0)
		b.ring, b.oval, b.pinion, b.tilt = x+math.Pi, x+math.Pi/2, -phi, math.Pi/2-phi
	}
	if len(b.steps) == 0 {
		b.steps = m.alternating()
	}
	return b
}

// alternating returns steps of the full size, the first one too narrow; with an
// odd number of joints the last is none, because the ring closes.
func (m *model) alternating() []float64 {
	steps := make([]float64, len(m.joints))
	for i := range len(steps) - len(steps)%2 {
		steps[i] = m.s.JointStep.Value
		if i%2 == 0 {
			steps[i] = -steps[i]
		}
	}
	return steps
}

// closed takes the mean off the steps: around the ring they add up to nothing.
func closed(steps []float64) []float64 {
	sum := 0.0
	for _, v := range steps {
		sum += v
	}
	for i := range steps {
		steps[i] -= sum / float64(len(steps))
	}
	return steps
}

// dice draws assemblies.
type dice struct {
	source rand.PCG
	rand   *rand.Rand
	seed   uint64
}

func newDice(seed uint64) *dice {
	d := &dice{seed: seed}
	d.rand = rand.New(&d.source)
	return d
}

// disc draws one coordinate of a point that is even over the disc of radius 1:
// its standard deviation is a half.
func (d *dice) disc() float64 {
	r := math.Sqrt(d.rand.Float64())
	return r * math.Cos(2*math.Pi*d.rand.Float64())
}

// normal draws with twice the standard deviation equal to 1.
func (d *dice) normal() float64 { return d.rand.NormFloat64() / 2 }

func (d *dice) direction() float64 { return 2 * math.Pi * d.rand.Float64() }

// draw fills in build number n. Every number is drawn, whatever the amounts, so
// that a build keeps its luck when an amount changes.
func (d *dice) draw(m *model, n int, b *assembly) {
	d.source.Seed(mix(d.seed), mix(d.seed^mix(uint64(n)+1)))
	s := &m.s
	b.flank1 = s.MakingPinion.Value * d.normal()
	b.flank2 = s.MakingRing.Value * d.normal()
	b.distance = s.CentreDistance.Value * d.normal()
	b.inBearing = s.BearingPlay.Value / 2 * d.disc()
	c := s.Climate
	b.temperature = (c.Low+c.High)/2 + (c.High-c.Low)/2*d.disc()
	b.damp = (1 + d.disc()) / 2
	b.ring, b.oval, b.pinion, b.tilt = d.direction(), d.direction(), d.direction(), d.direction()
	b.steps = b.steps[:0]
	for range m.joints {
		b.steps = append(b.steps, s.JointStep.Value*d.normal())
	}
	closed(b.steps)
}

// mix scatters a number over 64 bits (the finalizer of splitmix64, from memory).
func mix(v uint64) uint64 {
	v += 0x9e3779b97f4a7c15
	v = (v ^ v>>30) * 0xbf58476d1ce4e5b9
	v = (v ^ v>>27) * 0x94d049bb133111eb
	return v ^ v>>31
}
