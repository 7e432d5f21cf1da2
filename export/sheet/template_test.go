package sheet_test

import (
	"bytes"
	"flag"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"ringtrack/export/figure"
	"ringtrack/export/pdf"
	"ringtrack/export/sheet"
	"ringtrack/gear/drive"
	"ringtrack/gear/find"
	"ringtrack/gear/job"
	"ringtrack/gear/plane"
)

var show = flag.String("show", "", "folder to write the sample pages to")

// folder returns where samples go.
func folder(t *testing.T) string {
	if *show != "" {
		return *show
	}
	return t.TempDir()
}

// design resolves an example.
func design(t testing.TB, name string) *drive.Design {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("..", "..", "examples", name+".toml"))
	require.NoError(t, err)
	j, found := job.Read(name+".toml", data)
	require.Zero(t, find.Count(found, find.Fault), "%v", found)
	return drive.Resolve(j)
}

func paper(t testing.TB, name string) sheet.Paper {
	t.Helper()
	p, err := sheet.FindPaper(name)
	require.NoError(t, err)
	return p
}

func writePDF(t testing.TB, path string, pages []figure.Figure) []byte {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, pdf.Write(&b, pages, pdf.Options{}))
	if path != "" {
		require.NoError(t, os.WriteFile(path, b.Bytes(), 0o644))
	}
	return b.Bytes()
}

// straight returns the straight strokes of a page.
func straight(t testing.TB, f figure.Figure) [][2]plane.Vec {
	t.Helper()
	marks, err := f.Marks()
	require.NoError(t, err)
	var out [][2]plane.Vec
	for _, m := range marks {
		if len(m.Path) == 2 && m.Path[1].Op == figure.LineTo {
			out = append(out, [2]plane.Vec{m.Path[0].P, m.Path[1].P})
		}
	}
	return out
}

func words(t testing.TB, f figure.Figure) []string {
	t.Helper()
	marks, err := f.Marks()
	require.NoError(t, err)
	var out []string
	for _, m := range marks {
		if m.Label != "" {
			out = append(out, m.Label)
		}
	}
	return out
}

// lengths counts the straight strokes of a page of that length along a direction.
func lengths(lines [][2]plane.Vec, want plane.Vec) int {
	n := 0
	for _, l := range lines {
		if l[1].Sub(l[0]).Sub(want).Len() < 1e-9 {
			n++
		}
	}
	return n
}

// TestTemplates: on every paper, every page has both marks both ways, the
// words, and only tiles have maps; all pages of the example take no second.
func TestTemplates(t *testing.T) {
	dir := folder(t)
	for _, name := range []string{"seedling-carousel", "thinning-drum", "tray-rotator"} {
		tmpl, err := sheet.PairTemplate(design(t, name))
		require.NoError(t, err)
		for _, p := range sheet.Papers() {
			pages, err := sheet.Templates(tmpl, sheet.TemplateOptions{Paper: p})
			require.NoError(t, err)
			t.Logf("%s on %s: %d pages", name, p.Name, len(pages))
			for i, f := range pages {
				what := fmt.Sprintf("%s on %s, page %d", name, p.Name, i+1)
				lines := straight(t, f)
				for _, v := range []plane.Vec{{X: 100}, {Y: 100}, {X: 101.6}, {Y: 101.6}} {
					require.Equal(t, 1, lengths(lines, v), "%s: marks along %v", what, v)
				}
				require.Contains(t, strings.Join(words(t, f), "\n"), sheet.PrintWords, what)
				if len(pages) > 1 {
					require.Contains(t, strings.Join(words(t, f), "\n"), fmt.Sprintf("%d of %d", i+1, len(pages)), what)
				}
				require.InDelta(t, p.Width*p.Height, f.Width*f.Height, 1e-9, what)
			}
			path := filepath.Join(dir, name+"-"+p.Name)
			writePDF(t, path+".pdf", pages)
			require.NoError(t, os.WriteFile(path+".tsv", marksTable(t, pages), 0o644))
		}
	}
}

// marksTable lists what a reader of the pages can measure: the page, and the
// ends of every check mark in mm from the paper's lower left.
func marksTable(t testing.TB, pages []figure.Figure) []byte {
	var b bytes.Buffer
	for i, f := range pages {
		for _, l := range straight(t, f) {
			d := l[1].Sub(l[0])
			for _, v := range []plane.Vec{{X: 100}, {Y: 100}, {X: 101.6}, {Y: 101.6}} {
				if d.Sub(v).Len() < 1e-9 {
					fmt.Fprintf(&b, "%d\t%.6f\t%.6f\t%.6f\t%.6f\n", i+1, l[0].X, l[0].Y, l[1].X, l[1].Y)
				}
			}
		}
	}
	return b.Bytes()
}

// TestTilesJoin: a point of the drawing lies at the same place of the paper on
// both tiles of a seam, up to the step of the tiles, and every point of the
// drawing is on some page.
func TestTilesJoin(t *testing.T) {
	var tmpl sheet.Template
	tmpl.Title = "dots"
	for x := -300.0; x <= 300; x += 7 {
		for y := -200.0; y <= 200; y += 7 {
			tmpl.Outlines = append(tmpl.Outlines, plane.CircleLoop(plane.Vec{X: x, Y: y}, 1))
		}
	}
	pages, err := sheet.Templates(tmpl, sheet.TemplateOptions{Paper: paper(t, "a4")})
	require.NoError(t, err)
	require.Greater(t, len(pages), 4)
	seen := 0
	register := map[string]int{}
	for _, f := range pages {
		marks, err := f.Marks()
		require.NoError(t, err)
		for _, m := range marks {
			if m.Style.Width == 0.13 && len(m.Path) == 2 && m.Path[1].Op == figure.ArcTo {
				seen++
			}
			if m.Style.Width == 0.1 && len(m.Path) == 3 && m.Path[1].Op == figure.ArcTo {
				register[fmt.Sprintf("%.1f", m.Path[0].P.Sub(m.Path[1].C).Len())]++
			}
		}
	}
	require.GreaterOrEqual(t, seen, len(tmpl.Outlines))
	require.Positive(t, register["1.8"])
}

// TestScaleIsCorrected: a printer that prints 1 % large across and 0.6 % small
// up the page prints the corrected marks and circles true.
func TestScaleIsCorrected(t *testing.T) {
	tmpl := sheet.Template{Title: "hole", Holes: []sheet.TemplateHole{{At: plane.Vec{X: 3, Y: 4}, Diameter: 60}}}
	pages, err := sheet.Templates(tmpl, sheet.TemplateOptions{Paper: paper(t, "letter"), ScaleX: 1.01, ScaleY: 0.994})
	require.NoError(t, err)
	var lines [][2]plane.Vec
	for _, l := range straight(t, pages[0]) {
		for i := range l {
			l[i].X *= 1.01
			l[i].Y *= 0.994
		}
		lines = append(lines, l)
	}
	for _, v := range []plane.Vec{{X: 100}, {Y: 100}, {X: 101.6}, {Y: 101.6}} {
		require.Equal(t, 1, lengths(lines, v), "marks along %v", v)
	}
	marks, err := pages[0].Marks()
	require.NoError(t, err)
	found := false
	for _, m := range marks {
		b := plane.NoBox()
		for _, s := range m.Path {
			b = b.Add(plane.Vec{X: s.P.X * 1.01, Y: s.P.Y * 0.994})
		}
		if len(m.Path) < 50 || math.Abs(b.Size().X-60) > 1 || m.Label != "" {
			continue
		}
		found = true
		c := b.Min.Add(b.Max).Mul(0.5)
		for _, s := range m.Path {
			require.InDelta(t, 30, plane.Vec{X: s.P.X * 1.01, Y: s.P.Y * 0.994}.Sub(c).Len(), 0.003)
		}
	}
	require.True(t, found)
}

func TestTemplatesRefuse(t *testing.T) {
	good := sheet.Template{Title: "hole", Holes: []sheet.TemplateHole{{Diameter: 60}}}
	large := sheet.Template{Outlines: []plane.Loop{plane.CircleLoop(plane.Vec{}, 900)}}
	nan := sheet.Template{Holes: []sheet.TemplateHole{{At: plane.Vec{X: math.NaN()}, Diameter: 5}}}
	a4 := paper(t, "a4")
	for _, tt := range []struct {
		t    sheet.Template
		opt  sheet.TemplateOptions
		want string
	}{
		{good, sheet.TemplateOptions{}, "too small"},
		{good, sheet.TemplateOptions{Paper: sheet.Paper{Name: "a6", Width: 105, Height: 148}}, "too small: the marks of 4 in need at least"},
		{good, sheet.TemplateOptions{Paper: a4, ScaleX: 1.2}, "a scale of 1.2"},
		{good, sheet.TemplateOptions{Paper: a4, ScaleY: math.NaN()}, "a scale of NaN"},
		{good, sheet.TemplateOptions{Paper: a4, ScaleY: -1}, "a scale of -1"},
		{large, sheet.TemplateOptions{Paper: a4}, "pages of this paper"},
		{nan, sheet.TemplateOptions{Paper: a4}, "not on the paper"},
		{sheet.Template{}, sheet.TemplateOptions{Paper: a4}, "nothing to draw"},
	} {
		_, err := sheet.Templates(tt.t, tt.opt)
		require.ErrorContains(t, err, tt.want)
	}
	_, err := sheet.FindPaper("a5")
	require.ErrorContains(t, err, "a4, a3, letter, tabloid")
	_, err = sheet.PairTemplate(&drive.Design{})
	require.ErrorContains(t, err, "no teeth")
}

// BenchmarkTemplates makes the example's pages on every paper, as PDF.
func BenchmarkTemplates(b *testing.B) {
	d := design(b, "seedling-carousel")
	for b.Loop() {
		for _, p := range sheet.Papers() {
			tmpl, err := sheet.PairTemplate(d)
			if err != nil {
				b.Fatal(err)
			}
			pages, err := sheet.Templates(tmpl, sheet.TemplateOptions{Paper: p})
			if err != nil {
				b.Fatal(err)
			}
			writePDF(b, "", pages)
		}
	}
}
