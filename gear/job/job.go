package job

import (
	"path/filepath"
	"strings"

	"ringtrack/gear/find"
)

// Job is a job file, checked, with its defaults filled in. Lengths are mm,
// angles radians. A Job is not changed after Read; With and Without make others.
type Job struct {
	Name     string // the file's base name without .toml
	Title    string
	Format   int
	Teeth    Teeth
	Pinion   Member
	Ring     Member
	Mounting Mounting
	Motor    *Motor    // nil for none
	Platform *Platform // nil for none
	Sheet    *Sheet    // nil for none
	Output   Output

	given   map[string]entry
	headers map[string]int
}

// Setting is a number that the tool may choose.
type Setting struct {
	Value float64
	Given bool // false: the tool chooses; Value is 0
}

// Teeth is what the teeth of both members have in common.
type Teeth struct {
	Module, PressureAngle  float64
	Pinion, Ring           int     // numbers of teeth
	PinionShift, RingShift Setting // profile shift coefficients
	CentreDistance         Setting
	Backlash               Setting // circumferential, on the working circles
	BacklashAuto           bool    // the budget chooses it
	LeastPlay              Setting // of it that must be left
	FlexibleAllowance      Setting // of it, given up because flanks yield; not given: the tool chooses
	BacklashShare          float64 // taken from the pinion
	Rack                   byte    // 'A' to 'D'
	LeastTip               float64 // narrowest tip allowed
}

// Member is the pinion or the ring.
type Member struct {
	Make                           bool
	FaceWidth                      float64
	Material                       string // name in stock, empty for none
	Figures                        Figures
	TipDiameter                    Setting
	TipRelief                      Setting    // not given: the tool chooses
	Addendum, Dedendum, RootRadius Setting    // over the module; not given: the rack's
	Bore                           *Bore      // pinion only; nil for none
	Hub                            *Hub       // pinion only; nil for none
	SetScrews                      []SetScrew // pinion only, in the order of the file
	Flange                         *Flange    // pinion only; nil for none
	Bolts                          *Bolts     // nil for none
	OuterDiameter                  Setting    // ring only
	Step                           *Step      // ring only; nil for none
	StandOff                       float64    // ring only
	Making                         Making
}

// Making is how one member is made, with the overrides of its own section.
type Making struct {
	Kind             string  // printed, cut, exact
	LineWidth, Layer float64 // 0 unless printed
	Growth           float64 // per side, 0 unless printed
	HoleShrink       float64 // in total, 0 unless printed
	Shrinkage        float64 // fraction, 0 unless printed
	Kerf             float64 // in total, 0 unless cut
	Edge             float64 // 45 degree chamfer on both faces, 0 when cut
	Foot             float64 // spread of the first layer per side, 0 unless printed
	Spread           float64 // of flanks, either way
	Bed              [3]float64
	Measured         Measured
	Infill           float64 // fraction of the inside, 0 unless printed
	Walls            int     // lines around every outline, 0 unless printed
	Upright          bool    // printed standing
	Cutting          Cutting // the zero value unless cut
	ShrinkageSource  string  // where it comes from when not given, else empty
	KerfSource       string  // likewise
}

// Measured says which allowances the file gives; the others are defaults.
type Measured struct{ Growth, HoleShrink, Shrinkage, Kerf bool }

// Mounting is how well the members are held.
type Mounting struct {
	CentreDistanceSpread float64 // either way
	Play
}

// Output is what is written.
type Output struct {
	Tolerance float64 // greatest distance of a chord from the curve
	Formats   []string
	Paper
}

// Read reads a job file.
//
//	name  the file's name; its base without .toml becomes the job's name
//	data  the file's bytes, at most 1 MB
//
// All findings come back, in line order. The job is nil if any is a fault.
func Read(name string, data []byte) (*Job, []find.Finding) {
	items, found := scan(data)
	if items == nil && len(found) > 0 {
		return nil, found
	}
	base := strings.TrimSuffix(filepath.Base(filepath.ToSlash(name)), ".toml")
	j, found := newReading(base, items, found).finish()
	if j != nil {
		if bad := strict(data); bad != nil {
			return nil, bad
		}
	}
	return j, found
}

// finish makes the job, unless something is a fault.
func (r *reading) finish() (*Job, []find.Finding) {
	j := r.job()
	r.agree()
	find.Sort(r.found)
	if find.Count(r.found, find.Fault) > 0 {
		return nil, r.found
	}
	return j, r.found
}

// Line returns the line of a key, given as section.key, or of a section's
// header; 0 when it does not stand in the file. Repeated sections are numbered
// from 0: pinion.set_screw[0].size.
func (j *Job) Line(key string) int {
	if e, ok := j.given[key]; ok {
		return e.line
	}
	return j.headers[key]
}

// Given reports whether a key, given as section.key, stands in the file (or was
// set by With).
func (j *Job) Given(key string) bool {
	_, ok := j.given[key]
	return ok
}

// Raw returns the value of a key as it is written in the file, empty when it
// does not stand there.
func (j *Job) Raw(key string) string { return j.given[key].raw }

// With returns the job with one key set, by the same rules as Read.
//
//	key    section.key; in a repeated section section[n].key, n from 0: the
//	       number behind the last one makes another such section
//	value  as it would be written in the file: 0.16, "auto", [1, 2, 3]
//
// The other keys and all lines stay; a new key has line 0. The job is nil if any
// finding is a fault. The text of the file is not read again.
func (j *Job) With(key, value string) (*Job, []find.Finding) {
	r := j.again()
	line := r.given[key].line
	section, name := split(key)
	text := []byte(name + " = " + value)
	items, found := scanUnder(section, text)
	if len(items) != 1 || items[0].path != key || items[0].kind == kindNone || strict(text) != nil && found == nil {
		return nil, []find.Finding{fault(find.NotReadable, key, line, "this is not one value: "+clip(value))}
	}
	for i := range found {
		found[i].Line = line
	}
	r.found = found
	delete(r.given, key)
	items[0].line = line
	r.take(items[0])
	return r.finish()
}

// Without returns the job with one key left out; with a whole section left out
// when key is one: of a repeated section section[n] is one of them, those behind
// it move up, and section is all of them. Otherwise as With.
func (j *Job) Without(key string) (*Job, []find.Finding) {
	r := j.again()
	delete(r.given, key)
	if _, ok := r.headers[key]; ok || index.sections[plain(key)].name != "" {
		r.given, r.headers = drop(r.given, key), drop(r.headers, key)
	}
	return r.finish()
}
