// Package outline reads the toothed outline of a part from a file, whoever drew
// it: DXF, SVG, or the section of an STL at half its height.
//
// Lengths come out in mm. Of a pinion's file the outermost outline is taken; of
// a ring's the largest one inside that, or the only one there is. Outlines are
// turned so that a pinion's runs counter-clockwise and a ring's clockwise, as
// package plane has regions. The axis is the file's origin unless the outline
// lies clearly off it: then it is the middle of its area, and a remark says so.
//
// Errors are those of the formats' readers, and of files that hold no such
// outline. No function panics.
package outline

import (
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"sort"
	"strings"

	"ringtrack/export/dxf"
	"ringtrack/export/svg"
	"ringtrack/gear/plane"
)

// Side says which member a file holds.
type Side int

// The sides.
const (
	Pinion Side = iota
	Ring
)

// Outline is a toothed outline read from a file.
type Outline struct {
	Loop    plane.Loop
	Remarks []string // what was assumed or skipped
}

// offAxis is how far, over its mean radius, an outline's middle may lie from the
// file's origin before the origin is not taken for its axis.
const offAxis = 0.05

// ReadFile reads one member's toothed outline. The format follows from the
// name: .dxf, .svg or .stl.
func ReadFile(path string, side Side) (Outline, error) { return ReadFileAcross(path, side, 0) }

// ReadFileAcross is ReadFile for a drawing with gaps, as ReadAcross.
func ReadFileAcross(path string, side Side, gap float64) (Outline, error) {
	f, err := os.Open(path)
	if err != nil {
		return Outline{}, err
	}
	defer f.Close()
	if info, err := f.Stat(); err == nil && info.IsDir() {
		return Outline{}, fmt.Errorf("%s is a folder; a file with an outline is wanted", path)
	}
	format := strings.ToLower(strings.TrimPrefix(filepath.Ext(path), "."))
	o, err := ReadAcross(f, format, side, math.NaN(), gap)
	if err != nil {
		return Outline{}, fmt.Errorf("%s: %w", path, err)
	}
	return o, nil
}

// Read reads one member's toothed outline of the given format: dxf, svg or stl.
func Read(r io.Reader, format string, side Side) (Outline, error) {
	return ReadAt(r, format, side, math.NaN())
}

// ReadAt is Read for a part whose teeth stand at the height z, mm: where the
// section of an STL is taken. NaN stands for half the part's height.
func ReadAt(r io.Reader, format string, side Side, z float64) (Outline, error) {
	return ReadAcross(r, format, side, z, 0)
}

// ReadAcross is ReadAt for a drawing whose outlines have gaps of up to gap mm,
// where a part was left in its sheet: they are bridged straight. 0 stands for
// what formats round away.
func ReadAcross(r io.Reader, format string, side Side, z, gap float64) (Outline, error) {
	var loops []plane.Loop
	var remarks []string
	switch format {
	case "dxf":
		res, err := dxf.Read(r, dxf.Limits{Join: gap})
		if err != nil {
			return Outline{}, err
		}
		for _, o := range res.Outlines {
			loops = append(loops, o.Loop)
		}
		remarks = res.Remarks
		if res.Assumed && res.Unit != "inch" {
			remarks = append(remarks, "the file names no unit: millimetres are assumed")
		}
	case "svg":
		res, err := svg.Read(r, svg.Limits{Join: gap})
		if err != nil {
			return Outline{}, err
		}
		for _, o := range res.Outlines {
			loops = append(loops, o.Loop)
		}
		remarks = res.Remarks
		if res.Assumed {
			remarks = append(remarks, "the file gives no size in real units: 96 units an inch are assumed")
		}
	case "stl":
		var err error
		if loops, err = section(r, z); err != nil {
			return Outline{}, err
		}
	default:
		return Outline{}, fmt.Errorf("files of the kind %q are not read; .dxf, .svg and .stl are", format)
	}
	l, err := choose(loops, side)
	if err != nil {
		return Outline{}, err
	}
	l, remark := centred(l)
	if remark != "" {
		remarks = append(remarks, remark)
	}
	return Outline{l, remarks}, nil
}

// choose picks the toothed outline and turns it the right way round.
func choose(loops []plane.Loop, side Side) (plane.Loop, error) {
	if len(loops) == 0 {
		return plane.Loop{}, fmt.Errorf("the file holds no closed outline")
	}
	area := make(map[int]float64, len(loops))
	order := make([]int, len(loops))
	for i, l := range loops {
		order[i], area[i] = i, l.Area()
	}
	sort.SliceStable(order, func(a, b int) bool { return math.Abs(area[order[a]]) > math.Abs(area[order[b]]) })
	pick := order[0]
	if side == Ring && len(order) > 1 {
		pick = order[1]
	}
	l := loops[pick]
	if (area[pick] > 0) != (side == Pinion) {
		l = l.Reverse()
	}
	return l, nil
}

// centred moves the loop so that its axis lies at the origin.
func centred(l plane.Loop) (plane.Loop, string) {
	c, r := middle(l)
	if c.Len() <= offAxis*r {
		return l, ""
	}
	l = l.Map(plane.Moved(c.Mul(-1)))
	l.Centre = plane.Vec{}
	return l, fmt.Sprintf("the outline lies about (%.3f, %.3f) mm, off the file's origin; its middle is taken for its axis", c.X, c.Y)
}

// middle returns the centre of the loop's area and the radius of a circle of
// the same area.
func middle(l plane.Loop) (plane.Vec, float64) {
	pts := l.Flatten(0.01)
	var c plane.Vec
	sum := 0.0
	for i, a := range pts {
		b := pts[(i+1)%len(pts)]
		k := a.Cross(b)
		sum += k
		c = c.Add(a.Add(b).Mul(k))
	}
	if sum == 0 {
		return plane.Vec{}, 0
	}
	return c.Mul(1 / (3 * sum)), math.Sqrt(math.Abs(sum) / 2 / math.Pi)
}
