package solid

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"ringtrack/gear/plane"
)

// edged returns a body whose outer loop, or whose hole in a plate, has edges.
func edged(l plane.Loop, foot, head Edge) *Body {
	if l.Area() > 0 {
		return &Body{Walls: []Wall{{Loop: l, High: 6, Foot: foot, Head: head}}}
	}
	return &Body{Walls: []Wall{{Loop: plane.CircleLoop(plane.Vec{}, 40), High: 6}, {Loop: l, High: 6, Foot: foot, Head: head}}}
}

// rectangle returns a rectangle about the origin, with corners rounded by r > 0.
func rectangle(w, h, r float64) plane.Loop {
	l := plane.Loop{Fold: 1}
	for i := range 4 {
		a := math.Pi / 2 * float64(i)
		x, y := w/2, h/2
		if i%2 == 1 {
			x, y = y, x
		}
		l.Unit = append(l.Unit, plane.Line{A: plane.Vec{X: x, Y: -y + r}.Turn(a), B: plane.Vec{X: x, Y: y - r}.Turn(a)})
		if r > 0 {
			l.Unit = append(l.Unit, plane.Arc{C: plane.Vec{X: x - r, Y: y - r}.Turn(a), R: r, A0: a, Sweep: math.Pi / 2})
		}
	}
	return l
}

// star returns an outline of n points with corners at two radii.
func star(n int, r1, r2 float64) plane.Loop {
	p := math.Pi / float64(n)
	a, b, c := plane.Polar(r1, -p), plane.Polar(r2, 0), plane.Polar(r1, p)
	return plane.Loop{Fold: n, Unit: []plane.Piece{plane.Line{A: a, B: b}, plane.Line{A: b, B: c}}}
}

// Edges on outlines of all kinds: corners that close and open, pieces and whole
// teeth's ends that vanish on the way, curves that fold.
func TestEdges(t *testing.T) {
	for name, l := range map[string]plane.Loop{
		"circle":                    plane.CircleLoop(plane.Vec{X: 1}, 9),
		"hole":                      hole(plane.Vec{X: 1}, 9),
		"rectangle":                 rectangle(20, 12, 0),
		"rectangular hole":          rectangle(20, 12, 0).Reverse(),
		"rounded rectangle":         rectangle(20, 12, 2),
		"slightly rounded":          rectangle(20, 12, 0.3),
		"slightly rounded hole":     rectangle(20, 12, 0.3).Reverse(),
		"star":                      star(7, 8, 12),
		"star hole":                 star(7, 8, 12).Reverse(),
		"D hole":                    dBore(3, 2.2, 1),
		"keyed hole":                keyedBore(6, 3, 7.5, 2),
		"hexagonal hole":            polygonBore(6, 5, 0.2),
		"hexagon":                   polygonBore(6, 5, 0.2).Reverse(),
		"trapezoidal teeth":         toothed(20, 15, 17),
		"teeth":                     pairOf(2.5, 15, 104).Pinion.Outline(),
		"small teeth":               pairOf(1, 12, 60).Pinion.Outline(),
		"teeth of a ring":           pairOf(1, 12, 60).Ring.Outline(),
		"grown teeth":               offsetOf(t, pairOf(2.5, 15, 104).Pinion.Outline(), 0.15),
		"grown ring":                offsetOf(t, pairOf(1, 12, 60).Ring.Outline(), 0.1),
		"teeth cut by a fine thing": offsetOf(t, pairOf(2.5, 15, 104).Pinion.Outline(), -0.1),
	} {
		t.Run(name, func(t *testing.T) {
			for _, e := range [][2]float64{{0.05, 0.1}, {0.3, 0.3}, {0.45, 0.2}} {
				foot, head := Chamfer(e[0]), Edge{Height: 2 * e[1], Shift: -e[1]}
				b := edged(l, foot, head)
				m := requireBody(t, b, 0.005)
				render(t, fmt.Sprintf("edge-%s-%g", name, e[0]), m, 0.5, 0.7)
				for i, s := range []float64{e[0], e[1]} {
					requireParallel(t, b, l, s, i == 1)
				}
			}
		})
	}
}

func offsetOf(t *testing.T, l plane.Loop, d float64) plane.Loop {
	out, err := l.Offset(d)
	require.NoError(t, err)
	return out
}

// requireParallel checks that an edge ends on the loop's exact offset: every
// vertex lies on it, and the area between is what chords leave.
func requireParallel(t *testing.T, b *Body, l plane.Loop, s float64, head bool) {
	const chord = 0.005
	st, err := stand(&b.Walls[len(b.Walls)-1], nil, chord)
	require.NoError(t, err)
	st.raise(&Mesh{})
	end := st.foot
	if head {
		end = st.head
	}
	exact := offsetOf(t, l, -s)
	near := newLoopFinder(exact)
	for _, p := range end.pts {
		require.LessOrEqual(t, near.distance(p, 1), 1e-6+chord/64, "(%g, %g)", p.X, p.Y)
	}
	require.InDelta(t, exact.Area(), turnOf(end.pts)/2, chord*exact.Length())
}

func TestRoundEdges(t *testing.T) {
	for _, e := range []Edge{
		{Height: 1.5, Shift: 1.5, Round: true}, {Height: 1.5, Shift: -1.5, Round: true}, {Height: 1, Shift: 2},
	} {
		for _, l := range []plane.Loop{plane.CircleLoop(plane.Vec{}, 8), hole(plane.Vec{}, 8), rectangle(20, 12, 4)} {
			requireBody(t, edged(l, e, Chamfer(0.5)), 0.005)
		}
	}
}

func TestFullCone(t *testing.T) {
	b := &Body{Walls: []Wall{
		{Loop: plane.CircleLoop(plane.Vec{}, 10), High: 5},
		{Loop: hole(plane.Vec{}, 2), High: 5, Head: Edge{Height: 5, Shift: -3}},
	}}
	requireBody(t, b, 0.005)
	v, err := b.Volume()
	require.NoError(t, err)
	require.InDelta(t, math.Pi*5*(100-(4+10+25)/3.0), v, 1e-9)
}

func TestEdgesThatCannotBe(t *testing.T) {
	for _, tt := range []struct {
		name       string
		l          plane.Loop
		foot, head Edge
		says       string
	}{
		{"deeper than the body", rectangle(20, 12, 0), Chamfer(6.5), Edge{}, "higher than the wall"},
		{"wider than the body", rectangle(20, 8, 0), Edge{Height: 1, Shift: -4.5}, Edge{}, "more than there is"},
		{"to a point", plane.CircleLoop(plane.Vec{}, 3), Edge{Height: 2, Shift: -3}, Edge{}, "more than there is"},
		{"round on corners", rectangle(20, 12, 0), Edge{Height: 1, Shift: -1, Round: true}, Edge{}, "without corners"},
		{"foot with corners", rectangle(20, 12, 0), Edge{Height: 1, Shift: 1}, Edge{}, "without corners"},
		{"not as high as wide", plane.CircleLoop(plane.Vec{}, 8), Edge{Height: 1, Shift: 2, Round: true}, Edge{}, "as high as wide"},
		{"no height", rectangle(20, 12, 0), Edge{Shift: -1}, Edge{}, "is none"},
		{"no width", rectangle(20, 12, 0), Edge{Height: 1}, Edge{}, "is none"},
		{"not a number", rectangle(20, 12, 0), Edge{Height: math.NaN(), Shift: -1}, Edge{}, "is none"},
		{"hole grown into the rim", hole(plane.Vec{X: 30}, 9), Edge{Height: 1, Shift: -2}, Edge{}, "cross|wrong way"},
	} {
		_, err := edged(tt.l, tt.foot, tt.head).Mesh(0.005)
		require.Error(t, err, tt.name)
		require.Regexp(t, tt.says, err.Error(), tt.name)
	}
}
