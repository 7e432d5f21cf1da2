// Package roll turns two outlines against each other: an external pinion inside
// an internal ring. It knows no gears: an outline is a closed loop of exact
// pieces, and every answer is about those pieces.
//
// # Model
//
// The ring's axis is the origin, the pinion's axis lies at (+a, 0). Both
// members turn counter-clockwise by positive angles; at angle 0 they lie as
// their loops are given, the loop's centre (moved by its eccentricity) on the
// axis. Pinion tooth 0 is the one nearest to +x at angle 0, ring space 0
// likewise; ring tooth j stands between the spaces j and j+1. Numbers grow
// counter-clockwise.
//
// With the pinion held, the ring can turn freely over an interval of angles:
// Lo <= angle <= Hi. A ring driven counter-clockwise by the pinion lies at Lo,
// driven clockwise at Hi. Where Lo > Hi the two bind, by Lo - Hi.
//
// # Method
//
// Turning the ring moves each of its points on a circle about the origin, so a
// point of one outline can meet the other outline only at points of the same
// radius. Between a flank of the pinion and the flank of the ring that faces it
// the angular gap is a function of the radius alone, and the ring can turn until
// its least value is used up. The least value lies at a corner of either flank
// or where their tangents agree. The slope of a flank's polar angle is
// d/(r sqrt(r² - d²)), with d the signed distance of the tangent from the origin:
// the sign of the gap's slope is that of a difference of two such distances,
// which costs a few multiplications, and angles are needed only at the few
// radii where it changes. For two straight edges the difference is constant, so
// nothing but corners can touch; for curves the radius at which it vanishes is
// found by a bracketed iteration.
//
// Only teeth whose radius about the origin reaches the ring's tips are looked at,
// of these only the pieces that do, and of the ring only the two teeth beside
// each: time grows with the points near the mesh, not with all points.
//
// # Units and signs
//
// Lengths are millimetres and angles radians.
//
// # Accuracy
//
// The interval's ends are those of the given pieces to rounding, about 1e-15
// rad times the loop's size over its distance from the axis. Curves are divided
// into stretches that turn by at most 0.1 rad and do not change the sign of
// their curvature; the gap between two such stretches is taken to have at most
// one least value inside.
//
// Fixed small numbers, all relative: directions that differ by less than 1e-7 rad
// do not make a corner; a stretch whose radius changes by less than 1e-12 of
// itself lies on a circle about the axis and is represented by its ends; radii
// that differ by 1e-13 of themselves do not make an outline fold back. What the
// caller may choose (Join, Touch) is in Options.
//
// What the free interval does not say: that the ring can be brought there. Two
// teeth that overlap count as overlapping over the whole range of angles in
// which any part of them does.
//
// # Failure
//
// Loops that cannot be rolled (not closed, crossing themselves, without teeth,
// out of reach, crossing each other however the ring is turned) are errors of
// kind *InputError. Binding is a result. Nothing panics on a number.
package roll
