package solid

import (
	"math"
	"slices"

	"ringtrack/gear/plane"
)

// layColumns lists the unit's columns in the order of the loop.
func (rf *roof) layColumns() {
	left, right := make([][]spot, len(rf.faces)), make([][]spot, len(rf.faces))
	for _, r := range rf.ridges {
		for _, s := range r.spots {
			right[r.a] = append(right[r.a], s)
			s.turn -= r.wrap
			left[r.b] = append(left[r.b], s)
		}
	}
	rf.first = make([]int, 0, len(rf.faces)+1)
	for i := range rf.faces {
		rf.first = append(rf.first, len(rf.cols))
		rf.layFace(i, left[i], right[i])
	}
	rf.first = append(rf.first, len(rf.cols))
	for i, more := range rf.beyond { // joints belong to the face after them
		at := rf.first[i+1]
		if i == len(rf.faces)-1 {
			at = 0
			for k := range more {
				more[k].turn--
			}
		}
		rf.cols[at].more[0] = more
	}
	rf.number()
}

// number numbers the points that the columns stand on: a fan's columns, and the
// first one after it, stand on one.
func (rf *roof) number() {
	for f := range rf.faces {
		for i := rf.first[f]; i < rf.first[f+1]; i++ {
			same := i > rf.first[f] && rf.owner[f] < 0 || i == rf.first[f] && f > 0 && rf.owner[f-1] < 0
			if !same {
				rf.bases++
			}
			rf.cols[i].base = rf.bases - 1
		}
	}
}

// layFace adds the columns of face i from its start to short of its end: those
// that end in the ridge at its start, those that live on, those that end in the
// ridge at its end.
func (rf *roof) layFace(i int, left, right []spot) {
	f := &rf.faces[i]
	end := death{math.Inf(1), -1}
	if rf.died != nil {
		end = rf.died[i]
	}
	first := column{life: end.s, point: end.point, n: rf.jointNormal(i)}
	first.p, _, _ = f.frame(0, 0)
	if len(left) > 0 {
		first.life, first.point, first.turn = left[0].s, left[0].point, left[0].turn
	}
	rising := rf.side(f, first, left, rf.needOf(i), 1)
	last := column{life: end.s, point: end.point, u: 1}
	last.p, _, _ = f.frame(1, 0)
	falling := rf.side(f, last, right, rf.needOf(i), 0)
	u0, u1 := rising[len(rising)-1].u, falling[len(falling)-1].u
	if n := len(falling); end.point >= 0 && n > 1 && falling[n-1].point == end.point {
		falling = falling[:n-1] // both ridges end in one column
	}
	rf.cols = append(rf.cols, rising...)
	if u1 > u0 {
		for _, u := range rf.fill(i, u0, u1) {
			p, n, _ := f.frame(u, 0)
			rf.cols = append(rf.cols, column{p: p, n: n, u: u, life: end.s, point: end.point})
		}
	}
	for _, c := range slices.Backward(falling[1:]) {
		rf.cols = append(rf.cols, c)
	}
	rf.beyond = append(rf.beyond, falling[0].more[0])
}

// side returns the columns that end in the ridges on one side of a face, from
// the joint c on; of those that stand nearer together than they can be told
// apart, the one nearer to the joint takes the others' points.
func (rf *roof) side(f *face, c column, spots []spot, need []float64, which int) []column {
	out := []column{c}
	for k, s := range spots {
		if k == 0 || s.point == spots[k-1].point {
			continue // the joint; the end of one ridge and the start of the next
		}
		u := s.v
		if which == 0 {
			u = s.u
		}
		p, n, _ := f.frame(u, 0)
		last := &out[len(out)-1]
		if p.Sub(last.p).Len() < rf.merge && !slices.Contains(need, u) {
			last.more[which] = append(last.more[which], peak{s.point, s.turn})
			continue
		}
		out = append(out, column{p: p, n: n, u: u, life: s.s, point: s.point, turn: s.turn})
	}
	return out
}

// jointNormal returns the direction of the column at the start of face i: where
// the loop bends a little, that to the point at which both parallels meet.
func (rf *roof) jointNormal(i int) plane.Vec {
	_, n, _ := rf.faces[i].frame(0, 0)
	k := (i + len(rf.faces) - 1) % len(rf.faces)
	_, m, _ := rf.faces[k].frame(1, 0)
	if i == 0 {
		m = stepBack(rf.step, m)
	}
	if !rf.blunt[i] || rf.owner[i] < 0 || 1+m.Dot(n) < 0.5 {
		return n
	}
	return m.Add(n).Mul(1 / (1 + m.Dot(n)))
}

// stepBack turns direction d back by the turn m.
func stepBack(m plane.Similarity, d plane.Vec) plane.Vec {
	x := m.Direction(plane.Vec{X: 1})
	return plane.Vec{X: x.Dot(d), Y: x.Cross(d)}
}

// fill returns the parameters strictly between u0 and u1 at which face i needs
// columns.
func (rf *roof) fill(i int, u0, u1 float64) []float64 {
	stops := []float64{u0}
	for _, u := range rf.needOf(i) {
		if u > u0 && u < u1 {
			stops = append(stops, u)
		}
	}
	slices.Sort(stops)
	stops = append(slices.Compact(stops), u1)
	var out []float64
	for k := 1; k < len(stops); k++ {
		us := rf.faces[i].divide(stops[k-1], stops[k], rf.depth, rf.out, rf.chord)
		out = append(out, us[1:]...)
	}
	return out[:len(out)-1]
}
