package roll

import (
	"math"

	"ringtrack/gear/plane"
)

// bench is the working space of one position.
type bench struct {
	out, in []seg
	runs    []run
	pairs   []pairTouch
	teeth   []placedTooth
}

func (b *bench) reset() {
	b.out, b.in, b.runs, b.pairs, b.teeth = b.out[:0], b.in[:0], b.runs[:0], b.pairs[:0], b.teeth[:0]
}

// placedTooth is a pinion tooth near the mesh.
type placedTooth struct {
	number        int
	space         int // the ring space in which the exact ratio puts it
	rise, fall    flank
	tip           float64 // greatest squared radius about the ring's axis
	before, after float64 // least squared radii clockwise and counter-clockwise of the tip
}

// pairTouch is where one pinion tooth meets its neighbour in the ring.
type pairTouch struct {
	touch
	tooth, mate int
	low         bool // bounds the ring's angle from below
}

// position is the pinion at one angle.
type position struct {
	phi   float64
	exact float64   // the ring's angle by the exact ratio
	shift plane.Vec // the pinion's axis from the ring's, in the pinion's frame
}

func (e *Engine) position(phi float64) position {
	s, c := math.Sincos(phi)
	return position{
		phi: phi, exact: (phi+e.pinion.phase)*e.ratio - e.ring.phase,
		shift: plane.Vec{X: e.a * c, Y: -e.a * s},
	}
}

// pinionAt returns the pinion as it stands, in its own frame.
func (e *Engine) pinionAt(at position) stand { return stand{e.pinion.elems, at.shift} }

// ringStand returns the ring in its own frame.
func (e *Engine) ringStand() stand { return stand{elems: e.ring.elems} }

// angleOf returns the polar angle of the pinion's tooth i about its axis, in
// (-pi, pi].
func (e *Engine) angleOf(i int, at position) float64 {
	return wrapped(e.pinion.phase + float64(i)*e.pinion.pitch + at.phi)
}

// spaceOf returns the number of the ring space in which the exact ratio puts
// a pinion tooth at the polar angle alpha.
func (e *Engine) spaceOf(alpha float64, at position) int {
	r := e.ring
	s := int(math.Round((alpha*e.ratio - at.exact - r.phase) / r.pitch))
	return ((s % r.teeth) + r.teeth) % r.teeth
}

// near calls f with the number and polar angle of every pinion tooth that may
// reach the ring.
func (e *Engine) near(at position, f func(i int, alpha float64)) {
	p := e.pinion
	lo := int(math.Ceil((-e.limit - p.phase - at.phi) / p.pitch))
	hi := int(math.Floor((e.limit - p.phase - at.phi) / p.pitch))
	hi = min(hi, lo+p.teeth-1)
	for k := lo; k <= hi; k++ {
		i := ((k % p.teeth) + p.teeth) % p.teeth
		f(i, e.angleOf(i, at))
	}
}

// place collects the flanks of one pinion tooth.
func (b *bench) place(e *Engine, i int, alpha float64, at position) placedTooth {
	o0, i0 := len(b.out), len(b.in)
	t := placedTooth{number: i, space: e.spaceOf(alpha, at)}
	st := e.pinionAt(at)
	for k := e.pinion.first[i]; k < e.pinion.first[i+1]; k++ {
		b.out, b.in = st.appendSegs(b.out, b.in, k, e.floor)
	}
	t.rise, b.runs = ordered(b.out[o0:], false, b.runs)
	t.fall, b.runs = ordered(b.in[i0:], true, b.runs)
	if e.deep {
		t.depths(e.pinion.of(i), at.shift)
	}
	return t
}

// depths finds how far out the tooth's tip and the roots beside it lie.
func (t *placedTooth) depths(elems []element, shift plane.Vec) {
	t.before, t.after = math.Inf(1), math.Inf(1)
	for k := range elems {
		lo, hi := elems[k].reach(shift.Mul(-1))
		t.after = math.Min(t.after, lo*lo)
		if hi*hi > t.tip {
			t.tip = hi * hi
			t.before = math.Min(t.before, t.after)
			t.after = lo * lo
		}
	}
}
