package drive

import (
	"slices"
	"sync"

	"ringtrack/gear"
	"ringtrack/gear/find"
	"ringtrack/gear/job"
	"ringtrack/gear/load"
)

// trials works out variants of one design and remembers what came of them, so
// that searches for cures, which run side by side, share them.
type trials struct {
	design *Design
	asked  ask            // of the design as it is
	pair   solved         // of the design as it is
	before []find.Finding // of the design as it is, without drawing
	stood  []find.Finding // of the design as it is

	mu   sync.Mutex
	done map[trial]*outcome
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
	spent func() []find.Finding // what the budget finds, worked out when first asked for
}

// solved is a wish with the pair that came of it.
type solved struct {
	wish  gear.Wish
	pair  *gear.Pair
	found []find.Finding
	mesh  func() (*load.Mesh, error) // of the pair, worked out once when it is asked for
	brief bool                       // for a trial: only what findings hang on
}

func solve(w gear.Wish) solved {
	p, found := gear.Resolve(w)
	return solved{wish: w, pair: p, found: found, mesh: sync.OnceValues(func() (*load.Mesh, error) {
		any := load.Elastic{Modulus: 1, Poisson: 0.3} // materials and width are put in later
		return load.NewMesh(p, load.Making{Face: 1, Pinion: any, Ring: any})
	})}
}

func newTrials(d *Design) *trials {
	t := &trials{design: d, asked: askOf(d.Job), pair: d.from, done: map[trial]*outcome{}}
	t.pair.brief = true
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
func (t *trials) of(c find.Change, deep bool) *outcome {
	key := trial{c, deep}
	t.mu.Lock()
	o, ok := t.done[key]
	t.mu.Unlock()
	if ok {
		return o
	}
	o = t.run(c, deep)
	t.mu.Lock()
	defer t.mu.Unlock()
	if same, ok := t.done[key]; ok {
		return same
	}
	t.done[key] = o
	return o
}

func (t *trials) run(c find.Change, deep bool) *outcome {
	j, found := Apply(t.design.Job, c)
	if j == nil {
		return &outcome{found: found}
	}
	p, a := t.pair, askOf(j)
	if !a.sameTeeth(t.asked) {
		p = settle(j)
		p.brief = true
	}
	d := teeth(j, p)
	o := &outcome{read: true, teeth: d.Pair != nil, spent: func() []find.Finding { return nil }}
	if deep && d.Pair != nil {
		d.draw()
		o.spent = sync.OnceValue(func() []find.Finding { return t.spend(d, a) })
	}
	o.found = d.Findings
	return o
}

// spend returns what the budget of a variant finds; where nothing that it depends
// on has changed it is the design's own.
func (t *trials) spend(d *Design, a ask) []find.Finding {
	switch {
	case !d.sound:
		return nil
	case a == t.asked && t.design.sound:
		return d.told(t.design.Budget, t.design.spent)
	}
	return d.told(a.reckon(d.Pair, d.FeltAt()))
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
