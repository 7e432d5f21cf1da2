// Package job reads the job file: the text in which a maker says what to build.
//
// # Model
//
// A job file is TOML 1.0 in UTF-8 (a byte-order mark and CRLF line ends do no
// harm; multi-line inline tables of TOML 1.1 are read too). One table, Keys,
// says of every key where it stands, what it takes, what holds when it is left
// out and what it means. Decoding, range checks, the template of a new job, the
// reference and the advice on misspelt keys all come from that table.
//
// Reading goes in three steps: the text becomes keys with values and lines; each
// value is checked against its row of the table; then the values are checked
// against each other and the defaults that hang on other keys are filled in. A
// value that is refused is replaced by its default for the rest of the reading,
// so that one mistake does not hide the next.
//
// A section in double brackets may stand several times. Its keys are then named
// with a number, from 0 in the order of the file: pinion.set_screw[1].size. So
// are they named in findings, and so With, Without, Line, Given and Raw take
// them.
//
// # Units
//
// In the file a quantity is a bare number in the unit of its key, or text of the
// form "NUMBER UNIT". In a Job lengths are millimetres, angles radians,
// shrinkage a fraction; profile shifts, addendum, dedendum and root radius are
// multiples of the module. Numbers in findings are in the unit of the key, as
// the maker wrote them.
//
// # Failure
//
// Everything wrong with a file is a find.Finding with its line; Read returns all
// of them, in line order (those about keys that do not stand in the file come
// first), but at most mostFindings of them. A Job comes back only when none is a
// fault. Nothing here panics, prints, or reads files.
package job
