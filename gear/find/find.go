// Package find defines findings: what a check found, where, what is allowed and
// what to change. A finding is a value; commands print it, nothing here does.
//
// It knows nothing of gears and imports nothing of ours. Numbers in a finding
// are in the unit that the finding names, as a person reads them (mm, deg, %).
package find

import (
	"fmt"
	"sort"
)

// Level is how bad a finding is.
type Level int

// The levels, worst first.
const (
	Fault   Level = iota // the design, or the job, must change
	Caution              // it can be built; read this first
	Note                 // worth knowing
)

// String returns the level's word.
func (l Level) String() string { return [...]string{"fault", "caution", "note"}[l] }

// MarshalText writes the level's word.
func (l Level) MarshalText() ([]byte, error) { return []byte(l.String()), nil }

// Change is one cure: the key to set and the value to set it to, as it would be
// written in the job file; without a value the key is to be left out. Applied
// alone it removes the finding.
type Change struct {
	Key   string `json:"key"`
	Value string `json:"value"`
}

// Finding is one thing found.
type Finding struct {
	Code   Code
	Level  Level
	About  string   // the job's key as section.key, or a part's name
	Line   int      // in the job file, 0 when the key does not stand there
	Found  *float64 // in Unit; nil when no number says it
	Limit  *float64 // in Unit; nil when there is none
	Unit   string   // mm, deg, %, or empty
	Text   string   // one sentence in the words of the workshop
	Change []Change // each alone a cure
}

// Num returns a pointer to v, for Found and Limit.
func Num(v float64) *float64 { return &v }

// Error makes a finding usable as an error.
func (f Finding) Error() string {
	if f.Line > 0 {
		return fmt.Sprintf("line %d: %s: %s", f.Line, f.About, f.Text)
	}
	return fmt.Sprintf("%s: %s", f.About, f.Text)
}

// Sort orders findings by level, then line, then key, then code; equal ones
// keep their order.
func Sort(fs []Finding) {
	sort.SliceStable(fs, func(i, k int) bool {
		a, b := fs[i], fs[k]
		switch {
		case a.Level != b.Level:
			return a.Level < b.Level
		case a.Line != b.Line:
			return a.Line < b.Line
		case a.About != b.About:
			return a.About < b.About
		}
		return a.Code < b.Code
	})
}

// Count returns how many findings have the level.
func Count(fs []Finding, l Level) int {
	n := 0
	for _, f := range fs {
		if f.Level == l {
			n++
		}
	}
	return n
}

// Worst returns the verdict over all findings: good, caution or fault.
func Worst(fs []Finding) string {
	switch {
	case Count(fs, Fault) > 0:
		return "fault"
	case Count(fs, Caution) > 0:
		return "caution"
	}
	return "good"
}
