package drive

import (
	"math"

	"ringtrack/gear/job"
	"ringtrack/gear/load"
	"ringtrack/gear/machine"
	"ringtrack/gear/part"
	"ringtrack/gear/stock"
)

// Load is what the motor does to the teeth and what comes of it at the platform.
type Load struct {
	Machine     *machine.Drive   // nil without a platform
	Supply      float64          // V, that counts; 0 for a stepper
	Points      []machine.Point  // one for each supply
	Speed       float64          // rad/s of the platform: as wanted, or what the motor comes to
	Run         *machine.RunUp   // nil for a stepper, or when it does not start
	Stop        machine.Stop     // from Speed
	Chain       []machine.Link   // play and wind-up seen at the platform
	Rim         float64          // mm, radius at which Chain counts
	Card        machine.Card     // what the controller is told
	Lowest      float64          // rad/s of the platform: below it sticks and jumps; 0: not known
	Tipping     *machine.Tipping // nil without a bearing's size
	Working     machine.Shaft    // on the motor's shaft
	Stalled     machine.Shaft
	Cases       []load.Case
	Temperature float64        // degC, the warmest
	Face        float64        // mm over which the teeth meet
	Analysis    *load.Analysis // nil where a member's material is not known
	Pinion      stock.Mechanics
	Ring        stock.Mechanics
	SlackGiven  bool // the gearbox's slack was measured
}

// Cautions are those of every design, or, with a motor, those of driven ones.
func (d *Design) Cautions() []string {
	if d.Load == nil {
		return Cautions()
	}
	return append(machine.Cautions(), "Printed and cut plastics creep, split and soften with heat.")
}

// load works out motor, platform and what the teeth bear, and eases flexible
// teeth. s holds the mesh of the pair.
func (d *Design) load(s solved) {
	if m := d.Job.Motor; m != nil {
		l := &Load{Temperature: d.Job.Mounting.Temperature[1], Face: math.Min(d.Job.Pinion.FaceWidth, d.Job.Ring.FaceWidth), SlackGiven: m.GearboxSlack.Given}
		d.Load = l
		if p := d.Job.Platform; p != nil {
			l.Machine = d.machine(m, p)
		}
		d.loadTeeth(s)
	}
	d.ease()
	if l := d.Load; l != nil && l.Machine != nil {
		b := d.Pair.Backlash
		if b.Circumferential > 0 {
			l.Machine.Backlash = b.AngleRing * (1 - d.Pair.GivenBack()/b.Circumferential)
		}
		d.runMachine(s)
	}
}

// motor turns the job's motor into the machine's.
func motor(m *job.Motor) machine.Motor {
	out := machine.Motor{
		Kind: machine.Kind(m.Kind), Rated: m.RatedVoltage, NoLoad: machine.FromRPM(m.NoLoadSpeed), Stall: m.StallTorque,
		Steps: m.Steps, Microsteps: m.Microsteps, GearboxLimit: m.GearboxLimit, Slack: slack(m), Radial: m.RadialLoad,
		Gearbox: machine.Fraction{Over: m.GearboxOver, Under: m.GearboxUnder},
	}
	for _, p := range m.Curve {
		out.Curve = append(out.Curve, machine.Pull{Speed: machine.FromRPM(p.Speed), Torque: p.Torque})
	}
	if turns, ok := out.Gearbox.Rat(); ok {
		g, _ := turns.Float64()
		out.Inertia = m.RotorInertia * g * g
	}
	return out
}

// usualSlack is the slack of a small gearbox that nobody has measured, radians:
// common practice.
const usualSlack = 3 * math.Pi / 180

// slack returns the gearbox's slack: as measured, else the usual one where there
// is a gearbox. A small dc motor that turns a platform has one.
func slack(m *job.Motor) float64 {
	switch {
	case m.GearboxSlack.Given:
		return m.GearboxSlack.Value
	case m.Kind == "dc" || m.GearboxOver > 0:
		return usualSlack
	}
	return 0
}

// machine joins motor, pair and platform; teeth and stiffness come later.
func (d *Design) machine(m *job.Motor, p *job.Platform) *machine.Drive {
	out := &machine.Drive{
		Motor: motor(m), Pinion: d.Pair.Pinion.Teeth, Ring: d.Pair.Ring.Teeth,
		PinionBase: d.Pair.Pinion.BaseDiameter / 2, Working: d.Pair.WorkingPressureAngle, Backlash: d.Pair.Backlash.AngleRing,
		Platform: machine.Platform{
			Mass: p.Mass, Diameter: p.Diameter.Value, Inertia: p.Inertia.Value, Height: p.LoadHeight, Offset: p.LoadOffset,
			OffLevel: p.OffLevel, Race: p.BearingDiameter.Value / 2,
		},
	}
	if !p.Diameter.Given {
		out.Platform.Diameter = d.Ring.Outer
	}
	out.Platform.Friction = d.friction(p, out.Platform)
	return out
}

// movingPart is how much of the pull that starts a platform keeps it turning:
// common practice.
const movingPart = 2.0 / 3

// friction returns the bearing's friction from what the job says of it: given,
// pulled, coasted, or guessed.
func (d *Design) friction(p *job.Platform, body machine.Platform) machine.Friction {
	var f machine.Friction
	if p.Friction.Given {
		return machine.Friction{Start: p.Friction.Value / movingPart, Moving: p.Friction.Value, Source: givenHere}
	}
	if p.CoastTime.Given {
		f, _ = machine.CoastTest(body.MomentOfInertia(), machine.FromRPM(p.CoastSpeed.Value), p.CoastTime.Value)
	}
	if p.Pull.Given {
		moving, radius := p.Pull.Value*movingPart, body.Diameter/2
		if p.PullMoving.Given {
			moving = p.PullMoving.Value
		}
		if p.PullRadius.Given {
			radius = p.PullRadius.Value
		}
		pulled := machine.PullTest(p.Pull.Value, moving, radius)
		if p.CoastTime.Given && !p.PullMoving.Given {
			pulled.Moving, pulled.Source = f.Moving, "pull test and time to coast down"
		}
		pulled.Start = math.Max(pulled.Start, pulled.Moving)
		return pulled
	}
	if p.CoastTime.Given {
		return f
	}
	race := body.Race
	if race == 0 {
		race = d.Pair.Ring.ReferenceDiameter / 2
	}
	return machine.Rolling(body.Weight(), race)
}

// runMachine answers at every supply and settles what follows from it.
func (d *Design) runMachine(s solved) {
	l, m := d.Load, d.Load.Machine
	l.Supply = d.Job.Motor.Supply[0]
	l.Points = m.Table(d.Job.Motor.Supply...)
	at := l.Points[0]
	l.Speed = d.platformSpeed(at)
	if m.Motor.Kind == machine.DC && !s.brief {
		if r, err := m.RunUp(l.Supply, 0); err == nil {
			l.Run = &r
		}
	}
	l.Stop = m.StopFrom(l.Speed)
	l.Rim = m.Platform.Diameter / 2
	l.Chain = m.Chain(m.Platform.Friction.Moving + m.Platform.Hill())
	l.Card, _ = m.Card(l.Speed, at.Usable, d.Job.Motor.Counts)
	l.Lowest = m.LowestSpeed()
	l.Working, l.Stalled = m.ShaftLoad(at.Uphill), m.ShaftLoad(at.Stall)
	if m.Platform.Race > 0 {
		t := m.Platform.Tipping()
		l.Tipping = &t
	}
	d.checkMachine(at)
}

// platformSpeed returns the speed at which the platform will run, rad/s: the
// wanted one if the motor reaches it.
func (d *Design) platformSpeed(at machine.Point) float64 {
	if p := d.Job.Platform; p.Speed.Given {
		return math.Min(machine.FromRPM(p.Speed.Value), at.Speed)
	}
	return at.Speed
}

// loadTeeth rates the teeth where both materials are known.
func (d *Design) loadTeeth(s solved) {
	l, j := d.Load, d.Job
	var ok1, ok2 bool
	l.Pinion, ok1 = MechanicsOf(j.Pinion)
	l.Ring, ok2 = MechanicsOf(j.Ring)
	if !ok1 || !ok2 {
		l.Cases = d.cases(0)
		return
	}
	t := load.Task{
		Pair: d.Pair, Face: l.Face, Temperature: l.Temperature, Rim: d.rim(),
		Pinion: load.Part{Material: l.Pinion, Print: printOf(j.Pinion)}, Ring: load.Part{Material: l.Ring, Print: printOf(j.Ring)},
		Hub: d.hub(), Brief: s.brief,
	}
	t.Mesh, _ = s.mesh()
	t.Cases = d.cases(d.stiffness(t))
	l.Cases = t.Cases
	a, err := load.Analyse(t)
	if err != nil {
		d.noLoad(err)
		return
	}
	l.Analysis = a
	d.Findings = append(d.Findings, perKey(a.Findings)...)
	if m := l.Machine; m != nil {
		m.ToothTorque = bears(a)
		if a.Holding != nil {
			m.HubSlack = a.Holding.Slack
		}
	}
}

// bears returns the torque, N mm on the pinion, that the teeth bear for long.
func bears(a *load.Analysis) float64 {
	for _, r := range a.Ratings {
		if r.Case == a.Working {
			return r.Case.Torque * math.Min(r.Pinion.Safety/r.Pinion.Needed, r.Wheel.Safety/r.Wheel.Needed)
		}
	}
	return 0
}

// stiffness gives the machine the stiffness of teeth and shaft and returns the
// torque on the pinion of a dead stop from the platform's speed, N mm; 0 without
// a platform or where nothing is known.
func (d *Design) stiffness(t load.Task) float64 {
	m := d.Load.Machine
	if m == nil || t.Mesh == nil {
		return 0
	}
	at := m.At(d.Job.Motor.Supply[0])
	wind, err := t.WindUp(at.Uphill)
	if err != nil {
		return 0
	}
	shaft := machine.ShaftStiffness(d.Job.Motor.Shaft, d.Job.Motor.ShaftLength) * m.Ratio() * m.Ratio()
	m.Stiffness = machine.Series(wind.Rate, shaft)
	return m.StopFrom(d.platformSpeed(at)).Peak
}

// safeStall is the part of the stall torque that stands for the working torque
// where no platform says more: what a gearmotor may be asked for at length.
const safeStall = 0.25

// cases lists the loads on the pinion; stop is the torque of a dead stop in N mm.
func (d *Design) cases(stop float64) []load.Case {
	m := d.Load.Machine
	mo := motor(d.Job.Motor)
	stall := mo.StallAt(d.Job.Motor.Supply[0])
	if m == nil {
		return []load.Case{{Name: load.Working, Torque: safeStall * stall}, {Name: load.Stall, Torque: stall, Rare: true}}
	}
	out := []load.Case{{Name: load.Working, Torque: m.At(d.Job.Motor.Supply[0]).Uphill}, {Name: load.Stall, Torque: stall, Rare: true}}
	if stop > 0 {
		out = append(out, load.Case{Name: load.DeadStop, Torque: stop, Rare: true, Bound: true})
	}
	return append(out, load.Case{Name: load.Hand, Torque: m.HandTorque(machine.UsualHand), Rare: true})
}

// rim returns the ring's body between two of its screws.
func (d *Design) rim() load.Rim {
	h := d.Ring.Holes
	if h == nil {
		return load.Rim{}
	}
	return load.Rim{Thickness: (d.Ring.Outer - d.Pair.Ring.RootDiameter) / 2, Free: math.Pi * h.Circle / float64(h.Count)}
}

// hub returns the pinion's bore on its shaft; nil without a bore, or for shapes
// of shafts that nobody has figures for.
func (d *Design) hub() *load.Hub {
	b, j := d.Pinion.Bore, d.Job.Pinion
	if b == nil || b.Shape != "d" && b.Shape != "round" {
		return nil
	}
	h := &load.Hub{
		Bore: *b, Length: boreLength(j, b), TipRadius: d.Pair.Pinion.TipDiameter / 2, Face: j.FaceWidth,
		Material: d.Load.Pinion, Print: printOf(j), Temperature: d.Load.Temperature,
	}
	if len(j.SetScrews) > 0 && j.SetScrews[0].Seat != "plain" {
		if s, ok := load.FindScrewHold(j.SetScrews[0].Size); ok {
			h.Screw, h.Nut = &s, true // in plastic, nut, insert and thread alike give way first
		}
	}
	return h
}

// boreLength returns how much of the shaft lies in the bore, mm.
func boreLength(j job.Member, b *part.Bore) float64 {
	long := j.FaceWidth
	if j.Hub != nil {
		long += j.Hub.Length
	}
	if j.Flange != nil {
		long += j.Flange.Thickness
	}
	if b.Depth > 0 {
		long = math.Min(long, b.Depth)
	}
	return long
}
