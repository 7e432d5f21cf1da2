package budget

import (
	"context"
	"math"

	"ringtrack/gear/roll"
)

// Comparison sets rolled builds against the formulas.
type Comparison struct {
	Builds       int
	Off          float64 // mm, the largest difference of a build's least play that counts
	OffRolled    float64 // mm, the rolled figure there
	Disagreeing  int     // builds whose figures differ by more than 5 % and 0.005 mm
	Verdicts     int     // builds of which one says that it binds and the other not
	Replaced     bool    // the rolled figures stand in the budget
	Failed       int     // builds that cannot be rolled at all; they bind
	LeastOfBuild []float64
}

// Limits within which formula and rolling agree.
const (
	agreePart = 0.05
	agreeMM   = 0.005
	// agreeShare of the builds may differ by more before the formulas give way:
	// their figures are about 97.7 of 100 builds.
	agreeShare = 0.05
)

// agree reports whether two figures of the same play are the same within limits.
func agree(formula, rolled float64) bool {
	return math.Abs(formula-rolled) <= math.Max(agreeMM, agreePart*math.Abs(rolled))
}

// rolled is what rolling an assembly found.
type rolled struct {
	Effect
	jam    bool // a tip stands in a root somewhere
	failed bool // the outlines cannot be rolled
}

// sections are the engines of an assembly at both ends of the face, or one.
type sections struct {
	m       *model
	engines []*roll.Engine
}

// sections makes the assembly ready to roll.
func (m *model) sections(b *assembly) (*sections, error) {
	s := &sections{m: m}
	leans := []float64{0}
	if m.s.Tilt.Value != 0 {
		leans = []float64{-m.s.FaceWidth / 2, m.s.FaceWidth / 2}
	}
	for _, lean := range leans {
		p, err := m.outlines(b, lean)
		if err != nil {
			return nil, err
		}
		e, err := roll.New(p, roll.Options{PinionTeeth: m.z1, RingTeeth: m.z2})
		if err != nil {
			return nil, err
		}
		s.engines = append(s.engines, e)
	}
	return s, nil
}

// at rolls one position and returns the play: what all sections leave.
func (s *sections) at(phi float64) (play float64, jam bool) {
	lo, hi := math.Inf(-1), math.Inf(1)
	for _, e := range s.engines {
		v := e.Free(phi)
		lo, hi = math.Max(lo, v.Lo), math.Min(hi, v.Hi)
		jam = jam || v.Jam != nil
	}
	return (hi - lo) * s.m.working, jam
}

// add takes one position in.
func (r *rolled) add(s *sections, phi float64) {
	v, jam := s.at(phi)
	r.jam = r.jam || jam
	if !math.IsInf(v, 0) {
		r.Least, r.Greatest = math.Min(r.Least, v), math.Max(r.Greatest, v)
	}
}

// Positions of a rolled build: a pitch either side of the tightest and the
// loosest spot that the formulas expect, and a coarse turn in case they are wrong.
const (
	finePositions   = 20 // a pitch
	coarsePositions = 1.5
)

// roll rolls an assembly.
func (m *model) roll(b *assembly) (rolled, error) {
	r := rolled{Effect: Effect{math.Inf(1), math.Inf(-1)}}
	s, err := m.sections(b)
	if err != nil {
		return r, err
	}
	t := m.turn(b)
	pitch := 2 * math.Pi / float64(m.z1)
	for _, spot := range []Spot{t.Tightest, t.Loosest} {
		for i := -finePositions; i <= finePositions; i++ {
			r.add(s, m.spotAngle(spot)+pitch*float64(i)/finePositions)
		}
	}
	n := int(coarsePositions * float64(m.z2))
	for i := range n {
		r.add(s, float64(i)*float64(m.z2)*pitch/float64(n))
	}
	return r, nil
}

// spotAngle returns the pinion's angle, over all turns, at which a spot comes round.
func (m *model) spotAngle(s Spot) float64 {
	best, angle := math.Inf(1), 0.0
	for c := range m.turns() {
		phi := m.pinionAngle(s.Place, c)
		if d := math.Abs(math.Remainder(phi-s.PinionAngle, 2*math.Pi)); d < best {
			best, angle = d, phi
		}
	}
	return angle
}

// compare rolls the first builds. Where more than one in twenty disagree with the
// formulas, as many as o.MostRolled are rolled; if more than one in twenty still
// do, their figures take the place of the formulas'.
func (m *model) compare(ctx context.Context, r *Result, o Options) error {
	n := min(o.Rolled, o.Builds)
	results, err := m.rollBuilds(ctx, 0, n, o)
	if err != nil {
		return err
	}
	c := compared(r.Builds.leastOfBuilds, results)
	if c.doubtful() {
		more, err := m.rollBuilds(ctx, n, min(max(n, o.MostRolled), o.Builds), o)
		if err != nil {
			return err
		}
		results = append(results, more...)
		c = compared(r.Builds.leastOfBuilds, results)
		c.Replaced = c.doubtful()
	}
	r.Rolled = c
	if c.Replaced {
		r.replace(results)
	}
	return nil
}

// rollBuilds rolls the builds from number from to number to, less one.
func (m *model) rollBuilds(ctx context.Context, from, to int, o Options) ([]rolled, error) {
	results := make([]rolled, to-from)
	err := spread(ctx, len(results), o.Workers, func() func(int) {
		d, b := newDice(o.Seed), assembly{}
		return func(i int) {
			d.draw(m, from+i, &b)
			v, err := m.roll(&b)
			v.failed = err != nil
			results[i] = v
		}
	})
	return results, err
}

// doubtful reports whether more builds disagree than may.
func (c *Comparison) doubtful() bool { return float64(c.Disagreeing) > agreeShare*float64(c.Builds) }

// least returns the rolled build's least play; one with a tip in a root, or that
// cannot be rolled at all, lacks at least what counts as a difference.
func (v rolled) least() float64 {
	if v.jam || v.failed {
		return math.Min(v.Least, -agreeMM)
	}
	return v.Least
}

// compared sets rolled builds against the formulas'.
func compared(formula []float64, results []rolled) *Comparison {
	c := &Comparison{Builds: len(results)}
	for i, v := range results {
		f, r := formula[i], v.least()
		c.LeastOfBuild = append(c.LeastOfBuild, r)
		if v.failed {
			c.Failed++
		}
		if (f < 0) != (r < 0) {
			c.Verdicts++
		}
		if v.failed || !agree(f, r) {
			c.Disagreeing++
		}
		if off := math.Abs(f - r); off > c.Off {
			c.Off, c.OffRolled = off, r
		}
	}
	return c
}

// replace puts the figures of rolled builds in place of the formulas': the share
// that binds as counted, two standard deviations about the mean for the root sum
// of squares, and the worst cases moved by the largest difference found.
func (r *Result) replace(results []rolled) {
	count, seed := len(results), r.Builds.Seed
	formula := r.Builds.leastOfBuilds
	var greatest []float64
	down := 0.0
	for i, v := range results {
		if !v.failed {
			greatest = append(greatest, v.Greatest)
			down = math.Max(down, formula[i]-r.Rolled.LeastOfBuild[i])
		}
	}
	r.Builds = shares(r.Rolled.LeastOfBuild, nil, r.Target)
	r.Builds.Count, r.Builds.Seed = count, seed
	r.Builds.Least = quantiles(r.Rolled.LeastOfBuild)
	r.Least.RootSumSquare = r.Builds.Least.Mean - 2*r.Builds.Least.Deviation
	r.Least.WorstCase = math.Min(r.Least.WorstCase-down, r.Builds.Least.Least)
	if len(greatest) > 0 {
		r.Builds.Greatest = quantiles(greatest)
		r.Greatest.RootSumSquare = r.Builds.Greatest.Mean + 2*r.Builds.Greatest.Deviation
		r.Greatest.WorstCase = math.Max(r.Greatest.WorstCase, r.Builds.Greatest.Greatest)
	}
}
