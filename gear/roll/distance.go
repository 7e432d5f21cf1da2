package roll

import "sync"

// Moved returns the same pair at another centre distance. It is as New makes it,
// at a small part of its cost: the outlines are not looked at again.
//
//	a  mm, more than 0
//
// Errors: *InputError when the centre distance is not positive, when the loops do
// not reach each other or cross however the ring is turned.
func (e *Engine) Moved(a float64) (*Engine, error) {
	if err := (Pair{CentreDistance: a}).checkNumbers(); err != nil {
		return nil, err
	}
	out := &Engine{
		opt: e.opt, a: a, pinion: e.pinion, ring: e.ring, ratio: e.ratio,
		working: a * float64(e.ring.teeth) / float64(e.ring.teeth-e.pinion.teeth),
		rise:    e.rise, fall: e.fall, ringTip: e.ringTip, ringRoot: e.ringRoot, floor: e.floor,
		scratch: sync.Pool{New: func() any { return new(bench) }},
	}
	if err := out.checkReach(); err != nil {
		return nil, err
	}
	out.setLimit()
	return out, nil
}
