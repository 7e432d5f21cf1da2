package load

import "math"

// WindUp is how far the platform turns back because teeth give way.
type WindUp struct {
	Teeth  float64 // radians of the wheel, teeth alone: mean along the path
	Most   float64 // radians of the wheel, teeth alone: at the softest place
	Torque float64 // N mm on the wheel
	Rate   float64 // N mm per radian of the wheel, from the mean
}

// WindUp returns the wheel's turn under a torque, N mm on the pinion, which the
// teeth alone allow while the pinion stands still.
func (m *Mesh) WindUp(torque float64) (WindUp, error) {
	c, err := m.Course(torque)
	if err != nil {
		return WindUp{}, err
	}
	w := WindUp{
		Teeth: c.Yield.Mean / m.Wheel.Base, Most: c.Yield.Greatest / m.Wheel.Base,
		Torque: torque * m.Ratio(),
	}
	w.Rate = w.Torque / w.Teeth
	return w, nil
}

// Allowance is how much nominal backlash may be given up because the flanks
// yield.
type Allowance struct {
	Circumferential float64 // mm, arc on the working circles: what may be taken from the nominal backlash
	Normal          float64 // mm
	Squeeze         float64 // N, along the line of action, with which both flanks are pressed when that much is missing
	Drag            float64 // N mm on the pinion: friction of the squeezed flanks
	Share           float64 // Squeeze over the working force
}

// UsualShare is the part of the working force with which teeth may be squeezed
// from both sides when the backlash at one place falls short: a tenth (common
// practice; this tool's own rule).
const UsualShare = 0.1

// Allowance returns how much backlash may be given up.
//
//	torque    N mm on the pinion, working
//	share     part of its force with which flanks may be squeezed, 0..1
//	friction  coefficient
//
// A tooth without play is pressed on both flanks; each gives way by the squeeze
// over the stiffness, so what is missing is twice that. The greatest stiffness
// along the path counts: give the mesh the stiffest modulus of the material's
// range. The drag is taken as if flanks slid at the end of the path, its worst
// place. Teeth as stiff as steel allow nothing worth mentioning; so they should.
func (m *Mesh) Allowance(torque, share, friction float64) (Allowance, error) {
	if !(share >= 0 && share <= 1) {
		return Allowance{}, &InputError{"the share of the force for squeezing", share, "from 0 to 1"}
	}
	if share == 0 {
		return Allowance{}, nil
	}
	c, err := m.Course(torque * share)
	if err != nil {
		return Allowance{}, err
	}
	a := Allowance{Squeeze: c.Normal, Share: share}
	a.Normal = 2 * c.Normal / (m.Face * c.Stiffness.Greatest)
	a.Circumferential = a.Normal / math.Cos(m.Working)
	far := math.Max(m.End-m.PitchPoint(), m.PitchPoint()-m.Start)
	ratio := 1 / m.Ratio()
	if !m.External {
		ratio = -ratio
	}
	a.Drag = 2 * friction * a.Squeeze * far * (1 + ratio)
	return a, nil
}

// Skipping bounds the torque at which the pinion jumps a tooth. Mount and shaft
// give way first, and a drive that skips is no safety device: it breaks teeth.
type Skipping struct {
	NotBelow float64 // N mm on the pinion: bends the softest tooth by 0.07 m
	NotAbove float64 // N mm on the pinion: bends the stiffest by the engaged depth, if stiffness stayed as it is
	Depth    float64 // mm: by how much the tip circles overlap
}

// SkippingNote is the sentence that belongs to the figures.
const SkippingNote = "the mount and the shaft give way before teeth skip at these torques, and skipping is no safety device"

// SkipBounds returns the bounds.
//
//	tip1, tip2         mm, tip radii
//	softest, stiffest  the mesh with both ends of its materials' ranges
//
// The lower bound is the limit of VDI 2736 for the deflection of plastic teeth
// (from memory), at the least stiffness along the path; the upper one a linear
// estimate at the greatest. Both leave mount and shaft stiff.
func SkipBounds(softest, stiffest *Mesh, tip1, tip2 float64) (Skipping, error) {
	s := Skipping{Depth: tip1 + tip2 - softest.Centre}
	if !softest.External {
		s.Depth = softest.Centre + tip1 - tip2
	}
	if err := positive("the engaged depth of the teeth in mm", s.Depth); err != nil {
		return s, err
	}
	torqueAt := func(m *Mesh, bend float64, stiff func(*Course) float64) (float64, error) {
		// Flattening makes the mesh stiffer with the load: iterate on the torque.
		t := bend * m.Face * m.Pinion.Base * m.Pinion.Elastic.Modulus / 10
		for range 30 {
			c, err := m.Course(t)
			if err != nil {
				return 0, err
			}
			next := bend * stiff(c) * m.Face * m.Pinion.Base
			done := math.Abs(next-t) < 1e-6*t
			if t = next; done {
				break
			}
		}
		return t, nil
	}
	var err error
	if s.NotBelow, err = torqueAt(softest, BendingLimit(softest.Module), func(c *Course) float64 { return c.Stiffness.Least }); err != nil {
		return s, err
	}
	s.NotAbove, err = torqueAt(stiffest, s.Depth, func(c *Course) float64 { return c.Stiffness.Greatest })
	return s, err
}
