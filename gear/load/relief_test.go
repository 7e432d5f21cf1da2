package load

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ringtrack/gear"
	"ringtrack/gear/plane"
	"ringtrack/gear/roll"
)

// relievedRing is the ring's outline with its tips taken back, the tip circle
// replaced by chords.
func relievedRing(r gear.Ring, amount, length float64) plane.Loop {
	l := r.Outline()
	u := append([]plane.Piece(nil), l.Unit...)
	n := len(u)
	take := func(hand float64) plane.Curve {
		return plane.NewCurve(Relieved{Curve: r.Space.Flank(hand), Amount: amount, Length: length, Ring: true})
	}
	u[0], u[n-2] = take(-1), take(1).Reverse()
	step := 2 * math.Pi / float64(l.Fold)
	u[n-1] = plane.Line{A: u[n-2].At(1), B: u[0].At(0).Turn(step)}
	l.Unit = u
	return l
}

// relievedPinion is the same for the pinion.
func relievedPinion(p gear.Pinion, amount, length float64) plane.Loop {
	l := p.Outline()
	u := append([]plane.Piece(nil), l.Unit...)
	take := func(hand float64) plane.Curve {
		return plane.NewCurve(Relieved{Curve: p.Tooth.Flank(hand), Amount: amount, Length: length})
	}
	u[1], u[3] = take(1), take(-1).Reverse()
	u[2] = plane.Line{A: u[1].At(1), B: u[3].At(0)}
	l.Unit = u
	return l
}

// bent returns the pinion's outline without symmetry, the tooth on +x turned
// back by an angle with its fillets; the root arcs beside it make up for it.
func bent(t *testing.T, l plane.Loop, angle float64) plane.Loop {
	t.Helper()
	n := len(l.Unit)
	out := plane.Loop{Fold: 1}
	for p := range l.All() {
		out.Unit = append(out.Unit, p)
	}
	turn := plane.Turned(-angle)
	for i := range n - 1 {
		out.Unit[i] = out.Unit[i].Map(turn)
	}
	after, ok := out.Unit[n-1].(plane.Arc)
	require.True(t, ok, "thinned teeth leave a root arc")
	before, ok := out.Unit[len(out.Unit)-1].(plane.Arc)
	require.True(t, ok)
	after.A0, after.Sweep = after.A0-angle, after.Sweep+angle
	before.Sweep -= angle
	out.Unit[n-1], out.Unit[len(out.Unit)-1] = after, before
	require.NoError(t, out.Check(1e-9))
	return out
}

// While the bent tooth alone carries, no other may touch: without relief the
// next one touches early and the last one hangs on, with relief neither does.
func TestRelievedTeethDoNotTouchEarly(t *testing.T) {
	p := pair(t, 2.5, 15, 104)
	m, err := NewMesh(p, Making{Face: 10, Pinion: tpu, Ring: pla})
	require.NoError(t, err)
	for _, torque := range []float64{30, 100, 180} {
		r, err := m.Relief(torque)
		require.NoError(t, err)
		relieved(t, p, m, r)
	}
	far, err := m.Relief(2000)
	require.NoError(t, err)
	assert.False(t, far.Enough, "teeth that bend so far are beyond relief")
}

func relieved(t *testing.T, p *gear.Pair, m *Mesh, r Relief) {
	assert.Equal(t, 1, r.LastPairs)
	require.True(t, r.Enough)
	t.Logf("%+v", r)
	half := -p.Pinion.Tooth.Flank(1).Phase
	others := func(bend float64, pinion, ring plane.Loop) (early, late int) {
		e, err := roll.New(roll.Pair{Pinion: bent(t, pinion, bend/m.Pinion.Base), Ring: ring, CentreDistance: p.CentreDistance},
			roll.Options{PinionTeeth: 15, RingTeeth: 104})
		require.NoError(t, err)
		lo, hi := m.End-m.BasePitch(), m.Start+m.BasePitch()
		require.Less(t, lo, hi)
		const n = 200
		for i := 1; i < n; i++ {
			l := lo + (hi-lo)*float64(i)/n
			v := e.Free((l+bend)/m.Pinion.Base - half - m.Working)
			require.True(t, v.Low.Valid)
			switch v.Low.PinionTooth {
			case 0:
			case 1:
				late++
			default:
				early++
			}
		}
		return early, late
	}
	early, _ := others(r.EntryYield, p.Pinion.Outline(), p.Ring.Outline())
	_, late := others(r.LeavingYield, p.Pinion.Outline(), p.Ring.Outline())
	assert.Positive(t, early, "unrelieved, the next tooth stubs")
	assert.Positive(t, late, "unrelieved, the last tooth hangs on")
	pinion, ring := relievedPinion(p.Pinion, r.Leaving, r.LeavingLength), relievedRing(p.Ring, r.Entry, r.EntryLength)
	early, _ = others(r.EntryYield, pinion, ring)
	_, late = others(r.LeavingYield, pinion, ring)
	assert.Zero(t, early)
	assert.Zero(t, late)

	// The same with the outlines that are drawn.
	x1, err := EasePinion(p.Pinion, 0, Taper{r.Leaving, r.LeavingLength})
	require.NoError(t, err)
	x2, err := EaseRing(p.Ring, 0, Taper{r.Entry, r.EntryLength})
	require.NoError(t, err)
	early, _ = others(r.EntryYield, x1.Outline, x2.Outline)
	_, late = others(r.LeavingYield, x1.Outline, x2.Outline)
	assert.Zero(t, early)
	assert.Zero(t, late)
}

// The relieved flank: derivatives against differences, the involute beyond the
// relief, and the amount along the normal at the tip.
func TestRelievedFlank(t *testing.T) {
	p := pair(t, 2.5, 15, 104)
	for _, c := range []Relieved{
		{p.Pinion.Tooth.Flank(1), 0.1, 2, false}, {p.Pinion.Tooth.Flank(-1), 0.1, 2, false},
		{p.Ring.Space.Flank(1), 0.1, 2, true}, {p.Ring.Space.Flank(-1), 0.1, 2, true},
	} {
		t0, t1 := c.Span()
		for _, q := range []float64{0.02, 0.3, 0.97} {
			at := t0 + q*(t1-t0)
			const h = 1e-5
			x, y, dx, dy, ddx, ddy := c.At(at)
			xa, ya, dxa, dya, _, _ := c.At(at - h)
			xb, yb, dxb, dyb, _, _ := c.At(at + h)
			assert.InDelta(t, (xb-xa)/(2*h), dx, 1e-5*(1+math.Abs(dx)))
			assert.InDelta(t, (yb-ya)/(2*h), dy, 1e-5*(1+math.Abs(dy)))
			assert.InDelta(t, (dxb-dxa)/(2*h), ddx, 1e-4*(1+math.Abs(ddx)))
			assert.InDelta(t, (dyb-dya)/(2*h), ddy, 1e-4*(1+math.Abs(ddy)))
			_, _ = x, y
		}
		tip, root := t1, t0
		if c.Ring {
			tip, root = t0, t1
		}
		x, y, _, _, _, _ := c.At(tip)
		u, v, du, dv, _, _ := c.Curve.At(tip)
		assert.InDelta(t, 0.1, math.Hypot(x-u, y-v), 1e-12)
		assert.InDelta(t, 0, (x-u)*du+(y-v)*dv, 1e-9, "along the normal")
		a, b, _, _, _, _ := c.At(root)
		d, e, _, _, _, _ := c.Curve.At(root)
		assert.Equal(t, []float64{d, e}, []float64{a, b})
	}
	// It takes material off: the pinion's tooth gets thinner, the ring's too.
	thin := relievedPinion(p.Pinion, 0.1, 2)
	assert.Less(t, thin.Area(), p.Pinion.Outline().Area())
	assert.Greater(t, math.Abs(relievedRing(p.Ring, 0.1, 2).Area()), math.Abs(p.Ring.Outline().Area())-0.1*104)
}
