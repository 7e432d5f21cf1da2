package drive

import (
	"slices"
	"sync"

	"ringtrack/gear"
	"ringtrack/gear/find"
	"ringtrack/gear/job"
)

// trials works out variants of one design and remembers what came of them, so
// that searches for cures, which run side by side, share them.
type trials struct {
	design *Design
	pair   solved         // of the design as it is
	before []find.Finding // of the design as it is, without drawing
	stood  []find.Finding // of the design as it is

	mu   sync.Mutex
	done map[trial]outcome
}

// trial is one change, looked at with or without drawing.
type trial struct {
	find.Change
	deep bool
}

// outcome is what a job with one key changed comes to.
type outcome struct {
	read  bool // the job can be read
	teeth bool // there are teeth
	found []find.Finding
}

// solved is a wish with the pair that came of it.
type solved struct {
	wish  gear.Wish
	pair  *gear.Pair
	found []find.Finding
}

func solve(w gear.Wish) solved {
	p, found := gear.Resolve(w)
	return solved{w, p, found}
}

func newTrials(d *Design) *trials {
	t := &trials{design: d, pair: solve(wish(d.Job)), done: map[trial]outcome{}}
	t.before = teeth(d.Job, t.pair).Findings
	t.stood = slices.Clone(d.Findings)
	return t
}

// upTo returns the findings that are as bad as the level.
func upTo(l find.Level, found []find.Finding) []find.Finding {
	var out []find.Finding
	for _, f := range found {
		if f.Level <= l {
			out = append(out, f)
		}
	}
	return out
}

// Apply makes a change in a job: it sets the key, or takes it out when the
// change has no value. The job is nil if that cannot be read.
func Apply(j *job.Job, c find.Change) (*job.Job, []find.Finding) {
	if c.Value == "" {
		return j.Without(c.Key)
	}
	return j.With(c.Key, c.Value)
}

// of returns what a change comes to.
func (t *trials) of(c find.Change, deep bool) outcome {
	key := trial{c, deep}
	t.mu.Lock()
	o, ok := t.done[key]
	t.mu.Unlock()
	if ok {
		return o
	}
	o = t.run(c, deep)
	t.mu.Lock()
	t.done[key] = o
	t.mu.Unlock()
	return o
}

func (t *trials) run(c find.Change, deep bool) outcome {
	j, found := Apply(t.design.Job, c)
	if j == nil {
		return outcome{found: found}
	}
	p := t.pair
	if w := wish(j); w != p.wish {
		p = solve(w)
	}
	d := teeth(j, p)
	if deep && d.Pair != nil {
		d.draw()
	}
	return outcome{true, d.Pair != nil, d.Findings}
}

// again returns the pair once more, for a design of its own to add to.
func (s solved) again() (*gear.Pair, []find.Finding) {
	if s.pair == nil {
		return nil, slices.Clone(s.found)
	}
	p := *s.pair
	p.Chosen = slices.Clone(p.Chosen)
	return &p, slices.Clone(s.found)
}
