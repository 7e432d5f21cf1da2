package part

import (
	"fmt"
	"math"

	"ringtrack/gear"
	"ringtrack/gear/plane"
	"ringtrack/gear/solid"
)

// Shape is what a body has beyond its section: what makes it a solid. The frame
// is that of the file: what stands up is on top, so that it prints without
// support.
type Shape struct {
	Edge    float64 // mm, 45 degree chamfer on the faces of teeth, outside and bore
	Hub     *Hub
	Flange  *Flange
	Screws  []Screw
	Ribs    []Rib
	Bore    *Bore
	Holes   []Holes // screw circles with their heads
	Flipped bool    // the file's frame is the mounted part turned over about the x axis
}

// floor returns the height at which the teeth begin.
func (s Shape) floor() float64 {
	if s.Flange != nil {
		return s.Flange.Thickness
	}
	return 0
}

// TeethAt returns the heights between which the teeth stand.
func (b Body) TeethAt() (low, high float64) { return b.Shape.floor(), b.Shape.floor() + b.Height }

// Overall returns the whole part's height.
func (b Body) Overall() float64 {
	_, high := b.TeethAt()
	if h := b.Shape.Hub; h != nil {
		high += h.Length
	}
	rib := 0.0
	for _, r := range b.Shape.Ribs {
		rib = math.Max(rib, r.Height)
	}
	return high + rib
}

// Designed and drawn are the two states of a part's outlines.
type state func(plane.Loop, gear.Role) (plane.Loop, error)

// Solid returns the body as the files hold it: every outline drawn with the
// making's allowances. Heights are those designed: layers set them.
//
// Errors name the outline that is lost.
func (b Body) Solid(m gear.Making) (*solid.Body, error) {
	return b.solid(m.Draw, m.HoleShrink/2-m.Kerf/2, 1/(1-m.Shrinkage))
}

// DesignedSolid returns the body as designed.
func (b Body) DesignedSolid() (*solid.Body, error) {
	return b.solid(func(l plane.Loop, _ gear.Role) (plane.Loop, error) { return l, nil }, 0, 1)
}

// builder gathers walls; the first error stays.
type builder struct {
	body  solid.Body
	shape state
	grow  float64 // mm that a channel's radius gains
	scale float64
	err   error
}

func (b Body) solid(shape state, grow, scale float64) (*solid.Body, error) {
	k := &builder{shape: shape, grow: grow, scale: scale}
	low, high := b.TeethAt()
	for _, c := range b.Contours {
		switch c.Name {
		case TeethContour, OutsideContour:
			k.toothed(c, b.Shape, low, high)
		}
	}
	k.below(b.Shape)
	k.above(b.Shape, high)
	k.bore(b, high)
	for _, h := range b.Shape.Holes {
		k.holes(h, 0, b.topOf(h))
	}
	if hub := b.Shape.Hub; hub != nil {
		for _, s := range b.Shape.Screws {
			k.screw(s, *hub, high+hub.Length)
		}
	}
	return &k.body, k.err
}

// topOf returns the height of the upper face that screw holes come out of.
func (b Body) topOf(h Holes) float64 {
	_, high := b.TeethAt()
	if hub := b.Shape.Hub; hub != nil && h.Outer() < hub.Diameter/2 {
		return high + hub.Length
	}
	for _, r := range b.Shape.Ribs {
		if h.Inner() > r.Inner && h.Outer() < r.Outer {
			return high + r.Height
		}
	}
	return high
}

// wall adds a wall on a loop given in the design's millimetres.
func (k *builder) wall(name string, l plane.Loop, role gear.Role, low, high float64, foot, head solid.Edge) {
	if k.err != nil {
		return
	}
	drawn, err := k.shape(l, role)
	if err != nil {
		k.err = fmt.Errorf("%s: %w", name, err)
		return
	}
	k.body.Walls = append(k.body.Walls, solid.Wall{Name: name, Loop: drawn, Low: low, High: high, Foot: foot, Head: head})
}

// chamfer returns the edge of a face, none for 0.
func chamfer(c float64) solid.Edge {
	if c <= 0 {
		return solid.Edge{}
	}
	return solid.Chamfer(c)
}

// toothed adds teeth or the ring's outside: an edge on each face that is free.
func (k *builder) toothed(c Contour, s Shape, low, high float64) {
	foot := chamfer(s.Edge)
	if s.Flange != nil {
		foot = solid.Edge{}
	}
	k.wall(c.Name, c.Designed, c.Role, low, high, foot, chamfer(s.Edge))
}

// below adds the flange.
func (k *builder) below(s Shape) {
	if f := s.Flange; f != nil {
		k.wall("flange", plane.CircleLoop(plane.Vec{}, f.Diameter/2), gear.Outside, 0, f.Thickness, chamfer(s.Edge), solid.Edge{})
	}
}

// above adds the hub or the ribs.
func (k *builder) above(s Shape, high float64) {
	if h := s.Hub; h != nil {
		foot := solid.Edge{}
		if h.Foot > 0 {
			foot = solid.Edge{Height: h.Foot, Shift: h.Foot, Round: h.Round}
		}
		k.wall("hub", plane.CircleLoop(plane.Vec{}, h.Diameter/2), gear.Outside, high, high+h.Length, foot, chamfer(s.Edge))
	}
	for _, r := range s.Ribs {
		k.wall("step", plane.CircleLoop(plane.Vec{}, r.Outer), gear.Outside, high, high+r.Height, solid.Edge{}, solid.Edge{})
		k.wall("step", plane.CircleLoop(plane.Vec{}, r.Inner).Reverse(), gear.Outside, high, high+r.Height, solid.Edge{}, solid.Edge{})
	}
}

// bore adds the hole for the shaft, from below, through or blind, with the
// pockets of a coupling.
func (k *builder) bore(b Body, high float64) {
	o := b.Shape.Bore
	if o == nil {
		return
	}
	top := high
	if h := b.Shape.Hub; h != nil {
		top += h.Length
	}
	head := chamfer(b.Shape.Edge)
	if o.Depth > 0 && o.Depth < top {
		top, head = o.Depth, solid.Edge{}
	}
	if o.Coupling == nil || o.Coupling.Recess == nil {
		k.wall("bore", o.Loop(), gear.Hole, 0, top, chamfer(b.Shape.Edge), head)
		return
	}
	k.recessed(o, top, b.Shape.Flipped)
}

// recessed adds the middle of a coupling's plate: pockets in the coupling's
// face, the bore alone in the rest.
func (k *builder) recessed(o *Bore, top float64, flipped bool) {
	loops, err := o.RecessLoops()
	if err != nil {
		k.err = err
		return
	}
	depth := o.Coupling.Recess.Depth
	low, high, rest := top-depth, top, [2]float64{0, top - depth}
	if o.Coupling.Above == flipped { // the coupling's face is the file's lower one
		low, high, rest = 0, depth, [2]float64{depth, top}
	}
	for _, l := range loops {
		k.wall("recess", l, gear.Hole, low, high, solid.Edge{}, solid.Edge{})
	}
	k.wall("bore", o.Loop(), gear.Hole, rest[0], rest[1], solid.Edge{}, solid.Edge{})
}

// holes adds a circle of screw holes with the room for their heads.
func (k *builder) holes(h Holes, low, high float64) {
	loops, heads := h.Loops(), h.HeadLoops()
	for i, l := range loops {
		switch sunk := h.Head.Sunk(h.Diameter); {
		case h.Head.Diameter == 0:
			k.wall(ScrewHole, l, gear.Hole, low, high, solid.Edge{}, solid.Edge{})
		case h.Head.Angle > 0:
			cone := solid.Edge{Height: sunk, Shift: -(h.Head.Diameter - h.Diameter) / 2}
			if h.Head.Above {
				k.wall(ScrewHole, l, gear.Hole, low, high, solid.Edge{}, cone)
			} else {
				k.wall(ScrewHole, l, gear.Hole, low, high, cone, solid.Edge{})
			}
		case h.Head.Above:
			k.wall(ScrewHole, l, gear.Hole, low, high-sunk, solid.Edge{}, solid.Edge{})
			k.wall("counterbore", heads[i], gear.Hole, high-sunk, high, solid.Edge{}, solid.Edge{})
		default:
			k.wall("counterbore", heads[i], gear.Hole, low, low+sunk, solid.Edge{}, solid.Edge{})
			k.wall(ScrewHole, l, gear.Hole, low+sunk, high, solid.Edge{}, solid.Edge{})
		}
	}
}

// screw adds a set screw's channel through the hub, which ends at the height
// top, and the slot of its nut.
func (k *builder) screw(s Screw, hub Hub, top float64) {
	if k.err != nil {
		return
	}
	radius := func(d float64) float64 { return d/2*k.scale + k.grow }
	c := solid.Channel{Angle: s.Angle, Z: s.Z}
	add := func(r, to float64) { c.Steps = append(c.Steps, solid.Step{Radius: r, Crown: r, To: to}) }
	if s.Seat == Insert {
		add(radius(s.InsertHole), (hub.Diameter/2-s.InsertDepth)*k.scale)
	}
	add(radius(s.Hole), 0)
	k.body.Channels = append(k.body.Channels, c)
	if l, ok := s.SlotLoop(); ok {
		k.wall("nut slot", l, gear.Hole, s.Z-s.Drop, top, solid.Edge{}, solid.Edge{})
	}
}
