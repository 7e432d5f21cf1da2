package load

import (
	"math"

	"ringtrack/gear"
	"ringtrack/gear/plane"
)

// Profile is half of one tooth's outline, from tip to root, with Y >= 0.
type Profile struct {
	Ring bool // the tooth points toward the gear's axis

	pieces  []plane.Piece
	root    Spot  // section of the tangent method
	rootErr error // where no tangent leans so far
}

// Spot is a place on a profile.
type Spot struct {
	P     plane.Vec // mm: along the centre line, across it
	Slope float64   // angle of the tangent to the centre line, positive where the tooth grows toward its root
	Bend  float64   // mm, radius of curvature; +Inf on a straight piece

	piece int
	u     float64
}

// NewProfile returns the profile made of pieces that join, given from the tip
// (large X) to the root, on the side of positive Y.
//
// Errors: *InputError for fewer than one piece or pieces that do not join
// within 1e-6 mm.
func NewProfile(pieces []plane.Piece, ring bool) (*Profile, error) {
	if len(pieces) == 0 {
		return nil, &InputError{"the number of pieces of the tooth's outline", 0, "1 or more"}
	}
	for i := 1; i < len(pieces); i++ {
		if gap := pieces[i].At(0).Sub(pieces[i-1].At(1)).Len(); !(gap < 1e-6) {
			return nil, &InputError{"the gap between pieces of the tooth's outline in mm", gap, "less than 1e-6"}
		}
	}
	p := &Profile{Ring: ring, pieces: pieces}
	lean := leanPinion
	if ring {
		lean = leanRing
	}
	p.root, p.rootErr = p.leaning(lean)
	return p, nil
}

// PinionProfile returns half a tooth of the pinion as designed.
func PinionProfile(p gear.Pinion) (*Profile, error) { return OutlineProfile(p.Outline()) }

// RingProfile returns half a tooth of the ring as designed.
func RingProfile(r gear.Ring) (*Profile, error) { return OutlineProfile(r.Outline()) }

// OutlineProfile returns half a tooth of a toothed outline: one loop whose unit
// is one pitch, symmetrical to the x axis, counter-clockwise about a tooth's
// centre on +x (a pinion), or clockwise about a space's centre on +x (a ring).
//
// Errors: *InputError where the unit has no such half.
func OutlineProfile(l plane.Loop) (*Profile, error) {
	ring := l.Fold < 0
	pitch := 2 * math.Pi / float64(l.Turns())
	lo, hi, place := -pitch/2, 0.0, plane.Mirrored()
	if ring {
		lo, hi, place = 0, pitch/2, plane.Turned(math.Pi-pitch/2)
	}
	place = plane.Moved(l.Centre.Mul(-1)).Then(place)
	const edge = 1e-9
	var half []plane.Piece
	for _, p := range l.Unit {
		if a := p.At(0.5).Sub(l.Centre).Angle(); a > lo+edge && a < hi-edge {
			half = append(half, p.Map(place))
		}
	}
	if !ring { // drawn from the root to the tip
		for i, k := 0, len(half)-1; i <= k; i, k = i+1, k-1 {
			half[i], half[k] = half[k].Reverse(), half[i].Reverse()
		}
	}
	return NewProfile(half, ring)
}

// spot returns the place at parameter u of a piece.
func (p *Profile) spot(piece int, u float64) Spot {
	f := p.pieces[piece].Frame(u)
	return Spot{f.P, math.Atan2(f.V.Y, -f.V.X), 1 / math.Abs(f.K), piece, u}
}

// Tip returns the profile's first place, the tip corner.
func (p *Profile) Tip() Spot { return p.spot(0, 0) }

// AtRadius returns the place at the distance r from the gear's axis.
//
// Errors: *InputError when the profile does not reach so far; 1e-9 of r beyond
// the tip is taken as the tip, for that is rounding.
func (p *Profile) AtRadius(r float64) (Spot, error) {
	radius := func(i int, u float64) float64 { return p.pieces[i].At(u).Len() - r }
	if math.Abs(radius(0, 0)) <= 1e-9*math.Abs(r) {
		return p.Tip(), nil
	}
	for i := range p.pieces {
		if a, b := radius(i, 0), radius(i, 1); (a <= 0) != (b <= 0) || a == 0 {
			return p.spot(i, bisect(func(u float64) bool { return (radius(i, u) <= 0) == (a <= 0) })), nil
		}
	}
	return Spot{}, &InputError{"the radius in mm at which the tooth is loaded", r, "between root and tip"}
}

// leaning returns the place nearest to the root at which the tangent leans by
// the angle from the centre line.
func (p *Profile) leaning(angle float64) (Spot, error) {
	const n = 24
	for i := len(p.pieces) - 1; i >= 0; i-- {
		more := func(u float64) bool { return p.spot(i, u).Slope >= angle }
		for k := n; k > 0; k-- {
			lo, hi := float64(k-1)/n, float64(k)/n
			if !more(hi) || more(lo) {
				continue
			}
			u := bisect(func(v float64) bool { return !more(lo + v*(hi-lo)) })
			return p.spot(i, lo+u*(hi-lo)), nil
		}
	}
	return Spot{}, &InputError{"the lean in radians of the fillet's tangent", angle, "one that the fillet reaches"}
}

// crossing returns where on the centre line a force along the normal at s acts:
// the place and the angle between the force and the normal of the centre line.
func crossing(s Spot) (x, angle float64) { return s.P.X - s.P.Y*math.Tan(s.Slope), s.Slope }

// bisect returns the u in [0, 1] at which holds, true at 0, becomes false.
func bisect(holds func(u float64) bool) float64 {
	lo, hi := 0.0, 1.0
	for range 60 {
		if m := (lo + hi) / 2; holds(m) {
			lo = m
		} else {
			hi = m
		}
	}
	return lo
}
