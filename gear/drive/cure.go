package drive

import (
	"math"
	"strconv"

	"ringtrack/gear/find"
	"ringtrack/gear/job"
)

// mostCures is how many cures a finding carries at most.
const mostCures = 3

// Check works the job out and gives every finding the cures that can be found:
// each, set alone, removes the finding and adds no fault.
func Check(j *job.Job) *Design {
	d := Resolve(j)
	for i := range d.Findings {
		f := &d.Findings[i]
		if f.Code == find.Unmeasured {
			f.Change = []find.Change{{Key: f.About, Value: d.measuredValue(*f)}}
			continue
		}
		s := search{design: d, finding: *f, faults: find.Count(d.Findings, find.Fault)}
		f.Change = s.cures()
	}
	return d
}

// measuredValue is what giving the default as one's own measurement looks like.
func (d *Design) measuredValue(f find.Finding) string {
	v := strconv.FormatFloat(*f.Found, 'g', 4, 64)
	if f.Unit == "%" {
		return strconv.Quote(v + " %")
	}
	return v
}

// search looks for the cures of one finding.
type search struct {
	design  *Design
	finding find.Finding
	faults  int
}

// cures tries the finding's candidates in their order.
func (s search) cures() []find.Change {
	var out []find.Change
	for _, c := range s.design.candidates(s.finding) {
		if v, ok := s.try(c); ok {
			out = append(out, find.Change{Key: c.key, Value: v})
		}
		if len(out) == mostCures {
			break
		}
	}
	return out
}

// try returns the value nearest to the present one that cures.
func (s search) try(c candidate) (string, bool) {
	switch {
	case c.word != "":
		return c.word, s.heals(c.key, c.word)
	case c.step == 1:
		return s.tryCounts(c)
	}
	return s.tryNumbers(c)
}

// tryCounts walks whole numbers from the present one to the bound.
func (s search) tryCounts(c candidate) (string, bool) {
	dir := math.Copysign(1, c.bound-c.from)
	for i, v := 0, c.from+dir; i < 60 && (c.bound-v)*dir >= 0; i, v = i+1, v+dir {
		if t := strconv.Itoa(int(v)); s.heals(c.key, t) {
			return t, true
		}
	}
	return "", false
}

// tryNumbers looks for the first value that cures on a grid that is fine near
// the present value and coarse near the bound, then halves toward the limit and
// rounds away from the present value.
func (s search) tryNumbers(c candidate) (string, bool) {
	const n = 20
	at := func(f float64) float64 { return c.from + (c.bound-c.from)*f*f }
	good := -1.0
	var bad float64
	for i := 1; i <= n; i++ {
		f := float64(i) / n
		if _, ok := s.rounded(c, at(f)); ok {
			good = f
			break
		}
		bad = f
	}
	if good < 0 {
		return "", false
	}
	for range 14 {
		mid := (good + bad) / 2
		if s.heals(c.key, plain(at(mid))) {
			good = mid
		} else {
			bad = mid
		}
	}
	return s.rounded(c, at(good))
}

// rounded rounds v to the candidate's step, away from the present value and not
// past the bound, and one or two steps further if that is what it takes.
func (s search) rounded(c candidate, v float64) (string, bool) {
	dir := math.Copysign(1, c.bound-c.from)
	k := v / c.step
	if dir > 0 {
		k = math.Ceil(k - 1e-9)
	} else {
		k = math.Floor(k + 1e-9)
	}
	for i := range 3 {
		w := (k + dir*float64(i)) * c.step
		if (c.bound-w)*dir < -1e-12 {
			return "", false
		}
		if t := plain(roundTo(w, c.step)); s.heals(c.key, t) {
			return t, true
		}
	}
	return "", false
}

// roundTo takes off the noise of multiplying a step.
func roundTo(v, step float64) float64 {
	digits := int(math.Max(0, math.Ceil(-math.Log10(step)-1e-9)))
	w, err := strconv.ParseFloat(strconv.FormatFloat(v, 'f', digits, 64), 64)
	if err != nil {
		return v
	}
	return w
}

func plain(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

// heals reports whether the job with one key set has no such finding any more
// and no more faults than it should have left.
func (s search) heals(key, value string) bool {
	if value == remove {
		return s.healthy(s.design.Job.Without(key))
	}
	return s.healthy(s.design.Job.With(key, value))
}

func (s search) healthy(j *job.Job, found []find.Finding) bool {
	if j == nil {
		return false
	}
	d := teeth(j)
	if d.Pair == nil {
		return false
	}
	left := s.faults
	if s.finding.Level == find.Fault {
		left--
	}
	if find.Count(d.Findings, find.Fault) > left || s.stands(d) {
		return false
	}
	d.draw() // the dearer half only where the first half is clean
	return find.Count(d.Findings, find.Fault) <= left && !s.stands(d)
}

// stands reports whether the design still has the finding.
func (s search) stands(d *Design) bool {
	for _, f := range d.Findings {
		if f.Code == s.finding.Code && f.About == s.finding.About {
			return true
		}
	}
	return false
}
