package gear_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"github.com/tdewolff/canvas"

	"ringtrack/gear"
	"ringtrack/gear/plane"
)

// rolling turns the two finished, flattened outlines against each other. It
// knows no gears: whether they overlap is decided by the polygon booleans of a
// general-purpose library.
type rolling struct {
	pinion []plane.Vec  // about its own centre
	ring   *canvas.Path // the ring's material near the mesh, about the ring's centre
	a      float64
	scale  float64
}

// newRolling takes five of the ring's spaces about the line of centres as a
// piece of material, and the whole pinion.
func newRolling(p *gear.Pair, phase float64) *rolling {
	const chord = 0.5e-3
	r := &rolling{pinion: p.Pinion.Outline().Flatten(chord), a: p.CentreDistance, scale: p.Pinion.Module}
	outline := p.Ring.Outline()
	unit := outline.Flatten(chord)
	unit = unit[:len(unit)/p.Ring.Teeth]
	var piece []plane.Vec
	const around = 4
	for i := -around; i <= around; i++ {
		// The unit runs clockwise.
		for _, v := range unit {
			piece = append(piece, v.Turn(phase-2*math.Pi*float64(i)/float64(p.Ring.Teeth)))
		}
	}
	outer := p.Ring.RootDiameter/2 + 2*p.Ring.Module
	last, first := piece[len(piece)-1], piece[0]
	piece = append(piece, plane.Polar(outer, last.Angle()))
	for k := 1; k < 20; k++ {
		f := float64(k) / 20
		piece = append(piece, plane.Polar(outer, last.Angle()*(1-f)+first.Angle()*f))
	}
	piece = append(piece, plane.Polar(outer, first.Angle()))
	r.ring = path(piece)
	return r
}

func path(poly []plane.Vec) *canvas.Path {
	p := &canvas.Path{}
	for i, v := range poly {
		if i == 0 {
			p.MoveTo(v.X, v.Y)
		} else {
			p.LineTo(v.X, v.Y)
		}
	}
	p.Close()
	return p
}

// area sums the areas of a path's polygons.
func area(p *canvas.Path) float64 {
	sum := 0.0
	for _, q := range p.Split() {
		c := q.Coords()
		for i, a := range c {
			b := c[(i+1)%len(c)]
			sum += (a.X*b.Y - a.Y*b.X) / 2
		}
	}
	return math.Abs(sum)
}

// overlaps reports whether the pinion, turned by angle, cuts into the ring.
func (r *rolling) overlaps(angle float64) bool {
	placed := make([]plane.Vec, len(r.pinion))
	for i, v := range r.pinion {
		placed[i] = v.Turn(angle).Add(plane.Vec{X: r.a})
	}
	return area(r.ring.And(path(placed))) > 1e-9*r.scale*r.scale
}

// free returns the interval of the pinion's turn about start, at most pitch wide
// to either side, in which nothing overlaps; ok is false when it overlaps at
// start.
func (r *rolling) free(start, pitch float64) (from, to float64, ok bool) {
	if r.overlaps(start) {
		return 0, 0, false
	}
	edge := func(out float64) float64 {
		in := start
		for range 16 {
			if mid := (in + out) / 2; r.overlaps(mid) {
				out = mid
			} else {
				in = mid
			}
		}
		return in
	}
	return edge(start - pitch/2), edge(start + pitch/2), true
}

// TestRolling finds the designed backlash on the outlines themselves, within
// 0.01 mm, in several positions of a pitch.
func TestRolling(t *testing.T) {
	fixed := open(2, 20, 75)
	fixed.Pinion.Shift, fixed.Ring.Shift = gear.Fixed(0.2), gear.Fixed(0.35)
	fine := open(0.8, 24, 130)
	fine.LeastTip, fine.Spread, fine.Backlash, fine.Share = 0.1, 0.02, gear.Fixed(0.06), 1
	shallow := open(1.5, 14, 60)
	shallow.PressureAngle, shallow.Share = deg(25), 0
	for name, w := range map[string]gear.Wish{"carousel": open(2.5, 15, 104), "fine pitch": fine, "fixed shifts": fixed, "25 degrees": shallow} {
		p, findings := resolve(t, w)
		require.Empty(t, codes(findings, 0), name)
		ratio := p.Ratio()
		pitch := 2 * math.Pi / float64(p.Pinion.Teeth)
		const positions = 5
		for k := range positions {
			phase := 2 * math.Pi / float64(p.Ring.Teeth) * float64(k) / positions
			r := newRolling(p, phase)
			// A tooth in the middle of a space when both stand on the line of centres.
			from, to, ok := r.free(phase*ratio, pitch)
			require.True(t, ok, "%s jams at position %d", name, k)
			play := (to - from) * p.Pinion.WorkingDiameter / 2
			require.InDelta(t, p.Backlash.Circumferential, play, 0.01, "%s at position %d", name, k)
			require.InDelta(t, phase*ratio, (from+to)/2, 0.01/p.Pinion.WorkingDiameter, "%s is not centred", name)
		}
	}
}

// TestRollingFindsTheBadPair: 12/96 unshifted at full depth takes a good part of
// its play away where the ring's tips pass the pinion's roots, and with little
// play it jams; the rule's own pair at the same counts keeps what it was given.
func TestRollingFindsTheBadPair(t *testing.T) {
	const m = 2.5
	// least returns the smallest play over a pitch, 0 where the pair jams.
	least := func(w gear.Wish) float64 {
		p, _ := resolve(t, w)
		play := math.Inf(1)
		const positions = 6
		for k := range positions {
			phase := 2 * math.Pi / 96 * float64(k) / positions
			from, to, ok := newRolling(p, phase).free(phase*p.Ratio(), 2*math.Pi/12)
			if !ok {
				return 0
			}
			play = math.Min(play, (to-from)*p.Pinion.WorkingDiameter/2)
		}
		return play
	}
	bad, good := full(m, 12, 96, 0, 0), open(m, 12, 96)
	for _, backlash := range []float64{0.356, 0.1, 0.025} {
		bad.Backlash, good.Backlash = gear.Fixed(backlash), gear.Fixed(backlash)
		require.InDelta(t, backlash, least(good), 0.002)
		require.Less(t, least(bad), backlash-0.024)
	}
	require.Zero(t, least(bad), "with 0.025 mm of play it must jam")
}
