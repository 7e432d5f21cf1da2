package load

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const (
	inch  = 25.4
	pound = 4.4482216152605 // N
	psi   = pound / (inch * inch)
)

// Shigley, Mechanical Engineering Design, example 14-1 (from memory): 16 teeth,
// 8 a inch, face 1.5 in, 1200 rpm, 10 kpsi: 628 ft/min, Kv 1.52, 365 lbf, 6.95 hp.
// The book carries rounded Kv and load on.
func TestTextbookLewis(t *testing.T) {
	const module, face = inch / 8, 1.5 * inch
	speed := math.Pi * 16 * module * 1200 / 60 / 1000 // m/s
	assert.InDelta(t, 628, speed/0.3048*60, 0.5)
	assert.InDelta(t, 1.52, Barth(speed), 0.005)
	printed := Lewis{Y: 0.296}
	load := 10000 * psi / printed.Stress(1, face, module, speed)
	assert.InDelta(t, 365, load/pound, 1)
	assert.InDelta(t, 364.269129701, load/pound, 1e-6)
	power := load * speed // W
	assert.InDelta(t, 6.95, power/745.69987, 0.02)
	// With the form factor of the tooth itself in place of the table's.
	p := external(t, tooth(t, module, 16, 0))
	own := 10000 * psi / p.Lewis(p.Tip(), module).Stress(1, face, module, speed)
	assert.InEpsilon(t, 365, own/pound, 0.06)
}

// Shigley, example 14-3 (from memory): the same pinion, steel, with a 50-tooth
// wheel of cast iron, 382 lbf, Kv 1.52: 72.4 kpsi on the flank.
func TestTextbookHertz(t *testing.T) {
	pinion, wheel := Elastic{30e6 * psi, 0.292}, Elastic{14.5e6 * psi, 0.211}
	sin, cos := math.Sincos(20 * degree)
	line := 1.52 * 382 * pound / (1.5 * inch * cos)
	got := Pressure(line, Curvature(1*inch*sin, 3.125*inch*sin), pinion, wheel)
	assert.InDelta(t, 72.4, got/psi/1000, 0.1)
}

// VDI 2736-2 (from memory), recomputed without this project's code: m 2, 20/40,
// b 15, Ft 50 N, KF 1.25, E 2800 for both.
func TestGuidelineExample(t *testing.T) {
	m := externalMesh(t, 2, 20, 40, Elastic{2800, 0.35})
	y := ShareFactor(m.ContactRatio())
	assert.InEpsilon(t, 0.708663428325, y, 1e-10)
	for i, want := range []float64{6.41787154307, 5.92459995956} {
		p := []*Profile{m.Pinion.Profile, m.Wheel.Profile}[i]
		f, err := p.Form(p.Tip(), 2, 20*degree)
		require.NoError(t, err)
		assert.InEpsilon(t, want, RootStress(1.25*50, 15, 2, f, y), 1e-9)
	}
	assert.InEpsilon(t, 0.0178571428571, ToothBending(50, 15, m.Pinion.Elastic, m.Wheel.Elastic), 1e-10)
	assert.InDelta(t, 0.166065, m.LossFactor(), 5e-7)
	assert.InDelta(t, 0.14, BendingLimit(2), 1e-12)
	// With steel the guideline's deflection is the stiffness of ISO 6336-1's 14 N/(mm um).
	assert.InDelta(t, 13.7333333333, 1/ToothBending(1, 1, steel, steel)/1000, 1e-9)
}

// The guideline's flank stress at the pitch point is that of Hertz, its contact
// factor aside; for a ring too, where the ratio is negative.
func TestFlankStressIsHertz(t *testing.T) {
	ring, err := NewMesh(pair(t, 2.5, 15, 104), Making{Face: 10, Pinion: pla, Ring: pla})
	require.NoError(t, err)
	for _, m := range []*Mesh{externalMesh(t, 2, 20, 40, pla), ring} {
		rho1, rho2 := m.strings(m.PitchPoint())
		normal := 50 / math.Cos(m.PressureAngle)
		hertz := Pressure(normal/m.Face, Curvature(rho1, rho2), pla, pla)
		eps := math.Sqrt((4 - m.ContactRatio()) / 3)
		assert.InEpsilon(t, hertz*eps, m.FlankStress(50), 1e-9)
	}
}

func TestRootFatigue(t *testing.T) {
	v, ok := RootFatigue("pom", 23, 1e6)
	assert.True(t, ok)
	assert.InDelta(t, 26-0.0025*529+400*math.Pow(1e6, -0.2), v, 1e-9)
	assert.True(t, v > 35 && v < 55, "published use: 35 to 50 MPa at 1e6 to 1e7 cycles (from memory), got %g", v)
	v, ok = RootFatigue("pa66", 23, 1e6)
	assert.True(t, ok)
	assert.True(t, v > 25 && v < 60, "%g", v)
	_, ok = RootFatigue("pla", 23, 1e6)
	assert.False(t, ok)
	_, ok = RootFatigue("pom", 120, 1e6)
	assert.False(t, ok)
}

func TestTemperature(t *testing.T) {
	m := externalMesh(t, 2, 20, 40, pla)
	h := Heat{Ambient: 20, Power: 10, Friction: 0.3, Teeth: 20, Speed: 1, Shape: 2000, Continuous: 1}
	warm, err := m.Temperature(h)
	require.NoError(t, err)
	assert.InDelta(t, 20+10*0.3*m.LossFactor()*2000/(10*20*math.Pow(2, 0.75)), warm, 1e-9)
	h.Speed = 0
	_, err = m.Temperature(h)
	assert.Error(t, err)
}
