package solid

import (
	"fmt"
	"math"
	"slices"
)

// Volume returns the exact body's volume in mm3, to about 1e-9 of itself: the
// areas within the walls, integrated over their heights, less the channels.
//
// Method: a vertical wall's area is in closed form, or good to 1e-13, by its
// loop. A slope's is integrated by Gauss's rule between the distances at which
// a face of it begins or ends. A channel takes, at each w, its height there
// times the way through material.
//
// Errors: those of Section and of a slope that is too deep.
func (b *Body) Volume() (float64, error) {
	if err := b.check(); err != nil {
		return 0, fmt.Errorf("volume: %w", err)
	}
	var total sum
	for i := range b.Walls {
		w := &b.Walls[i]
		low, high := w.upright()
		if high > low {
			total.add(w.Loop.Area() * (high - low))
		}
		for _, e := range []Edge{w.Foot, w.Head} {
			v, err := w.slopeVolume(e)
			if err != nil {
				return 0, fmt.Errorf("volume: %s: %w", b.wallName(i), err)
			}
			total.add(v)
		}
	}
	for i := range b.Channels {
		d, err := b.drill(i)
		if err != nil {
			return 0, fmt.Errorf("volume: %w", err)
		}
		total.add(-d.volume())
	}
	return total.value(), nil
}

// slopeVolume returns the area within the wall integrated over an edge's height.
func (w *Wall) slopeVolume(e Edge) (float64, error) {
	if e.square() {
		return 0, nil
	}
	var failed error
	area := func(shift float64) float64 {
		l, err := w.Loop.Offset(shift)
		if err != nil {
			failed = err
		}
		return l.Area()
	}
	if e.Round {
		v := gauss(0, math.Pi/2, 2, func(a float64) float64 {
			return area(math.Copysign(e.Height*(1-math.Cos(a)), e.Shift)) * e.Height * math.Cos(a)
		})
		return v, failed
	}
	stops := []float64{0, math.Abs(e.Shift)}
	if e.Shift < 0 {
		const coarse = 0.02 // of the depth: only the distances are wanted
		rf, err := newRoof(w.Loop, []float64{-e.Shift}, 0, coarse*-e.Shift, nil)
		if err != nil {
			return 0, err
		}
		for _, r := range rf.ridges {
			stops = append(stops, r.start().s)
		}
		slices.Sort(stops)
		stops = slices.Compact(stops)
	}
	total := 0.0
	for i := 1; i < len(stops); i++ {
		total += gauss(stops[i-1], stops[i], 1, func(s float64) float64 { return area(math.Copysign(s, e.Shift)) })
	}
	return total * e.Height / math.Abs(e.Shift), failed
}

// volume returns what the channel takes from the body.
func (d *drilling) volume() float64 {
	total := 0.0
	var outer func(w float64) float64
	var bends []float64
	for i, s := range d.channel.Steps {
		take := func(inner func(w float64) float64, more []float64) {
			stops := []float64{}
			for _, w := range append(append(s.kinks(), bends...), more...) {
				if math.Abs(w) <= s.Radius {
					stops = append(stops, math.Asin(w/s.Radius))
				}
			}
			slices.Sort(stops)
			for k := 1; k < len(stops); k++ {
				total += gauss(stops[k-1], stops[k], 2, func(a float64) float64 {
					w := s.Radius * math.Sin(a)
					low, high := s.at(w)
					return (high - low) * (outer(w) - inner(w)) * s.Radius * math.Cos(a)
				})
			}
		}
		for k := range d.passes[i] {
			p := &d.passes[i][k]
			at := func(w float64) float64 { return p.chain.tAt(w, p.dir) }
			if p.dir > 0 {
				outer, bends = at, p.chain.bends()
			} else {
				take(at, p.chain.bends())
				outer, bends = nil, nil
			}
		}
		if outer != nil {
			flat := func(float64) float64 { return s.To }
			take(flat, nil)
			outer, bends = flat, nil
		}
	}
	return total
}

// bends returns the w at which the chain's pieces join.
func (c chain) bends() []float64 {
	var out []float64
	for _, l := range c.links[1:] {
		out = append(out, l.w(l.u0))
	}
	return out
}

// gauss8 holds nodes and weights of the 8-point Gauss-Legendre rule on [0, 1].
var gauss8 = [8][2]float64{
	{0.019855071751231884, 0.050614268145188130}, {0.101666761293186630, 0.111190517226687235},
	{0.237233795041835507, 0.156853322938943644}, {0.408282678752175098, 0.181341891689180991},
	{0.591717321247824902, 0.181341891689180991}, {0.762766204958164493, 0.156853322938943644},
	{0.898333238706813370, 0.111190517226687235}, {0.980144928248768116, 0.050614268145188130},
}

// gauss integrates f from a to b in equal panels of eight points.
func gauss(a, b float64, panels int, f func(float64) float64) float64 {
	total := 0.0
	for i := range panels {
		for _, g := range gauss8 {
			total += g[1] * f(a+(b-a)*(float64(i)+g[0])/float64(panels))
		}
	}
	return total * (b - a) / float64(panels)
}
