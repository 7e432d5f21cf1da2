package stock

import "strings"

// Tap is one thread with the holes in which it is cut or cuts itself.
type Tap struct {
	Name   string  // M3, #10 (the coarse thread), #10-32
	Major  float64 // mm, outside diameter of the thread
	Pitch  float64 // mm
	Deep   float64 // mm, hole for 75 % of the thread's depth: plastic and soft metal
	Half   float64 // mm, hole for 50 %: hard material, or a thread that turns easily
	Source string  // of both holes
}

const (
	metricTap = "metric hole chart (75 % and 50 % of the thread's depth)"
	inchTap   = "inch drill and tap chart (75 % and 50 %), inches x 25.4"
	inchTap5  = "inch drill and tap chart, from memory: drills No. 38 and No. 33"
)

// taps lists the threads, metric first, each by rising size; of #10 the coarse
// thread stands first.
var taps = []Tap{
	{"M2", 2, 0.40, 1.60, 1.75, metricTap},
	{"M2.5", 2.5, 0.45, 2.05, 2.20, metricTap},
	{"M3", 3, 0.50, 2.50, 2.70, metricTap},
	{"M4", 4, 0.70, 3.30, 3.50, metricTap},
	{"M5", 5, 0.80, 4.20, 4.50, metricTap},
	{"M6", 6, 1.00, 5.00, 5.40, metricTap},
	{"M8", 8, 1.25, 6.80, 7.20, metricTap},
	{"M10", 10, 1.50, 8.50, 9.00, "metric hole chart, from memory"},
	{"#4", 2.84, 25.4 / 40, 2.26, 2.44, inchTap},
	{"#5", 3.18, 25.4 / 40, 2.58, 2.87, inchTap5},
	{"#6", 3.51, 25.4 / 32, 2.71, 2.95, inchTap},
	{"#8", 4.17, 25.4 / 32, 3.45, 3.66, inchTap},
	{"#10", 4.83, 25.4 / 24, 3.80, 4.09, inchTap},
	{"#10-32", 4.83, 25.4 / 32, 4.04, 4.31, inchTap},
}

// Taps returns all threads, metric before inch, each by rising size.
func Taps() []Tap { return append([]Tap(nil), taps...) }

// FindTap returns the thread called name, in any case, and whether there is one.
func FindTap(name string) (Tap, bool) {
	for _, t := range taps {
		if strings.EqualFold(t.Name, name) {
			return t, true
		}
	}
	return Tap{}, false
}

// How a screw that forms its own thread in plastic is held, as multiples of the
// thread's outside diameter.
const (
	PilotHole       = 0.80 // hole
	PilotBoss       = 2.0  // outside diameter of the material around it
	PilotEngagement = 2.0  // length in the hole
)

// PilotSource is where PilotHole, PilotBoss and PilotEngagement come from.
const PilotSource = "a screw maker's design guide for ABS and similar plastics (other plastics 0.75 to 0.85)"

// Pilot returns the hole, in mm, in which a screw of the named size forms its
// own thread in plastic, and whether the size is known.
func Pilot(name string) (hole float64, ok bool) {
	s, ok := FindScrew(name)
	return PilotHole * s.Major, ok
}
