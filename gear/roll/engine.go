package roll

import (
	"math"
	"sync"

	"ringtrack/gear/plane"
)

// Engine is a pair made ready for rolling. It may be used by several goroutines
// at once.
type Engine struct {
	opt          Options
	a            float64
	pinion, ring *member
	ratio        float64   // pinion's teeth over the ring's: ring angle for pinion angle
	working      float64   // radius of the ring's working circle
	rise, fall   []flank   // of the ring's teeth: flanks along which its loop runs outward, inward
	ringTip      []float64 // least squared radius of each ring tooth
	ringRoot     []float64 // greatest squared radius of each ring space
	floor        float64   // least squared radius of the ring
	limit        float64   // pinion teeth farther than this from +x reach no ring tooth
	deep         bool      // radii alone do not rule out that a tip runs into a root
	scratch      sync.Pool
}

// New makes a pair ready.
//
// Errors: *InputError when a loop is not closed, crosses itself, holds what is no
// number, runs the wrong way or has no teeth, when the centre distance is not
// positive, when the loops do not reach each other or cross however the ring is
// turned.
func New(p Pair, o Options) (*Engine, error) {
	if err := p.checkNumbers(); err != nil {
		return nil, err
	}
	o = o.withDefaults()
	pin, err := newMember("pinion", p.Pinion, p.PinionOff, o.PinionTeeth, false, o.Join)
	if err != nil {
		return nil, err
	}
	ring, err := newMember("ring", p.Ring, p.RingOff, o.RingTeeth, true, o.Join)
	if err != nil {
		return nil, err
	}
	e := &Engine{opt: o, a: p.CentreDistance, pinion: pin, ring: ring}
	if err := e.checkReach(); err != nil {
		return nil, err
	}
	e.ratio = float64(pin.teeth) / float64(ring.teeth)
	e.working = e.a * float64(ring.teeth) / float64(ring.teeth-pin.teeth)
	e.placeRing()
	e.setLimit()
	e.scratch.New = func() any { return new(bench) }
	return e, nil
}

// checkReach refuses members of which one has no place inside the other.
func (e *Engine) checkReach() error {
	p, r := e.pinion, e.ring
	if p.teeth >= r.teeth {
		return bad("", "the pinion has %d teeth and the ring %d; the ring must have more", p.teeth, r.teeth)
	}
	if reach := e.a + p.greatest; reach <= r.least {
		return bad("", "the outlines do not reach each other: the pinion ends %.6g mm from the ring's axis, the ring's teeth begin at %.6g mm",
			reach, r.least)
	}
	depth := r.outer - r.inner
	if e.a+p.inner >= r.outer || e.a+p.outer >= r.outer+depth {
		return bad("", "the outlines cross however the ring is turned: the pinion reaches %.6g mm from the ring's axis, the ring's roots lie at %.6g mm",
			e.a+p.outer, r.outer)
	}
	return nil
}

// placeRing collects the ring's flanks, tips and roots.
func (e *Engine) placeRing() {
	r := e.ring
	e.rise, e.fall = make([]flank, r.teeth), make([]flank, r.teeth)
	e.ringTip, e.ringRoot = make([]float64, r.teeth), make([]float64, r.teeth)
	e.floor = math.Inf(1)
	for j := range r.teeth {
		e.ringTip[j] = math.Inf(1)
	}
	for j := range r.teeth {
		elems := r.of(j)
		out, in := make([]seg, 0, len(elems)/2+4), make([]seg, 0, len(elems)/2+4)
		for k := range elems {
			el := &elems[k]
			out, in = e.ringStand().appendSegs(out, in, r.first[j]+int32(k), 0)
			lo, hi := el.reach(plane.Vec{})
			e.ringTip[j] = math.Min(e.ringTip[j], lo*lo)
			s := r.space(el.at((el.u0 + el.u1) / 2).Sub(r.centre))
			e.ringRoot[s] = math.Max(e.ringRoot[s], hi*hi)
		}
		e.rise[j], _ = ordered(out, false, nil)
		e.fall[j], _ = ordered(in, true, nil)
		e.floor = math.Min(e.floor, e.ringTip[j])
	}
}

// space returns the number of the ring space nearest to the polar direction v.
func (m *member) space(v plane.Vec) int {
	s := int(math.Floor((v.Angle()-m.phase)/m.pitch + 0.5))
	return ((s % m.teeth) + m.teeth) % m.teeth
}

// setLimit finds the polar angle about the pinion's axis beyond which its tips
// lie inside the ring's, and whether a tip may come near a root at all.
func (e *Engine) setLimit() {
	rp, rr := e.pinion.greatest, math.Sqrt(e.floor)
	c := (rr*rr - e.a*e.a - rp*rp) / (2 * e.a * rp)
	e.limit = math.Acos(math.Min(1, math.Max(-1, c))) + e.pinion.pitch
	shallow := math.Inf(1)
	for _, q := range e.ringRoot {
		shallow = math.Min(shallow, q)
	}
	// No root of the pinion reaches farther from the ring's axis than this one.
	roots := e.pinion.shallowRoot()
	e.deep = e.a+rp > math.Sqrt(shallow) || e.a+roots > rr
}

// shallowRoot returns the greatest of the least radii about the axis of the
// pinion's spaces.
func (m *member) shallowRoot() float64 {
	worst := 0.0
	for i := range m.teeth {
		least := math.Inf(1)
		for _, el := range m.of(i) {
			lo, _ := el.reach(plane.Vec{})
			least = math.Min(least, lo)
		}
		worst = math.Max(worst, least)
	}
	return worst
}
