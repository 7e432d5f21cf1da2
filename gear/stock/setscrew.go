package stock

import "strings"

// SetScrew is one size of headless screw with a hexagon socket. Flat, cone, dog
// and cup points share thread and socket.
type SetScrew struct {
	Name        string  // M3, #10
	Major       float64 // mm, outside diameter of the thread
	Pitch       float64 // mm, of the coarse thread
	Key         float64 // mm, across the flats of the hexagon key
	SocketShort float64 // mm, least depth of the socket in the shortest screws
	SocketLong  float64 // mm, least depth of the socket in the others
	FlatPoint   float64 // mm, greatest diameter of a flat point; 0 where the source has none
	CupPoint    float64 // mm, greatest diameter of a cup point
	ConePoint   float64 // mm, greatest flat on the end of a cone point; 0 where the source has none
	Shortest    float64 // mm, usual lengths: least
	Longest     float64 // mm, and greatest
	Source      string  // of thread, socket and points
	From        string  // of the lengths
}

const (
	iso4026  = "ISO 4026 and 4029, sockets ISO 4028, as reprinted in fastener dealers' tables"
	iso4026x = "ISO 4026 and 4029, as reprinted in fastener dealers' tables; cone point from memory"
	asmeSet  = "ASME B18.3, from memory"
	dealers  = "a fastener dealer's stock; greatest length from memory"
	seriesBy = "ISO 888, from memory"
	inchBy   = "common practice"
)

// setScrews lists the sizes, metric first, each by rising size. One often
// copied table prints socket depths of 1.1, 1.4 and 2.0 for M2.5 to M4; three
// copies of the standard's own sheet agree on the depths here.
var setScrews = []SetScrew{
	{"M2", 2, 0.40, 0.9, 0.8, 1.7, 1.0, 1.0, 0.5, 2, 10, iso4026x, dealers},
	{"M2.5", 2.5, 0.45, 1.3, 1.2, 2.0, 1.5, 1.2, 0.65, 2.5, 12, iso4026x, dealers},
	{"M3", 3, 0.50, 1.5, 1.2, 2.0, 2.0, 1.4, 0.75, 3, 16, iso4026x, dealers},
	{"M4", 4, 0.70, 2.0, 1.5, 2.5, 2.5, 2.0, 1.0, 4, 20, iso4026x, dealers},
	{"M5", 5, 0.80, 2.5, 2.0, 3.0, 3.5, 2.5, 1.25, 5, 25, iso4026x, seriesBy},
	{"M6", 6, 1.00, 3.0, 2.0, 3.5, 4.0, 3.0, 1.5, 6, 30, iso4026, seriesBy},
	{"M8", 8, 1.25, 4.0, 3.0, 5.0, 5.5, 5.0, 2.0, 8, 40, iso4026, seriesBy},
	{"#4", 2.84, 25.4 / 40, 1.27, 1.78, 1.78, 0, 1.55, 0, 25.4 / 8, 12.7, asmeSet, inchBy},
	{"#5", 3.18, 25.4 / 40, 1.59, 2.03, 2.03, 0, 1.70, 0, 25.4 / 8, 12.7, asmeSet, inchBy},
	{"#6", 3.51, 25.4 / 32, 1.59, 2.03, 2.03, 0, 1.88, 0, 25.4 / 8, 12.7, asmeSet, inchBy},
	{"#8", 4.17, 25.4 / 32, 1.98, 2.29, 2.29, 0, 2.21, 0, 25.4 * 3 / 16, 19.05, asmeSet, inchBy},
	{"#10", 4.83, 25.4 / 24, 2.38, 2.54, 2.54, 0, 2.59, 0, 25.4 * 3 / 16, 25.4, asmeSet, inchBy},
}

// The lengths that are made, mm.
var (
	metricLengths = []float64{2, 2.5, 3, 4, 5, 6, 8, 10, 12, 16, 20, 25, 30, 35, 40}
	inchLengths   = []float64{25.4 / 8, 25.4 * 3 / 16, 6.35, 25.4 * 5 / 16, 25.4 * 3 / 8, 12.7, 25.4 * 5 / 8, 19.05, 25.4 * 7 / 8, 25.4}
)

// SetScrews returns all sizes, metric before inch, each by rising size.
func SetScrews() []SetScrew { return append([]SetScrew(nil), setScrews...) }

// SetScrewNames returns the names of all sizes in the order of SetScrews.
func SetScrewNames() []string {
	names := make([]string, len(setScrews))
	for i, s := range setScrews {
		names[i] = s.Name
	}
	return names
}

// FindSetScrew returns the size called name, in any case, and whether there is
// one.
func FindSetScrew(name string) (SetScrew, bool) {
	for _, s := range setScrews {
		if strings.EqualFold(s.Name, name) {
			return s, true
		}
	}
	return SetScrew{}, false
}

// Lengths returns the usual lengths of the screw by rising length, mm. They run
// over the point; there is no head.
func (s SetScrew) Lengths() []float64 {
	series := metricLengths
	if strings.HasPrefix(s.Name, "#") {
		series = inchLengths
	}
	var out []float64
	for _, l := range series {
		if l >= s.Shortest && l <= s.Longest {
			out = append(out, l)
		}
	}
	return out
}

// KeyHole returns the diameter of a straight hole through which the hexagon key
// passes, mm: the key across its corners and 0.5 mm (common practice).
func (s SetScrew) KeyHole() float64 { return s.Key*acrossCorners + 0.5 }
