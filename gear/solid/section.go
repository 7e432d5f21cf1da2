package solid

import (
	"fmt"
	"math"
	"sort"

	"ringtrack/gear/plane"
)

// Section returns the body's exact section at height z, in mm: regions that do
// not meet, the one with the leftmost point first. Where something begins or
// ends at z itself it is the section just above. Above and below the body it is
// empty.
//
// Errors: those of plane.Loop.Offset for a slope, a *ChannelError for a channel
// that cannot be drilled. That walls cross is not looked for.
func (b *Body) Section(z float64) ([]plane.Region, error) {
	if err := b.check(); err != nil {
		return nil, fmt.Errorf("section: %w", err)
	}
	c := &cutter{body: b, z: z, cuts: make([][]*cut, len(b.Walls))}
	for i := range b.Channels {
		low, high := b.Channels[i].span()
		if z <= low || z >= high {
			continue
		}
		d, err := b.drill(i)
		if err != nil {
			return nil, fmt.Errorf("section: %w", err)
		}
		c.channel(d)
	}
	var loops []plane.Loop
	for i := range b.Walls {
		w := &b.Walls[i]
		if z < w.Low || z >= w.High || len(c.cuts[i]) > 0 {
			continue
		}
		l, err := w.Loop.Offset(w.shiftAt(z))
		if err != nil {
			return nil, fmt.Errorf("section: %s: %w", b.wallName(i), err)
		}
		loops = append(loops, l)
	}
	return regions(append(append(loops, c.trace()...), c.closed...)), nil
}

// cutter cuts channels out of a section.
type cutter struct {
	body   *Body
	z      float64
	cuts   [][]*cut     // by wall
	closed []plane.Loop // hollows that meet no wall
}

// cut is a place on a wall's loop at which a channel's side begins or ends.
type cut struct {
	wall  int
	place place
	p     plane.Vec
	// Where the loop is left, path leads from p along the channel to the cut to.
	path []plane.Vec
	to   *cut
}

// corridor is a channel's section through one stretch of material: its half
// widths, each from the first of two t inward to the second.
type corridor struct {
	outer, inner *pass // nil for a flat end
	parts        []corridorPart
}

type corridorPart struct{ from, to, half float64 }

// corridors returns the channel's stretches through material at the height h
// above its axis.
func (d *drilling) corridors(h float64) []corridor {
	var out []corridor
	var now *corridor
	within := false
	start := func(p *pass, t, half float64) {
		now = &corridor{outer: p, parts: []corridorPart{{from: t, half: half}}}
	}
	end := func(p *pass, t float64) {
		now.inner, now.parts[len(now.parts)-1].to = p, t
		out = append(out, *now)
		now = nil
	}
	for i, s := range d.channel.Steps {
		half := s.halfWidth(h)
		for k := range d.passes[i] {
			p := &d.passes[i][k]
			within = p.dir > 0
			switch {
			case half > 0 && within:
				start(p, p.t1, half)
			case half > 0 && now != nil:
				end(p, p.t0)
			}
		}
		next := 0.0
		if i+1 < len(d.channel.Steps) {
			next = d.channel.Steps[i+1].halfWidth(h)
		}
		switch {
		case !within:
		case now != nil && next > 0:
			now.parts[len(now.parts)-1].to = s.To
			now.parts = append(now.parts, corridorPart{from: s.To, half: next})
		case now != nil:
			end(nil, s.To)
		case next > 0:
			start(nil, s.To, next)
		}
	}
	return out
}

// channel adds the cuts of one channel.
func (c *cutter) channel(d *drilling) {
	turn := plane.Turned(d.channel.Angle)
	for _, k := range d.corridors(c.z - d.channel.Z) {
		first, last := k.parts[0].half, k.parts[len(k.parts)-1].half
		inward := k.side(-1, turn)
		outward := k.side(1, turn)
		reverse(outward)
		switch {
		case k.outer != nil && k.inner != nil:
			c.join(c.cutAt(k.outer, -first), c.cutAt(k.inner, -last), inward)
			c.join(c.cutAt(k.inner, last), c.cutAt(k.outer, first), outward)
		case k.outer != nil:
			c.join(c.cutAt(k.outer, -first), c.cutAt(k.outer, first), append(inward, outward...))
		case k.inner != nil:
			c.join(c.cutAt(k.inner, last), c.cutAt(k.inner, -last), append(outward, inward...))
		default:
			c.closed = append(c.closed, polygon(append(inward, outward...)))
		}
	}
}

// side returns the corners of one side (w = -1 or +1 times the half width) from
// outside inward, without those on walls.
func (k *corridor) side(sign float64, turn plane.Similarity) []plane.Vec {
	var out []plane.Vec
	for i, p := range k.parts {
		if i > 0 || k.outer == nil {
			out = append(out, turn.Point(plane.Vec{X: p.from, Y: sign * p.half}))
		}
		if i < len(k.parts)-1 || k.inner == nil {
			out = append(out, turn.Point(plane.Vec{X: p.to, Y: sign * p.half}))
		}
	}
	return out
}

func polygon(p []plane.Vec) plane.Loop {
	l := plane.Loop{Fold: 1}
	for i := range p {
		if q := p[(i+1)%len(p)]; q != p[i] {
			l.Unit = append(l.Unit, plane.Line{A: p[i], B: q})
		}
	}
	return l
}

// cutAt adds the cut at w on the wall that is passed.
func (c *cutter) cutAt(p *pass, w float64) *cut {
	link := p.chain.linkAt(w, p.dir)
	u := link.solve(w)
	k := &cut{wall: p.wall, place: place{link.piece, u}}
	k.p = pieceOf(c.body.Walls[p.wall].Loop, link.piece).At(u)
	c.cuts[p.wall] = append(c.cuts[p.wall], k)
	return k
}

func (c *cutter) join(from, to *cut, path []plane.Vec) { from.path, from.to = path, to }

// pieceOf returns piece i of the unfolded loop.
func pieceOf(l plane.Loop, i int) plane.Piece {
	p := l.Unit[i%len(l.Unit)]
	if t := i / len(l.Unit); t > 0 {
		p = p.Map(stepOf(l, t))
	}
	return p
}

// trace returns the loops that the cut walls and the channels' sides make up.
func (c *cutter) trace() []plane.Loop {
	var starts []*cut
	next := map[*cut]*cut{}
	for _, cuts := range c.cuts {
		sort.Slice(cuts, func(i, j int) bool {
			a, b := cuts[i].place, cuts[j].place
			return a.piece < b.piece || a.piece == b.piece && a.u < b.u
		})
		for i, k := range cuts {
			next[k] = cuts[(i+1)%len(cuts)]
			if k.to == nil {
				starts = append(starts, k)
			}
		}
	}
	used := map[*cut]bool{}
	var out []plane.Loop
	for _, s := range starts {
		l := plane.Loop{Fold: 1}
		for k := s; !used[k]; {
			used[k] = true
			end := next[k]
			l.Unit = append(l.Unit, c.stretch(k, end)...)
			if end.to == nil {
				break
			}
			at := end.p
			for _, p := range append(end.path, end.to.p) {
				if p != at {
					l.Unit = append(l.Unit, plane.Line{A: at, B: p})
				}
				at = p
			}
			k = end.to
		}
		if len(l.Unit) > 0 {
			out = append(out, l)
		}
	}
	return out
}

// stretch returns the wall's pieces from one cut to the next.
func (c *cutter) stretch(from, to *cut) []plane.Piece {
	l := c.body.Walls[from.wall].Loop
	n := len(l.Unit) * l.Turns()
	if from.place.piece == to.place.piece && from.place.u < to.place.u {
		return []plane.Piece{pieceOf(l, from.place.piece).Cut(from.place.u, to.place.u)}
	}
	var out []plane.Piece
	if from.place.u < 1 {
		out = append(out, pieceOf(l, from.place.piece).Cut(from.place.u, 1))
	}
	for i := (from.place.piece + 1) % n; i != to.place.piece; i = (i + 1) % n {
		out = append(out, pieceOf(l, i))
	}
	if to.place.u > 0 {
		out = append(out, pieceOf(l, to.place.piece).Cut(0, to.place.u))
	}
	return out
}

// regions sorts loops that do not cross into regions: every hole belongs to the
// least outer loop about it.
func regions(loops []plane.Loop) []plane.Region {
	var out []plane.Region
	var areas []float64
	var holes []plane.Loop
	for _, l := range loops {
		if a := l.Area(); a > 0 {
			out, areas = append(out, plane.Region{Outer: l}), append(areas, a)
		} else {
			holes = append(holes, l)
		}
	}
	for _, h := range holes {
		best := -1
		for i := range out {
			if len(out) == 1 || (best < 0 || areas[i] < areas[best]) && out[i].Outer.Contains(h.Unit[0].At(0.5)) {
				best = i
			}
		}
		if best >= 0 {
			out[best].Holes = append(out[best].Holes, h)
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].Outer.Box().Min.X < out[j].Outer.Box().Min.X })
	return out
}

// linkAt returns the link of a crossing chain that holds w.
func (c chain) linkAt(w float64, dir int) link {
	k := 0
	for k < len(c.links)-1 && (c.links[k].w(c.links[k].u1)-w)*float64(dir) < 0 {
		k++
	}
	return c.links[k]
}

// tAt returns t where the chain stands at w.
func (c chain) tAt(w float64, dir int) float64 {
	l := c.linkAt(w, dir)
	return l.p.At(math.Max(l.u0, math.Min(l.u1, l.solve(w)))).X
}
