// Package solid makes closed triangle meshes from plane regions.
//
// # Model
//
// A Mesh is a list of vertices and a list of facets that name them by index.
// Every mesh made here is closed and outward: seen from outside, the corners
// of a facet run counter-clockwise, and every edge is used by exactly two
// facets, once in each direction. Walls and caps share vertex indices, so
// nothing has to be glued together afterwards.
//
// A flat face is first swept for edges that touch or cross, then its points are
// triangulated with the outline's edges kept (constrained Delaunay), so that its
// triangles are as fat as the outline allows. Every point of an outline becomes
// a corner; no point lies on the inside of an edge.
//
// # Units and signs
//
// Lengths are millimetres. A region's material lies on the left of its loops;
// outer loops run counter-clockwise, holes clockwise.
//
// # Accuracy
//
// Orientation is decided exactly: equal coordinates, collinear points and
// points on one circle are ordinary input. The volume of a prism equals the
// area of its flattened outline times its height to 1e-12 of itself as long as
// the region is not thinner than a thousandth of its greatest width. Against
// the exact outline the volume differs by at most the chordal tolerance times
// the curved wall's area.
//
// Files hold 32-bit numbers. Mesh.Float32 rounds every vertex once and repairs
// the facets that rounding has collapsed, or reports that the tolerance is
// finer than such numbers hold.
//
// # Failure
//
// An outline that touches or crosses itself or another, or that runs the wrong
// way round, is a *ShapeError with the points concerned. No function panics on
// a number.
package solid
