package sheet_test

import (
	"bytes"
	"math"
	"os"
	"path/filepath"
	"sort"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"github.com/tdewolff/canvas"

	"ringtrack/export/dxf"
	"ringtrack/export/figure"
	"ringtrack/export/sheet"
	"ringtrack/export/svg"
	"ringtrack/gear"
	"ringtrack/gear/drive"
	"ringtrack/gear/part"
	"ringtrack/gear/plane"
)

const kerf = 0.2

// cutPart draws a body for a cutter with the kerf of the tests.
func cutPart(t testing.TB, b part.Body) sheet.CutPart {
	t.Helper()
	b.Contours = append([]part.Contour{}, b.Contours...)
	_, err := b.Draw(gear.Making{Kerf: kerf})
	require.NoError(t, err)
	return sheet.CutPart{Name: b.Name, Region: b.DrawnRegion(), Kerf: kerf}
}

func tabbed(p sheet.CutPart, tabs sheet.Tabs) sheet.CutPart {
	p.Tabs = tabs
	return p
}

func cutParts(t testing.TB, d *drive.Design) (pinion, ring sheet.CutPart) {
	return cutPart(t, d.Pinion.Body), cutPart(t, d.Ring.Body)
}

// sector flattens three pitches about +x of a counter-clockwise toothed loop
// into another library's path, closed through the centre.
func sector(l plane.Loop, chord, pitch float64) *canvas.Path {
	var pts []plane.Vec
	for _, v := range l.Map(plane.Turned(math.Pi)).Flatten(chord) { // so that the seam lies opposite
		if v = v.Turn(-math.Pi); math.Abs(v.Angle()) < 1.5*pitch {
			pts = append(pts, v)
		}
	}
	sort.SliceStable(pts, func(i, j int) bool { return pts[i].Angle() < pts[j].Angle() })
	p := &canvas.Path{}
	p.MoveTo(0, 0)
	for _, v := range pts {
		p.LineTo(v.X, v.Y)
	}
	p.Close()
	return p
}

// TestKerfGivesBackTheDesign: half the kerf taken from the cut path that a DXF
// holds, by another library's offset, leaves the designed outline to 2 um. Where
// the beam rounds a corner there is nothing to compare.
func TestKerfGivesBackTheDesign(t *testing.T) {
	d := design(t, "tray-rotator")
	pinion, ring := cutParts(t, d)
	for _, tt := range []struct {
		part     sheet.CutPart
		body     part.Body
		outwards int // canvas: positive grows the enclosed area
	}{{pinion, d.Pinion.Body, -1}, {ring, d.Ring.Body, 1}} {
		drawing, err := sheet.Cut(tt.part)
		require.NoError(t, err)
		var b bytes.Buffer
		require.NoError(t, dxf.Write(&b, drawing, dxf.Options{}))
		res, err := dxf.Read(&b, dxf.Limits{})
		require.NoError(t, err)
		teeth, ok := tt.body.Contour(part.TeethContour)
		require.True(t, ok)
		designed := teeth.Designed
		var cut plane.Loop
		for _, o := range res.Outlines {
			if len(o.Loop.Unit) > 2*designed.Turns() {
				cut = o.Loop
			}
		}
		require.NotEmpty(t, cut.Unit)
		if cut.Area() < 0 {
			cut = cut.Reverse()
		}
		canvas.Tolerance = 2e-4
		pitch := 2 * math.Pi / float64(designed.Turns())
		made := sector(cut, 2e-4, pitch).Offset(float64(tt.outwards)*kerf/2, 2e-4)
		worst, points := 0.0, 0
		near := nearLoop(designed)
		for _, c := range made.Coords() {
			p := plane.Vec{X: c.X, Y: c.Y}
			if math.Abs(p.Angle()) < pitch/2 && p.Len() > 0.7*designed.Unit[0].At(0).Len() {
				worst = math.Max(worst, near.Distance(p))
				points++
			}
		}
		t.Logf("%s: %d points within %.2g mm of the design", tt.part.Name, points, worst)
		require.Greater(t, points, 20)
		require.Less(t, worst, 0.002)
	}
}

// nearLoop returns three pitches of a toothed loop.
func nearLoop(l plane.Loop) plane.Loop {
	out := plane.Loop{Fold: 1}
	for i := -1; i <= 1; i++ {
		m := plane.Turned(2 * math.Pi / float64(l.Turns()) * float64(i))
		for _, p := range l.Unit {
			out.Unit = append(out.Unit, p.Map(m))
		}
	}
	return out
}

// TestCutOrder: nothing is cut after what encloses it.
func TestCutOrder(t *testing.T) {
	d := design(t, "seedling-carousel")
	pinion, ring := cutParts(t, d)
	pinion.Copies = 3
	pinion.Engrave = []plane.Loop{plane.CircleLoop(plane.Vec{X: 8}, 0.5)}
	sheets, err := sheet.CutSheets([]sheet.CutPart{ring, pinion}, sheet.NestOptions{Width: 320, Height: 320, Edge: 5, Spacing: 3, Openings: true})
	require.NoError(t, err)
	require.Len(t, sheets, 1)
	list := sheets[0].Drawing.Outlines
	require.Len(t, list, 1+1+8+3*3)
	for i, o := range list {
		for _, later := range list[i+1:] {
			if later.Layer == figure.Engrave {
				require.Equal(t, figure.Engrave, o.Layer)
				continue
			}
			require.Less(t, math.Abs(o.Loop.Area()), math.Abs(later.Loop.Area())*(1+1e-9))
			if o.Layer != figure.Engrave {
				require.False(t, o.Loop.Contains(later.Loop.Unit[0].At(0.5)), "an outline inside one that is cut before it")
			}
		}
	}
	notes := strings.Join(sheets[0].Drawing.Notes, "\n")
	for _, s := range []string{"a kerf of 0.2 mm is already in", "order of the file", "turn one member", "becomes parts"} {
		require.Contains(t, notes, s)
	}
	writeCut(t, "nested", sheets[0].Drawing)
}

func writeCut(t *testing.T, name string, d figure.Drawing) {
	t.Helper()
	var b, c bytes.Buffer
	require.NoError(t, svg.Write(&b, d, svg.Options{}))
	require.NoError(t, dxf.Write(&c, d, dxf.Options{}))
	dir := folder(t)
	require.NoError(t, os.WriteFile(filepath.Join(dir, name+".svg"), b.Bytes(), 0o644))
	require.NoError(t, os.WriteFile(filepath.Join(dir, name+".dxf"), c.Bytes(), 0o644))
}

// TestNestKeepsPartsApart: on every sheet all parts lie inside the edge and no
// outside comes nearer to another part than the spacing.
func TestNestKeepsPartsApart(t *testing.T) {
	d := design(t, "seedling-carousel")
	pinion, ring := cutParts(t, d)
	for _, tt := range []struct {
		rings, pinions int
		openings       bool
		sheets         int
	}{{1, 30, true, 2}, {2, 10, true, 2}, {2, 1, false, 3}, {0, 40, false, 2}} {
		var parts []sheet.CutPart
		if tt.rings > 0 {
			ring.Copies = tt.rings
			parts = append(parts, ring)
		}
		pinion.Copies = tt.pinions
		parts = append(parts, pinion)
		opt := sheet.NestOptions{Width: 310, Height: 305, Edge: 4, Spacing: 2, Openings: tt.openings}
		sheets, err := sheet.CutSheets(parts, opt)
		require.NoError(t, err)
		total, area := 0, 0.0
		for _, s := range sheets {
			total += len(s.Placed)
			area += s.Used * opt.Width * opt.Height
			require.Greater(t, s.Used, 0.0)
			require.Less(t, s.Used, 1.0)
			var polys [][]plane.Vec
			var loops []plane.Loop
			for _, p := range s.Placed {
				r := pinion.Region
				if p.Name == "ring" {
					r = ring.Region
				}
				for _, l := range r.Loops() {
					m := l.Map(plane.Moved(p.At))
					b := m.Box()
					require.GreaterOrEqual(t, math.Min(b.Min.X, b.Min.Y), opt.Edge-1e-6)
					require.LessOrEqual(t, b.Max.X, opt.Width-opt.Edge+1e-6)
					require.LessOrEqual(t, b.Max.Y, opt.Height-opt.Edge+1e-6)
				}
				outer := r.Outer.Map(plane.Moved(p.At))
				loops, polys = append(loops, outer), append(polys, outer.Flatten(0.3))
			}
			for i := range loops {
				for k := range loops {
					if i == k || s.Placed[i].Name == "ring" || s.Placed[k].Name == "ring" {
						continue
					}
					c := loops[k].Centre.Sub(loops[i].Centre).Len()
					_, r := loops[i].Radii()
					if c < 2*r+opt.Spacing { // boxes are what is kept apart
						for _, p := range polys[i] {
							if p.Sub(loops[k].Centre).Len() > r+opt.Spacing {
								continue
							}
							require.GreaterOrEqual(t, loops[k].Distance(p), opt.Spacing-0.31)
						}
					}
				}
			}
		}
		want := float64(tt.pinions)*pinion.Region.Area() + float64(tt.rings)*ring.Region.Area()
		require.Equal(t, tt.rings+tt.pinions, total)
		require.InEpsilon(t, want, area, 1e-9)
		require.Len(t, sheets, tt.sheets)
		t.Logf("%d rings, %d pinions, openings %v: %d sheets, %.0f %% of the first used", tt.rings, tt.pinions, tt.openings, len(sheets), 100*sheets[0].Used)
	}
}

// TestTabs: bridges of their width stand on tip lands of the pinion and on the
// ring's outside, never on a flank or in a hole.
func TestTabs(t *testing.T) {
	d := design(t, "seedling-carousel")
	pinion, ring := cutParts(t, d)
	for _, p := range []sheet.CutPart{pinion, ring} {
		drawing, err := sheet.Cut(tabbed(p, sheet.Tabs{Count: 4, Width: 0.5}))
		require.NoError(t, err)
		require.Contains(t, strings.Join(drawing.Notes, "\n"), "4 bridges of 0.5 mm")
		for _, o := range drawing.Outlines {
			if o.Layer != figure.CutOutside {
				require.Empty(t, o.Bridges)
				continue
			}
			require.Len(t, o.Bridges, 4)
			_, greatest := o.Loop.Radii()
			for _, b := range o.Bridges {
				require.InDelta(t, greatest, b.At.Len(), 1e-6)
			}
		}
		writeCut(t, p.Name+"-tabs", drawing)
	}
	_, err := sheet.Cut(tabbed(pinion, sheet.Tabs{Count: 4, Width: 3}))
	require.ErrorContains(t, err, "no place for 4 bridges of 3 mm")
	_, err = sheet.Cut(tabbed(pinion, sheet.Tabs{Count: 65, Width: 0.5}))
	require.ErrorContains(t, err, "65 bridges")
	_, err = sheet.Cut(tabbed(pinion, sheet.Tabs{Count: 4, Width: math.NaN()}))
	require.ErrorContains(t, err, "bridges of NaN mm")
}

func TestCutRefuses(t *testing.T) {
	d := design(t, "seedling-carousel")
	pinion, ring := cutParts(t, d)
	nest := sheet.NestOptions{Width: 320, Height: 320, Edge: 5, Spacing: 3}
	small, tight, nan := nest, nest, nest
	small.Width, tight.Spacing, nan.Height = 200, 0.1, math.NaN()
	for _, tt := range []struct {
		parts []sheet.CutPart
		opt   sheet.NestOptions
		want  string
	}{
		{[]sheet.CutPart{ring}, small, "ring measures"},
		{[]sheet.CutPart{ring}, tight, "a spacing of 0.1 mm"},
		{[]sheet.CutPart{ring}, nan, "a sheet of 320 by NaN mm"},
		{nil, nest, "no part"},
		{[]sheet.CutPart{{Name: "empty"}}, nest, "no outside"},
		{[]sheet.CutPart{{Name: "pinion", Region: pinion.Region, Kerf: -1}}, nest, "a kerf of -1"},
	} {
		_, err := sheet.CutSheets(tt.parts, tt.opt)
		require.ErrorContains(t, err, tt.want)
	}
}

// TestLayers: 10 mm of face from sheet of 2.9 mm measured are four layers with
// dowel holes clear of teeth and screw holes.
func TestLayers(t *testing.T) {
	d := design(t, "seedling-carousel")
	_, ring := cutParts(t, d)
	opt := sheet.StackOptions{Face: 10, Sheet: 2.9, Dowels: 4, Dowel: 3, DowelCircle: d.Ring.Holes.Circle, Wall: 2}
	s, err := sheet.Layers(ring, opt)
	require.NoError(t, err)
	require.Equal(t, 4, s.Layers)
	require.Equal(t, 4, s.Part.Copies)
	require.InDelta(t, 11.6, s.Height, 1e-9)
	require.InDelta(t, 1.6, s.Over, 1e-9)
	require.Greater(t, s.Clear, 2.0)
	require.Len(t, s.Part.Region.Holes, len(ring.Region.Holes)+4)
	require.Len(t, ring.Region.Holes, 9, "the part given is unchanged")
	last := s.Part.Region.Holes[len(s.Part.Region.Holes)-1]
	require.InDelta(t, -math.Pi*(3-kerf)*(3-kerf)/4, last.Area(), 1e-9)
	require.InDelta(t, d.Ring.Holes.Circle/2, last.Centre.Len(), 1e-9)
	for _, tt := range []struct {
		change func(*sheet.StackOptions)
		want   string
	}{
		{func(o *sheet.StackOptions) { o.Dowel = 12 }, "leave at most"},
		{func(o *sheet.StackOptions) { o.DowelCircle = 100 }, "leave at most"},
		{func(o *sheet.StackOptions) { o.Sheet = 0 }, "sheet 0 mm thick"},
		{func(o *sheet.StackOptions) { o.Face = -1 }, "face width"},
		{func(o *sheet.StackOptions) { o.Dowels = 1 }, "1 dowels"},
		{func(o *sheet.StackOptions) { o.Dowel = 0.1 }, "dowels of 0.1"},
	} {
		o := opt
		tt.change(&o)
		_, err := sheet.Layers(ring, o)
		require.ErrorContains(t, err, tt.want)
	}
}
