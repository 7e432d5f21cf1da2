package report

import (
	"fmt"
	"io"
	"math"
	"strings"

	"ringtrack/gear/roll"
)

// WriteRoll writes what `roll` prints: the verdict in one sentence, then play,
// transmission error, contact and the smallest gap. rim is a platform's radius
// in mm, 0 when it is not known.
func WriteRoll(w io.Writer, r *Rolled, title string, rim float64) error {
	var b strings.Builder
	wrap(&b, "", "", rollVerdict(r, title))
	b.WriteString("\n")
	res := r.Result
	section(&b, "Rolled")
	leftTable(&b, [][]string{
		{"teeth", fmt.Sprintf("%d in %d", res.PinionTeeth, res.RingTeeth)},
		{"over", rollSpan(res)},
	})
	section(&b, "Play")
	rows := [][]string{{"", "least", "mean", "greatest"}}
	row := func(name string, f func(roll.Amount) float64, format string) {
		k := res.Backlash
		cells := []string{name}
		for _, a := range []roll.Amount{k.Least, k.Mean, k.Greatest} {
			cells = append(cells, fmt.Sprintf(format, f(a)))
		}
		rows = append(rows, cells)
	}
	deg := 180 / math.Pi
	row("on the working circle, mm", func(a roll.Amount) float64 { return a.Arc }, "%.4f")
	row("pinion held, at the ring, degrees", func(a roll.Amount) float64 { return a.Ring * deg }, "%.4f")
	row("ring held, at the pinion, degrees", func(a roll.Amount) float64 { return a.Pinion * deg }, "%.4f")
	if rim > 0 {
		row(fmt.Sprintf("at the rim of %s mm radius, mm", short(rim)), func(a roll.Amount) float64 { return a.Ring * rim }, "%.4f")
	}
	table(&b, rows)
	rollDrives(&b, res)
	section(&b, "Smallest gap, the ring in mid play")
	leftTable(&b, gapRows(res))
	_, err := io.WriteString(w, b.String())
	return err
}

func rollVerdict(r *Rolled, title string) string {
	if r.Binds {
		return fmt.Sprintf("These BIND (%s): %s.", title, r.Where)
	}
	return fmt.Sprintf("These turn freely (%s): %.3f to %.3f mm of play on the working circle, least at ring space %d.",
		title, r.Least, r.Greatest, r.AtTooth)
}

func rollSpan(res *roll.Result) string {
	switch res.Span {
	case roll.OnePitch:
		return fmt.Sprintf("one pitch in %d positions: all teeth are alike and both centres true, so that is the whole cycle", len(res.Positions))
	case roll.RingTurn:
		t := fmt.Sprintf("a turn of the ring in %d positions, then one pitch in %d at the tightest and at the loosest place",
			len(res.Positions), len(res.Tight))
		if res.Whole {
			t += "; that is the whole cycle"
		}
		return t
	}
	return fmt.Sprintf("the whole cycle in %d positions", len(res.Positions))
}

// rollDrives writes how exactly the ring follows, and where flanks touch.
func rollDrives(b *strings.Builder, res *roll.Result) {
	section(b, "Driving")
	rows := [][]string{{"", "forward", "backward"}}
	add := func(name string, f func(roll.Drive) string) {
		rows = append(rows, []string{name, f(res.Forward), f(res.Backward)})
	}
	add("transmission error, peak to peak, along the line of action, um", func(d roll.Drive) string {
		if v := action(d.Error); !math.IsNaN(v) {
			return fmt.Sprintf("%.3f", 1000*v)
		}
		return "-"
	})
	add("the same as an arc on the working circle, um", func(d roll.Drive) string { return fmt.Sprintf("%.3f", 1000*d.Error.Arc) })
	radii := func(name string, from, to func(roll.Zone) float64) {
		add(name, func(d roll.Drive) string {
			if d.Zone.Empty() {
				return "-"
			}
			return fmt.Sprintf("%.3f to %.3f", from(d.Zone), to(d.Zone))
		})
	}
	radii("flanks touch at radii of the pinion, mm", func(z roll.Zone) float64 { return z.PinionFrom }, func(z roll.Zone) float64 { return z.PinionTo })
	radii("flanks touch at radii of the ring, mm", func(z roll.Zone) float64 { return z.RingFrom }, func(z roll.Zone) float64 { return z.RingTo })
	table(b, rows)
}

func gapRows(res *roll.Result) [][]string {
	g := res.Gap
	if math.IsInf(g.Distance, 0) {
		return [][]string{{"distance", "none: every position binds"}}
	}
	return [][]string{
		{"distance", fmt.Sprintf("%.4f mm", g.Distance)},
		{"where", fmt.Sprintf("(%.3f, %.3f) mm from the ring's centre, pinion turned by %.2f degrees", g.OnPinion.X, g.OnPinion.Y, g.PinionAngle*180/math.Pi)},
	}
}

// rollRoot is the JSON of a rolling.
type rollRoot struct {
	Tool    string     `json:"tool"`
	Version string     `json:"version"`
	Title   string     `json:"title"`
	Units   units      `json:"units"`
	Format  int        `json:"format"`
	Verdict string     `json:"verdict"`
	Teeth   [2]int     `json:"teeth"`
	Rolled  *rolled    `json:"rolled"`
	Play    playJSON   `json:"play"`
	Contact contactSet `json:"contact"`
}

// playJSON is the backlash in every measure, least, mean and greatest.
type playJSON struct {
	WorkingCircle [3]num  `json:"working_circle"`
	Ring          [3]num  `json:"ring"`
	Pinion        [3]num  `json:"pinion"`
	Rim           *[3]num `json:"rim"`
}

type contactSet struct {
	Forward  *zoneJSON `json:"forward"`
	Backward *zoneJSON `json:"backward"`
}

// zoneJSON holds the radii between which flanks touch.
type zoneJSON struct {
	Pinion [2]num `json:"pinion"`
	Ring   [2]num `json:"ring"`
}

// WriteRollJSON writes a rolling as JSON: `rolled` as in report.json, and play
// and contact in every measure (mm, degrees).
func WriteRollJSON(w io.Writer, r *Rolled, title string, rim float64) error {
	k := r.Result.Backlash
	three := func(f func(roll.Amount) num) [3]num { return [3]num{f(k.Least), f(k.Mean), f(k.Greatest)} }
	out := rollRoot{
		Tool: "ringtrack", Version: Version, Title: title, Units: units{"mm", "deg", "g", "mm3"}, Format: Format,
		Verdict: "good", Teeth: [2]int{r.Result.PinionTeeth, r.Result.RingTeeth}, Rolled: rolledOf(r),
	}
	if r.Binds {
		out.Verdict = "fault"
	}
	out.Play.WorkingCircle = three(func(a roll.Amount) num { return num(a.Arc) })
	out.Play.Ring = three(func(a roll.Amount) num { return deg(a.Ring) })
	out.Play.Pinion = three(func(a roll.Amount) num { return deg(a.Pinion) })
	if rim > 0 {
		v := three(func(a roll.Amount) num { return num(a.Ring * rim) })
		out.Play.Rim = &v
	}
	out.Contact = contactSet{zoneOf(r.Result.Forward.Zone), zoneOf(r.Result.Backward.Zone)}
	return encode(w, out)
}

func zoneOf(z roll.Zone) *zoneJSON {
	if z.Empty() {
		return nil
	}
	return &zoneJSON{[2]num{num(z.PinionFrom), num(z.PinionTo)}, [2]num{num(z.RingFrom), num(z.RingTo)}}
}
