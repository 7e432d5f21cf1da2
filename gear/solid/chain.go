package solid

import (
	"math"

	"ringtrack/gear/plane"
)

// stretch is a part of a loop's piece along which w only rises or only falls,
// as a channel sees it: turned so that x is t and y is w.
type stretch struct {
	piece  int // in the unfolded loop
	p      plane.Piece
	u0, u1 float64
}

func (s stretch) w(u float64) float64 { return s.p.At(u).Y }

// stretches returns the parts of the loop that may reach into |w| < half, in the
// order of the loop.
func stretches(l plane.Loop, angle, half float64) []stretch {
	var out []stretch
	back := plane.Turned(-angle)
	n := len(l.Unit)
	balls := make([]ball, n)
	for i, p := range l.Unit {
		balls[i] = ballOf(p)
	}
	for t := range l.Turns() {
		m := stepOf(l, t).Then(back)
		for i, p := range l.Unit {
			if c := m.Point(balls[i].c); math.Abs(c.Y)-balls[i].r >= half {
				continue
			}
			if t > 0 {
				p = p.Map(stepOf(l, t))
			}
			out = append(out, monotone(t*n+i, p.Map(back))...)
		}
	}
	return out
}

// ball is a circle that holds a piece.
type ball struct {
	c plane.Vec
	r float64
}

func ballOf(p plane.Piece) ball {
	b := p.Box()
	return ball{b.Min.Add(b.Max).Mul(0.5), b.Size().Len() / 2 * (1 + 1e-12)}
}

// monotone divides a piece where w turns back.
func monotone(number int, p plane.Piece) []stretch {
	cuts := []float64{0}
	switch a := p.(type) {
	case plane.Line:
	case plane.Arc:
		lo, hi := math.Min(a.A0, a.A0+a.Sweep), math.Max(a.A0, a.A0+a.Sweep)
		var at []float64
		for k := math.Ceil(lo/math.Pi - 0.5); (k+0.5)*math.Pi < hi; k++ {
			if u := ((k+0.5)*math.Pi - a.A0) / a.Sweep; u > 1e-12 && u < 1-1e-12 {
				at = append(at, u)
			}
		}
		if a.Sweep < 0 {
			for i, j := 0, len(at)-1; i < j; i, j = i+1, j-1 {
				at[i], at[j] = at[j], at[i]
			}
		}
		cuts = append(cuts, at...)
	default:
		const n = 32
		slope := func(u float64) float64 { return p.Frame(u).V.Y }
		last := slope(0)
		for i := 1; i <= n; i++ {
			u := float64(i) / n
			now := slope(u)
			if last*now < 0 {
				cuts = append(cuts, zero(slope, u-1.0/n, u, 1e-15))
			}
			last = now
		}
	}
	cuts = append(cuts, 1)
	out := make([]stretch, 0, len(cuts)-1)
	for i := 1; i < len(cuts); i++ {
		out = append(out, stretch{number, p, cuts[i-1], cuts[i]})
	}
	return out
}

// link is the part of a stretch with |w| < half.
type link struct {
	stretch
	in, out bool // it comes in at a side, it goes out at one
}

// dir is +1 where w rises along the link, -1 where it falls, else 0.
func (l link) dir() int { return sign(l.w(l.u1) - l.w(l.u0)) }

// chain is a run of links across |w| < half, or what stays within.
type chain struct {
	links  []link
	t0, t1 float64 // bounds of t
}

// chains returns what lies within |w| < half, joined along the loop.
func chains(ss []stretch, half float64) []chain {
	var links []link
	first := -1
	for _, s := range ss {
		if l, ok := clip(s, half); ok {
			if l.in && first < 0 {
				first = len(links)
			}
			links = append(links, l)
		}
	}
	if len(links) == 0 {
		return nil
	}
	if first < 0 { // the whole loop
		first = 0
	}
	var out []chain
	for i := range links {
		l := links[(first+i)%len(links)]
		if i == 0 || l.in {
			out = append(out, chain{t0: math.Inf(1), t1: math.Inf(-1)})
		}
		c := &out[len(out)-1]
		c.links = append(c.links, l)
		b := l.p.Cut(l.u0, l.u1).Box()
		c.t0, c.t1 = math.Min(c.t0, b.Min.X), math.Max(c.t1, b.Max.X)
	}
	return out
}

// clip returns the part of a stretch with |w| < half.
func clip(s stretch, half float64) (link, bool) {
	w0, w1 := s.w(s.u0), s.w(s.u1)
	if math.Max(w0, w1) <= -half || math.Min(w0, w1) >= half {
		return link{}, false
	}
	l := link{stretch: s}
	if math.Abs(w0) >= half {
		l.u0, l.in = s.solve(math.Copysign(half, w0)), true
	}
	if math.Abs(w1) >= half {
		l.u1, l.out = s.solve(math.Copysign(half, w1)), true
	}
	return l, true
}

// solve returns the parameter at which the stretch has the given w.
func (s stretch) solve(w float64) float64 {
	w0, w1 := s.w(s.u0), s.w(s.u1)
	if w == w0 {
		return s.u0
	}
	if w == w1 {
		return s.u1
	}
	if l, ok := s.p.(plane.Line); ok {
		return math.Min(s.u1, math.Max(s.u0, (w-l.A.Y)/(l.B.Y-l.A.Y)))
	}
	return zero(func(u float64) float64 { return s.w(u) - w }, s.u0, s.u1, 1e-16)
}

// crosses returns +1 when the chain runs from one side to the other with w
// rising, -1 with w falling. Otherwise it returns 0 and the least |w| at which
// it turns back.
func (c chain) crosses() (dir int, least float64) {
	closed := !c.links[0].in
	dir, least = c.links[0].dir(), math.Inf(1)
	for i, l := range c.links {
		last := i == len(c.links)-1
		if next := c.links[(i+1)%len(c.links)]; (closed || !last) && next.dir() != l.dir() {
			least = math.Min(least, math.Abs(l.w(l.u1)))
		}
		if l.dir() == 0 {
			least = math.Min(least, math.Abs(l.w(l.u0)))
		}
	}
	if closed || !math.IsInf(least, 1) {
		return 0, least
	}
	return dir, 0
}

// place is a point on a loop: piece of the unfolded loop and parameter on it.
type place struct {
	piece int
	u     float64
}

// places returns where the chain, which crosses in direction dir, has each of
// the given w (rising from side to side). A joint of two pieces that lies within
// near of such a place is taken for it.
func (c chain) places(ws []float64, dir int, near float64) []place {
	out := make([]place, len(ws))
	for j, w := range ws {
		l := c.linkAt(w, dir)
		var u float64
		switch end := j == 0 || j == len(ws)-1; {
		case end && (j == 0) == (dir > 0):
			u = l.u0
		case end:
			u = l.u1
		default:
			u = l.solve(w)
		}
		p := l.p.At(u)
		for _, e := range []float64{0, 1} {
			if l.p.At(e).Sub(p).Len() < near {
				u = e
			}
		}
		out[j] = place{l.piece, u}
	}
	return out
}
