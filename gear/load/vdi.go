package load

import "math"

// Rating of plastic gears after VDI 2736-2:2014, as far as its factors are
// published (all from memory; the guideline itself was not at hand).

// ShareFactor returns Y_eps = 0.25 + 0.75/eps_alpha, 1 below a contact ratio of 1.
func ShareFactor(contactRatio float64) float64 {
	if contactRatio <= 1 {
		return 1
	}
	return 0.25 + 0.75/contactRatio
}

// RootStress returns sigma_F = K_F F_t Y_Fa Y_Sa Y_eps/(b m), MPa.
//
//	tangential  N, K_F F_t on the reference circle
//	face        mm, b
func RootStress(tangential, face, module float64, f Form, yeps float64) float64 {
	return tangential / (face * module) * f.YF * f.YS * yeps
}

// ToothBending returns lambda = 7.5 F_t/b (1/E1 + 1/E2), mm, the guideline's own
// estimate of how far a tooth bends; at most 0.07 m is allowed.
func ToothBending(tangential, face float64, a, b Elastic) float64 {
	return 7.5 * tangential / face * (1/a.Modulus + 1/b.Modulus)
}

// FlankStress returns sigma_H = Z_E Z_H Z_eps sqrt(K F_t (u + 1)/(b d1 u)), MPa;
// u is negative for a ring.
//
// Z_E = sqrt(1/(pi((1 - nu1^2)/E1 + (1 - nu2^2)/E2))), Z_H = sqrt(2/(cos^2(alpha)
// tan(alpha_w))), Z_eps = sqrt((4 - eps)/3).
func (m *Mesh) FlankStress(tangential float64) float64 {
	ze := math.Sqrt(1 / (math.Pi * (1/m.Pinion.Elastic.wide() + 1/m.Wheel.Elastic.wide())))
	cos := math.Cos(m.PressureAngle)
	zh := math.Sqrt(2 / (cos * cos * math.Tan(m.Working)))
	eps := math.Min(2, math.Max(1, m.ContactRatio()))
	u := m.Ratio()
	if !m.External {
		u = -u
	}
	d1 := 2 * m.Pinion.Base / cos
	return ze * zh * math.Sqrt((4-eps)/3) * math.Sqrt(tangential*(u+1)/(m.Face*d1*u))
}

// LossFactor returns H_V = pi (u + 1)/z2 (1 - e1 - e2 + e1^2 + e2^2): of the work
// that passes, the part that rubs away for each unit of friction coefficient.
// e1 and e2 are the parts of the contact ratio before and behind the pitch
// point; u is negative for a ring.
func (m *Mesh) LossFactor() float64 {
	p, c := m.BasePitch(), m.PitchPoint()
	e1, e2 := (m.End-c)/p, (c-m.Start)/p
	u, z2 := m.Ratio(), float64(m.Wheel.Teeth)
	if !m.External {
		u, z2 = -u, -z2
	}
	return math.Pi * (u + 1) / z2 * (1 - e1 - e2 + e1*e1 + e2*e2)
}

// Heat is what the guideline's estimate of a tooth's temperature asks for.
type Heat struct {
	Ambient    float64 // degC
	Power      float64 // W, that passes
	Friction   float64 // coefficient
	Teeth      int     // z of the member
	Speed      float64 // m/s at the working circle
	Shape      float64 // k, the guideline's coefficient for root or flank: no value of it is known to us
	Housing    float64 // R over A, K/W: resistance of the housing over its surface; 0 in the open
	Continuous float64 // part of the time that it runs, ED: 0..1
}

// Temperature returns ambient + P mu H_V (k/(b z (v m)^0.75) + R/A) ED^0.64, degC.
func (m *Mesh) Temperature(h Heat) (float64, error) {
	for _, c := range []struct {
		what string
		v    float64
	}{{"the speed at the working circle in m/s", h.Speed}, {"the number of teeth", float64(h.Teeth)}} {
		if err := positive(c.what, c.v); err != nil {
			return 0, err
		}
	}
	spread := h.Shape/(m.Face*float64(h.Teeth)*math.Pow(h.Speed*m.Module, 0.75)) + h.Housing
	return h.Ambient + h.Power*h.Friction*m.LossFactor()*spread*math.Pow(h.Continuous, 0.64), nil
}

// RootFatigue returns the pulsating root strength sigma_FlimN, MPa, at a root
// temperature in degC after a number of load cycles, and whether the fits know
// the material: moulded pom and moulded pa66, nothing else.
//
// pom 26 - 0.0025 t^2 + 400 N^-0.2; pa66 30 - 0.22 t + (4600 - 900 t^0.3) N^(-1/3).
// Low confidence: remembered fits to test curves that are themselves
// extrapolated. Valid from 1e5 cycles, 20 to 80 degC.
func RootFatigue(material string, t, cycles float64) (stress float64, known bool) {
	if !(cycles >= 1e5 && t >= 20 && t <= 80) {
		return 0, false
	}
	switch material {
	case "pom", "pom-sheet":
		return 26 - 0.0025*t*t + 400*math.Pow(cycles, -0.2), true
	case "pa66":
		return 30 - 0.22*t + (4600-900*math.Pow(t, 0.3))*math.Pow(cycles, -1.0/3), true
	}
	return 0, false
}
