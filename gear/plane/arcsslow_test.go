package plane_test

import (
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"ringtrack/gear"
)

// TestArcsOfManyPairs fits the outlines of pairs from 5/60 to 60/300 teeth, as
// designed and offset either way. Slow.
func TestArcsOfManyPairs(t *testing.T) {
	if os.Getenv("RINGTRACK_SLOW") == "" {
		t.Skip("slow: set RINGTRACK_SLOW=1")
	}
	const tol = 0.002
	loops := 0
	for _, angle := range []float64{14.5, 20, 25, 30} {
		for _, z := range [][2]int{{5, 60}, {7, 50}, {9, 90}, {12, 40}, {15, 104}, {21, 60}, {30, 120}, {60, 300}} {
			for _, m := range []float64{0.5, 1, 2.5, 8} {
				p, _ := gear.Resolve(gear.Wish{
					Module: m, PressureAngle: angle * degree, Pinion: gear.MemberWish{Teeth: z[0]}, Ring: gear.MemberWish{Teeth: z[1]},
					Backlash: gear.Fixed(0.05 * m), Share: 0.5, RackType: 'A', LeastTip: 0.2 * m, Spread: 0.1,
				})
				if p == nil {
					continue // no such teeth
				}
				for i, d := range []float64{0, 0.05, -0.05, 0.1, -0.1, 0.2, -0.2, 0.4} {
					l := p.Pinion.Outline()
					if i%2 == 1 {
						l = p.Ring.Outline()
					}
					l, err := l.Offset(d)
					if err != nil {
						continue // nothing is left of small teeth
					}
					fit, err := l.Arcs(tol)
					require.NoError(t, err, "%g degrees, %v teeth, module %g, offset %g", angle, z, m, d)
					require.LessOrEqual(t, fit.Distance, tol)
					require.Less(t, fit.Break, 0.01*degree)
					require.NoError(t, fit.Loop.Check(1e-8))
					require.LessOrEqual(t, farthest(l, near(fit.Loop), 12), fit.Distance+1e-9)
					require.LessOrEqual(t, farthest(fit.Loop, near(l), 12), fit.Distance+1e-9)
					loops++
				}
			}
		}
	}
	t.Logf("%d loops", loops)
	require.Greater(t, loops, 500)
}
