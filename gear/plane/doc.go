// Package plane is the geometry of closed outlines made of exact pieces.
//
// # Model
//
// A Loop is a closed chain of pieces: straight lines, circular arcs and pieces
// of smooth parametric curves. Nothing is flattened here except on request. A
// toothed outline repeats itself, so a Loop holds the pieces of one pitch, its
// Unit, and the number of times that the unit is turned about the loop's
// Centre, its Fold.
//
// A Region is what a part's section is: one outer loop and any number of holes.
// Along every loop of a region the material lies on the LEFT, so outer loops
// run counter-clockwise and holes clockwise.
//
// # Units and signs
//
// Lengths are millimetres, angles radians, counter-clockwise positive.
// Curvature is positive where a piece turns to the left. An offset d moves a
// loop to the RIGHT of its direction by d: d > 0 adds material to a region
// (outer loops grow, holes shrink), d < 0 takes it away.
//
// # Accuracy
//
// Points, tangents and curvatures are exact to rounding. Lengths and areas of
// lines and arcs are closed forms, of smooth pieces Gauss quadrature to about
// 1e-13 of the value. Crossings found by offsetting are polished to 1e-12 mm.
// Flattening puts every vertex on the curve; no chord leaves it by more than
// the stated chordal tolerance.
//
// # Failure
//
// A loop whose pieces do not join, or an offset that leaves nothing behind, is
// an error that says where. No function panics on a number.
package plane
