// Package solid describes bodies exactly and makes closed triangle meshes of them.
//
// # Model
//
// A Mesh is a list of vertices and a list of facets that name them by index.
// Every mesh made here is closed and outward: seen from outside, the corners
// of a facet run counter-clockwise, and every edge is used by exactly two
// facets, once in each direction. Walls and caps share vertex indices, so
// nothing has to be glued together afterwards.
//
// A Body is exact: walls that stand on plane loops, square at their ends or with
// chamfers, cones and fillets, and channels that run through them toward the
// axis. Mesh, Section and Volume answer for the same shape. A Prism is the simple
// case of one region.
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
// points on one circle are ordinary input. No facet of a body leaves the exact
// surface by more than the chordal tolerance; where two surfaces meet in a sharp
// edge, that edge may lie farther off than either. What lies nearer along an
// outline than a 64th of the tolerance is drawn as one.
//
// The volume of a prism equals the area of its flattened outline times its height
// to 1e-12 of itself as long as the region is not thinner than a thousandth of
// its greatest width. Against the exact shape a volume differs by at most the
// chordal tolerance times the curved surface's area.
//
// Files hold 32-bit numbers. Mesh.Float32 rounds every vertex once and repairs
// the facets that rounding has collapsed, or reports that the tolerance is
// finer than such numbers hold.
//
// # Failure
//
// An outline that touches or crosses itself or another, or that runs the wrong
// way round, is a *ShapeError with the points concerned. A channel that cannot be
// drilled is a *ChannelError, which says what would do: the heights that clear a
// level or a slope, the radius that stays on a wall. No function panics on a
// number.
//
// # What a body cannot have
//
// Walls that cross at some height, or lie on one another: a hub's circle that
// leaves the teeth's outline, or two bores one above the other that have an arc
// in common. Slopes that add material, and round edges, on outlines with
// corners. Channels whose axes miss the z axis, or that meet a slope, a level or
// each other.
package solid
