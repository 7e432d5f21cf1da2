package report

import (
	"math"

	"ringtrack/gear/budget"
	"ringtrack/gear/drive"
)

// budgetRoot is the budget of backlash as report.json has it.
type budgetRoot struct {
	Nominal      num          `json:"nominal"`
	Target       num          `json:"target"`
	Causes       []causeRow   `json:"causes"`
	Least        figures      `json:"least"`
	Greatest     figures      `json:"greatest"`
	BindingShare num          `json:"binding_share"`
	BindingError num          `json:"binding_error"`
	TargetShare  num          `json:"target_share"`
	Builds       int          `json:"builds"`
	Seed         uint64       `json:"seed"`
	BuildsLeast  buildFigures `json:"builds_least"`
	BuildsMost   buildFigures `json:"builds_greatest"`
	Reach        num          `json:"reach"`
	TipsClear    num          `json:"tips_clear"`
	WorstGuess   *string      `json:"worst_guess"`
	Verdict      playVerdict  `json:"verdict"`
	Auto         autoRow      `json:"auto"`
	Turn         turnRow      `json:"turn"`
	Setting      settingRow   `json:"setting"`
	Felt         feltRow      `json:"felt"`
}

type causeRow struct {
	Cause          string `json:"cause"`
	Key            string `json:"key"`
	Amount         num    `json:"amount"`
	Unit           string `json:"unit"`
	Effect         num    `json:"effect"`
	EffectGreatest num    `json:"effect_greatest"`
	Guessed        bool   `json:"guessed"`
	EveryTurn      bool   `json:"every_turn"`
	HalvingWins    num    `json:"halving_wins"`
}

type figures struct {
	WorstCase     num `json:"worst_case"`
	RootSumSquare num `json:"root_sum_square"`
}

type buildFigures struct {
	Mean      num `json:"mean"`
	Deviation num `json:"deviation"`
	Low       num `json:"low"`
	High      num `json:"high"`
}

type playVerdict struct {
	Word     string     `json:"word"`
	Binds    string     `json:"binds"`
	Where    string     `json:"where"`
	Sentence string     `json:"sentence"`
	Change   *changeRow `json:"change"`
}

type changeRow struct {
	Kind  string  `json:"kind"`
	Cause *string `json:"cause"`
	Key   string  `json:"key"`
	Value num     `json:"value"`
	Unit  string  `json:"unit"`
	Wins  num     `json:"wins"`
}

type autoRow struct {
	Backlash    num     `json:"backlash"`
	Costliest   *string `json:"costliest"`
	Costs       num     `json:"costs"`
	HalvingWins num     `json:"halving_wins"`
}

type turnRow struct {
	Measured bool    `json:"measured"`
	Tightest spotRow `json:"tightest"`
	Loosest  spotRow `json:"loosest"`
}

type spotRow struct {
	Space         int  `json:"space"`
	PlatformAngle num  `json:"platform_angle"`
	PinionAngle   num  `json:"pinion_angle"`
	Play          num  `json:"play"`
	Joint         *int `json:"joint"`
}

type settingRow struct {
	Space          int `json:"space"`
	PlatformAngle  num `json:"platform_angle"`
	Play           num `json:"play"`
	CentreDistance num `json:"centre_distance"`
	Move           num `json:"move"`
	Paper          num `json:"paper"`
}

type feltRow struct {
	Radius   num     `json:"radius"`
	Nominal  playRow `json:"nominal"`
	Least    playRow `json:"least"`
	Greatest playRow `json:"greatest"`
}

type playRow struct {
	Arc   num `json:"arc"`
	Angle num `json:"angle"`
	Rim   num `json:"rim"`
}

// budgetOf returns the budget for report.json, nil where there is none.
func budgetOf(d *drive.Design) *budgetRoot {
	r := d.Budget
	if r == nil {
		return nil
	}
	b := r.Builds
	out := &budgetRoot{
		Nominal: num(r.Nominal), Target: num(r.Target), Causes: []causeRow{},
		Least: figuresOf(r.Least), Greatest: figuresOf(r.Greatest),
		BindingShare: num(b.BindingShare), BindingError: num(b.BindingError), TargetShare: num(b.TargetShare),
		Builds: b.Count, Seed: b.Seed, BuildsLeast: buildsOf(b.Least), BuildsMost: buildsOf(b.Greatest),
		Reach: num(r.Reach), TipsClear: num(r.TipsClear),
		Auto: autoRow{num(r.Auto.Backlash), orNull(r.Auto.Costliest), num(r.Auto.Costs), num(r.Auto.HalvingWins)},
		Turn: turnRow{r.Turn.Measured, spotOf(r.Turn.Tightest), spotOf(r.Turn.Loosest)},
		Setting: settingRow{r.Setting.Spot.Space, deg(r.Setting.Spot.Platform), num(r.Setting.Play), num(r.Setting.Distance),
			num(r.Setting.Move), num(r.Setting.Paper)},
		Felt: feltRow{num(d.FeltAt()), playOf(r.Felt.Nominal), playOf(r.Felt.Least), playOf(r.Felt.Greatest)},
	}
	for _, c := range r.Causes {
		out.Causes = append(out.Causes, causeOf(c))
	}
	out.WorstGuess = orNull(r.WorstGuess)
	v := r.Verdict
	out.Verdict = playVerdict{string(v.Word), v.Binds, v.Where, v.Sentence, changeOf(v.Change)}
	return out
}

// changeOf returns the change that helps most, nil where none is needed.
func changeOf(c budget.Change) *changeRow {
	if c.Kind == "" {
		return nil
	}
	amount, unit := told(c.Cause, c.Value, c.Unit)
	return &changeRow{c.Kind, orNull(c.Cause), c.Key, num(amount), unit, num(c.Wins)}
}

// orNull returns nil for no word.
func orNull(s string) *string {
	if s == "" {
		return nil
	}
	return &s
}

// told brings an amount into the unit that people read: degrees, and percent for
// growth by moisture.
func told(cause string, v float64, unit string) (float64, string) {
	switch {
	case unit == "rad":
		return v * 180 / math.Pi, "deg"
	case cause == budget.Moisture:
		return 100 * v, "%"
	}
	return v, unit
}

func causeOf(c budget.Cause) causeRow {
	v, unit := told(c.Name, c.Amount, c.Unit)
	return causeRow{c.Name, c.Key, num(v), unit, num(c.Effect.Least), num(c.Effect.Greatest), c.Guessed, c.EveryTurn, num(c.HalvingWins)}
}

func figuresOf(f budget.Figures) figures { return figures{num(f.WorstCase), num(f.RootSumSquare)} }

func buildsOf(q budget.Quantiles) buildFigures {
	return buildFigures{num(q.Mean), num(q.Deviation), num(q.Low), num(q.High)}
}

func spotOf(s budget.Spot) spotRow {
	row := spotRow{Space: s.Space, PlatformAngle: deg(s.Platform), PinionAngle: deg(s.PinionAngle), Play: num(s.Play)}
	if s.Joint > 0 {
		row.Joint = &s.Joint
	}
	return row
}

func playOf(p budget.Play) playRow { return playRow{num(p.Arc), deg(p.Angle), num(p.Rim)} }
