package plane_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"ringtrack/gear/plane"
)

// perimeter returns the length of an ellipse by Gauss's arithmetic-geometric
// mean: 2 pi (a^2 - sum 2^(n-1) c_n^2)/agm.
func perimeter(a, b float64) float64 {
	sum, weight := (a*a+b*b)/2, 0.5
	a0, b0 := a, b
	for range 20 {
		c := (a0 - b0) / 2
		a0, b0 = (a0+b0)/2, math.Sqrt(a0*b0)
		weight *= 2
		sum -= weight * c * c
	}
	return 2 * math.Pi * sum / a0
}

func TestAreaAndLength(t *testing.T) {
	for _, tt := range []struct {
		name         string
		loop         plane.Loop
		area, length float64
	}{
		{"circle", plane.CircleLoop(plane.Vec{X: 3, Y: -4}, 5), 25 * math.Pi, 10 * math.Pi},
		{"clockwise circle", plane.CircleLoop(plane.Vec{X: 3, Y: -4}, 5).Reverse(), -25 * math.Pi, 10 * math.Pi},
		{"ellipse", ellipseLoop(9, 6), 54 * math.Pi, perimeter(9, 6)},
		{"flower", flowerLoop(10, 1, 7), math.Pi * (100 + 0.5), math.NaN()},
		{"rectangle", rounded(20, 8, 0), 160, 56},
		{"rounded rectangle", rounded(20, 8, 3), 160 - (4-math.Pi)*9, 56 - 24 + 6*math.Pi},
	} {
		require.NoError(t, tt.loop.Check(1e-12), tt.name)
		require.InEpsilon(t, tt.area, tt.loop.Area(), 1e-12, tt.name)
		if !math.IsNaN(tt.length) {
			require.InEpsilon(t, tt.length, tt.loop.Length(), 1e-12, tt.name)
		}
	}
}

// TestRegion: the material lies on the left of every loop, so holes count
// against the outer loop.
func TestRegion(t *testing.T) {
	r := plane.Region{Outer: rounded(40, 20, 2), Holes: []plane.Loop{
		plane.CircleLoop(plane.Vec{X: 8}, 3).Reverse(), cog(9, 4, 5, 0.4, 0.2).Map(plane.Moved(plane.Vec{X: -9})).Reverse(),
	}}
	hole := cog(9, 4, 5, 0.4, 0.2).Area()
	require.Greater(t, hole, 0.0)
	want := 800 - (4-math.Pi)*4 - 9*math.Pi - hole
	require.InEpsilon(t, want, r.Area(), 1e-12)
	require.Len(t, r.Loops(), 3)
	for _, m := range []plane.Similarity{plane.Turned(1), plane.Mirrored(), plane.Moved(plane.Vec{X: 1e4, Y: 7}), plane.Scaled(25.4)} {
		q := r.Map(m)
		require.InEpsilon(t, want*m.Scale()*m.Scale(), q.Area(), 1e-9)
		require.Greater(t, q.Outer.Area(), 0.0)
		for _, h := range q.Holes {
			require.Less(t, h.Area(), 0.0)
		}
	}
	// Adding material makes the outer loop larger and every hole smaller.
	for i, l := range r.Loops() {
		grown, err := l.Offset(0.1)
		require.NoError(t, err)
		require.Greater(t, grown.Area(), l.Area(), "loop %d", i)
	}
}

// TestPieces holds every piece's frame against differences of its points.
func TestPieces(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := anyLoop(t).Map(anyMap(t))
		for _, p := range l.Unit {
			if c, ok := p.(plane.Curve); ok && rapid.Bool().Draw(t, "moved") {
				// Less than any radius of curvature, so that it stays regular.
				c.D = 0.05 * c.M.Scale()
				p = c
			}
			size := p.Box().Size().Len()
			for i := range 9 {
				u := (float64(i) + 0.5) / 9
				const h = 1e-5
				f, a, b := p.Frame(u), p.Frame(u-h), p.Frame(u+h)
				require.InDelta(t, 0, p.At(u).Sub(f.P).Len(), 1e-11*(size+f.P.Len()))
				d := b.P.Sub(a.P).Mul(1 / (2 * h))
				noise := 1e-15 * f.P.Len() / h
				require.InDelta(t, 0, d.Sub(f.V).Len(), 1e-6*(f.V.Len()+size)+10*noise)
				bend := b.V.Sub(a.V).Mul(1 / (2 * h))
				k := f.V.Cross(bend) / math.Pow(f.V.Len(), 3)
				require.InDelta(t, k, f.K, 1e-5*(math.Abs(f.K)+1/size))
				require.True(t, p.Box().Grow(1e-9*(size+f.P.Len())).Meets(plane.NoBox().Add(f.P)))
				q := p.Reverse().Frame(1 - u)
				require.InDelta(t, 0, q.P.Sub(f.P).Len(), 1e-11*(size+f.P.Len()))
				require.InDelta(t, 0, q.V.Add(f.V).Len(), 1e-10*f.V.Len()+1e-12)
				require.InDelta(t, -f.K, q.K, 1e-8*(math.Abs(f.K)+1/size))
				cut := p.Cut(u/2, u).At(1)
				require.InDelta(t, 0, cut.Sub(f.P).Len(), 1e-11*(size+f.P.Len()))
			}
		}
	})
}

// TestContainsAndDistance compares with a fine polygon.
func TestContainsAndDistance(t *testing.T) {
	inside := 0
	rapid.Check(t, func(t *rapid.T) {
		l := anyLoop(t)
		const chord = 1e-3
		poly := l.Flatten(chord)
		p := plane.Vec{X: rapid.Float64Range(-25, 25).Draw(t, "x"), Y: rapid.Float64Range(-25, 25).Draw(t, "y")}
		want := polygonDistance(poly, p)
		require.InDelta(t, want, l.Distance(p), chord*1.01)
		if want > 2*chord {
			require.Equal(t, polygonContains(poly, p), l.Contains(p))
		}
		if l.Contains(p) {
			inside++
		}
	})
	require.Greater(t, inside, 10)
	c := plane.CircleLoop(plane.Vec{X: 1}, 2)
	require.InDelta(t, 1.0, c.Distance(plane.Vec{X: 2}), 1e-15)
	require.InDelta(t, 3.0, c.Distance(plane.Vec{X: 6}), 1e-15)
	require.True(t, c.Contains(plane.Vec{X: 3 - 1e-8}))
	require.False(t, c.Contains(plane.Vec{X: 3}))
	require.False(t, c.Contains(plane.Vec{X: 3 + 1e-8}))
}

func TestRadii(t *testing.T) {
	least, greatest := flowerLoop(10, 1, 7).Radii()
	require.InDelta(t, 9, least, 1e-12)
	require.InDelta(t, 11, greatest, 1e-12)
	least, greatest = cog(12, 15, 18, 0.4, 0.3).Radii()
	require.InDelta(t, 15, least, 1e-12)
	require.InDelta(t, 18, greatest, 1e-12)
	moved := rounded(6, 8, 0)
	moved.Centre = plane.Vec{X: 1}
	least, greatest = moved.Radii()
	require.InDelta(t, 2, least, 1e-7) // a foot on a line
	require.InDelta(t, math.Hypot(4, 4), greatest, 1e-12)
}

func TestAtRadius(t *testing.T) {
	// 10 + cos 7t = 10.5 at 7t = +-pi/3.
	hits := flowerLoop(10, 1, 7).AtRadius(10.5)
	require.Len(t, hits, 2)
	require.InDelta(t, -math.Pi/21, hits[0].Angle, 1e-12)
	require.InDelta(t, math.Pi/21, hits[1].Angle, 1e-12)
	c := cog(12, 15, 18, 0.4, 0.3)
	for _, r := range []float64{15.5, 16, 17.999} {
		hits := c.AtRadius(r)
		require.Len(t, hits, 2, "%g", r)
		require.InDelta(t, math.Asin(15*math.Sin(0.4*math.Pi/12)/r), hits[1].Angle, 1e-12)
		require.InDelta(t, hits[1].Angle, -hits[0].Angle, 1e-12)
	}
	require.Empty(t, c.AtRadius(14))
	require.Empty(t, c.AtRadius(18.1))
	// A piece on the circle itself is no crossing, however large the circle.
	for _, k := range []float64{1, 1e3, 1e5} {
		far := c.Map(plane.Turned(0.3)).Map(plane.Scaled(k))
		require.Empty(t, far.AtRadius(18*k*(1+1e-15)), "scale %g", k)
	}
}

func TestExtent(t *testing.T) {
	top := plane.Arc{R: 5, A0: math.Pi / 4, Sweep: math.Pi / 2}
	reach, inside := plane.Extent(top, math.Pi/2)
	require.InDelta(t, 5, reach, 1e-12)
	require.True(t, inside)
	reach, inside = plane.Extent(top, 0)
	require.InDelta(t, 5*math.Sqrt(0.5), reach, 1e-12)
	require.False(t, inside)
}

// TestSameAnswersElsewhere: a turned, mirrored, scaled or shifted loop gives the
// same answers, turned, mirrored, scaled and shifted.
func TestSameAnswersElsewhere(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l, m := anyLoop(t), anyMap(t)
		q := l.Map(m)
		k := m.Scale()
		far := m.Shift.Len()
		require.NoError(t, q.Check(1e-11*(1+k+far)))
		require.InEpsilon(t, l.Area()*k*k, q.Area(), 1e-12+1e-14*far*far/(k*k))
		require.InEpsilon(t, l.Length()*k, q.Length(), 1e-12+1e-13*far/k)
		a, b := l.Radii()
		qa, qb := q.Radii()
		require.InDelta(t, a*k, qa, 1e-7*k+1e-11*far)
		require.InDelta(t, b*k, qb, 1e-7*k+1e-11*far)
		p := plane.Vec{X: rapid.Float64Range(-25, 25).Draw(t, "x"), Y: rapid.Float64Range(-25, 25).Draw(t, "y")}
		require.InDelta(t, l.Distance(p)*k, q.Distance(m.Point(p)), 1e-9*k+1e-11*far)
		if l.Distance(p) > 1e-3 {
			require.Equal(t, l.Contains(p), q.Contains(m.Point(p)))
		}
		d := rapid.SampledFrom([]float64{-0.3, -0.08, 0.08, 0.3}).Draw(t, "d")
		x, err := l.Offset(d)
		require.NoError(t, err)
		y, err := q.Offset(d * k)
		require.NoError(t, err)
		require.Len(t, y.Unit, len(x.Unit))
		require.InEpsilon(t, x.Area()*k*k, y.Area(), 1e-9+1e-10*far/k)
		// Twice mirrored, or there and back, is where it was.
		back := m.Then(plane.Moved(m.Shift.Mul(-1)))
		require.InDelta(t, 0, back.Shift.Len(), 1e-12*(1+far))
	})
}

func TestReverse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := anyLoop(t)
		r := l.Reverse()
		require.NoError(t, r.Check(1e-11))
		require.InEpsilon(t, -l.Area(), r.Area(), 1e-12)
		require.Equal(t, l.Turns(), r.Turns())
		grown, err := l.Offset(0.1)
		require.NoError(t, err)
		same, err := r.Offset(-0.1)
		require.NoError(t, err)
		require.InEpsilon(t, -grown.Area(), same.Area(), 1e-10)
	})
}

func TestCheckNamesTheGap(t *testing.T) {
	l := rounded(10, 10, 1)
	l.Unit[3] = l.Unit[3].Map(plane.Moved(plane.Vec{X: 0.01}))
	err := l.Check(1e-6)
	require.Error(t, err)
	require.Contains(t, err.Error(), "piece 2 ends at")
	require.Error(t, plane.Loop{}.Check(1))
	nan := plane.Loop{Unit: []plane.Piece{plane.Circle(plane.Vec{X: math.NaN()}, 1)}}
	require.Error(t, nan.Check(1e-6))
}
