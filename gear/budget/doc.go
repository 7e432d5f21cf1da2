// Package budget carries the spreads of making, mounting and climate through to
// the backlash of a pair: how little and how much play is left, which cause
// takes most of it, whether it will bind, where, and what to change.
//
// # Model
//
// Backlash is j_wt, the arc on the nominal working circles by which one member
// can turn while the other stands. It follows the exact involute formula in
// everything that moves the axes, thickens the flanks or scales a member:
//
//	j_wt cos alpha_w = db2 psi2 - db1 psi1 - (db2 - db1) inv alpha',  cos alpha' = (rb2 - rb1)/a'
//
// psi half the angle of tooth (1) and space (2) on the base circles. The pair is
// internal, so a LARGER centre distance takes play away. What moves single teeth
// (an oval ring, steps at joints) is added to first order, tooth by tooth, over
// the teeth that touch at the time.
//
// The causes, with the sign and size of what each does to j_wt alone:
//
//	making spread s        -+ 2 s/cos alpha_w for each member: the whole part comes out fat or lean
//	centre distance S      -+ 2 S tan alpha_w
//	bearing play P         -+ P tan alpha_w: half of it, either way
//	run-out R, each member -+ R tan alpha_w: the eccentricity is R/2
//	ovality O              about -+ O tan alpha_w: the radius swings by O/2
//	tilt t, face width b   -b t max(tan alpha_w |cos|, |sin|) of the tilt's direction: never gains
//	joint step u           -u where teeth of both segments touch; + u where only the widened space does
//	temperature, moisture  the members and the plate between the axes grow by their own amounts
//
// A part's flanks are taken to come out alike, because the growth of a print or
// the width of a cut hardly changes within one part. Flanks that scatter one by
// one come to about the same: the least play over a turn of a hundred teeth then
// lies 5.0 sigma of a flank below the mean (2.5 deviations of the sum of four
// flanks), against 5.7 sigma for two fat parts taken at two deviations.
//
// Tips that run into roots, and corners that touch where flanks do not reach, are
// no part of the formula. The pair's outlines are therefore rolled over one pitch
// at the distances that the radial causes bring, and what the formula lacks there
// is added; where tips and roots stay clear that is nothing.
//
// # Worst case and root sum of square
//
// Every cause has an effect on the least play and one on the greatest. In the
// worst case all are added up. In the root sum of squares, causes that differ
// from build to build, or from day to day, are added as squares: half their
// range is taken as two standard deviations, so the figure is kept by 97.7 of
// 100 builds. Causes that come round in every turn of every build (run-out,
// ovality, joints, tilt) do not average out and are added in full, in both.
//
// # Builds by chance
//
// A build is an assembly on a day. Drawn at random: each member's making and
// the centre distance, normal with twice the standard deviation equal to the
// spread; the ring's place within the bearing's play, even over a disc; the
// temperature and the moisture, semicircular over their range (the same law as
// one coordinate of a disc: most days lie in the middle, none outside); the
// directions of run-outs, oval and tilt, even over the circle; the steps at the
// joints, normal with twice the standard deviation equal to the step, less their
// mean, because the ring closes. All of these have twice their standard
// deviation equal to the amount given, as the root sum of squares takes them.
// A build's least play is that over all meetings of all teeth; it binds when
// that is negative. Run-outs, ovality and tilt are as large as given.
//
// Random numbers come from the seed and the build's number alone, so results do
// not depend on the number of processors.
//
// # Rolled builds
//
// The formulas hold while involutes touch. Options.Rolled builds are therefore
// also rolled with their real outlines by package roll, tilted ones in two
// sections. If more than one in twenty disagree by more than 5 % and 0.005 mm,
// Options.MostRolled are; if more than one in twenty of those disagree too, their
// figures replace those of the formulas, and the result says so.
//
// # Places
//
// A place on the ring is its polar angle from the middle of space 0, counter-
// clockwise, in the ring's own frame; it is what faces the pinion when the
// platform has turned back by it. A joint lies in the middle of a space.
//
// # Units and signs
//
// Millimetres, radians, degrees Celsius; growth by temperature per kelvin, by
// moisture as a fraction. Effects are positive where they add play.
//
// # Accuracy
//
// The axes' part is exact to rounding; the teeth's part leaves out terms of
// second order in a displacement over the module. A build's least play over all
// meetings assumes that every phase of the pinion comes to every place of the
// ring; where the ratio is whole that never happens, and the figure is low by at
// most what pinion run-out and tilt move.
//
// # Failure
//
// What is wrong with spreads or the target is a find.Finding, about the job's
// key. Nothing here panics on a number, prints, or keeps state.
package budget
