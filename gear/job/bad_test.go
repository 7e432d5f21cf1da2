package job_test

import (
	"bytes"
	"fmt"
	"regexp"
	"slices"
	"sort"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ringtrack/gear/find"
	"ringtrack/gear/job"
)

// bad is a text that goes below the least job, and the one finding it makes.
type bad struct {
	text  string
	code  find.Code
	about string
	line  int
	words string // in the finding's text
	cure  string // key = value, empty for none
}

// A line number counts from the least job's four lines.
var badBelow = []bad{
	// Keys and sections that do not exist.
	{"pinon_shift = 0", find.UnknownKey, "teeth.pinon_shift", 5, "perhaps pinion_shift", ""},
	{"zebra = 1", find.UnknownKey, "teeth.zebra", 5, "no key zebra in [teeth]", ""},
	{"kind = \"cut\"", find.UnknownKey, "teeth.kind", 5, "belongs under [making], [making.pinion], [making.ring]", ""},
	{"tolerance = 0.01", find.UnknownKey, "teeth.tolerance", 5, "belongs under [output]", ""},
	{"\"rack.x\" = 1", find.UnknownKey, `teeth."rack.x"`, 5, "there is no key", ""},
	{"[makin]\nkind = \"cut\"", find.UnknownKey, "makin", 5, "perhaps [making]", ""},
	{"[bore]\nshape = \"round\"\ndiameter = 6", find.UnknownKey, "bore", 5, "perhaps [pinion.bore]", ""},
	{"[zebra]\nx = 1\ny = 2", find.UnknownKey, "zebra", 5, "known are teeth", ""},
	{"[pinion.material]", find.UnknownKey, "pinion.material", 5, "is a key, not a section", ""},
	{"[[ring]]", find.WrongUnit, "ring", 5, "single brackets", ""},
	{"[ring]\nbolts = 6", find.WrongUnit, "ring.bolts", 6, "this is a section", ""},
	{"[ring.bore]\nshape = \"round\"\ndiameter = 6", find.UnknownKey, "ring.bore", 5, "perhaps [pinion.bore]", ""},

	// Keys of later stages.
	{"[ring]\nsegments = 4", find.NotYet, "ring.segments", 6, "segments", ""},
	{"[bearing]", find.NotYet, "bearing", 5, "machine", ""},
	{"[[measured]]\nspan = 3", find.NotYet, "measured", 5, "measure", ""},
	{"[output]\npaper = \"a5\"", find.OutOfRange, "output.paper", 6, "not one of a4", `output.paper = "a4"`},
	{"[output]\nformats = [\"stl\", \"3mf\"]", find.NotYet, "output.formats", 6, "3mf comes with a later stage", ""},
	{"[ring.bolts]\ncount = 4\nhole = 3\npoints = [[1, 2]]", find.NotYet, "ring.bolts.points", 8, "machine", ""},

	// Values of the wrong kind or unit.
	{"centre_distance = \"3 kg\"", find.WrongUnit, "teeth.centre_distance", 5, "is in kg: this takes mm", ""},
	{"centre_distance = true", find.WrongUnit, "teeth.centre_distance", 5, "not true or false", ""},
	{"centre_distance = [1]", find.WrongUnit, "teeth.centre_distance", 5, "not a list", ""},
	{"centre_distance = 2025-01-01", find.WrongUnit, "teeth.centre_distance", 5, "not a date", ""},
	{"pressure_angle = \"auto\"", find.WrongUnit, "teeth.pressure_angle", 5, "does not choose", ""},
	{"rack = 1", find.WrongUnit, "teeth.rack", 5, "one of the words A, B, C or D", ""},
	{"[pinion]\nmake = \"true\"", find.WrongUnit, "pinion.make", 6, "true or false", ""},
	{"[pinion]\nmaterial = 3", find.WrongUnit, "pinion.material", 6, "name of a material", ""},
	{"[ring.bolts]\nscrew = \"M4\"\ncount = 6.0", find.WrongUnit, "ring.bolts.count", 7, "whole number", "ring.bolts.count = 6"},
	{"[ring.bolts]\nscrew = \"M4\"\ncount = \"6\"", find.WrongUnit, "ring.bolts.count", 7, "whole number", "ring.bolts.count = 6"},
	{"[ring.bolts]\nscrew = \"M4\"\ncount = 6.5", find.WrongUnit, "ring.bolts.count", 7, "whole number", ""},
	{"[making]\nbed = 300", find.WrongUnit, "making.bed", 6, "three lengths", ""},
	{"[making]\nbed = [300, 300]", find.WrongUnit, "making.bed", 6, "three lengths", ""},
	{"[making]\nbed = [300, 300, \"1 kg\"]", find.WrongUnit, "making.bed", 6, "is in kg", ""},
	{"[making]\nbed = [300, [], 300]", find.WrongUnit, "making.bed", 6, "not a list", ""},
	{"[output]\nformats = \"stl\"", find.WrongUnit, "output.formats", 6, "a list in brackets", `output.formats = ["stl"]`},
	{"[output]\nformats = []", find.WrongUnit, "output.formats", 6, "at least one", ""},
	{"[output]\nformats = [3]", find.WrongUnit, "output.formats", 6, "words in quotes", ""},

	// Decimal commas and other slips of spelling.
	{"centre_distance = 111,25", find.WrongUnit, "teeth.centre_distance", 5, "decimal comma; write a point: 111.25", "teeth.centre_distance = 111.25"},
	{"centre_distance = 111,25 mm # here", find.WrongUnit, "teeth.centre_distance", 5, "decimal comma", `teeth.centre_distance = "111.25 mm"`},
	{"centre_distance = \"111,25 mm\"", find.WrongUnit, "teeth.centre_distance", 5, "decimal comma; write a point: 111.25 mm", `teeth.centre_distance = "111.25 mm"`},
	{"centre_distance = 111.25 mm", find.WrongUnit, "teeth.centre_distance", 5, "stands in quotes", `teeth.centre_distance = "111.25 mm"`},
	{"centre_distance = 111.", find.WrongUnit, "teeth.centre_distance", 5, "both sides of the point", "teeth.centre_distance = 111"},
	{"backlash = .3", find.WrongUnit, "teeth.backlash", 5, "both sides of the point", "teeth.backlash = 0.3"},
	{"rack = B", find.WrongUnit, "teeth.rack", 5, "stands in quotes", `teeth.rack = "B"`},
	{"[pinion]\nmake = False", find.WrongUnit, "pinion.make", 6, "lower case", "pinion.make = false"},

	// Values outside their range.
	{"pressure_angle = 45", find.OutOfRange, "teeth.pressure_angle", 5, "14.5 to 30 deg", "teeth.pressure_angle = 30"},
	{"pressure_angle = \"0.1 rad\"", find.OutOfRange, "teeth.pressure_angle", 5, "14.5 to 30 deg", "teeth.pressure_angle = 14.5"},
	{"pinion_shift = nan", find.OutOfRange, "teeth.pinion_shift", 5, "not a finite number", ""},
	{"pinion_shift = -inf", find.OutOfRange, "teeth.pinion_shift", 5, "not a finite number", ""},
	{"pinion_shift = 1e999", find.OutOfRange, "teeth.pinion_shift", 5, "not a finite number", ""},
	{"pinion_shift = 2.1", find.OutOfRange, "teeth.pinion_shift", 5, "-1 to 2", "teeth.pinion_shift = 2"},
	{"backlash = 2.6", find.OutOfRange, "teeth.backlash", 5, "0 to the module, 2.5 mm", "teeth.backlash = 2.5"},
	{"rack = \"a\"", find.OutOfRange, "teeth.rack", 5, "A, B, C or D", `teeth.rack = "A"`},
	{"[making]\nkind = \"printd\"", find.OutOfRange, "making.kind", 6, "printed", `making.kind = "printed"`},
	{"[making]\nkind = \"milled\"", find.OutOfRange, "making.kind", 6, "printed, cut or exact", ""},
	{"[making]\nbed = [300, 300, 0]", find.OutOfRange, "making.bed", 6, "1 to 60000 mm", ""},
	{"[ring]\nmaterial = \"petgg\"", find.OutOfRange, "ring.material", 6, `perhaps "petg"`, `ring.material = "petg"`},
	{"[ring]\nmaterial = \"unobtainium\"", find.OutOfRange, "ring.material", 6, "known are pla", ""},
	{"[ring.bolts]\ncount = 4\nscrew = \"M7\"", find.OutOfRange, "ring.bolts.screw", 7, "known are M2", `ring.bolts.screw = "M2"`},
	{"[ring.bolts]\ncount = 2\nscrew = \"M3\"", find.OutOfRange, "ring.bolts.count", 6, "3 to 64", "ring.bolts.count = 3"},
	{"[output]\ntolerance = 0", find.OutOfRange, "output.tolerance", 6, "0.00002 to 1 mm", "output.tolerance = 0.00002"},
	{"[output]\nformats = [\"stl\", \"svgg\"]", find.OutOfRange, "output.formats", 6, `perhaps "svg"`, ""},

	// Keys that are missing or do not go together.
	{"diametral_pitch = 10", find.Contradicts, "teeth.diametral_pitch", 5, "leave one out", ""},
	{"module = 3", find.Contradicts, "teeth.module", 5, "stands twice, first in line 2", ""},
	{"[teeth]", find.Contradicts, "teeth", 5, "stands twice, first in line 1", ""},
	{"[output]\nformats = [\"stl\", \"stl\"]", find.Contradicts, "output.formats", 6, "stands twice", ""},
	{"[pinion.bore]", find.MissingKey, "pinion.bore.diameter", 0, "diameter", ""},
	{"[pinion.bore]\ndiameter = 6", find.MissingKey, "pinion.bore.shape", 0, "shape", ""},
	{"[pinion.bore]\nshape = \"d\"\ndiameter = 6", find.MissingKey, "pinion.bore.across_flat", 0, "across_flat", ""},
	{"[pinion.bore]\nshape = \"d\"\ndiameter = 6\nacross_flat = 6", find.Contradicts, "pinion.bore.across_flat", 8, "less than the diameter", ""},
	{"[pinion.bore]\nshape = \"d\"\ndiameter = 6\nacross_flat = 3", find.Contradicts, "pinion.bore.across_flat", 8, "more than half", ""},
	{"[pinion.bore]\nshape = \"round\"\ndiameter = 6\nacross_flat = 5", find.Contradicts, "pinion.bore.across_flat", 8, "no flat", ""},
	{"[ring.bolts]\ncount = 4", find.MissingKey, "ring.bolts.screw", 0, "screw (or hole)", ""},
	{"[ring.bolts]\nscrew = \"M3\"", find.MissingKey, "ring.bolts.count", 0, "count", ""},
	{"[ring.bolts]\ncount = 4\nscrew = \"M3\"\nhole = 3", find.Contradicts, "ring.bolts.hole", 8, "leave one out", ""},
	{"[making]\nkerf = 0.2", find.Contradicts, "making.kerf", 6, "belongs to cut parts; the pinion is printed and the ring is printed", `making.kind = "cut"`},
	{"[making]\nkind = \"cut\"\ngrowth = 0.1", find.Contradicts, "making.growth", 7, "belongs to printed parts", `making.kind = "printed"`},
	{"[making]\nkind = \"cut\"\nline_width = 0.5", find.Contradicts, "making.line_width", 7, "printed", `making.kind = "printed"`},
	{"[making]\nkind = \"exact\"\nshrinkage = 1", find.Contradicts, "making.shrinkage", 7, "printed", `making.kind = "printed"`},
	{"[making.ring]\nkerf = 0.2", find.Contradicts, "making.ring.kerf", 6, "the ring is printed", `making.ring.kind = "cut"`},

	// Lines that cannot be read.
	{"rack = \"A", find.NotReadable, "file", 5, "cannot be read", ""},
	{"rack =", find.NotReadable, "file", 5, "rack has no value", ""},
	{"rack", find.NotReadable, "file", 5, "cannot be read", ""},
	{"[ring", find.NotReadable, "file", 5, "cannot be read", ""},
	{"= 3", find.NotReadable, "file", 5, "cannot be read", ""},
	{"backlash = 0.3 0.4", find.NotReadable, "file", 5, "cannot be read", ""},
	{"[pinion]\nbore = { shape = \"round\", diameter = 6,5 }", find.NotReadable, "file", 6, "decimal point?", ""},
	{"[making]\nbed = [300, 300\n[output]", find.NotReadable, "file", 6, "breaks off in line 7", ""},
	{"backlash = 01", find.NotReadable, "file", 5, "", ""},
	{"rack.x = 1", find.UnknownKey, "teeth.rack", 5, "is a key, not a section", ""},
	{"title = \"\"\"\nabc\ndef", find.NotReadable, "file", 5, "", ""},
}

func TestBadBelowTheLeastJob(t *testing.T) {
	for _, tt := range slices.Concat(badBelow, badFixings, badBudget) {
		j, found := job.Read("x.toml", []byte(least+tt.text+"\n"))
		assert.Nil(t, j, tt.text)
		f, ok := pick(found, tt.code, tt.about)
		if !assert.True(t, ok, "%s: %v", tt.text, found) {
			continue
		}
		assert.Equal(t, tt.line, f.Line, "%s: %v", tt.text, f)
		assert.Contains(t, f.Text, tt.words, tt.text)
		assert.Equal(t, find.Fault, f.Level)
		cure := ""
		if len(f.Change) > 0 {
			cure = f.Change[0].Key + " = " + f.Change[0].Value
		}
		assert.Equal(t, tt.cure, cure, tt.text)
		if len(found) > 1 && tt.text != "[pinion.bore]" {
			t.Errorf("%s: one slip, %d findings: %v", tt.text, len(found), found)
		}
	}
}

// pick returns the finding with the code about the key.
func pick(found []find.Finding, code find.Code, about string) (find.Finding, bool) {
	for _, f := range found {
		if f.Code == code && f.About == about {
			return f, true
		}
	}
	return find.Finding{}, false
}

func TestBadHeadsAndTeeth(t *testing.T) {
	for _, tt := range []bad{
		{"[teeth]\nmodule = 0\npinion = 15\nring = 104", find.OutOfRange, "teeth.module", 2, "0.2 to 50 mm", "teeth.module = 0.2"},
		{"[teeth]\nmodule = 2,5\npinion = 15\nring = 104", find.WrongUnit, "teeth.module", 2, "decimal comma; write a point: 2.5", "teeth.module = 2.5"},
		{"[teeth]\nmodule = \"60 mm\"\npinion = 15\nring = 104", find.OutOfRange, "teeth.module", 2, "0.2 to 50 mm", "teeth.module = 50"},
		{"[teeth]\nmodule = \"auto\"\npinion = 15\nring = 104", find.WrongUnit, "teeth.module", 2, "does not choose", ""},
		{"[teeth]\nmodule = 2\npinion = 3\nring = 104", find.OutOfRange, "teeth.pinion", 3, "5 to 300", "teeth.pinion = 5"},
		{"[teeth]\nmodule = 2\npinion = 15.0\nring = 104", find.WrongUnit, "teeth.pinion", 3, "write 15", "teeth.pinion = 15"},
		{"[teeth]\nmodule = 2\npinion = \"15\"\nring = 104", find.WrongUnit, "teeth.pinion", 3, "write 15", "teeth.pinion = 15"},
		{"[teeth]\nmodule = 2\npinion = 15\nring = 15", find.Contradicts, "teeth.ring", 4, "more teeth than the pinion", "teeth.ring = 16"},
		{"[teeth]\nmodule = 2\npinion = 15\nring = 1001", find.OutOfRange, "teeth.ring", 4, "6 to 1000", "teeth.ring = 1000"},
		{"[teeth]\nmodule = 2\npinon = 15\nring = 104", find.UnknownKey, "teeth.pinon", 3, "perhaps pinion", ""},
		{"[teth]\nmodule = 2\npinion = 15\nring = 104", find.UnknownKey, "teth", 1, "perhaps [teeth]", ""},
		{"[teeth]\nmodule = 2\npinion = 15", find.MissingKey, "teeth.ring", 0, "ring under [teeth]", ""},
		{"[teeth]\npinion = 15\nring = 104", find.MissingKey, "teeth.module", 0, "module (or diametral_pitch)", ""},
		{"format = 2\n" + least, find.NotYet, "format", 1, "later version", "format = 1"},
		{"format = 0\n" + least, find.OutOfRange, "format", 1, "1 to 1", "format = 1"},
		{"title = 3\n" + least, find.WrongUnit, "title", 1, "text in quotes", ""},
		{"title = \"" + strings.Repeat("ä", 81) + "\"\n" + least, find.OutOfRange, "title", 1, "81 characters", ""},
		{"title = \"a\\nb\"\n" + least, find.OutOfRange, "title", 1, "one line", ""},
		{"module = 2\n[teeth]\npinion = 15\nring = 104", find.UnknownKey, "module", 1, "belongs under [teeth]", ""},
		{"teth.module = 2\nteth.pinion = 15\nteth.ring = 104", find.UnknownKey, "teth", 1, "perhaps [teeth]", ""},
		{"pinion = 15\n" + least, find.WrongUnit, "pinion", 1, "this is a section", ""},
	} {
		j, found := job.Read("x.toml", []byte(tt.text))
		assert.Nil(t, j, tt.text)
		if !assert.Len(t, found, 1, tt.text) {
			continue
		}
		f := found[0]
		assert.Equal(t, tt.code, f.Code, tt.text)
		assert.Equal(t, tt.about, f.About, tt.text)
		assert.Equal(t, tt.line, f.Line, tt.text)
		assert.Contains(t, f.Text, tt.words, tt.text)
		cure := ""
		if len(f.Change) > 0 {
			cure = f.Change[0].Key + " = " + f.Change[0].Value
		}
		assert.Equal(t, tt.cure, cure, tt.text)
	}
}

func TestEmptyFileMissesAllThree(t *testing.T) {
	_, found := job.Read("x.toml", nil)
	var about []string
	for _, f := range found {
		assert.Equal(t, find.MissingKey, f.Code)
		about = append(about, f.About)
	}
	assert.Equal(t, []string{"teeth.module", "teeth.pinion", "teeth.ring"}, about)
}

func TestFoundAndLimitAreInTheKeysUnit(t *testing.T) {
	for _, tt := range []struct {
		text         string
		found, limit float64
		unit         string
	}{
		{"pressure_angle = \"1 rad\"", 57.29577951308232, 30, "deg"},
		{"centre_distance = \"1e6 in\"", 25.4e6, 25000, "mm"},
		{"addendum = 3", 3, 2, ""},
		{"[making]\nshrinkage = 50", 50, 10, "%"},
		{"backlash = \"2600 um\"", 2.6, 2.5, "mm"},
		{"[pinion.bore]\nshape = \"d\"\ndiameter = 6\nacross_flat = 7", 7, 6, "mm"},
	} {
		_, found := job.Read("x.toml", []byte(least+tt.text))
		require.Len(t, found, 1, tt.text)
		require.NotNil(t, found[0].Found)
		assert.InDelta(t, tt.found, *found[0].Found, 1e-12*tt.found)
		assert.Equal(t, tt.limit, *found[0].Limit)
		assert.Equal(t, tt.unit, found[0].Unit)
	}
}

// Nothing hides anything: all these slips are found in one reading.
func TestAllFindingsAtOnceInLineOrder(t *testing.T) {
	text := `titel = "x"
[teeth]
module = 2,5
pressure_angle = 45
pinion = 15.0
ring = 104
backlash = "1 kg"
rack = A
[pinion.bore
shape = "square"
diameter = 6
[making]
kerf = 0.2
growth = 0.1
kind = "printed"
kind = "cut"
[rings]
segments = 3
bolts = 4
[bearing]
kind = "dc"
`
	_, found := job.Read("x.toml", []byte(text))
	var got []string
	for _, f := range found {
		got = append(got, fmt.Sprintf("%d %s %s", f.Line, f.Code, f.About))
	}
	assert.Equal(t, []string{
		"1 unknown-key titel",
		"3 wrong-unit teeth.module",
		"4 out-of-range teeth.pressure_angle",
		"5 wrong-unit teeth.pinion",
		"7 wrong-unit teeth.backlash",
		"8 wrong-unit teeth.rack",
		"9 not-readable file",
		"10 out-of-range pinion.bore.shape",
		"13 contradicts making.kerf",
		"16 contradicts making.kind",
		"17 unknown-key rings",
		"18 not-yet ring.segments",
		"20 not-yet bearing",
	}, got)
}

func TestNotAJobFile(t *testing.T) {
	junk := make([]byte, 4096)
	for i := range junk {
		junk[i] = byte(i * 7)
	}
	for name, tt := range map[string]struct {
		data  []byte
		words string
		line  int
	}{
		"10 MB of text": {bytes.Repeat([]byte("module = 2.5\n"), 800_000), "at most 1048576", 0},
		"binary junk":   {junk, "not a text file", 0},
		"latin-1":       {[]byte("[teeth]\ntitle = \"Sch\xf6n\"\n"), "save it as UTF-8", 2},
		"UTF-16":        {[]byte("\xff\xfe[\x00t\x00]\x00"), "UTF-16", 0},
	} {
		start := time.Now()
		j, found := job.Read("x.toml", tt.data)
		assert.Less(t, time.Since(start), 200*time.Millisecond, name)
		assert.Nil(t, j, name)
		require.Len(t, found, 1, name)
		assert.Equal(t, find.NotReadable, found[0].Code, name)
		assert.Equal(t, tt.line, found[0].Line, name)
		assert.Contains(t, found[0].Text, tt.words, name)
	}
}

// Large files of nonsense are answered within a second and with a bounded list.
func TestNonsenseIsAnsweredFast(t *testing.T) {
	many := func(format string, n int) string {
		var b strings.Builder
		for i := 0; b.Len() < n; i++ {
			fmt.Fprintf(&b, format, i)
		}
		return b.String()
	}
	const size = 1 << 20
	for name, text := range map[string]string{
		"unknown keys":     many("key%d = 1\n", size-100),
		"unknown sections": many("[s%d]\nx = 1\n", size-100),
		"broken lines":     many("line %d\n", size-100),
		"commas":           many("k%d = 1,5\n", size-100),
		"repeated":         many("title = \"%d\"\n", size-100),
		"inline nest":      strings.Repeat("a={", size/3),
		"array nest":       "a=" + strings.Repeat("[", size-2),
		"long key":         strings.Repeat("k", size-4) + "=1",
		"long dotted key":  strings.Repeat("k.", size/2-4) + "k=1",
		"long list":        "[making]\nbed = [" + strings.Repeat("1,", size/2-20) + "]",
		"long text":        "title = \"" + strings.Repeat("x", size-20) + "\"",
		"open text":        "title = \"\"\"" + strings.Repeat("x\n", size/2-20),
		"comments":         strings.Repeat("#\n", size/2-2),
		"comments, broken": strings.Repeat("#\nx\n", size/4-2),
	} {
		require.LessOrEqual(t, len(text), size, name)
		start := time.Now()
		j, found := job.Read("x.toml", []byte(text))
		assert.Less(t, time.Since(start), 2*time.Second, name)
		assert.Nil(t, j, name)
		assert.NotEmpty(t, found, name)
		assert.LessOrEqual(t, len(found), 130, name)
		for _, f := range found {
			assert.Less(t, len(f.Text), 1000, name)
		}
	}
}

// Each cure, written into the file in place of the value, removes its finding.
func TestCuresCure(t *testing.T) {
	texts := []string{
		"[teeth]\nmodule = 2,5\npinion = 15\nring = 104\n",
		"[teeth]\nmodule = 60\npinion = 15\nring = 104\n",
		"[teeth]\nmodule = 2\npinion = 15.0\nring = 14\n",
		"[teeth]\nmodule = 2\npinion = 15\nring = 14\n",
		"[teeth]\ndiametral_pitch = 7.3\npinion = 15\nring = 40\nbacklash = 40\n",
	}
	for _, b := range slices.Concat(badBelow, badFixings) {
		texts = append(texts, least+b.text+"\n")
	}
	tried := 0
	for _, text := range texts {
		_, found := job.Read("x.toml", []byte(text))
		for _, f := range found {
			for _, c := range f.Change {
				tried++
				mended := write(text, c)
				_, after := job.Read("x.toml", []byte(mended))
				_, still := pick(after, f.Code, f.About)
				assert.False(t, still, "%s\nwith %v still has %v", text, c, f)
			}
		}
	}
	assert.Greater(t, tried, 30)
}

var repeated = regexp.MustCompile(`^(.*)\[(\d+)\]$`)

// write sets a key in the text of a job file as a maker would.
func write(text string, c find.Change) string {
	dot := strings.LastIndexByte(c.Key, '.')
	section, name, skip := "", c.Key[dot+1:], 0
	if dot > 0 {
		section = c.Key[:dot]
	}
	if m := repeated.FindStringSubmatch(section); m != nil {
		section = m[1]
		skip, _ = strconv.Atoi(m[2])
	}
	lines, in := strings.Split(text, "\n"), ""
	for i, l := range lines {
		if strings.HasPrefix(l, "[") {
			in = strings.Trim(l, "[] ")
			if in == section && skip > 0 && strings.HasPrefix(l, "[[") {
				in, skip = "", skip-1
			}
		}
		if key, _, ok := strings.Cut(l, "="); ok && in == section && strings.TrimSpace(key) == name {
			lines[i] = name + " = " + c.Value
			return strings.Join(lines, "\n")
		}
	}
	if at := sort.Search(len(lines), func(i int) bool { return contains(lines[:i+1], "["+section+"]") }); at < len(lines) {
		lines[at] += "\n" + name + " = " + c.Value
		return strings.Join(lines, "\n")
	}
	return text + "[" + section + "]\n" + name + " = " + c.Value + "\n"
}

func contains(lines []string, line string) bool {
	for _, l := range lines {
		if l == line {
			return true
		}
	}
	return false
}
