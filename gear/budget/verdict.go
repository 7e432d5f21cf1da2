package budget

import (
	"math"

	"ringtrack/gear/find"
)

// Word is a verdict in a word.
type Word string

// The verdicts.
const (
	Go       Word = "go"       // 97.7 of 100 builds keep the target all the way round
	Marginal Word = "marginal" // neither of the others
	DoNot    Word = "do not"   // more than a quarter of the builds bind
)

// Shares of builds that bind, from which a verdict speaks more strongly. Common
// practice: none; one in four is a bad bet for a print of twenty hours.
const (
	shareDoNot = 0.25
	shareWill  = 0.50
	shareMay   = 0.025
)

// Verdict is the answer in one sentence, and what it is made of.
type Verdict struct {
	Word     Word
	Binds    string // no, may, will
	Where    string // the tightest place in words
	Sentence string
	Change   Change
}

// Change is the one change that helps most.
type Change struct {
	Kind  string  // move, halve, measure; empty: none
	Cause string  // for halve and measure
	Key   string  // the job's key
	Value float64 // mm to move the motor toward the ring's centre, or the amount to reach
	Unit  string
	Wins  float64 // mm of least play
	Text  string
}

// verdict judges the figures.
func (m *model) verdict(r *Result, o Options) Verdict {
	v := Verdict{Where: m.where(r), Binds: "no"}
	share := r.Builds.BindingShare
	switch {
	case share >= shareWill:
		v.Binds = "will"
	case share > shareMay:
		v.Binds = "may"
	}
	const hair = 1e-9 // mm: a backlash chosen to reach the target exactly does reach it
	switch {
	case share > shareDoNot:
		v.Word = DoNot
	case r.Builds.Least.Low >= o.Target-hair:
		v.Word = Go
	default:
		v.Word = Marginal
	}
	v.Change = m.change(r, o, v.Word)
	v.Sentence = v.sentence(r)
	return v
}

// where says where the turn is tightest. Where no joint is and nobody measured
// directions, only that the deviations meet somewhere is known.
func (m *model) where(r *Result) string {
	switch {
	case r.Turn.Measured || r.Turn.Tightest.Joint > 0:
		return place(r.Turn.Tightest)
	case r.Turn.Loosest.Play-r.Turn.Tightest.Play > 1e-6:
		return "once a turn, where run-outs meet"
	}
	return "all round the turn"
}

// place says where a spot is.
func place(s Spot) string {
	where := text("at space %d of the ring", s.Space)
	if s.Joint > 0 {
		where = text("at %s (space %d)", jointName(s.Joint), s.Space)
	}
	return where
}

// change finds the one change that helps most: where play is missing, moving the
// motor by what is missing if the teeth still reach each other then; otherwise
// the cause whose halving wins most. Where nothing is missing, measuring the
// guess that matters most.
func (m *model) change(r *Result, o Options, w Word) Change {
	lack := o.Target - r.Builds.Least.Low
	if w == Go {
		if g := r.Row(r.WorstGuess); r.WorstGuess != "" {
			return Change{Kind: "measure", Cause: g.Name, Key: g.Key, Value: g.Amount, Unit: g.Unit, Wins: g.HalvingWins,
				Text: text("measure the %s first: it is the guess that matters most", words[g.Name])}
		}
		return Change{}
	}
	if lack > 0 {
		move := upward(-m.distanceFor(r.Nominal+lack, change{}))
		if m.touching(-move) >= 1 {
			return Change{Kind: "move", Key: "teeth.centre_distance", Value: move, Unit: "mm", Wins: m.play(change{distance: -move}) - r.Nominal,
				Text: text("move the motor %s mm toward the ring's centre", num(move))}
		}
	}
	if c := costliest(r.Causes, false); c != nil {
		return Change{Kind: "halve", Cause: c.Name, Key: c.Key, Value: c.Amount / 2, Unit: c.Unit, Wins: c.HalvingWins,
			Text: text("halve the %s: that wins %s mm", words[c.Name], num(c.HalvingWins))}
	}
	return Change{}
}

// sentence says it all in one.
func (v Verdict) sentence(r *Result) string {
	var head string
	switch {
	case v.Word == Go:
		head = text("It will run free: 39 of 40 builds keep at least %s mm of play, tightest %s", num(r.Builds.Least.Low), v.Where)
	case v.Binds == "will":
		head = text("It will bind %s", v.Where)
	case v.Binds == "may":
		head = text("It may bind %s (%s of builds)", v.Where, percent(r.Builds.BindingShare))
	default:
		head = text("It will hardly bind, but keeps less than %s mm of play %s", num(r.Target), v.Where)
	}
	if v.Change.Text == "" {
		return head + "."
	}
	return head + "; " + v.Change.Text + "."
}

// findings tells what the verdict rests on.
func (r *Result) findings() []find.Finding {
	var out []find.Finding
	add := func(f find.Finding) { out = append(out, f) }
	switch r.Verdict.Word {
	case DoNot:
		add(find.Finding{Code: find.Jams, Level: find.Fault, About: "teeth.backlash", Unit: "%",
			Found: find.Num(100 * r.Builds.BindingShare), Limit: find.Num(100 * shareDoNot), Text: r.Verdict.Sentence})
	case Marginal:
		add(find.Finding{Code: find.LittleBacklash, Level: find.Caution, About: "teeth.backlash", Unit: "mm",
			Found: find.Num(r.Builds.Least.Low), Limit: find.Num(r.Target), Text: r.Verdict.Sentence})
	}
	if r.TipsClear < r.Reach {
		add(find.Finding{Code: find.RingTipInterference, Level: find.Caution, About: "mounting.centre_distance_spread", Unit: "mm",
			Found: find.Num(r.Reach), Limit: find.Num(r.TipsClear),
			Text: text("the axes may stand %s mm further apart than drawn, but tips run into roots beyond %s mm: a larger centre_distance_spread shortens them",
				num(r.Reach), num(r.TipsClear))})
	}
	for _, c := range r.Causes {
		if !c.Guessed || c.HalvingWins <= 0 {
			continue
		}
		f := find.Finding{Code: find.Guessed, Level: find.Note, About: c.Key, Found: find.Num(c.Amount), Unit: c.Unit,
			Text: text("the %s is a guess; halving it would win %s mm of play", words[c.Name], num(c.HalvingWins))}
		if c.Name == r.WorstGuess {
			f.Level = find.Caution
			f.Text = text("the %s is a guess, and the one that matters most: it takes %s mm of play, halving it would win %s mm; measure it",
				words[c.Name], num(-c.Effect.Least), num(c.HalvingWins))
		}
		if f.Unit == "rad" {
			f.Unit, f.Found = "deg", find.Num(c.Amount*180/math.Pi)
		}
		if c.Name == Moisture {
			f.Unit, f.Found = "%", find.Num(100*c.Amount)
		}
		if c.Name == Temperature {
			f.Text = text("how far the parts grow in %g degC of temperature is a guess; half as much would win %s mm of play", c.Amount, num(c.HalvingWins))
		}
		add(f)
	}
	return out
}
