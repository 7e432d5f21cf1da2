package report

import (
	"fmt"
	"math"
	"strings"

	"ringtrack/gear/budget"
	"ringtrack/gear/drive"
	"ringtrack/gear/find"
)

// budgetText writes what takes the play, what is left of it round the turn and
// how to set it on the built drive.
func budgetText(b *strings.Builder, d *drive.Design) {
	r := d.Budget
	if r == nil {
		return
	}
	section(b, "Play: what takes it, and what is left (mm of backlash at the working circle)")
	table(b, causeRows(r))
	leftTable(b, [][]string{
		{"as designed", mm(r.Nominal) + " mm"},
		{"to keep", mm(r.Target) + " mm"},
		{"least, all against you", mm(r.Least.WorstCase) + " mm (worst case)"},
		{"least, by root sum of squares", mm(r.Least.RootSumSquare) + " mm"},
		{"greatest", fmt.Sprintf("%s mm worst case, %s mm by root sum of squares", mm(r.Greatest.WorstCase), mm(r.Greatest.RootSumSquare))},
		{fmt.Sprintf("%d builds by chance", r.Builds.Count), buildsText(r.Builds)},
		{"felt, the motor held still", feltText(d)},
		{"tightest", spotText(r.Turn.Tightest)},
		{"loosest", spotText(r.Turn.Loosest)},
	})
	for _, p := range budgetNotes(d) {
		wrap(b, "  * ", "    ", p)
	}
	b.WriteString("\n")
}

// causeRows lists the causes that do anything, and those that are guesses.
func causeRows(r *budget.Result) [][]string {
	rows := [][]string{{"", "amount", "takes", "gives", "halving wins", ""}}
	for _, c := range r.Causes {
		if !c.Counts() {
			continue
		}
		v, unit := told(c.Name, c.Amount, c.Unit)
		amount, wins, mark := strings.TrimSpace(fmt.Sprintf("%.3g %s", v, unit)), mm(c.HalvingWins), ""
		if c.Name == budget.Together {
			amount, wins = "", ""
		}
		if c.Guessed {
			mark = "guess"
		}
		rows = append(rows, []string{budget.Words(c.Name), amount, signed(c.Effect.Least), signed(c.Effect.Greatest), wins, mark})
	}
	return rows
}

func signed(v float64) string {
	if t := fmt.Sprintf("%+.3f", v); t != "-0.000" {
		return t
	}
	return "+0.000"
}

func buildsText(b budget.Builds) string {
	return fmt.Sprintf("%s bind somewhere round the turn, %s keep the play to keep; 39 of 40 keep at least %s mm (seed %d)",
		share(b.BindingShare), share(b.TargetShare), mm(b.Least.Low), b.Seed)
}

// share writes a part of all in percent.
func share(v float64) string {
	switch {
	case v == 0:
		return "none"
	case v == 1:
		return "all"
	}
	return fmt.Sprintf("%.3g %%", 100*v)
}

// feltText tells the play as the user feels it.
func feltText(d *drive.Design) string {
	f := d.Budget.Felt
	return fmt.Sprintf("the platform turns by %s as designed, by %s at the tightest place and %s at the loosest that 39 of 40 builds have; the rim is %s mm from the centre",
		felt(f.Nominal), felt(f.Least), felt(f.Greatest), short(d.FeltAt()))
}

func felt(p budget.Play) string {
	return fmt.Sprintf("%.2f deg (%.2f mm at its rim)", p.Angle*180/math.Pi, p.Rim)
}

func spotText(s budget.Spot) string {
	text := fmt.Sprintf("%s mm at space %d of the ring", mm(s.Play), s.Space)
	if s.Joint > 0 {
		text += fmt.Sprintf(", joint %d", s.Joint)
	}
	return text + fmt.Sprintf(", when the platform has turned %.1f deg", s.Platform*180/math.Pi)
}

// budgetNotes are the sentences below the figures.
func budgetNotes(d *drive.Design) []string {
	r := d.Budget
	var out []string
	if !r.Turn.Measured && moves(r) {
		out = append(out, "Spaces count from the one on +x, counter-clockwise. Where run-out, tilt and joints are tightest is not known: they are laid together in one place. On the built drive, find the tightest tooth by hand.")
	}
	if c := r.Auto; c.Costliest != "" {
		out = append(out, fmt.Sprintf("Halving the %s, which takes %s mm alone, would win most: %s mm less backlash. As things are, the least backlash that keeps the play to keep is %s mm.",
			budget.Words(c.Costliest), mm(c.Costs), mm(c.HalvingWins), mm(c.Backlash)))
	}
	if r.WorstGuess != "" {
		out = append(out, fmt.Sprintf("The guess that matters most is the %s: measure it first.", budget.Words(r.WorstGuess)))
	}
	return append(out, settingText(r))
}

// moves reports whether anything comes round with the turn.
func moves(r *budget.Result) bool {
	return r.Turn.Loosest.Play-r.Turn.Tightest.Play > 1e-6
}

// settingText says how to set the centre distance on the built drive.
func settingText(r *budget.Result) string {
	s := r.Setting
	return fmt.Sprintf("To set the motor: turn the platform until the tightest tooth (space %d) stands at the pinion; push the platform away from it; lay a strip %.2f mm thick through the mesh (kitchen foil has about 0.015 mm, office paper 0.1 mm); push the motor away from the ring's centre until the strip is just held, and fasten it. True parts then stand at %s mm, and %s mm of backlash is left there.",
		s.Spot.Space, s.Paper, mm(s.Distance), mm(s.Play))
}

// playVerdictText is the budget's part of the first sentence where play is
// missing, empty where it is not.
func playVerdictText(d *drive.Design) string {
	if d.Budget == nil || d.Budget.Verdict.Word == budget.Go {
		return ""
	}
	return lowerIt(d.Budget.Verdict.Sentence) + " "
}

// keptText is what stands behind the backlash in the first sentence: the play as
// it is felt and, where anything is off, what builds keep of it.
func keptText(d *drive.Design) string {
	r := d.Budget
	if r == nil {
		return ""
	}
	text := ", " + felt(r.Felt.Nominal)
	if r.Verdict.Word == budget.Go && r.Builds.Least.Low < r.Nominal-1e-6 {
		text += fmt.Sprintf(", of which 39 of 40 builds keep %.3f mm or more, least %s", r.Builds.Least.Low, r.Verdict.Where)
	}
	return text
}

// lowerIt lets a sentence that begins with It stand within another.
func lowerIt(s string) string {
	if rest, ok := strings.CutPrefix(s, "It "); ok {
		return "it " + rest
	}
	return s
}

// saysItself reports whether a finding's text says its number already, as that of a
// default or a guess does; its cure is a measurement.
func saysItself(c find.Code) bool { return c == find.Unmeasured || c == find.Guessed }
