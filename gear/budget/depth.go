package budget

import (
	"context"
	"math"

	"ringtrack/gear/roll"
)

// depths is what the formula of involutes leaves out when true members stand at
// other distances: tips that run into roots or fillets, corners that touch where
// flanks do not reach. It is taken from the pair's real outlines, rolled over one
// pitch, and is nothing where involutes alone touch.
type depths struct {
	reach float64
	at    []float64 // mm of arc, over distances from -reach to reach
}

// depthSize is the number of steps of the table, even; depthPositions that of the
// positions rolled at each.
const (
	depthSize      = 16
	depthPositions = 16
)

// depthChord is the greatest distance of the outlines rolled for it from the
// exact ones, mm.
const depthChord = 0.001

// of returns the correction where the axes stand d mm further apart.
func (t *depths) of(d float64) float64 {
	u := (d/t.reach + 1) / 2 * depthSize
	i := min(max(int(u), 0), depthSize-1)
	return t.at[i] + (u-float64(i))*(t.at[i+1]-t.at[i])
}

// clear returns the distance, up to the reach, from which tips and roots take
// play away: the last node of the table before that; 0 where they do already as
// drawn or nearer.
func (t *depths) clear() float64 {
	for i := depthSize / 2; i <= depthSize; i++ {
		if t.at[i] < 0 {
			return math.Max(0, t.reach*(2*float64(i-1)/depthSize-1))
		}
	}
	return t.reach
}

// radialReach returns how far the axes may stand from nominal, mm: all radial
// causes together, the centre distance half as far again as its spread.
func (m *model) radialReach() float64 {
	s := &m.s
	sum := 1.5*s.CentreDistance.Value + (s.BearingPlay.Value+s.RingRunout.Value+s.PinionRunout.Value+s.RingOvality.Value)/2
	heat := 0.0
	for _, t := range []float64{s.Climate.Low, s.Climate.High} {
		for _, damp := range []float64{0, 1} {
			_, _, plate := s.Climate.growth(t, damp)
			heat = math.Max(heat, math.Abs(plate)*m.a)
		}
	}
	return sum + heat
}

// measureDepths fills the table in. Where nothing is missing at an end, nothing is
// between it and the middle: margins fall steadily toward the ends.
//
// Errors: ctx.Err().
func (m *model) measureDepths(ctx context.Context, workers int) error {
	m.depth = depths{reach: m.radialReach(), at: make([]float64, depthSize+1)}
	pair := roll.Pair{Pinion: facets(m.p.Pinion.Outline(), depthChord), Ring: facets(m.p.Ring.Outline(), depthChord), CentreDistance: m.a}
	teeth := roll.Options{PinionTeeth: m.z1, RingTeeth: m.z2}
	drawn, err := roll.New(pair, teeth) // nil where the pair crosses as drawn: then each distance is tried on its own
	engine := func(a float64) (*roll.Engine, error) {
		if err == nil {
			return drawn.Moved(a)
		}
		moved := pair
		moved.CentreDistance = a
		return roll.New(moved, teeth)
	}
	roll := func(nodes []int) error {
		return spread(ctx, len(nodes), workers, func() func(int) {
			return func(i int) {
				d := m.depth.reach * (2*float64(nodes[i])/depthSize - 1)
				lacks := m.rolledPlay(engine(m.a+d)) - m.involutes(change{distance: d})
				if math.Abs(lacks) > 2*depthChord/m.cosW { // what the chords alone can make is nothing
					m.depth.at[nodes[i]] = lacks
				}
			}
		})
	}
	if m.depth.reach == 0 {
		m.depth.reach = 1
		err := roll([]int{depthSize / 2})
		for i := range m.depth.at {
			m.depth.at[i] = m.depth.at[depthSize/2]
		}
		return err
	}
	if err := roll([]int{0, depthSize}); err != nil {
		return err
	}
	var rest []int
	for i := 1; i < depthSize; i++ {
		near, far := m.depth.at[0] != 0, m.depth.at[depthSize] != 0
		if near && i <= depthSize/2 || far && i >= depthSize/2 {
			rest = append(rest, i)
		}
	}
	return roll(rest)
}

// rolledPlay returns the least play over one pitch, arc on the nominal working
// circles; what cannot be rolled, because it crosses however it is turned, lacks a
// module, and a tip in a root lacks what it reaches in.
func (m *model) rolledPlay(e *roll.Engine, err error) float64 {
	if err != nil {
		return -m.p.Pinion.Module
	}
	least := math.Inf(1)
	for i := range depthPositions {
		v := e.Free(2 * math.Pi * float64(i) / float64(depthPositions*m.z1))
		w := v.Width() * m.working
		if v.Jam != nil {
			w = math.Min(w, -v.Jam.Depth)
		}
		least = math.Min(least, w)
	}
	return math.Min(least, math.Pi*m.p.Pinion.Module) // beyond a pitch nothing holds
}
