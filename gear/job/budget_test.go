package job_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"ringtrack/gear/find"
	"ringtrack/gear/job"
)

// badBudget are lines below the least job about what may be off.
var badBudget = []bad{
	{"[mounting]\nbearing_play = -0.1", find.OutOfRange, "mounting.bearing_play", 6, "0 to 10 mm", "mounting.bearing_play = 0"},
	{"[mounting]\nring_runout = \"-0.2 mm\"", find.OutOfRange, "mounting.ring_runout", 6, "0 to 10 mm", "mounting.ring_runout = 0"},
	{"[mounting]\npinion_runout = nan", find.OutOfRange, "mounting.pinion_runout", 6, "finite", ""},
	{"[mounting]\ntilt = -1", find.OutOfRange, "mounting.tilt", 6, "0 to 15 deg", "mounting.tilt = 0"},
	{"[mounting]\ntilt = \"3 mm\"", find.WrongUnit, "mounting.tilt", 6, "deg", ""},
	{"[mounting]\njoint_step = 0.1", find.Contradicts, "mounting.joint_step", 6, "has no joints", "mounting.joint_step = 0"},
	{"[mounting]\ntemperature = 20", find.WrongUnit, "mounting.temperature", 6, "two numbers in brackets", ""},
	{"[mounting]\ntemperature = [15, 20, 30]", find.WrongUnit, "mounting.temperature", 6, "two numbers in brackets", ""},
	{"[mounting]\ntemperature = [30, 15]", find.Contradicts, "mounting.temperature", 6, "above", "mounting.temperature = [15, 30]"},
	{"[mounting]\ntemperature = [15, 900]", find.OutOfRange, "mounting.temperature", 6, "-60 to 150 degC", ""},
	{"[mounting]\ntemperature = [15, \"30 mm\"]", find.WrongUnit, "mounting.temperature", 6, "degC", ""},
	{"[mounting]\nbase = \"plywod\"", find.OutOfRange, "mounting.base", 6, `perhaps "plywood"`, `mounting.base = "plywood"`},
	{"[making]\nspread = -0.05", find.OutOfRange, "making.spread", 6, "0 to 2 mm", "making.spread = 0"},
	{"[making]\nkind = \"exact\"\nspread = 0.05", find.Contradicts, "making.spread", 7, "belongs to printed or cut parts", `making.kind = "printed"`},
	{"least_play = -0.1", find.OutOfRange, "teeth.least_play", 5, "0 to 50 mm", "teeth.least_play = 0"},
	{"least_play = 3", find.OutOfRange, "teeth.least_play", 5, "the module, 2.5 mm", "teeth.least_play = 2.5"},
	{"backlash = 0.2\nleast_play = 0.3", find.Contradicts, "teeth.least_play", 6, "contradicts itself", `teeth.backlash = "auto"`},
}

func TestBudgetKeysReachTheJob(t *testing.T) {
	j := mustRead(t, least+`backlash = "auto"
least_play = "60 um"
[making]
spread = 0.04
[making.ring]
spread = 0.07
[mounting]
bearing_play = 0.3
ring_runout = 0.15
ring_runout_at = 90
ring_ovality = 0.1
pinion_runout = 0.05
joint_step = 0
tilt = 0.2
temperature = ["50 degF", 40]
base = "steel"
`)
	assert.True(t, j.Teeth.BacklashAuto)
	assert.False(t, j.Teeth.Backlash.Given)
	assert.Equal(t, job.Setting{Value: 0.06, Given: true}, j.Teeth.LeastPlay)
	assert.Equal(t, 0.04, j.Pinion.Making.Spread)
	assert.Equal(t, 0.07, j.Ring.Making.Spread)
	assert.InDelta(t, 10, j.Mounting.Temperature[0], 1e-12)
	j.Mounting.Temperature[0] = 10
	assert.Equal(t, job.Play{
		Bearing: 0.3, RingRunout: 0.15, RunoutAt: job.Setting{Value: math.Pi / 2, Given: true}, RingOvality: 0.1, PinionRunout: 0.05, Tilt: 0.2 * math.Pi / 180,
		Temperature: [2]float64{10, 40}, Base: "steel",
	}, j.Mounting.Play)
}

// Run-out and tilt of the pinion follow from bore and hub; exact parts have no
// spread of their own.
func TestShaftDefaults(t *testing.T) {
	bore := "[pinion.bore]\nshape = \"round\"\ndiameter = 6\n"
	for _, tt := range []struct {
		name, text string
		runout     float64
		tilt       float64 // degrees
	}{
		{"no bore", "", 0, 0},
		{"printed", bore, 0.1, 0.48}, // atan(0.1/12) = 0.477
		{"with a hub", bore + "[pinion.hub]\ndiameter = 20\nlength = 18\n", 0.1, 0.20}, // atan(0.1/30) = 0.191
		{"blind", bore + "depth = 6\n", 0.1, 0.96},                                     // atan(0.1/6) = 0.955
		{"tight", bore + "clearance = -0.05\n", 0, 0},
		{"exact", bore + "[making]\nkind = \"exact\"\n", 0, 0},
	} {
		p := mustRead(t, least+tt.text).Mounting.Play
		assert.InDelta(t, tt.runout, p.PinionRunout, 1e-15, tt.name)
		assert.InDelta(t, tt.tilt*math.Pi/180, p.Tilt, 1e-12, tt.name)
	}
	exact := mustRead(t, least+"[making]\nkind = \"exact\"\n")
	assert.Equal(t, job.Play{Temperature: [2]float64{15, 30}, Base: "plywood"}, exact.Mounting.Play)
	assert.Zero(t, exact.Ring.Making.Spread)
}
