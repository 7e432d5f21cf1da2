package load

import (
	"fmt"
	"math"

	"ringtrack/gear"
	"ringtrack/gear/find"
	"ringtrack/gear/stock"
)

// Part is a member's material and how it is made.
type Part struct {
	Material stock.Mechanics
	Print    stock.Print // Thickness 0: the tooth's thickness on the reference circle
}

// Task is what a load analysis starts from.
type Task struct {
	Pair         *gear.Pair
	Mesh         *Mesh   // of the pair, of any width and materials, where there is one already; nil: made of Pair
	Face         float64 // mm, over which the teeth meet
	Pinion, Ring Part
	Rim          Rim
	Temperature  float64 // degC, the warmest
	Cases        []Case  // the first lasting one is the working torque
	Factors      Factors
	Share        float64 // for the flexible-material allowance; 0: UsualShare
	Hub          *Hub    // nil: no bore known
	Brief        bool    // leave out what no finding hangs on: course, wind-up and skipping
}

// Analysis is the answer. What no material or case allows is left zero.
type Analysis struct {
	Mesh      *Mesh // usual moduli
	Working   Case
	Course    *Course // under the working torque
	Ratings   []Rating
	Relief    Relief
	WindUp    WindUp
	Allowance Allowance
	Skipping  Skipping
	Holding   *Holding
	Findings  []find.Finding
}

// Analyse rates the pair under every case and works out what follows from the
// teeth's yielding.
//
// Errors: *InputError where nothing can be computed (no modulus, no width, no
// case); everything else is a finding.
func Analyse(t Task) (*Analysis, error) {
	if len(t.Cases) == 0 {
		return nil, &InputError{"the number of load cases", 0, "1 or more"}
	}
	t.Pinion.Print = filled(t.Pinion.Print, t.Pair.Pinion.Member)
	t.Ring.Print = filled(t.Ring.Print, t.Pair.Ring.Member)
	e1, soft1, _ := ElasticOf(t.Pinion.Material, t.Pinion.Print, t.Temperature)
	e2, soft2, _ := ElasticOf(t.Ring.Material, t.Ring.Print, t.Temperature)
	// What stiffness limits must hold in a cool room too.
	_, _, stiff1 := ElasticOf(t.Pinion.Material, t.Pinion.Print, room)
	_, _, stiff2 := ElasticOf(t.Ring.Material, t.Ring.Print, room)
	a := &Analysis{Working: working(t.Cases)}
	a.warmth(t)
	if count := find.Count(a.Findings, find.Fault); count > 0 && !(e1.Modulus > 0 && e2.Modulus > 0) {
		return a, nil // softened: the fault says so
	}
	var err error
	if a.Mesh, err = t.mesh(e1, e2); err != nil {
		return nil, err
	}
	if err := a.rate(t); err != nil {
		return nil, err
	}
	if err := a.yields(t, a.Mesh.With(soft1, soft2), a.Mesh.With(stiff1, stiff2)); err != nil {
		return nil, err
	}
	if t.Hub != nil {
		h, err := t.Hub.Holding()
		if err != nil {
			return nil, err
		}
		a.Holding = &h
		a.checkHub(t)
	}
	find.Sort(a.Findings)
	return a, nil
}

// mesh returns the mesh of the task with these materials.
func (t Task) mesh(pinion, ring Elastic) (*Mesh, error) {
	if t.Mesh == nil {
		return NewMesh(t.Pair, Making{t.Face, pinion, ring, t.Rim})
	}
	m := t.Mesh.With(pinion, ring)
	m.Face, m.Wheel.Rim = t.Face, t.Rim
	return m, m.Check()
}

// WindUp returns the wind-up under a torque, N mm on the pinion, with the usual
// moduli at the task's temperature.
func (t Task) WindUp(torque float64) (WindUp, error) {
	t.Pinion.Print = filled(t.Pinion.Print, t.Pair.Pinion.Member)
	t.Ring.Print = filled(t.Ring.Print, t.Pair.Ring.Member)
	e1, _, _ := ElasticOf(t.Pinion.Material, t.Pinion.Print, t.Temperature)
	e2, _, _ := ElasticOf(t.Ring.Material, t.Ring.Print, t.Temperature)
	m, err := t.mesh(e1, e2)
	if err != nil {
		return WindUp{}, err
	}
	return m.WindUp(torque)
}

// room is the temperature, degC, at which the materials' figures are meant.
const room = 23

// filled sets the thickness that walls and infill share.
func filled(p stock.Print, m gear.Member) stock.Print {
	if p.Thickness == 0 {
		p.Thickness = m.ToothThickness
	}
	return p
}

// working returns the first lasting case, or the first one.
func working(cases []Case) Case {
	for _, c := range cases {
		if !c.Rare {
			return c
		}
	}
	return cases[0]
}

func (a *Analysis) rate(t Task) error {
	s1 := StrainOf(t.Pinion.Material, t.Pinion.Print, t.Temperature)
	s2 := StrainOf(t.Ring.Material, t.Ring.Print, t.Temperature)
	for _, c := range t.Cases {
		r, err := a.Mesh.Rate(c, s1, s2, t.Factors)
		if err != nil {
			return err
		}
		a.Ratings = append(a.Ratings, *r)
		a.checkTooth(c, "pinion", s1, r.Pinion)
		a.checkTooth(c, "ring", s2, r.Wheel)
		if err := a.checkBending(t, r); err != nil {
			return err
		}
	}
	return nil
}

func (a *Analysis) yields(t Task, softest, stiffest *Mesh) (err error) {
	torque := a.Working.Torque
	if a.Relief, err = a.Mesh.Relief(torque); err != nil {
		return err
	}
	share := t.Share
	if share == 0 {
		share = UsualShare
	}
	mu := math.Max(t.Pinion.Material.Friction.Most, t.Ring.Material.Friction.Most)
	if a.Allowance, err = stiffest.Allowance(torque, share, mu); err != nil || t.Brief {
		return err
	}
	if a.Course, err = a.Mesh.Course(torque); err != nil {
		return err
	}
	if a.WindUp, err = a.Mesh.WindUp(torque); err != nil {
		return err
	}
	a.Skipping, err = SkipBounds(softest, stiffest, t.Pair.Pinion.TipDiameter/2, t.Pair.Ring.TipDiameter/2)
	return err
}

// report adds a finding.
func (a *Analysis) report(level find.Level, code find.Code, about string, found, limit float64, unit, text string, args ...any) {
	a.Findings = append(a.Findings, find.Finding{
		Code: code, Level: level, About: about, Found: find.Num(found), Limit: find.Num(limit), Unit: unit,
		Text: fmt.Sprintf(text, args...),
	})
}

// checkTooth reports a safety that is too small: a fault when the tooth is
// expected to break, a caution when it is only short of what is asked.
func (a *Analysis) checkTooth(c Case, who string, s Strain, t ToothRating) {
	if t.Safety >= t.Needed {
		return
	}
	level, what := find.Caution, "has little in hand"
	switch {
	case t.Safety < 1 && c.Bound:
		what = "may break"
	case t.Safety < 1:
		level, what = find.Fault, "is expected to break"
	}
	a.report(level, find.ToothOverload, who+".material", t.Safety, t.Needed, "",
		"%s: the %s's tooth of %s %s, root stress %.3g MPa where its strength is %.3g MPa: safety %.2f, asked for %.2f",
		c.Name, who, s.Name, what, t.Tangent, t.Strength, t.Safety, t.Needed)
}

// checkBending reports teeth that give way by more than 0.07 m. A flexible
// pinion is told which width would do.
func (a *Analysis) checkBending(t Task, r *Rating) error {
	if r.Bending <= r.Limit {
		return nil
	}
	if t.Pinion.Material.Flexible && !r.Case.Rare {
		width, err := a.wideEnough(r.Case)
		if err != nil {
			return err
		}
		a.report(find.Fault, find.NarrowFace, "pinion.face_width", t.Face, width, "mm",
			"%s: a pinion of %s bends by %.2f mm at the teeth, %.2f mm is the most; it needs teeth %.1f mm wide where it meets the ring",
			r.Case.Name, t.Pinion.Material.Name, r.Bending, r.Limit, width)
		return nil
	}
	a.report(find.Caution, find.ToothBends, "pinion.material", r.Bending, r.Limit, "mm",
		"%s: the teeth give way by %.2f mm, more than the %.2f mm (0.07 of the module) up to which they mesh well",
		r.Case.Name, r.Bending, r.Limit)
	return nil
}

// wideEnough returns the face width at which the case bends the teeth by 0.07 m.
func (a *Analysis) wideEnough(c Case) (float64, error) {
	m := *a.Mesh
	for range 30 {
		k, err := m.Course(c.Torque)
		if err != nil {
			return 0, err
		}
		next := m.Face * k.Yield.Greatest / BendingLimit(m.Module)
		done := math.Abs(next-m.Face) < 1e-6*next
		if m.Face = next; done {
			break
		}
	}
	return m.Face, nil
}

// warmth reports members that are warmer than their material bears.
func (a *Analysis) warmth(t Task) {
	for _, p := range []struct {
		who string
		m   stock.Mechanics
	}{{"pinion", t.Pinion.Material}, {"ring", t.Ring.Material}} {
		switch {
		case t.Temperature >= p.m.Softening.Usual:
			a.report(find.Fault, find.TooWarm, p.who+".material", t.Temperature, p.m.Softening.Usual, "degC",
				"at %.0f degC the %s's %s has softened", t.Temperature, p.who, p.m.Name)
		case t.Temperature > p.m.Service.Usual:
			a.report(find.Caution, find.TooWarm, p.who+".material", t.Temperature, p.m.Service.Usual, "degC",
				"at %.0f degC the %s's %s creeps; it is good up to %.0f degC", t.Temperature, p.who, p.m.Name, p.m.Service.Usual)
		}
	}
}

// checkHub compares what the hub holds with every case.
func (a *Analysis) checkHub(t Task) {
	h := a.Holding
	if t.Hub.Bore.Shape == "d" && !h.Catches {
		a.report(find.Fault, find.HubSlips, "pinion.bore.clearance", t.Hub.Bore.Clearance, 2*(t.Hub.Bore.Diameter-t.Hub.Bore.AcrossFlat), "mm",
			"with this clearance the shaft turns past the bore's flat")
		return
	}
	for _, c := range t.Cases {
		holds, how, level := h.Torque, "for long", find.Caution
		if c.Rare {
			holds, how = h.Blow, "once"
		} else if h.Blow > 0 && c.Torque > h.Blow && !c.Bound {
			level = find.Fault
		}
		if c.Torque <= holds {
			continue
		}
		a.report(level, find.HubSlips, "pinion.bore", c.Torque, holds, "N mm",
			"%s: the bore is asked for %.0f N mm and holds %.0f N mm %s", c.Name, c.Torque, holds, how)
	}
}
