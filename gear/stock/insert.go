package stock

import "strings"

// Insert is one size of threaded brass insert that is pressed in hot.
type Insert struct {
	Name      string  // of the thread: M3, #10
	Outer     float64 // mm, over the knurls, usual
	OuterMost float64 // mm, over the knurls, of the widest make
	Hole      float64 // mm, diameter of the hole, +0.1/-0
	Length    float64 // mm, of the usual one
	Depth     float64 // mm, least depth of the hole: Length + 0.5
	Wall      float64 // mm, least wall around the hole
	Source    string  // of Hole
	From      string  // of the other figures
}

const (
	oneInsert  = "a fastener dealer's table of pilot holes; an insert maker's agrees"
	inchInsert = "an insert maker's table of inch inserts"
	midInsert  = "middle of a fastener dealer's range of pilot holes"
	sizes      = "a printing guide's chart of pockets (length: depth less 0.5) and walls"
	likeMetric = "the metric insert of the same hole; length from memory"
)

// inserts lists the sizes, metric first, each by rising size. Makes differ:
// the hole to trust is the one that the insert's maker prints.
var inserts = []Insert{
	{"M2", 3.0, 3.2, 2.9, 4.0, 4.5, 0.8, midInsert, sizes},
	{"M2.5", 3.6, 3.65, 3.4, 5.7, 6.2, 1.0, midInsert, sizes},
	{"M3", 4.2, 4.4, 4.0, 5.7, 6.2, 1.8, oneInsert, sizes},
	{"M4", 5.8, 6.1, 5.6, 8.1, 8.6, 2.4, oneInsert, sizes},
	{"M5", 6.8, 7.1, 6.4, 9.5, 10.0, 2.8, oneInsert, sizes},
	{"M6", 8.2, 8.5, 8.0, 12.7, 13.2, 3.6, oneInsert, sizes},
	{"#4", 4.2, 4.4, 3.99, 5.7, 6.2, 1.8, inchInsert, likeMetric},
	{"#6", 5.0, 5.2, 4.80, 7.1, 7.6, 2.1, inchInsert, likeMetric},
	{"#8", 5.8, 6.1, 5.59, 8.1, 8.6, 2.4, inchInsert, likeMetric},
	{"#10", 6.8, 7.1, 6.40, 9.5, 10.0, 2.8, inchInsert, likeMetric},
}

// Inserts returns all sizes, metric before inch, each by rising size.
func Inserts() []Insert { return append([]Insert(nil), inserts...) }

// FindInsert returns the insert for a thread, in any case, and whether there is
// one.
func FindInsert(thread string) (Insert, bool) {
	for _, i := range inserts {
		if strings.EqualFold(i.Name, thread) {
			return i, true
		}
	}
	return Insert{}, false
}

// InsertNames returns the threads for which there is an insert.
func InsertNames() []string {
	names := make([]string, len(inserts))
	for i, n := range inserts {
		names[i] = n.Name
	}
	return names
}
