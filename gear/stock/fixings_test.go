package stock_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ringtrack/gear/stock"
)

// printed compares figures with the columns of a row from column i on; a column
// of "-" was not printed.
func printed(t *testing.T, row []string, i int, got ...float64) {
	t.Helper()
	require.Len(t, row, i+len(got), row[0])
	for n, v := range got {
		if row[i+n] != "-" {
			assert.Equal(t, num(t, row[i+n]), v, "%s, column %d", row[0], i+n)
		}
	}
}

func TestSetScrewsAsPrinted(t *testing.T) {
	for _, r := range rows(t, "setscrew.tsv") {
		s, ok := stock.FindSetScrew(strings.ToLower(r[0]))
		require.True(t, ok, r[0])
		printed(t, r, 1, s.Pitch, s.Key, s.SocketShort, s.SocketLong, s.FlatPoint, s.CupPoint, s.Shortest)
	}
}

func TestSetScrewsAreWhole(t *testing.T) {
	names := stock.SetScrewNames()
	assert.Equal(t, "M2 M2.5 M3 M4 M5 M6 M8 #4 #5 #6 #8 #10", strings.Join(names, " "))
	for _, s := range stock.SetScrews() {
		m, ok := stock.FindScrew(s.Name)
		require.True(t, ok, s.Name)
		assert.Equal(t, m.Major, s.Major, s.Name)
		tap, ok := stock.FindTap(s.Name)
		require.True(t, ok, s.Name)
		assert.Equal(t, tap.Pitch, s.Pitch, s.Name)
		assert.Less(t, s.Key*2/math.Sqrt(3), s.Major-s.Pitch, "%s: the socket leaves a wall", s.Name)
		assert.True(t, 0 < s.SocketShort && s.SocketShort <= s.SocketLong, s.Name)
		assert.Less(t, s.CupPoint, s.Major, s.Name)
		assert.NotEmpty(t, s.Source, s.Name)
		assert.NotEmpty(t, s.From, s.Name)
		l := s.Lengths()
		require.NotEmpty(t, l, s.Name)
		assert.Equal(t, s.Shortest, l[0], s.Name)
		assert.Equal(t, s.Longest, l[len(l)-1], s.Name)
		assert.IsIncreasing(t, l, s.Name)
	}
	_, ok := stock.FindSetScrew("M10")
	assert.False(t, ok)
}

// Holes for the key as worked out by hand: 1.155 s + 0.5.
func TestKeyHoles(t *testing.T) {
	for name, want := range map[string]float64{"M3": 2.2, "M4": 2.8, "M5": 3.4} {
		s, _ := stock.FindSetScrew(name)
		assert.InDelta(t, want, s.KeyHole(), 0.05, name)
	}
}

func TestNutsAsPrinted(t *testing.T) {
	for _, r := range rows(t, "hexnut.tsv") {
		n, ok := stock.FindNut("hex", r[0])
		require.True(t, ok, r[0])
		printed(t, r, 1, n.Flats, n.FlatsLow, n.Corners, n.Height, n.HeightLow)
	}
	for _, r := range rows(t, "hexcorner.tsv") {
		n, _ := stock.FindNut("hex", r[0])
		assert.InDelta(t, num(t, r[1]), n.CornersToClear(), 0.005, r[0])
	}
	for _, r := range rows(t, "squarenut.tsv") {
		found := false
		for _, n := range stock.Nuts() {
			if n.Name == r[0] && n.Standard == r[1] {
				found = true
				printed(t, r, 2, n.Flats, n.Height, n.Corners)
			}
		}
		assert.True(t, found, "%v", r)
	}
}

func TestNutsAreWhole(t *testing.T) {
	for _, n := range stock.Nuts() {
		name := n.Standard + " " + n.Name
		s, ok := stock.FindScrew(n.Name)
		require.True(t, ok, name)
		assert.Greater(t, n.Flats, 1.5*s.Major, name)
		assert.Less(t, n.Height, 1.1*s.Major, name)
		assert.True(t, n.FlatsLow < n.Flats && n.HeightLow < n.Height, name)
		assert.LessOrEqual(t, n.Corners, n.CornersToClear(), name)
		assert.Greater(t, n.Corners, n.Flats, name)
		assert.NotEmpty(t, n.Source, name)
		flats, depth := n.Pocket()
		assert.Greater(t, flats, n.Flats, name)
		assert.Greater(t, depth, n.Height, name)
	}
	thin, _ := stock.FindNut("square", "m5")
	assert.Equal(t, "DIN 562", thin.Standard)
	assert.Equal(t, []string{"M2", "M2.5", "M3", "M4", "M5", "M6", "M8"}, stock.NutNames("square"))
	assert.Equal(t, stock.SetScrewNames(), stock.NutNames("hex"))
	_, ok := stock.FindNut("square", "#10")
	assert.False(t, ok)
	_, ok = stock.FindNut("wing", "M3")
	assert.False(t, ok)
}

func TestHeadsAsPrinted(t *testing.T) {
	for _, r := range rows(t, "caphead.tsv") {
		h, ok := stock.FindHead("cap", r[0])
		require.True(t, ok, r[0])
		printed(t, r, 1, h.Diameter, h.Height, h.Key)
	}
	for _, r := range rows(t, "sunkhead.tsv") {
		h, ok := stock.FindHead("countersunk", r[0])
		require.True(t, ok, r[0])
		printed(t, r, 1, h.Diameter, h.Actual, h.Height, h.Key)
		assert.Equal(t, math.Pi/2, h.Angle)
	}
}

func TestHeadsHaveRoom(t *testing.T) {
	for _, h := range stock.Heads() {
		name := h.Kind + " " + h.Name
		s, ok := stock.FindScrew(h.Name)
		require.True(t, ok, name)
		assert.Greater(t, h.Diameter, s.Medium, "%s stops at its hole", name)
		assert.NotEmpty(t, h.Source, name)
		switch h.Kind {
		case "cap":
			assert.Greater(t, h.Bore, h.Diameter, name)
			assert.Greater(t, h.Sink, h.Height, name)
			assert.NotEmpty(t, h.RoomFrom, name)
		case "countersunk":
			// A sharp cone from the head's edge to the shank is as high as the head.
			cone := (h.Diameter - s.Major) / 2 / math.Tan(h.Angle/2)
			assert.InDelta(t, h.Height, cone, 0.02*h.Height+0.05, name)
			assert.Less(t, h.Actual, h.Diameter, name)
		default:
			assert.Equal(t, "button", h.Kind)
		}
	}
	assert.Equal(t, stock.ScrewNames(), stock.HeadNames("cap"))
	assert.Equal(t, stock.ScrewNames(), stock.HeadNames("countersunk"))
	_, ok := stock.FindHead("button", "M2")
	assert.False(t, ok)
}

func TestParallelKeysAsPrinted(t *testing.T) {
	for _, r := range rows(t, "parallelkey.tsv") {
		k, ok := stock.FindParallelKey(num(t, r[1]))
		require.True(t, ok, r[0])
		printed(t, r, 0, k.Over, k.To, k.Width, k.Height, k.Shaft, k.Hub, k.Short, k.Long)
	}
}

func TestParallelKeysAreWhole(t *testing.T) {
	last := 6.0
	for _, k := range stock.ParallelKeys() {
		assert.Equal(t, last, k.Over)
		last = k.To
		room := k.Shaft + k.Hub - k.Height
		assert.GreaterOrEqual(t, room, stock.LeastKeyRoom-1e-12, "width %g", k.Width)
		assert.LessOrEqual(t, room, 0.31, "width %g", k.Width)
		same, ok := stock.ParallelKeyOfWidth(k.Width)
		assert.True(t, ok)
		assert.Equal(t, k, same)
		assert.NotEmpty(t, k.Source)
		assert.NotEmpty(t, k.FitSource)
	}
	for shaft, want := range map[float64]float64{6: 0, 6.001: 2, 8: 2, 8.5: 3, 12: 4, 50: 14, 50.1: 0, 0: 0} {
		k, ok := stock.FindParallelKey(shaft)
		assert.Equal(t, want > 0, ok, "%g", shaft)
		assert.Equal(t, want, k.Width, "%g", shaft)
	}
	_, ok := stock.ParallelKeyOfWidth(7)
	assert.False(t, ok)
	assert.Equal(t, 50.0, last)
}

func TestInsertsAsPrinted(t *testing.T) {
	for _, r := range rows(t, "insert.tsv") {
		n, ok := stock.FindInsert(r[0])
		require.True(t, ok, r[0])
		within := func(lo, hi string, v float64) {
			if lo != "-" {
				assert.True(t, v >= num(t, lo) && v <= num(t, hi), "%s: %g outside %s to %s", r[0], v, lo, hi)
			}
		}
		within(r[1], r[2], n.Outer)
		within(r[1], r[2], n.OuterMost)
		within(r[3], r[4], n.Hole)
		printed(t, r, 5, n.Depth, n.Wall)
	}
}

func TestInsertsAreWhole(t *testing.T) {
	for _, n := range stock.Inserts() {
		s, ok := stock.FindScrew(n.Name)
		require.True(t, ok, n.Name)
		assert.True(t, s.Major < n.Hole && n.Hole < n.Outer && n.Outer <= n.OuterMost, "%s: the knurls bite", n.Name)
		assert.InDelta(t, 0.5, n.Depth-n.Length, 1e-12, n.Name)
		assert.Greater(t, n.Wall, 0.0, n.Name)
		assert.NotEmpty(t, n.Source, n.Name)
		assert.NotEmpty(t, n.From, n.Name)
	}
	assert.Len(t, stock.InsertNames(), len(stock.Inserts()))
	_, ok := stock.FindInsert("#5")
	assert.False(t, ok)
}

func TestTapsAsPrinted(t *testing.T) {
	for _, r := range rows(t, "tap.tsv") {
		tap, ok := stock.FindTap(r[0])
		require.True(t, ok, r[0])
		printed(t, r, 1, tap.Deep, tap.Half)
	}
	for _, tap := range stock.Taps() {
		assert.True(t, tap.Major-1.3*tap.Pitch < tap.Deep && tap.Deep < tap.Half && tap.Half < tap.Major, tap.Name)
		assert.NotEmpty(t, tap.Source, tap.Name)
	}
	coarse, _ := stock.FindTap("#10")
	assert.Equal(t, 25.4/24, coarse.Pitch)
}

func TestPilotHoles(t *testing.T) {
	for name, want := range map[string]float64{"M3": 2.4, "m4": 3.2, "M5": 4} {
		got, ok := stock.Pilot(name)
		assert.True(t, ok)
		assert.InDelta(t, want, got, 1e-12, name)
	}
	_, ok := stock.Pilot("M7")
	assert.False(t, ok)
}

// A clearance hole is never smaller than the screw's shank.
func TestHolesPassTheShank(t *testing.T) {
	for _, r := range rows(t, "shank.tsv") {
		s, ok := stock.FindScrew(r[0])
		require.True(t, ok, r[0])
		assert.Equal(t, num(t, r[1]), s.Major, r[0])
		assert.Greater(t, s.Fine, num(t, r[1]), r[0])
	}
}

func TestFixingTablesAreCopies(t *testing.T) {
	stock.SetScrews()[0].Key = 9
	stock.Nuts()[0].Flats = 9
	stock.Heads()[0].Height = 9
	stock.ParallelKeys()[0].Width = 9
	stock.Inserts()[0].Hole = 9
	stock.Taps()[0].Deep = 9
	m2, _ := stock.FindSetScrew("M2")
	m2.Lengths()[0] = 99
	assert.Equal(t, 0.9, stock.SetScrews()[0].Key)
	assert.Equal(t, 4.0, stock.Nuts()[0].Flats)
	assert.Equal(t, 2.0, stock.Heads()[0].Height)
	assert.Equal(t, 2.0, stock.ParallelKeys()[0].Width)
	assert.Equal(t, 2.9, stock.Inserts()[0].Hole)
	assert.Equal(t, 1.6, stock.Taps()[0].Deep)
	assert.Equal(t, 2.0, m2.Lengths()[0])
}
