package figure

import (
	"fmt"
	"math"
	"sort"

	"ringtrack/gear/plane"
)

// Bridge is a stretch of an outline that is left uncut, so that the part stays
// in the sheet until it is broken out.
type Bridge struct {
	At    plane.Vec // its middle, on the outline
	Width float64   // mm along the outline
}

// Course is an outline as it is cut, or what bridges leave of it. The last step
// of an open course is its end.
type Course struct {
	Steps  []Step
	Closed bool
}

// offOutline is how far in mm a bridge's middle may lie from its outline: more
// than any tolerance of drawing takes.
const offOutline = 0.1

// Courses returns the outline in lines and arcs, parted at its bridges.
//
// Errors: those of Steps; a bridge off its outline, of no width, or running
// into the next one.
func Courses(o Outline, f Fineness) ([]Course, error) {
	steps, err := Steps(o.Loop, f)
	if err != nil {
		return nil, err
	}
	if len(o.Bridges) == 0 {
		return []Course{{steps, true}}, nil
	}
	t := newTrack(steps)
	gaps, err := t.gaps(o.Bridges)
	if err != nil {
		return nil, err
	}
	var out []Course
	for i, g := range gaps {
		to := gaps[(i+1)%len(gaps)].from
		if i+1 == len(gaps) {
			to += t.length()
		}
		if !(to > g.to) {
			return nil, fmt.Errorf("bridges run into one another near (%.6g, %.6g)", o.Bridges[0].At.X, o.Bridges[0].At.Y)
		}
		out = append(out, Course{Steps: t.part(g.to, to)})
	}
	return out, nil
}

// track measures a closed row of steps by the way along it.
type track struct {
	steps []Step
	way   []float64 // up to each step's start; the last is the whole
}

func newTrack(steps []Step) track {
	t := track{steps: steps, way: []float64{0}}
	for i, s := range steps {
		d := t.end(i).Sub(s.At).Len()
		if s.Sweep != 0 {
			d = s.R * math.Abs(s.Sweep)
		}
		t.way = append(t.way, t.way[i]+d)
	}
	return t
}

func (t track) length() float64     { return t.way[len(t.way)-1] }
func (t track) end(i int) plane.Vec { return t.steps[(i+1)%len(t.steps)].At }

// piece returns step i as a piece.
func (t track) piece(i int) plane.Piece {
	s := t.steps[i]
	if s.Sweep == 0 {
		return plane.Line{A: s.At, B: t.end(i)}
	}
	return ArcBetween(s.At, t.end(i), s.Sweep)
}

// stretch is a part of the way.
type stretch struct{ from, to float64 }

func (t track) gaps(bridges []Bridge) ([]stretch, error) {
	var out []stretch
	for _, b := range bridges {
		if !(b.Width > 0 && b.Width < t.length()) {
			return nil, fmt.Errorf("a bridge %g mm wide in an outline %.6g mm long", b.Width, t.length())
		}
		at, off := t.nearest(b.At)
		if off > offOutline {
			return nil, fmt.Errorf("the bridge at (%.6g, %.6g) lies %.3g mm off its outline", b.At.X, b.At.Y, off)
		}
		out = append(out, stretch{at - b.Width/2, at + b.Width/2})
	}
	sort.Slice(out, func(i, j int) bool { return out[i].from < out[j].from })
	return out, nil
}

// nearest returns the way to the point of the track nearest to p, and its
// distance.
func (t track) nearest(p plane.Vec) (way, off float64) {
	off = math.Inf(1)
	for i, s := range t.steps {
		u := 0.0
		if s.Sweep == 0 {
			v := t.end(i).Sub(s.At)
			u = p.Sub(s.At).Dot(v) / v.Dot(v)
		} else {
			a := t.piece(i).(plane.Arc)
			turn := math.Remainder(p.Sub(a.C).Angle()-a.A0-a.Sweep/2, 2*math.Pi)
			u = 0.5 + turn/a.Sweep
		}
		u = math.Min(1, math.Max(0, u))
		if d := t.piece(i).At(u).Sub(p).Len(); d < off {
			way, off = t.way[i]+u*(t.way[i+1]-t.way[i]), d
		}
	}
	return way, off
}

// part returns the steps from one way to another, with the end as the last.
func (t track) part(from, to float64) []Step {
	whole := t.length()
	if from >= whole {
		from, to = from-whole, to-whole
	}
	if from < 0 {
		from, to = from+whole, to+whole
	}
	var out []Step
	var end plane.Vec
	for k := 0; k < 2*len(t.steps); k++ {
		i, lap := k%len(t.steps), whole*float64(k/len(t.steps))
		a, b := t.way[i]+lap, t.way[i+1]+lap
		if b <= from || a >= to || a == b {
			continue
		}
		u0, u1 := math.Max(0, (from-a)/(b-a)), math.Min(1, (to-a)/(b-a))
		p, s := t.piece(i), t.steps[i]
		out = append(out, Step{At: p.At(u0), Sweep: s.Sweep * (u1 - u0), R: s.R})
		end = p.At(u1)
	}
	return append(out, Step{At: end})
}
