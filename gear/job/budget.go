package job

import (
	"math"

	"ringtrack/gear/find"
)

// Play is what the budget of backlash reckons with beside making: how far
// bearing, parts, axes and climate may be off. Job.Given tells what is a guess.
type Play struct {
	Bearing      float64    // radial, in total; half of it acts either way
	RingRunout   float64    // as a dial shows it, twice the eccentricity
	RunoutAt     Setting    // place on the ring that stands furthest out
	RingOvality  float64    // largest less smallest radius
	PinionRunout float64    // as a dial shows it
	JointStep    float64    // either way; 0 without joints
	Tilt         float64    // of the pinion's axis
	Temperature  [2]float64 // degC, in use
	Base         string     // material of the plate between the axes
}

// Defaults of the budget, mm: common practice for a bought turntable bearing and
// a ring centred on it by hand.
const (
	guessedBearing = 0.5
	guessedRunout  = 0.2
)

// usualSpread is the default spread of flanks by the way of making, mm either
// way: common practice.
func usualSpread(kind string) float64 {
	switch kind {
	case "printed":
		return 0.05
	case "cut":
		return 0.03
	}
	return 0
}

// play fills in what the budget reckons with. j: with members and bore.
func (r *reading) play(j *Job) Play {
	const s = "mounting."
	bearing, runout := guessedBearing, guessedRunout
	if j.Pinion.Making.Kind == "exact" && j.Ring.Making.Kind == "exact" {
		bearing, runout = 0, 0
	}
	p := Play{
		Bearing:      r.num(s+"bearing_play", bearing),
		RingRunout:   r.num(s+"ring_runout", runout),
		RunoutAt:     r.setting(s + "ring_runout_at"),
		RingOvality:  r.num(s+"ring_ovality", 0),
		PinionRunout: r.num(s+"pinion_runout", j.shaftPlay()),
		JointStep:    r.num(s+"joint_step", 0),
		Tilt:         r.num(s+"tilt", j.shaftTilt()),
		Base:         r.entry(s + "base").text,
	}
	t := r.entry(s + "temperature").box
	p.Temperature = [2]float64{t[0], t[1]}
	return p
}

// shaftPlay returns how far a shaft can stand off the middle of the bore, from
// side to side.
func (j *Job) shaftPlay() float64 {
	if j.Pinion.Bore == nil {
		return 0
	}
	return math.Max(0, j.Pinion.Bore.Clearance)
}

// shaftTilt returns the angle at which a shaft can lie across the bore, up to the
// next 0.01 degree; 0 without a bore.
func (j *Job) shaftTilt() float64 {
	length := j.Pinion.FaceWidth
	if h := j.Pinion.Hub; h != nil {
		length += h.Length
	}
	if b := j.Pinion.Bore; b != nil && b.Depth > 0 {
		length = math.Min(length, b.Depth)
	}
	play := j.shaftPlay()
	if !(length > 0) || play == 0 {
		return 0
	}
	const perDegree = 100
	steps := math.Ceil(math.Atan(play/length)*180/math.Pi*perDegree - 1e-9)
	return Angle.inside(math.Min(steps/perDegree, 15))
}

// spread fills in the spread of a member's flanks.
func (r *reading) spread(member, kind string) float64 {
	if v, given := r.allowance(member, kind, "spread"); given {
		return v
	}
	return usualSpread(kind)
}

// agreeBudget wants play that does not contradict itself, and joints where a step
// is given.
func (r *reading) agreeBudget() {
	least, b, m := r.given["teeth.least_play"], r.given["teeth.backlash"], r.module()
	sized := r.good("teeth.module") || r.good("teeth.diametral_pitch")
	switch {
	case !least.ok:
	case sized && least.num > m:
		f := r.fault(find.OutOfRange, "teeth.least_play", least.line, "least_play = %s: allowed is 0 to the module, %s mm", clip(least.raw), short(m))
		f.Found, f.Limit, f.Unit = find.Num(least.num), find.Num(m), "mm"
		f.Change = []find.Change{{Key: "teeth.least_play", Value: below(m)}}
	case b.ok && !b.auto && least.num > b.num:
		f := r.fault(find.Contradicts, "teeth.least_play", least.line,
			"the play contradicts itself: %s mm of backlash cannot keep %s mm", short(b.num), short(least.num))
		f.Found, f.Limit, f.Unit = find.Num(least.num), find.Num(b.num), "mm"
		f.Change = []find.Change{{Key: "teeth.backlash", Value: `"auto"`}, {Key: "teeth.least_play", Value: below(b.num)}}
	}
	if step := r.given["mounting.joint_step"]; step.ok && step.num > 0 {
		f := r.fault(find.Contradicts, "mounting.joint_step", step.line, "joint_step = %s: the ring is in one piece and has no joints; leave it out", clip(step.raw))
		f.Change = []find.Change{{Key: "mounting.joint_step", Value: "0"}}
	}
}

// span takes two numbers, the lower one first.
func (d *decoder) span() {
	it := d.item
	if it.kind != kindList || it.size != 2 {
		d.wrong("two numbers in brackets, the lower one first, "+d.key.preset, "")
		return
	}
	for i, v := range it.list {
		n, ok := d.measure(v)
		if !ok || !d.within(n) {
			return
		}
		d.entry.box[i] = d.key.dim().inside(n)
	}
	if d.entry.box[0] > d.entry.box[1] {
		d.say(find.Contradicts, "["+short(d.entry.box[1])+", "+short(d.entry.box[0])+"]", "the lower one, %s, is above the higher one, %s",
			short(d.entry.box[0]), short(d.entry.box[1]))
		return
	}
	d.entry.ok = true
}
