// Package load says how much the teeth of a pair carry and how far they bend.
//
// # Model
//
// A Profile is half of one tooth's actual outline in the tooth's own frame: X
// runs along its centre line toward the tip, Y across it, the gear's axis at
// the origin; a ring's tooth, which points inward, therefore lies at negative
// X. All answers are taken from that outline, whatever made it, in plane strain
// and per millimetre of face width until a width is named.
//
// Two methods say what bends a tooth to breaking; they are not to be mixed.
//
//   - Lewis: the largest parabola inscribed in the outline, its vertex where
//     the load's line meets the centre line (Profile.Lewis).
//   - The tangent method of ISO 6336-3 and VDI 2736-2: the section where the
//     fillet's tangent leans 30 degrees from the centre line, 60 for a ring
//     (Profile.Form), with its form and stress correction factors.
//
// Deflection follows Weber and Banaschek: bending, shear and normal force in
// the tooth, tilting of its root in the body, flattening at the contact; the
// integrals run over the outline's own thickness. A Mesh joins two teeth, shares
// the load between the pairs in contact and gives stiffness, wind-up, the tip
// relief that is needed and how much backlash the yielding of the flanks is
// worth. A Hub is a bore on a shaft with a flat.
//
// # Units and signs
//
// Millimetres, newtons, newton millimetres, megapascals, radians, degrees
// Celsius. Torques are those on the pinion unless a name says otherwise.
// Stiffness is newtons per millimetre of face width and millimetre of yielding
// along the line of action; 1 N/(mm um) is 1000 of them.
//
// # Accuracy
//
// The factors follow the outline to about 1e-9 of their value, integrals of
// deflection to 1e-8. What the methods themselves are worth is another matter:
// printed factors of the tangent method are met within 0.8 %, the mesh stiffness
// of ISO 6336-1 within 8 %. For a ring nothing printed is known to us; a finite
// element model of the same outline, built by the tests, agrees with the peak
// stress within 15 %. Figures of materials scatter far more than all that.
//
// # Failure
//
// What cannot be computed is an *InputError that names the argument. What is
// wrong with a design is a find.Finding. Nothing panics on a number.
package load

import "fmt"

// InputError says which argument has no answer and what is allowed.
type InputError struct {
	What    string
	Value   float64
	Allowed string
}

func (e *InputError) Error() string {
	return fmt.Sprintf("%s is %.6g; allowed: %s", e.What, e.Value, e.Allowed)
}

// positive returns an *InputError unless v is more than nothing and finite.
func positive(what string, v float64) error {
	if v > 0 && v < 1e300 {
		return nil
	}
	return &InputError{what, v, "more than 0, finite"}
}
