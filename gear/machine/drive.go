package machine

import "math"

// Drive is a motor that turns a platform through a pair.
type Drive struct {
	Motor       Motor
	Platform    Platform
	Pinion      int     // teeth
	Ring        int     // teeth
	Efficiency  float64 // of the mesh, 0..1; 0 stands for UsualEfficiency
	PinionBase  float64 // mm, base radius of the pinion
	Working     float64 // alpha_w
	ToothTorque float64 // N mm on the pinion that the teeth bear for long; 0: not known
	Stiffness   float64 // N mm/rad at the platform: teeth, hub, shaft and gearbox together; 0: not known
	Backlash    float64 // radians of the platform, of the mesh
	HubSlack    float64 // radians of the pinion, of bore on shaft
}

// UsualEfficiency is that of one spur mesh of plastics without oil: common practice.
const UsualEfficiency = 0.9

// safeStall is the part of a gearmotor's stall torque that it may be asked for
// at length: a quarter (published advice of a maker of small gearmotors).
const safeStall = 0.25

// Check returns an *InputError for what no drive has.
func (d Drive) Check() error {
	if err := d.Motor.Check(); err != nil {
		return err
	}
	if err := d.Platform.Check(); err != nil {
		return err
	}
	if d.Pinion < 1 || d.Ring < 1 {
		return &InputError{"the number of teeth", float64(min(d.Pinion, d.Ring)), "1 or more"}
	}
	if d.Efficiency < 0 || d.Efficiency > 1 {
		return &InputError{"the efficiency of the mesh", d.Efficiency, "from 0 to 1; 0 stands for the usual one"}
	}
	for _, c := range []struct {
		what string
		v    float64
	}{{"the torque that the teeth bear in N mm", d.ToothTorque}, {"the stiffness in N mm/rad", d.Stiffness}, {"the backlash in radians", d.Backlash}, {"the hub's slack in radians", d.HubSlack}, {"the pinion's base radius in mm", d.PinionBase}} {
		if err := atLeast(c.what, c.v, true); err != nil {
			return err
		}
	}
	return nil
}

// Ratio returns the turns of the output shaft for one of the platform.
func (d Drive) Ratio() float64 { return float64(d.Ring) / float64(d.Pinion) }

func (d Drive) efficiency() float64 {
	if d.Efficiency == 0 {
		return UsualEfficiency
	}
	return d.Efficiency
}

// atMotor returns the torque of the output shaft that gives a torque at the platform.
func (d Drive) atMotor(platform float64) float64 { return platform / d.Ratio() / d.efficiency() }

// inertia returns what the motor has to set moving, kg mm2 at the platform.
func (d Drive) inertia() float64 {
	return d.Platform.MomentOfInertia() + d.Motor.Inertia*d.Ratio()*d.Ratio()
}

// Point is how the drive runs at one supply.
type Point struct {
	Supply       float64 // V
	Speed        float64 // rad/s of the platform, uphill and downhill evened out
	Slowest      float64 // rad/s of the platform, where the load runs uphill
	NoLoad       float64 // rad/s of the platform
	MotorSpeed   float64 // rad/s of the output shaft
	Torque       float64 // N mm of the output shaft while moving, without the hill
	Uphill       float64 // N mm, with the hill
	Start        float64 // N mm of the output shaft needed to start in the worst place
	Stall        float64 // N mm of the output shaft
	Usable       float64 // N mm: the least of a quarter of stall, gearbox limit and teeth; of a stepper half its pull-out torque
	Limit        string  // which of them
	TorqueMargin float64 // Usable over Uphill, at most 1e6
	StartMargin  float64 // Stall over Start, at most 1e6
	SpeedMargin  float64 // Speed over NoLoad
	Starts       bool
}

// At returns how the drive runs at a supply in V. A stepper follows any speed up
// to the pull-out curve; the Point is then the greatest at which half the
// pull-out torque is kept in hand (common practice).
func (d Drive) At(supply float64) Point {
	m, p := d.Motor, d.Platform
	k := Point{
		Supply: supply, Stall: m.StallAt(supply), NoLoad: m.NoLoadAt(supply) / d.Ratio(),
		Torque: d.atMotor(p.Friction.Moving), Uphill: d.atMotor(p.Friction.Moving + p.Hill()),
		Start: d.atMotor(math.Max(p.Friction.Start, p.Friction.Moving) + p.Hill()),
	}
	reserve := 1.0
	if m.Kind == Stepper {
		reserve = 2
	}
	k.MotorSpeed = m.SpeedAt(reserve*k.Torque, supply)
	k.Speed = k.MotorSpeed / d.Ratio()
	k.Slowest = m.SpeedAt(reserve*k.Uphill, supply) / d.Ratio()
	k.Usable, k.Limit = d.usable(k.Stall)
	k.TorqueMargin, k.StartMargin = over(k.Usable, k.Uphill), over(k.Stall, k.Start)
	k.SpeedMargin = over(k.Speed, k.NoLoad)
	k.Starts = k.Stall > k.Start
	return k
}

// Table returns the points for several supplies, in their order.
func (d Drive) Table(supplies ...float64) []Point {
	out := make([]Point, len(supplies))
	for i, v := range supplies {
		out[i] = d.At(v)
	}
	return out
}

// usable returns what may be asked of the output shaft for long, and why.
func (d Drive) usable(stall float64) (torque float64, limit string) {
	torque, limit = safeStall*stall, "a quarter of the stall torque"
	if d.Motor.Kind == Stepper {
		torque, limit = stall/2, "half the pull-out torque"
	}
	if g := d.Motor.GearboxLimit; g > 0 && g < torque {
		torque, limit = g, "the gearbox"
	}
	if g := d.ToothTorque; g > 0 && g < torque {
		torque, limit = g, "the teeth"
	}
	return torque, limit
}

// most stands for no end: a margin where nothing is asked for, a platform without
// friction that runs on. Figures never exceed it.
const most = 1e6

// over returns a/b, most where b asks for nothing.
func over(a, b float64) float64 {
	if b <= a/most {
		return most
	}
	return a / b
}

// Series returns the stiffness of parts that wind up one behind the other, N
// mm/rad, all at the same shaft; a part of 0 is taken as rigid. 0 when all are.
func Series(parts ...float64) float64 {
	sum := 0.0
	for _, k := range parts {
		if k > 0 {
			sum += 1 / k
		}
	}
	if sum == 0 {
		return 0
	}
	return 1 / sum
}

// ShaftStiffness returns the stiffness, N mm/rad, of a round steel shaft of that
// diameter and free length in mm: G pi d^4/(32 l), G 80000 MPa (handbooks, from
// memory).
func ShaftStiffness(diameter, length float64) float64 {
	const shear = 80000
	if !(length > 0) {
		return 0
	}
	return shear * math.Pi * diameter * diameter * diameter * diameter / (32 * length)
}
