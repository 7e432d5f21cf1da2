package roll

import (
	"context"
	"math"
	"runtime"
	"sync"
	"sync/atomic"
)

// Roll turns the pair through its span.
//
// Where all teeth of either outline are one unit turned and both centres are
// true, Auto rolls one pitch in Steps positions, which is then the whole cycle.
// Otherwise it rolls a turn of the ring, CoarseSteps positions a pitch, and then
// one pitch in Steps positions at the tightest and at the loosest place.
//
// Errors: *InputError as for New, and where no tooth of either side is ever
// reached; ctx.Err() when the context ends first.
func Roll(ctx context.Context, p Pair, o Options) (Result, error) {
	e, err := New(p, o)
	if err != nil {
		return Result{}, err
	}
	return e.Roll(ctx)
}

// Roll is the function Roll for a pair made ready.
func (e *Engine) Roll(ctx context.Context) (Result, error) {
	r := Result{
		PinionTeeth: e.pinion.teeth, RingTeeth: e.ring.teeth,
		WorkingPinion: e.working * e.ratio, WorkingRing: e.working,
	}
	var pitches int
	r.Span, r.Whole, pitches = e.span()
	steps := e.opt.CoarseSteps
	if r.Span == OnePitch {
		steps = e.opt.Steps
	}
	w := &work{e: e, ctx: ctx, total: pitches * steps}
	if r.Span != OnePitch {
		w.total += 2 * e.opt.Steps
	}
	t := tally{e: e, zone: [2]Zone{noZone(), noZone()}}
	var err error
	if r.Positions, err = w.roll(angles(0, e.pinion.pitch, pitches, steps)); err != nil {
		return Result{}, err
	}
	for i := range r.Positions {
		t.add(&r.Positions[i], true)
	}
	if t.counted == 0 {
		return Result{}, bad("", "no position brings teeth of both sides together: the outlines hardly reach each other")
	}
	fine := [][]Interval{r.Positions}
	if r.Span != OnePitch {
		tight, loose := t.least.PinionAngle, t.greatest.PinionAngle
		for _, f := range []struct {
			to *[]Interval
			at float64
		}{{&r.Tight, tight}, {&r.Loose, loose}} {
			if *f.to, err = w.roll(angles(f.at-e.pinion.pitch/2, e.pinion.pitch, 1, e.opt.Steps)); err != nil {
				return Result{}, err
			}
			for i := range *f.to {
				t.add(&(*f.to)[i], false)
			}
		}
		fine = [][]Interval{r.Tight, r.Loose}
	}
	t.fill(&r)
	if r.Gap, err = w.gap(fine); err != nil {
		return Result{}, err
	}
	r.Forward.First, r.Forward.Last, _ = e.Meeting(0, true)
	r.Backward.First, r.Backward.Last, _ = e.Meeting(0, false)
	return r, ctx.Err()
}

// span settles how far to roll: the span, whether it is all that can happen,
// and the number of pitches.
func (e *Engine) span() (s Span, whole bool, pitches int) {
	z1, z2 := e.pinion.teeth, e.ring.teeth
	same := e.pinion.alike && e.ring.alike
	if s = e.opt.Span; s == Auto {
		s = RingTurn
		if same {
			s = OnePitch
		}
	}
	switch s {
	case OnePitch:
		return s, same, 1
	case WholeCycle:
		return s, true, z1 / common(z1, z2) * z2
	}
	return RingTurn, e.pinion.alike || e.ring.alike || z2%z1 == 0, z2
}

// common returns the greatest common divisor.
func common(a, b int) int {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// angles returns the pinion angles of pitches times steps positions.
func angles(from, pitch float64, pitches, steps int) []float64 {
	out := make([]float64, pitches*steps)
	for i := range out {
		out[i] = from + pitch*float64(i)/float64(steps)
	}
	return out
}

// work spreads positions over goroutines.
type work struct {
	e           *Engine
	ctx         context.Context
	done, total int
	mu          sync.Mutex
}

// roll works out the positions at the angles given.
func (w *work) roll(phi []float64) ([]Interval, error) {
	out := make([]Interval, len(phi))
	err := w.each(len(phi), func(b *bench, i int) { out[i] = w.e.free(b, phi[i]) }, true)
	return out, err
}

// each calls f for 0 to n-1 on all workers. f writes to its own place alone, so
// the outcome does not depend on who does what.
func (w *work) each(n int, f func(b *bench, i int), counts bool) error {
	const chunk = 16
	workers := w.e.opt.Workers
	if workers <= 0 {
		workers = runtime.GOMAXPROCS(0)
	}
	workers = max(1, min(workers, (n+chunk-1)/chunk))
	var next atomic.Int64
	run := func() {
		var b bench
		for w.ctx.Err() == nil {
			lo := int(next.Add(chunk)) - chunk
			if lo >= n {
				return
			}
			hi := min(lo+chunk, n)
			for i := lo; i < hi; i++ {
				f(&b, i)
			}
			if counts {
				w.report(hi - lo)
			}
		}
	}
	var wait sync.WaitGroup
	for range workers - 1 {
		wait.Go(run)
	}
	run()
	wait.Wait()
	return w.ctx.Err()
}

// report tells the caller how far the work is.
func (w *work) report(n int) {
	if w.e.opt.Progress == nil {
		return
	}
	w.mu.Lock()
	defer w.mu.Unlock()
	w.done += n
	w.e.opt.Progress(w.done, w.total)
}

// gap takes the smallest distance over gapSteps positions of every pass.
func (w *work) gap(passes [][]Interval) (Gap, error) {
	var at []*Interval
	for _, p := range passes {
		step := max(1, len(p)/gapSteps)
		for i := 0; i < len(p); i += step {
			if v := &p[i]; !v.open() && !v.binds() {
				at = append(at, v)
			}
		}
	}
	gaps := make([]Gap, len(at))
	err := w.each(len(at), func(b *bench, i int) { gaps[i] = w.e.gap(*at[i]) }, false)
	best := Gap{Distance: math.Inf(1)}
	for _, g := range gaps {
		if g.Distance < best.Distance {
			best = g
		}
	}
	return best, err
}

// gapSteps is the number of positions of a pitch at which distances are taken.
const gapSteps = 24
