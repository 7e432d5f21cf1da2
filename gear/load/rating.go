package load

import (
	"math"

	"ringtrack/gear/stock"
)

// Case is one load with its name, so that every safety says what it is against.
type Case struct {
	Name   string  // working torque, stall, dead stop, a hand on the rim
	Torque float64 // N mm on the pinion
	Rare   bool    // a blow or a mistake: nothing that must be borne for long
	Bound  bool    // the torque is an upper bound, as that of a dead stop is: too small a safety is then no fault
}

// The names of the usual cases.
const (
	Working  = "working torque"
	Stall    = "stall"
	DeadStop = "dead stop"
	Hand     = "a hand on the rim"
)

// Strain says what a member's teeth bear.
type Strain struct {
	Name      string      // of the material
	Strength  stock.Range // MPa, of the teeth as made: derated for infill, layers, heat
	ToothRoot stock.Range // MPa, the stress that they bear for long, derated likewise
}

// StrainOf returns the strength of teeth of a material as printed, at a
// temperature in degC.
func StrainOf(m stock.Mechanics, p stock.Print, temperature float64) Strain {
	k := m.Warm(temperature)
	if !m.Continuous {
		k *= p.Strength(m)
	}
	return Strain{m.Name, m.Strength.Scaled(k), m.ToothRoot.Scaled(k)}
}

// ElasticOf returns the usual modulus of teeth of a material as printed, at a
// temperature in degC, with the least and the greatest of its range.
func ElasticOf(m stock.Mechanics, p stock.Print, temperature float64) (usual, softest, stiffest Elastic) {
	k := m.Warm(temperature)
	if !m.Continuous {
		k *= p.Stiffness()
	}
	of := func(e float64) Elastic { return Elastic{e * k, m.Poisson.Usual} }
	return of(m.Modulus.Usual), of(m.Modulus.Least), of(m.Modulus.Most)
}

// ToothRating is one member's rating under one case.
type ToothRating struct {
	Lewis    float64 // MPa: F_t/(b m Y), the whole load at the tip
	Tangent  float64 // MPa: K_F F_t/(b m) Y_Fa Y_Sa Y_eps
	Course   float64 // MPa: greatest on the way, loads shared by stiffness
	Strength float64 // MPa: what Safety counts against
	Safety   float64 // Strength over Tangent
	Needed   float64 // the least safety that is asked of such a case
	Why      string  // where Needed comes from
}

// Rating is a mesh under one case.
type Rating struct {
	Case       Case
	Tangential float64 // N, on the reference circle
	Normal     float64 // N, along the line of action
	Separating float64 // N, pushes pinion and ring apart at the working circles
	Shaft      float64 // N, on the pinion's shaft: equal and opposite to Normal
	Pinion     ToothRating
	Wheel      ToothRating
	Pressure   float64 // MPa, Hertz, greatest on the way
	AtLength   float64 // mm along the line of action, there
	Bending    float64 // mm: greatest yielding along the line of action
	Limit      float64 // mm: 0.07 m, the most that VDI 2736 allows
}

// Factors of the application; 0 stands for 1.
type Factors struct {
	Application float64 // K_F of VDI 2736: application and face load; tangent method
	Speed       float64 // m/s at the working circle, for Barth's factor of the Lewis method
}

// leastSafetyRare is SFmin of VDI 2736-2 (from memory).
const leastSafetyRare = 2

// BendingLimit returns the most that a plastic tooth shall give way, mm:
// 0.07 m (VDI 2736-2, from memory).
func BendingLimit(module float64) float64 { return 0.07 * module }

// Rate rates a mesh under one case.
//
// A rare case is rated against the tensile strength and needs a safety of 2; a
// lasting one needs as much as separates a material's strength from the stress
// that its teeth bear for long.
//
// Errors: *InputError for a torque, modulus or width that is not positive.
func (m *Mesh) Rate(c Case, pinion, wheel Strain, f Factors) (*Rating, error) {
	course, err := m.Course(c.Torque)
	if err != nil {
		return nil, err
	}
	r := &Rating{Case: c, Normal: course.Normal, Shaft: course.Normal, Limit: BendingLimit(m.Module)}
	r.Tangential = course.Normal * math.Cos(m.PressureAngle)
	r.Separating = course.Normal * math.Sin(m.Working)
	r.Pressure, r.AtLength = course.Pressure.Pressure, course.Pressure.Length
	r.Bending = course.Yield.Greatest
	k := f.Application
	if k == 0 {
		k = 1
	}
	for i, side := range []struct {
		p   *Profile
		s   Strain
		out *ToothRating
	}{{m.Pinion.Profile, pinion, &r.Pinion}, {m.Wheel.Profile, wheel, &r.Wheel}} {
		form, err := side.p.Form(side.p.Tip(), m.Module, m.PressureAngle)
		if err != nil {
			return nil, err
		}
		side.out.Lewis = side.p.Lewis(side.p.Tip(), m.Module).Stress(r.Tangential, m.Face, m.Module, f.Speed)
		side.out.Tangent = RootStress(k*r.Tangential, m.Face, m.Module, form, ShareFactor(m.ContactRatio()))
		side.out.Course = course.Root[i].Root[i]
		side.out.judge(c, side.s)
	}
	return r, nil
}

// judge sets strength, safety and what is needed.
func (t *ToothRating) judge(c Case, s Strain) {
	t.Strength = s.Strength.Usual
	t.Safety = t.Strength / t.Tangent
	t.Needed, t.Why = leastSafetyRare, "least root safety of VDI 2736-2, from memory"
	if !c.Rare && s.ToothRoot.Usual > 0 {
		t.Needed, t.Why = s.Strength.Usual/s.ToothRoot.Usual, s.ToothRoot.Source
	}
}
