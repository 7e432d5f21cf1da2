package gear

import (
	"math"

	"ringtrack/gear/plane"
	"ringtrack/involute"
)

// Row is one step of the ledger: by how much the step changes the member, in
// mm. The first row holds the nominal values, the last one what was measured on
// the drawn loop; the rows between add up to their difference.
type Row struct {
	Part  string  // pinion, ring
	Step  string  // nominal, backlash, flexible, shrinkage, growth, kerf, drawn
	Given float64 // of the flexible step: the tip relief
	// Thickness is the tooth thickness (pinion) or the space width (ring): an arc
	// on the circle of diameter At.
	Thickness, Tip, Root, Bore float64
	At                         float64
}

// flank is a drawn flank in closed form: an offset of a scaled involute is an
// involute of the scaled base circle, turned.
type flank struct {
	half float64 // half angle of tooth (pinion) or space (ring) on the base circle
	base float64 // base radius
	sign float64 // +1 pinion, -1 ring: what taking material away does to half is -sign
}

func (f flank) arcAt(r float64) float64 {
	return 2 * r * (f.half - involute.Inv(involute.PressureAngle(f.base, r)))
}

// moved returns the flank moved into the material by d.
func (f flank) moved(d float64) flank {
	f.half -= f.sign * d / f.base
	return f
}

func (f flank) scaled(k float64) flank {
	f.base *= k
	return f
}

// LedgerPinion returns the pinion's ledger for a drawn outline and bore
// (diameters; NaN without a bore: the columns are NaN then).
func (p Pinion) LedgerPinion(m Making, drawn plane.Loop, bore, drawnBore float64) []Row {
	t := p.Tooth
	f := flank{half: t.HalfAngle(t.BaseRadius) + t.Spec.Thinning/p.ReferenceDiameter, base: t.BaseRadius, sign: 1}
	root, tip := drawn.Radii()
	return ledger("pinion", f, p.Member, m, drawn, bore, drawnBore, 2*tip, 2*root, t.FormRadius, t.TipRadius)
}

// LedgerRing returns the ring's ledger; its bore column is NaN.
func (r Ring) LedgerRing(m Making, drawn plane.Loop) []Row {
	s := r.Space
	f := flank{half: s.HalfAngle(s.BaseRadius) - s.Spec.Widening/r.ReferenceDiameter, base: s.BaseRadius, sign: -1}
	tip, root := drawn.Radii()
	return ledger("ring", f, r.Member, m, drawn, math.NaN(), math.NaN(), 2*tip, 2*root, s.FormRadius, s.TipRadius)
}

func ledger(part string, f flank, g Member, m Making, drawn plane.Loop, bore, drawnBore, tip, root, form, end float64) []Row {
	if g.Flexible != nil && g.Flexible.From > 0 {
		end = g.Flexible.From // beyond it the flank is no involute
	}
	at := measuringCircle(g.ReferenceDiameter/2, form, end, m)
	k := 1 / (1 - m.Shrinkage)
	rows := []Row{{Step: "nominal", Thickness: f.arcAt(at), Tip: g.TipDiameter, Root: g.RootDiameter, Bore: bore}}
	add := func(step string, given float64, next flank, tip, root, bore float64) {
		rows = append(rows, Row{Step: step, Given: given, Thickness: next.arcAt(at) - f.arcAt(at), Tip: tip, Root: root, Bore: bore})
		f = next
	}
	thinned := f
	thinned.half -= f.sign * g.Thinning / g.ReferenceDiameter
	add("backlash", g.Thinning, thinned, 0, 0, 0*bore)
	if x := g.Flexible; x != nil {
		thicker := f
		thicker.half += f.sign * x.Thicker / g.ReferenceDiameter
		add("flexible", x.Relief, thicker, 0, 0, 0*bore)
	}
	add("shrinkage", m.Shrinkage, f.scaled(k), g.TipDiameter*(k-1), g.RootDiameter*(k-1), bore*(k-1))
	s := f.sign
	add("growth", m.Growth, f.moved(m.Growth), -2*s*m.Growth, -2*s*m.Growth, m.HoleShrink+0*bore)
	add("kerf", m.Kerf, f.moved(-m.Kerf/2), s*m.Kerf, s*m.Kerf, -m.Kerf+0*bore)
	last := Row{Step: "drawn", Thickness: arcAt(drawn, at), Tip: tip, Root: root, Bore: drawnBore}
	trimmed(rows, last, m)
	rows = append(rows, last)
	for i := range rows {
		rows[i].Part, rows[i].At = part, 2*at
	}
	return rows
}

// trimmed books what trimming took from tip and root (a fillet that vanished, a
// tip that came to a point) on the step that moved the outline.
func trimmed(rows []Row, last Row, m Making) {
	var tip, root float64
	for _, r := range rows {
		tip, root = tip+r.Tip, root+r.Root
	}
	step := &rows[len(rows)-2] // growth
	if m.Kerf > 0 {
		step = &rows[len(rows)-1]
	}
	const rounding = 1e-9
	if d := last.Tip - tip; math.Abs(d) > rounding {
		step.Tip += d
	}
	if d := last.Root - root; math.Abs(d) > rounding {
		step.Root += d
	}
}

// measuringCircle returns the radius at which thickness is booked: the
// reference circle where both the nominal and the drawn flanks surely reach it,
// otherwise the middle of what they share, or of the drawn flanks where
// shrinkage parts them.
func measuringCircle(reference, form, tip float64, m Making) float64 {
	lo, hi := math.Min(form, tip), math.Max(form, tip)
	k := 1 / (1 - m.Shrinkage)
	room := math.Abs(m.Growth) + m.Kerf/2
	from, to := math.Max(lo, lo*k)+room, math.Min(hi, hi*k)-room
	switch {
	case reference > from && reference < to:
		return reference
	case from < to:
		return (from + to) / 2
	}
	return (lo + hi) / 2 * k
}
