package gear_test

import (
	"math"
	"os"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"
	"github.com/tdewolff/canvas"
	"pgregory.net/rapid"

	"ringtrack/gear"
	"ringtrack/gear/plane"
)

// around returns the loop's unit and its neighbours as a loop of their own, for
// distances from points beside the unit.
func around(l plane.Loop) plane.Loop {
	var out plane.Loop
	for i := -1; i <= 1; i++ {
		m := plane.Turned(2 * math.Pi / float64(l.Fold) * float64(i))
		for _, p := range l.Unit {
			out.Unit = append(out.Unit, p.Map(m))
		}
	}
	return out
}

// libraryOffset moves a closed polygon, counter-clockwise, outward by d with the
// general-purpose library; its settings are process-wide, hence the lock.
func libraryOffset(poly []plane.Vec, d float64) [][]plane.Vec {
	libraryLock.Lock()
	defer libraryLock.Unlock()
	tolerance, fast := canvas.Tolerance, canvas.FastStroke
	defer func() { canvas.Tolerance, canvas.FastStroke = tolerance, fast }()
	const fine = 1e-6
	canvas.Tolerance = fine
	canvas.FastStroke = true
	raw := path(poly).Offset(d, fine)
	// Arcs are flattened one by one: all at once takes seconds.
	flat := &canvas.Path{}
	for s := raw.Scanner(); s.Scan(); {
		switch s.Cmd() {
		case canvas.MoveToCmd:
			flat.MoveTo(s.End().X, s.End().Y)
		case canvas.CloseCmd:
			flat.Close()
		case canvas.LineToCmd:
			flat.LineTo(s.End().X, s.End().Y)
		default:
			for i, c := range s.Path().Flatten(fine).Coords() {
				if i > 0 {
					flat.LineTo(c.X, c.Y)
				}
			}
		}
	}
	canvas.FastStroke = false
	var out [][]plane.Vec
	for _, p := range flat.Settle(canvas.Positive).Split() {
		var ring []plane.Vec
		for _, c := range p.Coords() {
			ring = append(ring, plane.Vec{X: c.X, Y: c.Y})
		}
		out = append(out, ring)
	}
	return out
}

var libraryLock sync.Mutex

// variedLoops returns toothed outlines of many proportions, pinions and rings.
func variedLoops(t *testing.T) []plane.Loop {
	var loops []plane.Loop
	for i, w := range []gear.Wish{
		open(2.5, 15, 104), open(0.5, 12, 60), open(1, 18, 48), open(4, 7, 60), open(1.25, 40, 90),
		full(2, 12, 96, 0, 0), full(3, 16, 24, 0, 0.5), full(1, 9, 50, 0.5, 0.2), full(0.8, 24, 72, -0.3, 0), full(1.5, 20, 80, 0.8, 0.6),
		open(1, 5, 40), open(1, 11, 70), open(10, 13, 91), open(0.7, 90, 160), open(2, 30, 55),
	} {
		switch i % 4 {
		case 1:
			w.PressureAngle, w.Backlash = deg(25), gear.Fixed(0.02)
		case 2:
			w.RackType, w.Share = 'D', 1
		case 3:
			w.PressureAngle, w.RackType, w.Share = deg(14.5), 'C', 0
		}
		p, _ := resolve(t, w)
		loops = append(loops, p.Pinion.Outline(), p.Ring.Outline())
	}
	return loops
}

// sector returns three pitches of a flattened loop, closed as a piece of
// material that runs counter-clockwise: through the centre (an outer loop) or
// round the outside (a hole).
func sector(l plane.Loop, chord float64) []plane.Vec {
	unit := l.Flatten(chord)
	unit = unit[:len(unit)/l.Turns()]
	step := 2 * math.Pi / float64(l.Fold)
	var out []plane.Vec
	for i := -1; i <= 1; i++ {
		for _, v := range unit {
			out = append(out, v.Turn(step*float64(i)))
		}
	}
	if l.Fold > 0 {
		return append(out, plane.Vec{})
	}
	_, greatest := l.Radii()
	first, last := out[0].Angle(), out[len(out)-1].Angle()
	for k := range 11 {
		f := float64(k) / 10
		out = append(out, plane.Polar(greatest*1.3+1, last*(1-f)+first*f))
	}
	return out
}

// TestOffsetAgainstLibrary compares our exact offsets with the polygon offset of
// a general-purpose library on a fine polyline: every vertex and edge middle of
// the one within 0.5 um of the other.
func TestOffsetAgainstLibrary(t *testing.T) {
	const chord = 0.2e-3
	distances := []float64{0.08, -0.1}
	if os.Getenv("RINGTRACK_SLOW") != "" {
		distances = []float64{0.08, -0.08, 0.1, -0.1, 0.02, -0.02}
	}
	worst, compared := 0.0, 0
	loops := variedLoops(t)
	require.Len(t, loops, 30)
	for n, l := range loops {
		_, tip := l.Radii()
		half := math.Pi / float64(l.Turns())
		for _, d := range distances {
			if n%2 == 0 && len(distances) == 2 {
				d = -d
			}
			moved, err := l.Offset(d)
			require.NoError(t, err, "loop %d by %g", n, d)
			theirs := libraryOffset(sector(l, chord), d)
			from, to := around(l), around(moved)
			require.NotEmpty(t, theirs)
			near := func(p plane.Vec) bool { return math.Abs(p.Angle()) < half && p.Len() > 0.3*tip && p.Len() < 1.15*tip }
			for _, ring := range theirs {
				for i, a := range ring {
					b := ring[(i+1)%len(ring)]
					for _, p := range []plane.Vec{a, a.Add(b).Mul(0.5)} {
						if near(p) && from.Distance(p) < 1.5*math.Abs(d) {
							off := to.Distance(p)
							worst = math.Max(worst, off)
							require.Less(t, off, 0.5e-3, "loop %d by %g: theirs at %v", n, d, p)
						}
					}
				}
			}
			unit := moved.Flatten(1e-3)
			for _, p := range unit[:len(unit)/moved.Turns()] {
				if !near(p) {
					continue
				}
				off := math.Inf(1)
				for _, ring := range theirs {
					off = math.Min(off, toPolygon(ring, p))
				}
				worst = math.Max(worst, off)
				require.Less(t, off, 0.5e-3, "loop %d by %g: ours at %v", n, d, p)
				compared++
			}
		}
	}
	t.Logf("%d points of ours, worst distance %.3g um", compared, 1000*worst)
	require.Greater(t, compared, 2000)
}

func toPolygon(poly []plane.Vec, p plane.Vec) float64 {
	best := math.Inf(1)
	for i, a := range poly {
		d := poly[(i+1)%len(poly)].Sub(a)
		if d.Len() == 0 {
			continue
		}
		u := math.Max(0, math.Min(1, p.Sub(a).Dot(d)/d.Dot(d)))
		best = math.Min(best, p.Sub(a.Add(d.Mul(u))).Len())
	}
	return best
}

var makings = map[string]gear.Making{
	"exact":   {},
	"printed": {Growth: 0.08, HoleShrink: 0.15, Shrinkage: 0.004},
	"tight":   {Growth: -0.05, Shrinkage: -0.002},
	"cut":     {Kerf: 0.2},
	"shrunk":  {Kerf: 0.12, Shrinkage: 0.02},
}

// corners returns the places where a loop's unit and its neighbours turn
// sharply to the left: there a grown outline comes out rounded.
func corners(l plane.Loop, left bool) []plane.Vec {
	var out []plane.Vec
	units := []plane.Piece{}
	for p := range l.All() {
		units = append(units, p)
	}
	for i, p := range units {
		q := units[(i+1)%len(units)]
		a, b := p.Frame(1).V, q.Frame(0).V
		if turn := math.Atan2(a.Cross(b), a.Dot(b)); math.Abs(turn) > 1e-6 && (turn > 0) == left {
			out = append(out, q.At(0))
		}
	}
	return out
}

// TestMadeOfDrawn: what is made from the drawn outline is the designed one to
// 1e-6 mm, away from convex corners of what grows and from fillets that the
// cut is too wide for.
func TestMadeOfDrawn(t *testing.T) {
	checked, rounded := 0, 0
	for name, m := range makings {
		for n, l := range variedLoops(t) {
			drawn, err := m.Draw(l, gear.Teeth)
			require.NoError(t, err, "%s, loop %d", name, n)
			made, err := m.Made(drawn, gear.Teeth)
			require.NoError(t, err, "%s, loop %d", name, n)
			require.NoError(t, made.Check(1e-8))
			reach := 2 * (math.Abs(m.Growth) + m.Kerf/2)
			var spared []plane.Vec
			spared = append(spared, corners(l, true)...)
			spared = append(spared, corners(l, false)...)
			spared = append(spared, vanished(l, m)...)
			unit, back := l.Flatten(0.01), around(made)
			for _, p := range unit[:len(unit)/l.Turns()] {
				off := back.Distance(p)
				apart := math.Inf(1)
				for _, c := range spared {
					apart = math.Min(apart, p.Sub(c).Len())
				}
				if apart > reach {
					checked++
					require.Less(t, off, 1e-6, "%s, loop %d at %v", name, n, p)
				} else if off > 1e-6 {
					rounded++
					require.Less(t, off, reach, "%s, loop %d at %v", name, n, p)
				}
			}
		}
	}
	t.Logf("%d points came back, %d lie by a corner and are rounded", checked, rounded)
	require.Greater(t, checked, 10*rounded)
	require.Positive(t, rounded)
}

// vanished returns points on the pieces whose concave curvature is too tight
// for the cut.
func vanished(l plane.Loop, m gear.Making) []plane.Vec {
	grow := m.Kerf/2 - m.Growth // by which the drawn outline is moved out
	if grow <= 0 {
		return nil
	}
	var out []plane.Vec
	for p := range l.All() {
		for i := range 65 {
			if f := p.Frame(float64(i) / 64); f.K < 0 && -1/f.K < 1.2*grow {
				out = append(out, f.P)
			}
		}
	}
	return out
}

// TestRoles: a hole takes its own allowance, and what comes out is what was
// designed.
func TestRoles(t *testing.T) {
	m := makings["printed"]
	hole := plane.CircleLoop(plane.Vec{X: 20}, 3).Reverse()
	drawn, err := m.Draw(hole, gear.Hole)
	require.NoError(t, err)
	require.InEpsilon(t, math.Pi*math.Pow(3/(1-0.004)+0.075, 2), -drawn.Area(), 1e-12)
	made, err := m.Made(drawn, gear.Hole)
	require.NoError(t, err)
	require.InEpsilon(t, -9*math.Pi, made.Area(), 1e-12)
	require.InDelta(t, 20, made.Centre.X, 1e-12)
	out := plane.CircleLoop(plane.Vec{}, 30)
	drawn, err = m.Draw(out, gear.Outside)
	require.NoError(t, err)
	require.InEpsilon(t, math.Pi*math.Pow(30/(1-0.004)-0.08, 2), drawn.Area(), 1e-12)
	cut := makings["cut"]
	drawn, err = cut.Draw(hole, gear.Hole)
	require.NoError(t, err)
	require.InEpsilon(t, math.Pi*2.9*2.9, -drawn.Area(), 1e-12)
	drawn, err = cut.Draw(out, gear.Outside)
	require.NoError(t, err)
	require.InEpsilon(t, math.Pi*30.1*30.1, drawn.Area(), 1e-12)
	_, err = gear.Making{Growth: 40}.Draw(out, gear.Outside)
	require.ErrorIs(t, err, plane.ErrLost)
}

// TestLedger: the rows add up to what is measured on the drawn loop, and each
// step is its closed form as long as nothing vanishes.
func TestLedger(t *testing.T) {
	for name, m := range makings {
		for n, w := range []gear.Wish{open(2.5, 15, 104), open(0.4, 40, 96), open(1, 18, 48), open(6, 9, 70), full(1.5, 20, 80, 0.8, 0.6), full(1, 12, 96, 0, 0)} {
			p, _ := resolve(t, w)
			k := 1 / (1 - m.Shrinkage)
			for _, ring := range []bool{false, true} {
				outline, member, sign := p.Pinion.Outline(), p.Pinion.Member, 1.0
				if ring {
					outline, member, sign = p.Ring.Outline(), p.Ring.Member, -1
				}
				drawn, err := m.Draw(outline, gear.Teeth)
				require.NoError(t, err, "%s %d", name, n)
				rows := p.Pinion.LedgerPinion(m, drawn, 6, 6*k+m.HoleShrink-m.Kerf)
				if ring {
					rows = p.Ring.LedgerRing(m, drawn)
				}
				require.Len(t, rows, 6)
				last := rows[5]
				require.Equal(t, "drawn", last.Step)
				var sum gear.Row
				steps := map[string]gear.Row{}
				for _, r := range rows[:5] {
					sum.Thickness, sum.Tip, sum.Root, sum.Bore = sum.Thickness+r.Thickness, sum.Tip+r.Tip, sum.Root+r.Root, sum.Bore+r.Bore
					steps[r.Step] = r
				}
				require.InDelta(t, last.Thickness, sum.Thickness, 1e-9, "%s %d ring %v: thickness", name, n, ring)
				require.InDelta(t, last.Tip, sum.Tip, 1e-9)
				require.InDelta(t, last.Root, sum.Root, 1e-9)
				if !ring {
					require.InDelta(t, last.Bore, sum.Bore, 1e-9)
				}
				// Measured here on the drawn loop's polygon, not by the ledger.
				least, greatest := math.Inf(1), 0.0
				for _, v := range drawn.Flatten(1e-4) {
					least, greatest = math.Min(least, v.Len()), math.Max(greatest, v.Len())
				}
				tip, root := greatest, least
				if ring {
					tip, root = least, greatest
				}
				require.InDelta(t, 2*tip, last.Tip, 1e-3)
				require.InDelta(t, 2*root, last.Root, 1e-3)
				require.InDelta(t, member.TipDiameter, steps["nominal"].Tip, 1e-12)
				require.InDelta(t, member.RootDiameter*(k-1), steps["shrinkage"].Root, 1e-12)
				move := -2 * sign * m.Growth
				step := steps["growth"]
				if m.Kerf > 0 {
					move, step = sign*m.Kerf, steps["kerf"]
				}
				require.InDelta(t, move, step.Root, 1e-9)
				require.InDelta(t, move, step.Tip, 1e-9)
			}
		}
	}
}

// TestLedgerWhereTheRootVanishes: a kerf wider than the space at its root leaves
// no root circle. The flanks' crossing is booked as the root, and the rows still
// add up to what is measured.
func TestLedgerWhereTheRootVanishes(t *testing.T) {
	p, _ := resolve(t, open(0.5, 18, 48))
	for _, kerf := range []float64{0.3, 0.5, 0.75, 0.8} {
		m := gear.Making{Kerf: kerf}
		drawn, err := m.Draw(p.Pinion.Outline(), gear.Teeth)
		require.NoError(t, err)
		rows := p.Pinion.LedgerPinion(m, drawn, math.NaN(), math.NaN())
		root, thickness := 0.0, 0.0
		for _, r := range rows[:5] {
			root, thickness = root+r.Root, thickness+r.Thickness
			require.True(t, math.IsNaN(r.Bore))
		}
		require.InDelta(t, rows[5].Root, root, 1e-9)
		require.InDelta(t, rows[5].Thickness, thickness, 1e-9, "kerf %g", kerf)
		// The deepest point of the space, found on its centre line.
		deepest := math.Inf(1)
		for _, v := range drawn.Flatten(1e-5) {
			deepest = math.Min(deepest, v.Len())
		}
		require.InDelta(t, deepest, rows[5].Root/2, 2e-5)
		if kerf < 0.6 {
			require.InDelta(t, kerf, rows[4].Root, 1e-9)
		} else {
			require.Greater(t, rows[4].Root, kerf+1e-3, "kerf %g", kerf)
		}
	}
}

// TestAnyMaking draws sound pairs for whatever allowance may be asked: the drawn
// outline is sound too and lies where it should, or there is an error.
func TestAnyMaking(t *testing.T) {
	drawn, refused := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		z1 := rapid.IntRange(5, 80).Draw(t, "pinion")
		w := open(rapid.SampledFrom([]float64{0.2, 0.3, 0.5, 0.8, 1, 1.5, 2.5, 6}).Draw(t, "module"), z1, z1+rapid.IntRange(10, 200).Draw(t, "more"))
		w.PressureAngle = deg(rapid.SampledFrom([]float64{14.5, 20, 25, 30}).Draw(t, "angle"))
		w.RackType = rapid.SampledFrom([]byte("ABC")).Draw(t, "rack")
		w.Backlash, w.Share = gear.Fixed(0.1*w.Module), rapid.Float64Range(0, 1).Draw(t, "share")
		w.Pinion.Shift = gear.Choice{Value: rapid.Float64Range(-0.5, 1).Draw(t, "x1"), Given: rapid.Bool().Draw(t, "shifted")}
		p, _ := gear.Resolve(w)
		if p == nil {
			return
		}
		m := gear.Making{Shrinkage: rapid.Float64Range(-0.01, 0.03).Draw(t, "shrinkage")}
		if rapid.Bool().Draw(t, "cut") {
			m.Kerf = rapid.Float64Range(0.005, 0.5).Draw(t, "kerf")
		} else {
			m.Growth = rapid.Float64Range(0.005, 0.3).Draw(t, "growth")
			if rapid.Bool().Draw(t, "shrinks") {
				m.Growth = -m.Growth / 2
			}
		}
		for i, l := range []plane.Loop{p.Pinion.Outline(), p.Ring.Outline()} {
			out, err := m.Draw(l, gear.Teeth)
			if err != nil {
				// The move is a good part of the tooth: nothing, or pieces, remain.
				refused++
				require.Greater(t, math.Abs(m.Growth)+m.Kerf/2, math.Min(0.2*w.Module, 0.49*p.Pinion.Tooth.Neck), "%v", err)
				continue
			}
			drawn++
			sound(t, out, l.Turns(), []float64{1, -1}[i], w.Module)
			scaled := around(l.Map(plane.Scaled(1 / (1 - m.Shrinkage))))
			for _, piece := range out.Unit {
				for k := range 5 {
					require.InDelta(t, math.Abs(m.Kerf/2-m.Growth), scaled.Distance(piece.At((float64(k)+0.5)/5)), 1e-6)
				}
			}
		}
	})
	t.Logf("%d drawn, %d refused", drawn, refused)
	require.Greater(t, drawn, 10*refused)
}

// TestDrawnGauges: span and pins measured on the exact outline are the closed
// forms; on an outline moved by d they are those of the teeth so changed.
func TestDrawnGauges(t *testing.T) {
	spans, pins := 0, 0
	for n, w := range []gear.Wish{open(2.5, 15, 104), open(0.5, 12, 61), open(1, 19, 48), open(4, 23, 75), open(1, 40, 90), full(2, 13, 96, 0.3, 0.3)} {
		p, _ := resolve(t, w)
		d := p.Pinion.MeasurePinion(p.Pinion.Outline())
		require.InDelta(t, p.Pinion.TipDiameter, d.TipDiameter, 1e-9, "%d", n)
		require.InDelta(t, p.Pinion.RootDiameter, d.RootDiameter, 1e-9)
		require.InDelta(t, p.Pinion.ToothThickness, d.ToothThickness, 1e-9)
		require.InDelta(t, p.Pinion.SpaceWidth, d.SpaceWidth, 1e-9)
		if p.Pinion.SpanTeeth > 0 {
			spans++
			require.InDelta(t, p.Pinion.SpanLength, d.Span, 1e-9, "%d", n)
		}
		if p.Pinion.Pins != nil {
			pins++
			require.InDelta(t, p.Pinion.Pins.Dimension, d.Pins, 1e-8, "%d", n)
		}
		e := p.Ring.MeasureRing(p.Ring.Outline())
		require.InDelta(t, p.Ring.TipDiameter, e.TipDiameter, 1e-9)
		require.InDelta(t, p.Ring.RootDiameter, e.RootDiameter, 1e-9)
		require.InDelta(t, p.Ring.SpaceWidth, e.SpaceWidth, 1e-9)
		require.InDelta(t, p.Ring.ToothThickness, e.ToothThickness, 1e-9)
		if p.Ring.Pins != nil {
			pins++
			require.InDelta(t, p.Ring.Pins.Dimension, e.Pins, 1e-8, "%d", n)
		}
		// Moved outward by g, the pinion's span grows by 2 g: the jaws stand
		// square on the flanks. Between pins in the ring it shrinks as with pins
		// thicker by 2 g whose middle stays.
		const g = 0.05
		grown, err := p.Pinion.Outline().Offset(g)
		require.NoError(t, err)
		if got := p.Pinion.MeasurePinion(grown).Span; p.Pinion.SpanTeeth > 0 && !math.IsNaN(got) {
			require.InDelta(t, p.Pinion.SpanLength+2*g, got, 1e-9)
		}
		if p.Ring.Pins != nil {
			ring, err := p.Ring.Outline().Offset(g)
			require.NoError(t, err)
			thick, err := p.Ring.Space.BetweenPins(p.Ring.Pins.Diameter + 2*g)
			require.NoError(t, err)
			if got := p.Ring.MeasureRing(ring).Pins; thick.Contact > p.Ring.TipDiameter/2 && !math.IsNaN(got) {
				require.InDelta(t, thick.Dimension+2*g, got, 1e-8)
			}
		}
	}
	require.Equal(t, 6, spans)
	require.GreaterOrEqual(t, pins, 10)
}
