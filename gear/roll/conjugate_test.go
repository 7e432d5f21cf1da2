package roll_test

import (
	"context"
	"fmt"
	"math"
	"testing"

	"ringtrack/gear"
	"ringtrack/gear/roll"
)

// designs are pairs whose teeth run free by every formula.
var designs = []struct {
	module float64
	z1, z2 int
	play   float64
}{
	{2.5, 15, 104, 0.3}, {2.5, 13, 91, 0.2}, {1, 12, 96, 0.05}, {3, 20, 60, 0.4}, {1, 40, 72, 0.1}, {2, 24, 240, 0},
}

func mustRoll(t testing.TB, p roll.Pair, o roll.Options) roll.Result {
	t.Helper()
	r, err := roll.Roll(context.Background(), p, o)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// near fails unless got is within tol of want.
func near(t testing.TB, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s: %.12g, want %.12g to %.1g (off by %.2g)", what, got, want, tol, got-want)
	}
}

// Exact involutes keep the ratio exactly, and their play is the designed one.
func TestConjugatePair(t *testing.T) {
	for _, d := range designs {
		t.Run(fmt.Sprintf("%d-%d", d.z1, d.z2), func(t *testing.T) {
			p := resolve(t, wish(d.module, d.z1, d.z2, d.play))
			r := mustRoll(t, outlines(p), options(p))
			if r.Span != roll.OnePitch || !r.Whole || len(r.Positions) != 720 {
				t.Errorf("span %v, whole %v, %d positions: want one pitch, the whole cycle, 720", r.Span, r.Whole, len(r.Positions))
			}
			if r.PinionTeeth != d.z1 || r.RingTeeth != d.z2 {
				t.Errorf("counted %d and %d teeth", r.PinionTeeth, r.RingTeeth)
			}
			for _, dir := range []roll.Drive{r.Forward, r.Backward} {
				near(t, "transmission error, mm", dir.Error.Arc, 0, 1e-6)
				near(t, "transmission error along the line of action, mm", dir.Error.Action, 0, 1e-6)
			}
			b := p.Backlash
			for _, a := range []roll.Amount{r.Backlash.Least, r.Backlash.Mean, r.Backlash.Greatest} {
				near(t, "backlash, mm", a.Arc, b.Circumferential, 1e-6)
				near(t, "backlash along the line of action, mm", a.Action, b.Normal, 1e-6)
				near(t, "backlash, ring angle", a.Ring, b.AngleRing, 1e-9)
				near(t, "backlash, pinion angle", a.Pinion, b.AnglePinion, 1e-8)
			}
			near(t, "working radius", r.WorkingRing, p.Ring.WorkingDiameter/2, 1e-9)
			near(t, "working radius", r.WorkingPinion, p.Pinion.WorkingDiameter/2, 1e-9)
			if d.play > 0 {
				near(t, "offset, mm", r.Forward.Offset.Arc, -b.Circumferential/2, 1e-6)
				near(t, "offset, mm", r.Backward.Offset.Arc, b.Circumferential/2, 1e-6)
				if r.Binding != nil {
					t.Errorf("binds by %g mm", r.Binding.By.Arc)
				}
			}
		})
	}
}

// One pair of teeth alone touches from the radius at which the ring's tip, or
// the pinion's form point, lies on the line of action to the pinion's tip.
func TestFirstAndLastContact(t *testing.T) {
	for _, d := range designs {
		t.Run(fmt.Sprintf("%d-%d", d.z1, d.z2), func(t *testing.T) {
			p := resolve(t, wish(d.module, d.z1, d.z2, d.play))
			r := mustRoll(t, outlines(p), options(p))
			begin := math.Max(p.Path.RingTip, p.Path.PinionForm)
			end := math.Min(p.Path.PinionTip, p.Path.RingForm)
			checkContact(t, "forward, first", p, r.Forward.First, begin)
			checkContact(t, "forward, last", p, r.Forward.Last, end)
			checkContact(t, "backward, first", p, r.Backward.First, end)
			checkContact(t, "backward, last", p, r.Backward.Last, begin)
		})
	}
}

// checkContact compares a contact with the point of the line of action at length l.
func checkContact(t *testing.T, what string, p *gear.Pair, c roll.Contact, l float64) {
	t.Helper()
	rb1, rb2 := p.Pinion.BaseDiameter/2, p.Ring.BaseDiameter/2
	tangent := p.CentreDistance * math.Sin(p.WorkingPressureAngle)
	near(t, what+", pinion radius", c.PinionRadius, math.Hypot(rb1, l), 1e-4)
	near(t, what+", ring radius", c.RingRadius, math.Hypot(rb2, l+tangent), 1e-4)
	if !c.Smooth() {
		t.Errorf("%s: not a smooth contact", what)
	}
}

// The flanks touch on the line of action.
func TestContactsLieOnTheLineOfAction(t *testing.T) {
	p := resolve(t, wish(2.5, 15, 104, 0.3))
	r := mustRoll(t, outlines(p), options(p))
	s, c := math.Sincos(p.WorkingPressureAngle)
	for _, v := range r.Positions {
		for _, k := range []struct {
			c    roll.Contact
			sign float64
		}{{v.Low, -1}, {v.High, 1}} {
			if !k.c.Smooth() {
				t.Fatalf("at %g: not a smooth contact", v.PinionAngle)
			}
			// The line is tangent to the ring's base circle at the angle -+alpha_w.
			off := k.c.At.X*c + k.sign*k.c.At.Y*s - p.Ring.BaseDiameter/2
			near(t, "distance from the line of action", off, 0, 1e-9)
		}
	}
}

// In mid position the nearest points of the flanks are half the normal backlash
// apart.
func TestGapIsHalfTheNormalBacklash(t *testing.T) {
	for _, d := range designs[:3] {
		p := resolve(t, wish(d.module, d.z1, d.z2, d.play))
		r := mustRoll(t, outlines(p), options(p))
		if g := r.Gap.Distance; g > p.Backlash.Normal/2*(1+1e-9) || g < 0.95*p.Backlash.Normal/2 {
			t.Errorf("%d/%d: gap %g, half the normal backlash is %g", d.z1, d.z2, g, p.Backlash.Normal/2)
		}
		near(t, "the gap's two points", r.Gap.OnPinion.Sub(r.Gap.OnRing).Len(), r.Gap.Distance, 1e-9)
	}
}
