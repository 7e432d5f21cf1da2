package plane

import (
	"errors"
	"math"
)

// arcSearch looks for the fewest smoothly joined arcs along a row of smooth
// pieces.
//
// Method: every joint lies on the row. An arc from one place to another is then
// given by one number, its tangent at the start, and its tangent at the end
// follows: the two leave the chord alike. For each pair of places the start
// tangents for which the row stays within the tolerance of the arc are an
// interval (span). From the tangents that can be reached at each place with n
// arcs (reach) follow those with n+1; the first n that reaches the end with its
// tangent is the fewest. Going back from there, each step takes the start that
// stands most comfortably inside its intervals. Where the tangent at the start
// of the row is given, the first joint is moved between two places until the
// tangents meet exactly.
//
// Tangents are held as their difference from the row's own.
type arcSearch struct {
	free, freed bool // the tangent at the start, at the end is free
	tol         float64
}

// steepest is the largest tan(sweep/4) of an arc: 124 degrees.
const steepest = 0.6

const (
	mostArcs = 48 // of one search; a longer row is divided
	mostFail = 4  // ways back that are not found before the grid is made finer
	deepest  = 16 // divisions of a row
)

var errNoArcs = errors.New("no row of arcs was found")

// arcsAlong returns arcs along the row and the greatest distance of the row
// from them. A row that needs very many arcs, or for which none are found on
// two grids, is divided in its middle, where the arcs then keep its own tangent.
func arcsAlong(row []Piece, free, freed bool, tol float64, depth int) ([]Piece, float64, error) {
	s := arcSearch{free, freed, tol}
	g, err := newArcGrid(row, tol, 1)
	if err != nil {
		return nil, 0, err
	}
	for more := 1; more <= 2 && g.arcs < mostArcs-6; more++ {
		if more > 1 {
			if g, err = newArcGrid(row, tol, 2*more); err != nil {
				return nil, 0, err
			}
		}
		if arcs, worst, err := s.tightened(g); err == nil {
			return arcs, worst, nil
		}
	}
	if depth >= deepest {
		return nil, 0, errNoArcs
	}
	left, right := divided(row, g.at(0.5))
	a, da, err := arcsAlong(left, free, false, tol, depth+1)
	if err != nil {
		return nil, 0, err
	}
	b, db, err := arcsAlong(right, false, freed, tol, depth+1)
	return append(a, b...), math.Max(da, db), err
}

// divided returns the row up to a place and from there on; a place within a
// thousandth of a piece's end is that end.
func divided(row []Piece, v float64) (left, right []Piece) {
	const end = 1e-3
	for i, p := range row {
		switch u := v - float64(i); {
		case u <= end:
			right = append(right, p)
		case u >= 1-end:
			left = append(left, p)
		default:
			left, right = append(left, p.Cut(0, u)), append(right, p.Cut(u, 1))
		}
	}
	return left, right
}

// tightened finds the fewest arcs, then narrows the tolerance while their
// number stays.
func (s *arcSearch) tightened(g *arcGrid) ([]Piece, float64, error) {
	var best []joinedArc
	worst := math.Inf(1)
	try := s.tol * 0.995
	for range 6 { // what lies between the grid's points may ask for a little more
		arcs, err := s.within(g, try, mostArcs)
		if err != nil {
			return nil, 0, err
		}
		d := s.distance(g, arcs)
		if d <= s.tol {
			best, worst = arcs, d
			break
		}
		try *= 0.98 * s.tol / d
	}
	if best == nil {
		return nil, 0, errNoArcs
	}
	lo, hi := worst/4, math.Min(worst, try)
	for range 5 {
		mid := math.Sqrt(lo * hi)
		arcs, err := s.within(g, mid, len(best))
		if err != nil {
			lo = mid
			continue
		}
		hi = mid
		if d := s.distance(g, arcs); d < worst {
			best, worst = arcs, d
		}
	}
	return pieces(best), worst, nil
}

// joinedArc is an arc between two places of the row.
type joinedArc struct {
	from, to float64
	piece    Piece
}

func pieces(arcs []joinedArc) []Piece {
	out := make([]Piece, len(arcs))
	for i, a := range arcs {
		out[i] = a.piece
	}
	return out
}

// span is a range of tangents; empty when lo > hi.
type span struct{ lo, hi float64 }

var noSpan = span{math.Inf(1), math.Inf(-1)}

func (a span) and(b span) span { return span{math.Max(a.lo, b.lo), math.Min(a.hi, b.hi)} }
func (a span) or(b span) span {
	if b.empty() {
		return a
	}
	return span{math.Min(a.lo, b.lo), math.Max(a.hi, b.hi)}
}
func (a span) empty() bool             { return a.lo > a.hi }
func (a span) less(from float64) span  { return span{from - a.hi, from - a.lo} }
func (a span) slack(v float64) float64 { return math.Min(v-a.lo, a.hi-v) }

// link is an arc that can be drawn from one place to another.
type link struct {
	from  int
	start span    // tangents at the start
	sum   float64 // of the tangents at both ends
}

// within returns at most most arcs within the tolerance.
func (s *arcSearch) within(g *arcGrid, tol float64, most int) ([]joinedArc, error) {
	links := g.links(tol)
	reach := [][]span{make([]span, g.places+1)}
	for j := range reach[0] {
		reach[0][j] = noSpan
	}
	reach[0][0] = span{0, 0}
	if s.free {
		reach[0][0] = span{-1, 1}
	}
	failed := 0
	for n := 1; n <= most && failed < mostFail; n++ {
		next := make([]span, g.places+1)
		some := false
		for j := range next {
			next[j] = noSpan
			for _, k := range links[j] {
				if r := reach[n-1][k.from].and(k.start); !r.empty() {
					next[j] = next[j].or(r.less(k.sum))
					some = true
				}
			}
		}
		reach = append(reach, next)
		if !some {
			break
		}
		end := next[g.places]
		if end.empty() || !s.freed && end.slack(0) < 0 {
			continue
		}
		want := 0.0
		if s.freed {
			want = (end.lo + end.hi) / 2
		}
		b := backward{search: s, grid: g, reach: reach, tol: tol, visits: 400}
		if b.step(n, g.seat(g.places), want) {
			return b.arcs(), nil
		}
		failed++
	}
	return nil, errNoArcs
}

// seat is a place of the row at which arcs may join: on the grid or between two
// of its places.
type seat struct {
	place float64
	index int // of the grid's place there or before it
	point Vec
	theta float64
}

func (g *arcGrid) seat(i int) seat { return seat{g.place[i], i, g.point[2*i], g.theta[i]} }

// seatAt returns the seat at a place between grid places i and i+1.
func (g *arcGrid) seatAt(v float64, i int) seat {
	p, dir := g.frame(v)
	_, a := g.frame(g.place[i])
	return seat{v, i, p, g.theta[i] + turnBetween(a, dir)}
}

// links returns, for every grid place, the arcs that can end there.
func (g *arcGrid) links(tol float64) [][]link {
	out := make([][]link, g.places+1)
	for i := range g.places {
		missed := 0
		for j := i + 1; j <= g.places && missed < 2; j++ {
			k := g.link(g.seat(i), g.seat(j), tol)
			if k.start.empty() {
				missed++
				continue
			}
			missed = 0
			out[j] = append(out[j], k)
		}
	}
	return out
}

// link returns the start tangents of arcs between two seats that keep the
// points between within tol, and the sum of both tangents.
func (g *arcGrid) link(a, b seat, tol float64) link {
	chord := b.point.Sub(a.point)
	bends := span{-steepest, steepest}
	const most = 24
	first, last := 2*a.index+1, 2*b.index // points surely between the seats
	if a.place > g.place[a.index] {
		first++
	}
	if b.place > g.place[b.index] {
		last++
	}
	stride := 1 + max(last-first, 0)/most
	for k := first; k < last && !bends.empty(); k += stride {
		bends = bends.and(bendsPast(g.point[k].Sub(a.point), chord, tol))
	}
	if bends.empty() {
		return link{start: noSpan}
	}
	dir := chord.Angle()
	from, to := wrapped(dir-a.theta), wrapped(dir-b.theta)
	return link{a.index, span{from - 2*math.Atan(bends.hi), from - 2*math.Atan(bends.lo)}, from + to}
}

// wrapped returns the angle in [-pi, pi].
func wrapped(a float64) float64 { return math.Remainder(a, 2*math.Pi) }

// bendsPast returns tan(sweep/4) of the arcs over a chord from the origin that
// pass the point p within tol.
//
// An arc of bend t over the chord L passes p = (x, y), x along the chord and y
// to its left, with p to the left of it by s, when
//
//	t^2 L (y + s) + 2 t q - L (y - s) = 0,  q = x^2 - x L + y^2 - s^2
//
// and s grows with t.
func bendsPast(p, chord Vec, tol float64) span {
	l := chord.Len()
	if l == 0 {
		return noSpan
	}
	if p.Len() <= tol || p.Sub(chord).Len() <= tol {
		return span{math.Inf(-1), math.Inf(1)}
	}
	x, y := chord.Dot(p)/l, chord.Cross(p)/l
	q := x*x - x*l + y*y - tol*tol
	if q >= 0 {
		return noSpan
	}
	bend := func(s float64) float64 {
		root := q*q + l*l*(y+s)*(y-s)
		if root < 0 {
			return math.Copysign(math.Inf(1), s)
		}
		return l * (y - s) / (q - math.Sqrt(root))
	}
	return span{bend(-tol), bend(tol)}
}
