package view_test

import (
	"math"
	"testing"

	"ringtrack/gear"
	"ringtrack/gear/plane"
	"ringtrack/gear/solid"
)

func pair(t testing.TB) *gear.Pair {
	t.Helper()
	p, found := gear.Resolve(gear.Wish{
		Module: 2.5, PressureAngle: math.Pi / 9, RackType: 'A', Share: 0.5, LeastTip: 0.4, Spread: 0.1,
		Pinion: gear.MemberWish{Teeth: 15}, Ring: gear.MemberWish{Teeth: 104},
	})
	if p == nil {
		t.Fatal(found)
	}
	return p
}

func mesh(t testing.TB, b *solid.Body, chord float64) *solid.Mesh {
	t.Helper()
	m, err := b.Mesh(chord)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

func hole(c plane.Vec, r float64) plane.Loop { return plane.CircleLoop(c, r).Reverse() }

// pinion has a flange, a hub with a fillet, a D bore and a set screw's channel.
func pinion(t testing.TB) *solid.Body {
	half := math.Acos(2.55 / 3.05)
	a := plane.Arc{R: 3.05, A0: half, Sweep: 2*math.Pi - 2*half}
	bore := plane.Loop{Unit: []plane.Piece{a, plane.Line{A: a.At(1), B: a.At(0)}}, Fold: 1}.Reverse()
	return &solid.Body{
		Walls: []solid.Wall{
			{Loop: plane.CircleLoop(plane.Vec{}, 25), Low: 0, High: 2, Foot: solid.Chamfer(0.4)},
			{Loop: pair(t).Pinion.Outline(), Low: 2, High: 12, Head: solid.Chamfer(0.4)},
			{Loop: plane.CircleLoop(plane.Vec{}, 11), Low: 12, High: 22, Foot: solid.Edge{Height: 1, Shift: 1, Round: true}, Head: solid.Chamfer(0.5)},
			{Loop: bore, Low: 0, High: 22, Foot: solid.Chamfer(0.3), Head: solid.Chamfer(0.3)},
		},
		Channels: []solid.Channel{{Angle: 0, Z: 17, Steps: []solid.Step{{Radius: 1.6}}}},
	}
}

// ring has countersunk holes and a locating step.
func ring(t testing.TB) *solid.Body {
	r := pair(t).Ring
	root := r.RootDiameter / 2
	b := &solid.Body{Walls: []solid.Wall{
		{Loop: plane.CircleLoop(plane.Vec{}, root+14), Low: 0, High: 10, Foot: solid.Chamfer(0.4), Head: solid.Chamfer(0.4)},
		{Loop: r.Outline(), Low: 0, High: 10, Foot: solid.Chamfer(0.4), Head: solid.Chamfer(0.4)},
		{Loop: plane.CircleLoop(plane.Vec{}, root+4), Low: 10, High: 13},
		{Loop: hole(plane.Vec{}, root+2), Low: 10, High: 13},
	}}
	for i := range 8 {
		c := plane.Polar(root+9, 2*math.Pi*(float64(i)+0.5)/8)
		b.Walls = append(b.Walls, solid.Wall{Loop: hole(c, 2.25), Low: 0, High: 10, Head: solid.Edge{Height: 2.3, Shift: -2.3}})
	}
	return b
}

// boxes returns closed boxes by two opposite corners each.
func boxes(corners ...solid.Point3) *solid.Mesh {
	m := &solid.Mesh{}
	for i := 0; i < len(corners); i += 2 {
		a, b := corners[i], corners[i+1]
		n := int32(len(m.Vertices))
		for k := range 8 {
			p := a
			if k&1 != 0 {
				p.X = b.X
			}
			if k&2 != 0 {
				p.Y = b.Y
			}
			if k&4 != 0 {
				p.Z = b.Z
			}
			m.Vertices = append(m.Vertices, p)
		}
		for _, q := range [][4]int32{{0, 2, 3, 1}, {4, 5, 7, 6}, {0, 1, 5, 4}, {2, 6, 7, 3}, {0, 4, 6, 2}, {1, 3, 7, 5}} {
			m.Facets = append(m.Facets, [3]int32{n + q[0], n + q[1], n + q[2]}, [3]int32{n + q[0], n + q[2], n + q[3]})
		}
	}
	return m
}
