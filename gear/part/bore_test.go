package part_test

import (
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

// drawBore draws a bore of any shape whose measures agree, with a clearance of
// at least nothing.
func drawBore(t *rapid.T) part.Bore {
	real := func(lo, hi float64, name string) float64 { return rapid.Float64Range(lo, hi).Draw(t, name) }
	b := part.Bore{
		Shape:     rapid.SampledFrom([]string{part.RoundBore, part.DBore, part.DoubleDBore, part.HexagonBore, part.KeyedBore}).Draw(t, "shape"),
		Diameter:  real(2, 40, "diameter"),
		Clearance: real(0, 0.6, "clearance"),
		FlatAngle: real(-7, 7, "angle"),
	}
	switch b.Shape {
	case part.DBore:
		b.AcrossFlat = b.Diameter * real(0.55, 0.98, "flat")
	case part.DoubleDBore:
		b.AcrossFlat = b.Diameter * real(0.3, 0.98, "flat")
	case part.HexagonBore:
		b.AcrossFlat, b.Diameter = b.Diameter, 0
	case part.KeyedBore:
		b.Key.Width = b.Diameter * real(0.1, 0.5, "key")
		b.Key.Shaft = b.Diameter * real(0.15, 0.3, "seat")
		b.Key.Height = b.Key.Shaft + b.Diameter*real(0.1, 0.2, "out")
		b.Key.Hub = b.Key.Height - b.Key.Shaft + real(0.01, 0.5, "room")
	}
	return b
}

// The shaft with half the clearance all round lies inside the hole: the gap is
// nowhere less, and somewhere not more.
func TestShaftLiesInItsHole(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := drawBore(t)
		hole := b.Loop()
		grown, err := b.ShaftLoop().Offset(b.Clearance / 2)
		require.NoError(t, err)
		for _, p := range grown.Flatten(0.02) {
			if d := hole.Distance(p); d > 1e-9 && !hole.Contains(p) {
				t.Fatalf("%+v: (%g, %g) stands %g outside", b, p.X, p.Y, d)
			}
		}
		least := math.Inf(1)
		for _, p := range b.ShaftLoop().Flatten(0.02) {
			least = math.Min(least, hole.Distance(p))
		}
		if math.Abs(least-b.Clearance/2) > 1e-9 {
			t.Fatalf("%+v: gap %g", b, least)
		}
	})
}

func TestHolesJoinAndTurnClockwise(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := drawBore(t)
		hole, shaft := b.Loop(), b.ShaftLoop()
		require.NoError(t, hole.Check(1e-9))
		require.NoError(t, shaft.Check(1e-9))
		assert.Negative(t, hole.Area())
		assert.Positive(t, shaft.Area())
		assert.Greater(t, -hole.Area(), shaft.Area()-1e-9)
		_, reach := hole.Radii()
		assert.InDelta(t, reach, b.Reach(), 1e-9)
		assert.InDelta(t, 30-reach, b.WallInside(30), 1e-9)
		assert.InDelta(t, b.HoleDiameter(), b.MeasureDiameter(hole), 1e-9)
	})
}

// closedArea is the hole's area by the formulas for segments and strips.
func closedArea(b part.Bore) float64 {
	r := b.HoleDiameter() / 2
	segment := func(f float64) float64 { return r*r*math.Acos(f/r) - f*math.Sqrt(r*r-f*f) }
	switch b.Shape {
	case part.DBore:
		return math.Pi*r*r - segment(b.AcrossFlat+b.Clearance-r)
	case part.DoubleDBore:
		return math.Pi*r*r - 2*segment((b.AcrossFlat+b.Clearance)/2)
	case part.HexagonBore:
		return 2 * math.Sqrt(3) * r * r
	case part.KeyedBore:
		w := (b.Key.Width + b.Clearance) / 2
		strip := w*math.Sqrt(r*r-w*w) + r*r*math.Asin(w/r)
		return math.Pi*r*r - strip + 2*w*(r+b.Key.Hub)
	}
	return math.Pi * r * r
}

func TestHoleAreas(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := drawBore(t)
		want := closedArea(b)
		if got := -b.Loop().Area(); math.Abs(got-want) > 1e-11*want {
			t.Fatalf("%+v: %.15g, not %.15g", b, got, want)
		}
	})
}

func TestShaftCornersPass(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := drawBore(t)
		hole, shaft, corners := b.Loop(), b.ShaftLoop(), b.ShaftCorners()
		want := map[string]int{part.DBore: 2, part.DoubleDBore: 4, part.HexagonBore: 6, part.KeyedBore: 2}[b.Shape]
		require.Len(t, corners, want)
		for _, p := range corners {
			assert.Less(t, shaft.Distance(p), 1e-9)
			if d := hole.Distance(p); d < b.Clearance/2-1e-9 || b.Clearance > 0.001 && !hole.Contains(p) {
				t.Fatalf("%+v: corner (%g, %g) at %g", b, p.X, p.Y, d)
			}
		}
	})
}

// What is drawn for a printer comes out as designed, whatever the shape.
func TestHolesCanBeDrawn(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := drawBore(t)
		m := gear.Making{HoleShrink: rapid.Float64Range(-0.3, 0.4).Draw(t, "shrink"), Shrinkage: 0.003}
		if b.Shape == part.KeyedBore {
			m.HoleShrink = math.Abs(m.HoleShrink)
		}
		drawn, err := m.Draw(b.Loop(), gear.Hole)
		require.NoError(t, err)
		// An offset below 1e-9 mm a side is none (plane.Loop.Offset), so a diameter is true to twice that.
		assert.InDelta(t, b.HoleDiameter()/(1-m.Shrinkage)+m.HoleShrink, b.MeasureDiameter(drawn), 2e-9, "%+v", b)
		made, err := m.Made(drawn, gear.Hole)
		require.NoError(t, err)
		for _, p := range b.ShaftCorners() {
			if b.Clearance > 0.42 {
				assert.True(t, made.Contains(p), "%+v", b)
			}
		}
	})
}

func TestBoresByHand(t *testing.T) {
	d := part.Bore{Shape: part.DBore, Diameter: 6, AcrossFlat: 5.5, Clearance: 0.1}
	assert.InDelta(t, 6.1, d.HoleDiameter(), 1e-12)
	assert.InDelta(t, 2.55, d.FlatDistance(), 1e-12, "2.5 on the shaft and half of 0.1")
	assert.True(t, d.Through())
	d.Depth = 8
	assert.False(t, d.Through())

	// The chord of a 6 mm shaft's flat is 2 sqrt(9 - 6.25) = 3.32 mm.
	c := d.ShaftCorners()
	assert.InDelta(t, 3.32, c[0].Sub(c[1]).Len(), 0.005)

	hex := part.Bore{Shape: part.HexagonBore, AcrossFlat: 5, Clearance: 0.2, FlatAngle: math.Pi / 2}
	box := hex.Loop().Box().Size()
	assert.InDelta(t, 5.2, box.Y, 1e-12, "flats above and below")
	assert.InDelta(t, 5.2*2/math.Sqrt(3), box.X, 1e-12)

	key := part.Bore{Shape: part.KeyedBore, Diameter: 8, Clearance: 0.1, Key: part.Key{Width: 2, Height: 2, Shaft: 1.2, Hub: 1}}
	box = key.Loop().Box().Size()
	assert.InDelta(t, 4.05+4.05+1, box.X, 1e-12, "DIN 6885-1: d + t2, with the clearance")
	assert.InDelta(t, 8+0.8, key.ShaftLoop().Box().Size().X, 1e-12, "over the key: d - t1 + h")
	assert.InDelta(t, math.Hypot(5.05, 1.05), key.Reach(), 1e-12)

	round := part.Bore{Shape: part.RoundBore, Diameter: 6}
	assert.InDelta(t, 10-3-1.5, round.WallBeside(plane.Vec{X: 10}, 1.5), 1e-12)
	assert.InDelta(t, 2-3-0.5, round.WallBeside(plane.Vec{X: 2}, 0.5), 1e-12, "inside the hole")
	assert.Empty(t, round.ShaftCorners())
}

// A negative clearance that leaves no hole is a fault of every shape.
func TestClosedHoles(t *testing.T) {
	p := gear.Pinion{Member: gear.Member{Module: 1, RootDiameter: 30}}
	for _, b := range []part.Bore{
		{Shape: part.RoundBore, Diameter: 0.9, Clearance: -0.9},
		{Shape: part.DBore, Diameter: 1.5, AcrossFlat: 0.9, Clearance: -0.9},
		{Shape: part.DoubleDBore, Diameter: 1.5, AcrossFlat: 0.9, Clearance: -0.9},
		{Shape: part.HexagonBore, AcrossFlat: 0.8, Clearance: -0.8},
		{Shape: part.KeyedBore, Diameter: 7, Clearance: -0.9, Key: part.Key{Width: 0.9, Height: 2, Shaft: 1, Hub: 1.2}},
	} {
		found := part.CheckPinion(p, &b, nil, part.Limits{Wall: 1})
		require.Len(t, found, 1, b.Shape)
		assert.Equal(t, find.OutlineLost, found[0].Code, b.Shape)
		assert.Equal(t, "pinion.bore.clearance", found[0].About)
		b.Loop().Flatten(0.01) // of no use, but harmless
		b.Clearance += 0.01
		assert.Empty(t, part.CheckPinion(p, &b, nil, part.Limits{Wall: 1}), b.Shape)
		assert.NoError(t, b.Loop().Check(1e-9), b.Shape)
	}
}
