package drive

import (
	"context"
	"fmt"
	"math"

	"ringtrack/gear"
	"ringtrack/gear/budget"
	"ringtrack/gear/find"
	"ringtrack/gear/job"
)

// seed is that of the builds drawn by chance: the same job has the same budget.
const seed = 1

// spreads gathers how far parts, mounting and climate may be off. What the job
// does not give is a guess.
func spreads(j *job.Job) budget.Spreads {
	m := j.Mounting
	amount := func(v float64, keys ...string) budget.Amount {
		for _, k := range keys {
			if j.Given(k) {
				return budget.Measured(v)
			}
		}
		return budget.Amount{Value: v, Guessed: v > 0}
	}
	return budget.Spreads{
		MakingPinion:   amount(j.Pinion.Making.Spread, "making.pinion.spread", "making.spread"),
		MakingRing:     amount(j.Ring.Making.Spread, "making.ring.spread", "making.spread"),
		CentreDistance: amount(m.CentreDistanceSpread, "mounting.centre_distance_spread"),
		BearingPlay:    amount(m.Bearing, "mounting.bearing_play"),
		RingRunout:     amount(m.RingRunout, "mounting.ring_runout"),
		RingOvality:    amount(m.RingOvality, "mounting.ring_ovality"),
		PinionRunout:   amount(m.PinionRunout, "mounting.pinion_runout"),
		Tilt:           amount(m.Tilt, "mounting.tilt"),
		FaceWidth:      math.Min(j.Pinion.FaceWidth, j.Ring.FaceWidth),
		Climate:        climate(j),
	}
}

// climate gathers temperatures and how the bodies grow. The parts are true, and
// the drive is set, at the workshop's temperature, which is taken into the range.
// A part of no known material is taken to grow as the base does; with neither
// known nothing grows.
func climate(j *job.Job) budget.Climate {
	base := movement(j.Mounting.Base, budget.Movement{})
	if _, known := budget.MovementOf(j.Pinion.Material); !known {
		if _, known = budget.MovementOf(j.Ring.Material); !known {
			base = budget.Movement{}
		}
	}
	t := j.Mounting.Temperature
	return budget.Climate{
		Low: math.Min(t[0], budget.Reference), High: math.Max(t[1], budget.Reference), Set: budget.Reference,
		Guessed: !j.Given("mounting.temperature"),
		Pinion:  ownMovement(j.Pinion, movement(j.Pinion.Material, base)), Ring: ownMovement(j.Ring, movement(j.Ring.Material, base)), Base: base,
	}
}

// movement returns how a material grows; the figures are those of a table, and no
// guess of the maker's. An unknown one grows as the other does.
func movement(material string, other budget.Movement) budget.Movement {
	v, ok := budget.MovementOf(material)
	if !ok {
		return other
	}
	v.Guessed = false
	return v
}

// leastPlay returns the play to keep, mm: the one given, else that of the way of
// making, which is no more than a given backlash.
func leastPlay(j *job.Job) float64 {
	if j.Teeth.LeastPlay.Given {
		return j.Teeth.LeastPlay.Value
	}
	v := math.Max(budget.DefaultTarget(j.Pinion.Making.Kind), budget.DefaultTarget(j.Ring.Making.Kind))
	v = math.Min(v, j.Teeth.Module)
	if j.Teeth.Backlash.Given {
		v = math.Min(v, j.Teeth.Backlash.Value)
	}
	return v
}

// chooseBacklash settles backlash = "auto" for the wish, which leaves it open: the
// least that keeps the play to keep. Where none does, the rule's stays.
func chooseBacklash(j *job.Job, rule solved) solved {
	if rule.pair == nil || find.Count(rule.found, find.Fault) > 0 {
		return rule
	}
	c, bad, err := budget.Auto(context.Background(), rule.pair, spreads(j), budget.Options{Target: leastPlay(j)})
	if err != nil || len(bad) > 0 {
		rule.found = append(rule.found, onlyUnreachable(bad)...)
		return rule
	}
	w := rule.wish
	w.Backlash = gear.Fixed(c.Backlash)
	out := solve(w)
	out.wish = rule.wish
	if out.pair != nil {
		out.pair.Backlash.Source = "budget"
		out.pair.Chosen = append(out.pair.Chosen, gear.Chosen{Key: "teeth.backlash", Value: c.Backlash, Reason: reasonOf(c)})
	}
	return out
}

// onlyUnreachable leaves out what is wrong with the spreads: the budget itself
// will tell.
func onlyUnreachable(bad []find.Finding) []find.Finding {
	var out []find.Finding
	for _, f := range bad {
		if f.Code == find.LittleBacklash {
			out = append(out, f)
		}
	}
	return out
}

// reasonOf says why that backlash was chosen.
func reasonOf(c budget.Choice) string {
	why := fmt.Sprintf("the least that keeps %.3g mm of play in spite of all spreads (root sum of squares)", c.Target)
	if c.Costliest == "" {
		return why
	}
	return why + fmt.Sprintf("; halving the %s, which takes %.2f mm alone, would win most: %.2f mm", budget.Words(c.Costliest), c.Costs, c.HalvingWins)
}

// settle works the teeth of a job out, with the backlash that the budget chooses.
func settle(j *job.Job) solved {
	s := solve(wish(j))
	if j.Teeth.BacklashAuto {
		s = chooseBacklash(j, s)
	}
	return s
}

// superseded leaves out what the budget tells better: that the spread of the
// centre distance alone uses the backlash up.
func superseded(found []find.Finding, sound bool) []find.Finding {
	var out []find.Finding
	for _, f := range found {
		if !sound || f.Code != find.LittleBacklash || f.Level == find.Fault {
			out = append(out, f)
		}
	}
	return out
}

// ask is everything that a budget depends on beside the radius of the rim.
type ask struct {
	wish    gear.Wish // with the backlash open where the budget chooses it
	auto    bool
	spreads budget.Spreads
	target  float64
	at      job.Setting    // where the ring stands furthest out
	eased   [3]job.Setting // what the job gives back to flexible teeth and takes off their tips
}

func askOf(j *job.Job) ask {
	return ask{wish(j), j.Teeth.BacklashAuto, spreads(j), leastPlay(j), j.Mounting.RunoutAt, eased(j)}
}

// sameTeeth reports whether both come to the same teeth.
func (a ask) sameTeeth(b ask) bool {
	if a.auto || b.auto {
		return a == b
	}
	return a.wish == b.wish
}

// FeltAt returns the radius at which the user feels the play, mm: the platform's
// where that is known, else the ring's.
func (d *Design) FeltAt() float64 {
	if p := d.Job.Platform; p != nil && p.Diameter.Given {
		return p.Diameter.Value / 2
	}
	return d.Ring.Outer / 2
}

// sound reports whether the teeth are such that a budget tells anything: no fault
// was found in them.
func sound(pair *gear.Pair, found []find.Finding) bool {
	for _, f := range found {
		if f.Level == find.Fault && f.Code != find.LittleBacklash {
			return false
		}
	}
	return pair != nil
}

// reckon works the budget out, with the play told at the radius of the rim: nil,
// with faults that say why, where there is none.
func (a ask) reckon(p *gear.Pair, rim float64) (*budget.Result, []find.Finding) {
	r, found, err := budget.Work(context.Background(), p, a.spreads, budget.Options{Target: a.target, Seed: seed, RimRadius: rim, Directions: a.directions(p)})
	if err != nil { // only a context that ends
		return nil, nil
	}
	return r, found
}

// directions lays the other deviations where the ring's run-out, whose place was
// measured, is tightest; nil where it was not.
func (a ask) directions(p *gear.Pair) *budget.Directions {
	if !a.at.Given {
		return nil
	}
	x := a.at.Value + math.Pi // the tightest place
	phi := -x * float64(p.Ring.Teeth) / float64(p.Pinion.Teeth)
	return &budget.Directions{Ring: a.at.Value, Oval: x + math.Pi/2, Pinion: -phi, Tilt: math.Pi/2 - phi}
}

// spend adds the budget and what it finds.
func (d *Design) spend() {
	if !d.sound {
		return
	}
	d.Budget, d.spent = askOf(d.Job).reckon(d.Pair, d.FeltAt())
	d.Findings = append(d.Findings, d.told(d.Budget, d.spent)...)
}

// told brings the budget's findings into the job's terms: keys that stand in the
// file, one word on guesses, and no second verdict beside a choice that failed.
func (d *Design) told(r *budget.Result, found []find.Finding) []find.Finding {
	unreachable := find.Count(d.Findings, find.Fault) > 0 && d.holds(find.LittleBacklash, find.Fault)
	var out []find.Finding
	for _, f := range found {
		switch f.Code {
		case find.Guessed:
			if !d.telling(f, r) {
				continue
			}
			f.Level = find.Note
			if f.About == "mounting.bearing_play" {
				f.Level = find.Caution
			}
		case find.RingTipInterference:
			f.Level = find.Note
		case find.Jams, find.LittleBacklash:
			if unreachable {
				continue
			}
		}
		f.About = d.standingSpread(f.About)
		out = append(out, f)
	}
	return out
}

func (d *Design) holds(code find.Code, level find.Level) bool {
	for _, f := range d.Findings {
		if f.Code == code && f.Level == level {
			return true
		}
	}
	return false
}

// telling reports whether a guess is worth a finding: the one that matters most,
// and the bearing's play, which differs tenfold from bearing to bearing.
func (d *Design) telling(f find.Finding, r *budget.Result) bool {
	return f.About == "mounting.bearing_play" || f.About == r.Row(r.WorstGuess).Key
}

// standingSpread returns the key of a member's spread that stands in the file, or
// would be set first.
func (d *Design) standingSpread(about string) string {
	switch about {
	case "making.pinion.spread":
		return d.keyOf("pinion", "spread")
	case "making.ring.spread":
		return d.keyOf("ring", "spread")
	}
	return about
}
