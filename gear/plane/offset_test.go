package plane_test

import (
	"errors"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"ringtrack/gear/plane"
)

// TestOffsetBySteiner: while nothing vanishes, a loop without inward corners
// moved out by d has the area A + L d + pi d^2, and moved in A - L d + pi d^2.
func TestOffsetBySteiner(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := rapid.SampledFrom([]plane.Loop{
			ellipseLoop(9, 6), flowerLoop(10, 0.4, 7), flowerLoop(10, 3, 2), rounded(20, 8, 3), plane.CircleLoop(plane.Vec{X: 2}, 7),
		}).Draw(t, "loop")
		d := rapid.Float64Range(1e-4, 0.2).Draw(t, "d") * rapid.SampledFrom([]float64{1, -1}).Draw(t, "side")
		moved, err := l.Offset(d)
		require.NoError(t, err)
		require.InEpsilon(t, l.Area()+l.Length()*d+math.Pi*d*d, moved.Area(), 1e-11)
		require.InDelta(t, l.Length()+2*math.Pi*d, moved.Length(), 1e-9)
		require.Equal(t, l.Fold, moved.Fold)
		// Offsets of one curve add up.
		twice, err := moved.Offset(-d / 3)
		require.NoError(t, err)
		once, err := l.Offset(d - d/3)
		require.NoError(t, err)
		require.InEpsilon(t, once.Area(), twice.Area(), 1e-12)
	})
}

// TestOffsetIsTheDistanceCurve: a point lies inside the moved loop exactly when
// it lies inside the loop or nearer to it than d (inward: deeper than d).
func TestOffsetIsTheDistanceCurve(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := anyLoop(t)
		d := rapid.SampledFrom([]float64{-0.5, -0.2, -0.08, 0.08, 0.2, 0.5, 1}).Draw(t, "d")
		moved, err := l.Offset(d)
		if errors.Is(err, plane.ErrLost) {
			t.Fatalf("nothing left")
		}
		if err != nil {
			// The inside falls apart into several loops: said, not drawn.
			require.Less(t, d, 0.0, "%v", err)
			return
		}
		require.NoError(t, moved.Check(1e-8))
		for _, p := range moved.Unit {
			for i := range 7 {
				require.InDelta(t, math.Abs(d), l.Distance(p.At((float64(i)+0.5)/7)), 1e-8)
			}
		}
		poly, from := moved.Flatten(1e-3), l.Flatten(1e-3)
		for range 40 {
			p := plane.Vec{X: rapid.Float64Range(-24, 24).Draw(t, "x"), Y: rapid.Float64Range(-24, 24).Draw(t, "y")}
			dist := polygonDistance(from, p)
			if polygonContains(from, p) {
				dist = -dist
			}
			if math.Abs(dist-d) > 5e-3 {
				require.Equal(t, dist < d, polygonContains(poly, p), "at %v, %.4f from the loop, moved by %g", p, dist, d)
			}
		}
	})
}

// TestVanishingPieces counts what stays: corner arcs that are used up vanish,
// sharp corners open with arcs.
func TestVanishingPieces(t *testing.T) {
	count := func(l plane.Loop) (lines, arcs int) {
		for _, p := range l.Unit {
			switch p.(type) {
			case plane.Line:
				lines++
			case plane.Arc:
				arcs++
			}
		}
		return lines, arcs
	}
	for _, tt := range []struct {
		name        string
		loop        plane.Loop
		d           float64
		lines, arcs int
		area        float64
	}{
		{"corners stay", rounded(20, 10, 2), -1, 4, 4, 18*8 - (4-math.Pi)*1},
		{"corners vanish", rounded(20, 10, 2), -3, 4, 0, 14 * 4},
		{"sharp corners open", rounded(20, 10, 0), 1, 4, 4, 200 + 60 + math.Pi},
		{"sharp corners inward", rounded(20, 10, 0), -1, 4, 0, 18 * 8},
	} {
		moved, err := tt.loop.Offset(tt.d)
		require.NoError(t, err, tt.name)
		lines, arcs := count(moved)
		require.Equal(t, tt.lines, lines, tt.name)
		require.Equal(t, tt.arcs, arcs, tt.name)
		require.InEpsilon(t, tt.area, moved.Area(), 1e-12, tt.name)
	}
	// The fillets of a cog vanish when it grows by more than their radius; the
	// flanks then cut the root circle where r sin(a) = w + d.
	const root, tip, part, r, d = 15.0, 18.0, 0.4, 0.3, 0.5
	c := cog(12, root, tip, part, r)
	lines, arcs := count(c)
	require.Equal(t, 2, lines)
	require.Equal(t, 4, arcs)
	grown, err := c.Offset(d)
	require.NoError(t, err)
	lines, arcs = count(grown)
	require.Equal(t, 2, lines)
	require.Equal(t, 4, arcs, "tip, root and one about each tip corner")
	w := root * math.Sin(part*math.Pi/12)
	lo, hi := grown.Radii()
	require.InDelta(t, root+d, lo, 1e-9)
	require.InDelta(t, tip+d, hi, 1e-9)
	foot := grown.AtRadius(root + d + 1e-9)
	require.Len(t, foot, 2)
	require.InDelta(t, math.Asin((w+d)/(root+d)), foot[1].Angle, 1e-9)
}

func TestOffsetToNothing(t *testing.T) {
	_, err := plane.CircleLoop(plane.Vec{}, 3).Offset(-3.5)
	require.ErrorIs(t, err, plane.ErrLost)
	_, err = rounded(20, 10, 1).Offset(-6)
	require.ErrorIs(t, err, plane.ErrLost)
	_, err = ellipseLoop(9, 6).Offset(-10)
	require.ErrorIs(t, err, plane.ErrLost)
	same, err := rounded(20, 10, 1).Offset(0)
	require.NoError(t, err)
	require.InEpsilon(t, rounded(20, 10, 1).Area(), same.Area(), 1e-15)
}
