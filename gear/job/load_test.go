package job_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ringtrack/gear/find"
	"ringtrack/gear/job"
)

const dcMotor = `[motor]
kind = "dc"
rated_voltage = 12
no_load_speed = 60
stall_torque = "20 kgf cm"
`

const tray = `[platform]
mass = 8
diameter = 500
`

func TestMotorAndPlatformReachTheJob(t *testing.T) {
	j := mustRead(t, least+"[pinion.bore]\nshape = \"round\"\ndiameter = 6\n"+dcMotor+`supply = [12, "9 V"]
gearbox = "36/12 x 34/14*30"
gearbox_limit = "1 N m"
gearbox_slack = 2
radial_load = 30
rotor_inertia = "20 g cm2"
counts = 44
`+tray+`off_level = 1
pull = "0.3 kgf"
coast_time = 4
coast_speed = 10
speed = 5
`)
	m, p := j.Motor, j.Platform
	assert.Equal(t, []float64{12, 9}, m.Supply)
	assert.InDelta(t, 1961.33, m.StallTorque, 1e-9)
	assert.Equal(t, [2]int64{1530, 7}, [2]int64{m.GearboxOver, m.GearboxUnder})
	assert.InDelta(t, 2*math.Pi/180, m.GearboxSlack.Value, 1e-15)
	assert.Equal(t, []float64{1000, 30, 6, 20, 2}, []float64{m.GearboxLimit, m.RadialLoad, m.Shaft, m.ShaftLength, m.RotorInertia})
	assert.Equal(t, 44, m.Counts)
	assert.Equal(t, job.Setting{Value: 500, Given: true}, p.Diameter)
	assert.InDelta(t, 2.941995, p.Pull.Value, 1e-9)
	assert.InDelta(t, math.Pi/180, p.OffLevel, 1e-15)
	assert.False(t, p.Inertia.Given)

	j = mustRead(t, least+"[motor]\nkind = \"stepper\"\nsteps = 200\nmicrosteps = 16\ncurve = [[0, 400], [\"300 rpm\", \"0.3 N m\"]]\n")
	assert.Equal(t, []job.PullOut{{Speed: 0, Torque: 400}, {Speed: 300, Torque: 300}}, j.Motor.Curve)
	assert.Nil(t, j.Platform)

	j = mustRead(t, least+dcMotor)
	assert.Equal(t, []float64{12}, j.Motor.Supply)
	assert.Zero(t, j.Motor.Shaft)
}

func TestFiguresOfEachMaterial(t *testing.T) {
	j := mustRead(t, least+"[pinion]\nmaterial = \"tpu-95a\"\ntip_relief = 0.1\n[ring]\nmaterial = \"pla\"\n"+
		"[material]\nmodulus = \"2 GPa\"\nfriction = 0.3\n[material.pinion]\nmodulus = 80\nmoisture = 1\n[making.pinion]\ninfill = 40\nupright = true\n")
	assert.Equal(t, job.Setting{Value: 80, Given: true}, j.Pinion.Figures.Modulus)
	assert.Equal(t, job.Setting{Value: 2000, Given: true}, j.Ring.Figures.Modulus)
	assert.Equal(t, 0.3, j.Pinion.Figures.Friction.Value)
	assert.Equal(t, 0.01, j.Pinion.Figures.Moisture.Value)
	assert.Equal(t, job.Setting{Value: 0.1, Given: true}, j.Pinion.TipRelief)
	assert.Equal(t, 0.4, j.Pinion.Making.Infill)
	assert.True(t, j.Pinion.Making.Upright)
	assert.Equal(t, 0.2, j.Ring.Making.Infill)
	j = mustRead(t, least+"[pinion]\nmaterial = \"tpu-95a\"\n[material.pinion]\nhardness = \"shore 85 a\"\n")
	assert.Equal(t, 85.0, j.Pinion.Figures.Hardness.Value)
	assert.Equal(t, byte('A'), j.Pinion.Figures.Scale)
}

func TestBadMotorsPlatformsAndMaterials(t *testing.T) {
	for _, tt := range []struct {
		text  string
		code  find.Code
		about string
		says  string
	}{
		{"[motor]\nrated_voltage = 12", find.MissingKey, "motor.kind", "kind of motor"},
		{"[motor]\nkind = \"ac\"", find.OutOfRange, "motor.kind", "dc or stepper"},
		{"[motor]\nkind = \"stepper\"\nsteps = 200", find.MissingKey, "motor.curve", "pull-out curve"},
		{dcMotor + "steps = 200", find.Contradicts, "motor.steps", "kind stepper"},
		{dcMotor + "supply = []", find.WrongUnit, "motor.supply", "up to 8"},
		{dcMotor + "supply = [12, 0]", find.OutOfRange, "motor.supply", "0.1 to 1000"},
		{dcMotor + "supply = \"12 A\"", find.WrongUnit, "motor.supply", "takes V"},
		{dcMotor + "gearbox = 4.5", find.WrongUnit, "motor.gearbox", "not exact"},
		{dcMotor + "gearbox = \"36/0\"", find.WrongUnit, "motor.gearbox", "no fraction"},
		{dcMotor + "gearbox = \"1/30\"", find.OutOfRange, "motor.gearbox", "at least once"},
		{dcMotor + "gearbox = \"999983/2 x 999979/3 x 999961/5\"", find.OutOfRange, "motor.gearbox", "too large"},
		{"[motor]\nkind = \"stepper\"\nsteps = 200\ncurve = [[0, 400]]", find.WrongUnit, "motor.curve", "points"},
		{"[motor]\nkind = \"stepper\"\nsteps = 200\ncurve = [[0, 400], [0, 300]]", find.Contradicts, "motor.curve", "must rise"},
		{"[motor]\nkind = \"stepper\"\nsteps = 200\ncurve = [[0, 400], [1, 2, 3]]", find.WrongUnit, "motor.curve", "points"},
		{"[motor]\nkind = \"stepper\"\nsteps = 200\ncurve = [[0, 400], [100, \"2 kg\"]]", find.WrongUnit, "motor.curve", "kg"},
		{"[motor]\nkind = \"stepper\"\nsteps = 200\ncurve = [[0, 0], [100, 0]]", find.OutOfRange, "motor.curve", "turns nothing"},
		{"[pinion.bore]\nshape = \"round\"\ndiameter = 6\n" + dcMotor + "shaft = 5", find.Contradicts, "motor.shaft", "6 mm"},
		{"[platform]\nmass = 3\ndiameter = 300", find.MissingKey, "motor.kind", "no [motor]"},
		{dcMotor + "[platform]\nmass = 3", find.MissingKey, "platform.diameter", "size is missing"},
		{dcMotor + "[platform]\ndiameter = 300", find.MissingKey, "platform.mass", "mass"},
		{dcMotor + tray + "bearing_friction = 100\npull = 2", find.Contradicts, "platform.pull", "once more"},
		{dcMotor + tray + "coast_time = 3", find.MissingKey, "platform.coast_speed", "needs both"},
		{dcMotor + tray + "pull = 2\npull_moving = 3", find.Contradicts, "platform.pull_moving", "exchanged"},
		{"[pinion]\nmaterial = \"tpu95a\"", find.OutOfRange, "pinion.material", "tpu-95a"},
		{"[pinion]\nmaterial = \"pla\"\n[material.pinion]\nmodulus = 0", find.OutOfRange, "material.pinion.modulus", "0.1 to 500000"},
		{"[material.pinion]\nmodulus = 20", find.MissingKey, "pinion.material", "which material"},
		{"[pinion]\nmaterial = \"tpu-95a\"\n[material.pinion]\nmodulus = 20\nhardness = \"85A\"", find.Contradicts, "material.pinion.hardness", "leave one out"},
		{"[pinion]\nmaterial = \"tpu-95a\"\n[material.pinion]\nhardness = \"85C\"", find.WrongUnit, "material.pinion.hardness", "40D"},
		{"[pinion]\nmaterial = \"tpu-95a\"\n[material.pinion]\nhardness = \"99A\"", find.OutOfRange, "material.pinion.hardness", "98A"},
		{"[making]\nkind = \"cut\"\ninfill = 30", find.Contradicts, "making.infill", "printed"},
	} {
		j, found := job.Read("x.toml", []byte(least+tt.text+"\n"))
		assert.Nil(t, j, tt.text)
		require.NotEmpty(t, found, tt.text)
		hit := false
		for _, f := range found {
			if f.Code == tt.code && f.About == tt.about {
				hit = true
				assert.Contains(t, f.Text, tt.says, tt.text)
			}
		}
		assert.True(t, hit, "%s\n%v", tt.text, found)
	}
}
