// Package gear is the pair: a small pinion and a large internal ring that mesh.
//
// # Model
//
// A Wish says what is given; Resolve answers with a Pair: both members' teeth,
// their mesh, and findings about what is wrong with it. What the wish leaves
// open is chosen by a fixed rule (shift.go) that anyone can redo by hand, and
// every choice is listed with its reason.
//
// Lengths along the line of action are counted from the pinion's base tangent
// point; the ring's own string is longer by a sin(alpha_w) there.
//
// # Units and signs
//
// Millimetres and radians. Tooth counts are positive; z1, x1 belong to the
// pinion, z2, x2 to the ring; a positive x2 enlarges the ring's diameters (the
// handbooks' sense; ISO 21771 turns both signs for a ring). In an internal pair
// a LARGER centre distance takes backlash away.
//
// # Failure
//
// What is wrong with a design is a find.Finding, not an error. Findings name
// the job's key to change; values that cure are found by package drive, which
// can try them. Nothing panics on a number.
package gear
