// Package stl writes and reads meshes as STL files.
//
// The written form is binary: a header of 80 bytes, the number of facets, then
// 50 bytes a facet, all little-endian: unit normal and three corners as 32-bit
// numbers, and two bytes of zero. A file says nothing of its unit; ours are in
// millimetres. The header begins with the tool's name and never with "solid",
// which readers take for the mark of the text form.
//
// Corners are rounded once by vertex (solid.Mesh.Float32), so that corners that
// were one are still equal, bit for bit. Normals are computed from the rounded
// corners.
//
// Both forms are read. Corners with equal coordinates become one vertex again.
// A file is never trusted about its length: what it promises is compared with
// what there is, and nothing is allocated on its word.
package stl
