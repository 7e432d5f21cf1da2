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
