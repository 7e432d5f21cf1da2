package solid

import (
	"math"

	"ringtrack/gear/plane"
)

// grow moves the parallel from the loop to depth and finds the ridges and the
// faces that end on the way.
func (rf *roof) grow() error {
	rf.died = make([]death, len(rf.faces))
	var live []int
	for i := range rf.faces {
		rf.died[i] = death{math.Inf(1), -1}
		live = append(live, i)
	}
	// between[i] is the ridge at the start of live face i, nil where it is smooth.
	between := make([]*ridge, len(live))
	for i := range live {
		if !rf.blunt[i] {
			between[i] = rf.newRidge(live, i, crossing{0, 1, 0}, 0, -1)
		}
	}
	for s := 0.0; ; {
		at, k := rf.nextDeath(live, between, s)
		if b, i := rf.nextBirth(live, between, at); i >= 0 {
			between[i] = rf.birth(live, i, b)
			s = b
			continue
		}
		if k < 0 {
			break
		}
		if len(live) < 2 || (len(live) == 2 && rf.turns < 3) {
			return errTooDeep
		}
		live, between = rf.bury(live, between, k, at)
		s = rf.mark(at)
	}
	for _, r := range between {
		if r == nil {
			continue
		}
		c, _ := r.at(rf.depth, rf.depth)
		rf.finish(r, c, -1, 0)
	}
	return nil
}

// newRidge starts a ridge at the start of live face i. point and turn name its
// first vertex where it has one already.
func (rf *roof) newRidge(live []int, i int, c crossing, turn, point int) *ridge {
	r := &ridge{a: live[(i+len(live)-1)%len(live)], b: live[i], trail: []crossing{c}}
	r.fa, r.fb = &rf.faces[r.a], &rf.faces[r.b]
	if i == 0 {
		r.wrap, r.over = 1, []plane.Similarity{rf.step}
	}
	r.spots = []spot{{c, point, turn}}
	rf.ridges = append(rf.ridges, r)
	return r
}

// nextDeath returns the first distance after s at which a live face ends, and
// its place in the list; -1 when all live on to depth.
func (rf *roof) nextDeath(live []int, between []*ridge, s float64) (at float64, k int) {
	at, k = rf.depth, -1
	for i, f := range live {
		left, right := between[i], between[(i+1)%len(live)]
		alive := func(s float64) bool {
			lo, hi, ok := rf.extent(left, right, s)
			return ok && lo < hi && s < rf.faces[f].vanishes()
		}
		if alive(at) {
			continue
		}
		lo, hi := s, at
		for range 80 {
			if m := (lo + hi) / 2; alive(m) {
				lo = m
			} else {
				hi = m
			}
		}
		if v := rf.faces[f].vanishes(); v <= hi && v > s {
			lo = math.Min(lo, v)
		}
		if k < 0 || lo < at {
			at, k = lo, i
		}
	}
	return at, k
}

// nextBirth returns the first distance below limit at which a parallel begins to
// fold at a smooth joint, and its place in the list, or -1.
func (rf *roof) nextBirth(live []int, between []*ridge, limit float64) (at float64, k int) {
	at, k = limit, -1
	for i, f := range live {
		if between[i] != nil {
			continue
		}
		before := live[(i+len(live)-1)%len(live)]
		if s := math.Min(rf.faces[before].folds(1), rf.faces[f].folds(0)); s < at {
			at, k = s, i
		}
	}
	return at, k
}

// birth starts a ridge in the smooth joint before live face i. While it cannot be
// told from the joint's own generator it is not drawn.
func (rf *roof) birth(live []int, i int, s float64) *ridge {
	f := &rf.faces[live[i]]
	s = rf.mark(s)
	turn := 0
	if i == 0 {
		turn = 1
	}
	r := rf.newRidge(live, i, crossing{s, 1, 0}, turn, len(rf.points))
	r.fold = 1
	if r.fa.folds(1) < f.folds(0) {
		r.fold = -1
	}
	p := r.fa.at(1, s)
	for _, m := range rf.marks {
		if m <= s {
			continue
		}
		c, ok := r.at(m, rf.depth)
		if q := r.fa.at(c.u, m); ok && q.Sub(r.fa.at(1, m)).Len() < rf.merge {
			r.trail = []crossing{c}
			r.spots[0].s = m
			p = q
		}
	}
	if turn == 1 { // the vertex stands with the second face
		p = rf.turnBack(p)
	}
	rf.points = append(rf.points, ridgePoint{r.spots[0].s, p})
	return r
}

// turnBack returns where a point of the next unit stands in this one.
func (rf *roof) turnBack(p plane.Vec) plane.Vec {
	o := rf.step.Point(plane.Vec{})
	return stepBack(rf.step, p.Sub(o))
}

// extent returns what is left of a face between two ridges at the distance s.
func (rf *roof) extent(left, right *ridge, s float64) (lo, hi float64, ok bool) {
	lo, hi = 0, 1
	if left != nil {
		c, found := left.at(s, rf.depth)
		if !found {
			return 0, 0, false
		}
		lo = c.v
	}
	if right != nil {
		c, found := right.at(s, rf.depth)
		if !found {
			return 0, 0, false
		}
		hi = c.u
	}
	return lo, hi, true
}

// bury ends live face k at the distance s: both its ridges end there, and its
// neighbours go on against each other.
func (rf *roof) bury(live []int, between []*ridge, k int, s float64) ([]int, []*ridge) {
	f, next := live[k], (k+1)%len(live)
	left, right := between[k], between[next]
	drawn := rf.mark(s)
	start := crossing{drawn, 1, 0}
	u := 0.5
	var lc, rc crossing
	if right != nil {
		rc, _ = right.at(s, rf.depth)
		rc.s, start.v, u = drawn, rc.v, rc.u
	}
	if left != nil {
		lc, _ = left.at(s, rf.depth)
		lc.s, start.u, u = drawn, lc.u, lc.v
	}
	switch { // the end stands on the face's own joint where that is smooth
	case left == nil && right != nil && s < rf.faces[f].vanishes():
		rc.u = 0
	case right == nil && left != nil && s < rf.faces[f].vanishes():
		lc.v = 1
	}
	point := len(rf.points)
	rf.points = append(rf.points, ridgePoint{drawn, rf.faces[f].at(u, s)})
	rf.died[f] = death{drawn, point}
	wrap := 0
	if k == 0 {
		wrap = 1
	}
	if left != nil {
		rf.finish(left, lc, point, wrap)
	}
	if right != nil {
		rf.finish(right, rc, point, 0)
	}
	live = append(append([]int(nil), live[:k]...), live[k+1:]...)
	between = append(append([]*ridge(nil), between[:k]...), between[k+1:]...)
	at := k % len(live)
	between[at] = rf.newRidge(live, at, start, wrap, point)
	return live, between
}

// mark returns the distance at which an edge ends if s is as good as that, else s.
func (rf *roof) mark(s float64) float64 {
	for _, m := range rf.marks {
		if math.Abs(m-s) < rf.merge {
			return m
		}
	}
	return s
}

// finish ends ridge r at c, in the given vertex if there is one, and draws it.
func (rf *roof) finish(r *ridge, c crossing, point, turn int) {
	list := r.draw(c, rf, rf.needOf(r.a), rf.needOf(r.b))
	for _, m := range list[1:] {
		sp := spot{m, -1, 0}
		if m.s == c.s && point >= 0 {
			sp.point, sp.turn = point, turn
		} else {
			sp.point = len(rf.points)
			rf.points = append(rf.points, ridgePoint{m.s, r.fa.at(m.u, m.s)})
		}
		r.spots = append(r.spots, sp)
	}
}

func (rf *roof) needOf(f int) []float64 {
	if rf.owner[f] < 0 {
		return nil
	}
	return rf.need[rf.owner[f]]
}
