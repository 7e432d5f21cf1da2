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
	r.agreeCoupling()
	r.agreeHub()
	r.agreeSetScrews()
	r.agreeStep()
	r.agreeBolts("pinion.bolts")
	r.agreeBolts("ring.bolts")
	r.agreeSheet()
	r.agreeMaking()
	r.agreeBudget()
	r.agreeLoad()
	r.agreeCutting()
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
