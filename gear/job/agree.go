package job

import (
	"ringtrack/gear/find"
)

// agree checks the values against each other. It concludes nothing from a value
// that was refused on its own.
func (r *reading) agree() {
	r.agreeModule()
	r.agreeTeeth()
	r.agreeBore()
	r.agreeBolts("pinion.bolts")
	r.agreeBolts("ring.bolts")
	r.agreeMaking()
}

// missing reports a key that must stand in the file.
func (r *reading) missing(path, format string, args ...any) {
	r.fault(find.MissingKey, path, 0, format, args...)
}

// agreeModule wants exactly one of module and diametral pitch.
func (r *reading) agreeModule() {
	const m, p = "teeth.module", "teeth.diametral_pitch"
	switch {
	case r.has(m) && r.has(p):
		second := max(r.given[m].line, r.given[p].line)
		r.fault(find.Contradicts, p, second, "module and diametral_pitch say the same thing twice; leave one out")
	case !r.has(m) && !r.has(p):
		r.missing(m, "the size of the teeth is missing: module (or diametral_pitch) under [teeth]")
	}
}

// agreeTeeth wants both numbers of teeth, more on the ring than on the pinion,
// and a backlash of at most a module.
func (r *reading) agreeTeeth() {
	for _, k := range teethKeys {
		if p := join(k.Section, k.Name); k.required && !r.has(p) {
			r.missing(p, "the %s is missing: %s under [teeth]", k.Meaning, k.Name)
		}
	}
	pinion, ring := r.given["teeth.pinion"], r.given["teeth.ring"]
	if pinion.ok && ring.ok && ring.num <= pinion.num {
		f := r.fault(find.Contradicts, "teeth.ring", ring.line, "ring = %g: the ring must have more teeth than the pinion, which has %g", ring.num, pinion.num)
		f.Found, f.Limit = find.Num(ring.num), find.Num(pinion.num+1)
		f.Change = []find.Change{{Key: "teeth.ring", Value: short(pinion.num + 1)}}
	}
	b, m := r.given["teeth.backlash"], r.module()
	if sized := r.good("teeth.module") || r.good("teeth.diametral_pitch"); sized && b.ok && b.num > m {
		f := r.fault(find.OutOfRange, "teeth.backlash", b.line, "backlash = %s: allowed is 0 to the module, %s mm", clip(b.raw), short(m))
		f.Found, f.Limit, f.Unit = find.Num(b.num), find.Num(m), "mm"
		f.Change = []find.Change{{Key: "teeth.backlash", Value: below(m)}}
	}
}

// below writes v rounded so that what is read again is not more than v.
func below(v float64) string {
	s := short(v)
	if float(s) > v {
		s = short(v * (1 - 1e-8))
	}
	return s
}

// agreeBore wants the measures that the bore's shape has, and no others.
func (r *reading) agreeBore() {
	const s = "pinion.bore"
	if !r.hasSection(s) {
		return
	}
	shape, flat := r.given[s+".shape"], r.given[s+".across_flat"]
	if !r.has(s + ".shape") {
		r.missing(s+".shape", `the bore's shape is missing: shape = "round" or "d" under [pinion.bore]`)
	}
	if !r.has(s + ".diameter") {
		r.missing(s+".diameter", "the shaft's diameter is missing: diameter under [pinion.bore]")
	}
	switch {
	case !shape.ok:
	case shape.text == "round":
		for _, name := range []string{"across_flat", "flat_angle"} {
			if p := join(s, name); r.has(p) {
				r.fault(find.Contradicts, p, r.given[p].line, "%s: a round shaft has no flat; leave it out, or set shape = \"d\"", name)
			}
		}
	case !r.has(s + ".across_flat"):
		r.missing(s+".across_flat", "the measure from the flat to the far side is missing: across_flat under [pinion.bore]")
	case flat.ok && r.good(s+".diameter"):
		r.agreeFlat(flat, r.given[s+".diameter"].num)
	}
}

// agreeFlat wants the flat of a d shaft between its middle and its rim.
func (r *reading) agreeFlat(flat entry, d float64) {
	limit := d
	switch {
	case flat.num >= d:
	case flat.num <= d/2:
		limit = d / 2
	default:
		return
	}
	f := r.fault(find.Contradicts, "pinion.bore.across_flat", flat.line,
		"across_flat = %s: of a shaft of %s mm it must be less than the diameter and more than half of it", clip(flat.raw), short(d))
	f.Found, f.Limit, f.Unit = find.Num(flat.num), find.Num(limit), "mm"
}

// agreeBolts wants a number of holes and exactly one of screw and hole.
func (r *reading) agreeBolts(s string) {
	if !r.hasSection(s) {
		return
	}
	if !r.has(s + ".count") {
		r.missing(s+".count", "the number of holes is missing: count under [%s]", s)
	}
	screw, hole := r.has(s+".screw"), r.has(s+".hole")
	switch {
	case screw && hole:
		second := max(r.given[s+".screw"].line, r.given[s+".hole"].line)
		r.fault(find.Contradicts, s+".hole", second, "screw and hole both say how large the holes are; leave one out")
	case !screw && !hole:
		r.missing(s+".screw", "the size of the holes is missing: screw (or hole) under [%s]", s)
	}
}
