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
// Errors: a number out of range, no angle at which every dowel hole keeps its
// wall.
func Layers(p CutPart, opt StackOptions) (Stack, error) {
	if err := opt.check(p); err != nil {
		return Stack{}, fmt.Errorf("sheet: layers: %s: %w", p.Name, err)
	}
	s := Stack{Layers: int(math.Ceil(opt.Face/opt.Sheet - 1e-9))}
	s.Height = float64(s.Layers) * opt.Sheet
	s.Over = math.Max(0, s.Height-opt.Face)
	s.Angle, s.Clear = opt.roomiest(p.Region)
	if s.Clear < opt.Wall {
		return Stack{}, fmt.Errorf("sheet: layers: %s: %d dowel holes of %g mm on a circle of %g mm leave at most %.3g mm of material; %g are needed",
			p.Name, opt.Dowels, opt.Dowel, opt.DowelCircle, s.Clear, opt.Wall)
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
	for i := range tries {
		a := 2 * math.Pi / float64(o.Dowels) * float64(i) / tries
		least := math.Inf(1)
		for _, c := range o.places(r, a) {
			if least = math.Min(least, depth(r, c)-o.Dowel/2); least <= clear {
				break
			}
		}
		if least > clear+1e-9 {
			angle, clear = a, least
		}
	}
	return angle, clear
}

// depth returns how deep a point lies in the material; negative outside it.
func depth(r plane.Region, p plane.Vec) float64 {
	d := r.Outer.Distance(p)
	inside := r.Outer.Contains(p)
	for _, h := range r.Holes {
		d = math.Min(d, h.Distance(p))
		inside = inside && !h.Contains(p)
	}
	if !inside {
		return -d
	}
	return d
}
