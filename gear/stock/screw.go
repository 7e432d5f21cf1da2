package stock

import "strings"

// Screw is one size of machine screw and the holes it passes through.
type Screw struct {
	Name   string  // M3, #10
	Major  float64 // mm, outside diameter of the thread
	Fine   float64 // mm, close clearance hole
	Medium float64 // mm, the usual clearance hole
	Coarse float64 // mm, loose clearance hole; 0 where the source has none
	Source string  // of the holes
}

const (
	iso273    = "ISO 273:1979 (fine H12, medium H13, coarse H14), as reprinted in a fastener dealer's table"
	drillTap  = "inch drill and tap chart: close and free holes, inches x 25.4"
	drillMind = "inch drill and tap chart, from memory: drills No. 30 and No. 29"
)

// screws lists the sizes, metric first, each by rising size. The inch chart
// knows close and free holes only; free stands as the usual one.
var screws = []Screw{
	{"M2", 2, 2.2, 2.4, 2.6, iso273},
	{"M2.5", 2.5, 2.7, 2.9, 3.1, iso273},
	{"M3", 3, 3.2, 3.4, 3.6, iso273},
	{"M4", 4, 4.3, 4.5, 4.8, iso273},
	{"M5", 5, 5.3, 5.5, 5.8, iso273},
	{"M6", 6, 6.4, 6.6, 7.0, iso273},
	{"M8", 8, 8.4, 9.0, 10.0, iso273},
	{"M10", 10, 10.5, 11.0, 12.0, iso273},
	{"#4", 2.84, 2.95, 3.26, 0, drillTap},
	{"#5", 3.18, 3.26, 3.45, 0, drillMind},
	{"#6", 3.51, 3.66, 3.80, 0, drillTap},
	{"#8", 4.17, 4.31, 4.50, 0, drillTap},
	{"#10", 4.83, 4.98, 5.11, 0, drillTap},
}

// Screws returns all sizes, metric before inch, each by rising size.
func Screws() []Screw { return append([]Screw(nil), screws...) }

// ScrewNames returns the names of all sizes in the order of Screws.
func ScrewNames() []string {
	names := make([]string, len(screws))
	for i, s := range screws {
		names[i] = s.Name
	}
	return names
}

// FindScrew returns the size called name, in any case ("m3" is M3), and whether
// there is one.
func FindScrew(name string) (Screw, bool) {
	for _, s := range screws {
		if strings.EqualFold(s.Name, name) {
			return s, true
		}
	}
	return Screw{}, false
}
