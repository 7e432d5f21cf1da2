package drive

import (
	"math"
	"slices"
	"strconv"
	"sync"

	"ringtrack/gear/find"
	"ringtrack/gear/job"
)

// mostCures is how many cures a finding carries at most.
const mostCures = 3

// Check works the job out and gives every finding the cures that can be found:
// each, made alone, removes the finding and adds no fault, nor, when it is not a
// fault itself, a caution. Where a fault leaves no teeth to look at, its cure may
// bring to light what it hid.
func Check(j *job.Job) *Design {
	d := Resolve(j)
	t := newTrials(d)
	var wg sync.WaitGroup
	for i := range d.Findings {
		f := &d.Findings[i]
		switch f.Code {
		case find.Unmeasured:
			f.Change = []find.Change{{Key: f.About, Value: d.measuredValue(*f)}}
			continue
		case find.Guessed:
			f.Change = []find.Change{{Key: f.About, Value: d.guessedValue(*f)}}
			continue
		}
		s := search{trials: t, finding: *f, deep: !stands(t.before, *f)}
		wg.Go(func() { f.Change = s.cures() })
	}
	wg.Wait()
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
	trials  *trials
	finding find.Finding
	deep    bool // the finding shows only on the drawn outlines
	reveal  reveal
}

// reveal is what a cure may bring to light besides removing its finding.
type reveal int

const (
	nothing  reveal = iota // no fault
	further                // faults of teeth or of a budget that could not be looked at before
	anything               // faults before there are teeth, too
)

// cures tries the finding's candidates in their order: near the present values
// first; for a fault that nothing near cures, as far as the keys go, and then
// every key there is.
func (s search) cures() []find.Change {
	d := s.trials.design
	likely := d.list(d.moves(s.finding)...)
	if out := s.among(likely, near); len(out) > 0 || s.finding.Level != find.Fault || d.aboutPlay(s.finding) {
		return out
	}
	for _, s.reveal = range []reveal{nothing, further, anything} {
		if s.reveal > nothing && d.sound || s.reveal > further && d.Pair != nil {
			break
		}
		for _, list := range [][]candidate{likely, d.list(everyMove()...)} {
			for _, r := range []reach{near, far} {
				if out := s.among(list, r); len(out) > 0 {
					return out
				}
			}
		}
	}
	return nil
}

// among returns the cures among the candidates, at most mostCures.
func (s search) among(list []candidate, r reach) []find.Change {
	var out []find.Change
	for _, c := range list {
		v, ok := s.try(c, r)
		if cure := (find.Change{Key: c.key, Value: v}); ok && !slices.Contains(out, cure) {
			out = append(out, cure)
		}
		if len(out) == s.most() {
			break
		}
	}
	return out
}

// try returns the value that cures, of a number the one nearest to the present.
// Outlines are drawn, which takes long, only for a value that the teeth admit.
func (s search) try(c candidate, r reach) (string, bool) {
	if !c.number {
		return c.word, s.heals(c.key, c.word, true)
	}
	v, ok := s.nearest(c, r, s.deep)
	if !ok || s.deep || s.heals(c.key, v, true) {
		return v, ok
	}
	return s.nearest(c, r, true)
}

// nearest looks for the first multiple of the candidate's step that cures, at
// points that lie close together near the present value and wide apart near the
// bound, and then halves the last stride.
func (s search) nearest(c candidate, r reach, deep bool) (string, bool) {
	const strides = 14
	n := c.steps(r)
	heals := func(i int) bool { return s.heals(c.key, c.at(i), deep) }
	bad, good := 0, 0
	for i := 1; i <= strides && good == 0; i++ {
		f := float64(i) / strides
		k := int(math.Ceil(float64(n) * f * f * f))
		switch {
		case k <= bad || k > n:
		case heals(k):
			good = k
		default:
			bad = k
		}
	}
	if good == 0 {
		return "", false
	}
	for good-bad > 1 {
		if mid := (good + bad) / 2; heals(mid) {
			good = mid
		} else {
			bad = mid
		}
	}
	return c.at(good), true
}

// heals reports whether the job with one key changed has no such finding any
// more and nothing as bad that it did not have.
func (s search) heals(key, value string, deep bool) bool {
	o := s.trials.of(find.Change{Key: key, Value: value}, deep)
	if !o.read || stands(o.found, s.finding) {
		return false
	}
	if s.reveal > nothing && s.trials.design.Pair == nil {
		return o.teeth || s.reveal == anything
	}
	if !s.clean(o.found) {
		return false
	}
	spent := o.spent()
	return !stands(spent, s.finding) && (s.reveal > nothing || s.clean(spent))
}

// clean reports whether nothing was found that is as bad as the finding and was
// not there before: a cure trades no fault for another, and no caution for a
// caution.
func (s search) clean(found []find.Finding) bool {
	worst := min(s.finding.Level, find.Caution)
	for _, f := range found {
		if f.Level <= worst && !stands(upTo(f.Level, s.trials.stood), f) {
			return false
		}
	}
	return true
}

// stands reports whether the finding, whatever its level, is among those found.
func stands(found []find.Finding, f find.Finding) bool {
	for _, g := range found {
		if g.Code == f.Code && g.About == f.About {
			return true
		}
	}
	return false
}
