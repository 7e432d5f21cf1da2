package roll_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/tdewolff/canvas"

	"ringtrack/gear"
	"ringtrack/gear/plane"
	"ringtrack/gear/roll"
)

// brute answers by a general-purpose library alone: do the outlines cross? Two
// polygons that come together touch first with a vertex of one, so the library
// is asked whether a vertex of one lies inside the other.
type brute struct {
	pinion, ring []plane.Vec // about their own axes
	a            float64
	reach        float64 // ring vertices beyond this distance from the pinion's axis are no matter
}

func newBrute(p roll.Pair) *brute {
	b := &brute{a: p.CentreDistance}
	for q := range p.Pinion.All() {
		v := q.At(0).Add(p.PinionOff)
		b.pinion = append(b.pinion, v)
		b.reach = math.Max(b.reach, v.Len())
	}
	for q := range p.Ring.All() {
		b.ring = append(b.ring, q.At(0).Add(p.RingOff))
	}
	return b
}

func path(pts []plane.Vec) *canvas.Path {
	var p canvas.Path
	for i, v := range pts {
		if i == 0 {
			p.MoveTo(v.X, v.Y)
		} else {
			p.LineTo(v.X, v.Y)
		}
	}
	p.Close()
	return &p
}

// crossing reports whether the outlines overlap with the members at these angles.
func (b *brute) crossing(phi, theta float64) bool {
	pin := make([]plane.Vec, len(b.pinion))
	for i, v := range b.pinion {
		pin[i] = v.Turn(phi).Add(plane.Vec{X: b.a})
	}
	ring := make([]plane.Vec, len(b.ring))
	for i, v := range b.ring {
		ring[i] = v.Turn(theta)
	}
	inner, outer := path(pin), path(ring)
	least := math.Inf(1)
	for _, v := range ring {
		least = math.Min(least, v.Len())
		if v.Sub(plane.Vec{X: b.a}).Len() <= b.reach && inner.Contains(v.X, v.Y, canvas.NonZero) {
			return true
		}
	}
	for _, v := range pin {
		if v.Len() >= least && !outer.Contains(v.X, v.Y, canvas.NonZero) {
			return true
		}
	}
	return false
}

// free bisects the ends of the free interval between mid, which is free, and
// angles far enough away not to be.
func (b *brute) free(phi, mid, far, tol float64) (lo, hi float64) {
	edge := func(in, out float64) float64 {
		for math.Abs(in-out) > tol {
			if m := (in + out) / 2; b.crossing(phi, m) {
				out = m
			} else {
				in = m
			}
		}
		return (in + out) / 2
	}
	return edge(mid, mid-far), edge(mid, mid+far)
}

// coarse are pairs of few points.
func coarse(t testing.TB) []roll.Pair {
	var out []roll.Pair
	for _, d := range designs[:4] {
		p := outlines(resolve(t, wish(d.module, d.z1, d.z2, d.play)))
		out = append(out, withFacets(p, 0.02*d.module))
	}
	off := out[0]
	off.RingOff, off.PinionOff = plane.Vec{X: 0.05, Y: -0.04}, plane.Vec{X: -0.02, Y: 0.03}
	// Teeth that run into each other's roots push the ring about.
	w := wish(1, 12, 60, 0.3)
	w.Pinion.Shift, w.Ring.Shift = gear.Fixed(0), gear.Fixed(0)
	w.Pinion.TipRadius, w.Ring.TipRadius = gear.Fixed(7), gear.Fixed(29)
	cutting := withFacets(outlines(resolve(t, w)), 0.02)
	return append(out, off, cutting, shaken(out[0], 0.04, 1), shaken(out[2], 0.03, 2))
}

// shaken moves every vertex by up to mm: flanks fold back, no two teeth agree.
func shaken(p roll.Pair, mm float64, seed uint64) roll.Pair {
	rng := rand.New(rand.NewPCG(seed, 7))
	shake := func(l plane.Loop, fold int) plane.Loop {
		var pts []plane.Vec
		for q := range l.All() {
			pts = append(pts, q.At(0).Add(plane.Vec{X: mm * (2*rng.Float64() - 1), Y: mm * (2*rng.Float64() - 1)}))
		}
		return polygon(pts, fold)
	}
	p.Pinion, p.Ring = shake(p.Pinion, 1), shake(p.Ring, -1)
	return p
}

// A general-purpose library finds the same free interval.
func TestLibraryFindsTheSameInterval(t *testing.T) {
	steps := 6
	if slow() {
		steps = 48
	}
	for k, p := range coarse(t) {
		e, err := roll.New(p, roll.Options{})
		if err != nil {
			t.Fatal(err)
		}
		b := newBrute(p)
		for i := range steps {
			phi := 1.234 * float64(i)
			v := e.Free(phi)
			if v.Width() <= 0 || v.Jam != nil {
				if !b.crossing(phi, v.Mid()) {
					t.Errorf("pair %d at %g: rolling binds by %g rad, the library sees no crossing", k, phi, -v.Width())
				}
				continue
			}
			lo, hi := b.free(phi, v.Mid(), v.Width()/2+0.002, 1e-8)
			near(t, "Lo", v.Lo, lo, 1e-6)
			near(t, "Hi", v.Hi, hi, 1e-6)
		}
	}
}
