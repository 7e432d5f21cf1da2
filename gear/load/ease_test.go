package load

import (
	"context"
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"ringtrack/gear"
	"ringtrack/gear/plane"
	"ringtrack/gear/roll"
)

// Eased outlines are closed, end on the tip circle, take the making's offset,
// and the ledger's rows still sum up to what the drawn loop measures.
func TestEasedOutlines(t *testing.T) {
	making := gear.Making{Shrinkage: 0.003, Growth: 0.08}
	for _, c := range []struct {
		m      float64
		z1, z2 int
		taper  Taper
	}{{2.5, 15, 104, Taper{0.1, 2}}, {2.5, 15, 104, Taper{0.02, 4}}, {1, 14, 90, Taper{0.03, 0.7}}, {4, 9, 60, Taper{0.2, 2.5}}, {2, 20, 80, Taper{}}} {
		t.Run(fmt.Sprint(c), func(t *testing.T) {
			p := pair(t, c.m, c.z1, c.z2)
			x1, err := EasePinion(p.Pinion, 0.02, c.taper)
			require.NoError(t, err)
			x2, err := EaseRing(p.Ring, 0.01, c.taper)
			require.NoError(t, err)
			tip1, thick1 := p.Pinion.TipDiameter, p.Pinion.TipThickness
			p.Pinion.Flexible, p.Ring.Flexible = x1, x2
			for _, l := range []plane.Loop{p.Pinion.Outline(), p.Ring.Outline()} {
				require.NoError(t, l.Check(1e-9))
			}
			_, tip := p.Pinion.Outline().Radii()
			assert.InDelta(t, tip1, 2*tip, 1e-9)
			inner, _ := p.Ring.Outline().Radii()
			assert.InDelta(t, p.Ring.TipDiameter, 2*inner, 1e-9)
			if c.taper.Amount > 0 {
				assert.Less(t, x1.TipThickness, thick1)
			}

			d1, err := making.Draw(p.Pinion.Outline(), gear.Teeth)
			require.NoError(t, err)
			d2, err := making.Draw(p.Ring.Outline(), gear.Teeth)
			require.NoError(t, err)
			require.NoError(t, d1.Check(1e-9))
			require.NoError(t, d2.Check(1e-9))
			sums(t, p.Pinion.LedgerPinion(making, d1, math.NaN(), math.NaN()), 0.02, c.taper.Amount)
			sums(t, p.Ring.LedgerRing(making, d2), -0.01, c.taper.Amount)
		})
	}
}

func sums(t *testing.T, rows []gear.Row, change, relief float64) {
	t.Helper()
	var thick float64
	flexible := false
	for _, r := range rows[:len(rows)-1] {
		thick += r.Thickness
		if r.Step == "flexible" {
			flexible = true
			assert.InDelta(t, change, r.Thickness, 0.05*math.Abs(change))
			assert.Equal(t, relief, r.Given)
		}
	}
	assert.True(t, flexible)
	assert.InDelta(t, rows[len(rows)-1].Thickness, thick, 1e-9)
}

// Rolled, the eased teeth have as much less play as was given back, and still
// turn evenly: the relief leaves a stretch of unrelieved flank at every moment.
func TestEasedPairRolls(t *testing.T) {
	p := pair(t, 2.5, 15, 104)
	m, err := NewMesh(p, Making{Face: 10, Pinion: tpu, Ring: pla})
	require.NoError(t, err)
	r, err := m.Relief(100)
	require.NoError(t, err)
	require.True(t, r.Enough)
	rolled := func() roll.Result {
		res, err := roll.Roll(context.Background(), roll.Pair{Pinion: p.Pinion.Outline(), Ring: p.Ring.Outline(), CentreDistance: p.CentreDistance},
			roll.Options{PinionTeeth: 15, RingTeeth: 104, BaseRing: p.Ring.BaseDiameter / 2})
		require.NoError(t, err)
		require.Nil(t, res.Binding)
		return res
	}
	before := rolled()
	const back = 0.03 // circumferential
	thicker := back * math.Cos(p.WorkingPressureAngle) / math.Cos(p.Pinion.PressureAngle)
	p.Pinion.Flexible, err = EasePinion(p.Pinion, thicker, Taper{r.Leaving, r.LeavingLength})
	require.NoError(t, err)
	p.Ring.Flexible, err = EaseRing(p.Ring, 0, Taper{r.Entry, r.EntryLength})
	require.NoError(t, err)
	after := rolled()
	assert.InDelta(t, before.Backlash.Least.Arc-back, after.Backlash.Least.Arc, 1e-6)
	assert.Less(t, after.Forward.Error.Action, 1e-6)
	assert.Less(t, after.Backward.Error.Action, 1e-6)
}

func TestEaseRefuses(t *testing.T) {
	p := pair(t, 2.5, 15, 104)
	for _, c := range []Taper{{1, 2}, {0.1, 30}, {2.5, 12}} {
		_, err := EasePinion(p.Pinion, 0, c)
		var bad *InputError
		assert.ErrorAs(t, err, &bad)
	}
	for _, c := range []Taper{{1, 2}, {0.1, 30}} {
		_, err := EaseRing(p.Ring, 0, c)
		assert.Error(t, err)
	}
	_, err := EasePinion(p.Pinion, 9, Taper{})
	assert.Error(t, err)
}
