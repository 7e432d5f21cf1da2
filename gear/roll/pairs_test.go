package roll_test

import (
	"math"
	"testing"

	"ringtrack/gear"
	"ringtrack/gear/plane"
	"ringtrack/gear/roll"
)

const deg = math.Pi / 180

// wish returns a pair of full teeth with the given backlash.
func wish(module float64, z1, z2 int, play float64) gear.Wish {
	return gear.Wish{
		Module: module, PressureAngle: 20 * deg, Pinion: gear.MemberWish{Teeth: z1}, Ring: gear.MemberWish{Teeth: z2},
		Backlash: gear.Fixed(play), Share: 0.5, RackType: 'A', LeastTip: 0.2,
	}
}

func resolve(t testing.TB, w gear.Wish) *gear.Pair {
	t.Helper()
	p, f := gear.Resolve(w)
	if p == nil {
		t.Fatalf("no pair: %v", f)
	}
	return p
}

// outlines returns the pair's exact outlines.
func outlines(p *gear.Pair) roll.Pair {
	return roll.Pair{Pinion: p.Pinion.Outline(), Ring: p.Ring.Outline(), CentreDistance: p.CentreDistance}
}

// options passes the ring's base radius.
func options(p *gear.Pair) roll.Options {
	return roll.Options{BaseRing: p.Ring.BaseDiameter / 2}
}

// polygon returns a loop of straight pieces through the points.
func polygon(pts []plane.Vec, fold int) plane.Loop {
	l := plane.Loop{Fold: fold}
	for i, p := range pts {
		l.Unit = append(l.Unit, plane.Line{A: p, B: pts[(i+1)%len(pts)]})
	}
	return l
}

// flattened returns the loop as straight pieces without symmetry.
func flattened(l plane.Loop, chord float64) plane.Loop {
	fold := 1
	if l.Fold < 0 {
		fold = -1
	}
	return polygon(l.Flatten(chord), fold)
}

// facets returns the loop flattened unit by unit: the symmetry stays.
func facets(l plane.Loop, chord float64) plane.Loop {
	pts := l.Flatten(chord)
	n := len(pts) / l.Turns()
	out := plane.Loop{Fold: l.Fold, Centre: l.Centre}
	for i := range n {
		out.Unit = append(out.Unit, plane.Line{A: pts[i], B: pts[i+1]})
	}
	return out
}

// turned returns the loop turned about its centre.
func turned(l plane.Loop, a float64) plane.Loop {
	return l.Map(plane.Moved(l.Centre.Mul(-1)).Then(plane.Turned(a)).Then(plane.Moved(l.Centre)))
}
