package plane

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// TestOffsetOfRoundedJoint offsets two arcs that ought to be tangent and turn by
// the rounding of a file's numbers, to both sides.
func TestOffsetOfRoundedJoint(t *testing.T) {
	const rounding = 2.3e-7
	for _, turn := range []float64{rounding, -rounding} {
		first := Arc{R: 1, A0: -0.5, Sweep: 0.5} // ends at (1, 0), heading to +y
		centre := Vec{1, 0}.Sub(Polar(0.7, turn))
		second := Arc{C: centre, R: 0.7, A0: turn, Sweep: 0.6}
		l := Loop{Unit: []Piece{first, second, Line{second.At(1), Vec{-1, 0}}, Line{Vec{-1, 0}, first.At(0)}}, Fold: 1}
		require.NoError(t, l.Check(1e-12))
		for _, d := range []float64{0.15, -0.15} {
			out, err := l.Offset(d)
			require.NoError(t, err)
			require.NoError(t, out.Check(1e-9))
			for p := range out.All() {
				for _, u := range []float64{0, 0.5, 1} {
					require.InDelta(t, math.Abs(d), l.Distance(p.At(u)), 1e-7)
				}
			}
		}
	}
}
