package load

import (
	"math"
	"sort"
)

// Point is a flank pair at one place of its way along the path of contact.
type Point struct {
	Length    float64    // mm along the line of action
	Pairs     int        // flank pairs in contact at that moment
	Share     float64    // of the force, 0..1
	Line      float64    // N/mm, force on this pair over face width
	Yield     float64    // mm along the line of action
	Stiffness float64    // N/mm per mm and mm: of all pairs together
	Pressure  float64    // MPa, Hertz
	Root      [2]float64 // MPa, Y_F Y_S of this place: pinion, wheel; 0 where the load passes below the section
}

// Course is a pair's way through the mesh under one torque.
type Course struct {
	Torque    float64 // N mm on the pinion
	Normal    float64 // N, force along the line of action
	Points    []Point // by rising length
	Stiffness Spread  // of all pairs together
	Yield     Spread  // mm
	Pressure  Point   // where the pressure is greatest
	Root      [2]Point
}

// Spread is the least, mean and greatest value along the path.
type Spread struct{ Least, Mean, Greatest float64 }

// steps is the number of positions over one base pitch.
const steps = 24

// Course shares the pinion's torque, N mm, between the pairs in contact, in 24
// positions over one base pitch.
//
// All pairs in contact give way by the same amount along the line of action;
// teeth are taken to be without error. Flattening depends on the force, so the
// shares are iterated to 1e-12. Contact that begins early or ends late because
// teeth bend is not followed: Relief says by how much it would.
//
// Errors: *InputError for a torque that is not positive.
func (m *Mesh) Course(torque float64) (*Course, error) {
	if err := positive("the pinion's torque in N mm", torque); err != nil {
		return nil, err
	}
	c := &Course{Torque: torque, Normal: torque / m.Pinion.Base}
	line := c.Normal / m.Face
	sections, err := m.sections()
	if err != nil {
		return nil, err
	}
	way := m.way
	if way == nil {
		if way, err = m.walk(); err != nil {
			return nil, err
		}
	}
	for _, pairs := range way {
		if len(pairs) == 0 {
			continue // a contact ratio below 1: nothing carries here
		}
		shares, yield := m.share(pairs, line)
		for n, k := range pairs {
			c.Points = append(c.Points, m.point(k, sections, len(pairs), shares[n], line, yield))
		}
	}
	c.collect()
	return c, nil
}

// share divides a line force between pairs that give way alike.
func (m *Mesh) share(pairs []contact, line float64) (shares []float64, yield float64) {
	shares = make([]float64, len(pairs))
	for i := range shares {
		shares[i] = 1 / float64(len(pairs))
	}
	stiff, base := make([]float64, len(pairs)), make([]float64, len(pairs))
	for i, p := range pairs {
		base[i] = m.base(p)
	}
	for range 40 {
		sum := 0.0
		for i, p := range pairs {
			f := shares[i] * line
			stiff[i] = f / (base[i]*f + m.flatten(p, f))
			sum += stiff[i]
		}
		change := 0.0
		for i := range pairs {
			s := stiff[i] / sum
			change = math.Max(change, math.Abs(s-shares[i]))
			shares[i] = s
		}
		yield = line / sum
		if change < 1e-12 {
			break
		}
	}
	return shares, yield
}

// sections returns both members' critical sections.
func (m *Mesh) sections() (out [2]Form, err error) {
	for i, p := range []*Profile{m.Pinion.Profile, m.Wheel.Profile} {
		if out[i], err = p.Form(p.Tip(), m.Module, m.PressureAngle); err != nil {
			return out, err
		}
	}
	return out, nil
}

func (m *Mesh) point(k contact, tip [2]Form, pairs int, share, line, yield float64) Point {
	p := Point{Length: k.length, Pairs: pairs, Share: share, Line: share * line, Yield: yield, Stiffness: line / yield}
	p.Pressure = Pressure(p.Line, k.radius, m.Pinion.Elastic, m.Wheel.Elastic)
	for i := range tip {
		// The section is the tip load's: only arm and angle change.
		f := tip[i]
		x, angle := crossing(k.spot[i])
		if f.Arm = x - f.X; f.Arm <= 0 {
			continue
		}
		l := f.Thickness / f.Arm
		ys := (1.2 + 0.13*l) * math.Pow(f.Notch, 1/(1.21+2.3/l))
		p.Root[i] = 6 * p.Line * f.Arm * math.Cos(angle) / (f.Thickness * f.Thickness) * ys
	}
	return p
}

// collect sorts the points and finds what is least and greatest.
func (c *Course) collect() {
	sort.SliceStable(c.Points, func(i, k int) bool { return c.Points[i].Length < c.Points[k].Length })
	c.Stiffness = spread(c.Points, func(p Point) float64 { return p.Stiffness })
	c.Yield = spread(c.Points, func(p Point) float64 { return p.Yield })
	for _, p := range c.Points {
		if p.Pressure > c.Pressure.Pressure {
			c.Pressure = p
		}
		for i := range c.Root {
			if p.Root[i] > c.Root[i].Root[i] {
				c.Root[i] = p
			}
		}
	}
}

// spread weighs every position alike, however many pairs are in contact there.
func spread(points []Point, f func(Point) float64) Spread {
	s := Spread{Least: math.Inf(1)}
	sum, weight := 0.0, 0.0
	for _, p := range points {
		v := f(p)
		s.Least, s.Greatest = math.Min(s.Least, v), math.Max(s.Greatest, v)
		sum += v / float64(p.Pairs)
		weight += 1 / float64(p.Pairs)
	}
	if weight == 0 {
		return Spread{}
	}
	s.Mean = sum / weight
	return s
}
