// Package dxf writes and reads the outlines of a part as DXF drawings.
//
// # Writing
//
// A drawing is written at true size in the R2000 form (AC1015): $INSUNITS is 4
// and $MEASUREMENT is 1 for millimetres, 1 and 0 for inches. Every outline
// becomes one closed LWPOLYLINE, a whole circle too, so that everything in the
// file is of one kind. Lines and arcs are exact; an arc is a bulge of at most
// half a turn. Smooth pieces are replaced by arcs that join without a corner,
// or on request by chords, in both cases with their ends on the curve. An
// outline with bridges becomes several open LWPOLYLINE. The comments at the
// head of the file (group 999) state the unit and the tolerance.
//
// The R12 form (AC1009) holds the same as POLYLINE, VERTEX and SEQEND, with
// bulges. Its format has no place for the unit: only the comment states it.
//
// # Reading
//
// Read understands text files of R12, R2000 and later: LINE, ARC, CIRCLE,
// LWPOLYLINE and POLYLINE, with bulges. Loose lines, arcs and open polylines
// are chained into closed outlines by their ends. Lengths come out in mm
// whatever the file's unit; a file that names none is read as mm and the
// result says so. Entities that could hold an outline and are not understood
// (SPLINE, ELLIPSE, INSERT and so on) are refused by name; words, points and
// dimensions are skipped and named in the result.
//
// # Units
//
// Lengths given and returned are millimetres, angles radians. A loop keeps its direction: Write
// and Read do not decide which side is material.
//
// # Failure
//
// Errors of Read are *Error and name the line. A file that is too large, too
// long in a line or too rich in pieces is refused as soon as that shows;
// nothing is allocated on the strength of a number in the file. No function
// panics.
package dxf
