package roll_test

import (
	"math"
	"testing"

	"ringtrack/gear/plane"
	"ringtrack/gear/roll"
)

// moveTooth turns the vertices of one pinion tooth, from root to root, by an arc
// of mm at the radius given.
func moveTooth(pts []plane.Vec, tooth, teeth int, mm, radius float64) {
	pitch := 2 * math.Pi / float64(teeth)
	for i, v := range pts {
		if d := math.Remainder(v.Angle()-float64(tooth)*pitch, 2*math.Pi); math.Abs(d) < 0.49*pitch {
			pts[i] = v.Turn(mm / radius)
		}
	}
}

// polygons returns the pair's vertices.
func polygons(p roll.Pair, chord float64) (pinion, ring []plane.Vec) {
	return p.Pinion.Flatten(chord), p.Ring.Flatten(chord)
}

// One tooth that stands 0.3 mm off is found, with its number and its size.
func TestMovedTooth(t *testing.T) {
	p := resolve(t, wish(2.5, 15, 104, 0.5))
	const moved, by = 4, 0.3
	pin, ring := polygons(outlines(p), 0.001)
	moveTooth(pin, moved, 15, by, p.Pinion.WorkingDiameter/2)
	pair := roll.Pair{Pinion: polygon(pin, 1), Ring: polygon(ring, -1), CentreDistance: p.CentreDistance}
	r := mustRoll(t, pair, options(p))
	if r.Span != roll.RingTurn {
		t.Errorf("span %v, want a turn of the ring", r.Span)
	}
	if got := r.Forward.LeadAt.Low.PinionTooth; got != moved {
		t.Errorf("tooth %d leads, want %d", got, moved)
	}
	usual := median(r.Positions, func(v roll.Interval) float64 { return v.Lo - v.Exact })
	size := (r.Forward.LeadAt.Lo - r.Forward.LeadAt.Exact - usual) * r.WorkingRing
	near(t, "lead of the moved tooth, mm", size, by, 0.005)
	near(t, "loss of play, mm", p.Backlash.Circumferential-r.Backlash.Least.Arc, by, 0.005)
	if r.Binding != nil {
		t.Errorf("binds by %g mm; 0.2 mm of play are left", r.Binding.By.Arc)
	}
}

// One vertex of the ring moved out of its flank by more than the play binds, at
// its tooth.
func TestVertexInFlank(t *testing.T) {
	p := resolve(t, wish(2.5, 15, 104, 0.3))
	for _, by := range []float64{0.1, 0.5} {
		pin, ring := polygons(outlines(p), 0.002)
		k := flankVertex(ring, p.Ring.WorkingDiameter/2, 37.5*2*math.Pi/104)
		// The flank of tooth 37 that its space 37 bounds counter-clockwise faces
		// clockwise: into the space is clockwise.
		ring[k] = ring[k].Turn(-by / (p.Ring.WorkingDiameter / 2))
		pair := roll.Pair{Pinion: polygon(pin, 1), Ring: polygon(ring, -1), CentreDistance: p.CentreDistance}
		r := mustRoll(t, pair, options(p))
		v := r.Backlash.LeastAt
		if v.Low.RingTooth != 37 || !v.Low.RingCorner {
			t.Errorf("%g mm: the tightest place touches ring tooth %d, corner %v; want the corner of 37", by, v.Low.RingTooth, v.Low.RingCorner)
		}
		loss := p.Backlash.Circumferential - r.Backlash.Least.Arc
		near(t, "loss of play, mm", loss, by, 0.01)
		if (r.Binding != nil) != (by > 0.3) {
			t.Errorf("%g mm: binding %v", by, r.Binding)
		}
		if by > 0.3 {
			near(t, "overlap, mm", r.Binding.By.Arc, by-0.3, 0.01)
			if s := r.Binding.Share; !(s > 0 && s < 0.05) {
				t.Errorf("binds over %g of the turn", s)
			}
		}
	}
}

// flankVertex returns the vertex nearest to the radius on the clockwise flank of
// the ring tooth whose middle lies at the angle given.
func flankVertex(ring []plane.Vec, radius, middle float64) int {
	best, at := math.Inf(1), -1
	for i, v := range ring {
		d := math.Remainder(v.Angle()-middle, 2*math.Pi)
		if d < 0 && d > -math.Pi/104 {
			if e := math.Abs(v.Len() - radius); e < best {
				best, at = e, i
			}
		}
	}
	return at
}

// median returns the middle value of f.
func median(v []roll.Interval, f func(roll.Interval) float64) float64 {
	below := func(x float64) (n int) {
		for _, k := range v {
			if f(k) < x {
				n++
			}
		}
		return n
	}
	lo, hi := -1.0, 1.0
	for range 50 {
		if m := (lo + hi) / 2; 2*below(m) < len(v) {
			lo = m
		} else {
			hi = m
		}
	}
	return lo
}
