package drive_test

import (
	"math"
	"sort"
	"testing"

	"github.com/stretchr/testify/require"

	"ringtrack/gear/plane"
)

// crossing returns two sides of a closed polygon that cross or touch without
// being neighbours, by sweeping over x.
func crossing(pts []plane.Vec) (i, k int, ok bool) {
	n := len(pts)
	end := func(i int) plane.Vec { return pts[(i+1)%n] }
	left := func(i int) float64 { return math.Min(pts[i].X, end(i).X) }
	order := make([]int, n)
	for i := range order {
		order[i] = i
	}
	sort.Slice(order, func(a, b int) bool { return left(order[a]) < left(order[b]) })
	var open []int
	for _, i := range order {
		still := open[:0]
		for _, k := range open {
			if math.Max(pts[k].X, end(k).X) < left(i) {
				continue
			}
			still = append(still, k)
			if gap := (i - k + n) % n; gap > 1 && gap < n-1 && meet(pts[i], end(i), pts[k], end(k)) {
				return i, k, true
			}
		}
		open = append(still, i)
	}
	return 0, 0, false
}

// meet reports whether two straight sides have a point in common.
func meet(a, b, c, d plane.Vec) bool {
	side := func(p, q, r plane.Vec) float64 { return q.Sub(p).Cross(r.Sub(p)) }
	if math.Max(a.Y, b.Y) < math.Min(c.Y, d.Y) || math.Max(c.Y, d.Y) < math.Min(a.Y, b.Y) {
		return false
	}
	return side(a, b, c)*side(a, b, d) <= 0 && side(c, d, a)*side(c, d, b) <= 0
}

// TestCrossing shows the sweep a square, a bow tie and a pinched outline.
func TestCrossing(t *testing.T) {
	_, _, ok := crossing([]plane.Vec{{X: 0, Y: 0}, {X: 1, Y: 0}, {X: 1, Y: 1}, {X: 0, Y: 1}})
	require.False(t, ok)
	_, _, ok = crossing([]plane.Vec{{X: 0, Y: 0}, {X: 1, Y: 1}, {X: 1, Y: 0}, {X: 0, Y: 1}})
	require.True(t, ok)
	_, _, ok = crossing([]plane.Vec{{X: 0, Y: 0}, {X: 2, Y: 0}, {X: 2, Y: 2}, {X: 1, Y: 0}, {X: 0, Y: 2}})
	require.True(t, ok)
}
