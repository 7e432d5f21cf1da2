package solid

import (
	"errors"
	"fmt"
	"math"

	"ringtrack/gear/plane"
)

// roof is one unit of a loop, divided: the columns that stand on its points,
// and how long each lives as the loop's parallel moves to the left, into the
// material. Where the loop turns left in a corner its neighbours run into each
// other along a ridge; a face between two ridges ends where they meet.
type roof struct {
	depth float64   // how far the parallel moves; 0 for a plain wall
	out   float64   // how far parallels to the right are drawn as well
	marks []float64 // distances at which an edge ends, rising; the last is depth
	chord float64
	merge float64           // what lies nearer than this is one
	step  plane.Similarity  // from one unit to the next
	need  map[int][]float64 // parameters on pieces at which columns must stand

	turns  int
	faces  []face
	owner  []int // the piece of each face, -1 for a fan
	blunt  []bool
	ridges []*ridge
	died   []death // by face
	points []ridgePoint
	cols   []column
	first  []int    // each face's first column, and one more
	beyond [][]peak // by face: what its last column's joint carries toward it
	bases  int      // points on the loop a unit
}

// ridgePoint is a vertex on a ridge, at the distance s from the loop.
type ridgePoint struct {
	s float64
	p plane.Vec
}

// death is where a face ends before depth is reached; point -1 for none.
type death struct {
	s     float64
	point int
}

// column is a generator of the edge: from a point of the loop along its normal
// n until the distance life, at which it ends in a ridge's point.
type column struct {
	base  int // number of the loop's point
	p, n  plane.Vec
	u     float64
	life  float64 // infinite when it lives to the end
	point int     // -1 for none
	turn  int     // the unit of that point, counted from this one
	// more are points of the ridge farther out that lie on this column, as seen
	// from the face before it and from the face after it.
	more [2][]peak
}

// peak names a ridge's point: its number, and its unit counted from this one.
type peak struct{ point, turn int }

// errTooDeep is the error of an edge that leaves nothing of its loop.
var errTooDeep = errors.New("the edge takes more than there is")

// newRoof divides one unit of the loop.
func newRoof(l plane.Loop, marks []float64, out, chord float64, need map[int][]float64) (*roof, error) {
	rf := &roof{out: out, marks: marks, chord: chord, merge: chord / 64, need: need, turns: l.Turns(), step: stepOf(l, 1)}
	if len(marks) > 0 {
		rf.depth = marks[len(marks)-1]
	}
	if err := l.Check(rf.merge); err != nil {
		return nil, err
	}
	rf.layFaces(l)
	if rf.depth > 0 {
		if err := rf.grow(); err != nil {
			return nil, err
		}
	}
	rf.layColumns()
	return rf, rf.checkSpeed()
}

// stepOf returns the turn by k units about the loop's centre.
func stepOf(l plane.Loop, k int) plane.Similarity {
	if l.Turns() == 1 || k == 0 {
		return plane.Same()
	}
	a := 2 * math.Pi / float64(l.Fold) * float64(k)
	return plane.Moved(l.Centre.Mul(-1)).Then(plane.Turned(a)).Then(plane.Moved(l.Centre))
}

// layFaces lists the unit's pieces, each after the fan about its start if the
// loop turns right there.
func (rf *roof) layFaces(l plane.Loop) {
	var pieces []plane.Piece
	var number []int
	for i, p := range l.Unit {
		if p.At(0) != p.At(1) || p.At(0.5) != p.At(0) {
			pieces, number = append(pieces, p), append(number, i)
		}
	}
	for i, p := range pieces {
		before := pieces[(i+len(pieces)-1)%len(pieces)]
		if i == 0 {
			before = before.Map(stepOf(l, -1))
		}
		f, prev := face{piece: p}, face{piece: before}
		_, n, _ := f.frame(0, 0)
		_, m, _ := prev.frame(1, 0)
		turn := math.Atan2(m.Cross(n), m.Dot(n))
		blunt := math.Max(rf.depth, rf.out)*math.Abs(math.Tan(turn/2)) <= rf.merge
		if rf.depth > 0 && turn < 0 && !blunt {
			rf.faces = append(rf.faces, face{apex: p.At(0), a0: m.Angle(), sweep: turn})
			rf.owner, rf.blunt = append(rf.owner, -1), append(rf.blunt, true)
			blunt = true
		}
		rf.faces, rf.owner, rf.blunt = append(rf.faces, f), append(rf.owner, number[i]), append(rf.blunt, blunt)
	}
}

// smooth reports whether the loop has no corner.
func (rf *roof) smooth() bool {
	for i, b := range rf.blunt {
		if !b || rf.owner[i] < 0 {
			return false
		}
	}
	return true
}

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

// checkSpeed returns an error where a parallel turns back on itself: the edge is
// wider than the loop's radius of curvature.
func (rf *roof) checkSpeed() error {
	for i := range rf.faces {
		f := &rf.faces[i]
		if f.piece == nil {
			continue
		}
		for _, c := range rf.cols[rf.first[i]+1 : rf.first[i+1]] { // at joints a ridge begins in time
			k := f.piece.Frame(c.u).K
			if s := math.Min(rf.depth, c.life) * (1 - 1e-9); 1-s*k <= 0 || 1+rf.out*k <= 0 {
				return fmt.Errorf("%w: near (%.6g, %.6g) the outline's radius is %.4g mm", errTooDeep, c.p.X, c.p.Y, 1/math.Abs(k))
			}
		}
	}
	return nil
}
