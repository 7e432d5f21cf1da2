package solid

import (
	"errors"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"ringtrack/gear/plane"
)

// tube is a tube about the z axis, 20 mm high, with radii 12 and 4.
func tube(channels ...Channel) *Body {
	return &Body{Walls: []Wall{
		{Name: "outside", Loop: plane.CircleLoop(plane.Vec{}, 12), High: 20},
		{Name: "bore", Loop: hole(plane.Vec{}, 4), High: 20},
	}, Channels: channels}
}

func radial(z float64, s ...Step) Channel { return Channel{Angle: 0.3, Z: z, Steps: s} }

func TestChannels(t *testing.T) {
	flanged := hubPinion()
	flanged.Channels = append(flanged.Channels, // two more through hub and bore, above and below the first
		Channel{Angle: 0.1, Z: 18.4, Steps: []Step{{Radius: 0.6, To: 8.5}}},
		Channel{Angle: 2, Z: 15, Steps: []Step{{Radius: 2.4, Crown: 2.4, To: 8}, {Radius: 1.5, Crown: 1.5}}},
	)
	for _, tt := range []struct {
		name  string
		body  *Body
		euler int
	}{
		{"round", tube(radial(8, Step{Radius: 2})), -2},
		{"ridge", tube(radial(8, Step{Radius: 2, Crown: Ridge(2)})), -2},
		{"flat ceiling", tube(radial(8, Step{Radius: 2, Crown: 2})), -2},
		{"hanging ridge", tube(radial(8, Step{Radius: 2, Crown: -Ridge(2)})), -2},
		{"low ceiling", tube(radial(8, Step{Radius: 2, Crown: -2.4})), -2},
		{"flat end", tube(radial(8, Step{Radius: 2, To: 6})), 0},
		{"flat end with a ridge", tube(radial(8, Step{Radius: 2, Crown: Ridge(2), To: 6})), 0},
		{"counterbored", tube(radial(8, Step{Radius: 3, To: 9}, Step{Radius: 2})), -2},
		{"wider within", tube(radial(8, Step{Radius: 2, To: 9}, Step{Radius: 3})), -2},
		{"three steps", tube(radial(8, Step{Radius: 3, Crown: Ridge(3), To: 10}, Step{Radius: 2, Crown: 2, To: 7}, Step{Radius: 1})), -2},
		{"right through", tube(radial(8, Step{Radius: 2, To: -20})), -4},
		{"nearly as wide as the bore", tube(radial(8, Step{Radius: 3.99})), -2},
		{"above each other", tube(radial(6, Step{Radius: 2}), radial(12, Step{Radius: 3.5})), -4},
		{"above each other, askew", tube(radial(6, Step{Radius: 2}), Channel{Angle: 0.7, Z: 12, Steps: []Step{{Radius: 3.5}}}), -4},
		{"side by side", tube(radial(8, Step{Radius: 1.9}), Channel{Angle: 1.4, Z: 8, Steps: []Step{{Radius: 1.9}}}), -4},
		{"nut slot, insert and a blind hole", flanged, -6},
	} {
		t.Run(tt.name, func(t *testing.T) {
			for _, chord := range []float64{0.02, 0.002} {
				m := requireBody(t, tt.body, chord)
				require.Equal(t, tt.euler, m.Check().Euler)
				if chord == 0.002 {
					render(t, "channel-"+tt.name, m, 0.5, 0.4)
				}
			}
		})
	}
}

// The volume of a round hole through a tube's wall is that of two cylinders that
// cross: an integral that is worked out here in another way.
func TestChannelVolume(t *testing.T) {
	const r = 2.0
	whole, err := tube().Volume()
	require.NoError(t, err)
	less, err := tube(radial(8, Step{Radius: r})).Volume()
	require.NoError(t, err)
	want := 0.0
	const n = 200000
	for i := range n { // midpoints, in w
		w := r * (2*(float64(i)+0.5)/n - 1)
		want += 2 * math.Sqrt(r*r-w*w) * (math.Sqrt(144-w*w) - math.Sqrt(16-w*w)) * 2 * r / n
	}
	require.InDelta(t, want, whole-less, 1e-5)
}

func TestSectionsThroughChannels(t *testing.T) {
	area := func(b *Body, z float64) (float64, int, int) {
		rs, err := b.Section(z)
		require.NoError(t, err)
		total, holes := 0.0, 0
		for _, r := range rs {
			total += r.Area()
			holes += len(r.Holes)
			require.Positive(t, r.Outer.Area())
		}
		return total, len(rs), holes
	}
	ring := math.Pi * (144 - 16)
	a, regions, holes := area(tube(), 5)
	require.InDelta(t, ring, a, 1e-9)
	require.Equal(t, [2]int{1, 1}, [2]int{regions, holes})
	open := tube(radial(8, Step{Radius: 2}))
	a, regions, holes = area(open, 8)
	sector := func(r, w float64) float64 { return r*r*math.Asin(w/r) + w*math.Sqrt(r*r-w*w) } // |y| < w, x > 0
	require.InDelta(t, ring-(sector(12, 2)-sector(4, 2)), a, 1e-9)
	require.Equal(t, [2]int{1, 0}, [2]int{regions, holes})
	_, regions, _ = area(tube(radial(8, Step{Radius: 2, To: -20})), 8)
	require.Equal(t, 2, regions)
	a, regions, holes = area(tube(radial(8, Step{Radius: 2, To: 9}, Step{Radius: 3, To: 6})), 10.5)
	require.InDelta(t, ring-3*2*math.Sqrt(9-2.5*2.5), a, 1e-9) // a hollow within
	require.Equal(t, [2]int{1, 2}, [2]int{regions, holes})
	for _, z := range []float64{-1, 20, 25} {
		_, regions, _ = area(open, z)
		require.Zero(t, regions)
	}
}

func TestChannelsThatCannotBe(t *testing.T) {
	low, high := func(e *ChannelError) float64 { return e.Below }, func(e *ChannelError) float64 { return e.Above }
	hub := hubPinion()
	hub.Channels = nil
	through := func(b *Body, c ...Channel) *Body {
		return &Body{Walls: b.Walls, Channels: c}
	}
	at := func(angle, z float64) Channel { return Channel{Angle: angle, Z: z, Steps: []Step{{Radius: 1.6}}} }
	for _, tt := range []struct {
		name string
		body *Body
		kind ChannelKind
		wall string
		says string
	}{
		{"through the hub's foot", through(hub, at(2*math.Pi/3, 11.65)), MeetsLevel, "wall 1", "above"},
		{"through the level of the hub's foot", through(hub, at(2*math.Pi/3, 10)), MeetsLevel, "wall 0", ""},
		{"through the hub's chamfer", through(hub, at(2, 18.3)), MeetsLevel, "wall 1", "below"},
		{"through the slot's floor", through(hub, at(0, 12.5)), MeetsLevel, "", ""},
		{"above the tube", tube(radial(19, Step{Radius: 2})), MeetsLevel, "wall 0 (outside)", "below 18"},
		{"touching the tube's end", tube(radial(18, Step{Radius: 2})), MeetsLevel, "wall 0 (outside)", "below 18"},
		{"wider than the bore", tube(radial(8, Step{Radius: 4.5})), RunsOff, "wall 1 (bore)", "below 4 mm"},
		{"wider than the body", &Body{Walls: []Wall{{Loop: plane.CircleLoop(plane.Vec{}, 12), High: 40}}, Channels: []Channel{radial(20, Step{Radius: 13})}}, RunsOff, "wall 0", "below 12 mm"},
		{"end in the bore's wall", tube(radial(8, Step{Radius: 2, To: 3.8})), CutsAskew, "wall 1 (bore)", "less than 3.46"},
		{"end in the outside", tube(radial(8, Step{Radius: 2, To: 11.9})), CutsAskew, "wall 0 (outside)", "more than 12"},
		{"end outside", tube(radial(8, Step{Radius: 2, To: 13})), MissesBody, "", "no material"},
		{"above it all", tube(radial(40, Step{Radius: 2})), MissesBody, "", "no material"},
		{"crossing", tube(radial(8, Step{Radius: 3}), Channel{Angle: 1.4, Z: 9, Steps: []Step{{Radius: 3}}}), MeetsChannel, "", "channels 0 and 1 meet"},
		{"the same twice", tube(radial(8, Step{Radius: 3}), radial(8, Step{Radius: 3})), MeetsChannel, "", "meet"},
		{"shoulder of equal sections", tube(radial(8, Step{Radius: 3, To: 8}, Step{Radius: 3})), BadShoulder, "", "within the other"},
		{"crossing sections", tube(radial(8, Step{Radius: 2, Crown: Ridge(2), To: 8}, Step{Radius: 2.4})), BadShoulder, "", "within the other"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			_, err := tt.body.Mesh(0.005)
			var e *ChannelError
			require.True(t, errors.As(err, &e), "%v", err)
			require.Equal(t, tt.kind, e.Kind, "%v", err)
			require.Contains(t, err.Error(), tt.wall)
			require.Contains(t, err.Error(), tt.says)
			if e.Kind != MeetsLevel {
				return
			}
			cured := 0
			for _, side := range []func(*ChannelError) float64{low, high} { // both cures work
				z := side(e)
				if math.IsNaN(z) {
					continue
				}
				cured++
				c := tt.body.Channels[0]
				c.Z = z + math.Copysign(1e-3, z-c.Z-1e-9)
				_, err := through(tt.body, c).Mesh(0.005)
				require.NoError(t, err, "at z = %g", c.Z)
			}
			require.Positive(t, cured)
		})
	}
	for _, tt := range []struct {
		name string
		c    Channel
	}{
		{"no steps", Channel{}},
		{"no radius", radial(8, Step{})},
		{"no number", radial(math.NaN(), Step{Radius: 1})},
		{"steps outward", radial(8, Step{Radius: 3, To: 5}, Step{Radius: 2, To: 6})},
		{"crown too low", radial(8, Step{Radius: 3, Crown: 2})},
		{"crown too high", radial(8, Step{Radius: 3, Crown: 5})},
	} {
		_, err := tube(tt.c).Mesh(0.005)
		require.ErrorContains(t, err, "channel 0", tt.name)
		_, err = tube(tt.c).Volume()
		require.Error(t, err, tt.name)
		_, err = tube(tt.c).Section(5)
		require.Error(t, err, tt.name)
	}
}

func TestWallsThatCannotBe(t *testing.T) {
	disc := plane.CircleLoop(plane.Vec{}, 12)
	for _, tt := range []struct {
		name  string
		walls []Wall
		says  string
	}{
		{"none", nil, "without walls"},
		{"upside down", []Wall{{Loop: disc, Low: 2, High: 1}}, "do not enclose"},
		{"endless", []Wall{{Loop: disc, High: math.Inf(1)}}, "do not enclose"},
		{"no pieces", []Wall{{High: 1}}, "no pieces"},
		{"the wrong way round", []Wall{{Loop: disc.Reverse(), High: 1}}, "wrong way"},
		{"hole outside", []Wall{{Loop: disc, High: 5}, {Loop: hole(plane.Vec{X: 20}, 3), High: 5}}, "wrong way"},
		{"hole above", []Wall{{Loop: disc, High: 5}, {Loop: hole(plane.Vec{}, 3), Low: 5, High: 6}}, "wrong way"},
		{"holes that cross half way up", []Wall{{Loop: disc, High: 9}, {Loop: hole(plane.Vec{X: 1}, 3), High: 5}, {Loop: hole(plane.Vec{X: -1}, 3), Low: 3, High: 9}}, "z = 3 mm.*cross"},
		{"a hub that leaves the disc", []Wall{{Loop: disc, High: 5}, {Loop: plane.CircleLoop(plane.Vec{X: 6}, 8), Low: 5, High: 9}}, "z = 5 mm.*cross"},
		{"a hub of the disc's own size", []Wall{{Loop: disc, High: 5}, {Loop: disc, Low: 5, High: 9}}, "touch|coincide"},
		{"countersinks that meet", []Wall{{Loop: disc, High: 5}, {Loop: hole(plane.Vec{X: 3}, 1), High: 5, Head: Chamfer(2.1)}, {Loop: hole(plane.Vec{X: -3}, 1), High: 5, Head: Chamfer(2.1)}}, "z = 5 mm.*cross"},
	} {
		_, err := (&Body{Walls: tt.walls}).Mesh(0.005)
		require.Error(t, err, tt.name)
		require.Regexp(t, tt.says, err.Error(), tt.name)
	}
	for _, chord := range []float64{0, -1, math.NaN(), math.Inf(1), 1e-14} {
		_, err := tube().Mesh(chord)
		require.ErrorContains(t, err, "tolerance")
	}
}

// Bodies of a single prism are those of Prism.
func TestBodyOfAPrism(t *testing.T) {
	r := pinion(20, 2)
	m, err := (&Body{Walls: []Wall{{Loop: r.Outer, High: 7}, {Loop: r.Holes[0], High: 7}}}).Mesh(0.01)
	require.NoError(t, err)
	p, err := Prism(r, 0, 7, 0.01)
	require.NoError(t, err)
	require.NoError(t, m.Check().Err())
	require.InDelta(t, p.Volume(), m.Volume(), 1e-9)
	require.Len(t, m.Facets, len(p.Facets))
}
