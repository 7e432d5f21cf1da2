package budget

import (
	"context"
	"math"

	"ringtrack/gear"
	"ringtrack/gear/find"
)

// Choice is the answer to `backlash = "auto"`.
type Choice struct {
	Backlash float64 // mm, j_wt: Needed rounded up to 0.01 mm
	Needed   float64 // mm: the smallest at which the least play is the target
	Target   float64 // mm
	// Free is the play that shifts and centre distance leave without thinning; the
	// backlash cannot be less.
	Free        float64
	Costliest   string  // the cause whose halving wins most; empty when nothing costs
	Key         string  // its key
	Costs       float64 // mm: what it takes from the least play when alone
	HalvingWins float64 // mm less backlash needed when it is halved
}

// Basis says which least play must keep the target.
type Basis int

// The bases.
const (
	RootSumSquare Basis = iota // anyone can redo it from the rows; on the safe side
	WorstCase                  // always
	Chance                     // in 97.7 of 100 builds drawn by chance
)

// perMM is the number of steps in a millimetre of backlash chosen, or of a move
// told.
const perMM = 100

// upward rounds up to a step. A hair above a step is that step: rounding must not
// add one.
func upward(v float64) float64 { return math.Ceil(v*perMM-1e-7) / perMM }

// DefaultTarget returns the least play that a mesh should keep, mm, by the way of
// making: room for a loose strand, char or dust. Common practice.
func DefaultTarget(kind string) float64 {
	switch kind {
	case "printed":
		return 0.05
	case "cut":
		return 0.03
	}
	return 0.02
}

// Auto chooses the smallest nominal backlash whose least value keeps the target.
//
// The pair's own backlash hardly matters: what the causes do does not depend on
// it, but for where a displaced tooth begins to touch. Where the target needs more
// than o.MostBacklash (the module when 0) a fault names the cause that costs most.
//
// Errors: ctx.Err() when the context ends first.
func Auto(ctx context.Context, p *gear.Pair, s Spreads, o Options) (Choice, []find.Finding, error) {
	o = o.withDefaults(p)
	if bad := check(p, s, o); len(bad) > 0 {
		return Choice{}, bad, nil
	}
	m, err := newModel(ctx, p, s, o.Workers)
	if err != nil {
		return Choice{}, nil, err
	}
	causes, least, _ := m.causes()
	figure := least.figure(o.Basis)
	if o.Basis == Chance {
		b, err := m.chance(ctx, o.Builds, o.Seed, o.Target, o.Workers)
		if err != nil {
			return Choice{}, nil, err
		}
		figure = b.Least.Low
	}
	c := m.choose(causes, figure, o)
	return c, c.reachable(o), nil
}

// figure returns the figure that a basis goes by.
func (f Figures) figure(b Basis) float64 {
	if b == WorstCase {
		return f.WorstCase
	}
	return f.RootSumSquare
}

// choose works the answer out from the least play at the present backlash.
func (m *model) choose(causes []Cause, figure float64, o Options) Choice {
	c := Choice{Target: o.Target, Free: m.p.Backlash.Free}
	c.Needed = math.Max(c.Free, math.Max(0, m.nominal()-figure+o.Target))
	c.Backlash = upward(c.Needed)
	if worst := costliest(causes, false); worst != nil {
		c.Costliest, c.Key, c.Costs, c.HalvingWins = worst.Name, worst.Key, -worst.Effect.Least, worst.HalvingWins
		if o.Basis == WorstCase {
			c.HalvingWins = c.Costs / 2
		}
	}
	return c
}

// reachable returns a fault where the backlash needed is more than allowed.
func (c Choice) reachable(o Options) []find.Finding {
	if c.Needed <= o.MostBacklash {
		return nil
	}
	f := find.Finding{
		Code: find.LittleBacklash, Level: find.Fault, About: "teeth.backlash",
		Found: find.Num(c.Needed), Limit: find.Num(o.MostBacklash), Unit: "mm",
	}
	if c.Costliest == "" {
		f.Text = text("keeping %s mm of play needs %s mm of backlash; at most %s mm can be had", num(c.Target), num(c.Needed), num(o.MostBacklash))
	} else {
		f.Text = text("no backlash up to %s mm keeps %s mm of play: it would take %s mm; the %s alone takes %s mm (%s), halving it would win %s mm",
			num(o.MostBacklash), num(c.Target), num(c.Needed), words[c.Costliest], num(c.Costs), c.Key, num(c.HalvingWins))
	}
	return []find.Finding{f}
}
