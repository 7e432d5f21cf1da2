package load

import (
	"math"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ringtrack/gear/plane"
)

// A bar of even thickness: y^3/(3 t^3) and y/t.
func TestRectangularBar(t *testing.T) {
	const w, h = 1.5, 7.0
	p, err := NewProfile([]plane.Piece{plane.Line{A: plane.Vec{X: h, Y: w}, B: plane.Vec{Y: w}}}, false)
	require.NoError(t, err)
	for _, x := range []float64{7, 5, 0.3} {
		l := p.leverTo(p.spot(0, 1-x/h), p.spot(0, 1))
		assert.InEpsilon(t, x*x*x/(3*8*w*w*w), l.Cube, 1e-9)
		assert.InEpsilon(t, x/(2*w), l.One, 1e-9)
		// The whole deflection: a cantilever with shear, in plane strain.
		e := Elastic{2000, 0.3}
		want := (12*0.91*x*x*x/(3*8*w*w*w) + 2.4*1.3*x/(2*w)) / e.Modulus
		assert.InEpsilon(t, want, l.ToothYield(e.Poisson)/e.Modulus, 1e-6)
	}
}

// A wedge whose thickness grows from a at the load to b at the root, over the
// length h: with k = (b - a)/h the integrals are
//
//	Int x^2/(a + k x)^3 dx = (ln(b/a) + 2 a/b - a^2/(2 b^2) - 3/2)/k^3
//	Int dx/(a + k x) = ln(b/a)/k
func TestWedge(t *testing.T) {
	const a, b, h = 1.0, 3.2, 4.0
	p, err := NewProfile([]plane.Piece{plane.Line{A: plane.Vec{X: h + 1, Y: (a - (b-a)/h) / 2}, B: plane.Vec{Y: b / 2}}}, false)
	require.NoError(t, err)
	// The load stands square to the wedge's flank: seek the place whose line
	// meets the centre line at h.
	u := bisect(func(u float64) bool { x, _ := crossing(p.spot(0, u)); return x > h })
	l := p.leverTo(p.spot(0, u), p.spot(0, 1))
	k := (b - a) / h
	assert.InEpsilon(t, h, l.Arm, 1e-12)
	assert.InEpsilon(t, (math.Log(b/a)+2*a/b-a*a/(2*b*b)-1.5)/(k*k*k), l.Cube, 1e-6)
	assert.InEpsilon(t, math.Log(b/a)/k, l.One, 1e-6)
	assert.InDelta(t, math.Atan(k/2), l.Angle, 1e-12)
}

// With nu 0.3 the general coefficients are the printed ones of 1953.
func TestPrintedCoefficients(t *testing.T) {
	nu := 0.3
	flat := Lever{Cube: 1}
	assert.InDelta(t, 10.92, flat.ToothYield(nu), 1e-9)
	assert.InDelta(t, 3.1, Lever{One: 1}.ToothYield(nu), 0.05)
	at := func(arm, angle float64) float64 {
		l := Lever{Arm: arm, Root: 1, Angle: angle}
		return l.RootYield(nu) / (math.Cos(angle) * math.Cos(angle))
	}
	assert.InDelta(t, 1.4, at(0, 0), 0.05)
	quad := (at(2, 0) - 2*at(1, 0) + at(0, 0)) / 2
	assert.InDelta(t, 5.2, quad, 0.05)
	assert.InDelta(t, 1.0, at(1, 0)-at(0, 0)-quad, 0.05)
	assert.InDelta(t, 0.294, at(0, math.Pi/4)/at(0, 0)-1, 0.005)
}

// externalMesh is a pair of standard external gears.
func externalMesh(t testing.TB, m float64, z1, z2 int, e Elastic) *Mesh {
	t1, t2 := tooth(t, m, z1, 0), tooth(t, m, z2, 0)
	a := m * float64(z1+z2) / 2
	k := &Mesh{
		Pinion: Side{Profile: external(t, t1), Base: t1.BaseRadius, Teeth: z1, Elastic: e},
		Wheel:  Side{Profile: external(t, t2), Base: t2.BaseRadius, Teeth: z2, Elastic: e},
		Module: m, PressureAngle: 20 * degree, Working: 20 * degree, Centre: a, External: true, Face: 10,
	}
	long := a * math.Sin(20*degree)
	k.Start = long - math.Sqrt(t2.TipRadius*t2.TipRadius-t2.BaseRadius*t2.BaseRadius)
	k.End = math.Sqrt(t1.TipRadius*t1.TipRadius - t1.BaseRadius*t1.BaseRadius)
	require.NoError(t, k.Check())
	return k
}

func TestStiffnessOfSteelPairs(t *testing.T) {
	for _, r := range rows(t, "stiffness.txt") {
		z1, _ := strconv.Atoi(r[0])
		z2, _ := strconv.Atoi(r[1])
		m := externalMesh(t, 5, z1, z2, steel)
		c, err := m.PairStiffness(m.PitchPoint(), 300)
		require.NoError(t, err)
		off := c/1000/num(t, r[2]) - 1
		t.Logf("%s/%s: %.3f N/(mm um), %+.1f %% of ISO 6336-1", r[0], r[1], c/1000, 100*off)
		assert.Less(t, math.Abs(off), 0.08)
		assert.InDelta(t, num(t, r[3]), c/1000, 0.0006)
	}
}

// One pair, 20/20: what bends, what tilts and what flattens, in micrometres.
func TestPartsOfTheDeflection(t *testing.T) {
	m := externalMesh(t, 5, 20, 20, steel)
	c, err := m.at(m.PitchPoint())
	require.NoError(t, err)
	um := 1000 * 300 / steel.Modulus
	assert.InDelta(t, 2.619, c.lever[0].ToothYield(0.3)*um, 0.0006)
	assert.InDelta(t, 3.921, c.lever[0].RootYield(0.3)*um, 0.0006)
	assert.InDelta(t, 6.168, 1000*Flattening(300, c.radius, c.lever[0].Depth, c.lever[1].Depth, steel, steel), 0.0006)
}
