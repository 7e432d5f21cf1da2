package load

import (
	"math"

	"ringtrack/gear"
)

// Side is one member of a mesh.
type Side struct {
	Profile *Profile
	Base    float64 // mm, base radius
	Teeth   int
	Elastic Elastic
	Rim     Rim // of a ring
}

// Mesh is two toothed members in contact. Lengths along the line of action are
// counted from the pinion's base tangent point.
type Mesh struct {
	Pinion, Wheel Side
	Module        float64 // mm
	PressureAngle float64 // of the basic rack
	Working       float64 // alpha_w, working pressure angle
	Centre        float64 // mm, centre distance
	External      bool    // the wheel is external too; false: a ring
	Start, End    float64 // mm: where a flank pair's contact begins and ends
	Face          float64 // mm, the width over which both members meet

	way [][]contact // as placed by walk; nil: worked out anew for every course
}

// Making is what a Mesh needs beside the pair.
type Making struct {
	Face         float64 // mm, the width over which both members meet
	Pinion, Ring Elastic
	Rim          Rim
}

// NewMesh returns the mesh of a pair as designed. Materials, rim and width of
// the result may be changed; profiles and path may not.
//
// Errors: *InputError for a modulus or a face width that is not positive, or an
// outline without a critical section.
func NewMesh(p *gear.Pair, k Making) (*Mesh, error) {
	p1, err := PinionProfile(p.Pinion)
	if err != nil {
		return nil, err
	}
	p2, err := RingProfile(p.Ring)
	if err != nil {
		return nil, err
	}
	m := &Mesh{
		Pinion: Side{p1, p.Pinion.BaseDiameter / 2, p.Pinion.Teeth, k.Pinion, Rim{}},
		Wheel:  Side{p2, p.Ring.BaseDiameter / 2, p.Ring.Teeth, k.Ring, k.Rim},
		Module: p.Pinion.Module, PressureAngle: p.Pinion.PressureAngle, Working: p.WorkingPressureAngle,
		Centre: p.CentreDistance, Face: k.Face,
		Start: math.Max(p.Path.RingTip, p.Path.PinionForm),
		End:   math.Min(p.Path.PinionTip, p.Path.RingForm),
	}
	if err := m.Check(); err != nil {
		return nil, err
	}
	m.way, err = m.walk()
	return m, err
}

// Check returns an *InputError for what no mesh can have.
func (m *Mesh) Check() error {
	for _, c := range []struct {
		what string
		v    float64
	}{
		{"the face width in mm", m.Face}, {"the module in mm", m.Module},
		{"the pinion's base radius in mm", m.Pinion.Base}, {"the wheel's base radius in mm", m.Wheel.Base},
		{"the start of the path of contact in mm from the pinion's base tangent point", m.Start},
		{"the length of the path of contact in mm", m.End - m.Start},
	} {
		if err := positive(c.what, c.v); err != nil {
			return err
		}
	}
	for _, s := range []Side{m.Pinion, m.Wheel} {
		if err := s.Elastic.Check(); err != nil {
			return err
		}
		if s.Profile == nil {
			return &InputError{"the number of profiles", 1, "2"}
		}
	}
	return nil
}

// With returns the same mesh of other materials.
func (m *Mesh) With(pinion, wheel Elastic) *Mesh {
	c := *m
	c.Pinion.Elastic, c.Wheel.Elastic = pinion, wheel
	return &c
}

// BasePitch returns the distance of neighbouring flanks along the line of action.
func (m *Mesh) BasePitch() float64 { return 2 * math.Pi * m.Pinion.Base / float64(m.Pinion.Teeth) }

// Ratio returns the wheel's number of teeth over the pinion's.
func (m *Mesh) Ratio() float64 { return float64(m.Wheel.Teeth) / float64(m.Pinion.Teeth) }

// ContactRatio returns the length of the path over the base pitch.
func (m *Mesh) ContactRatio() float64 { return (m.End - m.Start) / m.BasePitch() }

// strings returns the lengths of both members' strings where the pinion's is l,
// signed for Curvature: a ring's flank is hollow.
func (m *Mesh) strings(l float64) (rho1, rho2 float64) {
	t := m.Centre * math.Sin(m.Working)
	if m.External {
		return l, t - l
	}
	return l, -(t + l)
}

// PitchPoint returns the length at which the contact crosses the line of
// centres.
func (m *Mesh) PitchPoint() float64 { return m.Pinion.Base * math.Tan(m.Working) }

// contact is one flank pair at one place, before force and materials are known.
type contact struct {
	length float64
	radius float64 // of the equivalent cylinder
	spot   [2]Spot
	lever  [2]Lever
}

// at returns the flank pair whose contact lies at the length l.
func (m *Mesh) at(l float64) (contact, error) {
	rho1, rho2 := m.strings(l)
	c := contact{length: l, radius: Curvature(rho1, rho2)}
	for i, side := range []Side{m.Pinion, m.Wheel} {
		s, err := side.Profile.AtRadius(math.Hypot(side.Base, []float64{rho1, rho2}[i]))
		if err != nil {
			return c, err
		}
		lever, err := side.Profile.Lever(s)
		if err != nil {
			return c, err
		}
		c.spot[i], c.lever[i] = s, lever
	}
	return c, nil
}

// walk returns the flank pairs in contact in every position over one base pitch.
func (m *Mesh) walk() ([][]contact, error) {
	out := make([][]contact, steps)
	for i := range out {
		for l := m.Start + m.BasePitch()*float64(i)/steps; l <= m.End; l += m.BasePitch() {
			k, err := m.at(l)
			if err != nil {
				return nil, err
			}
			out[i] = append(out[i], k)
		}
	}
	return out, nil
}

// base returns the flank pair's yielding per line force, mm2/N, without
// flattening.
func (m *Mesh) base(c contact) float64 {
	sum := 0.0
	for i, side := range [2]*Side{&m.Pinion, &m.Wheel} {
		l, nu := c.lever[i], side.Elastic.Poisson
		sum += (l.ToothYield(nu) + l.RootYield(nu) + side.Rim.Yield(l)) / side.Elastic.Modulus
	}
	return sum
}

// yield returns how far, mm, the flank pair gives way along the line of action
// under a line force, N/mm.
func (m *Mesh) yield(c contact, line float64) float64 {
	return m.base(c)*line + m.flatten(c, line)
}

func (m *Mesh) flatten(c contact, line float64) float64 {
	return Flattening(line, c.radius, c.lever[0].Depth, c.lever[1].Depth, m.Pinion.Elastic, m.Wheel.Elastic)
}

// PairStiffness returns the stiffness, N/mm per mm of face and mm of yielding,
// of the flank pair whose contact lies at the length l, under a line force in
// N/mm.
func (m *Mesh) PairStiffness(l, line float64) (float64, error) {
	c, err := m.at(l)
	if err != nil {
		return 0, err
	}
	return line / m.yield(c, line), nil
}
