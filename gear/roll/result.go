package roll

import "math"

// Amount is one turn of the ring against the pinion, in four measures.
type Amount struct {
	Ring   float64 // radians of the ring
	Pinion float64 // radians of the pinion, by the ratio of tooth counts
	Arc    float64 // mm at the working circles
	Action float64 // mm along the line of action; 0 unless BaseRing was passed
}

// Result is what a rolling found. Positions lists the positions in the order of
// the pinion's angle; Tight and Loose are one pitch each, in fine steps, about
// the tightest and the loosest of them, and are nil where Positions is as fine.
type Result struct {
	PinionTeeth, RingTeeth int
	Span                   Span // as rolled: never Auto
	Whole                  bool // nothing else can happen beyond the span
	WorkingPinion          float64
	WorkingRing            float64 // radii of the working circles, mm
	Positions              []Interval
	Tight, Loose           []Interval
	Open                   int // positions at which one side met no tooth; they are left out of the figures
	Backlash               Backlash
	Forward                Drive // the pinion drives counter-clockwise: the ring lies at Lo
	Backward               Drive // clockwise, at Hi
	Gap                    Gap
	Binding                *Binding // nil: it turns freely
}

// Backlash is how far the ring can turn, over all positions. The mean is that of
// the evenly spread ones.
type Backlash struct {
	Least, Mean, Greatest Amount
	LeastAt, GreatestAt   Interval
}

// Drive is how exactly the ring follows in one direction.
type Drive struct {
	Offset      Amount // mean of the ring's angle less the exact ratio's
	Error       Amount // transmission error, peak to peak
	Lead, Lag   Amount // greatest deviation from the mean, counter-clockwise and clockwise; both at least 0
	LeadAt      Interval
	LagAt       Interval
	Zone        Zone    // radii at which flanks touch, within Options.Touch
	First, Last Contact // of pinion tooth 0 alone, where flanks touch smoothly; not valid between polygons
}

// Binding is the worst place where the teeth overlap however the ring is turned.
type Binding struct {
	At    Interval
	By    Amount  // overlap of the flanks; 0 where a tip alone runs into a root
	Share float64 // part of the evenly spread positions that bind
}

// amount converts a ring angle.
func (e *Engine) amount(ring float64) Amount {
	return Amount{ring, ring / e.ratio, ring * e.working, ring * e.opt.BaseRing}
}

// tally is the figures in the making.
type tally struct {
	e                 *Engine
	least, greatest   *Interval
	jam               *Interval
	lead, lag         [2]*Interval
	sumWidth          float64
	sum               [2]float64
	counted, bound, n int
	zone              [2]Zone
}

// side returns the deviation from the exact ratio at one end of the play.
func (v *Interval) side(i int) float64 {
	if i == 0 {
		return v.Lo - v.Exact
	}
	return v.Hi - v.Exact
}

// open reports whether one side met no tooth.
func (v *Interval) open() bool { return math.IsInf(v.Lo, 0) || math.IsInf(v.Hi, 0) }

// binds reports whether no ring angle is free.
func (v *Interval) binds() bool { return v.Jam != nil || v.Lo > v.Hi }

// add takes one position in. even says that it belongs to the evenly spread
// ones, of which means are taken.
func (t *tally) add(v *Interval, even bool) {
	if even {
		t.n++
		if v.binds() {
			t.bound++
		}
	}
	if v.Jam != nil && (t.jam == nil || v.Jam.Depth > t.jam.Jam.Depth) {
		t.jam = v
	}
	if v.open() {
		return
	}
	if even {
		t.counted++
		t.sumWidth += v.Width()
	}
	if t.least == nil || v.Width() < t.least.Width() {
		t.least = v
	}
	if t.greatest == nil || v.Width() > t.greatest.Width() {
		t.greatest = v
	}
	for i := range t.lead {
		if even {
			t.sum[i] += v.side(i)
		}
		if t.lead[i] == nil || v.side(i) > t.lead[i].side(i) {
			t.lead[i] = v
		}
		if t.lag[i] == nil || v.side(i) < t.lag[i].side(i) {
			t.lag[i] = v
		}
		t.zone[i].join(v.Touching[i])
	}
}

// fill writes the figures into the result.
func (t *tally) fill(r *Result) {
	e, n := t.e, float64(t.counted)
	r.Open = t.n - t.counted
	r.Backlash = Backlash{
		Least: e.amount(t.least.Width()), Mean: e.amount(t.sumWidth / n), Greatest: e.amount(t.greatest.Width()),
		LeastAt: *t.least, GreatestAt: *t.greatest,
	}
	for i, d := range []*Drive{&r.Forward, &r.Backward} {
		mean, lead, lag := t.sum[i]/n, t.lead[i].side(i), t.lag[i].side(i)
		d.Offset, d.Error = e.amount(mean), e.amount(lead-lag)
		d.Lead, d.Lag = e.amount(math.Max(0, lead-mean)), e.amount(math.Max(0, mean-lag))
		d.LeadAt, d.LagAt, d.Zone = *t.lead[i], *t.lag[i], t.zone[i]
	}
	switch {
	case t.least.Lo > t.least.Hi:
		r.Binding = &Binding{At: *t.least, By: e.amount(-t.least.Width())}
	case t.jam != nil:
		r.Binding = &Binding{At: *t.jam}
	default:
		return
	}
	if t.jam != nil && r.Binding.At.Jam == nil {
		r.Binding.At.Jam = t.jam.Jam
	}
	r.Binding.Share = float64(t.bound) / float64(t.n)
}
