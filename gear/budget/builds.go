package budget

import (
	"context"
	"math"
	"runtime"
	"slices"
	"sync"
	"sync/atomic"
)

// Builds is what chance makes of the spreads.
type Builds struct {
	Count         int
	Seed          uint64
	BindingShare  float64 // of the builds that bind somewhere round the turn
	BindingError  float64 // standard error of that share
	AtJoint       float64 // part of the binding builds whose tightest place is a joint
	TargetShare   float64 // of the builds that keep the target clearance
	Least         Quantiles
	Greatest      Quantiles
	leastOfBuilds []float64
}

// Quantiles describe one figure of many builds, mm.
type Quantiles struct {
	Mean, Deviation float64 // of the sample
	Low, High       float64 // 2.275 % lie below Low and above High: two standard deviations of a normal law
	Least, Greatest float64
}

// lowTail is the part of a normal law below two standard deviations.
const lowTail = 0.02275

// chunk is the number of builds that a worker takes at a time.
const chunk = 512

// chance draws the builds.
func (m *model) chance(ctx context.Context, count int, seed uint64, target float64, workers int) (Builds, error) {
	q := m.quick()
	least, greatest := make([]float64, count), make([]float64, count)
	joint := make([]bool, count)
	err := spread(ctx, count, workers, func() func(int) {
		d, b := newDice(seed), assembly{}
		return func(i int) {
			d.draw(m, i, &b)
			var e Effect
			e, joint[i] = q.extremes(&b)
			least[i], greatest[i] = e.Least, e.Greatest
		}
	})
	if err != nil {
		return Builds{}, err
	}
	out := shares(least, joint, target)
	out.Seed = seed
	out.Least, out.Greatest = quantiles(least), quantiles(greatest)
	return out, nil
}

// shares counts the builds that bind and those that keep the target.
func shares(least []float64, joint []bool, target float64) Builds {
	n := float64(len(least))
	bound, kept, at := 0, 0, 0
	for i, v := range least {
		switch {
		case v < 0:
			bound++
			if joint != nil && joint[i] {
				at++
			}
		case v >= target:
			kept++
		}
	}
	out := Builds{Count: len(least), BindingShare: float64(bound) / n, TargetShare: float64(kept) / n, leastOfBuilds: least}
	out.BindingError = math.Sqrt(out.BindingShare * (1 - out.BindingShare) / n)
	if bound > 0 {
		out.AtJoint = float64(at) / float64(bound)
	}
	return out
}

// quantiles describes the values, which stay in their order.
func quantiles(v []float64) Quantiles {
	s := slices.Clone(v)
	slices.Sort(s)
	n := len(s)
	var q Quantiles
	for _, x := range v {
		q.Mean += x
	}
	q.Mean /= float64(n)
	for _, x := range v {
		q.Deviation += (x - q.Mean) * (x - q.Mean)
	}
	q.Deviation = math.Sqrt(q.Deviation / float64(max(1, n-1)))
	q.Least, q.Greatest = s[0], s[n-1]
	q.Low, q.High = between(s, lowTail), between(s, 1-lowTail)
	return q
}

// between reads a sorted list at a share of its length.
func between(s []float64, share float64) float64 {
	u := share * float64(len(s)-1)
	i := int(u)
	if i+1 >= len(s) {
		return s[len(s)-1]
	}
	return s[i] + (u-float64(i))*(s[i+1]-s[i])
}

// spread calls work for 0 to n-1 on all workers; start makes each worker's own
// function. Every call writes to its own place alone.
func spread(ctx context.Context, n, workers int, start func() func(int)) error {
	if workers <= 0 {
		workers = runtime.GOMAXPROCS(0)
	}
	size := max(1, min(chunk, n/(4*workers)))
	workers = max(1, min(workers, (n+size-1)/size))
	var next atomic.Int64
	run := func() {
		f := start()
		for ctx.Err() == nil {
			lo := int(next.Add(int64(size))) - size
			if lo >= n {
				return
			}
			for i := lo; i < min(lo+size, n); i++ {
				f(i)
			}
		}
	}
	var wait sync.WaitGroup
	for range workers - 1 {
		wait.Go(run)
	}
	run()
	wait.Wait()
	return ctx.Err()
}
