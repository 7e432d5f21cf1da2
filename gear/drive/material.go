package drive

import (
	"ringtrack/gear/budget"
	"ringtrack/gear/job"
	"ringtrack/gear/stock"
)

// givenHere is the source of a figure that stands in the job.
const givenHere = "given in the job"

// MechanicsOf returns how a member's material carries load: the table's figures,
// with those that the job gives in their place; ok is false without a material.
//
// A given strength takes the lasting stress of the tooth's root with it, in
// proportion, unless that is given too. A given hardness makes a rubber of it.
func MechanicsOf(m job.Member) (stock.Mechanics, bool) {
	t, ok := stock.FindMechanics(m.Material)
	if !ok {
		return t, false
	}
	f := m.Figures
	put := func(r *stock.Range, s job.Setting) {
		if s.Given {
			*r = stock.Exactly(s.Value, givenHere)
		}
	}
	if f.Hardness.Given {
		if e, known := stock.ModulusOfShore(f.Scale, f.Hardness.Value); known {
			t.Modulus, t.Flexible = e, true
		}
	}
	if f.Strength.Given {
		t.ToothRoot = t.ToothRoot.Scaled(f.Strength.Value / t.Strength.Usual)
	}
	put(&t.Modulus, f.Modulus)
	put(&t.Strength, f.Strength)
	put(&t.ToothRoot, f.ToothRoot)
	put(&t.Layers, f.LayerStrength)
	put(&t.Poisson, f.Poisson)
	put(&t.Expansion, f.Expansion)
	put(&t.Moisture, f.Moisture)
	put(&t.Service, f.ServiceTemperature)
	put(&t.Softening, f.Softening)
	put(&t.Friction, f.Friction)
	return t, true
}

// printOf returns how a member is filled; what is not printed is solid.
func printOf(m job.Member) stock.Print {
	k := m.Making
	if k.Kind != "printed" || !m.Make {
		return stock.Print{Infill: 1}
	}
	return stock.Print{Infill: k.Infill, Walls: float64(k.Walls) * k.LineWidth, Upright: k.Upright}
}

// density returns a member's density, kg/m3: the job's, else the table's.
func (d *Design) density(m *Member, table float64) float64 {
	f := d.Job.Pinion.Figures
	if m == &d.Ring {
		f = d.Job.Ring.Figures
	}
	if f.Density.Given {
		return f.Density.Value
	}
	return table
}

// ownMovement puts the job's own figures of how a member grows in place of the
// table's.
func ownMovement(m job.Member, table budget.Movement) budget.Movement {
	if f := m.Figures.Expansion; f.Given {
		table.Expansion = f.Value
	}
	if f := m.Figures.Moisture; f.Given {
		table.Moisture = f.Value
	}
	return table
}
