package fileset_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"ringtrack/export/dxf"
	"ringtrack/export/fileset"
	"ringtrack/export/outline"
	"ringtrack/gear/drive"
	"ringtrack/gear/find"
	"ringtrack/gear/job"
	"ringtrack/gear/part"
)

// bench is a pair cut in layers, with tabs, in inches, laid out on a sheet.
const bench = `
[teeth]
diametral_pitch = 12
pinion = 16
ring = 60
[pinion.bore]
shape = "round"
diameter = 6
[ring.bolts]
count = 6
hole = 4
[making]
kind = "cut"
kerf = 0.2
tabs = 3
sheet_thickness = 4.8
[making.pinion]
copies = 2
dowels = 2
dowel = 2
[sheet]
width = 400
height = 300
[output]
drawing_unit = "in"
`

func read(t *testing.T, dir, name string) []byte {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(dir, name))
	require.NoError(t, err)
	return data
}

// TestCutSet: a set for the cutter has what its names say, and says how it is
// to be cut.
func TestCutSet(t *testing.T) {
	dir := t.TempDir()
	out := mustBuild(t, bench+"formats = [\"dxf\", \"dxf-r12\", \"svg\", \"pdf\"]\n", dir)
	require.Subset(t, out.Names, []string{
		"sheet-1-in.dxf", "sheet-1-in-r12.dxf", "sheet-1.svg", "ring-in.dxf", "ring-in-r12.dxf", "ring.svg",
		"pinion-in.dxf", "pinion-in-r12.dxf", "pinion.svg", "assembly.svg", "template.pdf", "datasheet.pdf", "datasheet.svg",
	})
	for name, unit := range map[string]string{"ring-in.dxf": "AC1015", "ring-in-r12.dxf": "AC1009", "sheet-1-in.dxf": "AC1015"} {
		data := read(t, dir, name)
		res, err := dxf.Read(bytes.NewReader(data), dxf.Limits{Join: 0.6})
		require.NoError(t, err, name)
		require.Equal(t, unit, res.Version, name)
		require.Equal(t, unit == "AC1009", res.Assumed, name)
		require.True(t, res.Unit == "inch" && res.Scale == 25.4, name)
		notes := strings.Join(res.Notes, "\n")
		require.Contains(t, notes, "a kerf of 0.2 mm is already in these outlines", name)
		require.Contains(t, notes, "3 bridges of 0.5 mm", name)
	}
	sheet, err := dxf.Read(bytes.NewReader(read(t, dir, "sheet-1-in.dxf")), dxf.Limits{Join: 0.6})
	require.NoError(t, err)
	// Two layers of the ring (six screws, three dowels, teeth, outside), twice
	// three of the pinion (bore, two dowels, outside).
	require.Len(t, sheet.Outlines, 2*11+6*4)
	stacked := out.Built.Cutting.Stacks
	require.Len(t, stacked, 2)
	require.Equal(t, [2]int{2, 3}, [2]int{stacked[0].Layers, stacked[1].Layers})
	require.Equal(t, "6 × pinion", fmt.Sprintf("%d × %s", out.Built.Cutting.Sheets[0].Parts[1].Count, out.Built.Cutting.Sheets[0].Parts[1].Part))
	require.Contains(t, string(read(t, dir, "report.txt")), "2 layers of 4.8 mm make 9.6 mm")
	var report struct {
		Cutting struct {
			Sheets []struct{ Used float64 }
			Parts  []struct{ Layers int }
		}
	}
	require.NoError(t, json.Unmarshal(read(t, dir, "report.json"), &report))
	require.Len(t, report.Cutting.Parts, 2)
	require.InDelta(t, out.Built.Cutting.Sheets[0].Used, report.Cutting.Sheets[0].Used, 1e-9)

	again := t.TempDir()
	mustBuild(t, bench+"formats = [\"dxf\", \"dxf-r12\", \"svg\", \"pdf\"]\n", again)
	for _, name := range out.Names {
		require.Equal(t, read(t, dir, name), read(t, again, name), name)
	}
}

// TestEveryFormatIsReadBack: whatever the part is made from is what is rolled,
// gaps of tabs, inches and the form without a unit included.
func TestEveryFormatIsReadBack(t *testing.T) {
	for format, list := range map[string][]string{
		"dxf": {"tabs = 0", "tabs = 1", "tabs = 3", "tabs = 16"}, "dxf-r12": {"tabs = 3"}, "svg": {"tabs = 1", "tabs = 3"},
	} {
		for _, tabs := range list {
			dir := t.TempDir()
			text := strings.Replace(bench, "tabs = 3", tabs, 1) + "formats = [\"" + format + "\"]\n"
			out := mustBuild(t, text, dir)
			require.Equal(t, "files", out.Built.Rolled.Source, format)
			require.False(t, out.Built.Rolled.Binds, format)
			d := design(t, text)
			require.InDelta(t, d.Pair.Backlash.Circumferential, out.Built.Rolled.Mean, 0.005, format)
			// The outline read is the one drawn.
			name := map[string]string{"dxf": "pinion-in.dxf", "dxf-r12": "pinion-in-r12.dxf", "svg": "pinion.svg"}[format]
			o, err := outline.ReadAcross(bytes.NewReader(read(t, dir, name)), strings.TrimSuffix(format, "-r12"), outline.Pinion, math.NaN(), 0.51)
			require.NoError(t, err, "%s, %s", format, tabs)
			teeth, _ := d.Pinion.Body.Contour(part.TeethContour)
			require.InDelta(t, teeth.Drawn.Area(), o.Loop.Area(), 0.002*teeth.Drawn.Length(), "%s, %s", format, tabs)
		}
	}
}

// TestArcsAreFew: drawings have arcs within the tolerance asked for, and a
// coarser one gives fewer.
func TestArcsAreFew(t *testing.T) {
	last := math.MaxInt
	for _, tol := range []string{"0.0005", "0.002", "0.02"} {
		dir := t.TempDir()
		mustBuild(t, "[teeth]\nmodule = 2\npinion = 18\nring = 60\n[making]\nkind = \"exact\"\n[output]\nformats = [\"dxf\"]\narc_tolerance = "+tol+"\n", dir)
		data := read(t, dir, "ring.dxf")
		require.Contains(t, string(data), "arcs leave smooth curves by at most "+tol+" mm")
		res, err := dxf.Read(bytes.NewReader(data), dxf.Limits{})
		require.NoError(t, err)
		n := len(res.Outlines[0].Loop.Unit)
		require.Less(t, n, last, tol)
		last = n
	}
}

// TestShortfalls: what has no room is a fault with its line, nothing is
// written, and every cure works alone.
func TestShortfalls(t *testing.T) {
	for _, tt := range []struct {
		from, to string
		code     find.Code
		about    string
		cured    bool
	}{
		{"height = 300", "height = 60", find.OutsideSheet, "sheet", true},
		{"height = 300", "height = 300\nspacing = 0.1", find.NarrowGap, "sheet.spacing", true},
		{"tabs = 3", "tabs = 3\ntab_width = 4", find.TabsDoNotFit, "making.tabs", true},
		{"dowel = 2", "dowel = 14", find.DowelMeetsEdge, "making.pinion.dowel", true},
		{"dowel = 2", "dowel = 2\ndowel_circle = 40", find.DowelMeetsEdge, "making.pinion.dowel", true},
		{"dowels = 2", "dowels = 1", find.OutOfRange, "output.formats", false},
		{"diametral_pitch = 12", "diametral_pitch = 0.6", find.ManyPages, "output.paper", true},
	} {
		text := strings.Replace(bench, tt.from, tt.to, 1) + "formats = [\"dxf\", \"pdf\"]\n"
		j, found := job.Read("bench.toml", []byte(text))
		require.NotNil(t, j, "%s: %v", tt.to, found)
		d := fileset.Check(j)
		var f *find.Finding
		for i := range d.Findings {
			if d.Findings[i].Code == tt.code && d.Findings[i].Level == find.Fault {
				f = &d.Findings[i]
			}
		}
		require.NotNil(t, f, "%s: %v", tt.to, d.Findings)
		require.Equal(t, tt.about, f.About, tt.to)
		require.Equal(t, j.Line(tt.about), f.Line, tt.to)
		require.Equal(t, tt.cured, len(f.Change) > 0, "%s: %v", tt.to, f.Change)
		for _, c := range f.Change {
			k, _ := drive.Apply(j, c)
			require.NotNil(t, k, "%s: %v", tt.to, c)
			for _, g := range fileset.Shortfalls(drive.Resolve(k)) {
				require.False(t, g.Code == f.Code && g.About == f.About, "%s: %v does not cure", tt.to, c)
			}
		}
		dir := filepath.Join(t.TempDir(), "out")
		_, err := build(t, text, dir, fileset.Options{})
		require.Error(t, err, tt.to)
		require.NoDirExists(t, dir, tt.to)
	}
}
