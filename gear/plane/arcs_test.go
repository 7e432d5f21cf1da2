package plane_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"ringtrack/gear"
	"ringtrack/gear/plane"
	"ringtrack/involute"
)

const degree = math.Pi / 180

// carousel returns the toothed outlines of a pinion of z1 and a ring of z2
// teeth, module 2.5.
func carousel(t testing.TB, z1, z2 int) (pinion, ring plane.Loop) {
	t.Helper()
	p, found := gear.Resolve(gear.Wish{
		Module: 2.5, PressureAngle: 20 * degree, Pinion: gear.MemberWish{Teeth: z1}, Ring: gear.MemberWish{Teeth: z2},
		Backlash: gear.Fixed(0.3), Share: 0.5, RackType: 'A', LeastTip: 0.5, Spread: 0.1,
	})
	require.NotNil(t, p, "%v", found)
	return p.Pinion.Outline(), p.Ring.Outline()
}

// arcLoops returns outlines with flanks and fillets, as designed and offset,
// and smooth closed curves.
func arcLoops(t testing.TB) map[string]plane.Loop {
	pinion, ring := carousel(t, 15, 104)
	out := map[string]plane.Loop{
		"pinion": pinion, "ring": ring, "ellipse": ellipseLoop(9, 6),
		"flower": flowerLoop(10, 0.4, 7), "clover": flowerLoop(10, 3, 2), "rounded": rounded(20, 8, 3),
	}
	for name, d := range map[string]float64{"grown": 0.1, "shrunk": -0.08} {
		var err error
		out["pinion "+name], err = pinion.Offset(d)
		require.NoError(t, err)
		out["ring "+name], err = ring.Offset(-d)
		require.NoError(t, err)
	}
	return out
}

// farthest returns the greatest distance of points of a's unit from b.
func farthest(a, b plane.Loop, points int) float64 {
	worst := 0.0
	for _, p := range a.Unit {
		for i := range points {
			worst = math.Max(worst, b.Distance(p.At((float64(i)+0.5)/float64(points))))
		}
	}
	return worst
}

// near returns the loop's unit with a neighbour on either side, as far as there
// are others: enough to measure the distance of points of the unit.
func near(l plane.Loop) plane.Loop {
	if l.Turns() < 4 {
		return l
	}
	out := plane.Loop{Fold: 1}
	step := 2 * math.Pi / float64(l.Fold)
	for i := -1; i <= 1; i++ {
		m := plane.Moved(l.Centre.Mul(-1)).Then(plane.Turned(step * float64(i))).Then(plane.Moved(l.Centre))
		for _, p := range l.Unit {
			out.Unit = append(out.Unit, p.Map(m))
		}
	}
	return out
}

// breaks returns the greatest turn at a joint of the fit that is not within
// 1e-9 mm of a corner of the exact loop, and the number of exact corners that
// the fit has lost.
func breaks(exact, fit plane.Loop) (worst float64, lost int) {
	turns := func(l plane.Loop) (at []plane.Vec, turn []float64) {
		var all []plane.Piece
		for p := range l.All() {
			all = append(all, p)
		}
		for i, p := range all {
			a, b := all[(i+len(all)-1)%len(all)].Frame(1).V, p.Frame(0).V
			at = append(at, p.At(0))
			turn = append(turn, math.Abs(math.Atan2(a.Cross(b), a.Dot(b))))
		}
		return at, turn
	}
	at, turn := turns(exact)
	var corners []plane.Vec
	for i := range at {
		if turn[i] > 1e-3 {
			corners = append(corners, at[i])
		}
	}
	got, turned := turns(fit)
	kept := map[int]bool{}
joints:
	for i, p := range got {
		for k, c := range corners {
			if c.Sub(p).Len() < 1e-8 {
				kept[k] = true
				continue joints
			}
		}
		worst = math.Max(worst, turned[i])
	}
	return worst, len(corners) - len(kept)
}

func TestArcsStayWithinTheTolerance(t *testing.T) {
	for name, l := range arcLoops(t) {
		for _, tol := range []float64{0.05, 0.002, 3e-5} {
			what := fmt.Sprintf("%s at %g", name, tol)
			fit, err := l.Arcs(tol)
			require.NoError(t, err, what)
			require.NoError(t, fit.Loop.Check(1e-8), what)
			require.LessOrEqual(t, fit.Distance, tol, what)
			require.LessOrEqual(t, farthest(fit.Loop, near(l), 9), fit.Distance+1e-9, what)
			require.LessOrEqual(t, farthest(l, near(fit.Loop), 40), fit.Distance+1e-9, what)
			worst, lost := breaks(l, fit.Loop)
			require.Less(t, worst, 0.01*degree, what)
			require.InDelta(t, worst, fit.Break, 1e-7, what)
			require.Zero(t, lost, "%s: corners lost", what)
			require.Equal(t, l.Fold, fit.Loop.Fold)
			require.LessOrEqual(t, math.Abs(fit.Loop.Area()-l.Area()), fit.Distance*l.Length(), what)
			for _, p := range fit.Loop.Unit {
				_, smooth := p.(plane.Curve)
				require.False(t, smooth, what)
				require.Less(t, near(l).Distance(p.At(0)), 1e-9, "%s: a joint off the outline", what)
			}
		}
	}
}

// leastArcs returns how many arcs a stretch of involute of the base radius
// needs between roll angles t0 and t1 within tol, as a real number. An arc
// that need not join its neighbours covers h with |k'| h^3 = 192 tol (the
// third Chebyshev polynomial), one that joins them smoothly in a long row
// h with |k'| h^3 = 72 sqrt(3) tol (the third Bernoulli polynomial). Along an
// involute the integral of |k'|^(1/3) ds is rb^(1/3) (t1 - t0).
func leastArcs(rb, t0, t1, tol float64) (loose, smooth float64) {
	integral := math.Cbrt(rb) * (t1 - t0)
	return integral / math.Cbrt(192*tol), integral / math.Cbrt(72*math.Sqrt(3)*tol)
}

// TestArcsAreFew compares the arcs of single flanks with what no row of arcs can
// go below. With a given tangent at one end a smooth row covers 0.3 of an arc
// less, with one at both ends 0.6.
func TestArcsAreFew(t *testing.T) {
	pinion, ring := carousel(t, 15, 104)
	for _, tt := range []struct {
		name string
		loop plane.Loop
	}{{"pinion", pinion}, {"ring", ring}} {
		var flank involute.Curve
		for _, p := range tt.loop.Unit {
			if c, ok := p.(plane.Curve); ok {
				if f, ok := c.Base.(involute.Curve); ok {
					flank = f
				}
			}
		}
		c := plane.NewCurve(flank)
		closing := plane.Line{A: c.At(1), B: c.At(0)}
		for _, tol := range []float64{0.02, 0.005, 0.002, 5e-4, 1e-4, 1e-5} {
			fit, err := plane.Loop{Unit: []plane.Piece{c, closing}, Fold: 1}.Arcs(tol)
			require.NoError(t, err)
			n := len(fit.Loop.Unit) - 1
			loose, smooth := leastArcs(flank.Base, flank.T0, flank.T1, tol)
			t.Logf("%s flank at %g mm: %d arcs, distance %.3g; bounds %.2f loose, %.2f smooth", tt.name, tol, n, fit.Distance, loose, smooth)
			require.GreaterOrEqual(t, float64(n), math.Ceil(loose)-0.01)
			require.LessOrEqual(t, float64(n), math.Ceil(smooth)+1, "%s at %g", tt.name, tol)
		}
		fit, err := tt.loop.Arcs(0.002)
		require.NoError(t, err)
		before := 0
		for _, p := range tt.loop.Unit {
			if _, smooth := p.(plane.Curve); !smooth {
				before++
			}
		}
		arcs := len(fit.Loop.Unit) - before
		t.Logf("%s: %d arcs for the flanks and fillets of a tooth at 0.002 mm, distance %.3g, %d pieces in all", tt.name, arcs, fit.Distance, len(fit.Loop.Unit))
	}
}

// TestMirroredFlanksAreMirrored: the two sides of a tooth get the same arcs.
func TestMirroredFlanksAreMirrored(t *testing.T) {
	pinion, ring := carousel(t, 15, 104)
	for _, l := range []plane.Loop{pinion, ring} {
		fit, err := l.Arcs(0.002)
		require.NoError(t, err)
		whole := plane.Loop{Fold: 1}
		for p := range fit.Loop.All() {
			whole.Unit = append(whole.Unit, p)
		}
		mirrored := whole.Map(plane.Mirrored())
		for _, p := range mirrored.Unit[:2*len(fit.Loop.Unit)] {
			near := math.Inf(1)
			for _, q := range whole.Unit {
				near = math.Min(near, q.At(0).Sub(p.At(0)).Len())
			}
			require.Less(t, near, 1e-7)
		}
	}
}

func TestArcsOfRandomCurves(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 9).Draw(t, "waves")
		l := rapid.SampledFrom([]plane.Loop{
			ellipseLoop(rapid.Float64Range(1, 30).Draw(t, "a"), rapid.Float64Range(1, 30).Draw(t, "b")),
			flowerLoop(10, rapid.Float64Range(0.01, 4/float64(n)).Draw(t, "w"), n),
		}).Draw(t, "loop")
		tol := math.Pow(10, rapid.Float64Range(-3.5, -1.3).Draw(t, "log tol"))
		m := plane.Turned(rapid.Float64Range(-3, 3).Draw(t, "turn")).Then(plane.Moved(plane.Vec{X: rapid.Float64Range(-100, 100).Draw(t, "x")}))
		if rapid.Bool().Draw(t, "mirror") {
			m = plane.Mirrored().Then(m)
		}
		l = l.Map(m)
		if rapid.Bool().Draw(t, "reverse") {
			l = l.Reverse()
		}
		fit, err := l.Arcs(tol)
		require.NoError(t, err)
		require.LessOrEqual(t, fit.Distance, tol)
		require.Less(t, fit.Break, 1e-6)
		require.LessOrEqual(t, farthest(l, near(fit.Loop), 15), fit.Distance+1e-9)
		require.NoError(t, fit.Loop.Check(1e-8))
	})
}

func TestArcsRefuse(t *testing.T) {
	l := ellipseLoop(9, 6)
	for _, tol := range []float64{0, -0.002, 1e-7, math.NaN(), math.Inf(1)} {
		_, err := l.Arcs(tol)
		require.ErrorContains(t, err, "arc tolerance")
	}
	l.Unit = l.Unit[:3]
	_, err := l.Arcs(0.002)
	require.ErrorContains(t, err, "from the start of the next")
	_, err = plane.Loop{}.Arcs(0.002)
	require.ErrorContains(t, err, "no pieces")
	nan := plane.CircleLoop(plane.Vec{X: math.NaN()}, 4)
	_, err = nan.Arcs(0.002)
	require.Error(t, err)
	// A circle stays a circle.
	fit, err := plane.CircleLoop(plane.Vec{X: 1}, 4).Arcs(0.002)
	require.NoError(t, err)
	require.Equal(t, plane.CircleLoop(plane.Vec{X: 1}, 4), fit.Loop)
	require.Zero(t, fit.Distance)
}

func BenchmarkArcs(b *testing.B) {
	pinion, ring := carousel(b, 15, 104)
	for name, l := range map[string]plane.Loop{"pinion": pinion, "ring of 104": ring} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				if _, err := l.Arcs(0.002); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
