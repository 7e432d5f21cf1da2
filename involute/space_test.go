package involute_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"ringtrack/involute"
)

// anySpace draws a space that exists.
func anySpace(t *rapid.T) *involute.Space {
	for {
		rack, _, err := involute.StandardRack(rapid.SampledFrom([]byte("ABCD")).Draw(t, "rack"),
			deg(rapid.Float64Range(14.5, 30).Draw(t, "alpha")))
		if err != nil {
			continue
		}
		s := involute.SpaceSpec{
			Module: rapid.Float64Range(0.2, 50).Draw(t, "m"), Teeth: rapid.IntRange(12, 1000).Draw(t, "z"),
			Rack: rack, Shift: rapid.Float64Range(-1, 2).Draw(t, "x"),
		}
		s.Corner = s.Module * rapid.Float64Range(0.02, 0.6).Draw(t, "corner")
		s.Widening = s.Module * rapid.Float64Range(0, 0.5).Draw(t, "widening")
		r := s.Module * float64(s.Teeth) / 2
		s.TipRadius = math.Max(r-s.Module*(1-s.Shift), r*math.Cos(rack.PressureAngle)+0.02*s.Module)
		if space, err := involute.NewSpace(s); err == nil {
			return space
		}
	}
}

// TestCornerIsTangent: the corner arc leaves the flank without a kink at the
// form circle and meets the root circle from inside.
func TestCornerIsTangent(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := anySpace(t)
		m := p.Spec.Module
		size := p.RootRadius
		for _, hand := range []float64{1, -1} {
			flank, arc := p.Flank(hand), p.Corner(hand)
			x, y, dx, dy, _, _ := flank.At(flank.T1)
			s, c := math.Sincos(arc.From)
			require.Less(t, math.Hypot(arc.X+arc.R*c-x, arc.Y+arc.R*s-y), 1e-13*size, "start of the arc")
			require.InDelta(t, 0, (dx*c+dy*s)/math.Hypot(dx, dy), 1e-12, "tangent to the flank")
			require.InEpsilon(t, p.FormRadius, math.Hypot(x, y), 1e-12)
			s, c = math.Sincos(arc.To)
			ex, ey := arc.X+arc.R*c, arc.Y+arc.R*s
			require.InEpsilon(t, p.RootRadius, math.Hypot(ex, ey), 1e-12, "end on the root circle")
			require.InDelta(t, 0, (ex*s-ey*c)/size, 1e-12, "tangent to the root circle")
			require.InDelta(t, p.RootHalf(), -hand*math.Atan2(ey, ex), 1e-12)
			require.Less(t, math.Abs(arc.To-arc.From), math.Pi)
			differences(t, flank, m)
		}
		require.LessOrEqual(t, p.CornerRadius, p.Spec.Corner)
		if p.FullRound {
			require.InDelta(t, p.Spec.Widening/(2*p.ReferenceRadius), p.RootHalf(), 1e-12)
		}
	})
}

func TestSpaceWidth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := anySpace(t)
		s := p.Spec
		want := s.Module*(math.Pi/2+2*s.Shift*math.Tan(s.Rack.PressureAngle)) + s.Widening
		require.InDelta(t, want, p.Width, 1e-12*s.Module)
		require.InDelta(t, want, p.WidthAt(p.ReferenceRadius), 1e-11*p.ReferenceRadius)
		r := rapid.Float64Range(p.TipRadius, p.FormRadius).Draw(t, "r")
		require.InDelta(t, 2*math.Pi*r/float64(s.Teeth), p.WidthAt(r)+p.ToothThicknessAt(r), 1e-12*r)
		c := p.Flank(-1)
		x, y, _, _, _, _ := c.At(involute.StringLength(p.BaseRadius, r) / p.BaseRadius)
		require.InDelta(t, p.HalfAngle(r), math.Atan2(y, x), 1e-8)
	})
}

// TestCornerFor: an arc of the radius returned leaves the flank whole to the
// string length asked for, and one a little larger does not.
func TestCornerFor(t *testing.T) {
	answered := 0
	rapid.Check(t, func(t *rapid.T) {
		p := anySpace(t)
		l := p.FormLength + p.Spec.Module*rapid.Float64Range(-0.2, 0.3).Draw(t, "beyond")
		rho := p.CornerFor(l)
		require.LessOrEqual(t, rho, p.CornerRadius)
		if rho <= 1e-6*p.Spec.Module {
			return // the flank does not reach so far
		}
		with := func(corner float64) float64 {
			s := p.Spec
			s.Corner = corner
			q, err := involute.NewSpace(s)
			if err != nil {
				return math.Inf(-1)
			}
			return q.FormLength
		}
		require.GreaterOrEqual(t, with(rho), math.Min(l, p.FormLength)-1e-9*p.RootRadius)
		if rho < p.CornerRadius*(1-1e-9) {
			answered++
			require.InDelta(t, l, with(rho), 1e-8*p.RootRadius)
			require.Less(t, with(rho*1.001), l)
		}
	})
	require.Greater(t, answered, 5)
}

func TestSpacesThatAreNone(t *testing.T) {
	a, _, err := involute.StandardRack('A', deg(20))
	require.NoError(t, err)
	base := involute.SpaceSpec{Module: 1, Teeth: 60, Rack: a, TipRadius: 29, Corner: 0.38}
	for _, tt := range []struct {
		name   string
		change func(*involute.SpaceSpec)
		cause  involute.Cause
	}{
		{"tip inside the base circle", func(s *involute.SpaceSpec) { s.TipRadius = 28.1 }, involute.InsideBase},
		{"no corner", func(s *involute.SpaceSpec) { s.Corner = 0 }, involute.BadCorner},
		{"tip beyond the form circle", func(s *involute.SpaceSpec) { s.TipRadius = 31.2 }, involute.TipInside},
		{"ring teeth pointed", func(s *involute.SpaceSpec) { s.Shift, s.TipRadius = 2, 29.5 }, involute.Pointed},
		{"NaN tip", func(s *involute.SpaceSpec) { s.TipRadius = math.NaN() }, involute.InsideBase},
		{"root inside the base circle", func(s *involute.SpaceSpec) { s.Teeth, s.Shift, s.TipRadius = 200, -10, 94 }, involute.BadCorner},
	} {
		s := base
		tt.change(&s)
		_, err := involute.NewSpace(s)
		var d *involute.DomainError
		require.ErrorAs(t, err, &d, tt.name)
		require.Equal(t, tt.cause, d.Cause, "%s: %v", tt.name, err)
	}
	_, err = involute.NewSpace(base)
	require.NoError(t, err)
}
