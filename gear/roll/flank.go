package roll

import "math"

// flank is one side of a tooth: its segments in the order of rising radius. It
// is a chain when each begins at or beyond the radius where the one before it
// ends; otherwise the outline folds back and segments overlap.
type flank struct {
	segs  []seg
	chain bool
}

// ordered finishes a flank whose segments were collected along the loop:
// outward ones already rise, inward ones are turned round.
func ordered(s []seg, inward bool) flank {
	if inward {
		for i, j := 0, len(s)-1; i < j; i, j = i+1, j-1 {
			s[i], s[j] = s[j], s[i]
		}
	}
	f := flank{s, true}
	for i := 1; i < len(s); i++ {
		if s[i].q0 < s[i-1].q1 {
			f.chain = false
			break
		}
	}
	return f
}

// touch is where a pair of flanks touches first: the ring's angle, as found by
// the measure function, and the segments and squared radius of the contact.
type touch struct {
	found   bool
	delta   float64 // ring angle relative to the exact ratio's
	q       float64
	a, b    spot
	pin, rg *seg
}

// search looks for the extreme of the angular gap between a pinion flank a and
// the ring flank b that faces it.
type search struct {
	sign float64 // +1: the greatest ring angle at which they touch, -1: the least
	zero float64 // subtracted from angles: what the exact ratio gives
	best touch

	// A gap that rises up to a joint of segments has its extreme there, unless
	// it goes on rising.
	pending      bool
	pendQ        float64
	pendA, pendB *seg
}

// flanks runs over the common radii of two flanks.
func (s *search) flanks(a, b flank) {
	if !a.chain || !b.chain {
		s.everyPair(a, b)
		return
	}
	i, j := 0, 0
	last := math.Inf(-1)
	for i < len(a.segs) && j < len(b.segs) {
		p, r := &a.segs[i], &b.segs[j]
		lo, hi := math.Max(p.q0, r.q0), math.Min(p.q1, r.q1)
		if lo < hi {
			if lo != last {
				s.flush()
			}
			s.stretch(p, r, lo, hi, lo == last)
			last = hi
		} else if lo == hi {
			s.consider(p, r, lo)
		}
		if p.q1 <= r.q1 {
			i++
		} else {
			j++
		}
	}
	s.flush()
}

// everyPair is the plain form for outlines that fold back.
func (s *search) everyPair(a, b flank) {
	for i := range a.segs {
		for j := range b.segs {
			p, r := &a.segs[i], &b.segs[j]
			lo, hi := math.Max(p.q0, r.q0), math.Min(p.q1, r.q1)
			if lo < hi {
				s.stretch(p, r, lo, hi, false)
				s.flush()
			} else if lo == hi {
				s.consider(p, r, lo)
			}
		}
	}
}

// flush takes the pending joint for an extreme.
func (s *search) flush() {
	if s.pending {
		s.pending = false
		s.consider(s.pendA, s.pendB, s.pendQ)
	}
}

// stretch follows the gap over squared radii lo to hi of two segments. on says
// that it continues the stretch before.
func (s *search) stretch(p, r *seg, lo, hi float64, on bool) {
	h0, h1 := s.slopes(p, r, lo, hi)
	if h0 > 0 {
		s.pending = false
	} else if s.pending {
		s.flush()
	} else if !on {
		s.consider(p, r, lo)
	}
	if h0 > 0 && h1 < 0 {
		s.consider(p, r, s.agree(p, r, lo, hi))
	}
	if h1 >= 0 {
		s.pending, s.pendQ, s.pendA, s.pendB = true, hi, p, r
	}
}

// slopes returns numbers with the signs of the gap's slope, times sign, at lo
// and hi. Only where the ranges of the tangents' distances overlap are the
// distances themselves needed.
func (s *search) slopes(p, r *seg, lo, hi float64) (h0, h1 float64) {
	if p.straight() && r.straight() {
		h := s.sign * (p.d0 - r.d0)
		return h, h
	}
	pl, ph := p.distances()
	rl, rh := r.distances()
	switch {
	case pl > rh:
		return s.sign, s.sign
	case ph < rl:
		return -s.sign, -s.sign
	}
	return s.slope(p, r, lo), s.slope(p, r, hi)
}

func (s *search) slope(p, r *seg, q float64) float64 {
	return s.sign * (p.distance(q) - r.distance(q))
}

// distance returns the tangent's distance at q.
func (s *seg) distance(q float64) float64 {
	switch {
	case q <= s.q0 || s.straight():
		return s.d0
	case q >= s.q1:
		return s.d1
	}
	return s.solve(q).d
}

// agree returns the squared radius between lo and hi at which the tangents
// agree: there the slope changes sign.
func (s *search) agree(p, r *seg, lo, hi float64) float64 {
	return signChange(func(q float64) float64 { return s.slope(p, r, q) }, lo, hi)
}

// consider measures the ring angle at which the points of squared radius q
// meet, and keeps it if it is the extreme so far.
func (s *search) consider(p, r *seg, q float64) {
	a, b := p.at(q), r.at(q)
	// The angle between two points of one radius: no difference of large angles.
	delta := math.Atan2(b.p.Cross(a.p), b.p.Dot(a.p)) - s.zero
	if delta = wrapped(delta); !s.best.found || s.sign*(delta-s.best.delta) > 0 {
		s.best = touch{true, delta, q, a, b, p, r}
	}
}

// wrapped returns a turned by whole turns into (-pi, pi].
func wrapped(a float64) float64 {
	if a > math.Pi || a <= -math.Pi {
		a = math.Remainder(a, 2*math.Pi)
	}
	return a
}
