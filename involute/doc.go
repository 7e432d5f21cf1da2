// Package involute is the plane geometry of one involute tooth: the tooth of an
// external gear as a rack cuts it, and the tooth space of an internal gear.
//
// # Model
//
// A base circle of radius rb lies about the origin. A taut string unwinds from
// it; its end draws the involute. A point of the curve is named by the roll
// angle t: the string then is L = rb*t long and touches the base circle at the
// angle t. From it follow
//
//	radius          r     = rb * sqrt(1 + t^2)
//	pressure angle  alpha = atan(t), so cos(alpha) = rb/r
//	polar angle     theta = t - atan(t) = Inv(alpha)
//
// A Tooth is external. Its root is the trochoid that the basic rack truly cuts,
// undercut included. A Space is the space of an internal gear between two of
// its teeth: the same involutes, with a circular arc in each root corner.
//
// # Units and signs
//
// Lengths are millimetres and angles radians, in every function and field,
// unless a name says "over m": then the length is divided by the module. Tooth
// counts are positive for both members; a positive profile shift coefficient
// enlarges the diameters of both (of an internal gear too: the handbook's
// sense, opposite to ISO 21771, which counts internal teeth negatively).
//
// # Accuracy
//
// Every function states its error bound where it is not that of rounding. No
// function has a hidden tolerance.
//
// # Failure
//
// A function that cannot answer returns a *DomainError, which names the
// argument, its value and what is allowed. No function panics on a number.
package involute

import "fmt"

// Cause says what kind of thing has no answer.
type Cause int

// The causes.
const (
	BadArgument Cause = iota // outside the function's domain
	BadRack                  // no rack has these proportions
	RootLost                 // the root circle vanishes
	TipInside                // the tip circle leaves no true flank
	Pointed                  // the flanks meet before the tip circle
	CutOff                   // the fillets meet: the tooth is cut off
	InsideBase               // the ring's tip circle lies inside its base circle
	BadCorner                // no arc of this radius stands in the root corner
)

// DomainError says which argument has no answer and what is allowed.
type DomainError struct {
	Cause   Cause
	What    string  // the argument, in the words of the standard
	Value   float64 // as given
	Allowed string
}

func (e *DomainError) Error() string {
	return fmt.Sprintf("%s is %.6g; allowed: %s", e.What, e.Value, e.Allowed)
}
