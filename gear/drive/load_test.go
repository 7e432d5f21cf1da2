package drive_test

import (
	"context"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ringtrack/gear"
	"ringtrack/gear/drive"
	"ringtrack/gear/find"
	"ringtrack/gear/job"
	"ringtrack/gear/load"
	"ringtrack/gear/machine"
	"ringtrack/gear/part"
	"ringtrack/gear/plane"
	"ringtrack/gear/roll"
)

// driven is a light tray on a geared motor, everything measured.
const driven = `[teeth]
module = 2.5
pinion = 15
ring = 104
backlash = 0.6
[pinion]
material = "petg"
face_width = 22
[pinion.bore]
shape = "d"
diameter = 8
across_flat = 7
[ring]
material = "petg"
face_width = 20
[making]
bed = [310, 310, 300]
[mounting]
bearing_play = 0.1
[motor]
kind = "dc"
rated_voltage = 12
supply = 12
no_load_speed = 60
stall_torque = 500
gearbox_slack = 3
[platform]
mass = 6
diameter = 300
bearing_diameter = 200
bearing_friction = 400
`

func drivenJob(t *testing.T, changes ...string) *job.Job {
	t.Helper()
	text := driven
	for i := 0; i+1 < len(changes); i += 2 {
		require.Equal(t, 1, strings.Count(text, changes[i]), changes[i])
		text = strings.Replace(text, changes[i], changes[i+1], 1)
	}
	j, found := job.Read("x.toml", []byte(text))
	require.NotNil(t, j, "%v", found)
	return j
}

func TestLoadOfADrivenTray(t *testing.T) {
	d := drive.Resolve(drivenJob(t))
	l := d.Load
	require.NotNil(t, l)
	require.NotNil(t, l.Analysis)
	assert.False(t, d.Faulty(), "%v", d.Findings)
	at := l.Points[0]
	assert.InDelta(t, 400/(104.0/15)/machine.UsualEfficiency, at.Uphill, 1e-9)
	assert.InDelta(t, 60*(1-at.Torque/500)*15/104, machine.ToRPM(at.Speed), 1e-9)
	assert.Equal(t, at.Speed, l.Speed)
	var names []string
	for _, r := range l.Analysis.Ratings {
		names = append(names, r.Case.Name)
		assert.Positive(t, r.Pinion.Safety)
	}
	assert.Equal(t, []string{load.Working, load.Stall, load.DeadStop, load.Hand}, names)
	assert.InDelta(t, 100*150*15/104.0, l.Analysis.Ratings[3].Case.Torque, 1e-9)
	assert.InDelta(t, d.Pair.Backlash.AngleRing, l.Chain[2].Angle, 1e-12)
	assert.InDelta(t, 3*math.Pi/180*15/104, l.Chain[0].Angle, 1e-12)
	assert.Equal(t, "104/15", l.Card.Fraction)
	assert.Nil(t, d.Pair.Pinion.Flexible, "stiff teeth are drawn as designed")
	assert.Contains(t, strings.Join(d.Cautions(), " "), "ISO 13857")
	assert.NotContains(t, strings.Join(drive.Cautions(), " "), "ISO 13857")
}

// The same light platform at half the supply turns at about half the speed.
func TestHalfTheSupplyHalfTheSpeed(t *testing.T) {
	d := drive.Resolve(drivenJob(t, "supply = 12", "supply = [12, 6]", "bearing_friction = 400", "bearing_friction = 50"))
	p := d.Load.Points
	assert.InDelta(t, 0.5, p[1].Speed/p[0].Speed, 0.03)
}

// Friction comes from what the workshop measured.
func TestFrictionFromTests(t *testing.T) {
	friction := func(lines string) machine.Friction {
		return drive.Resolve(drivenJob(t, "bearing_friction = 400\n", lines)).Load.Machine.Platform.Friction
	}
	f := friction("pull = 3\n")
	assert.InDelta(t, 450, f.Start, 1e-9)
	assert.InDelta(t, 300, f.Moving, 1e-9)
	f = friction("pull = 3\npull_moving = 1\npull_radius = 100\n")
	assert.InDelta(t, 300, f.Start, 1e-9)
	assert.InDelta(t, 100, f.Moving, 1e-9)
	f = friction("coast_time = 2\ncoast_speed = 30\n")
	assert.InDelta(t, 6*300*300/8*math.Pi/2*1e-3, f.Moving, 1e-9)
	f = friction("pull = 3\ncoast_time = 2\ncoast_speed = 30\n")
	assert.InDelta(t, 450, f.Start, 1e-9)
	assert.InDelta(t, 6*300*300/8*math.Pi/2*1e-3, f.Moving, 1e-9)
	d := drive.Resolve(drivenJob(t, "bearing_friction = 400\n", ""))
	assert.True(t, hasCode(d, find.Guessed, "platform.pull"))
}

func hasCode(d *drive.Design, code find.Code, about string) bool {
	for _, f := range d.Findings {
		if f.Code == code && f.About == about {
			return true
		}
	}
	return false
}

// Figures that the job gives stand in place of the table's.
func TestFiguresInPlaceOfTheTable(t *testing.T) {
	j := drivenJob(t, "[making]", "[material.pinion]\nstrength = 24\nhardness = \"85A\"\nfriction = 0.1\n[making]")
	m, ok := drive.MechanicsOf(j.Pinion)
	require.True(t, ok)
	assert.Equal(t, 24.0, m.Strength.Least)
	assert.InDelta(t, 7, m.ToothRoot.Usual, 1e-9, "it falls with the strength")
	assert.True(t, m.Flexible)
	assert.Less(t, m.Modulus.Usual, 60.0)
	assert.Equal(t, 0.1, m.Friction.Usual)
	r, _ := drive.MechanicsOf(j.Ring)
	assert.Equal(t, 48.0, r.Strength.Usual)
	_, ok = drive.MechanicsOf(job.Member{})
	assert.False(t, ok)
}

// A soft pinion is drawn thicker and with its tips taken back; the ledger's rows
// sum up to what the drawn loops measure, and what would be made rolls with as
// much less backlash as was given back.
func TestFlexibleStep(t *testing.T) {
	for _, lines := range []string{"", "\n[ring]\ntip_relief = 0.05\n", "tip_relief = 0.06\n"} {
		change := []string{`"petg"
face_width = 22`, `"tpu-95a"
face_width = 22
` + lines}
		if strings.Contains(lines, "[ring]") {
			change = []string{`"petg"
face_width = 22`, `"tpu-95a"
face_width = 22`, "face_width = 20", "face_width = 20\ntip_relief = 0.05"}
		}
		flexible(t, drivenJob(t, change...))
	}
	flexible(t, drivenJob(t, "backlash = 0.6", "backlash = 0.6\nflexible_allowance = 0.1"))
}

func flexible(t *testing.T, j *job.Job) {
	t.Helper()
	d := drive.Resolve(j)
	require.False(t, d.Faulty(), "%v", d.Findings)
	require.NotNil(t, d.Pair.Pinion.Flexible)
	given := d.Pair.Pinion.Flexible.Thicker + d.Pair.Ring.Flexible.Thicker
	assert.Positive(t, given)
	sum := map[string]float64{}
	for _, r := range d.Ledger {
		if r.Step != "drawn" {
			sum[r.Part] += r.Thickness
			continue
		}
		assert.InDelta(t, r.Thickness, sum[r.Part], 1e-9, r.Part)
	}
	pinion, ring := made(t, &d.Pinion), made(t, &d.Ring)
	res, err := roll.Roll(context.Background(), roll.Pair{Pinion: pinion, Ring: ring, CentreDistance: d.Pair.CentreDistance},
		roll.Options{PinionTeeth: 15, RingTeeth: 104, BaseRing: d.Pair.Ring.BaseDiameter / 2})
	require.NoError(t, err)
	require.Nil(t, res.Binding)
	back := given * math.Cos(d.Pair.Pinion.PressureAngle) / math.Cos(d.Pair.WorkingPressureAngle)
	assert.InDelta(t, back, d.Pair.GivenBack(), 1e-12)
	assert.InDelta(t, d.Pair.Backlash.Circumferential-back, res.Backlash.Least.Arc, 1e-6)
	assert.Less(t, res.Forward.Error.Action, 1e-6)
}

func made(t *testing.T, m *drive.Member) plane.Loop {
	t.Helper()
	c, ok := m.Body.Contour(part.TeethContour)
	require.True(t, ok)
	l, err := m.Making.Made(c.Drawn, gear.Teeth)
	require.NoError(t, err)
	return l
}

// What is wrong with motor, platform and teeth under load, and every cure of it
// applied.
func TestLoadFindings(t *testing.T) {
	for _, tt := range []struct {
		code    find.Code
		about   string
		level   find.Level
		cures   bool
		changes []string
	}{
		{find.WillNotStart, "motor.stall_torque", find.Fault, true, []string{"stall_torque = 500", "stall_torque = 60"}},
		{find.GearboxOverload, "motor.gearbox_limit", find.Fault, true, []string{"stall_torque = 500", "stall_torque = 500\ngearbox_limit = 50"}},
		{find.GearboxOverload, "motor.gearbox_limit", find.Caution, true, []string{"stall_torque = 500", "stall_torque = 500\ngearbox_limit = 400"}},
		{find.LittleTorque, "motor.stall_torque", find.Caution, true, []string{"stall_torque = 500", "stall_torque = 170"}},
		{find.OffSpeed, "platform.speed", find.Caution, true, []string{"bearing_friction = 400", "bearing_friction = 400\nspeed = 12"}},
		{find.OffSpeed, "motor.supply", find.Note, true, []string{"bearing_friction = 400", "bearing_friction = 80\nspeed = 4"}},
		{find.NarrowFace, "pinion.face_width", find.Fault, true, []string{"\"petg\"\nface_width = 22", "\"tpu-95a\"\nface_width = 2", "bearing_friction = 400", "bearing_friction = 2000", "stall_torque = 500", "stall_torque = 2000"}},
		{find.ToothOverload, "pinion.material", find.Fault, true, []string{"\"petg\"\nface_width = 22", "\"petg\"\nface_width = 1"}},
		{find.TipsOver, "platform.load_offset", find.Fault, true, []string{"bearing_diameter = 200", "bearing_diameter = 200\nload_offset = 120"}},
		{find.TooWarm, "pinion.material", find.Caution, true, []string{"bearing_play = 0.1", "bearing_play = 0.1\ntemperature = [15, 62]"}},
		{find.HubSlips, "pinion.bore", find.Caution, false, []string{"across_flat = 7", "across_flat = 7.7"}},
		{find.ShaftOverload, "motor.radial_load", find.Note, true, []string{"stall_torque = 500", "stall_torque = 500\nradial_load = 10"}},
		{find.OutOfRange, "teeth.flexible_allowance", find.Fault, true, []string{"backlash = 0.6", "backlash = 0.6\nflexible_allowance = 0.7"}},
		{find.PointedTip, "pinion.tip_relief", find.Fault, true, []string{"face_width = 22", "face_width = 22\ntip_relief = 1"}},
		{find.StepsNotWhole, "motor.steps", find.Note, false, []string{"kind = \"dc\"\nrated_voltage = 12\nsupply = 12\nno_load_speed = 60\nstall_torque = 500", "kind = \"stepper\"\nsteps = 200\ncurve = [[0, 500], [100, 300]]"}},
		{find.Unmeasured, "motor.gearbox_slack", find.Note, true, []string{"gearbox_slack = 3\n", ""}},
		{find.OtherDrive, "platform.mass", find.Note, false, []string{"mass = 6", "mass = 150", "stall_torque = 500", "stall_torque = 5000", "bearing_friction = 400", "bearing_friction = 4000"}},
	} {
		t.Run(string(tt.code)+" "+tt.level.String(), func(t *testing.T) {
			d := drive.Check(drivenJob(t, tt.changes...))
			for _, f := range d.Findings {
				if f.Code != tt.code || f.About != tt.about {
					continue
				}
				assert.Equal(t, tt.level, f.Level, f.Text)
				assert.NotEmpty(t, f.Text)
				if tt.cures {
					assert.NotEmpty(t, f.Change, f.Text)
				}
				for _, c := range f.Change {
					if f.Code != find.Unmeasured {
						assert.NoError(t, removes(c, f, d))
					}
				}
				return
			}
			t.Errorf("not found: %v", d.Findings)
		})
	}
}

// A motor without a platform, materials without a name: what can be said is said.
func TestLoadWithGaps(t *testing.T) {
	i := strings.Index(driven, "[platform]")
	j, found := job.Read("x.toml", []byte(driven[:i]))
	require.NotNil(t, j, "%v", found)
	d := drive.Resolve(j)
	require.NotNil(t, d.Load.Analysis)
	assert.Nil(t, d.Load.Machine)
	assert.InDelta(t, 125, d.Load.Analysis.Working.Torque, 1e-9)

	d = drive.Resolve(drivenJob(t, "material = \"petg\"\nface_width = 22", "face_width = 22"))
	assert.Nil(t, d.Load.Analysis)
	require.NotNil(t, d.Load.Machine)
	assert.Zero(t, d.Load.Machine.Stiffness)
	assert.Zero(t, d.Load.Machine.ToothTorque)
}

// A given density, expansion and growth by moisture count, too.
func TestOtherFiguresInPlaceOfTheTable(t *testing.T) {
	before := drive.Resolve(drivenJob(t))
	after := drive.Resolve(drivenJob(t, "[making]", "[material.ring]\ndensity = 2540\nexpansion = 0.0005\nmoisture = 2\n[making]"))
	assert.InDelta(t, 2*before.Ring.Mass, after.Ring.Mass, 1e-6*before.Ring.Mass)
	assert.Equal(t, before.Pinion.Mass, after.Pinion.Mass)
	require.NotNil(t, before.Budget)
	require.NotNil(t, after.Budget)
	assert.NotEqual(t, before.Budget.Causes, after.Budget.Causes)
}
