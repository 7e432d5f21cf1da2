package machine

import (
	"math"
	"math/big"
)

// Fraction is an exact ratio of whole numbers of teeth. The zero value is 1.
type Fraction struct{ Over, Under int64 }

// Rat returns the fraction, 1 for the zero value, and whether it is one: both
// numbers positive.
func (f Fraction) Rat() (*big.Rat, bool) {
	if f == (Fraction{}) {
		return big.NewRat(1, 1), true
	}
	if f.Over <= 0 || f.Under <= 0 {
		return nil, false
	}
	return big.NewRat(f.Over, f.Under), true
}

// Card is what the motor's controller is told.
type Card struct {
	Fraction    string  // turns of the motor for one of the platform, exact, as "a/b" or "a"
	Turns       float64 // the same as a number
	Steps       string  // steps (with microsteps) or counts for one turn of the platform, exact; empty without
	StepsWhole  bool
	StepAngle   float64 // radians of the platform a step; 0 without
	StepRim     float64 // mm at the rim a step
	Repeat      int64   // turns of the platform after which steps come out whole again; 0 without
	Speed       float64 // rad/s of the platform
	StepRate    float64 // steps a second at that speed
	ToothPass   float64 // Hz: teeth that pass the mesh
	Ramp        float64 // s, least
	Overshoot   float64 // radians of the platform
	GearboxSaid bool    // false: the gearbox counted as its name says, or there is none
}

// Card returns the figures for a speed, rad/s of the platform, and the torque in
// N mm that the output shaft may carry while it speeds up.
//
//	counts  a turn of the motor, for an encoder; 0: the motor's own steps
//
// Errors: *InputError for a gearbox that is no fraction.
func (d Drive) Card(speed, torque float64, counts int) (Card, error) {
	g, ok := d.Motor.Gearbox.Rat()
	if !ok {
		return Card{}, &InputError{"the gearbox's number of teeth", float64(min(d.Motor.Gearbox.Over, d.Motor.Gearbox.Under)), "1 or more"}
	}
	all := new(big.Rat).Mul(g, big.NewRat(int64(d.Ring), int64(d.Pinion)))
	c := Card{Fraction: all.RatString(), Speed: speed, GearboxSaid: d.Motor.Gearbox != Fraction{}}
	c.Turns, _ = all.Float64()
	c.ToothPass = float64(d.Ring) * speed / (2 * math.Pi)
	c.Ramp, _ = d.LeastRamp(speed, torque)
	c.Overshoot = d.StopFrom(speed).Overshoot
	if counts == 0 {
		counts = d.Motor.Steps * max(1, d.Motor.Microsteps)
	}
	if counts > 0 {
		steps := new(big.Rat).Mul(all, big.NewRat(int64(counts), 1))
		n, _ := steps.Float64()
		c.Steps, c.StepsWhole = steps.RatString(), steps.IsInt()
		c.Repeat = steps.Denom().Int64()
		c.StepAngle = 2 * math.Pi / n
		c.StepRim = c.StepAngle * d.Platform.Diameter / 2
		c.StepRate = speed / c.StepAngle
	}
	return c, nil
}
