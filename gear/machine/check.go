package machine

import (
	"fmt"
	"math"

	"ringtrack/gear/find"
)

// The margins that are asked for: common practice.
const (
	startMargin  = 2.0
	torqueMargin = 1.5
	speedMargin  = 0.6 // of the no-load speed: below it a dc motor runs hot and sags with every hill
)

// Findings reports what is wrong with the drive at a supply in V and a wanted
// speed in rad/s of the platform, 0 for the one that comes out.
//
// Errors: *InputError as Check.
func (d Drive) Findings(supply, speed float64) ([]find.Finding, error) {
	if err := d.Check(); err != nil {
		return nil, err
	}
	if err := atLeast("the supply in V", supply, d.Motor.Kind == Stepper); err != nil {
		return nil, err
	}
	var list []find.Finding
	add := func(level find.Level, code find.Code, about string, found, limit float64, unit, text string, args ...any) {
		list = append(list, find.Finding{Code: code, Level: level, About: about, Found: find.Num(found), Limit: find.Num(limit), Unit: unit, Text: fmt.Sprintf(text, args...)})
	}
	p := d.At(supply)
	d.checkTorque(p, add)
	d.checkGearbox(p, add)
	d.checkShaft(p, add)
	d.checkTipping(add)
	if speed == 0 {
		speed = p.Speed
	}
	if low := d.LowestSpeed(); p.Starts && speed > 0 && speed < low {
		add(find.Caution, find.StickSlip, "platform.speed", ToRPM(speed), ToRPM(low), "rpm",
			"below about %.3g rpm the platform is likely to stick and jump", ToRPM(low))
	}
	if c, err := d.Card(speed, p.Usable, 0); err != nil {
		return nil, err
	} else if c.Steps != "" && !c.StepsWhole {
		add(find.Note, find.StepsNotWhole, "motor.steps", float64(c.Repeat), 1, "",
			"a turn of the platform is %s steps: count on without rounding, it comes out whole after %d turns", c.Steps, c.Repeat)
	}
	list = append(list, d.other(p)...)
	find.Sort(list)
	return list, nil
}

// adder adds a finding.
type adder func(level find.Level, code find.Code, about string, found, limit float64, unit, text string, args ...any)

// checkShaft compares the teeth's push with what the motor's shaft stands for.
func (d Drive) checkShaft(p Point, add adder) {
	limit := d.Motor.Radial
	if limit == 0 {
		return
	}
	if s := d.ShaftLoad(p.Uphill); s.Force > limit {
		add(find.Caution, find.ShaftOverload, "motor.radial_load", s.Force, limit, "N",
			"the teeth push the motor's shaft aside with %.1f N; it may be loaded with %.1f N", s.Force, limit)
		return
	}
	if s := d.ShaftLoad(p.Stall); s.Force > limit {
		add(find.Note, find.ShaftOverload, "motor.radial_load", s.Force, limit, "N",
			"at stall the teeth push the motor's shaft aside with %.1f N; it may be loaded with %.1f N", s.Force, limit)
	}
}

// checkTipping needs the bearing's radius; without it nothing is said.
func (d Drive) checkTipping(add adder) {
	if d.Platform.Race == 0 {
		return
	}
	t := d.Platform.Tipping()
	switch {
	case t.Lever <= 0:
		add(find.Fault, find.TipsOver, "platform.load_offset", d.Platform.Offset, math.Max(0, d.Platform.Offset+t.Lever), "mm",
			"the load's weight lies %.0f mm outside the bearing's track: the platform tips unless the bearing holds it down", -t.Lever)
	case t.Press > 0 && t.Press < UsualHand:
		add(find.Caution, find.TipsOver, "platform.diameter", t.Press, UsualHand, "N",
			"a hand that leans on the rim with %.0f N tips the platform", t.Press)
	}
}

func (d Drive) checkTorque(p Point, add adder) {
	about := "motor.stall_torque"
	if d.Motor.Kind == Stepper {
		about = "motor.curve"
	}
	switch {
	case !p.Starts:
		add(find.Fault, find.WillNotStart, about, p.Stall, p.Start, "N mm",
			"at this supply the motor's shaft gives %.0f N mm at rest; friction and slope ask for %.0f N mm", p.Stall, p.Start)
		return
	case p.StartMargin < startMargin:
		add(find.Caution, find.LittleTorque, about, p.StartMargin, startMargin, "",
			"the motor starts with only %.2f times the torque that is needed; %.1f is wanted, for friction grows", p.StartMargin, startMargin)
	}
	if p.TorqueMargin < torqueMargin {
		add(find.Caution, find.LittleTorque, about, p.TorqueMargin, torqueMargin, "",
			"turning asks for %.0f N mm of the motor's shaft and %.0f N mm may be asked for long (%s): %.2f times, %.1f is wanted",
			p.Uphill, p.Usable, p.Limit, p.TorqueMargin, torqueMargin)
	}
	if d.Motor.Kind == DC && p.SpeedMargin < speedMargin {
		add(find.Caution, find.LittleTorque, about, 100*p.SpeedMargin, 100*speedMargin, "%",
			"the motor is slowed to %.0f %% of its free speed", 100*p.SpeedMargin)
	}
}

func (d Drive) checkGearbox(p Point, add adder) {
	limit := d.Motor.GearboxLimit
	if limit == 0 {
		return
	}
	if p.Uphill > limit {
		add(find.Fault, find.GearboxOverload, "motor.gearbox_limit", p.Uphill, limit, "N mm",
			"turning the platform loads the gearbox with %.0f N mm; its limit is %.0f N mm", p.Uphill, limit)
		return
	}
	if p.Start > limit {
		add(find.Caution, find.GearboxOverload, "motor.gearbox_limit", p.Start, limit, "N mm",
			"starting loads the gearbox with %.0f N mm; its limit is %.0f N mm", p.Start, limit)
		return
	}
	if p.Stall > limit {
		add(find.Caution, find.GearboxOverload, "motor.gearbox_limit", p.Stall, limit, "N mm",
			"a stalled motor loads its gearbox with %.0f N mm; the limit is %.0f N mm: limit the current", p.Stall, limit)
	}
}

// Where other drives serve better: common practice.
const (
	heavy  = 100.0 // kg: from here on a bought slewing ring is the safer bearing and gear
	slight = 0.005 // of the weight's moment at the rim: so little torque a friction wheel or a belt gives as well
	quick  = 60.0  // rpm: teeth of plastic get loud and warm
)

// other says when another drive would serve better.
func (d Drive) other(p Point) []find.Finding {
	var list []find.Finding
	note := func(found, limit float64, unit, about, text string) {
		list = append(list, find.Finding{Code: find.OtherDrive, Level: find.Note, About: about, Found: find.Num(found), Limit: find.Num(limit), Unit: unit, Text: text})
	}
	if m := d.Platform.Mass; m > heavy {
		note(m, heavy, "kg", "platform.mass", "for so much mass a bought slewing ring is the better bearing and gear in one")
	}
	if n := ToRPM(p.Speed); n > quick {
		note(n, quick, "rpm", "motor.no_load_speed", "so fast, a belt runs more quietly than printed teeth")
	}
	need := d.Platform.Friction.Start + d.Platform.Hill()
	if rim := d.Platform.Weight() * d.Platform.Diameter / 2; need > 0 && need < slight*rim && d.Platform.Hill() == 0 {
		note(need, slight*rim, "N mm", "platform.mass", "so easily turned, a friction wheel at the rim would do, without slack, and slip when a hand stops it")
	}
	return list
}
