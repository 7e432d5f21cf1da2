// Package svg writes and reads the outlines of a part as SVG at true size, and
// renders figures as SVG.
//
// # Writing outlines
//
// One user unit is one millimetre: width and height are given in mm and the
// viewBox has the same numbers. The drawing's origin stays the origin of the
// file; y is turned over in the coordinates themselves, so no transform is
// needed. Every outline is one path of M, L, A and Z with absolute coordinates
// and a blank between all numbers, arc flags too. Lines and arcs are exact (an
// arc is written in parts of at most a quarter turn, whose radius and ends
// cannot contradict each other); smooth pieces become arcs that join without a
// corner, or on request chords, in both cases with their ends on the curve. An
// outline with bridges is a path of several open runs. The metadata state unit
// and tolerance.
//
// # Reading
//
// Read takes path, rect, circle, ellipse, polygon and polyline, in groups, with
// transforms; lengths come out in mm by width, height and viewBox, y upward,
// about the file's origin. Open runs of one path that follow one another end to
// end, within a gap that can be given, are one outline. Circular arcs stay arcs, other curves become chords
// to a stated tolerance. What would show an outline and is not understood (use,
// nested svg, scripts' output and so on) is refused by name; words and pictures
// are skipped and named in the result.
//
// # Units
//
// Lengths are millimetres, angles radians. Loops keep their direction as it
// is seen: counter-clockwise stays counter-clockwise.
//
// # Failure
//
// Errors of Read are *Error and name the line. Document types with entities are
// refused, and so are files too large, too deep or too rich in pieces. No
// function panics.
package svg
