package solid

import (
	"math"
	"slices"
	"sort"
)

// pass is where a step of a channel goes through a wall.
type pass struct {
	wall   int
	dir    int // +1: the material lies inward of the wall, -1: outward
	t0, t1 float64
	chain  chain
	at     []place // by sample
}

// drilling is one channel's way through the walls.
type drilling struct {
	number  int
	body    *Body
	channel *Channel
	samples [][]float64 // by step: the w of the section's generators
	passes  [][]pass    // by step, from outside inward
	// ahead are the stretches of each wall that lie in the channel's way.
	ahead [][]stretch
}

// drill finds what channel number c passes.
func (b *Body) drill(c int) (*drilling, error) {
	ch := &b.Channels[c]
	widest := 0.0
	for _, s := range ch.Steps {
		widest = math.Max(widest, s.Radius)
	}
	d := &drilling{number: c, body: b, channel: ch, passes: make([][]pass, len(ch.Steps)), samples: make([][]float64, len(ch.Steps))}
	for i := range b.Walls {
		d.ahead = append(d.ahead, stretches(b.Walls[i].Loop, ch.Angle, widest))
	}
	found := false
	for i := range ch.Steps {
		if err := d.drillStep(b, i); err != nil {
			return nil, err
		}
		found = found || len(d.passes[i]) > 0
	}
	if !found || !d.startsOutside() {
		return nil, d.fail(MissesBody, 0, -1)
	}
	return d, nil
}

// startsOutside reports whether the outermost wall that is passed has its
// material behind it.
func (d *drilling) startsOutside() bool {
	for _, ps := range d.passes {
		if len(ps) > 0 {
			return ps[0].dir > 0
		}
	}
	return false
}

func (d *drilling) fail(k ChannelKind, step, wall int) *ChannelError {
	e := &ChannelError{Kind: k, Channel: d.number, Step: step, Wall: wall, Other: -1, Below: math.NaN(), Above: math.NaN()}
	if wall >= 0 {
		e.Name = d.body.Walls[wall].Name
	}
	return e
}

// drillStep finds the walls that step i passes.
func (d *drilling) drillStep(b *Body, i int) error {
	s := d.channel.Steps[i]
	low, high := s.span()
	low, high = low+d.channel.Z, high+d.channel.Z
	for w := range b.Walls {
		wall := &b.Walls[w]
		if wall.High < low || wall.Low > high {
			continue
		}
		for _, c := range chains(d.ahead[w], s.Radius) {
			if c.t1 <= s.To || c.t0 >= d.channel.from(i) {
				continue
			}
			p, err := d.look(b, i, w, c)
			if err != nil {
				return err
			}
			d.passes[i] = append(d.passes[i], p)
		}
	}
	sort.SliceStable(d.passes[i], func(j, k int) bool { return d.passes[i][j].middle() > d.passes[i][k].middle() })
	return nil
}

// middle returns t at w = 0.
func (p *pass) middle() float64 {
	for _, l := range p.chain.links {
		if a, b := l.w(l.u0), l.w(l.u1); math.Min(a, b) <= 0 && math.Max(a, b) >= 0 {
			return l.p.At(l.solve(0)).X
		}
	}
	return p.t1
}

// look examines one chain of wall w in the way of step i.
func (d *drilling) look(b *Body, i, w int, c chain) (pass, error) {
	s := d.channel.Steps[i]
	low, high := s.span()
	if l, h := b.Walls[w].upright(); !(l < d.channel.Z+low && d.channel.Z+high < h) {
		return pass{}, d.heights(b, i, w)
	}
	dir, least := c.crosses()
	if dir == 0 {
		e := d.fail(RunsOff, i, w)
		e.Radius = least
		return pass{}, e
	}
	if c.t0 <= s.To || c.t1 >= d.channel.from(i) {
		e := d.fail(CutsAskew, i, w)
		e.Inward, e.Outward = c.t0, c.t1
		return pass{}, e
	}
	return pass{wall: w, dir: dir, t0: c.t0, t1: c.t1, chain: c}, nil
}

// heights returns the error of a channel that meets an end or slope of wall w,
// with the heights at which it would clear all walls in its way.
func (d *drilling) heights(b *Body, i, w int) error {
	var taken [][2]float64 // heights of the axis, from - to
	low, high := d.channel.span()
	low, high = low-d.channel.Z, high-d.channel.Z
	for k := range b.Walls {
		if !d.inWay(k) {
			continue
		}
		wall := &b.Walls[k]
		l, h := wall.upright()
		taken = append(taken, [2]float64{wall.Low - high, l - low}, [2]float64{h - high, wall.High - low})
	}
	slices.SortFunc(taken, func(a, b [2]float64) int { return sign(a[0] - b[0]) })
	merged := taken[:1]
	for _, t := range taken[1:] {
		if last := &merged[len(merged)-1]; t[0] < last[1] {
			last[1] = math.Max(last[1], t[1])
		} else {
			merged = append(merged, t)
		}
	}
	e := d.fail(MeetsLevel, i, w)
	for k, t := range merged {
		if t[0] <= d.channel.Z && d.channel.Z <= t[1] {
			if k > 0 {
				e.Below = t[0]
			}
			if k < len(merged)-1 {
				e.Above = t[1]
			}
		}
	}
	return e
}

// inWay reports whether wall k would be passed at some height.
func (d *drilling) inWay(k int) bool {
	for i, s := range d.channel.Steps {
		for _, c := range chains(d.ahead[k], s.Radius) {
			if c.t1 > s.To && c.t0 < d.channel.from(i) {
				return true
			}
		}
	}
	return false
}

// spot places the generators: samples on every wall that is passed.
func (d *drilling) spot(chord float64, need []map[int][]float64) {
	near := chord / 64
	for i, s := range d.channel.Steps {
		d.samples[i] = s.samples(chord)
		for k := range d.passes[i] {
			p := &d.passes[i][k]
			p.at = p.chain.places(d.samples[i], p.dir, near)
			if need[p.wall] == nil {
				need[p.wall] = map[int][]float64{}
			}
			for _, q := range p.at {
				if q.u > 0 && q.u < 1 {
					need[p.wall][q.piece] = append(need[p.wall][q.piece], q.u)
				}
			}
		}
	}
}
