package roll_test

import (
	"math"
	"math/rand/v2"
	"os"
	"testing"

	"ringtrack/gear"
	"ringtrack/gear/plane"
	"ringtrack/gear/roll"
)

// slow reports whether the long tests are asked for.
func slow() bool { return os.Getenv("RINGTRACK_SLOW") == "1" }

// excess returns by how much, in mm of arc, the ring is pushed beyond where the
// involutes alone would put it.
func excess(p *gear.Pair, r roll.Result) float64 {
	half := p.Backlash.AngleRing / 2
	f, b := r.Forward.LeadAt, r.Backward.LagAt
	return math.Max(f.Lo-f.Exact+half, half-(b.Hi-b.Exact)) * r.WorkingRing
}

// random returns a pair with given shifts and tips, good or bad, and its least
// margin by formula; ok is false where the outline is not the one asked for or
// the radial clearances are used up, which is another matter.
func random(rng *rand.Rand) (p *gear.Pair, margin float64, ok bool) {
	z1 := 10 + rng.IntN(25)
	z2 := z1 + 12 + rng.IntN(100)
	if rng.IntN(3) == 0 {
		z2 = z1 + 5 + rng.IntN(8)
	}
	w := wish(1, z1, z2, 0.1+0.2*rng.Float64())
	x1 := -0.2 + 0.9*rng.Float64()
	x2 := x1 - 0.1 + 0.5*rng.Float64()
	w.Pinion.Shift, w.Ring.Shift = gear.Fixed(x1), gear.Fixed(x2)
	tip1 := float64(z1)/2 + x1 + 0.6 + 0.5*rng.Float64()
	tip2 := float64(z2)/2 + x2 - 0.6 - 0.5*rng.Float64()
	w.Pinion.TipRadius, w.Ring.TipRadius = gear.Fixed(tip1), gear.Fixed(tip2)
	if rng.IntN(2) == 0 {
		w.Ring.RootRadius = gear.Fixed(0.2 + 0.3*rng.Float64())
	}
	p, _ = gear.Resolve(w)
	if p == nil || math.Abs(p.Pinion.TipDiameter/2-tip1) > 1e-9 || math.Abs(p.Ring.TipDiameter/2-tip2) > 1e-9 ||
		p.TipClearancePinion < 0 || p.TipClearanceRing < 0 {
		return nil, 0, false
	}
	i := p.Interference
	margin = math.Min(i.RingTip.Nominal, i.PinionTip.Nominal)
	if i.TipOnTip.Applies {
		margin = math.Min(margin, i.TipOnTip.Nominal)
	}
	return p, margin, true
}

// Rolling finds an excess where a margin is negative and none where all are
// positive. Below an undercut there is no fillet where the formula counts on
// one, so there it holds in one direction: what rolling finds the formula knows.
func TestRollingAgreesWithFormula(t *testing.T) {
	want := 50
	if slow() {
		want = 2000
	}
	rng := rand.New(rand.NewPCG(20, 26))
	const band, least = 0.01, 1e-9
	inBand, undercut, spared, bad, tips, roots := 0, 0, 0, 0, 0, 0
	for n := 0; n < want; {
		p, margin, ok := random(rng)
		if !ok {
			continue
		}
		n++
		if math.Abs(margin) <= band {
			inBand++
			continue
		}
		r := mustRoll(t, outlines(p), options(p))
		hit := excess(p, r) > least || r.Binding != nil
		if margin < 0 {
			bad++
			if i := p.Interference; i.TipOnTip.Applies && i.TipOnTip.Nominal < 0 {
				tips++
			} else if i.PinionTip.Nominal < 0 {
				roots++
			}
		}
		if p.Pinion.Undercut > 0 {
			undercut++
			if margin < 0 && !hit {
				spared++
				continue
			}
		}
		if hit != (margin < 0) {
			i := p.Interference
			t.Errorf("%d/%d, shifts %.4f and %.4f: margins %.4f, %.4f, %.4f mm; rolling finds an excess of %.3g mm",
				p.Pinion.Teeth, p.Ring.Teeth, p.Pinion.Shift, p.Ring.Shift,
				i.RingTip.Nominal, i.PinionTip.Nominal, i.TipOnTip.Nominal, excess(p, r))
		}
	}
	t.Logf("%d pairs: %d in the band, %d interfere (%d tip on tip, %d at the ring's root), %d undercut of which %d spared by it",
		want, inBand, bad, tips, roots, undercut, spared)
	if slow() && inBand*100 >= 3*want {
		t.Errorf("%d of %d pairs lie in the band", inBand, want)
	}
}

// inFillet follows the corner of the ring's tooth 0 that meets pinion tooth 0
// when the pinion drives forward, the ring held where the involutes put it: its
// radius about the pinion's axis, and whether it lies inside the tooth's fillet.
func inFillet(p *gear.Pair, phi float64) (radius float64, inside bool) {
	tooth, space := p.Pinion.Tooth, p.Ring.Space
	ring := phi/p.Ratio() - p.Backlash.AngleRing/2
	at := plane.Polar(space.TipRadius, ring+space.HalfAngle(space.TipRadius)).Sub(plane.Vec{X: p.CentreDistance}).Turn(-phi)
	radius = at.Len()
	f := tooth.Fillet(-1)
	t0, t1 := f.Span() // from the joint down to the root circle
	if radius >= tooth.FormRadius || radius <= tooth.RootRadius {
		return radius, false
	}
	edge := plane.Vec{}
	for range 80 {
		m := (t0 + t1) / 2
		x, y, _, _, _, _ := f.At(m)
		edge = plane.Vec{X: x, Y: y}
		if edge.Len() > radius {
			t0 = m
		} else {
			t1 = m
		}
	}
	return radius, at.Angle() < edge.Angle()
}

// The ring's tip enters and leaves the fillet at the radii at which the corner's
// path crosses the trochoid, and its depth is the recorded one.
func TestInterferenceAtTheSamePlace(t *testing.T) {
	for _, c := range []struct {
		z1, z2 int
		depth  float64 // mm for module 1, recorded from another program
	}{{21, 60, 0.0138}, {24, 72, 0.0099}, {30, 80, 0.0083}} {
		w := wish(1, c.z1, c.z2, 0.1)
		w.Pinion.Shift, w.Ring.Shift = gear.Fixed(0), gear.Fixed(0)
		w.Pinion.TipRadius = gear.Fixed(float64(c.z1)/2 + 1)
		w.Ring.TipRadius = gear.Fixed(float64(c.z2)/2 - 1)
		p := resolve(t, w)
		e, err := roll.New(outlines(p), options(p))
		if err != nil {
			t.Fatal(err)
		}
		// Rolling: the teeth before and behind keep the ring at -backlash/2.
		over := func(phi float64) bool {
			v := e.Free(phi)
			return v.Lo-v.Exact+p.Backlash.AngleRing/2 > 1e-11 && v.Low.PinionTooth == 0
		}
		formula := func(phi float64) bool { _, in := inFillet(p, phi); return in }
		from, to := ends(t, formula)
		rolledFrom, rolledTo := ends(t, over)
		for _, x := range []struct {
			what          string
			phi, rolledAt float64
		}{{"enters", from, rolledFrom}, {"leaves", to, rolledTo}} {
			want, _ := inFillet(p, x.phi)
			got := e.Free(x.rolledAt).Low
			near(t, "the corner "+x.what+" at pinion radius", got.PinionRadius, want, 1e-4)
			near(t, "ring radius", got.RingRadius, p.Ring.TipDiameter/2, 1e-9)
			if !got.RingCorner || got.PinionTooth != 0 || got.RingTooth != 0 {
				t.Errorf("%d/%d: the contact is not that of the ring's corner: %+v", c.z1, c.z2, got)
			}
		}
		// The recorded depth is the overlap as an arc at the corner's radius, to a
		// unit of its last place.
		depth := 0.0
		for _, v := range mustRoll(t, outlines(p), options(p)).Positions {
			over := (v.Lo - v.Exact + p.Backlash.AngleRing/2) * p.Ratio()
			depth = math.Max(depth, over*v.Low.PinionRadius)
		}
		near(t, "depth", depth, c.depth, 0.0001)
	}
}

// ends returns the first and last angle between -1 and 0 at which holds is true.
func ends(t *testing.T, holds func(float64) bool) (from, to float64) {
	t.Helper()
	const n = 1000
	first, last := -1, -1
	for i := range n {
		if holds(-1 + float64(i)/n) {
			if first < 0 {
				first = i
			}
			last = i
		}
	}
	if first < 1 || last == n-1 {
		t.Fatal("no interference between -1 and 0 rad")
	}
	edge := func(in, out float64) float64 {
		for range 50 {
			if m := (in + out) / 2; holds(m) {
				in = m
			} else {
				out = m
			}
		}
		return in
	}
	return edge(-1+float64(first)/n, -1+float64(first-1)/n), edge(-1+float64(last)/n, -1+float64(last+1)/n)
}
