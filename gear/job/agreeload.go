package job

import (
	"strings"

	"ringtrack/gear/find"
)

// agreeLoad checks motor, platform and materials.
func (r *reading) agreeLoad() {
	r.agreeMotor()
	r.agreeMotorShaft()
	r.agreePlatform()
	for _, m := range []string{"pinion", "ring"} {
		r.agreeFigures(m)
	}
}

// agreeMotor wants the figures of the motor's kind, and no others.
func (r *reading) agreeMotor() {
	const s = "motor"
	if !r.hasSection(s) {
		return
	}
	kind := r.given[s+".kind"]
	if !r.has(s + ".kind") {
		r.missing(s+".kind", `the kind of motor is missing: kind = "dc" or "stepper" under [motor]`)
	}
	if !kind.ok {
		return
	}
	for i := range motorKeys {
		k := &motorKeys[i]
		path := join(s, k.Name)
		switch {
		case k.kinds == "":
		case k.kinds != kind.text && r.has(path):
			f := r.fault(find.Contradicts, path, r.given[path].line, "%s belongs to motors of kind %s; this one is %s; leave it out", k.Name, k.kinds, kind.text)
			f.Change = []find.Change{{Key: path}}
		case k.kinds == kind.text && strings.HasPrefix(k.Default, "required") && !r.has(path):
			r.missingOfMotor(k)
		}
	}
}

// missingOfMotor says what is missing and where to find it.
func (r *reading) missingOfMotor(k *Key) {
	hint := "it stands in the motor's data sheet"
	if k.Name == "curve" {
		hint = "without a pull-out curve nobody knows what a stepper turns; the holding torque is not it"
	}
	r.missing(join("motor", k.Name), "%s (%s) is missing under [motor]: %s", k.Name, k.Meaning, hint)
}

// agreeMotorShaft wants the bore to be that of the motor's shaft.
func (r *reading) agreeMotorShaft() {
	const shaft, bore = "motor.shaft", "pinion.bore.diameter"
	if !r.good(shaft, bore) || r.entry("pinion.bore.shape").text == "coupling" {
		return
	}
	if a, b := r.given[shaft], r.given[bore]; a.num != b.num {
		f := r.fault(find.Contradicts, shaft, a.line, "the motor's shaft is %s mm thick, the pinion's bore is for one of %s mm", short(a.num), short(b.num))
		f.Change = []find.Change{{Key: shaft, Value: short(b.num)}, {Key: bore, Value: short(a.num)}}
	}
}

// agreePlatform wants what turns to be said once, and by what.
func (r *reading) agreePlatform() {
	const s = "platform"
	if !r.hasSection(s) {
		return
	}
	if !r.has(s + ".mass") {
		r.missing(s+".mass", "the mass of what turns is missing: mass under [platform]")
	}
	if !r.has(s+".diameter") && !r.has(s+".inertia") {
		r.missing(s+".diameter", "the platform's size is missing: diameter (or inertia) under [platform]")
	}
	if !r.hasSection("motor") {
		r.missing("motor.kind", "[platform] says what turns, but there is no [motor] that turns it")
	}
	for _, test := range []string{"pull", "coast_time"} {
		if r.has(s+".bearing_friction") && r.has(join(s, test)) {
			f := r.fault(find.Contradicts, join(s, test), r.given[join(s, test)].line, "bearing_friction is given and %s would give it once more; leave one out", test)
			f.Change = []find.Change{{Key: join(s, test)}}
		}
	}
	for _, p := range [][2]string{{"pull_moving", "pull"}, {"pull_radius", "pull"}, {"coast_speed", "coast_time"}, {"coast_time", "coast_speed"}} {
		if r.has(join(s, p[0])) && !r.has(join(s, p[1])) {
			r.missing(join(s, p[1]), "%s stands without %s: the test needs both", p[0], p[1])
		}
	}
	if a, b := r.given[s+".pull"], r.given[s+".pull_moving"]; a.ok && b.ok && b.num > a.num {
		r.fault(find.Contradicts, s+".pull_moving", b.line, "turning asks for more (%s N) than starting (%s N): they are probably exchanged", short(b.num), short(a.num))
	}
}

// agreeFigures refuses a modulus said twice and a softening point below the
// service temperature, and figures of a material that has no name.
func (r *reading) agreeFigures(member string) {
	own := "material." + member
	path := func(name string) string {
		if p := join(own, name); r.has(p) {
			return p
		}
		return join("material", name)
	}
	for _, k := range figureKeys {
		if p := join(own, k.Name); r.has(p) && !r.has(member+".material") {
			r.fault(find.MissingKey, member+".material", r.given[p].line, "%s is given, but not which material it replaces the figure of: material under [%s]", p, member)
			break
		}
	}
	if h, m := path("hardness"), path("modulus"); r.has(h) && r.has(m) {
		r.tell(h, find.Contradicts, r.given[h].line, "hardness gives the modulus, which is given too; leave one out")
	}
	lo, hi := path("service_temperature"), path("softening")
	if r.good(lo, hi) && r.given[lo].num >= r.given[hi].num {
		r.tell(lo, find.Contradicts, r.given[lo].line, "the service temperature is not below the softening point")
	}
}
