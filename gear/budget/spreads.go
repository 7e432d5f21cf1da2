package budget

// Amount is a spread and whether it was measured or is a guess.
type Amount struct {
	Value   float64
	Guessed bool
}

// Guess returns a guessed amount.
func Guess(v float64) Amount { return Amount{v, true} }

// Measured returns a measured amount.
func Measured(v float64) Amount { return Amount{v, false} }

// half returns the amount halved.
func (a Amount) half() Amount { return Amount{a.Value / 2, a.Guessed} }

// Spreads is how far parts, mounting and climate may be from what was drawn.
// The zero value means that everything is exact.
type Spreads struct {
	MakingPinion   Amount // mm per side, +/-: the range that 95 of 100 flanks keep (2 sigma)
	MakingRing     Amount // the same
	CentreDistance Amount // mm, +/-
	BearingPlay    Amount // mm, radial, in total; half of it acts either way
	RingRunout     Amount // mm, as a dial shows it: twice the eccentricity
	PinionRunout   Amount // mm, the same
	// RingOvality is the largest less the smallest radius of the ring, mm, as a
	// dial shows it over a turn (roundness, ISO 1101, from memory): half the
	// difference of the largest and the smallest diameter. The radius swings by
	// half of it either way, twice a turn.
	RingOvality Amount
	JointStep   Amount // mm, +/-: error of the pitch across each joint
	Segments    int    // of the ring; 0 and 1: no joints
	FirstJoint  int    // the space in which a joint lies; the others follow evenly, to the nearest space
	Tilt        Amount // radians, of the pinion's axis
	FaceWidth   float64
	Climate     Climate
}

// Climate is the temperatures and moisture that the drive will see. All parts
// have the same temperature and have taken up the same share of the moisture
// that they can.
type Climate struct {
	Low, High float64 // degC
	Set       float64 // degC at which parts and centre distance are true; Low to High
	Guessed   bool    // the range is a guess
	Pinion    Movement
	Ring      Movement
	Base      Movement // of the plate that holds bearing and motor
}

// Movement is how a material grows.
type Movement struct {
	Expansion float64 // linear, per kelvin
	Moisture  float64 // linear, as a fraction, from dry to the dampest that the place brings
	Guessed   bool
}

// Reference is the temperature at which dimensions hold, degC: ISO 1, from memory.
const Reference = 20

// growth returns the linear growth of the three bodies at a temperature and a
// share of the moisture from 0 to 1.
func (c Climate) growth(temperature, damp float64) (pinion, ring, base float64) {
	of := func(m Movement) float64 { return m.Expansion*(temperature-c.Set) + m.Moisture*damp }
	return of(c.Pinion), of(c.Ring), of(c.Base)
}

// moves reports whether temperature (or moisture) does anything.
func (c Climate) moves() (heat, damp bool) {
	for _, m := range []Movement{c.Pinion, c.Ring, c.Base} {
		heat = heat || m.Expansion != 0 && c.Low != c.High
		damp = damp || m.Moisture != 0
	}
	return heat, damp
}

// Directions says where around the turn things lie, when that was measured.
type Directions struct {
	Ring   float64   // place toward which the ring's centre lies off the platform's axis
	Oval   float64   // place of a largest radius
	Pinion float64   // direction in which the pinion's centre lies off its axis, in its own frame, tooth 0 at 0
	Tilt   float64   // direction in which the pinion's axis leans, in its own frame
	Steps  []float64 // mm, one for each joint: the pitch across it is too large by this
}
