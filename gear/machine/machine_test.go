package machine_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"ringtrack/gear/find"
	"ringtrack/gear/machine"
)

const degree = math.Pi / 180

// gearmotor is one of the 37 mm class: 50:1, 200 rpm and 21 kgf cm at 12 V, not to
// be loaded with more than 10 kgf cm (a maker's published figures).
func gearmotor() machine.Motor {
	return machine.Motor{
		Kind: machine.DC, Rated: 12, NoLoad: machine.FromRPM(200), Stall: 2060, GearboxLimit: 981,
		Slack: 3 * degree, Radial: 80,
	}
}

func light() machine.Drive {
	return machine.Drive{
		Motor:    gearmotor(),
		Platform: machine.Platform{Mass: 2, Diameter: 400, Height: 60, Race: 75, Friction: machine.Friction{Start: 30, Moving: 20}},
		Pinion:   13, Ring: 104, PinionBase: 15.27, Working: 20 * degree, Stiffness: 500_000, Backlash: 0.0028, HubSlack: 0.03,
	}
}

func heavy() machine.Drive {
	d := light()
	d.Platform = machine.Platform{Mass: 40, Diameter: 1000, Height: 300, Offset: 30, OffLevel: 1 * degree, Race: 150,
		Friction: machine.Rolling(40*9.80665, 150)}
	return d
}

// Chapman, Electric Machinery Fundamentals, example 9-1 (from memory): a 250 V
// shunt motor, 0.06 ohm, 1200 r/min without load. At armature currents of 95,
// 195 and 295 A: 1173, 1144 and 1115 r/min, 190, 388 and 587 N m.
func TestTextbookMotor(t *testing.T) {
	noLoad := machine.FromRPM(1200)
	k := 250 / noLoad // V s
	m := machine.Motor{Kind: machine.DC, Rated: 250, NoLoad: noLoad, Stall: k * 250 / 0.06 * 1000}
	require.NoError(t, m.Check())
	for _, r := range []struct{ torque, rpm float64 }{{190, 1173}, {388, 1144}, {587, 1115}} {
		assert.InDelta(t, r.rpm, machine.ToRPM(m.SpeedAt(r.torque*1000, 250)), 0.7, "%v", r)
		assert.InEpsilon(t, r.torque*1000, m.TorqueAt(m.SpeedAt(r.torque*1000, 250), 250), 1e-9)
	}
}

// A gearmotor maker's published advice: 2500 rpm at 24 V are 1250 rpm at 12 V, and
// the stall torque halves too. Most power comes at half of both.
func TestHalfTheVoltage(t *testing.T) {
	m := machine.Motor{Kind: machine.DC, Rated: 24, NoLoad: machine.FromRPM(2500), Stall: 100}
	assert.InDelta(t, 1250, machine.ToRPM(m.NoLoadAt(12)), 1e-9)
	assert.InDelta(t, 50, m.StallAt(12), 1e-9)
	w := m.NoLoadAt(24) / 2
	assert.InDelta(t, m.Best(24), w*m.TorqueAt(w, 24)/1000, 1e-9)
}

// Common practice: a ratio of 8 makes 200 rpm into 25 rpm, and a light platform
// at half the supply turns at about half the speed.
func TestRatioAndHalfSpeed(t *testing.T) {
	d := light()
	require.NoError(t, d.Check())
	assert.Equal(t, 8.0, d.Ratio())
	full := d.At(12)
	assert.InDelta(t, 25, machine.ToRPM(full.NoLoad), 1e-9)
	assert.InDelta(t, 25, machine.ToRPM(full.Speed), 0.1)
	table := d.Table(6, 9, 12)
	require.Len(t, table, 3)
	assert.InDelta(t, 0.5, table[0].Speed/table[2].Speed, 0.01)
	assert.True(t, table[0].Speed < table[1].Speed && table[1].Speed < table[2].Speed)
	assert.Equal(t, "a quarter of the stall torque", full.Limit)
	assert.True(t, full.Starts)
}

func TestRunUpKeepsItsEnergy(t *testing.T) {
	for _, d := range []machine.Drive{light(), heavy()} {
		for _, cap := range []float64{0, 400} {
			r, err := d.RunUp(12, cap)
			require.NoError(t, err)
			assert.InEpsilon(t, r.Work, r.Kinetic+r.Rubbed+r.Lost, 1e-6)
			i := d.Platform.MomentOfInertia()
			assert.InEpsilon(t, i*r.Speed*r.Speed/2/1000, r.Kinetic, 1e-9)
			assert.InEpsilon(t, 0.95*r.Final, r.Speed, 0.01)
			if cap == 0 {
				// Without a limit the speed rises as 1 - exp(-t/T).
				assert.InEpsilon(t, -math.Log(0.05)*r.Constant, r.Time, 0.01)
			} else {
				assert.LessOrEqual(t, r.Peak, cap)
			}
		}
	}
	d := light()
	d.Motor = stepper()
	_, err := d.RunUp(12, 0)
	assert.Error(t, err)
}

func TestLeastRamp(t *testing.T) {
	d := light()
	seconds, ok := d.LeastRamp(2, 300)
	require.True(t, ok)
	// Redone by hand: 2 kg, 400 mm: 40000 kg mm2; 300 * 8 * 0.9 - 30 = 2130 N mm.
	assert.InEpsilon(t, 40000*2/1000.0/2130, seconds, 1e-12)
	_, ok = d.LeastRamp(2, 4)
	assert.False(t, ok, "less than friction")
}

func TestStops(t *testing.T) {
	d := light()
	s := d.StopFrom(2)
	energy := 40000 * 4 / 2.0 / 1000
	assert.InEpsilon(t, energy, s.Coast*20, 1e-12, "friction eats what is there")
	assert.InEpsilon(t, 40000*2/1000.0/20, s.CoastTime, 1e-12)
	// A spring takes the same energy: T^2/(2k).
	peak := s.Peak * d.Ratio()
	assert.InEpsilon(t, energy, peak*peak/(2*d.Stiffness), 1e-12)
	assert.Greater(t, d.StopFrom(4).Peak, 1.99*s.Peak)
	assert.Less(t, s.Overshoot, s.Coast)
	free := d
	free.Platform.Friction = machine.Friction{}
	assert.False(t, math.IsInf(free.StopFrom(2).Coast, 0))
	assert.InEpsilon(t, 100*200/8.0, d.HandTorque(100), 1e-12)
}

func TestFrictionTests(t *testing.T) {
	assert.Equal(t, machine.Friction{Start: 600, Moving: 400, Source: "pull test"}, machine.PullTest(3, 2, 200))
	d := light()
	f, err := machine.CoastTest(40000, 2, 4)
	require.NoError(t, err)
	assert.InEpsilon(t, 20, f.Moving, 1e-12)
	d.Platform.Friction = f
	assert.InEpsilon(t, 4, d.StopFrom(2).CoastTime, 1e-12, "the test is found again")
	_, err = machine.CoastTest(40000, 2, 0)
	assert.Error(t, err)
}

// The gearbox's slack is usually the larger one: at a ratio of 6 and 300 mm, 3
// degrees are about 2.6 mm at the rim; 0.3 mm of mesh slack about 0.8 mm there on
// a ring of 113 mm (common practice).
func TestSlackChain(t *testing.T) {
	d := light()
	d.Pinion, d.Ring, d.Platform.Diameter, d.Backlash = 15, 90, 600, 0.3/112.5
	sum := map[string]machine.Link{}
	for _, l := range d.Chain(1000) {
		sum[l.Name] = l
	}
	assert.InDelta(t, 2.6, sum["gearbox"].Rim, 0.03)
	assert.InDelta(t, 0.8, sum["mesh"].Rim, 0.01)
	assert.InEpsilon(t, 1000/500_000.0, sum["wind-up"].Angle, 1e-12)
	assert.InEpsilon(t, 0.03/6, sum["hub"].Angle, 1e-12)
}

func TestTipping(t *testing.T) {
	p := machine.Platform{Mass: 10, Diameter: 600, Height: 200, Offset: 40, OffLevel: 2 * degree, Race: 100}
	k := p.Tipping()
	assert.InDelta(t, 100-40-200*math.Tan(2*degree), k.Lever, 1e-12)
	assert.InEpsilon(t, p.Weight()*k.Lever, k.Press*200, 1e-12)
	assert.InEpsilon(t, p.Weight()*k.Lever, k.Push*200, 1e-12)
	p.Offset = 120
	assert.Negative(t, p.Tipping().Lever)
	assert.Zero(t, p.Tipping().Press)
}

func stepper() machine.Motor {
	return machine.Motor{
		Kind: machine.Stepper, Steps: 200, Microsteps: 16,
		Curve: []machine.Pull{{60, 100}, {0, 400}, {20, 350}, {40, 200}},
	}
}

func TestStepper(t *testing.T) {
	m := stepper()
	require.NoError(t, m.Check())
	assert.Equal(t, 400.0, m.StallAt(24))
	assert.Equal(t, 60.0, m.NoLoadAt(24))
	assert.InDelta(t, 275, m.TorqueAt(30, 24), 1e-9)
	assert.InDelta(t, 30, m.SpeedAt(275, 24), 1e-9)
	assert.Equal(t, 60.0, m.SpeedAt(50, 24))
	assert.Zero(t, m.SpeedAt(401, 24))
	assert.Zero(t, m.TorqueAt(61, 24))
	rapid.Check(t, func(t *rapid.T) {
		torque := rapid.Float64Range(100, 400).Draw(t, "torque")
		if w := m.SpeedAt(torque, 24); math.Abs(m.TorqueAt(w, 24)-torque) > 1e-9 {
			t.Fatalf("%g N mm at %g rad/s", m.TorqueAt(w, 24), w)
		}
	})
	d := light()
	d.Motor = m
	p := d.At(24)
	assert.InDelta(t, m.SpeedAt(2*p.Torque, 24)/8, p.Speed, 1e-12)
}

func TestCard(t *testing.T) {
	d := light()
	d.Motor = stepper()
	d.Pinion, d.Ring = 15, 104
	c, err := d.Card(1, 100, 0)
	require.NoError(t, err)
	assert.Equal(t, "104/15", c.Fraction)
	assert.Equal(t, "66560/3", c.Steps)
	assert.False(t, c.StepsWhole)
	assert.Equal(t, int64(3), c.Repeat)
	assert.False(t, c.GearboxSaid)
	assert.InEpsilon(t, 104/(2*math.Pi), c.ToothPass, 1e-12)
	assert.InEpsilon(t, 66560.0/3/(2*math.Pi), c.StepRate, 1e-12)
	assert.InEpsilon(t, 2*math.Pi*200/(66560.0/3), c.StepRim, 1e-12)
	// A gearbox whose name is 50:1 and whose teeth say 50.5.
	d.Motor.Gearbox = machine.Fraction{Over: 1212, Under: 24}
	c, err = d.Card(1, 100, 64)
	require.NoError(t, err)
	assert.Equal(t, "5252/15", c.Fraction)
	assert.True(t, c.GearboxSaid)
	assert.Equal(t, "336128/15", c.Steps)
	d.Motor.Gearbox = machine.Fraction{Over: 5}
	_, err = d.Card(1, 100, 0)
	assert.Error(t, err)
	d = light()
	c, err = d.Card(1, 100, 0)
	require.NoError(t, err)
	assert.Empty(t, c.Steps, "a dc motor has no steps")
}

func TestSeries(t *testing.T) {
	assert.InEpsilon(t, 2.0, machine.Series(3, 6), 1e-12)
	assert.Equal(t, 5.0, machine.Series(5, 0))
	assert.Zero(t, machine.Series(0, 0))
	// By hand: a 6 mm shaft 20 mm long.
	assert.InEpsilon(t, 80000*math.Pi*1296/640, machine.ShaftStiffness(6, 20), 1e-12)
	assert.Zero(t, machine.ShaftStiffness(6, 0))
}

func TestCautionsAreThere(t *testing.T) {
	list := machine.Cautions()
	assert.GreaterOrEqual(t, len(list), 5)
	list[0] = ""
	assert.NotEmpty(t, machine.Cautions()[0], "a copy")
}

func TestShaftLoad(t *testing.T) {
	d := light()
	s := d.ShaftLoad(300)
	assert.InEpsilon(t, 300/15.27, s.Force, 1e-12)
	assert.InEpsilon(t, s.Force*s.Force, s.Tangential*s.Tangential+s.Separating*s.Separating, 1e-12)
}

func codes(list []find.Finding) map[find.Code]find.Level {
	out := map[find.Code]find.Level{}
	for _, f := range list {
		out[f.Code] = f.Level
	}
	return out
}

func TestFindings(t *testing.T) {
	for _, tt := range []struct {
		name  string
		edit  func(*machine.Drive)
		code  find.Code
		level find.Level
	}{
		{"will not start", func(d *machine.Drive) { d.Motor.Stall = 4 }, find.WillNotStart, find.Fault},
		{"starts barely", func(d *machine.Drive) { d.Motor.Stall = 6 }, find.LittleTorque, find.Caution},
		{"stall over the gearbox", func(d *machine.Drive) {}, find.GearboxOverload, find.Caution},
		{"running over the gearbox", func(d *machine.Drive) { d.Motor.GearboxLimit = 2 }, find.GearboxOverload, find.Fault},
		{"shaft", func(d *machine.Drive) { d.Motor.Radial = 0.1 }, find.ShaftOverload, find.Caution},
		{"tips", func(d *machine.Drive) { d.Platform.Offset = 90 }, find.TipsOver, find.Fault},
		{"hand tips", func(d *machine.Drive) {}, find.TipsOver, find.Caution},
		{"sticks", func(d *machine.Drive) { d.Stiffness = 2; d.Platform.Friction.Start = 200; d.Motor.NoLoad = 0.1 }, find.StickSlip, find.Caution},
		{"steps", func(d *machine.Drive) { d.Motor = stepper(); d.Pinion = 15 }, find.StepsNotWhole, find.Note},
		{"heavy", func(d *machine.Drive) { d.Platform.Mass = 300 }, find.OtherDrive, find.Note},
		{"light", func(d *machine.Drive) { d.Platform.Friction = machine.Friction{Start: 10, Moving: 8} }, find.OtherDrive, find.Note},
	} {
		d := light()
		tt.edit(&d)
		list, err := d.Findings(12, 0)
		require.NoError(t, err, tt.name)
		level, ok := codes(list)[tt.code]
		assert.True(t, ok && level == tt.level, "%s: %v", tt.name, list)
		for _, f := range list {
			assert.False(t, math.IsNaN(*f.Found) || math.IsInf(*f.Found, 0), "%v", f)
		}
	}
}

func TestBadInput(t *testing.T) {
	for _, edit := range []func(*machine.Drive){
		func(d *machine.Drive) { d.Motor.Kind = "steam" },
		func(d *machine.Drive) { d.Motor.Stall = 0 },
		func(d *machine.Drive) { d.Motor.Rated = math.NaN() },
		func(d *machine.Drive) { d.Motor.NoLoad = math.Inf(1) },
		func(d *machine.Drive) { d.Motor.Slack = -1 },
		func(d *machine.Drive) { d.Motor = machine.Motor{Kind: machine.Stepper, Steps: 200} }, // no curve
		func(d *machine.Drive) { d.Motor = stepper(); d.Motor.Steps = 0 },
		func(d *machine.Drive) { d.Motor = stepper(); d.Motor.Curve[0].Torque = -1 },
		func(d *machine.Drive) { d.Platform.Mass = 0 },
		func(d *machine.Drive) { d.Platform.Diameter = 0 },
		func(d *machine.Drive) { d.Platform.Friction.Start = -1 },
		func(d *machine.Drive) { d.Pinion = 0 },
		func(d *machine.Drive) { d.Efficiency = 1.2 },
		func(d *machine.Drive) { d.Stiffness = math.NaN() },
	} {
		d := light()
		edit(&d)
		_, err := d.Findings(12, 0)
		var bad *machine.InputError
		assert.ErrorAs(t, err, &bad, "%+v", d)
	}
	_, err := light().Findings(0, 0)
	assert.Error(t, err, "no supply")
	_, err = light().Findings(math.NaN(), 0)
	assert.Error(t, err)
	weak := light()
	weak.Motor.Stall = 3
	_, err = weak.RunUp(12, 0)
	assert.Error(t, err)
}

func BenchmarkDrive(b *testing.B) {
	d := heavy()
	for b.Loop() {
		if _, err := d.Findings(12, 0); err != nil {
			b.Fatal(err)
		}
		d.Table(6, 9, 12)
		if _, err := d.RunUp(12, 0); err != nil {
			b.Fatal(err)
		}
	}
}
