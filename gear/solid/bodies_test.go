package solid

import (
	"math"
	"sync"

	"ringtrack/gear"
	"ringtrack/gear/plane"
)

// pairOf resolves a pair of gears, each only once.
func pairOf(module float64, z1, z2 int) *gear.Pair {
	pairsMutex.Lock()
	defer pairsMutex.Unlock()
	key := [3]float64{module, float64(z1), float64(z2)}
	if p := pairs[key]; p != nil {
		return p
	}
	p, found := gear.Resolve(gear.Wish{
		Module: module, PressureAngle: math.Pi / 9, RackType: 'A', Share: 0.5, LeastTip: 0.4, Spread: 0.1,
		Pinion: gear.MemberWish{Teeth: z1}, Ring: gear.MemberWish{Teeth: z2},
	})
	if p == nil {
		panic(found)
	}
	pairs[key] = p
	return p
}

var (
	pairs      = map[[3]float64]*gear.Pair{}
	pairsMutex sync.Mutex
)

// hole returns a circle about c, clockwise.
func hole(c plane.Vec, r float64) plane.Loop { return plane.CircleLoop(c, r).Reverse() }

// dBore returns a round hole with a flat that faces the direction angle, clockwise.
func dBore(r, flat, angle float64) plane.Loop {
	half := math.Acos(flat / r)
	a := plane.Arc{R: r, A0: angle + half, Sweep: 2*math.Pi - 2*half}
	return plane.Loop{Unit: []plane.Piece{a, plane.Line{A: a.At(1), B: a.At(0)}}, Fold: 1}.Reverse()
}

// keyedBore returns a round hole with a keyway of the given width that reaches
// to depth in the direction angle, clockwise.
func keyedBore(r, width, depth, angle float64) plane.Loop {
	half := math.Asin(width / 2 / r)
	a := plane.Arc{R: r, A0: angle + half, Sweep: 2*math.Pi - 2*half}
	at := func(t, w float64) plane.Vec { return plane.Vec{X: t, Y: w}.Turn(angle) }
	p, q := at(depth, -width/2), at(depth, width/2)
	return plane.Loop{Unit: []plane.Piece{a,
		plane.Line{A: a.At(1), B: p}, plane.Line{A: p, B: q}, plane.Line{A: q, B: a.At(0)},
	}, Fold: 1}.Reverse()
}

// slot returns a rectangle from t0 to t1 in the direction angle, clockwise.
func slot(t0, t1, width, angle float64) plane.Loop {
	at := func(t, w float64) plane.Vec { return plane.Vec{X: t, Y: w}.Turn(angle) }
	p := [4]plane.Vec{at(t0, -width/2), at(t0, width/2), at(t1, width/2), at(t1, -width/2)}
	l := plane.Loop{Fold: 1}
	for i := range p {
		l.Unit = append(l.Unit, plane.Line{A: p[i], B: p[(i+1)%4]})
	}
	return l
}

// polygonBore returns a regular polygon with the inscribed radius r, clockwise.
func polygonBore(n int, r, angle float64) plane.Loop {
	l := plane.Loop{Fold: -n}
	c := r / math.Cos(math.Pi/float64(n))
	l.Unit = []plane.Piece{plane.Line{A: plane.Polar(c, angle), B: plane.Polar(c, angle-2*math.Pi/float64(n))}}
	return l
}

// hubPinion is a pinion with a hub above the teeth, a D bore and a set screw
// through a square nut's slot to the flat.
func hubPinion() *Body {
	p := pairOf(2.5, 15, 104).Pinion
	return &Body{
		Walls: []Wall{
			{Loop: p.Outline(), Low: 0, High: 10, Foot: Chamfer(0.4), Head: Chamfer(0.4)},
			{Loop: plane.CircleLoop(plane.Vec{}, 11), Low: 10, High: 20, Foot: Edge{Height: 1, Shift: 1, Round: true}, Head: Chamfer(0.5)},
			{Loop: dBore(3.05, 2.55, 0), Low: 0, High: 20, Foot: Chamfer(0.3), Head: Chamfer(0.3)},
			{Loop: slot(4.8, 7, 5.7, 0), Low: 12, High: 20},
		},
		Channels: []Channel{{Angle: 0, Z: 15, Steps: []Step{{Radius: 1.6, Crown: Ridge(1.6)}}}},
	}
}

// boltRing is a ring with 24 countersunk holes, chamfered on both faces.
func boltRing(z int) *Body {
	r := pairOf(2.5, 15, z).Ring
	b := &Body{Walls: []Wall{
		{Loop: plane.CircleLoop(plane.Vec{}, r.RootDiameter/2+10), Low: 0, High: 12, Foot: Chamfer(0.4), Head: Chamfer(0.4)},
		{Loop: r.Outline(), Low: 0, High: 12, Foot: Chamfer(0.4), Head: Chamfer(0.4)},
	}}
	for i := range 24 {
		c := plane.Polar(r.RootDiameter/2+6, 2*math.Pi*(float64(i)+0.5)/24)
		b.Walls = append(b.Walls, Wall{Loop: hole(c, 1.7), Low: 0, High: 12, Head: Edge{Height: 1.6, Shift: -1.6}})
	}
	return b
}

// stepRing is a boltRing with a locating step above and a stand-off below.
func stepRing(z int) *Body {
	r := pairOf(2.5, 15, z).Ring
	b := &Body{Walls: []Wall{
		{Loop: plane.CircleLoop(plane.Vec{}, r.RootDiameter/2+10), Low: 0, High: 12, Foot: Chamfer(0.4), Head: Chamfer(0.4)},
		{Loop: r.Outline(), Low: 0, High: 12, Foot: Chamfer(0.4), Head: Chamfer(0.4)},
		{Loop: plane.CircleLoop(plane.Vec{}, r.RootDiameter/2+2.2), Low: 12, High: 14},
		{Loop: hole(plane.Vec{}, r.RootDiameter/2+1), Low: 12, High: 14},
		{Loop: plane.CircleLoop(plane.Vec{}, r.RootDiameter/2+9), Low: -3, High: 0},
		{Loop: hole(plane.Vec{}, r.RootDiameter/2+3), Low: -3, High: 0},
	}}
	for i := range 24 {
		c := plane.Polar(r.RootDiameter/2+6, 2*math.Pi*(float64(i)+0.5)/24)
		b.Walls = append(b.Walls, Wall{Loop: hole(c, 1.7), Low: -3, High: 12, Head: Edge{Height: 1.6, Shift: -1.6}})
	}
	return b
}
