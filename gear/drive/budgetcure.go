package drive

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"ringtrack/gear/budget"
	"ringtrack/gear/find"
)

// aboutPlay reports whether a finding is the budget's verdict. Its cures are
// worked out, and nothing further off is tried.
func (d *Design) aboutPlay(f find.Finding) bool {
	return d.sound && f.About == "teeth.backlash" && (f.Code == find.Jams || f.Code == find.LittleBacklash)
}

// budgetMoves returns what to try for a finding of the budget; ok is false for
// all others.
func (d *Design) budgetMoves(f find.Finding) (out []move, ok bool) {
	section, _, _ := strings.Cut(f.About, ".")
	switch {
	case d.aboutPlay(f):
		return d.playMoves(), true
	case f.Code == find.RingTipInterference && section == "mounting":
		return nil, true // what tips take is in the budget's sums
	case f.Code == find.OutOfRange && section == "mounting", f.Code == find.OutOfRange && strings.HasSuffix(f.About, ".spread"):
		return []move{auto(f.About), down(f.About)}, true
	}
	return nil, false
}

// rangeOfPlay continues rangeOf for what may be off.
func (d *Design) rangeOfPlay(key string) (span, bool) {
	m := d.Job.Mounting
	mm := func(v float64) (span, bool) { return span{v, 10, 0, 10, 0.01}, true }
	switch key {
	case "mounting.bearing_play":
		return mm(m.Bearing)
	case "mounting.ring_runout":
		return mm(m.RingRunout)
	case "mounting.ring_ovality":
		return mm(m.RingOvality)
	case "mounting.pinion_runout":
		return mm(m.PinionRunout)
	case "mounting.tilt":
		return span{m.Tilt * 180 / math.Pi, 15, 0, 15, 0.01}, true
	case "making.spread", "making.ring.spread":
		return span{d.Job.Ring.Making.Spread, 2, 0, 2, 0.01}, true
	case "making.pinion.spread":
		return span{d.Job.Pinion.Making.Spread, 2, 0, 2, 0.01}, true
	}
	return span{}, false
}

// playMoves are the changes that give a drive the play that its budget lacks:
// more backlash, first the tool's choice, and halves of what costs most. Values
// are worked out, not searched: each trial is a whole budget.
func (d *Design) playMoves() []move {
	out := []move{quoted("teeth.backlash", "auto")}
	if d.Budget == nil {
		return out
	}
	lack := d.Budget.Target - d.Budget.Builds.Least.Low
	for _, more := range []float64{0, 0.02} { // a hair more, should the rest shift
		if v := math.Ceil((d.Budget.Nominal+lack+more)*100-1e-7) / 100; v > d.Budget.Nominal && v <= d.Job.Teeth.Module {
			out = append(out, move{key: "teeth.backlash", word: roundText(v)})
		}
	}
	for _, c := range d.costly() {
		for _, part := range []float64{2, 4} {
			out = append(out, move{key: d.standingSpread(c.Key), word: share(c, part)})
		}
	}
	return out
}

// costly returns the causes that are one number of the job, by what halving wins.
func (d *Design) costly() []budget.Cause {
	var out []budget.Cause
	for _, c := range d.Budget.Causes {
		if c.HalvingWins > 0 && (c.Unit == "mm" || c.Unit == "rad") {
			out = append(out, c)
		}
	}
	slices.SortStableFunc(out, func(a, b budget.Cause) int {
		switch {
		case a.HalvingWins > b.HalvingWins:
			return -1
		case a.HalvingWins < b.HalvingWins:
			return 1
		}
		return 0
	})
	return out[:min(3, len(out))]
}

// share writes a part of a cause's amount as it would stand in the job file.
func share(c budget.Cause, part float64) string {
	v := c.Amount / part
	if c.Unit == "rad" {
		v *= 180 / math.Pi
	}
	return roundText(math.Floor(v*1000+1e-9) / 1000)
}

// roundText writes a number to three decimals at most.
func roundText(v float64) string { return plain(roundTo(v, 0.001)) }

// guessedValue is what giving a guess as one's own measurement looks like.
func (d *Design) guessedValue(f find.Finding) string {
	if f.About == "mounting.temperature" {
		t := d.Job.Mounting.Temperature
		return "[" + plain(t[0]) + ", " + plain(t[1]) + "]"
	}
	return strconv.FormatFloat(*f.Found, 'g', 4, 64)
}
