package roll_test

import (
	"math"
	"testing"

	"ringtrack/gear"
	"ringtrack/gear/plane"
)

// A larger centre distance takes play away: d j_wt = -2 tan(alpha_w) da.
func TestCentreDistance(t *testing.T) {
	p := resolve(t, wish(2.5, 15, 104, 0.3))
	const da = 0.002
	a, b := outlines(p), outlines(p)
	a.CentreDistance -= da
	b.CentreDistance += da
	// The play is taken on one circle: the nominal working circle of the ring.
	near := mustRoll(t, a, options(p)).Backlash.Mean.Ring
	far := mustRoll(t, b, options(p)).Backlash.Mean.Ring
	slope := (far - near) * p.Ring.WorkingDiameter / 2 / (2 * da)
	within(t, "d j_wt/da", slope, -2*math.Tan(p.WorkingPressureAngle), 0.01)
}

// A tooth thinned by ds on its reference circle gives ds cos(alpha)/cos(alpha_w)
// of play, and so does a wider space of the ring.
func TestThickness(t *testing.T) {
	for _, share := range []float64{0, 1} {
		play := func(j float64) float64 {
			w := wish(2.5, 15, 104, j)
			w.Share = share
			w.Pinion.Shift, w.Ring.Shift = gear.Fixed(0.16), gear.Fixed(0.3)
			p := resolve(t, w)
			thin := p.Pinion.Thinning + p.Ring.Thinning
			r := mustRoll(t, outlines(p), options(p))
			return r.Backlash.Mean.Arc - thin*math.Cos(p.Pinion.PressureAngle)/math.Cos(p.WorkingPressureAngle)
		}
		if a, b := play(0.5), play(0.6); math.Abs(a-b) > 0.01*0.1 {
			t.Errorf("share %g: the play beyond the thinning's changes by %g mm", share, a-b)
		}
	}
}

// A member e off centre makes the play rise and fall by 2 e tan(alpha_w), once
// a turn of that member.
func TestEccentricity(t *testing.T) {
	p := resolve(t, wish(2.5, 15, 104, 0.3))
	const e = 0.05
	for _, m := range []string{"ring", "pinion"} {
		a := outlines(p)
		if m == "ring" {
			a.RingOff = plane.Vec{X: e * math.Cos(1), Y: e * math.Sin(1)}
		} else {
			a.PinionOff = plane.Vec{X: e * math.Cos(1), Y: e * math.Sin(1)}
		}
		r := mustRoll(t, withFacets(a, 5e-5), options(p))
		swing := (r.Backlash.Greatest.Arc - r.Backlash.Least.Arc) / 2
		within(t, m+" off centre, swing of the play", swing, 2*e*math.Tan(p.WorkingPressureAngle), 0.01)
		// The ring's centre away from the pinion is a larger distance: less play.
		at := r.Backlash.LeastAt
		turn, want := at.Mid(), math.Pi-1
		if m == "pinion" {
			turn, want = at.PinionAngle, -1
		}
		if d := math.Remainder(turn-want, 2*math.Pi); math.Abs(d) > 0.1 {
			t.Errorf("%s off centre: tightest %g rad from where the centres are farthest apart", m, d)
		}
	}
}

// within fails unless got is within the given part of want.
func within(t testing.TB, what string, got, want, part float64) {
	t.Helper()
	if !(math.Abs(got-want) <= part*math.Abs(want)) {
		t.Errorf("%s: %g, want %g to %g of it", what, got, want, part)
	}
}
