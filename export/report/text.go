package report

import (
	"fmt"
	"io"
	"math"
	"strings"

	"ringtrack/gear"
	"ringtrack/gear/drive"
	"ringtrack/gear/find"
	"ringtrack/gear/part"
)

// WriteCheck writes what `check` prints: the verdict in one sentence, the
// findings, the figures that decide, the cautions.
func WriteCheck(w io.Writer, d *drive.Design, s Style) error {
	var b strings.Builder
	wrap(&b, "", "", Verdict(d))
	b.WriteString("\n")
	if len(d.Findings) > 0 {
		s.blocks(&b, d.Findings, d.Job)
		b.WriteString(Count(d.Findings) + "\n\n")
	}
	if d.Pair != nil {
		meshTable(&b, d)
		budgetText(&b, d)
		loadText(&b, d)
	}
	cautions(&b, d)
	_, err := io.WriteString(w, b.String())
	return err
}

// WriteTalk writes what `build` says beside its files: the verdict, the findings
// and the two cautions that matter most at the bench.
func WriteTalk(w io.Writer, d *drive.Design, s Style) error {
	var b strings.Builder
	wrap(&b, "", "", Verdict(d))
	b.WriteString("\n")
	s.blocks(&b, d.Findings, d.Job)
	if len(d.Findings) > 0 {
		b.WriteString(Count(d.Findings) + "\n")
	}
	for _, c := range d.Cautions()[:2] {
		wrap(&b, "* ", "  ", c)
	}
	_, err := io.WriteString(w, b.String())
	return err
}

// WriteText writes report.txt: first what to check with calipers, then the
// mesh, what was chosen and why, the allowances, the files, the findings.
func WriteText(w io.Writer, d *drive.Design, bt Built) error {
	var b strings.Builder
	title := d.Job.Title
	fmt.Fprintf(&b, "%s\n%s\n\n", title, strings.Repeat("=", min(width, len([]rune(title)))))
	wrap(&b, "", "", Verdict(d))
	b.WriteString("\n")
	if d.Pair != nil {
		caliperTable(&b, d)
		rolledText(&b, bt.Rolled)
		meshTable(&b, d)
		budgetText(&b, d)
		loadText(&b, d)
		memberTable(&b, d)
		chosenText(&b, d)
		ledgerTable(&b, d)
		fixingsText(&b, d)
		cuttingText(&b, bt.Cutting)
		partsText(&b, d, bt)
	}
	section(&b, "Findings")
	if len(d.Findings) == 0 {
		b.WriteString("None.\n\n")
	}
	Style{}.blocks(&b, d.Findings, d.Job)
	cautions(&b, d)
	_, err := io.WriteString(w, b.String())
	return err
}

// Verdict is the whole result in one sentence.
func Verdict(d *drive.Design) string {
	faults := find.Count(d.Findings, find.Fault)
	switch d.Verdict() {
	case "fault":
		for _, f := range d.Findings {
			if f.Level == find.Fault {
				more := ""
				if faults > 1 {
					more = fmt.Sprintf(" (and %s more)", plural(faults-1, "fault"))
				}
				return fmt.Sprintf("Do not build this: %s%s.", strings.TrimSuffix(lowerIt(f.Text), "."), more)
			}
		}
	case "caution":
		n := find.Count(d.Findings, find.Caution)
		return fmt.Sprintf("It can be built, with care (%s): %s", plural(n, "caution"), playVerdictText(d)+turns(d, "mesh"))
	}
	return "Good: " + turns(d, "mesh freely")
}

func turns(d *drive.Design, mesh string) string {
	p := d.Pair
	return strings.TrimSpace(fmt.Sprintf("%d teeth in a ring of %d %s at %.2f mm centre distance with %.3f mm of backlash%s; one turn of the ring takes %s turns of the pinion. %s",
		p.Pinion.Teeth, p.Ring.Teeth, mesh, p.CentreDistance, p.Backlash.Circumferential-p.GivenBack(), keptText(d), short(p.Ratio()), LoadVerdict(d)))
}

func section(b *strings.Builder, title string) {
	fmt.Fprintf(b, "%s\n%s\n", title, strings.Repeat("-", len([]rune(title))))
}

// table writes rows of a name and columns of numbers, aligned.
func table(b *strings.Builder, rows [][]string) {
	var widths []int
	for _, r := range rows {
		for i, c := range r {
			if i == len(widths) {
				widths = append(widths, 0)
			}
			widths[i] = max(widths[i], len([]rune(c)))
		}
	}
	for _, r := range rows {
		line := ""
		for i, c := range r {
			pad := strings.Repeat(" ", widths[i]-len([]rune(c)))
			if i == 0 {
				line += "  " + c + pad
			} else {
				line += "   " + pad + c
			}
		}
		b.WriteString(strings.TrimRight(line, " ") + "\n")
	}
	b.WriteString("\n")
}

func mm(v float64) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return "-"
	}
	t := fmt.Sprintf("%.3f", v)
	if t == "-0.000" {
		return "0.000"
	}
	return t
}

// caliperTable lists what a caliper can check on the finished parts, and what
// the files hold.
func caliperTable(b *strings.Builder, d *drive.Design) {
	section(b, "Check first, with calipers (mm)")
	rows := [][]string{{"", "finished", "in the file"}}
	p, r := d.Pair.Pinion, d.Pair.Ring
	if d.Pinion.Make {
		g := d.Pinion.Gauge
		if p.SpanTeeth > 0 {
			rows = append(rows, []string{fmt.Sprintf("pinion, jaws over %s", plural(p.SpanTeeth, "tooth")), mm(p.Finished().Span), mm(g.Span)})
		}
		if p.Pins != nil {
			rows = append(rows, []string{fmt.Sprintf("pinion, over two %s mm drill shanks", short(p.Pins.Diameter)), mm(p.Finished().Pins), mm(g.Pins)})
		}
		rows = append(rows, []string{"pinion, tip diameter" + oddTeeth(p.Teeth), mm(p.TipDiameter), mm(g.TipDiameter)})
		rows = append(rows, boreRows(d)...)
	}
	if d.Ring.Make {
		g := d.Ring.Gauge
		rows = append(rows, ringWallRows(d)...)
		if r.Pins != nil {
			rows = append(rows, []string{fmt.Sprintf("ring, between two %s mm drill shanks", short(r.Pins.Diameter)), mm(r.Finished().Pins), mm(g.Pins)})
		}
		_, outer := d.Ring.Body.Contours[0].Drawn.Radii()
		rows = append(rows, []string{"ring, outer diameter", mm(d.Ring.Outer), mm(2 * outer)})
	}
	for i := range rows {
		rows[i][0] = strings.ReplaceAll(rows[i][0], "tooths", "teeth")
	}
	table(b, rows)
}

func oddTeeth(z int) string {
	if z%2 == 0 {
		return ""
	}
	return " (odd count: turn it for the largest)"
}

func boreRows(d *drive.Design) [][]string {
	c, ok := d.Pinion.Body.Contour(part.BoreContour)
	if !ok {
		return nil
	}
	drawn := "-"
	for _, l := range d.Ledger {
		if l.Part == "pinion" && l.Step == "drawn" {
			drawn = mm(l.Bore)
		}
	}
	_ = c
	rows := [][]string{{fmt.Sprintf("pinion, bore (shaft %s, clearance %s in total)", short(d.Pinion.Bore.Diameter), short(d.Pinion.Bore.Clearance)),
		mm(d.Pinion.Bore.HoleDiameter()), drawn}}
	if d.Pinion.Bore.Shape == "d" {
		rows = append(rows, []string{"pinion, bore from flat to far side", mm(d.Pinion.Bore.AcrossFlat + d.Pinion.Bore.Clearance), ""})
	}
	return rows
}

// ringWallRows gives the readings that a short caliper reaches on a large ring:
// from the rim to a tooth's tip and to a shank laid in a space.
func ringWallRows(d *drive.Design) [][]string {
	r, g := d.Pair.Ring, d.Ring.Gauge
	_, outer := d.Ring.Body.Contours[0].Drawn.Radii()
	rows := [][]string{{"ring, from the rim to a tooth's tip", mm(d.Ring.Outer/2 - r.TipDiameter/2), mm(outer - g.TipDiameter/2)}}
	if r.Pins == nil {
		return rows
	}
	half := func(between float64) float64 { // radius to the inside of a shank
		if r.Teeth%2 == 1 {
			c := (between + r.Pins.Diameter) / 2 / math.Cos(math.Pi/2/float64(r.Teeth))
			return c - r.Pins.Diameter/2
		}
		return between / 2
	}
	return append(rows, []string{fmt.Sprintf("ring, from the rim to a %s mm shank in a space", short(r.Pins.Diameter)),
		mm(d.Ring.Outer/2 - half(r.Finished().Pins)), mm(outer - half(g.Pins))})
}

func rolledText(b *strings.Builder, r *Rolled) {
	if r == nil {
		return
	}
	section(b, "Rolled")
	of := "The design's outlines"
	if r.Source == "files" {
		of = "The written files, read back and with their allowances taken off,"
	}
	if r.Binds {
		wrap(b, "", "", fmt.Sprintf("%s BIND when they turn: %s.", of, r.Where))
	} else {
		wrap(b, "", "", fmt.Sprintf("%s turn freely: backlash %.3f to %.3f mm (mean %.3f), least at space %d; transmission error %.2f and %.2f um; smallest gap beside the contact %.3f mm.",
			of, r.Least, r.Greatest, r.Mean, r.AtTooth, 1000*r.Forward, 1000*r.Backward, r.SmallestGap))
	}
	b.WriteString("\n")
}

// meshTable writes the figures of the pair.
func meshTable(b *strings.Builder, d *drive.Design) {
	p := d.Pair
	section(b, "Mesh")
	k := p.Backlash
	deg := 180 / math.Pi
	rows := [][]string{
		{"ratio", fmt.Sprintf("%d : %d = %s", p.Ring.Teeth, p.Pinion.Teeth, short(p.Ratio()))},
		{"centre distance", distance(p)},
		{"working pressure angle", fmt.Sprintf("%.3f deg", p.WorkingPressureAngle*deg)},
		{"usable contact ratio", fmt.Sprintf("%.3f", p.ContactRatio)},
		{"backlash, at the working circle", fmt.Sprintf("%.3f mm (%s)", k.Circumferential, k.Source)},
		{"backlash, pinion held, at the ring", fmt.Sprintf("%.3f deg", k.AngleRing*deg)},
		{"backlash, ring held, at the pinion", fmt.Sprintf("%.3f deg", k.AnglePinion*deg)},
		{"closing by radial movement", fmt.Sprintf("%.3f mm away from the ring's centre", k.Radial)},
	}
	rows = append(rows, marginRows(p)...)
	rows = append(rows,
		[]string{"clearance, pinion's tip", fmt.Sprintf("%.3f mm", p.TipClearancePinion)},
		[]string{"clearance, ring's tip", fmt.Sprintf("%.3f mm", p.TipClearanceRing)})
	leftTable(b, rows)
}

// distance writes the centre distance with its spread.
func distance(p *gear.Pair) string {
	if p.Wish.Spread == 0 {
		return fmt.Sprintf("%.3f mm", p.CentreDistance)
	}
	return fmt.Sprintf("%.3f mm, give or take %s", p.CentreDistance, short(p.Wish.Spread))
}

func marginRows(p *gear.Pair) [][]string {
	row := func(name string, m gear.Margin) []string {
		if !m.Applies {
			return []string{name, "never near"}
		}
		if p.Wish.Spread == 0 {
			return []string{name, fmt.Sprintf("%.3f mm", m.Nominal)}
		}
		return []string{name, fmt.Sprintf("%.3f mm, at the spread's worse end %.3f mm", m.Nominal, m.AtSpread)}
	}
	i := p.Interference
	return [][]string{
		row("margin, ring's tip on pinion's root", i.RingTip), row("margin, pinion's tip on ring's root", i.PinionTip),
		row("margin, tip on tip", i.TipOnTip), row("margin, pushing the pinion in", i.Radial),
	}
}

// leftTable writes two columns, both flush left.
func leftTable(b *strings.Builder, rows [][]string) {
	w := 0
	for _, r := range rows {
		w = max(w, len([]rune(r[0])))
	}
	for _, r := range rows {
		wrap(b, "  "+r[0]+strings.Repeat(" ", w-len([]rune(r[0]))+3), strings.Repeat(" ", w+5), r[1])
	}
	b.WriteString("\n")
}

// memberTable writes both members' figures as designed.
func memberTable(b *strings.Builder, d *drive.Design) {
	section(b, "Teeth as designed (mm)")
	p, r := d.Pair.Pinion.Member, d.Pair.Ring.Member
	rows := [][]string{{"", "pinion", "ring"}}
	add := func(name string, f func(gear.Member) float64) {
		rows = append(rows, []string{name, mm(f(p)), mm(f(r))})
	}
	rows = append(rows, []string{"teeth", fmt.Sprint(p.Teeth), fmt.Sprint(r.Teeth)})
	add("module", func(m gear.Member) float64 { return m.Module })
	add("profile shift coefficient", func(m gear.Member) float64 { return m.Shift })
	add("reference diameter", func(m gear.Member) float64 { return m.ReferenceDiameter })
	add("base diameter", func(m gear.Member) float64 { return m.BaseDiameter })
	add("working diameter", func(m gear.Member) float64 { return m.WorkingDiameter })
	add("tip diameter", func(m gear.Member) float64 { return m.TipDiameter })
	add("root diameter", func(m gear.Member) float64 { return m.RootDiameter })
	add("form diameter", func(m gear.Member) float64 { return m.FormDiameter })
	add("active diameter", func(m gear.Member) float64 { return m.ActiveDiameter })
	add("tooth thickness", func(m gear.Member) float64 { return m.ToothThickness })
	add("space width", func(m gear.Member) float64 { return m.SpaceWidth })
	add("tip thickness", func(m gear.Member) float64 { return m.TipThickness })
	rows = append(rows, []string{"face width", mm(d.Job.Pinion.FaceWidth), mm(d.Job.Ring.FaceWidth)})
	table(b, rows)
}

func chosenText(b *strings.Builder, d *drive.Design) {
	if len(d.Pair.Chosen) == 0 {
		return
	}
	section(b, "Chosen for you")
	rows := [][]string{}
	for _, c := range d.Pair.Chosen {
		rows = append(rows, []string{c.Key + " = " + short(c.Value), c.Reason})
	}
	leftTable(b, rows)
}

// ledgerTable writes what each step changes.
func ledgerTable(b *strings.Builder, d *drive.Design) {
	if len(d.Ledger) == 0 {
		return
	}
	section(b, "From nominal to drawn: what each step changes (mm)")
	last := ""
	var rows [][]string
	for _, l := range d.Ledger {
		if l.Part != last {
			width := "tooth thickness"
			if l.Part == "ring" {
				width = "space width"
			}
			if last != "" {
				table(b, rows)
			}
			rows = [][]string{{l.Part, width, "tip dia.", "root dia.", "bore"}}
			last = l.Part
		}
		rows = append(rows, []string{stepName(l), mm4(l.Thickness), mm4(l.Tip), mm4(l.Root), mm4(l.Bore)})
	}
	table(b, rows)
}

func mm4(v float64) string {
	if math.IsNaN(v) {
		return "-"
	}
	t := fmt.Sprintf("%.4f", v)
	if t == "-0.0000" {
		return "0.0000"
	}
	return t
}

func partsText(b *strings.Builder, d *drive.Design, bt Built) {
	section(b, "Parts and files")
	var rows [][]string
	for _, m := range members(d) {
		switch {
		case !m.member.Make:
			rows = append(rows, []string{m.name, "bought: drawn and checked, no files"})
			continue
		case !m.member.Drawn:
			continue
		}
		text := fmt.Sprintf("%.1f mm across, %.1f mm high", 2*m.member.Reach(), m.member.Body.Overall())
		if m.member.Mass > 0 {
			text += fmt.Sprintf(", %.0f g when solid", m.member.Mass)
		}
		if f := bt.filesOf(m.name); len(f) > 0 {
			text += ": " + strings.Join(f, ", ")
		}
		rows = append(rows, []string{m.name, text})
	}
	for _, f := range bt.Files {
		if f.Part == "" {
			rows = append(rows, []string{f.Name, fileMeaning(f)})
		}
	}
	leftTable(b, rows)
}

func cautions(b *strings.Builder, d *drive.Design) {
	section(b, "Before it turns")
	for _, c := range d.Cautions() {
		wrap(b, "  * ", "    ", c)
	}
}
