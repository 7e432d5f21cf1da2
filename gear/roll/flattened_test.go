package roll_test

import (
	"math"
	"testing"

	"ringtrack/gear"
	"ringtrack/gear/plane"
	"ringtrack/gear/roll"
)

// Flattened with chords that leave the curve by t, the pair errs by at most 2 t
// along the line of action, and its play by 2 t/cos(alpha_w).
func TestFlattened(t *testing.T) {
	for _, d := range designs[:4] {
		for _, chord := range []float64{0.005, 0.0001} {
			p := resolve(t, wish(d.module, d.z1, d.z2, d.play))
			r := mustRoll(t, withFacets(outlines(p), chord), options(p))
			for _, dir := range []roll.Drive{r.Forward, r.Backward} {
				if e := dir.Error.Action; e > 2*chord {
					t.Errorf("%d/%d at %g mm: transmission error %g mm", d.z1, d.z2, chord, e)
				}
			}
			near(t, "least backlash", r.Backlash.Least.Arc, p.Backlash.Circumferential, 2*chord/math.Cos(p.WorkingPressureAngle))
			near(t, "greatest backlash", r.Backlash.Greatest.Arc, p.Backlash.Circumferential, 2*chord/math.Cos(p.WorkingPressureAngle))
		}
	}
}

// A loop without symmetry rolls like the same loop with it.
func TestSymmetryChangesNothing(t *testing.T) {
	p := resolve(t, wish(2.5, 15, 104, 0.3))
	a := outlines(p)
	with, err := roll.New(withFacets(a, 0.005), options(p))
	if err != nil {
		t.Fatal(err)
	}
	b := a
	b.Pinion, b.Ring = flattened(a.Pinion, 0.005), flattened(a.Ring, 0.005)
	without, err := roll.New(b, options(p))
	if err != nil {
		t.Fatal(err)
	}
	for i := range 500 {
		phi := 0.37 * float64(i)
		v, w := with.Free(phi), without.Free(phi)
		near(t, "Lo", w.Lo-w.Exact, v.Lo-v.Exact, 1e-12)
		near(t, "Hi", w.Hi-w.Exact, v.Hi-v.Exact, 1e-12)
		if v.Low.PinionTooth != w.Low.PinionTooth || v.Low.RingTooth != w.Low.RingTooth {
			t.Fatalf("at %g: teeth %d/%d with symmetry, %d/%d without", phi,
				v.Low.PinionTooth, v.Low.RingTooth, w.Low.PinionTooth, w.Low.RingTooth)
		}
	}
	r := mustRoll(t, b, roll.Options{})
	if r.Span != roll.RingTurn || len(r.Positions) != 24*104 || len(r.Tight) != 720 || len(r.Loose) != 720 || r.Whole {
		t.Errorf("span %v, %d positions, %d and %d fine ones, whole %v", r.Span, len(r.Positions), len(r.Tight), len(r.Loose), r.Whole)
	}
}

// Outlines turned on their axes roll alike: the ring follows from where it lies.
func TestAnyPhase(t *testing.T) {
	p := resolve(t, wish(1, 12, 96, 0.05))
	a := outlines(p)
	e, err := roll.New(a, roll.Options{})
	if err != nil {
		t.Fatal(err)
	}
	for i := range 40 {
		turn1, turn2 := 0.31*float64(i), -0.17*float64(i)
		b := a
		b.Pinion, b.Ring = turned(a.Pinion, turn1), turned(a.Ring, turn2)
		f, err := roll.New(b, roll.Options{})
		if err != nil {
			t.Fatal(err)
		}
		phi := 0.05 * float64(i)
		v, w := e.Free(phi+turn1), f.Free(phi)
		pitch := 2 * math.Pi / 96
		near(t, "Lo", math.Remainder(w.Lo+turn2-v.Lo, pitch), 0, 1e-12)
		near(t, "Hi", math.Remainder(w.Hi+turn2-v.Hi, pitch), 0, 1e-12)
		near(t, "width", w.Width(), v.Width(), 1e-12)
	}
}

// Away from the design too, off centre, at a wrong distance and where roots are
// cut into, exact pieces and their fine flattening agree: two different methods
// of finding the contact.
func TestExactAgreesWithFineFlattening(t *testing.T) {
	const chord = 1e-5
	w := wish(1, 12, 60, 0.3)
	w.Pinion.Shift, w.Ring.Shift = gear.Fixed(0), gear.Fixed(0)
	w.Pinion.TipRadius, w.Ring.TipRadius = gear.Fixed(7), gear.Fixed(29)
	pairs := []roll.Pair{outlines(resolve(t, w))}
	for _, d := range designs {
		p := outlines(resolve(t, wish(d.module, d.z1, d.z2, d.play)))
		p.CentreDistance += 0.03 * d.module
		p.PinionOff, p.RingOff = plane.Vec{X: 0.02, Y: 0.05}.Mul(d.module), plane.Vec{X: -0.04, Y: 0.03}.Mul(d.module)
		pairs = append(pairs, p)
	}
	for k, p := range pairs {
		exact, err := roll.New(p, roll.Options{})
		if err != nil {
			t.Fatal(err)
		}
		fine, err := roll.New(withFacets(p, chord), roll.Options{})
		if err != nil {
			t.Fatal(err)
		}
		for i := range 100 {
			phi := 0.513 * float64(i)
			v, w := exact.Free(phi), fine.Free(phi)
			// Radii of contact vary by depth of tooth; flanks lean by at most 45 degrees.
			tol := 2 * chord / math.Cos(45*deg) / v.Low.RingRadius
			if math.Abs(v.Lo-w.Lo) > tol || math.Abs(v.Hi-w.Hi) > tol {
				t.Errorf("pair %d at %g: exact %.9f to %.9f, flattened %.9f to %.9f", k, phi, v.Lo, v.Hi, w.Lo, w.Hi)
			}
		}
	}
}
