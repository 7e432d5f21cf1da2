package report

import (
	"math"

	"ringtrack/gear"
	"ringtrack/gear/drive"
	"ringtrack/gear/load"
	"ringtrack/gear/machine"
	"ringtrack/gear/stock"
)

// loadReport is the section load: null without a motor. Torques are N mm, those
// on the pinion and the motor's output shaft unless a name says otherwise.
type loadReport struct {
	Verdict     string      `json:"verdict"`
	Supply      num         `json:"supply"`
	Temperature num         `json:"temperature"`
	FaceWidth   num         `json:"face_width"`
	Materials   *materials  `json:"materials"`
	Cases       []caseRow   `json:"cases"`
	Stiffness   *spread     `json:"stiffness"`
	Relief      *relief     `json:"relief"`
	Allowance   *allowance  `json:"allowance"`
	WindUp      *windUp     `json:"wind_up"`
	Skipping    *skipping   `json:"skipping"`
	Hub         *hub        `json:"hub"`
	Drive       *driveRows  `json:"drive"`
	Card        *controlRow `json:"control_card"`
}

type materials struct {
	Pinion material `json:"pinion"`
	Ring   material `json:"ring"`
}

type material struct {
	Name               string `json:"name"`
	Flexible           bool   `json:"flexible"`
	Modulus            figure `json:"modulus"`
	Strength           figure `json:"strength"`
	LayerStrength      figure `json:"layer_strength"`
	ToothRoot          figure `json:"tooth_root"`
	Poisson            figure `json:"poisson"`
	Expansion          figure `json:"expansion"`
	Moisture           figure `json:"moisture"`
	ServiceTemperature figure `json:"service_temperature"`
	Softening          figure `json:"softening"`
	Friction           figure `json:"friction"`
}

type figure struct {
	Least  num    `json:"least"`
	Usual  num    `json:"usual"`
	Most   num    `json:"most"`
	Source string `json:"source"`
}

type caseRow struct {
	Name         string    `json:"name"`
	Torque       num       `json:"torque"`
	Rare         bool      `json:"rare"`
	Bound        bool      `json:"bound"`
	Tangential   num       `json:"tangential_force"`
	Normal       num       `json:"normal_force"`
	Separating   num       `json:"separating_force"`
	Pressure     num       `json:"pressure"`
	Bending      num       `json:"bending"`
	BendingLimit num       `json:"bending_limit"`
	Pinion       *toothRow `json:"pinion"`
	Ring         *toothRow `json:"ring"`
}

type toothRow struct {
	Lewis    num    `json:"lewis"`
	Tangent  num    `json:"tangent"`
	Course   num    `json:"course"`
	Strength num    `json:"strength"`
	Safety   num    `json:"safety"`
	Needed   num    `json:"needed"`
	Source   string `json:"needed_source"`
}

type spread struct {
	Least    num `json:"least"`
	Mean     num `json:"mean"`
	Greatest num `json:"greatest"`
}

type relief struct {
	Entry         num  `json:"entry"`
	EntryLength   num  `json:"entry_length"`
	Leaving       num  `json:"leaving"`
	LeavingLength num  `json:"leaving_length"`
	Longest       num  `json:"longest"`
	Enough        bool `json:"enough"`
}

type allowance struct {
	Circumferential num `json:"circumferential"`
	Squeeze         num `json:"squeeze"`
	Drag            num `json:"drag"`
	Share           num `json:"share"`
}

type windUp struct {
	Angle  num `json:"angle"`
	Torque num `json:"platform_torque"`
	Rate   num `json:"torque_per_degree"`
}

type skipping struct {
	NotBelow num    `json:"not_below"`
	NotAbove num    `json:"not_above"`
	Note     string `json:"note"`
}

type hub struct {
	Long   num    `json:"holds_for_long"`
	Once   num    `json:"holds_once"`
	Screw  num    `json:"set_screw"`
	Slack  num    `json:"slack"`
	Wobble num    `json:"wobble"`
	Runout num    `json:"runout"`
	Source string `json:"source"`
}

type driveRows struct {
	Points      []pointRow `json:"points"`
	Speed       num        `json:"speed"`
	Friction    friction   `json:"friction"`
	Inertia     num        `json:"inertia"`
	RunUpTime   num        `json:"run_up_time"`
	RunUpTurn   num        `json:"run_up_turn"`
	Coast       num        `json:"coast"`
	CoastTime   num        `json:"coast_time"`
	Overshoot   num        `json:"overshoot"`
	DeadStop    num        `json:"dead_stop_torque"`
	LowestSpeed num        `json:"lowest_speed"`
	ShaftForce  num        `json:"shaft_force"`
	StallForce  num        `json:"shaft_force_at_stall"`
	Tipping     *tipRow    `json:"tipping"`
	Chain       []chainRow `json:"play"`
}

type friction struct {
	Start  num    `json:"start"`
	Moving num    `json:"moving"`
	Source string `json:"source"`
}

type tipRow struct {
	Lever num `json:"lever"`
	Press num `json:"press"`
	Push  num `json:"push"`
}

type chainRow struct {
	Name  string `json:"name"`
	Angle num    `json:"angle"`
	Rim   num    `json:"rim"`
}

type pointRow struct {
	Supply       num    `json:"supply"`
	Speed        num    `json:"speed"`
	Slowest      num    `json:"slowest"`
	NoLoad       num    `json:"no_load_speed"`
	MotorSpeed   num    `json:"motor_speed"`
	Torque       num    `json:"torque"`
	Uphill       num    `json:"uphill"`
	Start        num    `json:"start"`
	Stall        num    `json:"stall"`
	Usable       num    `json:"usable"`
	Limit        string `json:"limit"`
	TorqueMargin num    `json:"torque_margin"`
	StartMargin  num    `json:"start_margin"`
	SpeedMargin  num    `json:"speed_margin"`
	Starts       bool   `json:"starts"`
}

type controlRow struct {
	Fraction   string  `json:"fraction"`
	Turns      num     `json:"turns"`
	Gearbox    bool    `json:"gearbox_included"`
	Steps      *string `json:"steps"`
	StepsWhole *bool   `json:"steps_whole"`
	Repeat     *int64  `json:"whole_after_turns"`
	StepAngle  num     `json:"step_angle"`
	StepRim    num     `json:"step_rim"`
	StepRate   num     `json:"step_rate"`
	Speed      num     `json:"speed"`
	Ramp       num     `json:"ramp"`
	Overshoot  num     `json:"overshoot"`
	ToothPass  num     `json:"tooth_pass"`
}

// flexible is a member's section flexible: null where its teeth are drawn as
// designed.
type flexible struct {
	Thicker      num `json:"thicker"`
	TipRelief    num `json:"tip_relief"`
	ReliefLength num `json:"relief_length"`
	TipThickness num `json:"tip_thickness"`
}

func flexibleOf(x *gear.Flexible) *flexible {
	if x == nil {
		return nil
	}
	return &flexible{num(x.Thicker), num(x.Relief), num(x.Length), num(x.TipThickness)}
}

// positive returns a figure, null where it is not known or does not apply.
func positive(v float64) num {
	if !(v > 0) {
		return none
	}
	return num(v)
}

func speedOf(v float64) num { return num(machine.ToRPM(v)) }

// loadOf returns the section load.
func loadOf(d *drive.Design) *loadReport {
	l := d.Load
	if l == nil {
		return nil
	}
	out := &loadReport{Verdict: LoadVerdict(d), Supply: positive(l.Supply), Temperature: num(l.Temperature), FaceWidth: num(l.Face), Cases: []caseRow{}}
	if l.Machine != nil {
		out.Drive, out.Card = driveOf(l), cardOf(l)
	}
	a := l.Analysis
	if a == nil {
		for _, c := range l.Cases {
			out.Cases = append(out.Cases, caseRow{Name: c.Name, Torque: num(c.Torque), Rare: c.Rare, Bound: c.Bound,
				Tangential: none, Normal: none, Separating: none, Pressure: none, Bending: none, BendingLimit: none})
		}
		return out
	}
	out.Materials = &materials{materialOf(l.Pinion), materialOf(l.Ring)}
	for _, r := range a.Ratings {
		out.Cases = append(out.Cases, caseOf(r))
	}
	if a.Course != nil {
		k := a.Course.Stiffness
		out.Stiffness = &spread{num(k.Least), num(k.Mean), num(k.Greatest)}
		r := a.Relief
		out.Relief = &relief{num(r.Entry), num(r.EntryLength), num(r.Leaving), num(r.LeavingLength), num(r.Longest), r.Enough}
		q := a.Allowance
		out.Allowance = &allowance{num(q.Circumferential), num(q.Squeeze), num(q.Drag), num(q.Share)}
		w := a.WindUp
		out.WindUp = &windUp{deg(w.Teeth), num(w.Torque), num(w.Rate * math.Pi / 180)}
		out.Skipping = &skipping{num(a.Skipping.NotBelow), num(a.Skipping.NotAbove), load.SkippingNote}
	}
	if h := a.Holding; h != nil {
		out.Hub = &hub{num(h.Torque), num(h.Blow), num(h.Screw), deg(h.Slack), num(h.Wobble), num(h.Runout), h.Source}
	}
	return out
}

func materialOf(m stock.Mechanics) material {
	of := func(r stock.Range) figure { return figure{num(r.Least), num(r.Usual), num(r.Most), r.Source} }
	return material{m.Name, m.Flexible, of(m.Modulus), of(m.Strength), of(m.Layers), of(m.ToothRoot), of(m.Poisson), of(m.Expansion),
		of(m.Moisture), of(m.Service), of(m.Softening), of(m.Friction)}
}

func caseOf(r load.Rating) caseRow {
	tooth := func(t load.ToothRating) *toothRow {
		return &toothRow{num(t.Lewis), num(t.Tangent), num(t.Course), num(t.Strength), num(t.Safety), num(t.Needed), t.Why}
	}
	return caseRow{
		Name: r.Case.Name, Torque: num(r.Case.Torque), Rare: r.Case.Rare, Bound: r.Case.Bound,
		Tangential: num(r.Tangential), Normal: num(r.Normal), Separating: num(r.Separating),
		Pressure: num(r.Pressure), Bending: num(r.Bending), BendingLimit: num(r.Limit),
		Pinion: tooth(r.Pinion), Ring: tooth(r.Wheel),
	}
}

func driveOf(l *drive.Load) *driveRows {
	m := l.Machine
	f := m.Platform.Friction
	out := &driveRows{
		Points: []pointRow{}, Speed: speedOf(l.Speed), Friction: friction{num(f.Start), num(f.Moving), f.Source},
		Inertia: num(m.Platform.MomentOfInertia()), RunUpTime: none, RunUpTurn: none,
		Coast: deg(l.Stop.Coast), CoastTime: num(l.Stop.CoastTime), Overshoot: deg(l.Stop.Overshoot), DeadStop: positive(l.Stop.Peak),
		LowestSpeed: positive(machine.ToRPM(l.Lowest)), ShaftForce: num(l.Working.Force), StallForce: num(l.Stalled.Force), Chain: []chainRow{},
	}
	if l.Run != nil {
		out.RunUpTime, out.RunUpTurn = num(l.Run.Time), deg(l.Run.Turn)
	}
	if t := l.Tipping; t != nil {
		out.Tipping = &tipRow{num(t.Lever), num(t.Press), num(t.Push)}
	}
	for _, k := range l.Chain {
		out.Chain = append(out.Chain, chainRow{k.Name, deg(k.Angle), num(k.Rim)})
	}
	for _, p := range l.Points {
		out.Points = append(out.Points, pointRow{
			positive(p.Supply), speedOf(p.Speed), speedOf(p.Slowest), speedOf(p.NoLoad), speedOf(p.MotorSpeed), num(p.Torque), num(p.Uphill),
			num(p.Start), num(p.Stall), num(p.Usable), p.Limit, num(p.TorqueMargin), num(p.StartMargin), num(p.SpeedMargin), p.Starts,
		})
	}
	return out
}

func cardOf(l *drive.Load) *controlRow {
	c := l.Card
	out := &controlRow{
		Fraction: c.Fraction, Turns: num(c.Turns), Gearbox: c.GearboxSaid, Speed: speedOf(c.Speed), Ramp: positive(c.Ramp),
		Overshoot: deg(c.Overshoot), ToothPass: num(c.ToothPass), StepAngle: none, StepRim: none, StepRate: none,
	}
	if c.Steps != "" {
		out.Steps, out.StepsWhole, out.Repeat = &c.Steps, &c.StepsWhole, &c.Repeat
		out.StepAngle, out.StepRim, out.StepRate = deg(c.StepAngle), num(c.StepRim), num(c.StepRate)
	}
	return out
}
