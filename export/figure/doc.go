// Package figure holds drawings before they become files.
//
// # Two kinds
//
// A Drawing is a part at true size: closed outlines by layer, for a cutter or a
// drill. A Figure is a picture on paper: shapes, words, dimensions and a legend,
// for a reader. Packages dxf and svg write drawings, svg and png render
// figures.
//
// # Units
//
// Lengths are millimetres, of the part in a Drawing and of the paper in a
// Figure; x to the right, y upward, the paper's origin at its lower left. Angles
// are radians, counter-clockwise. The height of text is that of its capital
// letters, as on technical drawings (ISO 3098).
//
// # Text
//
// Text becomes outlines of one embedded open font, so that a figure looks the
// same everywhere and has the same bytes. The font has Latin, Greek and
// Cyrillic letters and the usual signs; a letter that it lacks shows as an
// empty box.
//
// # Failure
//
// A figure with a number that is not finite, or far off its paper, is an error
// that names the item. No function panics.
package figure
