package budget

import (
	"context"

	"ringtrack/gear"
	"ringtrack/gear/find"
)

// Options are the choices of a budget. Zero values stand for the defaults.
type Options struct {
	Target       float64     // mm, least play to keep; see DefaultTarget
	Basis        Basis       // of the choice of backlash
	MostBacklash float64     // mm, the largest nominal backlash to choose; the module
	Builds       int         // drawn by chance, 10,000
	Seed         uint64      //
	Workers      int         // goroutines, the number of processors; results do not depend on it
	RimRadius    float64     // mm, where the user feels the play; 0: not known
	Directions   *Directions // nil: not measured
	Rolled       int         // builds to roll with their real outlines; 0: none
	MostRolled   int         // builds to roll where those disagree with the formulas, 200
}

func (o Options) withDefaults(p *gear.Pair) Options {
	if o.Builds <= 0 {
		o.Builds = 10000
	}
	if o.MostRolled <= 0 {
		o.MostRolled = 200
	}
	if o.MostBacklash <= 0 {
		o.MostBacklash = p.Pinion.Module
	}
	return o
}

// Result is the budget. Lengths in mm, angles in radians.
type Result struct {
	Nominal float64 // j_wt as designed
	Target  float64
	Causes  []Cause // in a fixed order; those without effect too; Together last
	Least   Figures
	// Greatest is the loosest that a build can be at its loosest place.
	Greatest Figures
	Builds   Builds
	// Reach is how much further apart than drawn the radial causes can bring the
	// axes, mm; TipsClear up to where tips and roots take nothing from the play.
	Reach, TipsClear float64
	Rolled           *Comparison // nil: nothing was rolled
	WorstGuess       string      // the guess whose halving moves the least play most; empty: no guess does
	Auto             Choice
	Turn             Turn
	Setting          Setting
	Felt             Felt
	Verdict          Verdict
}

// Felt is the play as the user feels it: as designed, and what 97.7 of 100 builds
// keep at their tightest and at their loosest place.
type Felt struct{ Nominal, Least, Greatest Play }

// Play is one play in three measures.
type Play struct {
	Arc   float64 // mm at the working circles
	Angle float64 // radians of the platform
	Rim   float64 // mm at the platform's rim; 0 where its radius is not known
}

// Row returns the row of a cause.
func (r *Result) Row(name string) Cause {
	for _, c := range r.Causes {
		if c.Name == name {
			return c
		}
	}
	return Cause{Name: name}
}

// Work works the budget out.
//
// The result is nil when a finding says what is wrong with the input. Otherwise
// findings tell what the verdict rests on: jams, little-backlash, ring-tip-interference, guessed.
//
// Errors: ctx.Err() when the context ends first.
func Work(ctx context.Context, p *gear.Pair, s Spreads, o Options) (*Result, []find.Finding, error) {
	o = o.withDefaults(p)
	if bad := check(p, s, o); len(bad) > 0 {
		return nil, bad, nil
	}
	m, err := newModel(ctx, p, s, o.Workers)
	if err != nil {
		return nil, nil, err
	}
	r := &Result{Nominal: m.nominal(), Target: o.Target}
	r.Causes, r.Least, r.Greatest = m.causes()
	if r.Builds, err = m.chance(ctx, o.Builds, o.Seed, o.Target, o.Workers); err != nil {
		return nil, nil, err
	}
	if o.Rolled > 0 {
		if err := m.compare(ctx, r, o); err != nil {
			return nil, nil, err
		}
	}
	r.Reach, r.TipsClear = m.radialReach(), m.depth.clear()
	if g := costliest(r.Causes, true); g != nil {
		r.WorstGuess = g.Name
	}
	figure := r.Least.figure(o.Basis)
	if o.Basis == Chance {
		figure = r.Builds.Least.Low
	}
	r.Auto = m.choose(r.Causes, figure, o)
	drawn := m.asDrawn(o.Directions)
	r.Turn = m.turn(&drawn)
	r.Turn.Measured = o.Directions != nil
	r.Setting = m.setting(&drawn, &r.Turn, o.Target, r.Causes)
	r.Felt = Felt{m.felt(r.Nominal, o), m.felt(r.Builds.Least.Low, o), m.felt(r.Builds.Greatest.High, o)}
	r.Verdict = m.verdict(r, o)
	found := r.findings()
	find.Sort(found)
	return r, found, nil
}

// felt converts a play; what binds has none.
func (m *model) felt(arc float64, o Options) Play {
	arc = max(0, arc)
	angle := arc / m.working
	return Play{arc, angle, angle * o.RimRadius}
}
