package budget

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

// turnOf works out the turn of true parts with these spreads and directions.
func turnOf(t *testing.T, s Spreads, d *Directions) (*model, Turn) {
	t.Helper()
	m := modelOf(t, standard(t), s)
	b := m.asDrawn(d)
	return m, m.turn(&b)
}

// harmonic returns amplitude and phase of the n-th harmonic of the points' play.
func harmonic(pts []Point, n int) (amplitude, phase float64) {
	var c, s float64
	for _, p := range pts {
		sin, cos := math.Sincos(float64(n) * p.Place)
		c, s = c+p.Play*cos, s+p.Play*sin
	}
	k := 2 / float64(len(pts))
	return math.Hypot(c*k, s*k), math.Atan2(s, c)
}

func TestTurnTrue(t *testing.T) {
	m, turn := turnOf(t, Spreads{}, nil)
	for _, p := range turn.Points {
		assert.InDelta(t, m.nominal(), p.Play, 1e-12)
	}
	assert.Equal(t, 0, turn.Tightest.Space)
}

// An eccentricity e moves the backlash by 2 e tan(alpha_w) once a turn.
func TestTurnRingOffCentre(t *testing.T) {
	for _, at := range []float64{0, 1, 4} {
		m, turn := turnOf(t, Spreads{RingRunout: Measured(0.02)}, &Directions{Ring: at})
		want := 2 * 0.01 * m.tanW
		got, phase := harmonic(turn.Points, 1)
		assert.InEpsilon(t, want, got, 1e-3)
		assert.InDelta(t, 0, math.Remainder(phase-at, 2*math.Pi), 1e-6, "loosest where the ring's centre lies")
		second, _ := harmonic(turn.Points, 2)
		assert.Less(t, second, 1e-2*want)
		assert.InDelta(t, 0, math.Remainder(turn.Tightest.Place-at-math.Pi, 2*math.Pi), 2*math.Pi/104)
		assert.InEpsilon(t, m.nominal()-want, turn.Tightest.Play, 1e-3)
	}
	// As builders see it: 0.3 mm off centre moves the play by about 0.22 mm.
	rows := tableOf(t, "published.txt")
	_, turn := turnOf(t, Spreads{RingRunout: Measured(0.6)}, &Directions{})
	got, _ := harmonic(turn.Points, 1)
	assert.InDelta(t, numberOf(t, rows["OFF-1"][3]), got, 0.005)
}

// An oval moves it twice a turn, by the swing of the radius times 2 tan(alpha_w).
func TestTurnOval(t *testing.T) {
	m, turn := turnOf(t, Spreads{RingOvality: Measured(0.2)}, &Directions{Oval: 0.7})
	got, phase := harmonic(turn.Points, 2)
	assert.InEpsilon(t, 0.2*m.tanW, got, 0.02)
	assert.InDelta(t, 0, math.Remainder(phase-2*0.7, 2*math.Pi), 0.02)
	for _, n := range []int{1, 3, 4} {
		other, _ := harmonic(turn.Points, n)
		assert.Less(t, other, 0.002, "harmonic %d", n)
	}
}

// A joint step takes its own size once a segment and nothing elsewhere.
func TestTurnJoints(t *testing.T) {
	for _, segments := range []int{2, 4, 8} {
		s := Spreads{JointStep: Measured(0.1), Segments: segments, FirstJoint: 5}
		m, turn := turnOf(t, s, nil)
		assert.Len(t, turn.Joints, segments)
		assert.InDelta(t, m.nominal()-0.1, turn.Tightest.Play, 1e-9)
		dips, inside := 0, false
		for _, p := range turn.Points {
			tight := p.Play < m.nominal()-0.08
			if tight && !inside {
				dips++
			}
			inside = tight
			near := false
			for _, j := range turn.Joints {
				near = near || math.Abs(math.Remainder(p.Place-2*math.Pi*float64(j)/104, 2*math.Pi)) < 3.5*2*math.Pi/104
			}
			if !near {
				assert.InDelta(t, m.nominal(), p.Play, 1e-9)
			}
		}
		// Every second step is too wide: it is felt where teeth of both segments
		// touch at once, once or twice in passing.
		assert.GreaterOrEqual(t, dips, segments/2)
		assert.LessOrEqual(t, dips, 2*segments)
		assert.Equal(t, 5, turn.Tightest.Space)
		assert.Equal(t, 1, turn.Tightest.Joint)
	}
}

// The pinion's run-out comes round with the pinion.
func TestTurnPinionOffCentre(t *testing.T) {
	p := pairOf(t, 2.5, 15, 105, 0.6, 0.5)
	m := modelOf(t, p, Spreads{PinionRunout: Measured(0.02)})
	b := m.asDrawn(&Directions{})
	turn := m.turn(&b)
	got, phase := harmonic(turn.Points, 7)
	assert.InEpsilon(t, 0.02*m.tanW, got, 1e-3)
	assert.InDelta(t, math.Pi, math.Abs(phase), 1e-6, "tightest where the pinion's centre lies outward")
}

// A tilt takes b t where it leans along the teeth, b t sin(alpha_w) at least.
func TestTurnTilt(t *testing.T) {
	m, turn := turnOf(t, Spreads{Tilt: Measured(0.3 * deg), FaceWidth: 10}, nil)
	full := 0.3 * deg * 10
	assert.InDelta(t, m.nominal()-full, turn.Tightest.Play, 1e-6)
	assert.InDelta(t, m.nominal()-full*m.tanW*m.cosW, turn.Loosest.Play, 0.002)
}

// Laid together at one place, the deviations are as tight as the worst case of
// what comes round.
func TestTurnLaidTogether(t *testing.T) {
	s := usual()
	s.Climate = Climate{}
	m, turn := turnOf(t, s, nil)
	want := m.nominal()
	causes, _, _ := m.causes()
	for _, c := range causes {
		if c.EveryTurn {
			want += c.Effect.Least
		}
	}
	assert.InDelta(t, want, turn.Tightest.Play, 0.012)
	assert.Equal(t, 1, turn.Tightest.Joint)
}

// Set as told, the tightest tooth has the play that was asked for when the
// platform is pushed away from the pinion.
func TestSetting(t *testing.T) {
	s := usual()
	m := modelOf(t, standard(t), s)
	b := m.asDrawn(nil)
	turn := m.turn(&b)
	causes, _, _ := m.causes()
	set := m.setting(&b, &turn, 0.05, causes)
	b.distance, b.inBearing = set.Move, -s.BearingPlay.Value/2
	after := m.turn(&b)
	assert.InDelta(t, set.Play, after.Tightest.Play, 0.004)
	assert.Equal(t, turn.Tightest.Space, after.Tightest.Space)
	assert.InDelta(t, m.a+set.Move, set.Distance, 1e-12)
	assert.InDelta(t, set.Play*m.cosW, 2*set.Paper, 1e-12, "paper on both flanks is the normal backlash")
	assert.GreaterOrEqual(t, set.Play, 0.05)

	// More play asked for is nearer to the ring's centre.
	more := m.setting(&b, &turn, 0.15, causes)
	assert.Less(t, more.Distance, set.Distance)
}
