package sheet

import (
	"fmt"
	"math"

	"ringtrack/export/figure"
	"ringtrack/gear/budget"
	"ringtrack/gear/drive"
	"ringtrack/gear/plane"
)

// HasBudget reports whether there is a budget to draw.
func HasBudget(d *drive.Design) bool { return d.Budget != nil }

// The greys of the budget's bars: what takes, what gives, what is only guessed.
var (
	takes    = figure.Style{Stroke: figure.Colour{R: 0x20, G: 0x20, B: 0x20, A: 255}, Width: 0.2, Fill: figure.Colour{R: 0x4a, G: 0x5a, B: 0x6e, A: 255}}
	gives    = figure.Style{Stroke: figure.Colour{R: 0x20, G: 0x20, B: 0x20, A: 255}, Width: 0.2, Fill: figure.Colour{R: 0xd4, G: 0xdd, B: 0xe6, A: 255}}
	edged    = figure.Style{Stroke: figure.Colour{R: 0x20, G: 0x20, B: 0x20, A: 255}, Width: 0.2}
	stop     = figure.Style{Stroke: figure.Colour{R: 0xc6, G: 0x1a, B: 0x1a, A: 255}, Width: 0.5, Dash: []float64{4, 0.8, 0.6, 0.8}}
	designed = figure.Style{Stroke: figure.Colour{R: 0x20, G: 0x20, B: 0x20, A: 255}, Width: 0.35, Dash: []float64{0.8, 1}}
	keep     = figure.Style{Stroke: figure.Colour{R: 0x00, G: 0x69, B: 0x5c, A: 255}, Width: 0.35, Dash: []float64{3, 1.5}}
)

// Budget draws the budget of backlash on one sheet: what each cause takes and
// gives as bars, what is left, and the backlash round a whole turn as a polar
// plot. The design must have a budget.
func Budget(d *drive.Design) figure.Figure {
	f := figure.Figure{Width: paperWidth, Height: paperHeight, Title: d.Job.Title}
	f.Add(figure.Shape{Path: figure.Rectangle(plane.Vec{}, plane.Vec{X: paperWidth, Y: paperHeight}), Style: figure.Style{Fill: paper}})
	text(&f, plane.Vec{X: edge, Y: 197}, 4.2, d.Job.Title)
	lines := fold(d.Budget.Verdict.Sentence, 150)
	for i, l := range lines {
		text(&f, plane.Vec{X: edge, Y: 190.5 - 4*float64(i)}, 2.4, l)
	}
	r := d.Budget
	rows := effects(r)
	b := bars{at: window{plane.Vec{X: 62, Y: 78}, plane.Vec{X: 150, Y: 172}}}
	b.causes(&f, rows)
	left := bars{at: window{plane.Vec{X: 62, Y: 24}, plane.Vec{X: 150, Y: 58}}}
	left.left(&f, r)
	drawTurn(&f, d, plane.Vec{X: 226, Y: 116}, 43)
	drawBudgetLegend(&f, plane.Vec{X: 162, Y: 56})
	drawPlay(&f, d, plane.Vec{X: 222, Y: 52})
	return f
}

// effects lists the causes that do anything.
func effects(r *budget.Result) []budget.Cause {
	var out []budget.Cause
	for _, c := range r.Causes {
		if c.Counts() {
			out = append(out, c)
		}
	}
	return out
}

// bars is a diagram of horizontal bars over a common scale.
type bars struct {
	at         window
	lo, hi     float64 // mm of backlash at the sides
	rows, step float64 // number of rows, distance of grid lines
}

// scale widens the scale to whole steps.
func (b *bars) scale(lo, hi float64) {
	if hi-lo < 1e-6 {
		lo, hi = lo-0.01, hi+0.01
	}
	b.step = niceStep(hi-lo, 5)
	b.lo, b.hi = math.Floor(lo/b.step+1e-9)*b.step, math.Ceil(hi/b.step-1e-9)*b.step
}

func (b *bars) x(v float64) float64 {
	return b.at.min.X + (v-b.lo)/(b.hi-b.lo)*b.at.size().X
}

// band returns the lower and upper edge of row i, the first one on top.
func (b *bars) band(i int) (low, high float64) {
	h := b.at.size().Y / b.rows
	y := b.at.max.Y - h*(float64(i)+0.5)
	return y - 0.32*h, y + 0.32*h
}

// bar draws one bar from a to b in row i.
func (b *bars) bar(f *figure.Figure, i int, from, to float64, s figure.Style) {
	low, high := b.band(i)
	f.Add(figure.Shape{Path: figure.Rectangle(plane.Vec{X: b.x(from), Y: low}, plane.Vec{X: b.x(to), Y: high}), Style: s})
}

// mark draws an upright line at a value, over the whole height.
func (b *bars) mark(f *figure.Figure, v float64, s figure.Style) {
	if v >= b.lo-1e-9 && v <= b.hi+1e-9 {
		f.Add(figure.Shape{Path: figure.Lines(plane.Vec{X: b.x(v), Y: b.at.min.Y}, plane.Vec{X: b.x(v), Y: b.at.max.Y}), Style: s})
	}
}

// frame draws grid, ticks and title.
func (b *bars) frame(f *figure.Figure, title string) {
	grid := figure.Look(figure.Hatching)
	grid.Stroke = figure.Colour{R: 0xc4, G: 0xc4, B: 0xc4, A: 255}
	for k := math.Round(b.lo / b.step); k*b.step <= b.hi+b.step/2; k++ {
		x := b.x(k * b.step)
		b.mark(f, k*b.step, grid)
		f.Add(figure.Text{At: plane.Vec{X: x, Y: b.at.min.Y - 3.6}, Size: 1.9, Along: figure.Middle, Text: tick(k*b.step, b.step)})
	}
	f.Add(figure.Shape{Path: figure.Rectangle(b.at.min, b.at.max), Style: figure.Look(figure.Dimension)})
	text(f, plane.Vec{X: edge, Y: b.at.max.Y + 3}, 2.6, title)
}

// name writes a row's name at the left.
func (b *bars) name(f *figure.Figure, i int, first, second string) {
	low, high := b.band(i)
	y := (low + high) / 2
	f.Add(figure.Text{At: plane.Vec{X: b.at.min.X - 2, Y: y + 0.4}, Size: 2.1, Along: figure.Right, Text: first})
	f.Add(figure.Text{At: plane.Vec{X: b.at.min.X - 2, Y: y - 2.6}, Size: 1.8, Along: figure.Right, Text: second})
}

// causes draws what each cause takes and gives; a guess is hatched.
func (b *bars) causes(f *figure.Figure, rows []budget.Cause) {
	lo, hi := 0.0, 0.0
	for _, c := range rows {
		lo, hi = math.Min(lo, math.Min(c.Effect.Least, c.Effect.Greatest)), math.Max(hi, math.Max(c.Effect.Least, c.Effect.Greatest))
	}
	b.scale(lo, hi)
	b.rows = math.Max(1, float64(len(rows)))
	b.frame(f, "What each cause takes from the play, and gives, alone (mm of backlash)")
	if len(rows) == 0 {
		f.Add(figure.Text{At: b.at.centre(), Size: 2.4, Along: figure.Middle, Text: "nothing: everything is exact"})
	}
	for i, c := range rows {
		b.cause(f, i, c)
	}
	b.mark(f, 0, edged)
}

func (b *bars) cause(f *figure.Figure, i int, c budget.Cause) {
	e := c.Effect
	low, high := math.Min(0, math.Min(e.Least, e.Greatest)), math.Max(0, math.Max(e.Least, e.Greatest))
	b.bar(f, i, low, 0, takes)
	b.bar(f, i, 0, high, gives)
	amount := amountText(c)
	if c.Guessed {
		amount += ", a guess"
		bottom, top := b.band(i)
		path := figure.Rectangle(plane.Vec{X: b.x(low), Y: bottom}, plane.Vec{X: b.x(high), Y: top})
		white := figure.Style{Stroke: paper, Width: 0.35}
		f.Add(figure.Hatch{Path: path, Angle: math.Pi / 4, Spacing: 1.6, Style: white})
		f.Add(figure.Shape{Path: path, Style: edged})
	}
	b.name(f, i, budget.Words(c.Name), amount)
}

// amountText writes a cause's amount as people read it.
func amountText(c budget.Cause) string {
	switch {
	case c.Name == budget.Together:
		return ""
	case c.Unit == "rad":
		return fmt.Sprintf("%.3g°", deg(c.Amount))
	case c.Name == budget.Moisture:
		return fmt.Sprintf("%.3g %%", 100*c.Amount)
	}
	return fmt.Sprintf("%.3g %s", c.Amount, c.Unit)
}

// left draws what is left of the play: from least to greatest, three ways.
func (b *bars) left(f *figure.Figure, r *budget.Result) {
	rows := []struct {
		first, second string
		lo, hi        float64
	}{
		{"39 of 40 builds by chance", fmt.Sprintf("%.3f to %.3f", r.Builds.Least.Low, r.Builds.Greatest.High), r.Builds.Least.Low, r.Builds.Greatest.High},
		{"by root sum of squares", fmt.Sprintf("%.3f to %.3f", r.Least.RootSumSquare, r.Greatest.RootSumSquare), r.Least.RootSumSquare, r.Greatest.RootSumSquare},
		{"all against you, worst case", fmt.Sprintf("%.3f to %.3f", r.Least.WorstCase, r.Greatest.WorstCase), r.Least.WorstCase, r.Greatest.WorstCase},
	}
	lo, hi := 0.0, r.Nominal
	for _, v := range rows {
		lo, hi = math.Min(lo, v.lo), math.Max(hi, v.hi)
	}
	b.scale(lo, hi)
	b.rows = float64(len(rows))
	b.frame(f, "What is left of the play (mm of backlash)")
	for i, v := range rows {
		b.bar(f, i, v.lo, v.hi, gives)
		if v.lo < 0 {
			b.bar(f, i, v.lo, 0, takes)
		}
		b.name(f, i, v.first, v.second)
	}
	b.mark(f, 0, stop)
	b.mark(f, r.Target, keep)
	b.mark(f, r.Nominal, designed)
}

func drawBudgetLegend(f *figure.Figure, at plane.Vec) {
	f.Add(figure.Legend{At: at, Size: 1.9, Entries: []figure.Entry{
		{Style: takes, Text: "takes; below 0: binds"},
		{Style: gives, Text: "gives; what is left"},
		{Style: stop, Text: "no play: binds"},
		{Style: keep, Text: "play to keep"},
		{Style: designed, Text: "as designed"},
		{Style: turnLine, Text: "least play at a place"},
		{Style: turnBand, Text: "as the pinion comes round"},
	}})
	text(f, at.Sub(plane.Vec{Y: 35}), 1.9, "hatched: a guess, never measured")
}

// drawPlay tells the play as the user feels it.
func drawPlay(f *figure.Figure, d *drive.Design, at plane.Vec) {
	r := d.Budget
	felt := func(p budget.Play) string { return fmt.Sprintf("%.2f°, %.2f mm at the rim", deg(p.Angle), p.Rim) }
	for i, l := range []string{
		"The platform can be turned, motor held:",
		"as designed  " + felt(r.Felt.Nominal),
		"tightest of 39 in 40  " + felt(r.Felt.Least),
		"loosest of 39 in 40  " + felt(r.Felt.Greatest),
		fmt.Sprintf("%.3g %% of %d builds bind", 100*r.Builds.BindingShare, r.Builds.Count),
		fmt.Sprintf("paper between the teeth  %.2f mm", r.Setting.Paper),
	} {
		text(f, at.Sub(plane.Vec{Y: float64(i) * 4.4}), 2.1, l)
	}
}

// fold breaks a sentence into lines of at most n characters.
func fold(s string, n int) []string {
	var out []string
	for len([]rune(s)) > n {
		r := []rune(s)
		at := n
		for at > 0 && r[at] != ' ' {
			at--
		}
		if at == 0 {
			break
		}
		out = append(out, string(r[:at]))
		s = string(r[at+1:])
	}
	return append(out, s)
}
