package report

import (
	"fmt"
	"math"
	"strings"

	"ringtrack/gear"
	"ringtrack/gear/drive"
	"ringtrack/gear/load"
	"ringtrack/gear/machine"
)

// loadText writes what motor and platform do to the teeth; nothing without a
// motor.
func loadText(b *strings.Builder, d *drive.Design) {
	if d.Load != nil {
		motorText(b, d)
		chainText(b, d)
		teethText(b, d)
		hubText(b, d)
	}
	flexibleText(b, d)
	if d.Load != nil {
		cardText(b, d)
	}
}

// LoadVerdict is what motor, platform and teeth come to, in one sentence; empty
// without a motor.
func LoadVerdict(d *drive.Design) string {
	l := d.Load
	if l == nil {
		return ""
	}
	var out []string
	if len(l.Points) > 0 {
		at := l.Points[0]
		if !at.Starts {
			return "The motor does not start the platform."
		}
		out = append(out, fmt.Sprintf("The motor turns the platform at %s and starts it with %s the torque that it needs", rpm(at.Speed), times(at.StartMargin)))
	}
	if who, r, ok := weakest(d); ok {
		out = append(out, fmt.Sprintf("the teeth's least safety is %.2g (%s, %s; %.2g is asked for)", r.safety, who, r.name, r.needed))
	}
	if len(out) == 0 {
		return ""
	}
	s := strings.Join(out, "; ") + "."
	return strings.ToUpper(s[:1]) + s[1:]
}

type lack struct {
	name           string
	safety, needed float64
}

// weakest returns the member and case with the least safety for what is asked.
func weakest(d *drive.Design) (who string, least lack, ok bool) {
	a := d.Load.Analysis
	if a == nil {
		return "", lack{}, false
	}
	best := math.Inf(1)
	for _, r := range a.Ratings {
		for name, t := range map[string]load.ToothRating{"pinion": r.Pinion, "ring": r.Wheel} {
			if q := t.Safety / t.Needed; q < best || q == best && name < who {
				best, who, least = q, name, lack{r.Case.Name, t.Safety, t.Needed}
			}
		}
	}
	return who, least, !math.IsInf(best, 1)
}

func rpm(speed float64) string { return short3(machine.ToRPM(speed)) + " rpm" }

// short3 writes a number with three significant digits.
func short3(v float64) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return "-"
	}
	if a := math.Abs(v); a >= 1000 && a < 1e7 {
		return fmt.Sprintf("%.0f", v)
	}
	return strings.TrimPrefix(fmt.Sprintf("%.3g", v), "+")
}

func times(v float64) string {
	if v >= 1000 {
		return "more than 1000 times"
	}
	return short3(v) + " times"
}

// motorText writes the table of supplies and what starting and stopping do.
func motorText(b *strings.Builder, d *drive.Design) {
	l := d.Load
	if l.Machine == nil {
		section(b, "Motor")
		wrap(b, "", "", "Without [platform] nothing is known of what turns: the working torque is taken as a quarter of the motor's stall torque.")
		b.WriteString("\n")
		return
	}
	section(b, "Motor and platform")
	m := l.Machine
	rows := [][]string{
		{"", "platform", "uphill", "no load", "turning", "starting", "stall", "for long", "to start"},
		{"", "rpm", "rpm", "rpm", "N mm", "N mm", "N mm", "N mm", "in hand"},
	}
	for _, p := range l.Points {
		name := "stepper"
		if m.Motor.Kind == machine.DC {
			name = short3(p.Supply) + " V"
		}
		starts := short3(math.Min(p.StartMargin, 1000)) + " x"
		if !p.Starts {
			starts = "NO START"
		}
		n := func(speed float64) string { return short3(machine.ToRPM(speed)) }
		rows = append(rows, []string{name, n(p.Speed), n(p.Slowest), n(p.NoLoad), short3(p.Uphill), short3(p.Start), short3(p.Stall), short3(p.Usable), starts})
	}
	table(b, rows)
	f := m.Platform.Friction
	rows = [][]string{
		{"turns of the motor's shaft for one of the platform", short(m.Ratio())},
		{"speed reckoned with", rpm(l.Speed)},
		{"bearing's friction", fmt.Sprintf("%s to start, %s while moving (%s)", nmm(f.Start), nmm(f.Moving), f.Source)},
		{"what a lean of the base adds", nmm(m.Platform.Hill())},
		{"limit for long", l.Points[0].Limit},
	}
	if l.Run != nil {
		rows = append(rows, []string{"up to speed at full supply", fmt.Sprintf("%s s, %s of the platform", short3(l.Run.Time), degrees(l.Run.Turn))})
	}
	rows = append(rows, []string{"coasting when only friction holds it", coast(l.Stop)})
	rows = append(rows, []string{"overshoot when the motor stops at once", degrees(l.Stop.Overshoot) + rimOf(l.Stop.Overshoot, l.Rim)})
	if l.Lowest > 0 {
		rows = append(rows, []string{"slowest without sticking", "about " + rpm(l.Lowest)})
	}
	rows = append(rows, []string{"push on the motor's shaft", fmt.Sprintf("%s N working, %s N at stall", short3(l.Working.Force), short3(l.Stalled.Force))})
	if t := l.Tipping; t != nil {
		rows = append(rows, []string{"before it tips, resting on its bearing", tipping(*t)})
	}
	leftTable(b, rows)
}

func nmm(v float64) string { return short3(v) + " N mm" }

func degrees(angle float64) string { return short3(angle*180/math.Pi) + " deg" }

func rimOf(angle, rim float64) string {
	return fmt.Sprintf(", %s mm at the rim", short3(angle*rim))
}

func coast(s machine.Stop) string {
	const endless = 1e5
	if s.CoastTime >= endless {
		return "hardly ever stops"
	}
	return fmt.Sprintf("%s in %s s", degrees(s.Coast), short3(s.CoastTime))
}

func tipping(t machine.Tipping) string {
	if t.Lever <= 0 {
		return "it tips by itself"
	}
	out := fmt.Sprintf("the weight acts %s mm inside the track", short3(t.Lever))
	if t.Press > 0 {
		out += fmt.Sprintf("; %s N down on the rim", short3(t.Press))
	}
	if t.Push > 0 {
		out += fmt.Sprintf("; %s N sideways at the load", short3(t.Push))
	}
	return out
}

// chainText writes where the play that is felt at the rim comes from.
func chainText(b *strings.Builder, d *drive.Design) {
	l := d.Load
	if len(l.Chain) == 0 {
		return
	}
	section(b, "Play at the platform")
	rows := [][]string{{"", "deg", fmt.Sprintf("mm at radius %s", short3(l.Rim))}}
	angle, rim := 0.0, 0.0
	for _, k := range l.Chain {
		name := k.Name
		switch {
		case name == "gearbox" && !l.SlackGiven && k.Angle > 0:
			name += " (not measured)"
		case name == "hub" && (l.Analysis == nil || l.Analysis.Holding == nil):
			name += " (not known)"
		}
		rows = append(rows, []string{name, fmt.Sprintf("%.3f", k.Angle*180/math.Pi), fmt.Sprintf("%.2f", k.Rim)})
		angle, rim = angle+k.Angle, rim+k.Rim
	}
	rows = append(rows, []string{"together", fmt.Sprintf("%.3f", angle*180/math.Pi), fmt.Sprintf("%.2f", rim)})
	table(b, rows)
}

// teethText writes what the teeth bear under every case.
func teethText(b *strings.Builder, d *drive.Design) {
	l := d.Load
	section(b, "Teeth under load")
	a := l.Analysis
	if a == nil || a.Mesh == nil || len(a.Ratings) == 0 {
		wrap(b, "", "", "Not worked out: name the material of pinion and ring.")
		b.WriteString("\n")
		return
	}
	rows := [][]string{{"", "torque", "force", "pinion", "", "ring", "", "flank", "bends"},
		{"", "N mm", "N", "MPa", "safety", "MPa", "safety", "MPa", "mm"}}
	for _, r := range a.Ratings {
		name := r.Case.Name
		if r.Case.Bound {
			name += ", at most"
		}
		rows = append(rows, []string{name, short3(r.Case.Torque), short3(r.Normal),
			short3(r.Pinion.Tangent), safety(r.Pinion), short3(r.Wheel.Tangent), safety(r.Wheel), short3(r.Pressure), short3(r.Bending)})
	}
	table(b, rows)
	leftTable(b, teethRows(d))
}

// safety writes a safety beside the one that is asked for.
func safety(t load.ToothRating) string {
	if t.Safety < 10 {
		return fmt.Sprintf("%.2f (%.2g)", t.Safety, t.Needed)
	}
	return fmt.Sprintf("%s (%.2g)", short3(t.Safety), t.Needed)
}

// teethRows lists what stands behind the table of cases.
func teethRows(d *drive.Design) [][]string {
	l, a := d.Load, d.Load.Analysis
	first := a.Ratings[0]
	rows := [][]string{
		{"force, safety, bends", "along the line of action; with the one asked for in brackets; by how much the flanks give way"},
		{"root stress", "30 degree tangent (ring: 60), form and stress correction as ISO 6336-3, shared as VDI 2736; no published value stands behind the ring's"},
		{"by Lewis, working", fmt.Sprintf("%s MPa pinion, %s MPa ring: another method, the whole load at the tip, no notch", short3(first.Pinion.Lewis), short3(first.Wheel.Lewis))},
		{"materials", fmt.Sprintf("%s, E %s (%s) MPa; %s, E %s (%s) MPa", l.Pinion.Name, short3(l.Pinion.Modulus.Usual), between(l.Pinion.Modulus.Least, l.Pinion.Modulus.Most),
			l.Ring.Name, short3(l.Ring.Modulus.Usual), between(l.Ring.Modulus.Least, l.Ring.Modulus.Most))},
		{"reckoned at", fmt.Sprintf("%.0f degC, over %.4g mm of common face width", l.Temperature, l.Face)},
		{"bending limit", fmt.Sprintf("%.3f mm, 0.07 of the module (VDI 2736)", first.Limit)},
	}
	if a.Course != nil {
		k := a.Course.Stiffness
		rows = append(rows, []string{"mesh stiffness, working", fmt.Sprintf("%s N/(mm um) mean, %s to %s", short3(k.Mean/1000), short3(k.Least/1000), short3(k.Greatest/1000))})
	}
	if s := a.Skipping; s.NotAbove > 0 {
		rows = append(rows, []string{"teeth skip", fmt.Sprintf("not below %s on the pinion, not above %s; %s", nmm(s.NotBelow), nmm(s.NotAbove), load.SkippingNote)})
	}
	return rows
}

func between(lo, hi float64) string { return short3(lo) + " to " + short3(hi) }

// hubText writes what the bore holds.
func hubText(b *strings.Builder, d *drive.Design) {
	a := d.Load.Analysis
	if a == nil {
		return
	}
	if a.Holding == nil {
		if d.Pinion.Bore != nil {
			section(b, "Bore on its shaft")
			wrap(b, "", "", "What a bore of this shape holds is not worked out.")
			b.WriteString("\n")
		}
		return
	}
	h := a.Holding
	section(b, "Bore on its shaft")
	rows := [][]string{{"holds for long", nmm(h.Torque)}, {"holds once", nmm(h.Blow)}}
	if h.Slip > 0 {
		rows = append(rows, []string{"the set screw alone", fmt.Sprintf("%s at the first slip, %s usable", nmm(h.Slip), nmm(h.Screw))})
	}
	leftTable(b, append(rows,
		[]string{"turns on the shaft by", degrees(h.Slack) + " in all"},
		[]string{"wobble at the tips", fmt.Sprintf("%s mm along the axis, %s mm off centre", short3(h.Wobble), short3(h.Runout))},
		[]string{"from", h.Source},
	))
}

// flexibleText writes what bending changed in the drawn teeth.
func flexibleText(b *strings.Builder, d *drive.Design) {
	p := d.Pair
	if p.Pinion.Flexible == nil && p.Ring.Flexible == nil {
		return
	}
	section(b, "Flexible teeth: changed before drawing (mm)")
	rows := [][]string{{"", "thicker", "tip taken back", "over, along the line", "tip width"}}
	for _, m := range []struct {
		name string
		x    *gear.Flexible
	}{{"pinion", p.Pinion.Flexible}, {"ring", p.Ring.Flexible}} {
		if m.x != nil {
			rows = append(rows, []string{m.name, mm4(m.x.Thicker), mm4(m.x.Relief), mm(m.x.Length), mm(m.x.TipThickness)})
		}
	}
	table(b, rows)
	j := p.Backlash.Circumferential
	wrap(b, "", "", fmt.Sprintf("Backlash as made: %.4f mm; of the %.4f mm designed, %.4f mm are left to the yielding of the flanks.", j-p.GivenBack(), j, p.GivenBack()))
	b.WriteString("\n")
}

// stepName names a row of the ledger; tips taken back show in none of its columns.
func stepName(l gear.Row) string {
	if l.Step == "flexible" && l.Given > 0 {
		return fmt.Sprintf("flexible (tips taken back %.4f)", l.Given)
	}
	return l.Step
}

// cardText writes what the motor's controller is told.
func cardText(b *strings.Builder, d *drive.Design) {
	l := d.Load
	if l.Machine == nil {
		return
	}
	c := l.Card
	section(b, "Control card")
	of := "turns of the output shaft"
	if c.GearboxSaid {
		of = "turns of the motor, gearbox included"
	}
	rows := [][]string{{of + " for one of the platform", c.Fraction + " = " + short(c.Turns)}}
	if c.Steps != "" {
		whole := "whole"
		if !c.StepsWhole {
			whole = fmt.Sprintf("not whole: count on without rounding, whole after %d turns", c.Repeat)
		}
		what := "steps"
		if l.Machine.Motor.Kind == machine.DC {
			what = "counts"
		}
		rows = append(rows, []string{what + " for one turn of the platform", c.Steps + ", " + whole},
			[]string{"one of them", degrees(c.StepAngle) + rimOf(c.StepAngle, l.Rim)},
			[]string{"rate", short3(c.StepRate) + " a second"})
	}
	ramp := "none that the motor can give"
	if c.Ramp > 0 {
		ramp = short3(c.Ramp) + " s at least"
	}
	rows = append(rows, []string{"speed", rpm(c.Speed)}, []string{"ramp, up and down", ramp},
		[]string{"overshoot", degrees(c.Overshoot) + rimOf(c.Overshoot, l.Rim)},
		[]string{"teeth pass at", short3(c.ToothPass) + " Hz"})
	leftTable(b, rows)
}
