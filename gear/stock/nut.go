package stock

import "strings"

// acrossCorners is a hexagon's width across its corners over that across its
// flats, 2/sqrt(3).
const acrossCorners = 1.1547005383792515

// Nut is one size of a plain nut.
type Nut struct {
	Name      string  // of the thread: M3, #10
	Shape     string  // hex, square
	Flats     float64 // mm, greatest width across flats
	FlatsLow  float64 // mm, least width across flats; 0 where the source has none
	Corners   float64 // mm, width across corners as the source prints it: hex least, square usual
	Height    float64 // mm, greatest
	HeightLow float64 // mm, least; 0 where the source has none
	Standard  string
	Source    string
}

// The room that a printed pocket gives a nut, in total, mm.
const (
	NutPlay  = 0.2 // across the flats: two published print guides
	NutDepth = 0.3 // in the direction of the thread: common practice
)

const (
	iso4032 = "ISO 4032:2001, table 1, as reprinted by five dealers and handbooks"
	din562  = "DIN 562, as reprinted in a fastener dealer's table"
	din557  = "DIN 557, as reprinted in a fastener reference table; corners those of DIN 562"
	asmeNut = "ASME B18.6.3, from memory"
)

// nuts lists hexagon nuts, then thin square nuts, then thick square ones.
//
// Bags of hexagon nuts still hold those of DIN 934, of the same width and
// heights of 4.0, 5.0 and 6.5 mm for M5, M6 and M8; tables that print these as
// ISO 4032 are wrong. Room for the higher nut takes both.
var nuts = []Nut{
	{"M2", "hex", 4.0, 3.82, 4.32, 1.6, 1.35, "ISO 4032", iso4032},
	{"M2.5", "hex", 5.0, 4.82, 5.45, 2.0, 1.75, "ISO 4032", iso4032},
	{"M3", "hex", 5.5, 5.32, 6.01, 2.4, 2.15, "ISO 4032", iso4032},
	{"M4", "hex", 7.0, 6.78, 7.66, 3.2, 2.9, "ISO 4032", iso4032},
	{"M5", "hex", 8.0, 7.78, 8.79, 4.7, 4.4, "ISO 4032", iso4032},
	{"M6", "hex", 10.0, 9.78, 11.05, 5.2, 4.9, "ISO 4032", iso4032},
	{"M8", "hex", 13.0, 12.73, 14.38, 6.8, 6.44, "ISO 4032", iso4032},
	{"#4", "hex", 6.35, 6.12, 6.98, 2.49, 2.21, "ASME B18.6.3", asmeNut},
	{"#5", "hex", 7.94, 7.67, 8.74, 2.90, 2.59, "ASME B18.6.3", asmeNut},
	{"#6", "hex", 7.94, 7.67, 8.74, 2.90, 2.59, "ASME B18.6.3", asmeNut},
	{"#8", "hex", 8.73, 8.43, 9.61, 3.30, 2.97, "ASME B18.6.3", asmeNut},
	{"#10", "hex", 9.53, 9.19, 10.48, 3.30, 2.97, "ASME B18.6.3", asmeNut},

	{"M2", "square", 4, 0, 5.0, 1.2, 0, "DIN 562", "DIN 562, from memory"},
	{"M2.5", "square", 5, 0, 6.3, 1.6, 0, "DIN 562", "DIN 562, from memory"},
	{"M3", "square", 5.5, 0, 7.0, 1.8, 0, "DIN 562", din562},
	{"M4", "square", 7, 0, 8.9, 2.2, 0, "DIN 562", din562},
	{"M5", "square", 8, 0, 10.2, 2.7, 0, "DIN 562", din562},
	{"M6", "square", 10, 0, 12.7, 3.2, 0, "DIN 562", din562},
	{"M8", "square", 13, 0, 16.5, 4.0, 0, "DIN 562", din562},

	{"M5", "square", 8, 0, 10.2, 4.0, 0, "DIN 557", din557},
	{"M6", "square", 10, 0, 12.7, 5.0, 0, "DIN 557", din557},
	{"M8", "square", 13, 0, 16.5, 6.5, 0, "DIN 557", din557},
}

// Nuts returns all rows: hexagon nuts, thin square nuts, thick square nuts.
func Nuts() []Nut { return append([]Nut(nil), nuts...) }

// FindNut returns the nut of a shape for a thread, and whether there is one. Of
// square nuts it is the thin one of DIN 562.
//
//	shape   hex, square
//	thread  M3, #10, in any case
func FindNut(shape, thread string) (Nut, bool) {
	for _, n := range nuts {
		if n.Shape == shape && strings.EqualFold(n.Name, thread) {
			return n, true
		}
	}
	return Nut{}, false
}

// NutNames returns the threads for which there is a nut of the shape.
func NutNames(shape string) []string {
	var names []string
	for _, n := range nuts {
		if n.Shape == shape && n.Standard != "DIN 557" {
			names = append(names, n.Name)
		}
	}
	return names
}

// CornersToClear returns the greatest width across the corners of the widest
// nut, mm: no rounding of the corners counted on.
func (n Nut) CornersToClear() float64 {
	if n.Shape == "square" {
		return n.Flats * sqrt2
	}
	return n.Flats * acrossCorners
}

const sqrt2 = 1.4142135623730951

// Pocket returns the width across flats and the depth of a printed pocket in
// which the nut is held, mm: the largest nut with NutPlay and NutDepth.
func (n Nut) Pocket() (flats, depth float64) { return n.Flats + NutPlay, n.Height + NutDepth }
