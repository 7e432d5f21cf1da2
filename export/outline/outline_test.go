package outline_test

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"ringtrack/export/dxf"
	"ringtrack/export/figure"
	"ringtrack/export/outline"
	"ringtrack/export/stl"
	"ringtrack/export/svg"
	"ringtrack/gear"
	"ringtrack/gear/plane"
	"ringtrack/gear/roll"
	"ringtrack/gear/solid"
)

const chord = 0.005

// example is the pair whose files are rolled here: 15 and 104 teeth, module 2.5.
func example(t testing.TB) *gear.Pair {
	p, found := gear.Resolve(gear.Wish{
		Module: 2.5, PressureAngle: 20 * math.Pi / 180, Share: 0.5, RackType: 'A', LeastTip: 0.5, Spread: 0.1,
		Pinion: gear.MemberWish{Teeth: 15}, Ring: gear.MemberWish{Teeth: 104}, Backlash: gear.Fixed(0.3),
	})
	require.Empty(t, found)
	return p
}

func regions(p *gear.Pair) (pinion, ring plane.Region) {
	bore := plane.CircleLoop(plane.Vec{}, 3).Reverse()
	pinion = plane.Region{Outer: p.Pinion.Outline(), Holes: []plane.Loop{bore}}
	ring = plane.Region{Outer: plane.CircleLoop(plane.Vec{}, 146), Holes: []plane.Loop{p.Ring.Outline()}}
	for i := range 8 {
		hole := plane.CircleLoop(plane.Polar(140, float64(i)*math.Pi/4), 2).Reverse()
		ring.Holes = append(ring.Holes, hole)
	}
	return pinion, ring
}

// write returns a region as a file of the format.
func write(t testing.TB, r plane.Region, format string) []byte {
	var b bytes.Buffer
	var err error
	switch format {
	case "dxf":
		err = dxf.Write(&b, figure.Part(r), dxf.Options{Chord: chord})
	case "svg":
		err = svg.Write(&b, figure.Part(r), svg.Options{Chord: chord})
	case "stl":
		var m *solid.Mesh
		if m, err = solid.Prism(r, 0, 10, chord); err == nil {
			err = stl.Write(&b, m, stl.Options{})
		}
	}
	require.NoError(t, err)
	return b.Bytes()
}

func read(t testing.TB, data []byte, format string, side outline.Side) plane.Loop {
	o, err := outline.Read(bytes.NewReader(data), format, side)
	require.NoError(t, err)
	require.Empty(t, o.Remarks)
	return o.Loop
}

func rolled(t testing.TB, p *gear.Pair, pinion, ring plane.Loop) roll.Result {
	r, err := roll.Roll(context.Background(),
		roll.Pair{Pinion: pinion, Ring: ring, CentreDistance: p.CentreDistance},
		roll.Options{BaseRing: p.Ring.BaseDiameter / 2, Join: 1e-5})
	require.NoError(t, err)
	require.Equal(t, 15, r.PinionTeeth)
	require.Equal(t, 104, r.RingTeeth)
	return r
}

// TestFilesRollAsDesigned rolls the written bytes of every format: play and
// transmission error may differ from the design by what the chords allow, twice
// the tolerance, and the format's rounding.
func TestFilesRollAsDesigned(t *testing.T) {
	p := example(t)
	pinion, ring := regions(p)
	for format, rounding := range map[string]float64{
		"dxf": 1e-7, "svg": 1e-6,
		"stl": 2 * 7.6e-6, // float32 at 146 mm, on both members
	} {
		t.Run(format, func(t *testing.T) {
			r := rolled(t, p, read(t, write(t, pinion, format), format, outline.Pinion), read(t, write(t, ring, format), format, outline.Ring))
			require.Nil(t, r.Binding)
			within := 2*chord/math.Cos(p.WorkingPressureAngle) + 2*rounding
			require.InDelta(t, 0.3, r.Backlash.Least.Arc, within)
			require.InDelta(t, 0.3, r.Backlash.Greatest.Arc, within)
			require.LessOrEqual(t, r.Backlash.Greatest.Arc, 0.3+2*rounding, "vertices lie on the curves, and chords only leave the ring, whose flanks are hollow")
			require.Less(t, r.Forward.Error.Action, 2*chord+2*rounding)
			require.Less(t, r.Backward.Error.Action, 2*chord+2*rounding)
		})
	}
}

// vertices calls f with every vertex of a DXF's polylines and writes what it
// returns in its place.
func vertices(data []byte, f func(x, y float64) (float64, float64)) []byte {
	lines := strings.Split(string(data), "\n")
	for i := 0; i+3 < len(lines); i++ {
		if strings.TrimSpace(lines[i]) != "10" || strings.TrimSpace(lines[i+2]) != "20" {
			continue
		}
		x, e1 := strconv.ParseFloat(strings.TrimSpace(lines[i+1]), 64)
		y, e2 := strconv.ParseFloat(strings.TrimSpace(lines[i+3]), 64)
		if e1 != nil || e2 != nil {
			continue
		}
		nx, ny := f(x, y)
		lines[i+1], lines[i+3] = fmt.Sprintf("%.7f", nx), fmt.Sprintf("%.7f", ny)
	}
	return []byte(strings.Join(lines, "\n"))
}

// TestMovedToothIsFound turns one tooth of the ring by 0.3 mm in the written
// file: the play falls by that much, at that tooth.
func TestMovedToothIsFound(t *testing.T) {
	p := example(t)
	pinion, ring := regions(p)
	const tooth, moved = 31, 0.2 // between spaces 31 and 32
	pitch := 2 * math.Pi / 104
	middle := (tooth + 0.5) * pitch
	shift := moved / (p.Ring.WorkingDiameter / 2)
	data := vertices(write(t, ring, "dxf"), func(x, y float64) (float64, float64) {
		v := plane.Vec{X: x, Y: y}
		d := math.Mod(v.Angle()-middle+3*math.Pi, 2*math.Pi) - math.Pi
		if v.Len() < 133.4 && math.Abs(d) < pitch*0.42 {
			v = v.Turn(shift)
		}
		return v.X, v.Y
	})
	r := rolled(t, p, read(t, write(t, pinion, "dxf"), "dxf", outline.Pinion), read(t, data, "dxf", outline.Ring))
	require.Nil(t, r.Binding, "0.2 mm are less than the play")
	require.InDelta(t, 0.3-moved, r.Backlash.Least.Arc, 2*2*chord)
	at := r.Backlash.LeastAt
	require.Contains(t, []int{31, 32}, spaceAt(at), "the spaces beside the tooth")

	// Moved by more than the play it binds there.
	shift = 0.45 / (p.Ring.WorkingDiameter / 2)
	data = vertices(write(t, ring, "dxf"), func(x, y float64) (float64, float64) {
		v := plane.Vec{X: x, Y: y}
		d := math.Mod(v.Angle()-middle+3*math.Pi, 2*math.Pi) - math.Pi
		if v.Len() < 133.4 && math.Abs(d) < pitch*0.42 {
			v = v.Turn(shift)
		}
		return v.X, v.Y
	})
	r = rolled(t, p, read(t, write(t, pinion, "dxf"), "dxf", outline.Pinion), read(t, data, "dxf", outline.Ring))
	require.NotNil(t, r.Binding)
	require.InDelta(t, 0.45-0.3, r.Binding.By.Arc, 2*2*chord)
	require.Contains(t, []int{31, 32}, spaceAt(r.Binding.At))
}

func spaceAt(v roll.Interval) int {
	k := int(math.Round(-v.Exact / (2 * math.Pi) * 104))
	return ((k % 104) + 104) % 104
}

// TestVertexInFlankIsFound pushes one vertex of a ring flank into the space.
func TestVertexInFlankIsFound(t *testing.T) {
	p := example(t)
	pinion, ring := regions(p)
	const space, pushed = 57, 0.12
	pitch := 2 * math.Pi / 104
	best, at := math.Inf(1), plane.Vec{}
	file := write(t, ring, "dxf")
	vertices(file, func(x, y float64) (float64, float64) {
		v := plane.Vec{X: x, Y: y}
		d := math.Mod(v.Angle()-space*pitch+3*math.Pi, 2*math.Pi) - math.Pi
		if m := math.Abs(v.Len() - p.Ring.WorkingDiameter/2); d > 0 && d < pitch/2 && m < best {
			best, at = m, v
		}
		return x, y
	})
	require.Less(t, best, 1.5)
	data := vertices(file, func(x, y float64) (float64, float64) {
		if x == at.X && y == at.Y {
			v := at.Turn(-pushed / at.Len())
			return v.X, v.Y
		}
		return x, y
	})
	require.NotEqual(t, file, data)
	r := rolled(t, p, read(t, write(t, pinion, "dxf"), "dxf", outline.Pinion), read(t, data, "dxf", outline.Ring))
	require.Equal(t, space, spaceAt(r.Backlash.LeastAt))
	require.InDelta(t, 0.3-pushed, r.Backlash.Least.Arc, 4*chord)
}

// TestOffOriginIsCentred: an outline far from its file's origin is taken about
// its own middle, and that is said.
func TestOffOriginIsCentred(t *testing.T) {
	p := example(t)
	pinion, _ := regions(p)
	o, err := outline.Read(bytes.NewReader(write(t, pinion.Map(plane.Moved(plane.Vec{X: 100, Y: 40})), "svg")), "svg", outline.Pinion)
	require.NoError(t, err)
	require.Len(t, o.Remarks, 1)
	_, greatest := o.Loop.Radii()
	require.InDelta(t, p.Pinion.TipDiameter/2, greatest, 0.01)
}

// TestStandardsOfDirection: whichever way a file's outline runs, a pinion comes
// out counter-clockwise and a ring clockwise.
func TestStandardsOfDirection(t *testing.T) {
	p := example(t)
	pinion, ring := regions(p)
	for _, turn := range []bool{false, true} {
		flip := func(r plane.Region) plane.Region {
			if turn {
				r.Outer = r.Outer.Reverse()
				for i := range r.Holes {
					r.Holes[i] = r.Holes[i].Reverse()
				}
			}
			return r
		}
		require.Positive(t, read(t, write(t, flip(pinion), "dxf"), "dxf", outline.Pinion).Area())
		l := read(t, write(t, flip(ring), "dxf"), "dxf", outline.Ring)
		require.Negative(t, l.Area())
		least, _ := l.Radii()
		require.InDelta(t, p.Ring.TipDiameter/2, least, 0.01)
	}
}

// TestRefusesBadFiles: each is answered with an error, none with a panic.
func TestRefusesBadFiles(t *testing.T) {
	liar := make([]byte, 84)
	copy(liar, "a header")
	liar[80], liar[81], liar[82], liar[83] = 0, 0x28, 0x6b, 0xee // four thousand million facets
	p := example(t)
	pinion, _ := regions(p)
	mesh, err := solid.Prism(pinion, 0, 5, 0.05)
	require.NoError(t, err)
	mesh.Facets = mesh.Facets[:len(mesh.Facets)-9]
	var open bytes.Buffer
	require.NoError(t, stl.Write(&open, mesh, stl.Options{}))
	for name, tt := range map[string]struct {
		format string
		data   []byte
	}{
		"empty dxf":     {"dxf", nil},
		"empty svg":     {"svg", nil},
		"empty stl":     {"stl", nil},
		"liar stl":      {"stl", liar},
		"open stl":      {"stl", open.Bytes()},
		"unknown kind":  {"bmp", []byte("x")},
		"no outline":    {"svg", []byte(`<svg xmlns="http://www.w3.org/2000/svg" width="1mm" height="1mm" viewBox="0 0 1 1"/>`)},
		"crossing flag": {"svg", []byte(`<svg xmlns="http://www.w3.org/2000/svg" width="1mm" height="1mm" viewBox="0 0 1 1"><path d="M 0 0 L 1 1"/></svg>`)},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := outline.Read(bytes.NewReader(tt.data), tt.format, outline.Pinion)
			require.Error(t, err)
		})
	}
}

// FuzzRead feeds bytes to every reader: an answer or an error, never a panic.
func FuzzRead(f *testing.F) {
	p := example(f)
	pinion, _ := regions(p)
	for i, format := range []string{"dxf", "svg", "stl"} {
		data := write(f, plane.Region{Outer: plane.CircleLoop(plane.Vec{}, 5)}, format)
		f.Add(byte(i), data)
	}
	f.Add(byte(1), write(f, pinion, "svg")[:2000])
	f.Fuzz(func(t *testing.T, kind byte, data []byte) {
		format := []string{"dxf", "svg", "stl"}[int(kind)%3]
		_, _ = outline.Read(io.LimitReader(bytes.NewReader(data), 1<<20), format, outline.Side(kind/3%2))
	})
}
