package load

import "math"

// Elastic is how a member's material yields.
type Elastic struct {
	Modulus float64 // MPa
	Poisson float64
}

// Check returns an *InputError unless the modulus is more than 0 and Poisson's
// ratio between 0 and 0.5.
func (e Elastic) Check() error {
	if err := positive("the modulus of elasticity in MPa", e.Modulus); err != nil {
		return err
	}
	if !(e.Poisson >= 0 && e.Poisson < 0.5) {
		return &InputError{"Poisson's ratio", e.Poisson, "from 0 to less than 0.5"}
	}
	return nil
}

// wide returns E/(1 - nu^2), the modulus in plane strain.
func (e Elastic) wide() float64 { return e.Modulus / (1 - e.Poisson*e.Poisson) }

// Lever is what the outline contributes to a tooth's deflection under a load at
// one place: everything but the material.
type Lever struct {
	Cube  float64 // integral of (yp - y)^2/s^3 dy over the tooth, no unit
	One   float64 // integral of dy/s, no unit
	Arm   float64 // yp, mm: from the root section to where the load's line meets the centre line
	Root  float64 // mm: chord of the root section
	Angle float64 // of the load to the normal of the centre line
	Depth float64 // t, mm along the load's line from the contact to the centre line
}

// Lever returns the integrals for a load at the place s. The tooth ends at the
// section of the tangent method. A load whose line meets the centre line below
// that section bends nothing: Arm is then 0.
//
// Accuracy: 1e-8 of the value on outlines of involutes, trochoids and arcs
// (Gauss-Legendre, four panels of eight points a piece).
func (p *Profile) Lever(s Spot) (Lever, error) {
	if p.rootErr != nil {
		return Lever{}, p.rootErr
	}
	return p.leverTo(s, p.root), nil
}

// leverTo is Lever for a tooth that ends at the given root section.
func (p *Profile) leverTo(s, root Spot) Lever {
	x, angle := crossing(s)
	l := Lever{Arm: math.Max(0, x-root.P.X), Root: 2 * root.P.Y, Angle: angle, Depth: s.P.Y / math.Cos(angle)}
	if l.Arm == 0 {
		return l
	}
	for i := 0; i <= root.piece; i++ {
		u0, u1 := 0.0, 1.0
		if i == root.piece {
			u1 = root.u
		}
		if i < len(p.pieces) && p.pieces[i].At(u1).X >= x {
			continue
		}
		if p.pieces[i].At(0).X > x {
			u0 = bisect(func(u float64) bool { return p.pieces[i].At(u).X > x })
		}
		if u0 >= u1 {
			continue
		}
		p.sum(i, u0, u1, x, &l)
	}
	return l
}

// sum adds a piece's part, from u0 to u1, to the integrals.
func (p *Profile) sum(piece int, u0, u1, x float64, l *Lever) {
	const panels = 4
	w := (u1 - u0) / panels
	for k := range panels {
		for _, g := range gauss8 {
			f := p.pieces[piece].Frame(u0 + w*(float64(k)+g[0]))
			dy := -f.V.X * w * g[1]
			arm, s := x-f.P.X, 2*f.P.Y
			l.Cube += arm * arm / (s * s * s) * dy
			l.One += dy / s
		}
	}
}

// gauss8 holds nodes and weights of the 8-point Gauss-Legendre rule on [0, 1].
var gauss8 = [8][2]float64{
	{0.019855071751231884, 0.050614268145188130}, {0.101666761293186630, 0.111190517226687235},
	{0.237233795041835507, 0.156853322938943644}, {0.408282678752175098, 0.181341891689180991},
	{0.591717321247824902, 0.181341891689180991}, {0.762766204958164493, 0.156853322938943644},
	{0.898333238706813370, 0.111190517226687235}, {0.980144928248768116, 0.050614268145188130},
}

// ToothYield returns how far the place of the load moves along its line because
// the tooth bends, shears and is compressed, times modulus and face width over
// force: no unit.
//
// cos^2(a) (12 (1 - nu^2) Cube + (2.4 (1 + nu) + (1 - nu^2) tan^2(a)) One).
// Source: Weber and Banaschek 1953, plane strain, coefficients for any nu (from
// memory; with nu 0.3 they are the printed 10.92, 3.1 and 0.294).
func (l Lever) ToothYield(nu float64) float64 {
	c, t := math.Cos(l.Angle), math.Tan(l.Angle)
	k := 1 - nu*nu
	return c * c * (12*k*l.Cube + (2.4*(1+nu)+k*t*t)*l.One)
}

// RootYield returns the same for the root, which tilts and moves in the body.
//
// cos^2(a) (18 (1 - nu^2)/pi (yp/sf)^2 + 2 (1 - 2 nu)(1 + nu) yp/sf + 4.8 (1 - nu^2)/pi
// (1 + (1 - nu)/2.4 tan^2(a))). Source as for ToothYield (printed for nu 0.3:
// 5.2, 1.0, 1.4 and 0.294). The body is taken to be a half plane.
func (l Lever) RootYield(nu float64) float64 {
	if l.Root == 0 {
		return 0
	}
	c, t := math.Cos(l.Angle), math.Tan(l.Angle)
	k := (1 - nu*nu) / math.Pi
	q := l.Arm / l.Root
	return c * c * (18*k*q*q + 2*(1-2*nu)*(1+nu)*q + 4.8*k*(1+(1-nu)/2.4*t*t))
}

// Rim is the ring's body behind its teeth, as a beam between its fastenings.
type Rim struct {
	Thickness float64 // mm, from root circle to outside; 0: held all along
	Free      float64 // mm of arc between two fastenings; 0: held all along
}

// Yield returns what the rim adds for a load at the lever's place, times modulus
// and face width over force: no unit.
//
// A beam fixed at both ends and loaded in its middle by the force's moment
// about the rim's centre line tilts by M L/(16 E I) and stretches by F L/(4 E A)
// (textbooks of strength of materials, from memory). The radial part of the
// load, which is carried by the fastenings and the ring's hoop, is left out.
func (r Rim) Yield(l Lever) float64 {
	if !(r.Thickness > 0 && r.Free > 0) {
		return 0
	}
	c := math.Cos(l.Angle)
	arm := l.Arm + r.Thickness/2
	t := r.Thickness
	return c * c * (12*r.Free*arm*arm/(16*t*t*t) + r.Free/(4*t))
}
