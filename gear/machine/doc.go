// Package machine is what drives the pair and what the pair drives: a motor with
// its gearbox, and a platform on its bearing.
//
// # Model
//
// A Motor turns the pinion; speeds and torques are those of its output shaft. A
// Platform is a mass on a bearing with friction. A Drive joins them by the
// ratio of the teeth and answers at one supply voltage: speed, torques in hand,
// starting, run-up, coasting, what stops do to the teeth, tipping, the play seen
// at the rim. A Card is what the motor's controller is told.
//
// # Units and signs
//
// Millimetres, newtons, newton millimetres, radians, seconds, volts, kilograms
// and kg mm2. One kg mm2/s2 is a thousandth of a newton millimetre; the
// conversion is made here and nowhere else. Revolutions per minute exist in
// FromRPM and ToRPM alone. Torques and speeds are not negative.
//
// # Accuracy
//
// Formulas are exact for their models; the run-up's balance of energy closes to
// 1e-6. The models are plain: a straight motor line, dry friction that does not
// depend on the speed. Friction decides nearly everything and differs between
// bearings by a factor of ten: a pull test takes five minutes.
//
// # Failure
//
// What cannot be computed is an *InputError. What is wrong with a drive is a
// find.Finding. Nothing panics on a number.
package machine

import (
	"fmt"
	"math"
)

// InputError says which argument has no answer and what is allowed.
type InputError struct {
	What    string
	Value   float64
	Allowed string
}

func (e *InputError) Error() string {
	return fmt.Sprintf("%s is %.6g; allowed: %s", e.What, e.Value, e.Allowed)
}

// atLeast returns an *InputError unless v is finite and more than 0 (or, with
// zero, not less).
func atLeast(what string, v float64, zero bool) error {
	if v > 0 && !math.IsInf(v, 1) || zero && v == 0 {
		return nil
	}
	if zero {
		return &InputError{what, v, "0 or more, finite"}
	}
	return &InputError{what, v, "more than 0, finite"}
}

// FromRPM returns a speed given in revolutions per minute in radians a second.
func FromRPM(rpm float64) float64 { return rpm * math.Pi / 30 }

// ToRPM returns a speed in revolutions per minute.
func ToRPM(speed float64) float64 { return speed * 30 / math.Pi }

// gravity in m/s2, so that kilograms become newtons.
const gravity = 9.80665

// perSecond2 turns kg mm2/s2 into N mm.
const perSecond2 = 1e-3
