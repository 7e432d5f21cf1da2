package plane

import (
	"math"
	"sort"
)

// backward goes from the row's end back to its start through what can be
// reached.
type backward struct {
	search *arcSearch
	grid   *arcGrid
	reach  [][]span
	tol    float64
	visits int

	seats []seat  // of the joints, from the end backward, the row's end first
	first float64 // tangent at the start
}

// choice is a joint from which a seat can be reached as it is wanted.
type choice struct {
	seat
	tangent float64
	comfort float64 // how far from the limits, 0 on one, 0.5 in the middle
}

// step finds the joints before a seat that is to be reached with n arcs and the
// given tangent. It gives up after a number of visits.
func (b *backward) step(n int, to seat, tangent float64) bool {
	if b.visits--; b.visits < 0 {
		return false
	}
	b.seats = append(b.seats, to)
	if n == 1 {
		start := b.grid.seat(0)
		k := b.grid.link(start, to, b.tol*1.01)
		b.first = k.sum - tangent
		if k.start.slack(b.first) >= 0 && b.reach[0][0].slack(b.first) > -1e-9 {
			b.seats = append(b.seats, start)
			return true
		}
	} else {
		for _, c := range b.choices(n, to, tangent) {
			if b.step(n-1, c.seat, c.tangent) {
				return true
			}
		}
	}
	b.seats = b.seats[:len(b.seats)-1]
	return false
}

// choices returns the joints before a seat, the most comfortable first. The
// grid has joints beside the middle of what can be reached; where two
// neighbours lie on either side of it the joint between them lies on it.
func (b *backward) choices(n int, to seat, tangent float64) []choice {
	var list []choice
	var lastOff float64
	var lastRoom span
	have := false
	exact := n == 2 && !b.search.free // what can be reached is one tangent
	missed := 0
	for i := to.index; i >= 0 && missed < 2; i-- {
		if b.grid.place[i] >= to.place {
			continue
		}
		k := b.grid.link(b.grid.seat(i), to, b.tol)
		room := b.reach[n-1][i].and(k.start)
		if k.start.empty() {
			missed++
		} else {
			missed = 0
		}
		if room.empty() {
			have = false
			continue
		}
		t := k.sum - tangent
		off := t - (room.lo+room.hi)/2
		if slack := room.slack(t); slack >= 0 && !exact {
			list = append(list, choice{b.grid.seat(i), t, slack / (1e-15 + k.start.hi - k.start.lo)})
		}
		if have && (off < 0) != (lastOff < 0) {
			list = append(list, b.between(i, room, lastRoom, to, tangent, exact))
		}
		have, lastOff, lastRoom = true, off, room
	}
	sort.SliceStable(list, func(i, k int) bool { return list[i].comfort > list[k].comfort })
	return list
}

// between returns the joint between grid places i and i+1 at which the tangent
// that is needed lies in the middle of what can be reached: between the rooms at
// both, or, when exact, the end tangent of the row's first arc.
func (b *backward) between(i int, room, next span, to seat, tangent float64, exact bool) choice {
	g := b.grid
	start := g.seat(0)
	lo, hi := g.place[i], g.place[i+1]
	need := func(s seat) float64 {
		dir := to.point.Sub(s.point).Angle()
		return wrapped(dir-s.theta) + wrapped(dir-to.theta) - tangent
	}
	miss := func(v float64) float64 {
		s := g.seatAt(v, i)
		if exact {
			dir := s.point.Sub(start.point).Angle()
			return need(s) - wrapped(dir-start.theta) - wrapped(dir-s.theta)
		}
		x := (v - lo) / (hi - lo)
		return need(s) - (1-x)*(room.lo+room.hi)/2 - x*(next.lo+next.hi)/2
	}
	v := (lo + hi) / 2
	if (miss(lo) < 0) != (miss(hi) < 0) {
		v = root(miss, lo, hi)
	}
	s := g.seatAt(v, i)
	t := need(s)
	k := g.link(s, to, b.tol)
	return choice{s, t, k.start.slack(t) / (1e-15 + k.start.hi - k.start.lo)}
}

// arcs draws the arcs from the row's start on, each with the tangent at which
// the one before it ends.
func (b *backward) arcs() []joinedArc {
	var out []joinedArc
	angle := b.seats[len(b.seats)-1].theta + b.first
	for i := len(b.seats) - 1; i > 0; i-- {
		p, q := b.seats[i], b.seats[i-1]
		half := wrapped(q.point.Sub(p.point).Angle() - angle)
		out = append(out, joinedArc{p.place, q.place, arcThrough(p.point, q.point, half)})
		angle += 2 * half
	}
	return out
}

// distance returns a bound on the row's distance from the arcs.
func (s *arcSearch) distance(g *arcGrid, arcs []joinedArc) float64 {
	worst := 0.0
	for _, a := range arcs {
		worst = math.Max(worst, g.departure(a))
	}
	return worst
}

// departure measures the row between the arc's ends at many points. Between two
// of them the distance f from the circle can rise above both by at most a
// quarter of the change of its slope times the way, if the slope changes one
// way; slope and distance are exact at the points.
func (g *arcGrid) departure(a joinedArc) float64 {
	const parts = 64
	var before Vec
	var slope, f float64
	worst := 0.0
	for i := 0; i <= parts; i++ {
		v := a.from + (a.to-a.from)*float64(i)/parts
		p, dir := g.frame(v)
		lastSlope, lastF := slope, f
		f, slope = offCircle(a.piece, p, dir)
		if i > 0 {
			way := 1.02 * p.Sub(before).Len()
			worst = math.Max(worst, math.Max(math.Abs(f), math.Abs(lastF))+math.Abs(slope-lastSlope)*way/4)
		}
		before = p
	}
	return worst
}

// offCircle returns p's distance from the line or circle of the piece, outward
// positive, and how fast it grows along dir.
func offCircle(piece Piece, p, dir Vec) (f, slope float64) {
	if a, ok := piece.(Arc); ok {
		v := p.Sub(a.C)
		return v.Len() - a.R, v.unit().Dot(dir)
	}
	l := piece.(Line)
	n := l.B.Sub(l.A).unit().Right()
	return p.Sub(l.A).Dot(n), n.Dot(dir)
}
