// Package stock holds the tables a drive is made from: screws with their holes
// and heads, set screws, nuts, inserts, parallel keys, materials, the width a
// laser's beam removes, and the series of modules.
//
// # Model
//
// A table is a list of rows, and every row names where its figures come from.
// A source is a standard, a published table, "common practice" (a habit of the
// trade without a printed source) or "from memory" (a figure that nobody has
// compared with print yet). The functions return copies; nothing here changes
// while a program runs.
//
// # Units
//
// Lengths are millimetres, angles radians, densities kilograms per cubic metre,
// shrinkage a fraction of the length (0.003 is 0.3 %). Inch sizes are given in
// millimetres to 0.01.
//
// # Lookup
//
// Names are found in any mixture of upper and lower case. Nearest proposes the
// name that was probably meant when a lookup fails.
//
// # Failure
//
// A lookup that finds nothing says so with a second result of false. Nothing
// here panics, prints or guesses.
package stock
