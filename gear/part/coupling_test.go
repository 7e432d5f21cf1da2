package part_test

import (
	"errors"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"ringtrack/gear"
	"ringtrack/gear/find"
	"ringtrack/gear/part"
	"ringtrack/gear/plane"
)

// plate is a coupling's bore with recesses.
func plate(rec part.Recess) part.Bore {
	return part.Bore{Shape: part.CouplingBore, Diameter: 8, Coupling: &part.Coupling{
		Screws: part.Holes{Count: 4, Circle: 16, Diameter: 3.4, Angle: math.Pi / 4}, Recess: &rec,
	}}
}

// lens is the area common to two circles whose centres lie c apart.
func lens(r, q, c float64) float64 {
	a, b := math.Acos((c*c+r*r-q*q)/(2*c*r)), math.Acos((c*c+q*q-r*r)/(2*c*q))
	return r*r*(a-math.Sin(2*a)/2) + q*q*(b-math.Sin(2*b)/2)
}

func TestRecessesJoinTheMiddle(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 6).Draw(t, "count")
		c := rapid.Float64Range(3, 6).Draw(t, "circle")
		q := rapid.Float64Range(0.3, 4).Draw(t, "radius")
		b := plate(part.Recess{Count: n, Circle: 2 * c, Diameter: 2 * q, Depth: 3, Angle: rapid.Float64Range(-7, 7).Draw(t, "angle")})
		const r = 4.0
		loops, err := b.RecessLoops()
		if err != nil {
			var bad *part.RecessError
			require.True(t, errors.As(err, &bad))
			assert.NotEmpty(t, bad.Error())
			return
		}
		sum := 0.0
		for _, l := range loops {
			require.NoError(t, l.Check(1e-9))
			sum -= l.Area()
		}
		want := math.Pi * (r*r + float64(n)*q*q)
		switch {
		case c >= r+q:
			assert.Len(t, loops, 1+n)
		default:
			assert.Len(t, loops, 1)
			want -= float64(n) * lens(r, q, c)
		}
		if math.Abs(sum-want) > 1e-9 {
			t.Fatalf("%+v: %.12g, not %.12g", *b.Coupling.Recess, sum, want)
		}
		// No recess reaches into another: half way between them there is wall.
		if n > 1 && c < r+q {
			half := plane.Polar(c+q, b.Coupling.Recess.Angle+math.Pi/float64(n))
			assert.False(t, loops[0].Contains(half))
		}
	})
}

func TestRecessesThatCannotBe(t *testing.T) {
	for name, rec := range map[string]part.Recess{
		"within the middle":            {Count: 2, Circle: 2, Diameter: 5},
		"run into one another":         {Count: 6, Circle: 8, Diameter: 6},
		"apart and into one another":   {Count: 12, Circle: 20, Diameter: 6},
		"swallow the middle, together": {Count: 2, Circle: 4, Diameter: 13},
	} {
		_, err := plate(rec).RecessLoops()
		var bad *part.RecessError
		assert.True(t, errors.As(err, &bad), name)
	}
	one, err := plate(part.Recess{Count: 1, Circle: 4, Diameter: 13}).RecessLoops()
	require.NoError(t, err)
	assert.InDelta(t, -math.Pi*6.5*6.5, one[0].Area(), 1e-9, "one that swallows the middle stands for it")
	none := plate(part.Recess{})
	none.Coupling.Recess = nil
	loops, err := none.RecessLoops()
	require.NoError(t, err)
	assert.Len(t, loops, 1)
	assert.Len(t, none.CouplingLoops(), 5)
}

func TestScrewHoles(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := part.Holes{
			Count: rapid.IntRange(2, 12).Draw(t, "count"), Circle: rapid.Float64Range(20, 300).Draw(t, "circle"),
			Diameter: rapid.Float64Range(1, 6).Draw(t, "hole"), Angle: rapid.Float64Range(-7, 7).Draw(t, "angle"),
			Slot: rapid.SampledFrom([]float64{0, 0.5, 4}).Draw(t, "slot"),
			Head: rapid.SampledFrom([]part.Head{{}, {Diameter: 8, Depth: 4}, {Diameter: 8, Angle: math.Pi / 2, Above: true}}).Draw(t, "head"),
		}
		loops, centres := h.Loops(), h.Centres()
		require.Len(t, loops, h.Count)
		inner, outer := math.Inf(1), 0.0
		for i, l := range append(loops, h.HeadLoops()...) {
			require.NoError(t, l.Check(1e-9))
			l.Centre = plane.Vec{}
			near := l.Distance(plane.Vec{})
			_, far := l.Radii()
			inner, outer = math.Min(inner, near), math.Max(outer, far)
			if i < h.Count {
				r := h.Diameter / 2
				assert.InDelta(t, -math.Pi*r*r-h.Slot*h.Diameter, l.Area(), 1e-9)
				assert.True(t, l.Contains(centres[i]))
			}
		}
		assert.InDelta(t, inner, h.Inner(), 1e-6)
		assert.InDelta(t, outer, h.Outer(), 1e-6)
		wide := h.HeadLoops()
		if wide == nil {
			wide = loops
		}
		if apart := h.Apart(); apart > 0 {
			gap := math.Inf(1)
			for _, p := range wide[0].Flatten(1e-4) {
				gap = math.Min(gap, wide[1].Distance(p))
			}
			assert.InDelta(t, apart, gap, 0.02)
		}
	})
	assert.InDelta(t, 2.3, part.Head{Diameter: 8, Angle: math.Pi / 2}.Sunk(3.4), 1e-12)
	assert.InDelta(t, 4, part.Head{Diameter: 8, Depth: 4}.Sunk(3.4), 1e-12)
}

func TestCouplingWalls(t *testing.T) {
	p := gear.Pinion{Member: gear.Member{Module: 2, RootDiameter: 34}}
	lim := part.Limits{Wall: 1}
	bore := plate(part.Recess{Count: 2, Circle: 8, Diameter: 5, Depth: 3})
	assert.Empty(t, part.CheckPinion(p, &bore, nil, lim))
	for name, tt := range map[string]struct {
		change func(b *part.Bore)
		code   find.Code
		about  string
		found  float64
	}{
		"screws at the root":     {func(b *part.Bore) { b.Coupling.Screws.Circle = 30 }, find.HoleMeetsTeeth, "pinion.coupling.circle", 17 - 15 - 1.7},
		"heads at the root":      {func(b *part.Bore) { b.Coupling.Screws.Circle, b.Coupling.Screws.Head.Diameter = 26, 7 }, find.HoleMeetsTeeth, "pinion.coupling.circle", 17 - 13 - 3.5},
		"screws at the middle":   {func(b *part.Bore) { b.Diameter, b.Coupling.Recess = 12, nil }, find.BoreTooLarge, "pinion.bore.diameter", 8 - 1.7 - 6},
		"screw in a recess":      {func(b *part.Bore) { b.Coupling.Recess.Angle = math.Pi / 4 }, find.BoreTooLarge, "pinion.bore.diameter", 8 - 1.7 - 4 - 2.5},
		"screws in one another":  {func(b *part.Bore) { b.Coupling.Screws.Count = 14 }, find.NarrowGap, "pinion.coupling.count", 16*math.Sin(math.Pi/14) - 3.4},
		"recess at the root":     {func(b *part.Bore) { b.Coupling.Recess.Circle = 28 }, find.HoleMeetsTeeth, "pinion.coupling.recess_diameter", 17 - 14 - 2.5},
		"recess within the bore": {func(b *part.Bore) { b.Coupling.Recess.Circle = 2 }, find.NarrowGap, "pinion.coupling.recess_diameter", 5},
	} {
		b := bore
		c, r := *bore.Coupling, *bore.Coupling.Recess
		c.Recess, b.Coupling = &r, &c
		tt.change(&b)
		hit := false
		for _, f := range part.CheckPinion(p, &b, nil, lim) {
			if f.Code == tt.code && f.About == tt.about {
				hit = true
				assert.InDelta(t, tt.found, *f.Found, 1e-9, name)
			}
		}
		assert.True(t, hit, name)
	}
}
