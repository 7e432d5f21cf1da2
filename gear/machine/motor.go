package machine

import "sort"

// Kind says how a motor gives its torque.
type Kind string

// The kinds.
const (
	DC      Kind = "dc"
	Stepper Kind = "stepper"
)

// Motor is a motor with its gearbox, seen at the output shaft.
type Motor struct {
	Kind Kind

	// dc
	Rated  float64 // V, at which NoLoad and Stall are meant
	NoLoad float64 // rad/s, output shaft, at Rated
	Stall  float64 // N mm, output shaft, at Rated

	// stepper
	Steps      int    // full steps of the motor a turn
	Microsteps int    // a full step; 0 stands for 1
	Curve      []Pull // pull-out torque of the output shaft, any order

	// both
	Gearbox      Fraction // turns of the motor for a turn of the output shaft; zero: 1
	GearboxLimit float64  // N mm, most that the gearbox stands for long; 0: not known
	Slack        float64  // radians in total at the output shaft
	Radial       float64  // N, most that may push the shaft aside; 0: not known
	Inertia      float64  // kg mm2 of the rotor as felt at the output shaft; 0: left out
}

// Pull is one point of a stepper's pull-out curve.
type Pull struct{ Speed, Torque float64 } // rad/s and N mm, output shaft

// Check returns an *InputError for a motor without the figures of its kind.
func (m Motor) Check() error {
	switch m.Kind {
	case DC:
		for _, c := range []struct {
			what string
			v    float64
		}{{"the motor's rated voltage in V", m.Rated}, {"the motor's no-load speed in rad/s", m.NoLoad}, {"the motor's stall torque in N mm", m.Stall}} {
			if err := atLeast(c.what, c.v, false); err != nil {
				return err
			}
		}
	case Stepper:
		if m.Steps < 1 {
			return &InputError{"the stepper's number of full steps a turn", float64(m.Steps), "1 or more"}
		}
		if len(m.Curve) < 2 {
			return &InputError{"the number of points of the stepper's pull-out curve", float64(len(m.Curve)), "2 or more: without a curve no torque is known"}
		}
		for _, p := range m.Curve {
			if err := atLeast("the pull-out torque in N mm", p.Torque, true); err != nil {
				return err
			}
			if err := atLeast("the speed of a pull-out point in rad/s", p.Speed, true); err != nil {
				return err
			}
		}
	default:
		return &InputError{"the number of motor kinds known by this name", 0, "dc or stepper"}
	}
	for _, c := range []struct {
		what string
		v    float64
	}{{"the gearbox's torque limit in N mm", m.GearboxLimit}, {"the gearbox's slack in radians", m.Slack}, {"the shaft's radial limit in N", m.Radial}, {"the rotor's inertia in kg mm2", m.Inertia}} {
		if err := atLeast(c.what, c.v, true); err != nil {
			return err
		}
	}
	return nil
}

// StallAt returns the torque, N mm, of the standing motor at the supply in V.
// A stepper's is the first of its curve; its supply is that of the curve.
func (m Motor) StallAt(supply float64) float64 { return m.TorqueAt(0, supply) }

// NoLoadAt returns the speed, rad/s, without load at the supply in V: for a
// stepper the last of its curve.
func (m Motor) NoLoadAt(supply float64) float64 {
	if m.Kind == Stepper {
		c := m.curve()
		return c[len(c)-1].Speed
	}
	return m.NoLoad * supply / m.Rated
}

// TorqueAt returns the torque, N mm, that the motor gives at a speed in rad/s.
//
// dc: Stall (V/V_rated - speed/NoLoad), negative above the no-load speed: torque
// and current fall on a straight line, which the voltage shifts parallel
// (published characteristics of small brushed motors). Warmth lowers stall
// torque and is left out. stepper: the pull-out curve, straight between its
// points, kept before the first and nothing behind the last.
func (m Motor) TorqueAt(speed, supply float64) float64 {
	if m.Kind == DC {
		return m.Stall * (supply/m.Rated - speed/m.NoLoad)
	}
	c := m.curve()
	if speed <= c[0].Speed {
		return c[0].Torque
	}
	for i := 1; i < len(c); i++ {
		if a, b := c[i-1], c[i]; speed <= b.Speed {
			return a.Torque + (speed-a.Speed)/(b.Speed-a.Speed)*(b.Torque-a.Torque)
		}
	}
	return 0
}

// SpeedAt returns the speed, rad/s, at which the motor turns against a torque in
// N mm: for a stepper the greatest that it follows. 0 when it cannot turn.
func (m Motor) SpeedAt(torque, supply float64) float64 {
	if m.Kind == DC {
		return max(0, m.NoLoad*(supply/m.Rated-torque/m.Stall))
	}
	c := m.curve()
	for i := len(c) - 1; i > 0; i-- {
		a, b := c[i-1], c[i]
		switch {
		case b.Torque >= torque:
			return b.Speed
		case a.Torque >= torque:
			return a.Speed + (a.Torque-torque)/(a.Torque-b.Torque)*(b.Speed-a.Speed)
		}
	}
	return 0
}

// Best returns the greatest power of a dc motor, W, at half its stall torque and
// half its no-load speed: n0 T/4.
func (m Motor) Best(supply float64) float64 {
	return m.NoLoadAt(supply) * m.StallAt(supply) / 4 / 1000
}

// curve returns the pull-out curve by rising speed.
func (m Motor) curve() []Pull {
	c := append([]Pull(nil), m.Curve...)
	sort.SliceStable(c, func(i, k int) bool { return c[i].Speed < c[k].Speed })
	return c
}
