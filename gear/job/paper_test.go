package job_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ringtrack/gear/find"
	"ringtrack/gear/job"
)

// uncut is how a cut part lies in its sheet when the file does not say.
var uncut = job.Cutting{TabWidth: 0.5, Copies: 1, Dowels: 3, Dowel: 3}

// plainPaper is what [output] says of drawings and pages when the file does not.
var plainPaper = job.Paper{ArcTolerance: 0.002, DrawingUnit: "mm", PaperSize: "a4", PaperScale: [2]float64{1, 1}}

const cutting = "[making]\nkind = \"cut\"\n"

// The keys of cutters and of paper, with their units and overrides.
func TestCuttingAndPaper(t *testing.T) {
	j := mustRead(t, least+`
[making]
kind = "cut"
tabs = 3
sheet_thickness = "0.22 in"
[making.pinion]
copies = 4
tab_width = 0.4
dowels = 0
dowel_circle = 20
[sheet]
width = "20 in"
height = 300
openings = true
[output]
arc_tolerance = 0.001
drawing_unit = "in"
paper = "letter"
paper_across = 100.6
paper_up = "3.93 in"
`)
	assert.Equal(t, job.Cutting{Tabs: 3, TabWidth: 0.5, Copies: 1, Thickness: 5.588, Dowels: 3, Dowel: 3}, j.Ring.Making.Cutting)
	assert.Equal(t, job.Cutting{Tabs: 3, TabWidth: 0.4, Copies: 4, Thickness: 5.588, Dowel: 3, DowelCircle: job.Setting{Value: 20, Given: true}},
		j.Pinion.Making.Cutting)
	assert.Equal(t, &job.Sheet{Width: 508, Height: 300, Edge: 5, Spacing: 3, Openings: true}, j.Sheet)
	p := j.Output.Paper
	assert.Equal(t, 0.001, p.ArcTolerance)
	assert.Equal(t, "in", p.DrawingUnit)
	assert.Equal(t, "letter", p.PaperSize)
	assert.InDeltaSlice(t, []float64{1.006, 0.99822}, p.PaperScale[:], 1e-12)

	p = mustRead(t, least).Output.Paper
	assert.Equal(t, plainPaper, p)
	assert.Nil(t, mustRead(t, least).Sheet)
}

// Where the sheet is measured and the face width is not given, a face is whole
// layers, and the kerf is that of the sheet.
func TestLayers(t *testing.T) {
	for _, tt := range []struct {
		text         string
		ring, pinion float64
		layers       int
	}{
		{"sheet_thickness = 2.9\n", 4 * 2.9, 5 * 2.9, 4}, // the defaults are 10 and the ring's + 2
		{"sheet_thickness = 12\n", 12, 24, 1},
		{"sheet_thickness = 2.9\n[ring]\nface_width = 5.8\n", 5.8, 3 * 2.9, 2},
		{"sheet_thickness = 2.9\n[ring]\nface_width = 6\n", 6, 3 * 2.9, 3},
		{"", 10, 12, 1},
	} {
		j := mustRead(t, least+cutting+tt.text)
		assert.InDelta(t, tt.ring, j.Ring.FaceWidth, 1e-9, tt.text)
		assert.InDelta(t, tt.pinion, j.Pinion.FaceWidth, 1e-9, tt.text)
		assert.Equal(t, tt.layers, j.Ring.Making.Cutting.Layers(j.Ring.FaceWidth), tt.text)
	}
	thin := mustRead(t, least+cutting+"sheet_thickness = 3\n[ring]\nface_width = 12\nmaterial = \"plywood\"\n")
	single := mustRead(t, least+cutting+"[ring]\nface_width = 3\nmaterial = \"plywood\"\n")
	assert.Equal(t, single.Ring.Making.Kerf, thin.Ring.Making.Kerf)
}

func TestBadCutting(t *testing.T) {
	for text, want := range map[string]find.Code{
		"[output]\narc_tolerance = 0\n":                                         find.OutOfRange,
		"[output]\narc_tolerance = -0.002\n":                                    find.OutOfRange,
		"[output]\ntolerance = 0\n":                                             find.OutOfRange,
		"[output]\narc_tolerance = \"2 kg\"\n":                                  find.WrongUnit,
		"[output]\npaper = \"a5\"\n":                                            find.OutOfRange,
		"[output]\npaper_up = 1.01\n":                                           find.OutOfRange,
		"[output]\ndrawing_unit = \"cm\"\n":                                     find.OutOfRange,
		"[making]\ntabs = 2\n":                                                  find.Contradicts,
		"[sheet]\nwidth = 300\nheight = 300\n":                                  find.Contradicts,
		cutting + "[sheet]\nwidth = 300\n":                                      find.MissingKey,
		cutting + "tabs = 65\n":                                                 find.OutOfRange,
		cutting + "tab_width = 0\n":                                             find.OutOfRange,
		cutting + "sheet_thickness = 0\n":                                       find.OutOfRange,
		cutting + "[sheet]\nwidth = -1\nheight = 200\n":                         find.OutOfRange,
		cutting + "[ring]\nmake = false\n[pinion]\nmake = false\n" + wholeSheet: find.Contradicts,
	} {
		j, found := job.Read("bad.toml", []byte(least+text))
		assert.Nil(t, j, text)
		require.NotEmpty(t, found, text)
		assert.Equal(t, want, found[0].Code, text)
		assert.NotZero(t, found[0].Line+btoi(want == find.MissingKey), text)
	}
}

const wholeSheet = "[sheet]\nwidth = 300\nheight = 300\n"

func btoi(b bool) int {
	if b {
		return 1
	}
	return 0
}
