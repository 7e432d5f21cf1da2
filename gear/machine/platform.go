package machine

import "math"

// Platform is what turns.
type Platform struct {
	Mass     float64 // kg, with its load
	Diameter float64 // mm, of the rim
	Inertia  float64 // kg mm2 about the axis; 0: that of an even disc of Diameter
	Height   float64 // mm: the centre of mass above the bearing
	Offset   float64 // mm: the centre of mass beside the axis
	OffLevel float64 // radians by which the base leans
	Race     float64 // mm: radius of the bearing's track, which carries
	Friction Friction
}

// Friction is the bearing's friction torque.
type Friction struct {
	Start  float64 // N mm, to set it moving
	Moving float64 // N mm, to keep it moving
	Source string
}

// Check returns an *InputError for figures that no platform has.
func (p Platform) Check() error {
	for _, c := range []struct {
		what string
		v    float64
		zero bool
	}{
		{"the platform's mass in kg", p.Mass, false}, {"the platform's diameter in mm", p.Diameter, p.Inertia > 0},
		{"the platform's inertia in kg mm2", p.Inertia, true}, {"the height of the platform's load in mm", p.Height, true},
		{"the offset of the platform's load in mm", p.Offset, true}, {"the platform's lean in radians", p.OffLevel, true},
		{"the bearing's radius in mm", p.Race, true}, {"the friction at the start in N mm", p.Friction.Start, true},
		{"the friction while moving in N mm", p.Friction.Moving, true},
	} {
		if err := atLeast(c.what, c.v, c.zero); err != nil {
			return err
		}
	}
	return nil
}

// Weight returns the platform's weight in N.
func (p Platform) Weight() float64 { return p.Mass * gravity }

// MomentOfInertia returns the given inertia, or that of an even disc, m d^2/8,
// with the offset load's m e^2, in kg mm2.
func (p Platform) MomentOfInertia() float64 {
	if p.Inertia > 0 {
		return p.Inertia
	}
	return p.Mass * (p.Diameter*p.Diameter/8 + p.Offset*p.Offset)
}

// Hill returns the greatest torque, N mm, with which the offset load wants to
// run downhill on a base that leans: W e sin(lean).
func (p Platform) Hill() float64 { return p.Weight() * p.Offset * math.Sin(p.OffLevel) }

// Rolling returns the friction of a ball bearing turntable that nobody has
// measured: 0.01 to 0.03 of the weight at the track's radius, the greater to
// start (from memory). It may be wrong by a factor of five.
func Rolling(weight, race float64) Friction {
	return Friction{0.03 * weight * race, 0.01 * weight * race, "0.01 to 0.03 of the weight at the bearing's radius, from memory"}
}

// PullTest returns the friction from a luggage scale: its pull in N just before
// the platform moves and while it moves steadily, at the radius in mm.
func PullTest(start, moving, radius float64) Friction {
	return Friction{start * radius, moving * radius, "pull test"}
}

// CoastTest returns the friction of a platform that, let go at a speed in rad/s
// without the pinion in mesh, takes that many seconds to stand still: I w/t. It
// says nothing about starting, for which half as much again is taken (common
// practice).
//
// Errors: *InputError for a time, speed or inertia that is not positive.
func CoastTest(inertia, speed, seconds float64) (Friction, error) {
	for _, c := range []struct {
		what string
		v    float64
	}{{"the platform's inertia in kg mm2", inertia}, {"the speed at which it was let go in rad/s", speed}, {"the time to coast down in s", seconds}} {
		if err := atLeast(c.what, c.v, false); err != nil {
			return Friction{}, err
		}
	}
	t := inertia * speed / seconds * perSecond2
	return Friction{1.5 * t, t, "time to coast down; start half as much again, common practice"}, nil
}

// Tipping is how far the platform is from leaving its bearing.
type Tipping struct {
	Lever float64 // mm from the line of the weight to the track: negative when it tips
	Press float64 // N pushed down on the rim that would tip it; 0 when the rim lies inside the track
	Push  float64 // N pushed sideways at the load's height that would tip it
}

// Tipping returns the levers of a platform that only rests on its bearing; one
// that is held down by its plates stands more.
func (p Platform) Tipping() Tipping {
	t := Tipping{Lever: p.Race - p.Offset - p.Height*math.Tan(p.OffLevel)}
	if over := p.Diameter/2 - p.Race; over > 0 {
		t.Press = math.Max(0, p.Weight()*t.Lever/over)
	}
	if p.Height > 0 {
		t.Push = math.Max(0, p.Weight()*t.Lever/p.Height)
	}
	return t
}
