package sheet

import (
	"fmt"
	"math"

	"ringtrack/gear/plane"
)

// StackOptions of Layers: a face width made of several layers of sheet, held
// in line by dowels.
type StackOptions struct {
	Face        float64 // mm to be reached
	Sheet       float64 // mm, thickness as MEASURED: sheets are rarely what they are sold as
	Dowels      int     // 2..24
	Dowel       float64 // mm, diameter of the finished holes
	DowelCircle float64 // mm, diameter through their middles
	Wall        float64 // mm, least material round a dowel hole
}

// Stack is a part in layers.
type Stack struct {
	Part   CutPart // one layer, with dowel holes; as many copies as layers
	Layers int
	Height float64 // mm, of all layers
	Over   float64 // mm by which that is more than the face asked for
	Angle  float64 // radians, of the first dowel
	Clear  float64 // mm, least material round a dowel hole
}

// Layers returns the part as the least number of layers that reach the face
// width. The dowel holes are drawn smaller by the kerf. They are turned to
// where they have most material round them.
//
// Errors: a number out of range; *FitError when there is no angle at which every
// dowel hole keeps its wall.
func Layers(p CutPart, opt StackOptions) (Stack, error) {
	if err := opt.check(p); err != nil {
		return Stack{}, fmt.Errorf("sheet: layers: %s: %w", p.Name, err)
	}
	s := Stack{Layers: int(math.Ceil(opt.Face/opt.Sheet - 1e-9))}
	s.Height = float64(s.Layers) * opt.Sheet
	s.Over = math.Max(0, s.Height-opt.Face)
	s.Angle, s.Clear = opt.roomiest(p.Region)
	if s.Clear < opt.Wall {
		return Stack{}, fmt.Errorf("sheet: layers: %w", &FitError{DowelWall, p.Name, s.Clear, opt.Wall, fmt.Sprintf("%s: %d dowel holes of %g mm on a circle of %g mm leave at most %.3g mm of material; %g are needed",
			p.Name, opt.Dowels, opt.Dowel, opt.DowelCircle, s.Clear, opt.Wall)})
	}
	s.Part = p
	s.Part.Copies = s.Layers * max(p.Copies, 1)
	s.Part.Region.Holes = append([]plane.Loop{}, p.Region.Holes...)
	for _, c := range opt.places(p.Region, s.Angle) {
		s.Part.Region.Holes = append(s.Part.Region.Holes, plane.CircleLoop(c, (opt.Dowel-p.Kerf)/2).Reverse())
	}
	return s, nil
}

func (o StackOptions) check(p CutPart) error {
	switch {
	case !(o.Sheet >= 0.2 && o.Sheet <= 100):
		return fmt.Errorf("sheet %g mm thick; 0.2 to 100 is allowed", o.Sheet)
	case !(o.Face > 0 && o.Face <= 100*o.Sheet):
		return fmt.Errorf("a face width of %g mm in layers of %g mm; 1 to 100 layers are made", o.Face, o.Sheet)
	case o.Dowels < 2 || o.Dowels > 24:
		return fmt.Errorf("%d dowels; 2 to 24 hold layers in line", o.Dowels)
	case !(o.Dowel > p.Kerf && o.Dowel <= 50):
		return fmt.Errorf("dowels of %g mm; more than the kerf and at most 50 is allowed", o.Dowel)
	case !(o.DowelCircle > 0 && o.DowelCircle <= 1e4):
		return fmt.Errorf("a dowel circle of %g mm", o.DowelCircle)
	case !(o.Wall >= 0):
		return fmt.Errorf("a wall of %g mm", o.Wall)
	}
	return nil
}

func (o StackOptions) places(r plane.Region, angle float64) []plane.Vec {
	out := make([]plane.Vec, o.Dowels)
	for i := range out {
		out[i] = r.Outer.Centre.Add(plane.Polar(o.DowelCircle/2, angle+2*math.Pi*float64(i)/float64(o.Dowels)))
	}
	return out
}

// roomiest returns the first angle of the dowels, of 72 tried, at which the
// narrowest wall round a finished hole is widest, and that wall; negative when
// a hole leaves the part at every angle.
func (o StackOptions) roomiest(r plane.Region) (angle, clear float64) {
	const tries = 72
	clear = math.Inf(-1)
	m := newMaterial(r)
	for i := range tries {
		a := 2 * math.Pi / float64(o.Dowels) * float64(i) / tries
		least := math.Inf(1)
		for _, c := range o.places(r, a) {
			if least = math.Min(least, m.depth(c, clear+o.Dowel/2)-o.Dowel/2); least <= clear {
				break
			}
		}
		if least > clear+1e-9 {
			angle, clear = a, least
		}
	}
	return angle, clear
}

// material is a region with its loops as polygons, which say on which side a
// point lies.
type material struct {
	loops []plane.Loop
	flat  [][]plane.Vec
}

// sideChord in mm: a point farther from a loop than this lies on the same side
// of its chords. No dowel is as thin, so that nearer points have no wall anyhow.
const sideChord = 0.05

func newMaterial(r plane.Region) material {
	m := material{loops: r.Loops()}
	for _, l := range m.loops {
		m.flat = append(m.flat, l.Flatten(sideChord))
	}
	return m
}

// depth returns how deep a point lies in the material; negative outside it. It
// may answer any number up to enough when the depth is no more than that.
func (m material) depth(p plane.Vec, enough float64) float64 {
	d := math.Inf(1)
	for _, l := range m.loops {
		if d = math.Min(d, beside(l, p).Distance(p)); d <= enough {
			return enough
		}
	}
	around := 0
	for _, f := range m.flat {
		around += winding(f, p)
	}
	if around == 0 {
		return -d
	}
	return d
}

// winding returns how often the polygon runs round p: 0 outside it.
func winding(poly []plane.Vec, p plane.Vec) int {
	n := 0
	for i, a := range poly {
		b := poly[(i+1)%len(poly)]
		if (a.Y > p.Y) == (b.Y > p.Y) || p.X >= a.X+(p.Y-a.Y)/(b.Y-a.Y)*(b.X-a.X) {
			continue
		}
		if b.Y > a.Y {
			n++
		} else {
			n--
		}
	}
	return n
}

// beside returns of a loop of many turns those on which its point nearest to p
// lies. Of the points that turns of the loop bring one from another the nearest
// is the one whose direction is nearest to p's: it lies within half a turn.
func beside(l plane.Loop, p plane.Vec) plane.Loop {
	const reach = 2 // turns: a unit reaches less than one beyond its own
	if l.Turns() <= 2*reach+1 {
		return l
	}
	turn := 2 * math.Pi / float64(l.Turns())
	first := l.Unit[0].At(0).Sub(l.Centre).Angle()
	k := math.Round((p.Sub(l.Centre).Angle() - first) / turn)
	out := plane.Loop{Fold: 1, Centre: l.Centre}
	for i := -reach - 1; i <= reach; i++ {
		m := plane.Moved(l.Centre.Mul(-1)).Then(plane.Turned((k + float64(i)) * turn)).Then(plane.Moved(l.Centre))
		for _, q := range l.Unit {
			out.Unit = append(out.Unit, q.Map(m))
		}
	}
	return out
}
