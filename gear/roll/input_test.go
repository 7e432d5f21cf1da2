package roll_test

import (
	"context"
	"errors"
	"math"
	"reflect"
	"strings"
	"testing"

	"ringtrack/gear"
	"ringtrack/gear/plane"
	"ringtrack/gear/roll"
)

// What cannot be rolled is refused with the reason.
func TestBadInput(t *testing.T) {
	good := outlines(resolve(t, wish(1, 12, 60, 0.1)))
	inch := plane.Scaled(1 / 25.4)
	for _, c := range []struct {
		name  string
		spoil func(p *roll.Pair)
		says  string
	}{
		{"no pieces", func(p *roll.Pair) { p.Pinion = plane.Loop{} }, "no pieces"},
		{"open", func(p *roll.Pair) { p.Ring.Unit = p.Ring.Unit[1:] }, "not closed"},
		{"distance 0", func(p *roll.Pair) { p.CentreDistance = 0 }, "centre distance"},
		{"distance negative", func(p *roll.Pair) { p.CentreDistance = -24 }, "centre distance"},
		{"distance NaN", func(p *roll.Pair) { p.CentreDistance = math.NaN() }, "centre distance"},
		{"distance infinite", func(p *roll.Pair) { p.CentreDistance = math.Inf(1) }, "centre distance"},
		{"eccentricity NaN", func(p *roll.Pair) { p.RingOff.X = math.NaN() }, "eccentricity"},
		{"NaN inside", func(p *roll.Pair) {
			p.Pinion = polygon([]plane.Vec{{X: 1}, {X: math.NaN(), Y: 1}, {X: -1}}, 1)
		}, "not a number"},
		{"infinite", func(p *roll.Pair) {
			p.Pinion = polygon([]plane.Vec{{X: 1}, {X: math.Inf(1), Y: 1}, {X: -1}}, 1)
		}, "not a number"},
		{"centre NaN", func(p *roll.Pair) { p.Ring.Centre.X = math.NaN() }, "not a number"},
		{"pinion clockwise", func(p *roll.Pair) { p.Pinion = p.Pinion.Reverse() }, "counter-clockwise"},
		{"ring counter-clockwise", func(p *roll.Pair) { p.Ring = p.Ring.Reverse() }, "clockwise"},
		{"crosses itself", func(p *roll.Pair) {
			pts := p.Pinion.Flatten(0.01)
			k := len(pts) / 3
			pts[k], pts[k+1] = pts[k+1], pts[k]
			p.Pinion = polygon(pts, 1)
		}, "crosses itself"},
		{"a disc", func(p *roll.Pair) { p.Pinion = plane.CircleLoop(plane.Vec{}, 6) }, "no teeth"},
		{"a square", func(p *roll.Pair) {
			p.Pinion = polygon([]plane.Vec{{X: 5, Y: -5}, {X: 5, Y: 5}, {X: -5, Y: 5}, {X: -5, Y: -5}}, 1)
			p.CentreDistance = 1
		}, "no teeth"},
		{"a point", func(p *roll.Pair) { p.Pinion = polygon(make([]plane.Vec, 4), 1) }, "counter-clockwise"},
		{"too near", func(p *roll.Pair) { p.CentreDistance = 20 }, "do not reach"},
		{"too far", func(p *roll.Pair) { p.CentreDistance = 30 }, "cross however"},
		{"in inches", func(p *roll.Pair) { p.Pinion, p.Ring = p.Pinion.Map(inch), p.Ring.Map(inch) }, "cross however"},
		{"exchanged", func(p *roll.Pair) {
			p.Pinion, p.Ring = p.Ring.Reverse(), p.Pinion.Reverse()
		}, "more"},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := good
			c.spoil(&p)
			_, err := roll.Roll(context.Background(), p, roll.Options{})
			var e *roll.InputError
			if !errors.As(err, &e) {
				t.Fatalf("error %v, want an *InputError", err)
			}
			if !strings.Contains(err.Error(), c.says) {
				t.Errorf("%q does not say %q", err, c.says)
			}
		})
	}
	o := roll.Options{PinionTeeth: 13}
	if _, err := roll.New(good, o); err == nil || !strings.Contains(err.Error(), "13 teeth") {
		t.Errorf("12 teeth taken for 13: %v", err)
	}
}

// A tip that reaches into a root binds at every angle and is reported as a jam.
func TestJam(t *testing.T) {
	for _, pinionTip := range []bool{true, false} {
		w := wish(1, 15, 60, 0.5)
		if pinionTip {
			w.Ring.TipRadius = gear.Fixed(29.5)
		} else {
			w.Pinion.TipRadius = gear.Fixed(8)
		}
		p := resolve(t, w)
		a := outlines(p)
		if pinionTip {
			a.CentreDistance += p.TipClearancePinion + 0.05
		} else {
			a.CentreDistance += p.TipClearanceRing + 0.05
		}
		for _, chord := range []float64{0, 0.0005} {
			b := a
			if chord > 0 {
				b = withFacets(a, chord)
			}
			r := mustRoll(t, b, roll.Options{})
			if r.Binding == nil || r.Binding.At.Jam == nil || r.Binding.At.Jam.PinionTip != pinionTip {
				t.Fatalf("no jam of the tip (pinion's: %v): %+v", pinionTip, r.Binding)
			}
			near(t, "depth", r.Binding.At.Jam.Depth, 0.05, 0.003)
		}
	}
}

// Results are the same to the last bit on any number of goroutines.
func TestWorkersChangeNothing(t *testing.T) {
	p, o := standard(t)
	p = withFacets(p, 0.005)
	p.RingOff = plane.Vec{X: 0.03}
	var first roll.Result
	for _, n := range []int{1, 2, 3, 8} {
		o.Workers = n
		r := mustRoll(t, p, o)
		if n == 1 {
			first = r
		} else if !reflect.DeepEqual(first, r) {
			t.Fatalf("%d workers give another result than one", n)
		}
	}
}

// Progress rises to the total; a cancelled rolling stops and says so.
func TestProgressAndCancel(t *testing.T) {
	p, o := standard(t)
	p = withFacets(p, 0.005)
	p.RingOff = plane.Vec{X: 0.03}
	last, total := 0, 0
	o.Progress = func(done, all int) {
		if done <= last || done > all {
			t.Errorf("progress %d of %d after %d", done, all, last)
		}
		last, total = done, all
	}
	mustRoll(t, p, o)
	if last != total || total != 24*104+2*720 {
		t.Errorf("ended at %d of %d", last, total)
	}
	ctx, cancel := context.WithCancel(context.Background())
	calls := 0
	o.Progress = func(done, all int) {
		if calls++; calls == 3 {
			cancel()
		}
	}
	if _, err := roll.Roll(ctx, p, o); !errors.Is(err, context.Canceled) {
		t.Errorf("cancelled: %v", err)
	}
	if calls > 10 {
		t.Errorf("%d more reports after the cancel", calls-3)
	}
}

// A whole cycle brings every pair of teeth together.
func TestWholeCycle(t *testing.T) {
	p := resolve(t, wish(1, 12, 27, 0.2))
	pin, ring := polygons(outlines(p), 0.002)
	moveTooth(pin, 5, 12, 0.05, 6)
	// Ring tooth 2 stands off too: it meets pinion tooth 5 once in a cycle.
	for i, v := range ring {
		if d := math.Remainder(v.Angle()-2.5*2*math.Pi/27, 2*math.Pi); math.Abs(d) < 0.49*2*math.Pi/27 {
			ring[i] = v.Turn(-0.05 / 13.5)
		}
	}
	pair := roll.Pair{Pinion: polygon(pin, 1), Ring: polygon(ring, -1), CentreDistance: p.CentreDistance}
	o := roll.Options{Span: roll.WholeCycle}
	r := mustRoll(t, pair, o)
	if !r.Whole || len(r.Positions) != 24*108 {
		t.Errorf("whole %v, %d positions, want 24 x 108", r.Whole, len(r.Positions))
	}
	v := r.Forward.LeadAt
	if v.Low.PinionTooth != 5 || v.Low.RingTooth != 2 {
		t.Errorf("tightest at teeth %d and %d, want 5 and 2", v.Low.PinionTooth, v.Low.RingTooth)
	}
}
