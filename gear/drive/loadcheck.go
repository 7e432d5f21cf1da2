package drive

import (
	"math"
	"strings"

	"ringtrack/gear/find"
	"ringtrack/gear/machine"
	"ringtrack/gear/stock"
)

// speedOff is how far, as a part of what is wanted, the platform's speed may lie
// beside it unsaid: common practice.
const speedOff = 0.15

// checkMachine reports what is wrong with motor and platform at the supply that
// counts.
func (d *Design) checkMachine(at machine.Point) {
	l := d.Load
	found, err := l.Machine.Findings(l.Supply, l.Speed)
	if err != nil {
		d.noLoad(err)
		return
	}
	d.Findings = append(d.Findings, found...)
	d.checkSpeed(at)
	d.checkFriction()
	if !l.SlackGiven && l.Machine.Motor.Slack > 0 {
		d.add(find.Note, find.Unmeasured, "motor.gearbox_slack", deg(l.Machine.Motor.Slack), math.NaN(), "deg",
			"the gearbox's slack is taken as %.3g deg (common practice); clamp a 58 mm stick to its shaft: 1 mm at its end is 1 deg", deg(l.Machine.Motor.Slack))
	}
}

func deg(radians float64) float64 { return radians * 180 / math.Pi }

// checkSpeed compares the platform's speed with the one that is wanted.
func (d *Design) checkSpeed(at machine.Point) {
	p := d.Job.Platform.Speed
	if !p.Given || !at.Starts {
		return
	}
	is := machine.ToRPM(at.Speed)
	switch {
	case is < (1-speedOff)*p.Value:
		d.add(find.Caution, find.OffSpeed, "platform.speed", is, p.Value, "rpm",
			"the platform comes to %.3g rpm where %.3g rpm is wanted", is, p.Value)
	case is > (1+speedOff)*p.Value && d.Load.Machine.Motor.Kind == machine.DC:
		d.add(find.Note, find.OffSpeed, "motor.supply", is, p.Value, "rpm",
			"at full supply the platform turns at %.3g rpm, faster than the %.3g rpm wanted: lower the supply to about %.1f V, or pulse it",
			is, p.Value, d.supplyFor(machine.FromRPM(p.Value)))
	}
}

// supplyFor returns the supply, V, at which a dc motor turns the platform at a
// speed in rad/s.
func (d *Design) supplyFor(speed float64) float64 {
	m := d.Load.Machine
	torque := d.Load.Points[0].Torque
	return m.Motor.Rated * (speed*m.Ratio()/m.Motor.NoLoad + torque/m.Motor.Stall)
}

// checkFriction says when the bearing's friction is a guess.
func (d *Design) checkFriction() {
	p := d.Job.Platform
	if p.Friction.Given || p.Pull.Given || p.CoastTime.Given {
		return
	}
	f := d.Load.Machine.Platform.Friction
	pull := f.Start / (d.Load.Machine.Platform.Diameter / 2)
	d.add(find.Caution, find.Guessed, "platform.pull", pull, math.NaN(), "N",
		"the bearing's friction is a guess (%.0f N mm to start, %.2g N at the rim), which may be wrong by a factor of five and decides nearly everything: pull at the rim with a luggage scale", f.Start, pull)
}

// perKey joins the findings of one code about one key, which differ in the load
// case alone: the worst stands, the others are named in it.
func perKey(all []find.Finding) []find.Finding {
	var out []find.Finding
	short := func(f find.Finding) float64 { // how far beyond the limit
		if f.Found == nil || f.Limit == nil || *f.Limit == 0 || *f.Found == 0 {
			return 0
		}
		return math.Abs(math.Log(*f.Found / *f.Limit))
	}
	others := map[int][]string{}
	for _, f := range all {
		at := -1
		for i, g := range out {
			if g.Code == f.Code && g.About == f.About {
				at = i
			}
		}
		if at < 0 {
			out = append(out, f)
			continue
		}
		if f.Level < out[at].Level || f.Level == out[at].Level && short(f) > short(out[at]) {
			out[at], f = f, out[at]
		}
		name, _, _ := strings.Cut(f.Text, ":")
		others[at] = append(others[at], name)
	}
	for i, names := range others {
		out[i].Text += "; too much, too, under: " + strings.Join(names, ", ")
	}
	return out
}

// noLoad reports that motor, platform or teeth have no answer.
func (d *Design) noLoad(err error) {
	d.add(find.Fault, find.OutOfRange, "motor.kind", math.NaN(), math.NaN(), "", "what the teeth bear cannot be worked out: %v", err)
}

// loadMoves returns what to try for a finding about motor, platform or the
// strength of teeth; nil for other findings.
func (d *Design) loadMoves(f find.Finding) []move {
	stronger := []move{up("motor.supply"), up("motor.stall_torque"), up("teeth.ring"), down("teeth.pinion"),
		down("platform.bearing_friction"), down("platform.pull"), down("platform.off_level"), down("platform.load_offset"), down("platform.mass")}
	switch f.Code {
	case find.ToothOverload, find.ToothBends, find.NarrowFace:
		if strings.HasSuffix(f.About, ".tip_relief") {
			return append([]move{up("ring.face_width"), up("pinion.face_width"), up("teeth.module")}, d.materialMoves("pinion")...)
		}
		who, _, _ := strings.Cut(f.About, ".")
		out := append([]move{up("pinion.face_width"), up("ring.face_width")}, d.materialMoves(who)...)
		return append(out, up("teeth.module"), down("motor.supply"), up("teeth.ring"), down("motor.stall_torque"))
	case find.TooWarm:
		who, _, _ := strings.Cut(f.About, ".")
		return d.materialMoves(who)
	case find.HubSlips:
		return append([]move{down("pinion.bore.clearance"), up("pinion.hub.length")}, d.materialMoves("pinion")...)
	case find.WillNotStart, find.LittleTorque:
		return stronger
	case find.GearboxOverload:
		return []move{down("motor.supply"), up("teeth.ring"), down("teeth.pinion"), up("motor.gearbox_limit"), down("platform.bearing_friction"), down("platform.pull"), down("platform.off_level"), down("platform.load_offset")}
	case find.ShaftOverload:
		return []move{up("teeth.pinion"), up("teeth.module"), up("teeth.ring"), down("motor.supply"), up("motor.radial_load")}
	case find.TipsOver:
		return []move{down("platform.load_offset"), down("platform.off_level"), down("platform.load_height"), up("platform.bearing_diameter"), down("platform.diameter"), up("platform.mass")}
	case find.StickSlip:
		return []move{up("platform.speed"), up("motor.supply")}
	case find.OffSpeed:
		return []move{down("motor.supply"), up("motor.supply"), up("teeth.pinion"), down("teeth.ring"), down("platform.speed")}
	case find.PointedTip, find.ThinTip:
		return []move{auto(f.About), down(f.About)}
	}
	return nil
}

// most returns how many cures a finding carries at most: one where teeth, hub or
// motor have little in hand, for each takes a budget of its own to prove.
func (s search) most() int {
	switch s.finding.Code {
	case find.ToothOverload, find.ToothBends, find.HubSlips, find.LittleTorque, find.GearboxOverload, find.ShaftOverload, find.TipsOver, find.OffSpeed:
		if s.finding.Level != find.Fault {
			return 1
		}
	}
	return mostCures
}

// materialMoves tries the materials that are sold in the same form as the
// member's own, the stiffest of them last.
func (d *Design) materialMoves(who string) []move {
	m := d.Job.Pinion
	if who == "ring" {
		m = d.Job.Ring
	}
	own, ok := stock.FindMaterial(m.Material)
	if !ok {
		return nil
	}
	var out []move
	for _, s := range stock.Materials() {
		if s.Form == own.Form && s.Name != own.Name {
			out = append(out, quoted(who+".material", s.Name))
		}
	}
	return out
}

// aboutLoad reports whether a finding's cures are those of loadMoves.
func aboutLoad(f find.Finding) bool {
	switch f.Code {
	case find.PointedTip, find.ThinTip:
		return strings.HasSuffix(f.About, ".tip_relief")
	}
	return true
}

// rangeOfLoad continues rangeOf for motor, platform and flexible teeth; numbers
// are as a job file has them.
func (d *Design) rangeOfLoad(key string) (span, bool) {
	m, p := d.Job.Motor, d.Job.Platform
	set := func(now, least, most, step float64) (span, bool) {
		return span{now, math.Max(3*now, 10*step), least, most, step}, d.Job.Given(key)
	}
	switch {
	case key == "teeth.flexible_allowance":
		return set(d.Job.Teeth.FlexibleAllowance.Value, 0, 10, 0.005)
	case key == "pinion.tip_relief":
		return set(d.Job.Pinion.TipRelief.Value, 0, 5, 0.005)
	case key == "ring.tip_relief":
		return set(d.Job.Ring.TipRelief.Value, 0, 5, 0.005)
	case key == "pinion.hub.length" && d.Job.Pinion.Hub != nil:
		return set(d.Job.Pinion.Hub.Length, 0.5, 1000, 0.5)
	case m == nil:
		return span{}, false
	}
	switch key {
	case "motor.supply":
		s, _ := set(m.Supply[0], 0.1, 1000, 0.1)
		return s, m.Kind == "dc" && len(m.Supply) == 1
	case "motor.stall_torque":
		return set(m.StallTorque, 0.001, 1e7, 10)
	case "motor.gearbox_limit":
		return set(m.GearboxLimit, 0.001, 1e7, 10)
	case "motor.radial_load":
		return set(m.RadialLoad, 0.01, 1e6, 1)
	}
	if p == nil {
		return span{}, false
	}
	switch key {
	case "platform.mass":
		return set(p.Mass, 0.001, 1e5, 0.1)
	case "platform.diameter":
		return set(p.Diameter.Value, 1, 60000, 1)
	case "platform.bearing_friction":
		return set(p.Friction.Value, 0.001, 1e9, 1)
	case "platform.pull":
		return set(p.Pull.Value, 0.001, 1e6, 0.1)
	case "platform.off_level":
		return set(deg(p.OffLevel), 0, 30, 0.1)
	case "platform.load_offset":
		return set(p.LoadOffset, 0, 30000, 1)
	case "platform.load_height":
		return set(p.LoadHeight, 0, 20000, 1)
	case "platform.bearing_diameter":
		return set(p.BearingDiameter.Value, 1, 60000, 1)
	case "platform.speed":
		return set(p.Speed.Value, 1e-6, 10000, 0.1)
	}
	return span{}, false
}
