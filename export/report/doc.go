// Package report tells what a design is: report.json for scripts, report.txt
// for the builder, and the plain blocks that `check` prints.
//
// Lengths are written in mm, angles in degrees, masses in g. JSON numbers carry
// nine significant digits; what does not apply is null; there is no NaN. Keys
// are added, never renamed. The text keeps to 100 columns.
package report

import (
	"ringtrack/gear/drive"
)

// Version is the tool's version, written into every report.
const Version = "0.1.0"

// Format is the version of report.json's layout.
const Format = 1

// File is one file of a set.
type File struct {
	Name   string
	Part   string // empty for files about the whole
	Format string
	Bytes  int64
	SHA256 string
}

// Solid is what a part's mesh came to.
type Solid struct {
	Part      string
	Triangles int
}

// Built is what a build adds to a design; the zero value is a check alone.
type Built struct {
	Files   []File
	Solids  []Solid
	Rolled  *Rolled
	Cutting Cutting
}

// solid returns a part's triangles, 0 when no mesh was made.
func (b Built) triangles(part string) int {
	for _, s := range b.Solids {
		if s.Part == part {
			return s.Triangles
		}
	}
	return 0
}

func (b Built) filesOf(part string) []string {
	out := []string{}
	for _, f := range b.Files {
		if f.Part == part {
			out = append(out, f.Name)
		}
	}
	return out
}

// members returns the design's members with their names, in order.
func members(d *drive.Design) []struct {
	name   string
	member *drive.Member
} {
	return []struct {
		name   string
		member *drive.Member
	}{{"pinion", &d.Pinion}, {"ring", &d.Ring}}
}
