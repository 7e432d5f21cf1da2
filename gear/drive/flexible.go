package drive

import (
	"errors"
	"math"

	"ringtrack/gear"
	"ringtrack/gear/find"
	"ringtrack/gear/job"
	"ringtrack/gear/load"
	"ringtrack/involute"
)

// mostGiven is the part of the designed backlash that the tool gives up by
// itself, at most: its own rule.
const mostGiven = 0.5

// ease changes flexible teeth as the job asks, or, where it leaves that open, as
// the load does: backlash given back, tips taken back.
func (d *Design) ease() {
	j := d.Job
	auto := d.Load != nil && d.Load.Analysis != nil && (d.Load.Pinion.Flexible || d.Load.Ring.Flexible)
	back := j.Teeth.FlexibleAllowance.Value
	var tapers [2]load.Taper
	tapers[0].Amount, tapers[1].Amount = j.Pinion.TipRelief.Value, j.Ring.TipRelief.Value
	tapers[0].Length, tapers[1].Length = d.taperLength(), d.taperLength()
	if auto {
		a := d.Load.Analysis
		if !j.Teeth.FlexibleAllowance.Given {
			back = d.allowance(a)
		}
		d.autoTaper(&tapers[0], "pinion", a.Relief.Leaving, a.Relief.LeavingLength, j.Pinion.Make && !j.Pinion.TipRelief.Given)
		d.autoTaper(&tapers[1], "ring", a.Relief.Entry, a.Relief.EntryLength, j.Ring.Make && !j.Ring.TipRelief.Given)
		d.checkRelief(a.Relief)
	}
	if back == 0 && tapers[0].Amount == 0 && tapers[1].Amount == 0 {
		return
	}
	d.easeTeeth(back, tapers)
}

// taperLength returns the length of a given relief, mm along the line of action:
// half of what lies outside the stretch of single contact.
func (d *Design) taperLength() float64 {
	p := d.Pair
	pitch := math.Pi * p.Pinion.BaseDiameter / float64(p.Pinion.Teeth)
	path := math.Min(p.Path.PinionTip, p.Path.RingForm) - math.Max(p.Path.RingTip, p.Path.PinionForm)
	return math.Max(0, path-pitch) / 2
}

// allowance returns the backlash, mm, that yielding flanks make up for.
func (d *Design) allowance(a *load.Analysis) float64 {
	v := math.Min(a.Allowance.Circumferential, mostGiven*d.Pair.Backlash.Circumferential)
	d.chose("teeth.flexible_allowance", v, "a tenth of the working force squeezes so much of the flanks away")
	return v
}

// chose records what the tool chose.
func (d *Design) chose(key string, v float64, reason string) {
	if v > 0 {
		d.Pair.Chosen = append(d.Pair.Chosen, gear.Chosen{Key: key, Value: v, Reason: reason})
	}
}

// reliefOfLength is the most that a tip is taken back by itself, over the
// relief's length: beyond it the flank is no involute any more. The tool's own.
const reliefOfLength = 0.15

// autoTaper takes the relief that the load asks for, as far as the flank holds it.
func (d *Design) autoTaper(t *load.Taper, who string, amount, length float64, open bool) {
	if !open || amount == 0 || length == 0 {
		return
	}
	*t = load.Taper{Amount: math.Min(amount, reliefOfLength*length), Length: length}
	d.chose(who+".tip_relief", t.Amount, "the teeth in contact bend by about so much under the working torque before the next one joins")
}

// checkRelief says when the teeth bend too far for any relief.
func (d *Design) checkRelief(r load.Relief) {
	if r.Enough {
		return
	}
	d.add(find.Caution, find.ToothBends, "pinion.tip_relief", math.Max(r.EntryYield, r.LeavingYield), math.NaN(), "mm",
		"under the working torque the teeth bend by %.3f mm, too far for a tip relief that keeps the next tooth from stubbing: expect noise and wear", math.Max(r.EntryYield, r.LeavingYield))
}

// easeTeeth gives circumferential backlash back, to the pinion's teeth as far as
// they were thinned and then to the ring's, and takes the tips back.
func (d *Design) easeTeeth(back float64, tapers [2]load.Taper) {
	p := d.Pair
	arc := back * math.Cos(p.WorkingPressureAngle) / math.Cos(p.Pinion.PressureAngle)
	first := math.Min(arc, math.Max(0, p.Pinion.Thinning))
	rest := arc - first
	if most := p.Pinion.Thinning + p.Ring.Thinning; arc > most+1e-12 {
		d.add(find.Fault, find.OutOfRange, "teeth.flexible_allowance", back, back*most/arc, "mm",
			"more backlash is given up (%.3f mm) than was made by thinning the teeth (%.3f mm)", back, back*most/arc)
		return
	}
	var err error
	if p.Pinion.Flexible, err = load.EasePinion(p.Pinion, first, tapers[0]); err != nil {
		d.cannotEase("pinion", err)
	}
	if p.Ring.Flexible, err = load.EaseRing(p.Ring, math.Max(0, rest), tapers[1]); err != nil {
		d.cannotEase("ring", err)
	}
	for _, m := range []struct {
		who string
		x   *gear.Flexible
	}{{"pinion", p.Pinion.Flexible}, {"ring", p.Ring.Flexible}} {
		if m.x != nil && m.x.TipThickness < d.Job.Teeth.LeastTip {
			d.add(find.Caution, find.ThinTip, m.who+".tip_relief", m.x.TipThickness, d.Job.Teeth.LeastTip, "mm",
				"the relief leaves the %s's tips %.3f mm wide; at least %.3f mm is wanted", m.who, m.x.TipThickness, d.Job.Teeth.LeastTip)
		}
	}
}

// cannotEase reports a relief that the teeth cannot hold.
func (d *Design) cannotEase(who string, err error) {
	found, limit := math.NaN(), math.NaN()
	text := err.Error()
	var bad *load.InputError
	var none *involute.DomainError
	switch {
	case errors.As(err, &bad):
		found, text = bad.Value, "the "+who+"'s teeth cannot be relieved so: "+bad.Error()
	case errors.As(err, &none):
		found = none.Value
	}
	d.add(find.Fault, find.PointedTip, who+".tip_relief", found, limit, "mm", "%s", text)
}

// eased returns what a job itself gives back to flexible teeth and takes off
// their tips.
func eased(j *job.Job) [3]job.Setting {
	return [3]job.Setting{j.Teeth.FlexibleAllowance, j.Pinion.TipRelief, j.Ring.TipRelief}
}
