package stock

import (
	"math"
	"strings"
)

// Head is the head of one size of machine screw, with the room that it wants.
type Head struct {
	Name     string  // of the thread: M3, #10
	Kind     string  // cap, countersunk, button
	Diameter float64 // mm, greatest; countersunk: of the sharp, theoretical edge
	Actual   float64 // mm, greatest over the rounded edge of a countersunk head; 0 where the source has none
	Height   float64 // mm, greatest
	Key      float64 // mm, across the flats of the hexagon key; 0: no hexagon socket
	Bore     float64 // mm, diameter of the counterbore; cap only
	Sink     float64 // mm, depth of the counterbore; cap only
	Angle    float64 // radians, full angle of the cone; countersunk only
	Source   string
	RoomFrom string // source of Bore and Sink; cap only
}

const (
	iso4762   = "ISO 4762, knurled head, as reprinted in a fastener dealer's table"
	iso4762x  = "ISO 4762, from memory"
	iso10642  = "ISO 10642, as reprinted in two dealers' tables; actual diameter DIN 7991"
	iso10642x = "ISO 10642, from memory"
	iso7046   = "ISO 7046-1, from memory"
	iso7380   = "ISO 7380-1, from memory"
	din974    = "DIN 974-1, from memory"
	asmeCap   = "ASME B18.3, from memory"
	asmeRoom  = "ASME B18.3 appendix, from memory"
	right     = math.Pi / 2
	inchCone  = 82 * math.Pi / 180
	sunk      = "countersunk"
)

// heads lists cap heads, countersunk heads, button heads, metric before inch.
var heads = []Head{
	{"M2", "cap", 3.98, 0, 2.0, 1.5, 4.4, 2.2, 0, iso4762, din974},
	{"M2.5", "cap", 4.68, 0, 2.5, 2.0, 5.1, 2.7, 0, iso4762, din974},
	{"M3", "cap", 5.68, 0, 3.0, 2.5, 6.5, 3.4, 0, iso4762, din974},
	{"M4", "cap", 7.22, 0, 4.0, 3.0, 8.0, 4.4, 0, iso4762, din974},
	{"M5", "cap", 8.72, 0, 5.0, 4.0, 10.0, 5.4, 0, iso4762, din974},
	{"M6", "cap", 10.22, 0, 6.0, 5.0, 11.0, 6.4, 0, iso4762, din974},
	{"M8", "cap", 13.27, 0, 8.0, 6.0, 15.0, 8.6, 0, iso4762, din974},
	{"M10", "cap", 16.27, 0, 10.0, 8.0, 18.0, 10.6, 0, iso4762x, din974},
	{"#4", "cap", 4.65, 0, 2.84, 2.38, 5.56, 2.9, 0, asmeCap, asmeRoom},
	{"#5", "cap", 5.21, 0, 3.18, 2.38, 6.35, 3.2, 0, asmeCap, asmeRoom},
	{"#6", "cap", 5.74, 0, 3.51, 2.78, 7.14, 3.6, 0, asmeCap, asmeRoom},
	{"#8", "cap", 6.86, 0, 4.17, 3.57, 7.94, 4.2, 0, asmeCap, asmeRoom},
	{"#10", "cap", 7.92, 0, 4.83, 3.97, 9.53, 4.9, 0, asmeCap, asmeRoom},

	{"M2", sunk, 4.4, 3.8, 1.2, 0, 0, 0, right, iso7046, ""},
	{"M2.5", sunk, 5.5, 4.7, 1.5, 0, 0, 0, right, iso7046, ""},
	{"M3", sunk, 6.72, 6.0, 1.86, 2.0, 0, 0, right, iso10642, ""},
	{"M4", sunk, 8.96, 8.0, 2.48, 2.5, 0, 0, right, iso10642, ""},
	{"M5", sunk, 11.20, 10.0, 3.10, 3.0, 0, 0, right, iso10642, ""},
	{"M6", sunk, 13.44, 12.0, 3.72, 4.0, 0, 0, right, iso10642, ""},
	{"M8", sunk, 17.92, 16.0, 4.96, 5.0, 0, 0, right, iso10642, ""},
	{"M10", sunk, 22.40, 20.0, 6.20, 6.0, 0, 0, right, iso10642x, ""},
	{"#4", sunk, 6.48, 0, 2.11, 1.59, 0, 0, inchCone, asmeCap, ""},
	{"#5", sunk, 7.14, 0, 2.29, 1.98, 0, 0, inchCone, asmeCap, ""},
	{"#6", sunk, 7.80, 0, 2.46, 1.98, 0, 0, inchCone, asmeCap, ""},
	{"#8", sunk, 9.12, 0, 2.84, 2.38, 0, 0, inchCone, asmeCap, ""},
	{"#10", sunk, 10.44, 0, 3.23, 3.18, 0, 0, inchCone, asmeCap, ""},

	{"M3", "button", 5.7, 0, 1.65, 2.0, 0, 0, 0, iso7380, ""},
	{"M4", "button", 7.6, 0, 2.20, 2.5, 0, 0, 0, iso7380, ""},
	{"M5", "button", 9.5, 0, 2.75, 3.0, 0, 0, 0, iso7380, ""},
	{"M6", "button", 10.5, 0, 3.30, 4.0, 0, 0, 0, iso7380, ""},
	{"M8", "button", 14.0, 0, 4.40, 5.0, 0, 0, 0, iso7380, ""},
	{"M10", "button", 17.5, 0, 5.50, 6.0, 0, 0, 0, iso7380, ""},
}

// Heads returns all rows: cap, countersunk, button, metric before inch.
func Heads() []Head { return append([]Head(nil), heads...) }

// FindHead returns the head of a kind for a thread, and whether there is one.
//
//	kind    cap, countersunk, button
//	thread  M3, #10, in any case
func FindHead(kind, thread string) (Head, bool) {
	for _, h := range heads {
		if h.Kind == kind && strings.EqualFold(h.Name, thread) {
			return h, true
		}
	}
	return Head{}, false
}

// HeadNames returns the threads for which there is a head of the kind.
func HeadNames(kind string) []string {
	var names []string
	for _, h := range heads {
		if h.Kind == kind {
			names = append(names, h.Name)
		}
	}
	return names
}
