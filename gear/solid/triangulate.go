package solid

import (
	"fmt"
	"math"
	"slices"

	"ringtrack/gear/plane"
)

// Triangulate divides the area between polygons into triangles.
//
//	loops  polygons, each of n >= 3 points, the first not repeated, mm; the area
//	       lies on the left: outer loops run counter-clockwise, holes clockwise.
//	       Any number of outer loops, in any order; an outer loop may lie inside
//	       a hole. Coordinates are finite and at most 1e50 in magnitude.
//
// The triangles are counter-clockwise and name their corners by index into the
// concatenation of the loops: n + 2 holes - 2 outer loops of them, for n points
// in all. Every one has a positive area, decided exactly; every edge is either
// one step of a loop, used once, or lies inside and is used twice. Collinear
// points, equal coordinates and points on one circle are ordinary input. Every
// inner edge is locally Delaunay, unless its four points lie on one circle
// within the rounding of the test.
//
// Method: a sweep by x, then y, keeps the edges that cross the sweep line in
// order and tests those that become neighbours for a common point (Shamos and
// Hoey). The points are then triangulated by themselves, the missing edges of
// the outline put in, and what lies outside left out. Sweep and triangulation
// take O(n log n); an edge of the outline that k others cross takes up to k^2.
//
// Errors: *ShapeError when loops touch or cross, themselves or each other, when
// one runs the wrong way round, has too few points or a bad coordinate.
func Triangulate(loops [][]plane.Vec) ([][3]int32, error) {
	s, err := newSweep(loops)
	if err != nil {
		return nil, err
	}
	if err := s.run(); err != nil {
		return nil, err
	}
	f := delaunay(s.pts)
	for i, n := range s.next {
		if !f.constrain(int32(i), n) {
			return nil, s.fail(Crossing, int32(i), int32(i), s.pts[i])
		}
	}
	tris, twin := f.within(s.next)
	if len(tris) != len(s.pts)-2*s.euler {
		return nil, s.fail(Crossing, 0, 0, s.pts[0])
	}
	fatten(s.pts, tris, twin)
	return tris, nil
}

// ShapeKind is what is wrong with an outline.
type ShapeKind int

// The kinds of ShapeError.
const (
	TooFewPoints  ShapeKind = iota // a loop of fewer than three points
	BadCoordinate                  // NaN, infinite or above 1e50
	SamePoint                      // two points of the outline coincide
	Crossing                       // two edges touch or cross
	WrongWay                       // a loop runs the wrong way round for where it lies
	TooMany                        // more points than 32-bit indices can name
)

// ShapeError says why an outline encloses no area that can be triangulated.
// Loops and points count from 0; an edge is named by the point it starts at.
type ShapeError struct {
	Kind  ShapeKind
	Loop  [2]int // loops concerned; both the same for one loop
	Point [2]int // point within each loop
	At    plane.Vec
}

// Error says it in one sentence.
func (e *ShapeError) Error() string {
	at := fmt.Sprintf("near (%.6g, %.6g)", e.At.X, e.At.Y)
	switch e.Kind {
	case TooFewPoints:
		return fmt.Sprintf("loop %d has fewer than three points", e.Loop[0])
	case BadCoordinate:
		return fmt.Sprintf("point %d of loop %d is not a usable point: (%g, %g)", e.Point[0], e.Loop[0], e.At.X, e.At.Y)
	case SamePoint:
		return fmt.Sprintf("point %d of loop %d and point %d of loop %d coincide %s",
			e.Point[0], e.Loop[0], e.Point[1], e.Loop[1], at)
	case Crossing:
		return fmt.Sprintf("edge %d of loop %d and edge %d of loop %d touch or cross %s",
			e.Point[0], e.Loop[0], e.Point[1], e.Loop[1], at)
	case WrongWay:
		return fmt.Sprintf("loop %d runs the wrong way round for where it lies, %s", e.Loop[0], at)
	}
	return "the outline has more points than can be numbered"
}

// pointLimit is one more than the greatest number of points: indices of
// half-edges, up to twelve a point in a prism, stay within 32 bits.
const pointLimit = 1 << 27

// newSweep copies the loops into one list and sorts it.
func newSweep(loops [][]plane.Vec) (*sweep, error) {
	n := 0
	for i, l := range loops {
		if len(l) < 3 {
			return nil, &ShapeError{Kind: TooFewPoints, Loop: [2]int{i, i}}
		}
		n += len(l)
	}
	if n >= pointLimit {
		return nil, &ShapeError{Kind: TooMany}
	}
	s := &sweep{
		loops: loops, pts: make([]plane.Vec, 0, n),
		next: make([]int32, n), prev: make([]int32, n), node: make([]int32, n),
	}
	for i, l := range loops {
		if err := s.addLoop(i, l); err != nil {
			return nil, err
		}
	}
	return s, s.sort()
}

func (s *sweep) addLoop(i int, l []plane.Vec) error {
	first := int32(len(s.pts))
	last := first + int32(len(l)) - 1
	for k, p := range l {
		if !(math.Abs(p.X) <= coordLimit && math.Abs(p.Y) <= coordLimit) {
			return &ShapeError{Kind: BadCoordinate, Loop: [2]int{i, i}, Point: [2]int{k, k}, At: p}
		}
		at := first + int32(k)
		s.next[at], s.prev[at] = at+1, at-1
		s.pts = append(s.pts, p)
	}
	s.next[last], s.prev[first] = first, last
	return nil
}

// event is a point with its index, in the order of the sweep.
type event struct {
	at plane.Vec
	i  int32
}

func (s *sweep) sort() error {
	s.events = make([]event, len(s.pts))
	for i, p := range s.pts {
		s.events[i] = event{p, int32(i)}
	}
	slices.SortFunc(s.events, func(a, b event) int {
		switch {
		case a.at.X < b.at.X:
			return -1
		case a.at.X > b.at.X:
			return 1
		case a.at.Y < b.at.Y:
			return -1
		case a.at.Y > b.at.Y:
			return 1
		}
		return int(a.i - b.i)
	})
	for k := 1; k < len(s.events); k++ {
		if a, b := s.events[k-1], s.events[k]; a.at == b.at {
			return s.fail(SamePoint, a.i, b.i, a.at)
		}
	}
	return nil
}

// fail returns the error that concerns points (or edges from them) a and b.
func (s *sweep) fail(k ShapeKind, a, b int32, at plane.Vec) error {
	e := &ShapeError{Kind: k, At: at}
	e.Loop[0], e.Point[0] = s.locate(a)
	e.Loop[1], e.Point[1] = s.locate(b)
	return e
}

// locate returns loop and place in it of the point with index i.
func (s *sweep) locate(i int32) (loop, point int) {
	k := int(i)
	for n, l := range s.loops {
		if k < len(l) {
			return n, k
		}
		k -= len(l)
	}
	return 0, 0
}
