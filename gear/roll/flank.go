package roll

import "math"

// flank is one side of a tooth: its segments along the loop, as runs in each of
// which the radius rises from one segment to the next. A plain flank is a single
// run; where the outline folds back, as it does at every chord of a flattened
// arc about the axis, a new run begins.
type flank struct {
	segs []seg
	runs []run
}

// run is the segments from first to end, end excluded, and their squared radii.
type run struct {
	first, end int
	q0, q1     float64
}

// ordered finishes a flank whose segments were collected along the loop:
// outward ones already rise, inward ones are turned round. Runs are appended to
// the list given.
func ordered(s []seg, inward bool, runs []run) (flank, []run) {
	if inward {
		for i, j := 0, len(s)-1; i < j; i, j = i+1, j-1 {
			s[i], s[j] = s[j], s[i]
		}
	}
	before := len(runs)
	for i := range s {
		if i > 0 && s[i].q0 >= s[i-1].q1*(1-1e-13) {
			r := &runs[len(runs)-1]
			r.end, r.q1 = i+1, s[i].q1
			continue
		}
		runs = append(runs, run{i, i + 1, s[i].q0, s[i].q1})
	}
	return flank{s, runs[before:]}, runs
}

// touch is where a pair of flanks touches first: the ring's angle, as found by
// the measure function, and the segments and squared radius of the contact.
type touch struct {
	found bool
	delta float64 // ring angle relative to the exact ratio's
	q     float64
	a, b  spot
	p, r  *seg
}

// search looks for the extreme of the angular gap between a pinion flank a and
// the ring flank b that faces it.
type search struct {
	pin, rg stand
	sign    float64 // +1: the greatest ring angle at which they touch, -1: the least
	zero    float64 // subtracted from angles: what the exact ratio gives
	best    touch

	// A gap that rises up to a joint of segments has its extreme there, unless
	// it goes on rising.
	pending      bool
	pendQ        float64
	pendA, pendB *seg
}

// flanks goes through the common radii of two flanks.
func (s *search) flanks(a, b flank) {
	for i := range a.runs {
		for j := range b.runs {
			if p, r := &a.runs[i], &b.runs[j]; p.q0 <= r.q1 && r.q0 <= p.q1 {
				s.run(a.segs[p.first:p.end], b.segs[r.first:r.end])
			}
		}
	}
}

// run goes through the common radii of two runs.
func (s *search) run(a, b []seg) {
	i, j := startAt(a, b[0].q0), startAt(b, a[0].q0)
	last := math.Inf(-1)
	for i < len(a) && j < len(b) {
		p, r := &a[i], &b[j]
		lo, hi := max(p.q0, r.q0), min(p.q1, r.q1)
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
			last = follow(a, i, last)
			i++
		} else {
			last = follow(b, j, last)
			j++
		}
	}
	s.flush()
}

// startAt returns the first segment of a run that reaches the squared radius q.
func startAt(s []seg, q float64) int {
	if s[0].q1 >= q {
		return 0
	}
	lo, hi := 0, len(s) // s[lo] ends before q
	for hi-lo > 1 {
		if m := (lo + hi) / 2; s[m].q1 < q {
			lo = m
		} else {
			hi = m
		}
	}
	return hi
}

// follow returns last if the segment after i begins where i ends, and otherwise a
// value that no stretch continues: a step on one circle lies between.
func follow(s []seg, i int, last float64) float64 {
	if i+1 < len(s) && s[i+1].p0 != s[i].p1 {
		return math.Inf(-1)
	}
	return last
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
		s.consider(p, r, s.agree(p, r, lo, hi, h0, h1))
	}
	if h1 >= 0 {
		s.pending, s.pendQ, s.pendA, s.pendB = true, hi, p, r
	}
}

// slopes returns numbers with the signs of the gap's slope, times sign, at lo
// and hi. Only where the ranges of the tangents' distances overlap are the
// distances themselves needed.
func (s *search) slopes(p, r *seg, lo, hi float64) (h0, h1 float64) {
	if !p.curved && !r.curved {
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
	return s.sign * (s.pin.distance(p, lo) - s.rg.distance(r, lo)),
		s.sign * (s.pin.distance(p, hi) - s.rg.distance(r, hi))
}

// distance returns the tangent's distance at q.
func (b stand) distance(s *seg, q float64) float64 {
	switch {
	case q <= s.q0 || !s.curved:
		return s.d0
	case q >= s.q1:
		return s.d1
	}
	return b.solve(s, q).d
}

// agree returns the squared radius between lo and hi at which the tangents
// agree, h0 > 0 and h1 < 0 being the slopes there. Newton's method, kept between
// the ends: the distance d of a curve's tangent changes with the squared radius
// by half the curvature. The gap is flat there, so a billionth of the stretch
// leaves nothing of it.
func (s *search) agree(p, r *seg, lo, hi, h0, h1 float64) float64 {
	small := 1e-9 * (hi - lo)
	q := lo + (hi-lo)*h0/(h0-h1)
	for range 60 {
		a, b := s.pin.tangent(p, q), s.rg.tangent(r, q)
		h := s.sign * (a.d - b.d)
		if h > 0 {
			lo = q
		} else {
			hi = q
		}
		next := q - 2*h/(s.sign*(a.k-b.k))
		if !(next > lo && next < hi) {
			next = (lo + hi) / 2
		}
		step := math.Abs(next - q)
		q = next
		if step <= small {
			break
		}
	}
	return q
}

// tangent returns the point strictly inside the segment, with its curvature.
func (b stand) tangent(s *seg, q float64) spot {
	if !s.curved {
		return spot{d: s.d0}
	}
	return b.solve(s, q)
}

// consider measures the ring angle at which the points of squared radius q
// meet, and keeps it if it is the extreme so far.
func (s *search) consider(p, r *seg, q float64) {
	a, b := s.pin.at(p, q), s.rg.at(r, q)
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
