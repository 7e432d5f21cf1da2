package gear_test

import (
	"fmt"
	"math"
	"reflect"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"ringtrack/gear"
	"ringtrack/gear/find"
	"ringtrack/gear/plane"
)

// anyWish draws a wish from everything that is allowed.
func anyWish(t *rapid.T) gear.Wish {
	choice := func(name string, lo, hi float64) gear.Choice {
		if !rapid.Bool().Draw(t, name+" given") {
			return gear.Choice{}
		}
		return gear.Fixed(rapid.Float64Range(lo, hi).Draw(t, name))
	}
	m := rapid.Float64Range(0.2, 50).Draw(t, "module")
	z1 := rapid.IntRange(5, 300).Draw(t, "pinion")
	z2 := rapid.IntRange(z1+1, 1000).Draw(t, "ring")
	w := gear.Wish{
		Module: m, PressureAngle: deg(rapid.Float64Range(14.5, 30).Draw(t, "angle")),
		RackType: rapid.SampledFrom([]byte("ABCD")).Draw(t, "rack"),
		Pinion:   gear.MemberWish{Teeth: z1, Shift: choice("pinion_shift", -1, 2)},
		Ring:     gear.MemberWish{Teeth: z2, Shift: choice("ring_shift", -1, 2)},
		Backlash: choice("backlash", 0, m), Share: rapid.Float64Range(0, 1).Draw(t, "share"),
		LeastTip: rapid.Float64Range(0.05, 0.6).Draw(t, "least tip"), Spread: rapid.Float64Range(0, 0.3).Draw(t, "spread"),
		ProcessPlay: rapid.SampledFrom([]float64{0, 0.1, 0.15}).Draw(t, "process"),
	}
	if rapid.IntRange(0, 4).Draw(t, "distance") == 0 {
		w.CentreDistance = gear.Fixed(m * float64(z2-z1) / 2 * rapid.Float64Range(0.9, 1.2).Draw(t, "a"))
	}
	if rapid.IntRange(0, 4).Draw(t, "tips") == 0 {
		w.Pinion.TipRadius = gear.Fixed(m * (float64(z1)/2 + rapid.Float64Range(-1, 3).Draw(t, "ra1")))
		w.Ring.TipRadius = gear.Fixed(m * (float64(z2)/2 - rapid.Float64Range(-3, 2).Draw(t, "ra2")))
	}
	if rapid.IntRange(0, 4).Draw(t, "racks") == 0 {
		w.Pinion.Addendum, w.Ring.Dedendum = choice("addendum", 0.3, 1.5), choice("dedendum", 0.4, 2)
		w.Ring.RootRadius = choice("root radius", 0.01, 0.6)
	}
	return w
}

// crosses reports where the polygon's edges touch other than at shared corners.
func crosses(poly []plane.Vec, closed bool) (string, bool) {
	side := func(a, b, c plane.Vec) float64 { return b.Sub(a).Cross(c.Sub(a)) }
	n := len(poly) - 1
	if closed {
		n++
	}
	for i := range n {
		a, b := poly[i], poly[(i+1)%len(poly)]
		box := plane.NoBox().Add(a).Add(b)
		for k := i + 2; k < n; k++ {
			if closed && i == 0 && k == n-1 {
				continue
			}
			c, d := poly[k], poly[(k+1)%len(poly)]
			if !box.Meets(plane.NoBox().Add(c).Add(d)) {
				continue
			}
			if side(a, b, c)*side(a, b, d) < 0 && side(c, d, a)*side(c, d, b) < 0 {
				return fmt.Sprintf("edge %d (%v to %v) and edge %d (%v to %v)", i, a, b, k, c, d), true
			}
		}
	}
	return "", false
}

// sound checks one outline: joined, simple, rightly turned, and with the right
// number of teeth.
func sound(t require.TestingT, l plane.Loop, teeth int, turn float64, m float64) {
	require.NoError(t, l.Check(1e-9))
	require.Equal(t, teeth, l.Turns())
	require.Positive(t, turn*l.Area())
	least, greatest := l.Radii()
	require.True(t, least > 0 && greatest > least)
	require.Len(t, l.AtRadius((least+greatest)/2), 2, "one tooth a pitch")
	unit := l.Flatten(1e-4 * m)
	unit = unit[:len(unit)/teeth]
	var three []plane.Vec
	for i := range 3 {
		for _, v := range unit {
			three = append(three, v.Turn(turn*2*math.Pi*float64(i)/float64(teeth)))
		}
	}
	where, bad := crosses(three, false)
	require.False(t, bad, "crosses itself: %s", where)
}

// finite looks at every number of a value, down to the last field.
func finite(t require.TestingT, path string, v reflect.Value) {
	switch v.Kind() {
	case reflect.Float64:
		f := v.Float()
		require.False(t, math.IsNaN(f) || math.IsInf(f, 0), "%s is %g", path, f)
	case reflect.Pointer, reflect.Interface:
		if !v.IsNil() {
			finite(t, path, v.Elem())
		}
	case reflect.Struct:
		for i := range v.NumField() {
			finite(t, path+"."+v.Type().Field(i).Name, v.Field(i))
		}
	case reflect.Slice:
		for i := range v.Len() {
			finite(t, fmt.Sprintf("%s[%d]", path, i), v.Index(i))
		}
	}
}

// TestAnyWish: whatever is asked for in the allowed ranges, the answer is two
// sound outlines and figures that are numbers, or a fault.
func TestAnyWish(t *testing.T) {
	drawn, good, none := 0, 0, 0
	rapid.Check(t, func(t *rapid.T) {
		w := anyWish(t)
		p, findings := gear.Resolve(w)
		faults := find.Count(findings, find.Fault)
		for _, f := range findings {
			require.NotEmpty(t, f.Text)
			require.NotEmpty(t, f.About)
			require.NotContains(t, f.Text, "NaN")
			finite(t, string(f.Code), reflect.ValueOf(f.Found))
			finite(t, string(f.Code), reflect.ValueOf(f.Limit))
		}
		if p == nil {
			none++
			require.Positive(t, faults)
			return
		}
		drawn++
		if faults == 0 {
			good++
		}
		shown := *p
		if faults > 0 && math.IsInf(shown.TipCornerGap, 1) {
			shown.TipCornerGap = 0 // a pair that lies apart has no such gap
		}
		finite(t, "pair", reflect.ValueOf(shown))
		sound(t, p.Pinion.Outline(), w.Pinion.Teeth, 1, w.Module)
		sound(t, p.Ring.Outline(), w.Ring.Teeth, -1, w.Module)
		for name, c := range map[string][2]float64{
			"pinion_shift": {w.Pinion.Shift.Value, p.Pinion.Shift}, "ring_shift": {w.Ring.Shift.Value, p.Ring.Shift},
			"pinion tip": {2 * w.Pinion.TipRadius.Value, p.Pinion.TipDiameter}, "ring tip": {2 * w.Ring.TipRadius.Value, p.Ring.TipDiameter},
			"centre_distance": {w.CentreDistance.Value, p.CentreDistance}, "backlash": {w.Backlash.Value, p.Backlash.Asked},
		} {
			given := map[string]bool{
				"pinion_shift": w.Pinion.Shift.Given, "ring_shift": w.Ring.Shift.Given, "pinion tip": w.Pinion.TipRadius.Given,
				"ring tip": w.Ring.TipRadius.Given, "centre_distance": w.CentreDistance.Given, "backlash": w.Backlash.Given,
			}[name]
			if given && faults == 0 {
				require.InDelta(t, c[0], c[1], 1e-12*(1+math.Abs(c[0])), "a given %s is never changed", name)
			}
		}
	})
	t.Logf("%d without a fault, %d drawn, %d not", good, drawn, none)
	require.Positive(t, good)
}

// TestAnyOpenWish leaves all choices to the rule: from 12 teeth and with room
// between the counts it always finds a pair.
func TestAnyOpenWish(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		z1 := rapid.IntRange(12, 300).Draw(t, "pinion")
		w := open(rapid.Float64Range(0.2, 50).Draw(t, "module"), z1, z1+rapid.IntRange(20, 600).Draw(t, "more"))
		w.PressureAngle = deg(rapid.Float64Range(20, 25).Draw(t, "angle"))
		w.RackType = rapid.SampledFrom([]byte("ABC")).Draw(t, "rack")
		w.LeastTip, w.Spread, w.Backlash = 0.15*w.Module, 0.02*w.Module, gear.Fixed(0.1*w.Module)
		p, findings := gear.Resolve(w)
		require.NotNil(t, p)
		require.Empty(t, codes(findings, find.Fault), "%v", findings)
		sound(t, p.Pinion.Outline(), w.Pinion.Teeth, 1, w.Module)
		sound(t, p.Ring.Outline(), w.Ring.Teeth, -1, w.Module)
		// Same wish, same answer.
		again, _ := gear.Resolve(w)
		require.Equal(t, p, again)
	})
}

// TestCornerGap holds the reported least distance of the pinion's tip corner
// from the ring's root corner against distances from the drawn outline, over the
// whole pass of a tooth through a space.
func TestCornerGap(t *testing.T) {
	for _, w := range []gear.Wish{open(2.5, 15, 104), open(1, 40, 64), open(1, 60, 100), full(1, 20, 60, 0, 0), full(1, 30, 90, 0.5, 0.5)} {
		p, _ := resolve(t, w)
		corner := p.Ring.Space.Corner(1)
		arc := plane.Arc{C: plane.Vec{X: corner.X, Y: corner.Y}, R: corner.R, A0: corner.From, Sweep: corner.To - corner.From}
		pieces := []plane.Piece{arc, arc.Map(plane.Mirrored())}
		if half := p.Ring.Space.RootHalf(); half > 0 {
			pieces = append(pieces, plane.Arc{R: p.Ring.RootDiameter / 2, A0: -half, Sweep: 2 * half})
		}
		rb1, rb2 := p.Pinion.BaseDiameter/2, p.Ring.BaseDiameter/2
		tangent := p.CentreDistance * math.Sin(p.WorkingPressureAngle)
		half1, half2 := p.Pinion.Tooth.HalfAngle(rb1), p.Ring.Space.HalfAngle(rb2)
		ra := p.Pinion.TipDiameter / 2
		least := math.Inf(1)
		for i := range 8001 {
			l := p.Path.PinionTip + p.Pinion.Module*(-8+14*float64(i)/8000)
			tooth := p.WorkingPressureAngle - l/rb1 + half1
			space := p.WorkingPressureAngle - (l+tangent)/rb2 + half2
			at := plane.Polar(ra, tooth-p.Pinion.Tooth.HalfAngle(ra)).Add(plane.Vec{X: p.CentreDistance}).Turn(-space)
			for _, piece := range pieces {
				least = math.Min(least, plane.PieceDistance(piece, at))
			}
		}
		require.InDelta(t, least, p.TipCornerGap, 1e-4*p.Pinion.Module, "%d/%d", w.Pinion.Teeth, w.Ring.Teeth)
		require.Less(t, p.TipCornerGap, p.Pinion.Module)
	}
}
