package solid

import (
	"fmt"
	"math"
)

// Channel is a horizontal hole whose axis meets the z axis. It comes from
// outside and runs inward; where it passes a bore, a slot or any other hollow
// it goes on behind it.
//
// A place in it is named by t, the distance from the z axis along the direction
// Angle; by w, to the left of the axis as one looks outward; and by z.
type Channel struct {
	Angle float64 // radians from +x: the direction outward
	Z     float64 // mm, height of the axis
	Steps []Step  // from outside inward, at least one
}

// Step is a stretch of a channel with one section: a circle about the axis, or
// a circle with a roof of two planes at 45 degrees that touch it.
type Step struct {
	Radius float64 // mm
	// Crown is the height of the roof's top above the axis, mm: 0 for none,
	// from Radius (a flat ceiling) to Radius sqrt(2) (a ridge). Below zero the
	// roof hangs: for a part that is printed the other way up.
	Crown float64
	// To is the t at which this stretch ends and the next begins, mm. The last
	// one's end may lie in a hollow; in the material it is a flat end.
	To float64
}

// Ridge returns the crown of a roof that ends in a ridge.
func Ridge(radius float64) float64 { return radius * math.Sqrt2 }

// span returns how far the section reaches below and above the axis.
func (s Step) span() (low, high float64) {
	return math.Min(-s.Radius, s.Crown), math.Max(s.Radius, s.Crown)
}

// at returns the lower and upper height of the section at w, |w| <= Radius,
// above the axis.
func (s Step) at(w float64) (low, high float64) {
	w = math.Abs(w)
	round := math.Sqrt(math.Max(0, (s.Radius-w)*(s.Radius+w)))
	if s.Crown == 0 {
		return -round, round
	}
	roof := round
	if w < s.Radius/math.Sqrt2 {
		roof = math.Min(math.Abs(s.Crown), s.Radius*math.Sqrt2-w)
	}
	if s.Crown < 0 {
		return -roof, round
	}
	return -round, roof
}

// halfWidth returns the half width of the section at height h above the axis,
// 0 where it has none.
func (s Step) halfWidth(h float64) float64 {
	if low, high := s.span(); !(h > low && h < high) {
		return 0
	}
	if s.Crown != 0 && h*math.Copysign(1, s.Crown) > s.Radius/math.Sqrt2 {
		return s.Radius*math.Sqrt2 - math.Abs(h)
	}
	return math.Sqrt(math.Max(0, (s.Radius-h)*(s.Radius+h)))
}

// kinks returns the w at which the section starts, bends and ends, rising.
func (s Step) kinks() []float64 {
	r := s.Radius
	if s.Crown == 0 {
		return []float64{-r, r}
	}
	k := r / math.Sqrt2
	if flat := r*math.Sqrt2 - math.Abs(s.Crown); flat > 0 {
		return []float64{-r, -k, -flat, flat, k, r}
	}
	return []float64{-r, -k, 0, k, r}
}

// samples returns the w, rising from -Radius to Radius, between which the
// section may be drawn straight: no chord leaves it by more than chord.
func (s Step) samples(chord float64) []float64 {
	step := arcStep(s.Radius, chord)
	ks := s.kinks()
	out := []float64{ks[0]}
	for i := 1; i < len(ks); i++ {
		a := math.Asin(math.Max(-1, ks[i-1]/s.Radius))
		b := math.Asin(math.Min(1, ks[i]/s.Radius))
		n := max(1, int(math.Ceil((b-a)/step-1e-9)))
		if i == 1 || i == len(ks)-1 {
			n = max(n, 2) // beside the tip something must be open
		}
		for k := 1; k < n; k++ {
			out = append(out, s.Radius*math.Sin(a+(b-a)*float64(k)/float64(n)))
		}
		out = append(out, ks[i])
	}
	return out
}

// arcStep returns the angle that a chord may span on a circle.
func arcStep(r, chord float64) float64 {
	step := math.Pi / 2
	if c := 1 - chord/r; c > 0 {
		step = math.Min(step, 2*math.Acos(c))
	}
	if step < 1e-8 {
		step = 2 * math.Sqrt(2*chord/r)
	}
	return step
}

// span returns the heights between which the channel lies.
func (c *Channel) span() (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, s := range c.Steps {
		l, h := s.span()
		low, high = math.Min(low, c.Z+l), math.Max(high, c.Z+h)
	}
	return low, high
}

// from returns the t at which step i begins.
func (c *Channel) from(i int) float64 {
	if i == 0 {
		return math.Inf(1)
	}
	return c.Steps[i-1].To
}

func (c *Channel) check() error {
	if len(c.Steps) == 0 {
		return fmt.Errorf("no steps")
	}
	if math.IsNaN(c.Angle-c.Angle) || math.IsNaN(c.Z-c.Z) {
		return fmt.Errorf("angle %g and height %g mm are no place", c.Angle, c.Z)
	}
	for i, s := range c.Steps {
		if !(s.Radius > 0) || math.IsInf(s.Radius, 0) || math.IsNaN(s.To-s.To) || !(s.To < c.from(i)) {
			return fmt.Errorf("step %d: radius %g mm to %g mm from the axis is no step", i, s.Radius, s.To)
		}
		if k := math.Abs(s.Crown); s.Crown != 0 && !(k >= s.Radius && k <= s.Radius*math.Sqrt2*(1+1e-15)) {
			return fmt.Errorf("step %d: a crown of %g mm does not lie between the radius and %.6g mm", i, s.Crown, Ridge(s.Radius))
		}
	}
	return nil
}
