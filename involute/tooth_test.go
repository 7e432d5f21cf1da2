package involute_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"ringtrack/involute"
)

// smooth is what the curves of this package have in common.
type smooth interface {
	At(t float64) (x, y, dx, dy, ddx, ddy float64)
	Span() (t0, t1 float64)
}

// anyTooth draws a tooth that exists.
func anyTooth(t *rapid.T) *involute.Tooth {
	for {
		rack, _, err := involute.StandardRack(rapid.SampledFrom([]byte("ABCD")).Draw(t, "rack"),
			deg(rapid.Float64Range(14.5, 30).Draw(t, "alpha")))
		if err != nil {
			continue
		}
		s := involute.ToothSpec{
			Module: rapid.Float64Range(0.2, 50).Draw(t, "m"), Teeth: rapid.IntRange(5, 300).Draw(t, "z"),
			Rack: rack, Shift: rapid.Float64Range(-1, 2).Draw(t, "x"),
		}
		s.Thinning = s.Module * rapid.Float64Range(0, 0.5).Draw(t, "thinning")
		full := s.Module * (float64(s.Teeth)/2 + rack.Addendum + s.Shift)
		s.TipRadius = math.Min(full, s.PointRadius()*(1-1e-6))
		if tooth, err := involute.NewTooth(s); err == nil {
			return tooth
		}
	}
}

// TestJoint: fillet and involute meet in position, and without undercut in
// tangent too; the fillet ends on the root circle, square to the radius.
func TestJoint(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tooth := anyTooth(t)
		m := tooth.Spec.Module
		for _, hand := range []float64{1, -1} {
			flank, fillet := tooth.Flank(hand), tooth.Fillet(hand)
			fx, fy, fdx, fdy, _, _ := fillet.At(fillet.T0)
			ix, iy, idx, idy, _, _ := flank.At(flank.T0)
			require.Less(t, math.Hypot(fx-ix, fy-iy), 1e-11*float64(tooth.Spec.Teeth)*m, "joint")
			require.InEpsilon(t, tooth.FormRadius, math.Hypot(ix, iy), 1e-12)
			if tooth.Undercut == 0 && tooth.FormLength > 1e-3*m && math.Hypot(fdx, fdy) > 1e-3*m {
				sine := (fdx*idy - fdy*idx) / (math.Hypot(fdx, fdy) * math.Hypot(idx, idy))
				require.InDelta(t, 0, sine, 1e-9, "tangent at the joint")
			}
			rx, ry, rdx, rdy, _, _ := fillet.At(fillet.T1)
			require.InEpsilon(t, tooth.RootRadius, math.Hypot(rx, ry), 1e-12)
			require.InDelta(t, 0, (rx*rdx+ry*rdy)/(math.Hypot(rx, ry)*m), 1e-9*float64(tooth.Spec.Teeth), "square at the root circle")
			require.InDelta(t, math.Pi/float64(tooth.Spec.Teeth)-tooth.RootHalf(), -hand*math.Atan2(ry, rx), 1e-12)
			tx, ty, _, _, _, _ := flank.At(flank.T1)
			require.InEpsilon(t, tooth.TipRadius, math.Hypot(tx, ty), 1e-12)
			require.InDelta(t, tooth.HalfAngle(tooth.TipRadius), -hand*math.Atan2(ty, tx), 1e-12)
		}
	})
}

// differences compares first and second derivatives of the curve with central
// differences, whose own error is that of their third-order term.
func differences(t require.TestingT, c smooth, scale float64) {
	t0, t1 := c.Span()
	const n = 23
	for i := 1; i < n; i++ {
		u := t0 + (t1-t0)*float64(i)/n
		h := 1e-4 * (t1 - t0)
		xm, ym, dxm, dym, _, _ := c.At(u - h)
		xp, yp, dxp, dyp, _, _ := c.At(u + h)
		_, _, dx, dy, ddx, ddy := c.At(u)
		speed := math.Hypot(dx, dy) + scale
		bend := math.Hypot(ddx, ddy) + speed/math.Abs(t1-t0)
		require.InDelta(t, 0, math.Hypot((xp-xm)/(2*h)-dx, (yp-ym)/(2*h)-dy)/speed, 1e-5)
		require.InDelta(t, 0, math.Hypot((dxp-dxm)/(2*h)-ddx, (dyp-dym)/(2*h)-ddy)/bend, 1e-5)
	}
}

func TestDerivatives(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tooth := anyTooth(t)
		for _, hand := range []float64{1, -1} {
			differences(t, tooth.Flank(hand), tooth.Spec.Module)
			differences(t, tooth.Fillet(hand), tooth.Spec.Module)
		}
	})
}

// TestFlankIsTheInvolute draws each point of the flank as the end of a string
// that is unwound from the base circle.
func TestFlankIsTheInvolute(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tooth := anyTooth(t)
		c := tooth.Flank(1)
		for i := range 11 {
			roll := c.T0 + (c.T1-c.T0)*float64(i)/10
			x, y, _, _, _, _ := c.At(roll)
			// The string touches at the angle phase + roll and is rb*roll long.
			s, k := math.Sincos(c.Phase + roll)
			px, py := c.Base*k+c.Base*roll*s, c.Base*s-c.Base*roll*k
			require.InDelta(t, 0, math.Hypot(x-px, y-py)/c.Base, 1e-14)
			r := math.Hypot(x, y)
			require.InDelta(t, tooth.HalfAngle(r), -math.Atan2(y, x), 1e-8)
		}
	})
}

// TestThickness: at the reference circle it is the thickness that was asked for;
// at any radius it is what the two flanks leave between them.
func TestThickness(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tooth := anyTooth(t)
		s := tooth.Spec
		want := s.Module*(math.Pi/2+2*s.Shift*math.Tan(s.Rack.PressureAngle)) - s.Thinning
		require.InDelta(t, want, tooth.Thickness, 1e-12*s.Module)
		require.InDelta(t, want, tooth.ThicknessAt(tooth.ReferenceRadius), 1e-11*tooth.ReferenceRadius)
		c, d := tooth.Flank(1), tooth.Flank(-1)
		roll := rapid.Float64Range(c.T0, c.T1).Draw(t, "roll")
		ax, ay, _, _, _, _ := c.At(roll)
		bx, by, _, _, _, _ := d.At(roll)
		r := math.Hypot(ax, ay)
		between := math.Atan2(by, bx) - math.Atan2(ay, ax)
		require.InDelta(t, r*between, tooth.ThicknessAt(r), 1e-7*s.Module+1e-11*r)
	})
}

// TestPointedTip: at PointRadius the flanks meet, just below they do not.
func TestPointedTip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tooth := anyTooth(t)
		p := tooth.PointRadius()
		require.InDelta(t, 0, tooth.HalfAngle(p), 1e-12)
		require.Greater(t, tooth.HalfAngle(p*(1-1e-6)), 0.0)
		require.Greater(t, p, tooth.TipRadius)
		_, err := tooth.WithTip(p * (1 + 1e-9))
		var d *involute.DomainError
		require.ErrorAs(t, err, &d)
		require.Equal(t, involute.Pointed, d.Cause)
		_, err = tooth.WithTip(tooth.FormRadius)
		require.ErrorAs(t, err, &d)
		require.Equal(t, involute.TipInside, d.Cause)
	})
}

// TestRadiusOfLand: the land asked for is there, and nothing larger would do.
func TestRadiusOfLand(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tooth := anyTooth(t)
		m := tooth.Spec.Module
		land := m * rapid.Float64Range(0.05, 0.6).Draw(t, "land")
		full := m * (float64(tooth.Spec.Teeth)/2 + 1 + tooth.Spec.Shift)
		r := tooth.RadiusOfLand(land, full)
		require.LessOrEqual(t, r, full)
		if r <= tooth.FormRadius {
			return // thinner everywhere
		}
		require.GreaterOrEqual(t, tooth.ThicknessAt(r), land*(1-1e-9)-1e-12*r)
		if r < full {
			require.Less(t, tooth.ThicknessAt(r*(1+1e-7)), land)
		}
	})
}

// TestThinningTurns: thinning turns each flank and fillet about the centre and
// leaves every diameter.
func TestThinningTurns(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		thick := anyTooth(t)
		s := thick.Spec
		by := 0.01 * s.Module
		s.Thinning += by
		thin, err := involute.NewTooth(s)
		if err != nil {
			return // the thinner tooth comes to a point
		}
		turn := by / (2 * thick.ReferenceRadius)
		require.Equal(t, thick.RootRadius, thin.RootRadius)
		require.Equal(t, thick.FormRadius, thin.FormRadius)
		require.InDelta(t, thick.RootHalf()+turn, thin.RootHalf(), 1e-14)
		for _, pair := range [][2]smooth{{thick.Flank(1), thin.Flank(1)}, {thick.Fillet(1), thin.Fillet(1)}} {
			t0, t1 := pair[0].Span()
			for i := range 5 {
				u := t0 + (t1-t0)*float64(i)/4
				ax, ay, _, _, _, _ := pair[0].At(u)
				bx, by, _, _, _, _ := pair[1].At(u)
				sn, cs := math.Sincos(turn)
				require.InDelta(t, 0, math.Hypot(cs*ax-sn*ay-bx, sn*ax+cs*ay-by)/thick.TipRadius, 1e-13)
			}
		}
	})
}

// TestTeethThatAreNone asks for teeth that do not exist and expects the cause.
func TestTeethThatAreNone(t *testing.T) {
	a, _, err := involute.StandardRack('A', deg(20))
	require.NoError(t, err)
	for _, tt := range []struct {
		name  string
		spec  involute.ToothSpec
		cause involute.Cause
	}{
		{"the rack", involute.ToothSpec{Module: 1, Teeth: 20, TipRadius: 11}, involute.BadRack},
		{"root circle vanishes", involute.ToothSpec{Module: 1, Teeth: 4, Rack: a, Shift: -0.9, TipRadius: 3}, involute.RootLost},
		{"tip below the form circle", involute.ToothSpec{Module: 1, Teeth: 20, Rack: a, TipRadius: 9.3}, involute.TipInside},
		{"pointed", involute.ToothSpec{Module: 1, Teeth: 12, Rack: a, Shift: 1, TipRadius: 8}, involute.Pointed},
		{"cut off", involute.ToothSpec{Module: 1, Teeth: 5, Rack: a, Shift: -0.7, TipRadius: 2.8}, involute.CutOff},
		{"NaN module", involute.ToothSpec{Module: math.NaN(), Teeth: 12, Rack: a, TipRadius: 8}, involute.RootLost},
	} {
		_, err := involute.NewTooth(tt.spec)
		var d *involute.DomainError
		require.ErrorAs(t, err, &d, tt.name)
		require.Equal(t, tt.cause, d.Cause, "%s: %v", tt.name, err)
		require.NotEmpty(t, d.Allowed)
	}
}
