package job_test

import (
	"fmt"
	"math"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ringtrack/gear/find"
	"ringtrack/gear/job"
	"ringtrack/gear/stock"
)

const (
	dBore = "[pinion.bore]\nshape = \"d\"\ndiameter = 6\nacross_flat = 5.5\n"      // 4 lines: 5 to 8
	hub   = "[pinion.hub]\ndiameter = 20\nlength = 10\n"                           // 3 lines
	plate = "[pinion.bore]\nshape = \"coupling\"\ndiameter = 8\n[pinion.coupling]" // 4 lines: 5 to 8
)

var badFixings = []bad{
	// Bores.
	{"[pinion.bore]\nshape = \"double-d\"\ndiameter = 6", find.MissingKey, "pinion.bore.across_flat", 0, "across_flat", ""},
	{"[pinion.bore]\nshape = \"double-d\"\ndiameter = 6\nacross_flat = 6", find.Contradicts, "pinion.bore.across_flat", 8, "less than the diameter", ""},
	{"[pinion.bore]\nshape = \"hexagon\"", find.MissingKey, "pinion.bore.across_flat", 0, "across_flat", ""},
	{"[pinion.bore]\nshape = \"hexagon\"\nacross_flat = 6\ndiameter = 6", find.Contradicts, "pinion.bore.diameter", 8, "across its flats", ""},
	{"[pinion.bore]\nshape = \"hexagn\"\nacross_flat = 6", find.OutOfRange, "pinion.bore.shape", 6, "perhaps", `pinion.bore.shape = "hexagon"`},
	{"[pinion.bore]\nshape = \"keyed\"", find.MissingKey, "pinion.bore.diameter", 0, "diameter", ""},
	{"[pinion.bore]\nshape = \"keyed\"\ndiameter = 10\nacross_flat = 9", find.Contradicts, "pinion.bore.across_flat", 8, "a key and no flat", ""},
	{"[pinion.bore]\nshape = \"keyed\"\ndiameter = 10\nkey_width = 7\nkey_height = 7", find.MissingKey, "pinion.bore.key_depth", 0, "no such key", ""},
	{"[pinion.bore]\nshape = \"keyed\"\ndiameter = 5\nkey_height = 2\nkey_depth = 1", find.MissingKey, "pinion.bore.key_width", 0, "more than 6 to 50 mm", ""},
	{"[pinion.bore]\nshape = \"keyed\"\ndiameter = 7\nkey_width = 8", find.Contradicts, "pinion.bore.key_width", 8, "narrower than the shaft", ""},
	{"[pinion.bore]\nshape = \"keyed\"\ndiameter = 7\nkey_depth = 3.5", find.Contradicts, "pinion.bore.key_depth", 8, "half of the shaft", ""},
	{"[pinion.bore]\nshape = \"keyed\"\ndiameter = 7\nkey_depth = 2", find.Contradicts, "pinion.bore.key_depth", 8, "stand out", ""},
	{"[pinion.bore]\nshape = \"keyed\"\ndiameter = 8\nkey_width = 6\nkey_height = 2\nkey_depth = 0.5", find.Contradicts, "pinion.bore.key_width", 8, "not so much width", ""},
	{"[pinion.bore]\nshape = \"round\"\ndiameter = 10\nkey_width = 3", find.Contradicts, "pinion.bore.key_width", 8, "only a keyed shaft", ""},
	{dBore + "depth = 0", find.OutOfRange, "pinion.bore.depth", 9, "0.2 to 2000 mm", "pinion.bore.depth = 0.2"},

	// Couplings.
	{"[pinion.bore]\nshape = \"coupling\"\ndiameter = 8", find.MissingKey, "pinion.coupling.count", 0, "[pinion.coupling]", ""},
	{plate + "\ncount = 4\ncircle = 16", find.MissingKey, "pinion.coupling.screw", 0, "screw (or hole)", ""},
	{plate + "\ncount = 4\nscrew = \"M3\"", find.MissingKey, "pinion.coupling.circle", 0, "circle", ""},
	{plate + "\ncount = 1\ncircle = 16\nscrew = \"M3\"", find.OutOfRange, "pinion.coupling.count", 9, "2 to 24", "pinion.coupling.count = 2"},
	{plate + "\ncount = 4\ncircle = 16\nscrew = \"M3\"\nhead = \"slot\"", find.OutOfRange, "pinion.coupling.head", 12, "none, countersunk or counterbored", ""},
	{plate + "\ncount = 4\ncircle = 16\nscrew = \"M3\"\nrecess_count = 1\nrecess_depth = 3", find.MissingKey, "pinion.coupling.recess_diameter", 0, "recess_diameter", ""},
	{plate + "\ncount = 4\ncircle = 16\nscrew = \"M3\"\nrecess_depth = 3", find.Contradicts, "pinion.coupling.recess_depth", 12, "no recesses", "pinion.coupling.recess_count = 1"},
	{dBore + "[pinion.coupling]\ncount = 4\ncircle = 16\nscrew = \"M3\"", find.Contradicts, "pinion.coupling", 9, "shape = \"coupling\"", `pinion.bore.shape = "coupling"`},
	{plate + "\ncount = 4\ncircle = 16\nscrew = \"M3\"\n" + hub + "[[pinion.set_screw]]\nsize = \"M3\"", find.Contradicts, "pinion.set_screw[0]", 15, "of its own", ""},

	// Hub, set screws, flange, step.
	{"[pinion.hub]\nlength = 8", find.MissingKey, "pinion.hub.diameter", 0, "diameter under [pinion.hub]", ""},
	{"[pinion.hub]\ndiameter = 8", find.MissingKey, "pinion.hub.length", 0, "length under [pinion.hub]", ""},
	{hub + "side = \"top\"", find.OutOfRange, "pinion.hub.side", 8, "above or below", ""},
	{hub + "foot_shape = \"filet\"", find.OutOfRange, "pinion.hub.foot_shape", 8, "fillet", `pinion.hub.foot_shape = "fillet"`},
	{dBore + hub + "[[pinion.set_screw]]\nseat = \"tapped\"", find.MissingKey, "pinion.set_screw[0].size", 0, "size under [[pinion.set_screw]]", ""},
	{dBore + hub + "[[pinion.set_screw]]\nsize = \"M3\"\n[[pinion.set_screw]]\nsize = \"M9\"", find.OutOfRange, "pinion.set_screw[1].size", 15, "known are M2", `pinion.set_screw[1].size = "M2"`},
	{dBore + hub + "[[pinion.set_screw]]\nsize = \"M8\"\nseat = \"insert\"", find.Contradicts, "pinion.set_screw[0].seat", 14, "there is none for M8", `pinion.set_screw[0].seat = "hex-nut"`},
	{dBore + hub + "[[pinion.set_screw]]\nsize = \"#8\"\nseat = \"square-nut\"", find.Contradicts, "pinion.set_screw[0].seat", 14, "there is none for #8", `pinion.set_screw[0].seat = "hex-nut"`},
	{dBore + hub + "[[pinion.set_screw]]\nsize = \"M3\"\nsizes = 1", find.UnknownKey, "pinion.set_screw[0].sizes", 14, "in [[pinion.set_screw]]; perhaps size", ""},
	{dBore + hub + "[[pinion.set_screw]]\nsize = \"M3\"\nsize = \"M4\"", find.Contradicts, "pinion.set_screw[0].size", 14, "stands twice, first in line 13", ""},
	{dBore + hub + "[[pinion.set_screw]]\nsize = \"M3\"\nangle = 9,5", find.WrongUnit, "pinion.set_screw[0].angle", 14, "decimal comma", "pinion.set_screw[0].angle = 9.5"},
	{dBore + hub + "[pinion.set_screw]\nsize = \"M3\"", find.WrongUnit, "pinion.set_screw", 12, "double brackets, [[pinion.set_screw]]", ""},
	{dBore + hub + strings.Repeat("[[pinion.set_screw]]\nsize = \"M3\"\n", 9), find.OutOfRange, "pinion.set_screw[8]", 28, "more than 8 times", ""},
	{dBore + hub + "[pinion]\nset_screw = 3", find.WrongUnit, "pinion.set_screw", 13, "under [[pinion.set_screw]]", ""},
	{dBore + hub + "[pinion]\nset_screw = []", find.WrongUnit, "pinion.set_screw", 13, "under [[pinion.set_screw]]", ""},
	{dBore + hub + "[pinion]\nset_screw = [{ size = \"M3\" }, { size = \"M3\", seats = \"tapped\" }]", find.UnknownKey, "pinion.set_screw[1].seats", 13, "perhaps seat", ""},
	{dBore + "[[pinion.set_screw]]\nsize = \"M3\"", find.MissingKey, "pinion.set_screw[0].height", 0, "without a hub", ""},
	{hub + "[[pinion.set_screw]]\nsize = \"M3\"", find.Contradicts, "pinion.set_screw[0]", 8, "no bore", ""},
	{"[pinion.flange]\nthickness = 0", find.OutOfRange, "pinion.flange.thickness", 6, "0.2 to 100 mm", "pinion.flange.thickness = 0.2"},
	{"[ring.step]\nheight = 3", find.MissingKey, "ring.step.diameter", 0, "diameter under [ring.step]", ""},
	{"[ring]\nstand_off = -1", find.OutOfRange, "ring.stand_off", 6, "0 to 200 mm", "ring.stand_off = 0"},

	// Heads and slots.
	{"[ring.bolts]\ncount = 4\nhole = 3\nhead = \"countersunk\"", find.Contradicts, "ring.bolts.head", 8, "give screw instead of hole", `ring.bolts.head = "none"`},
	{"[ring.bolts]\ncount = 4\nscrew = \"M3\"\nhead = \"slot\"", find.MissingKey, "ring.bolts.slot_length", 0, "slot_length under [ring.bolts]", ""},
	{"[ring.bolts]\ncount = 4\nscrew = \"M3\"\nslot_length = 2", find.Contradicts, "ring.bolts.slot_length", 8, "the holes are round", `ring.bolts.head = "slot"`},
	{"[ring.bolts]\ncount = 4\nscrew = \"M3\"\nhead = \"pilot\"\nside = \"below\"", find.Contradicts, "ring.bolts.side", 9, "both faces are alike", ""},

	// Making.
	{"[making]\nkind = \"cut\"\nedge = 0.4", find.Contradicts, "making.edge", 7, "belongs to printed or exact parts", `making.kind = "printed"`},
	{"[making]\nkind = \"exact\"\nfoot = 0.1", find.Contradicts, "making.foot", 7, "belongs to printed parts", `making.kind = "printed"`},
	{hub + "[making.pinion]\nkind = \"cut\"", find.Contradicts, "pinion.hub", 5, "its faces stay flat", `making.pinion.kind = "printed"`},
	{"[pinion.flange]\n[making.pinion]\nkind = \"cut\"", find.Contradicts, "pinion.flange", 5, "its faces stay flat", `making.pinion.kind = "printed"`},
	{dBore + "depth = 5\n[making.pinion]\nkind = \"cut\"", find.Contradicts, "pinion.bore.depth", 9, "its faces stay flat", `making.pinion.kind = "printed"`},
	{"[ring.step]\ndiameter = 280\n[making.ring]\nkind = \"cut\"", find.Contradicts, "ring.step", 5, "the ring is cut", `making.ring.kind = "printed"`},
	{"[ring]\nstand_off = 3\n[making.ring]\nkind = \"cut\"", find.Contradicts, "ring.stand_off", 6, "the ring is cut", `making.ring.kind = "printed"`},
	{"[ring.bolts]\ncount = 4\nscrew = \"M3\"\nhead = \"counterbored\"\n[making.ring]\nkind = \"cut\"", find.Contradicts, "ring.bolts.head", 8, "the ring is cut", `making.ring.kind = "printed"`},
}

func TestEveryFixingReachesTheJob(t *testing.T) {
	j := mustRead(t, least+`
[pinion]
set_screw = [{ size = "m4", angle = 90, height = "0.5 in", seat = "square-nut", length = 6 }, { size = "#10" }]
[pinion.bore]
shape = "double-d"
diameter = 8
across_flat = 7
flat_angle = 180
depth = 15
[pinion.hub]
diameter = 22
length = 12
side = "below"
foot = 1
foot_shape = "chamfer"
[pinion.flange]
[pinion.bolts]
count = 3
circle = 24
screw = "M3"
head = "countersunk"
side = "below"
[ring]
stand_off = "2 mm"
[ring.step]
diameter = 279.4
height = 3
side = "above"
fits = "rim"
clearance = 0.2
[ring.bolts]
count = 6
screw = "M4"
head = "slot"
slot_length = 3
[making.ring]
kind = "exact"
edge = 0.3
`)
	set := func(v float64) job.Setting { return job.Setting{Value: v, Given: true} }
	assert.Equal(t, &job.Bore{Shape: "double-d", Diameter: 8, AcrossFlat: 7, Clearance: 0.1, FlatAngle: math.Pi, Depth: 15}, j.Pinion.Bore)
	assert.Equal(t, &job.Hub{Diameter: 22, Length: 12, Side: "below", Foot: 1, FootShape: "chamfer"}, j.Pinion.Hub)
	assert.Equal(t, []job.SetScrew{
		{Size: "M4", Angle: math.Pi / 2, Height: set(12.7), Seat: "square-nut", Length: set(6)},
		{Size: "#10", Seat: "hex-nut"},
	}, j.Pinion.SetScrews)
	assert.Equal(t, &job.Flange{Thickness: 2, Side: "above"}, j.Pinion.Flange, "opposite the hub")
	assert.Equal(t, &job.Bolts{Count: 3, Circle: set(24), Side: "below",
		Drill: job.Drill{Screw: "M3", Hole: 3.4, Head: "countersunk", HeadDiameter: 6.72, HeadAngle: math.Pi / 2}}, j.Pinion.Bolts)
	assert.Equal(t, 2.0, j.Ring.StandOff)
	assert.Equal(t, &job.Step{Diameter: 279.4, Clearance: 0.2, Height: 3, Side: "above", Fits: "rim"}, j.Ring.Step)
	assert.Equal(t, &job.Bolts{Count: 6, Side: "above", SlotLength: 3, Drill: job.Drill{Screw: "M4", Hole: 4.5, Head: "slot"}}, j.Ring.Bolts)
	assert.Equal(t, 0.3, j.Ring.Making.Edge)
	assert.Equal(t, 0.4, j.Pinion.Making.Edge)
	assert.Equal(t, 0.15, j.Pinion.Making.Foot)
	assert.Zero(t, j.Ring.Making.Foot)
}

func TestFixingDefaults(t *testing.T) {
	j := mustRead(t, least+dBore+hub+"[[pinion.set_screw]]\nsize = \"M3\"\n[pinion.flange]\n[ring.step]\ndiameter = 280\n")
	assert.Equal(t, &job.Hub{Diameter: 20, Length: 10, Side: "above", Foot: 0.5, FootShape: "fillet"}, j.Pinion.Hub)
	assert.Equal(t, []job.SetScrew{{Size: "M3", Seat: "hex-nut"}}, j.Pinion.SetScrews)
	assert.Equal(t, &job.Flange{Thickness: 2, Side: "below"}, j.Pinion.Flange)
	assert.Equal(t, &job.Step{Diameter: 280, Clearance: 0.1, Height: 2, Side: "below", Fits: "bore"}, j.Ring.Step)
}

func TestKeyways(t *testing.T) {
	const din = "DIN 6885-1, as reprinted in a fastener reference table"
	for _, tt := range []struct {
		text                     string
		width, height, depth, in float64
		source                   string
	}{
		{"diameter = 8", 2, 2, 1.2, 1.0, din},
		{"diameter = 10\nkey_width = \"auto\"", 3, 3, 1.8, 1.4, din},
		{"diameter = 10\nkey_width = 4", 4, 4, 2.5, 1.8, din},
		{"diameter = 12\nkey_height = 5", 4, 5, 2.5, 2.7, din},
		{"diameter = 12\nkey_width = 3.5\nkey_height = 3\nkey_depth = 1.5", 3.5, 3, 1.5, 1.7, ""},
		{"diameter = 5\nkey_width = 2\nkey_height = 2\nkey_depth = 1.2", 2, 2, 1.2, 1.0, ""},
	} {
		b := mustRead(t, least+"[pinion.bore]\nshape = \"keyed\"\n"+tt.text+"\n").Pinion.Bore
		assert.Equal(t, tt.width, b.KeyWidth, tt.text)
		assert.Equal(t, tt.height, b.KeyHeight, tt.text)
		assert.Equal(t, tt.depth, b.KeyDepth, tt.text)
		assert.InDelta(t, tt.in, b.KeyHub, 1e-12, tt.text)
		assert.Equal(t, tt.source, b.KeySource, tt.text)
	}
}

func TestCoupling(t *testing.T) {
	text := least + plate + "\ncount = 6\ncircle = \"16 mm\"\nscrew = \"M3\"\n"
	j := mustRead(t, text)
	want := job.Coupling{Count: 6, Circle: 16, Side: "below", Drill: job.Drill{Screw: "M3", Hole: 3.4, Head: "none"}}
	assert.Equal(t, &want, j.Pinion.Bore.Coupling)
	j = mustRead(t, text+"head = \"counterbored\"\nside = \"above\"\nangle = 45\nrecess_count = 2\nrecess_diameter = 7\nrecess_depth = 6\n")
	want = job.Coupling{Count: 6, Circle: 16, Side: "above", Angle: math.Pi / 4,
		Drill:  job.Drill{Screw: "M3", Hole: 3.4, Head: "counterbored", HeadDiameter: 6.5, HeadDepth: 3.4},
		Recess: &job.Recess{Count: 2, Circle: 8, Diameter: 7, Depth: 6}}
	assert.Equal(t, &want, j.Pinion.Bore.Coupling)
	j = mustRead(t, text+"recess_count = 1\nrecess_diameter = 7\nrecess_depth = 6\nrecess_circle = 12\nrecess_angle = 180\n")
	assert.Equal(t, &job.Recess{Count: 1, Circle: 12, Diameter: 7, Depth: 6, Angle: math.Pi}, j.Pinion.Bore.Coupling.Recess)
}

// Every head of every screw has its room.
func TestHeads(t *testing.T) {
	for _, screw := range stock.ScrewNames() {
		for _, head := range []string{"none", "countersunk", "counterbored", "pilot"} {
			b := mustRead(t, least+fmt.Sprintf("[ring.bolts]\ncount = 4\nscrew = %q\nhead = %q\n", screw, head)).Ring.Bolts
			s, _ := stock.FindScrew(screw)
			if head == "pilot" {
				assert.InDelta(t, 0.8*s.Major, b.Hole, 1e-12, screw)
			} else {
				assert.Equal(t, s.Medium, b.Hole, screw)
			}
			assert.Equal(t, head == "countersunk" || head == "counterbored", b.HeadDiameter > b.Hole, screw+head)
			assert.Equal(t, head == "counterbored", b.HeadDepth > 0, screw+head)
			assert.Equal(t, head == "countersunk", b.HeadAngle > 1, screw+head)
		}
	}
}

func TestRepeatedSections(t *testing.T) {
	j := mustRead(t, least+dBore+hub+"[[pinion.set_screw]]\nsize = \"M3\"\n[[pinion.set_screw]]\nsize = \"M4\"\nangle = 90\n[[pinion.set_screw]]\nsize = \"M5\"\nangle = 180\n")
	sizes := func(j *job.Job) string {
		var out []string
		for _, s := range j.Pinion.SetScrews {
			out = append(out, s.Size)
		}
		return strings.Join(out, " ")
	}
	assert.Equal(t, "M3 M4 M5", sizes(j))
	assert.Equal(t, 15, j.Line("pinion.set_screw[1].size"))
	assert.Equal(t, 14, j.Line("pinion.set_screw[1]"))
	assert.Equal(t, `"M4"`, j.Raw("pinion.set_screw[1].size"))
	assert.False(t, j.Given("pinion.set_screw.size"))

	k, found := j.With("pinion.set_screw[1].size", `"#6"`)
	require.Empty(t, found)
	assert.Equal(t, "M3 #6 M5", sizes(k))
	assert.Equal(t, 15, k.Line("pinion.set_screw[1].size"))
	k, found = j.With("pinion.set_screw[3].size", `"M2"`)
	require.Empty(t, found)
	assert.Equal(t, "M3 M4 M5 M2", sizes(k))

	k, found = j.Without("pinion.set_screw[1]")
	require.Empty(t, found)
	assert.Equal(t, "M3 M5", sizes(k))
	assert.Equal(t, 18, k.Line("pinion.set_screw[1].size"))
	assert.Equal(t, math.Pi, k.Pinion.SetScrews[1].Angle)
	k, found = j.Without("pinion.set_screw")
	require.Empty(t, found)
	assert.Equal(t, "", sizes(k))
	k, found = j.Without("pinion.set_screw[1].angle")
	require.Empty(t, found)
	assert.Zero(t, k.Pinion.SetScrews[1].Angle)
	k, found = j.Without("pinion.set_screw[7]")
	require.Empty(t, found)
	assert.Equal(t, "M3 M4 M5", sizes(k))
	assert.Equal(t, "M3 M4 M5", sizes(j), "the first job stays as it was")

	for _, tt := range []struct {
		key  string
		code find.Code
	}{
		{"pinion.set_screw[4].size", find.UnknownKey},
		{"pinion.set_screw[8].size", find.OutOfRange},
		{"pinion.set_screw[99999999999999999999].size", find.WrongUnit},
		{"pinion.set_screw[-1].size", find.UnknownKey},
		{"pinion.set_screw.size", find.WrongUnit},
		{"pinion.set_screw[0]", find.NotReadable},
	} {
		k, found := j.With(tt.key, `"M3"`)
		assert.Nil(t, k, tt.key)
		require.NotEmpty(t, found, tt.key)
		assert.Equal(t, tt.code, found[0].Code, "%s: %v", tt.key, found)
	}
}

var offeredLine = regexp.MustCompile(`(?m)^# (\[|[a-z_]+ = )`)

// A section that the template offers behind # reads when that is taken away.
func TestTemplateOffersSections(t *testing.T) {
	text := string(job.Template())
	offered := 0
	for _, block := range strings.Split(text, "\n\n") {
		if !strings.HasPrefix(block, "# [") || strings.Contains(block, "] take") {
			continue
		}
		offered++
		one := strings.Replace(text, block, offeredLine.ReplaceAllString(block, "$1"), 1)
		if strings.Contains(block, "coupling]") {
			one = regexp.MustCompile(`(?m)^(shape = .*|across_flat = .*)$`).ReplaceAllString(one, "")
			one = strings.Replace(one, "[pinion.bore]", "[pinion.bore]\nshape = \"coupling\"", 1)
		}
		if strings.Contains(block, "[platform]") {
			one += "[motor]\nkind = \"stepper\"\nsteps = 200\ncurve = [[0, 400], [300, 200]]\n"
		}
		if strings.Contains(block, "set_screw") {
			one += "[pinion.hub]\ndiameter = 20\nlength = 10\n"
		}
		mustRead(t, one)
	}
	assert.Equal(t, 7, offered)
}
