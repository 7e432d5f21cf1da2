package stock_test

import (
	"bufio"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ringtrack/gear/stock"
)

// rows reads a table of testdata: tab-separated, the source in the first line.
func rows(t *testing.T, name string) [][]string {
	t.Helper()
	f, err := os.Open("testdata/" + name)
	require.NoError(t, err)
	defer f.Close()
	var out [][]string
	s := bufio.NewScanner(f)
	for first := true; s.Scan(); first = false {
		if first {
			require.Contains(t, s.Text(), "Source:", "the first line names the source")
			continue
		}
		out = append(out, strings.Split(s.Text(), "\t"))
	}
	require.NoError(t, s.Err())
	return out
}

// num reads a printed number.
func num(t *testing.T, s string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(s, 64)
	require.NoError(t, err)
	return v
}

func TestClearanceHolesAsPrinted(t *testing.T) {
	for _, r := range rows(t, "clearance.tsv") {
		s, ok := stock.FindScrew(r[0])
		require.True(t, ok, r[0])
		assert.Equal(t, []float64{num(t, r[1]), num(t, r[2]), num(t, r[3])}, []float64{s.Fine, s.Medium, s.Coarse}, r[0])
	}
	for _, r := range rows(t, "inch.tsv") {
		s, ok := stock.FindScrew(r[0])
		require.True(t, ok, r[0])
		assert.Equal(t, []float64{num(t, r[1]), num(t, r[2])}, []float64{s.Fine, s.Medium}, r[0])
	}
}

func TestScrewsPassTheirHoles(t *testing.T) {
	for _, s := range stock.Screws() {
		assert.Greater(t, s.Fine, s.Major, s.Name)
		assert.Greater(t, s.Medium, s.Fine, s.Name)
		assert.True(t, s.Coarse == 0 || s.Coarse > s.Medium, s.Name)
		assert.NotEmpty(t, s.Source, s.Name)
	}
}

func TestShrinkageAsPrinted(t *testing.T) {
	for _, r := range rows(t, "shrinkage.tsv") {
		m, ok := stock.FindMaterial(r[0])
		require.True(t, ok, r[0])
		for i, got := range []float64{m.Shrinkage.Usual, m.Shrinkage.Least, m.Shrinkage.Most} {
			assert.InDelta(t, num(t, r[i+1])/100, got, 1e-12, r[0])
		}
	}
}

func TestMaterialsAreWhole(t *testing.T) {
	seen := map[string]bool{}
	for _, m := range stock.Materials() {
		assert.False(t, seen[m.Name], m.Name)
		seen[m.Name] = true
		assert.Equal(t, strings.ToLower(m.Name), m.Name)
		assert.NotEmpty(t, m.What, m.Name)
		assert.NotEmpty(t, m.DensitySource, m.Name)
		assert.Equal(t, m.Form == stock.Metal, m.Density > 2000, m.Name)
		assert.True(t, m.Density > 500 && m.Density < 9000, m.Name)
		s := m.Shrinkage
		if m.Form == stock.Sheet || m.Form == stock.Metal {
			assert.Equal(t, stock.Shrinkage{}, s, m.Name)
			continue
		}
		assert.NotEmpty(t, s.Source, m.Name)
		assert.True(t, 0 < s.Least && s.Least <= s.Usual && s.Usual <= s.Most && s.Most < 0.05, m.Name)
	}
	upper, ok := stock.FindMaterial("PA-CF")
	assert.True(t, ok)
	assert.Equal(t, "pa-cf", upper.Name)
	_, ok = stock.FindMaterial("cheese")
	assert.False(t, ok)
}

// The table's kerf lies among the printed ones, or within 0.005 of a lone one.
func TestKerfsAmongThePrinted(t *testing.T) {
	for _, r := range rows(t, "kerf.tsv") {
		lo, hi := math.Inf(1), math.Inf(-1)
		for _, s := range r[2:] {
			if s != "-" {
				lo, hi = min(lo, num(t, s)), max(hi, num(t, s))
			}
		}
		w, source, ok := stock.FindKerf(r[0], num(t, r[1]))
		require.True(t, ok, r[0])
		assert.NotEmpty(t, source)
		assert.True(t, w >= lo-0.005 && w <= hi+0.005, "%v: %g outside %g to %g", r, w, lo, hi)
	}
}

func TestKerfBetweenAndBeyondRows(t *testing.T) {
	for _, tt := range []struct {
		material  string
		thickness float64
		want      float64
		known     bool
	}{
		{"acrylic", 3, 0.20, true},
		{"Acrylic", 4.5, 0.21, true}, // half way from 0.20 to 0.22
		{"acrylic", 1, 0.18, true},   // below the first row
		{"acrylic", 20, 0.25, true},  // beyond the last row
		{"mdf", 9, 0.23, true},
		{"pla", 5, stock.UsualKerf, false},
		{"", 5, stock.UsualKerf, false},
	} {
		got, source, known := stock.FindKerf(tt.material, tt.thickness)
		assert.InDelta(t, tt.want, got, 1e-12, "%+v", tt)
		assert.Equal(t, tt.known, known, "%+v", tt)
		assert.NotEmpty(t, source)
	}
}

func TestKerfRowsInOrder(t *testing.T) {
	last := stock.Kerf{}
	for _, k := range stock.Kerfs() {
		_, ok := stock.FindMaterial(k.Material)
		assert.True(t, ok, k.Material)
		assert.NotEmpty(t, k.Source)
		if k.Material == last.Material {
			assert.Greater(t, k.Thickness, last.Thickness)
			assert.GreaterOrEqual(t, k.Width, last.Width)
		}
		last = k
	}
}

func TestModulesRiseAndPrefer(t *testing.T) {
	last, first := 0.0, 0
	for _, m := range stock.Modules() {
		assert.Greater(t, m.Value, last)
		assert.NotEmpty(t, m.Source)
		assert.Contains(t, []int{1, 2}, m.Series)
		if m.Series == 1 && m.Value >= 1 {
			first++
		}
		last = m.Value
	}
	assert.Equal(t, 50.0, last)
	assert.Equal(t, 18, first, "series I of ISO 54 has 18 modules from 1 to 50")
}

func TestNearest(t *testing.T) {
	names := []string{"module", "pinion", "ring", "pinion_shift", "ring_shift", "centre_distance", "rack"}
	for _, tt := range []struct{ word, want string }{
		{"pinon", "pinion"},
		{"modul", "module"},
		{"moduel", "module"}, // neighbours swapped: one edit
		{"Ring", "ring"},
		{"center-distance", "centre_distance"},
		{"ring shift", "ring_shift"},
		{"rign", "ring"},
		{"zebra", ""},
		{"", ""},
		{strings.Repeat("ring", 100), ""},
	} {
		got, ok := stock.Nearest(tt.word, names)
		assert.Equal(t, tt.want, got, tt.word)
		assert.Equal(t, tt.want != "", ok, tt.word)
	}
	got, ok := stock.Nearest("plla", stock.MaterialNames())
	assert.True(t, ok)
	assert.Equal(t, "pla", got)
}

func TestTablesAreCopies(t *testing.T) {
	stock.Screws()[0].Medium = 99
	stock.Materials()[0].Density = 1
	stock.Kerfs()[0].Width = 9
	stock.Modules()[0].Value = 7
	assert.Equal(t, 2.4, stock.Screws()[0].Medium)
	assert.Equal(t, 1240.0, stock.Materials()[0].Density)
	assert.Equal(t, 0.18, stock.Kerfs()[0].Width)
	assert.Equal(t, 0.2, stock.Modules()[0].Value)
}
