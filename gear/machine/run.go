package machine

import "math"

// RunUp is a start from rest at full supply.
type RunUp struct {
	Time     float64 // s, to 95 % of the final speed
	Turn     float64 // radians of the platform by then
	Speed    float64 // rad/s of the platform by then
	Final    float64 // rad/s of the platform
	Peak     float64 // N mm on the pinion, at the start
	Work     float64 // N mm, of the motor
	Kinetic  float64 // N mm, gained
	Rubbed   float64 // N mm, lost in the bearing
	Lost     float64 // N mm, lost in the mesh
	Constant float64 // s, the time constant of a dc motor's run-up
}

// RunUp follows a dc motor from rest on level ground to 95 % of its speed, with
// the classical Runge-Kutta method. The rotor's own inertia is taken to sit
// behind the mesh. The motor's torque is capped at cap N mm on the output
// shaft, 0 for none: a current limit.
//
// Errors: *InputError for a stepper, which is ramped, and for a motor that does
// not start.
func (d Drive) RunUp(supply, cap float64) (RunUp, error) {
	p := d.At(supply)
	if d.Motor.Kind != DC {
		return RunUp{}, &InputError{"the number of straight torque lines of a stepper", 0, "a dc motor; a stepper is ramped"}
	}
	torque := func(w float64) float64 {
		t := d.Motor.TorqueAt(w*d.Ratio(), supply)
		if cap > 0 {
			t = math.Min(t, cap)
		}
		return t
	}
	friction := d.Platform.Friction.Moving
	if !p.Starts || d.atPlatform(torque(0)) <= d.Platform.Friction.Start {
		return RunUp{}, &InputError{"the motor's torque at rest in N mm", torque(0), "more than friction asks for: it does not start"}
	}
	inertia := d.inertia() * perSecond2
	r := RunUp{Final: p.Speed, Peak: torque(0)}
	slope := d.Motor.Stall / d.Motor.NoLoad * d.Ratio() * d.Ratio() * d.efficiency()
	r.Constant = inertia / slope
	// y: angle, speed, motor's work, bearing's loss, mesh's loss.
	rate := func(y [5]float64) [5]float64 {
		t := torque(y[1])
		out := d.atPlatform(t)
		return [5]float64{y[1], (out - friction) / inertia, t * d.Ratio() * y[1], friction * y[1], (t*d.Ratio() - out) * y[1]}
	}
	var y [5]float64
	h := r.Constant / 200
	const longest = 1_000_000
	for n := 0; y[1] < 0.95*r.Final && n < longest; n++ {
		y = step(rate, y, h)
		r.Time += h
	}
	r.Turn, r.Speed, r.Work, r.Rubbed, r.Lost = y[0], y[1], y[2], y[3], y[4]
	r.Kinetic = inertia * y[1] * y[1] / 2
	return r, nil
}

// step is one step of the classical Runge-Kutta method.
func step(f func([5]float64) [5]float64, y [5]float64, h float64) [5]float64 {
	add := func(k [5]float64, w float64) (z [5]float64) {
		for i := range z {
			z[i] = y[i] + w*k[i]
		}
		return
	}
	a := f(y)
	b := f(add(a, h/2))
	c := f(add(b, h/2))
	d := f(add(c, h))
	for i := range y {
		y[i] += h / 6 * (a[i] + 2*b[i] + 2*c[i] + d[i])
	}
	return y
}

// atPlatform returns the torque at the platform of a torque of the output shaft.
func (d Drive) atPlatform(motor float64) float64 { return motor * d.Ratio() * d.efficiency() }

// LeastRamp returns the shortest time, s, in which the platform may be brought
// to a speed in rad/s so that the output shaft carries no more than a torque in
// N mm; ok is false where that torque does not even overcome friction and hill.
func (d Drive) LeastRamp(speed, torque float64) (seconds float64, ok bool) {
	free := d.atPlatform(torque) - math.Max(d.Platform.Friction.Moving, d.Platform.Friction.Start) - d.Platform.Hill()
	if !(free > 0) {
		return 0, false
	}
	return d.inertia() * perSecond2 * speed / free, true
}

// Stop is what happens when the motor stops at a speed.
type Stop struct {
	Coast     float64 // radians that the platform runs on when nothing but its friction holds it, at most 1e6
	CoastTime float64 // s, at most 1e6
	Overshoot float64 // radians that it runs on when the motor stands at once: slack and spring
	Peak      float64 // N mm on the pinion at a dead stop; 0 where no stiffness is known
}

// StopFrom returns what a stop from a speed, rad/s of the platform, does.
//
// Coasting: I w^2/2 over friction. A dead stop (a shorted motor, a worm, a
// gearbox that does not run backwards, a stick in the teeth) leaves the platform's
// kinetic energy to the teeth, hub and shaft: w sqrt(k I), undamped, which is an
// upper bound for the given stiffness, with friction left out.
func (d Drive) StopFrom(speed float64) Stop {
	i := d.Platform.MomentOfInertia() * perSecond2
	s := Stop{Coast: most, CoastTime: most}
	if f := d.Platform.Friction.Moving; f > 0 {
		s.Coast, s.CoastTime = math.Min(most, i*speed*speed/(2*f)), math.Min(most, i*speed/f)
	}
	slack := 0.0
	for _, e := range d.Chain(0) {
		slack += e.Angle
	}
	s.Overshoot = math.Min(s.Coast, slack)
	if d.Stiffness > 0 {
		s.Peak = speed * math.Sqrt(d.Stiffness*i) / d.Ratio()
		s.Overshoot = math.Min(s.Coast, slack+speed*math.Sqrt(i/d.Stiffness))
	}
	return s
}

// UsualHand is the force, N, of a hand that stops the rim: common practice.
const UsualHand = 100

// HandTorque returns the torque, N mm on the pinion, of a force in N along the rim
// while the motor stands.
func (d Drive) HandTorque(force float64) float64 {
	return force * d.Platform.Diameter / 2 / d.Ratio()
}

// Shaft is what the teeth do to the motor's shaft.
type Shaft struct {
	Tangential float64 // N, on the working circle
	Separating float64 // N, away from the mesh
	Force      float64 // N, both together: pushes the shaft aside
}

// ShaftLoad returns the forces on the motor's shaft of a torque in N mm on it.
func (d Drive) ShaftLoad(torque float64) Shaft {
	if d.PinionBase <= 0 {
		return Shaft{}
	}
	f := torque / d.PinionBase
	return Shaft{f * math.Cos(d.Working), f * math.Sin(d.Working), f}
}

// usualDamping is the damping of plastic drives over the critical one, which the
// lowest speed hangs on: from memory.
const usualDamping = 0.1

// LowestSpeed returns the speed, rad/s of the platform, below which it is likely
// to stick and jump: dT/sqrt(4 pi D k I) with dT the difference of the two
// frictions and D the damping, 0.1 (approximation for small damping in textbooks
// of tribology, from memory). 0 where no stiffness is known.
func (d Drive) LowestSpeed() float64 {
	gap := d.Platform.Friction.Start - d.Platform.Friction.Moving
	if !(gap > 0 && d.Stiffness > 0) {
		return 0
	}
	return gap / math.Sqrt(4*math.Pi*usualDamping*d.Stiffness*d.Platform.MomentOfInertia()*perSecond2)
}

// Link is one part of the play that is felt at the platform.
type Link struct {
	Name  string
	Angle float64 // radians of the platform, in total
	Rim   float64 // mm at the rim
}

// Chain returns the play from the motor to the rim: gearbox, hub, mesh, and the
// wind-up under a torque in N mm at the platform, to one side.
func (d Drive) Chain(torque float64) []Link {
	out := []Link{
		{"gearbox", d.Motor.Slack / d.Ratio(), 0},
		{"hub", d.HubSlack / d.Ratio(), 0},
		{"mesh", d.Backlash, 0},
	}
	if d.Stiffness > 0 {
		out = append(out, Link{"wind-up", torque / d.Stiffness, 0})
	}
	for i := range out {
		out[i].Rim = out[i].Angle * d.Platform.Diameter / 2
	}
	return out
}
