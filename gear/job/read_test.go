package job_test

import (
	"math"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ringtrack/gear/find"
	"ringtrack/gear/job"
)

// least is a job with nothing but what is required.
const least = "[teeth]\nmodule = 2.5\npinion = 15\nring = 104\n"

// mustRead reads a job that has no findings.
func mustRead(t *testing.T, text string) *job.Job {
	t.Helper()
	j, found := job.Read("carousel.toml", []byte(text))
	require.Empty(t, found)
	require.NotNil(t, j)
	return j
}

func TestLeastJobTakesItsDefaults(t *testing.T) {
	j := mustRead(t, least)
	printed := job.Making{
		Kind: "printed", LineWidth: 0.45, Layer: 0.2, Growth: 0.08, HoleShrink: 0.15, Edge: 0.4, Foot: 0.15, Spread: 0.05, Infill: 0.2, Walls: 3, Bed: [3]float64{220, 220, 250},
	}
	assert.Equal(t, "carousel", j.Name)
	assert.Equal(t, "carousel", j.Title)
	assert.Equal(t, 1, j.Format)
	assert.Equal(t, job.Teeth{
		Module: 2.5, PressureAngle: 20 * math.Pi / 180, Pinion: 15, Ring: 104, BacklashShare: 0.5, Rack: 'A', LeastTip: 0.45,
	}, j.Teeth)
	assert.Equal(t, job.Member{Make: true, FaceWidth: 12, Making: printed}, j.Pinion)
	assert.Equal(t, job.Member{Make: true, FaceWidth: 10, Making: printed}, j.Ring)
	assert.Equal(t, job.Mounting{CentreDistanceSpread: 0.1, Play: job.Play{
		Bearing: 0.5, RingRunout: 0.2, Temperature: [2]float64{15, 30}, Base: "plywood",
	}}, j.Mounting)
	assert.Equal(t, job.Output{Tolerance: 0.005, Formats: []string{"stl", "dxf", "svg", "png"}, Paper: plainPaper}, j.Output)
}

func TestNameIsTheFilesBase(t *testing.T) {
	for _, tt := range []struct{ file, want string }{
		{"/tmp/a b/tray.toml", "tray"}, {"tray", "tray"}, {"tray.v2.toml", "tray.v2"},
	} {
		j, _ := job.Read(tt.file, []byte(least))
		assert.Equal(t, tt.want, j.Name)
	}
}

func TestEveryKeyReachesTheJob(t *testing.T) {
	j := mustRead(t, `
format = 1
title = "Tray"
[teeth]
diametral_pitch = 10
pressure_angle = "0.4363323129985824 rad"
pinion = 0x10
ring = 1_20
pinion_shift = 0.16
ring_shift = -0.1
centre_distance = "5.2 in"
backlash = "300 um"
backlash_share = 0
rack = "D"
addendum = 0.9
dedendum = 1.2
root_radius = 0.3
least_tip = "0.5 mm"
[pinion]
make = false
face_width = "1.2cm"
material = "PLA"
tip_diameter = 45
addendum = 0.8
[pinion.bore]
shape = "d"
diameter = 6
across_flat = 5.5
clearance = 0.2
flat_angle = 90
[pinion.bolts]
count = 4
circle = 20
hole = 3.2
angle = "45 deg"
[ring]
tip_diameter = 250
outer_diameter = 300
root_radius = 0
[ring.bolts]
count = 8
screw = "m4"
[making]
kind = "printed"
line_width = 0.4
layer = 0.1
growth = -0.02
hole_shrink = 0
shrinkage = "0.5%"
bed = ["30 cm", 300, 350]
edge = "600 um"
foot = 0.2
spread = 0.03
[making.ring]
kind = "cut"
kerf = 0.2
[mounting]
centre_distance_spread = 0
[output]
tolerance = "1 um"
formats = ["svg", "stl"]
`)
	set := func(v float64) job.Setting { return job.Setting{Value: v, Given: true} }
	assert.Equal(t, "Tray", j.Title)
	teeth := j.Teeth
	assert.InDelta(t, 132.08, teeth.CentreDistance.Value, 1e-13)
	teeth.CentreDistance = set(132.08)
	assert.InDelta(t, 25*math.Pi/180, teeth.PressureAngle, 1e-15)
	teeth.PressureAngle = 0
	assert.Equal(t, job.Teeth{
		Module: 2.54, Pinion: 16, Ring: 120, PinionShift: set(0.16), RingShift: set(-0.1), CentreDistance: set(132.08),
		Backlash: set(0.3), Rack: 'D', LeastTip: 0.5,
	}, teeth)
	bed := [3]float64{300, 300, 350}
	assert.Equal(t, job.Member{
		FaceWidth: 12, Material: "pla", TipDiameter: set(45), Addendum: set(0.8), Dedendum: set(1.2), RootRadius: set(0.3),
		Bore:  &job.Bore{Shape: "d", Diameter: 6, AcrossFlat: 5.5, Clearance: 0.2, FlatAngle: math.Pi / 2},
		Bolts: &job.Bolts{Count: 4, Circle: set(20), Side: "above", Drill: job.Drill{Hole: 3.2, Head: "none"}, Angle: math.Pi / 4},
		Making: job.Making{Kind: "printed", LineWidth: 0.4, Layer: 0.1, Growth: -0.02, Shrinkage: 0.005, Edge: 0.6, Foot: 0.2, Spread: 0.03, Infill: 0.2, Walls: 3, Bed: bed,
			Measured: job.Measured{Growth: true, HoleShrink: true, Shrinkage: true}},
	}, j.Pinion)
	assert.Equal(t, job.Member{
		Make: true, FaceWidth: 4 * 2.54, TipDiameter: set(250), OuterDiameter: set(300), Addendum: set(0.9), Dedendum: set(1.2), RootRadius: set(0),
		Bolts:  &job.Bolts{Count: 8, Side: "above", Drill: job.Drill{Screw: "M4", Hole: 4.5, Head: "none"}},
		Making: job.Making{Kind: "cut", Spread: 0.03, Kerf: 0.2, Bed: bed, Cutting: uncut, Measured: job.Measured{Kerf: true}},
	}, j.Ring)
	assert.Equal(t, 0.0, j.Mounting.CentreDistanceSpread)
	assert.Equal(t, job.Output{Tolerance: 0.001, Formats: []string{"svg", "stl"}, Paper: plainPaper}, j.Output)
}

func TestSpellingsOfToml(t *testing.T) {
	want := mustRead(t, least+"[pinion.bore]\nshape = \"round\"\ndiameter = 6\n")
	for name, text := range map[string]string{
		"byte-order mark": "\ufeff" + least + "[pinion.bore]\nshape = \"round\"\ndiameter = 6\n",
		"CRLF":            strings.ReplaceAll(least+"[pinion.bore]\nshape = \"round\"\ndiameter = 6\n", "\n", "\r\n"),
		"inline table":    least + "[pinion]\nbore = { shape = 'round', diameter = 6 }\n",
		"dotted":          "teeth.module = 2.5\nteeth.pinion = 15\nteeth.ring = 104\npinion.bore.shape = \"round\"\npinion.bore.diameter = 6",
		"quoted keys":     strings.ReplaceAll(least, "module", `"module"`) + "[pinion.'bore']\nshape = \"\"\"round\"\"\"\ndiameter = +6.0e0\n",
	} {
		got := mustRead(t, text)
		assert.Equal(t, want.Teeth, got.Teeth, name)
		assert.Equal(t, want.Pinion, got.Pinion, name)
	}
}

func TestLinesAndRawText(t *testing.T) {
	j := mustRead(t, "\ufeff# tray\r\n\r\n"+strings.ReplaceAll(least, "\n", "\r\n")+"[pinion]\r\nbore = { shape = 'round', diameter = '6 mm' } # shaft\r\n")
	for key, line := range map[string]int{
		"teeth.module": 4, "teeth.ring": 6, "pinion.bore.diameter": 8, "teeth.rack": 0, "nonsense": 0,
	} {
		assert.Equal(t, line, j.Line(key), key)
		assert.Equal(t, line > 0, j.Given(key), key)
	}
	assert.Equal(t, "'6 mm'", j.Raw("pinion.bore.diameter"))
	assert.Equal(t, "2.5", j.Raw("teeth.module"))
}

func TestMakingOfEachMember(t *testing.T) {
	for _, tt := range []struct {
		name, text   string
		pinion, ring job.Making
		spread, tip  float64
		clearance    float64
	}{
		{"both exact", "[making]\nkind = \"exact\"\n",
			job.Making{Kind: "exact"}, job.Making{Kind: "exact"}, 0, 0.5, 0},
		{"ring exact", "[making.ring]\nkind = \"exact\"\n",
			job.Making{Kind: "printed", LineWidth: 0.45, Layer: 0.2, Growth: 0.08, HoleShrink: 0.15, Edge: 0.4, Foot: 0.15, Spread: 0.05, Infill: 0.2, Walls: 3}, job.Making{Kind: "exact"}, 0.1, 0.45, 0.1},
		{"both cut", "[making]\nkind = \"cut\"\n[ring]\nface_width = 6\nmaterial = \"plywood\"\n",
			job.Making{Kind: "cut", Spread: 0.03, Kerf: 0.2, KerfSource: "common practice"},
			job.Making{Kind: "cut", Spread: 0.03, Kerf: 0.25, KerfSource: "middle of two cutting shops' published kerf tables"}, 0.1, 0.5, 0.05},
		{"the other kind's defaults", "[making]\nkind = \"cut\"\nkerf = 0.3\n[making.pinion]\nkind = \"printed\"\nline_width = 0.6\n",
			job.Making{Kind: "printed", LineWidth: 0.6, Layer: 0.2, Growth: 0.08, HoleShrink: 0.15, Edge: 0.4, Foot: 0.15, Spread: 0.05, Infill: 0.2, Walls: 3},
			job.Making{Kind: "cut", Spread: 0.03, Kerf: 0.3, Measured: job.Measured{Kerf: true}}, 0.1, 0.6, 0.1},
		{"only what the member gives", "[making]\ngrowth = 0.1\nhole_shrink = 0.2\n[making.ring]\ngrowth = 0\nline_width = 0.8\n[ring]\nmaterial = \"abs\"\n",
			job.Making{Kind: "printed", LineWidth: 0.45, Layer: 0.2, Growth: 0.1, HoleShrink: 0.2, Edge: 0.4, Foot: 0.15, Spread: 0.05, Infill: 0.2, Walls: 3, Measured: job.Measured{Growth: true, HoleShrink: true}},
			job.Making{Kind: "printed", LineWidth: 0.8, Layer: 0.2, Growth: 0, HoleShrink: 0.2, Shrinkage: 0.007, Edge: 0.4, Foot: 0.15, Spread: 0.05, Infill: 0.2, Walls: 3, Measured: job.Measured{Growth: true, HoleShrink: true},
				ShrinkageSource: "published filament shrinkage guides, as printed and cooled"}, 0.1, 0.8, 0.1},
		{"a key of [making] that only one member uses", "[making]\ngrowth = 0.1\n[making.ring]\nkind = \"cut\"\n",
			job.Making{Kind: "printed", LineWidth: 0.45, Layer: 0.2, Growth: 0.1, HoleShrink: 0.15, Edge: 0.4, Foot: 0.15, Spread: 0.05, Infill: 0.2, Walls: 3, Measured: job.Measured{Growth: true}},
			job.Making{Kind: "cut", Spread: 0.03, Kerf: 0.2, KerfSource: "common practice"}, 0.1, 0.45, 0.1},
	} {
		j := mustRead(t, least+"[pinion.bore]\nshape = \"round\"\ndiameter = 6\n"+tt.text)
		bed := [3]float64{220, 220, 250}
		tt.pinion.Bed, tt.ring.Bed = bed, bed
		for _, m := range []*job.Making{&tt.pinion, &tt.ring} {
			if m.Kind == "cut" {
				m.Cutting = uncut
			}
		}
		assert.Equal(t, tt.pinion, j.Pinion.Making, tt.name)
		assert.Equal(t, tt.ring, j.Ring.Making, tt.name)
		assert.Equal(t, tt.spread, j.Mounting.CentreDistanceSpread, tt.name)
		assert.Equal(t, tt.tip, j.Teeth.LeastTip, tt.name)
		assert.Equal(t, tt.clearance, j.Pinion.Bore.Clearance, tt.name)
	}
}

func TestFaceWidthDefaults(t *testing.T) {
	for _, tt := range []struct {
		module, ring string
		wantP, wantR float64
	}{
		{"1", "", 8, 6}, {"2.5", "", 12, 10}, {"2.5", "face_width = 5", 7, 5},
	} {
		j := mustRead(t, strings.Replace(least, "2.5", tt.module, 1)+"[ring]\n"+tt.ring)
		assert.Equal(t, tt.wantP, j.Pinion.FaceWidth)
		assert.Equal(t, tt.wantR, j.Ring.FaceWidth)
	}
}

func TestWith(t *testing.T) {
	j := mustRead(t, least+"[ring]\nouter_diameter = 300\n")
	k, found := j.With("teeth.pinion_shift", "0.16")
	require.Empty(t, found)
	assert.Equal(t, job.Setting{Value: 0.16, Given: true}, k.Teeth.PinionShift)
	assert.Equal(t, job.Setting{}, j.Teeth.PinionShift, "the first job stays as it was")
	assert.True(t, k.Given("teeth.pinion_shift"))
	assert.False(t, j.Given("teeth.pinion_shift"))
	assert.Equal(t, 0, k.Line("teeth.pinion_shift"))

	k, found = j.With("ring.outer_diameter", `"auto"`)
	require.Empty(t, found)
	assert.False(t, k.Ring.OuterDiameter.Given)
	assert.Equal(t, 6, k.Line("ring.outer_diameter"))

	for _, tt := range []struct {
		key, value string
		code       find.Code
		line       int
	}{
		{"teeth.module", "60", find.OutOfRange, 2},
		{"teeth.module", "2,5", find.WrongUnit, 2},
		{"teeth.module", "2 # x\n y = 3", find.NotReadable, 2},
		{"teeth.module", "", find.NotReadable, 2},
		{"teeth.ring", "12", find.Contradicts, 4},
		{"teeth.rink", "12", find.UnknownKey, 0},
		{"teeth.diametral_pitch", "10", find.Contradicts, 2},
		{"ring.segments", "4", find.NotYet, 0},
		{"ring", "{}", find.NotReadable, 0},
		{"pinion.bore", "{ shape = \"round\", diameter = 6 }", find.NotReadable, 0},
		{"making.kerf", "0.2", find.Contradicts, 0},
	} {
		k, found := j.With(tt.key, tt.value)
		assert.Nil(t, k, "%v", tt)
		require.NotEmpty(t, found, "%v", tt)
		assert.Equal(t, tt.code, found[0].Code, "%v %v", tt, found)
		assert.Equal(t, tt.line, found[0].Line, "%v %v", tt, found)
	}
}

func TestWithout(t *testing.T) {
	j := mustRead(t, least+"[pinion.bore]\nshape = \"round\"\ndiameter = 6\n[ring]\nouter_diameter = 300\n")
	k, found := j.Without("ring.outer_diameter")
	require.Empty(t, found)
	assert.False(t, k.Ring.OuterDiameter.Given)
	assert.True(t, j.Ring.OuterDiameter.Given)
	k, found = j.Without("pinion.bore")
	require.Empty(t, found)
	assert.Nil(t, k.Pinion.Bore)
	assert.NotNil(t, j.Pinion.Bore)
	k, found = j.Without("teeth.module")
	assert.Nil(t, k)
	require.Len(t, found, 1)
	assert.Equal(t, find.MissingKey, found[0].Code)
	k, found = j.Without("teeth.rack")
	require.Empty(t, found)
	assert.Equal(t, j.Teeth, k.Teeth)
}

func TestTableHoldsTheContract(t *testing.T) {
	data, err := os.ReadFile("testdata/keys.tsv")
	require.NoError(t, err)
	from := map[string]string{}
	for _, k := range job.Keys() {
		for _, p := range k.Paths() {
			from[p] = k.From
		}
		assert.NotEmpty(t, k.Meaning, k.Name)
		if job.Reads(k.From) {
			assert.NotEmpty(t, k.Allowed, k.Name)
			assert.NotEmpty(t, k.Default, k.Name)
			if !strings.Contains(k.Default, "required") && k.Name != "title" {
				assert.NotEmpty(t, k.Source, k.Name)
			}
		}
	}
	for _, row := range strings.Split(strings.TrimSpace(string(data)), "\n")[1:] {
		f := strings.Split(row, "\t")
		assert.Equal(t, f[1], from[f[0]], f[0])
	}
}
