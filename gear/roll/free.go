package roll

import (
	"math"

	"ringtrack/gear/plane"
)

// Interval is what the ring can do while the pinion stands at one angle.
type Interval struct {
	PinionAngle float64
	Exact       float64 // ring angle by the exact ratio of tooth counts, tooth in mid space
	Lo, Hi      float64 // the ring is free between; it binds where Lo > Hi; infinite where nothing is near
	Low, High   Contact // what touches at Lo and at Hi
	Jam         *Jam    // a tip in a root: no ring angle is free, whatever Lo and Hi
	Touching    [2]Zone // at Lo and Hi: radii at which pairs of flanks touch
}

// Width returns how far the ring can turn; negative where the teeth bind.
func (v Interval) Width() float64 { return v.Hi - v.Lo }

// Mid returns the ring angle in the middle of its play.
func (v Interval) Mid() float64 { return v.Lo + (v.Hi-v.Lo)/2 }

// Contact is a place where the outlines touch.
type Contact struct {
	Valid        bool
	At           plane.Vec // in the plane, the ring's axis at the origin
	PinionRadius float64   // mm, about the pinion loop's centre
	RingRadius   float64   // mm, about the ring loop's centre
	PinionTooth  int
	RingTooth    int
	Pinion, Ring Ref
	// PinionCorner and RingCorner say that the outline has a corner there. With
	// neither, the two touch with a common tangent.
	PinionCorner, RingCorner bool
}

// Smooth reports whether the outlines touch with a common tangent.
func (c Contact) Smooth() bool { return c.Valid && !c.PinionCorner && !c.RingCorner }

// Jam is a tip that runs into a root, however the ring is turned.
type Jam struct {
	PinionTip bool // the pinion's tip in the ring's root; otherwise the ring's tip in the pinion's
	// Depth is how far the pinion's tip reaches beyond the ring's deepest point in
	// its space, mm; or the ring's tip beyond the shallowest radius about the
	// ring's axis of the pinion's root, which at the root's ends lies lower than in
	// its middle.
	Depth       float64
	PinionTooth int // the tooth, or the one clockwise of the root
	RingTooth   int // the tooth, or the one clockwise of the root
}

// Zone is a range of radii about the members' own centres.
type Zone struct {
	PinionFrom, PinionTo float64
	RingFrom, RingTo     float64
}

func noZone() Zone {
	i := math.Inf(1)
	return Zone{i, -i, i, -i}
}

// Empty reports whether nothing was added.
func (z Zone) Empty() bool { return z.PinionFrom > z.PinionTo }

// add widens the zone by a pair of radii.
func (z *Zone) add(p, r float64) {
	z.PinionFrom, z.PinionTo = math.Min(z.PinionFrom, p), math.Max(z.PinionTo, p)
	z.RingFrom, z.RingTo = math.Min(z.RingFrom, r), math.Max(z.RingTo, r)
}

func (z *Zone) join(o Zone) {
	if !o.Empty() {
		z.add(o.PinionFrom, o.RingFrom)
		z.add(o.PinionTo, o.RingTo)
	}
}

// Free returns the interval of ring angles that are free of contact while the
// pinion stands at the angle phi (radians, any).
func (e *Engine) Free(phi float64) Interval {
	b := e.scratch.Get().(*bench)
	defer e.scratch.Put(b)
	return e.free(b, phi)
}

func (e *Engine) free(b *bench, phi float64) Interval {
	at := e.position(phi)
	e.meet(b, at)
	v := Interval{PinionAngle: phi, Exact: at.exact, Lo: math.Inf(-1), Hi: math.Inf(1)}
	low, high := -1, -1
	for k := range b.pairs {
		switch p := &b.pairs[k]; {
		case p.low && (low < 0 || p.delta > b.pairs[low].delta):
			low = k
		case !p.low && (high < 0 || p.delta < b.pairs[high].delta):
			high = k
		}
	}
	if low >= 0 {
		v.Lo = at.exact + b.pairs[low].delta
		v.Low = e.contact(&b.pairs[low], at)
	}
	if high >= 0 {
		v.Hi = at.exact + b.pairs[high].delta
		v.High = e.contact(&b.pairs[high], at)
	}
	v.Touching = e.touching(b, at, low, high)
	if e.deep {
		v.Jam = e.jam(b)
	}
	return v
}

// meet finds where every pinion tooth near the mesh meets its two neighbours:
// the ring tooth counter-clockwise of it bounds the ring's angle from below.
func (e *Engine) meet(b *bench, at position) {
	b.reset()
	z := e.ring.teeth
	e.near(at, func(i int, alpha float64) {
		t := b.place(e, i, alpha, at)
		if e.deep {
			b.teeth = append(b.teeth, t)
		}
		b.pair(e, at, t, t.space, true)
		b.pair(e, at, t, (t.space+z-1)%z, false)
	})
}

// pair finds where the pinion's tooth meets the ring tooth mate.
func (b *bench) pair(e *Engine, at position, t placedTooth, mate int, low bool) {
	s := search{sign: 1, zero: at.exact - at.phi, pin: e.pinionAt(at), rg: e.ringStand()}
	if low {
		s.flanks(t.fall, e.rise[mate])
	} else {
		s.sign = -1
		s.flanks(t.rise, e.fall[mate])
	}
	if s.best.found {
		b.pairs = append(b.pairs, pairTouch{s.best, t.number, mate, low})
	}
}

// contact describes a touch.
func (e *Engine) contact(p *pairTouch, at position) Contact {
	c := Contact{
		Valid: true, At: p.a.p.Turn(at.phi), PinionTooth: p.tooth, RingTooth: p.mate,
		Pinion: e.pinion.elems[p.p.elem].ref(p.a.u), Ring: e.ring.elems[p.r.elem].ref(p.b.u),
		PinionCorner: e.pinionAt(at).corner(p.p, p.a.u), RingCorner: e.ringStand().corner(p.r, p.b.u),
	}
	c.PinionRadius, c.RingRadius = e.radii(p, at)
	return c
}

// radii returns the touch's radii about both loops' centres.
func (e *Engine) radii(p *pairTouch, at position) (pinion, ring float64) {
	return p.a.p.Sub(at.shift).Sub(e.pinion.centre).Len(), p.b.p.Sub(e.ring.centre).Len()
}

// ref returns the place of parameter u on the loop the element comes from.
func (e *element) ref(u float64) Ref {
	r := e.from
	if e.u1 != e.u0 {
		r.U += (e.toU - e.from.U) * (u - e.u0) / (e.u1 - e.u0)
	}
	return r
}

// touching returns the radii at which pairs touch when the ring lies at either
// end of its play.
func (e *Engine) touching(b *bench, at position, low, high int) [2]Zone {
	z := [2]Zone{noZone(), noZone()}
	band := e.opt.Touch / e.working
	for k := range b.pairs {
		p := &b.pairs[k]
		i, best := 1, high
		if p.low {
			i, best = 0, low
		}
		if math.Abs(p.delta-b.pairs[best].delta) <= band {
			z[i].add(e.radii(p, at))
		}
	}
	return z
}

// jam looks for a tip that reaches beyond the root it stands in.
func (e *Engine) jam(b *bench) *Jam {
	var worst *Jam
	keep := func(j Jam) {
		if j.Depth > 0 && (worst == nil || j.Depth > worst.Depth) {
			worst = &j
		}
	}
	for k := range b.teeth {
		t := &b.teeth[k]
		z := e.ring.teeth
		keep(Jam{true, math.Sqrt(t.tip) - math.Sqrt(e.ringRoot[t.space]), t.number, (t.space + z - 1) % z})
		if k+1 < len(b.teeth) {
			root := math.Min(t.after, b.teeth[k+1].before)
			keep(Jam{false, math.Sqrt(root) - math.Sqrt(e.ringTip[t.space]), t.number, t.space})
		}
	}
	return worst
}
