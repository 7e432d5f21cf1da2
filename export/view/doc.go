// Package view draws a part as it looks: its edges, with those hidden left out,
// over areas of tone that show which way its faces turn. It works from a mesh
// and needs no graphics card.
//
// # Model
//
// The eye is far away in a given direction, so that parallel edges stay
// parallel. Three kinds of edges are drawn: creases, where two facets that face
// the eye meet at more than a stated angle; contours, where a facet that faces
// the eye meets one that does not and the part lies behind; and the rims of a
// mesh that is not closed. What hides what is decided on a raster: each pixel
// knows the depth of the nearest facet. An edge is tried once a pixel along its
// length. Edges are joined into lines before that, so that a single pixel's
// doubt neither breaks a line nor leaves a dot.
//
// Tones are traced on the same raster: the areas at least so dark, one over the
// other, so that no gap shows between them.
//
// # Units
//
// Lengths of the mesh are millimetres; the drawing is in millimetres of paper,
// x to the right and y upward, its origin where the mesh's origin is seen.
// Angles are radians.
//
// # Accuracy
//
// Lines lie within figure.PaperChord of the projected edges. Their ends, where
// something hides the rest, lie within two pixels, and so do the tones' borders;
// pieces shorter than three pixels are left out. Lines go beyond their ends by 0.4
// of their width, so that corners are full. A pixel is the greater side of
// the drawing divided by Options.Raster. Edges nearer than a pixel to a face in
// front of them may show through.
//
// # Failure
//
// A mesh without facets, a number that is not finite and an option out of range
// are errors that name it. No function panics.
package view
