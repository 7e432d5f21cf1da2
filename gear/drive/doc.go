// Package drive is the order of work: a job goes in; the pair, its parts and
// the findings come out.
//
// Resolve works a job out. Check does the same and adds to every finding its
// line and the cures, found by trying: a cure is a key and a value that, set
// alone in the job, removes the finding without adding a fault.
//
// Lengths are millimetres and angles radians, as in the packages below.
package drive

import (
	"math"

	"ringtrack/gear"
	"ringtrack/gear/budget"
	"ringtrack/gear/find"
	"ringtrack/gear/job"
	"ringtrack/gear/part"
	"ringtrack/gear/solid"
)

// Design is a job worked out.
type Design struct {
	Job      *job.Job
	Pair     *gear.Pair // nil when no teeth can be drawn; a fault says why
	Pinion   Member
	Ring     Member
	Ledger   []gear.Row
	Screws   []ScrewFit     // what the pinion's set screws come to
	Load     *Load          // nil without a motor
	Budget   *budget.Result // nil where the teeth have faults, or a spread has; a fault says which
	Findings []find.Finding

	from  solved         // what the teeth were made from
	sound bool           // no fault was found in the teeth
	spent []find.Finding // of the budget, in its own terms
}

// Member is one member's part.
type Member struct {
	Make   bool
	Making gear.Making
	Bore   *part.Bore
	Holes  *part.Holes
	Outer  float64    // outer diameter as designed; the ring's only
	Shape  part.Shape // what the body has beyond its section
	Body   part.Body
	Drawn  bool        // the body's drawn contours are there
	Solid  *solid.Body // the body as the files hold it, when drawn
	Gauge  gear.Drawn
	Volume float64 // mm3, as the files hold it; 0 when not drawn
	Mass   float64 // g, of the full body as the files hold it; 0 when the material is unknown
}

// Verdict returns good, caution or fault.
func (d *Design) Verdict() string { return find.Worst(d.Findings) }

// Faulty reports whether any finding is a fault.
func (d *Design) Faulty() bool { return find.Count(d.Findings, find.Fault) > 0 }

// Cautions are shown with every result: what turning gears, motors and cutters
// can do. They are never empty.
func Cautions() []string {
	return []string{
		"Turning gears draw fingers, hair, cords and sleeves in where the teeth meet, at any speed and on both sides of the pinion when it reverses: put a fixed guard over the mesh. A gap chosen against crushing does not make it safe.",
		"Isolate the supply and let everything come to rest before reaching in; put a fuse at the battery.",
		"Not for lifting or carrying people, and not for overhead loads: printed and cut plastics creep, split and soften with heat.",
		"Local codes and licensed trades come first where they apply; this tool replaces neither.",
	}
}

// Reach returns the drawn part's greatest radius, mm.
func (m *Member) Reach() float64 {
	reach := 0.0
	if m.Solid == nil {
		return 0
	}
	for _, w := range m.Solid.Walls {
		_, r := w.Loop.Radii()
		reach = math.Max(reach, r+w.Loop.Centre.Len())
	}
	return reach
}
