package plane_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"ringtrack/gear/plane"
)

// TestFlatten: every vertex stands on the outline to 1e-9 mm, no point of the
// outline is farther than the chordal tolerance from the polygon, and there are
// hardly more vertices than the curvature demands.
func TestFlatten(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := anyLoop(t)
		if rapid.Bool().Draw(t, "moved") {
			moved, err := l.Offset(rapid.SampledFrom([]float64{-0.2, 0.2}).Draw(t, "d"))
			require.NoError(t, err)
			l = moved
		}
		chord := rapid.SampledFrom([]float64{0.05, 0.005, 0.0005}).Draw(t, "chord")
		poly := l.Flatten(chord)
		for _, v := range poly[:len(poly)/l.Turns()] {
			require.Less(t, l.Distance(v), 1e-9)
		}
		// Fewest chords of a piece: the integral of sqrt(curvature/(8 tolerance))
		// along it, to first order; at least one chord a piece.
		least, pieces := 0.0, 0
		for p := range l.All() {
			pieces++
			for i := range 64 {
				f := p.Frame((float64(i) + 0.5) / 64)
				least += f.V.Len() * math.Sqrt(math.Abs(f.K)/(8*chord)) / 64
				require.LessOrEqual(t, polygonDistance(poly, f.P), chord*(1+1e-6))
			}
		}
		require.LessOrEqual(t, float64(len(poly)), 1.08*least+2*float64(pieces))
		require.InDelta(t, l.Area(), polygonArea(poly), l.Length()*chord)
	})
}

// TestFlattenCircle: the fewest chords are known exactly, pi/acos(1 - t/r).
func TestFlattenCircle(t *testing.T) {
	for _, r := range []float64{1, 30, 500} {
		for _, chord := range []float64{0.1, 0.001, 0.00002} {
			n := len(plane.CircleLoop(plane.Vec{}, r).Flatten(chord))
			require.Equal(t, int(math.Ceil(math.Pi/math.Acos(1-chord/r)-1e-6)), n, "r %g chord %g", r, chord)
		}
	}
	require.Len(t, plane.CircleLoop(plane.Vec{}, 1).Flatten(5), 4) // never fewer than four
}
