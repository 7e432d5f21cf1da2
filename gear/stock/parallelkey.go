package stock

// ParallelKey is one size of parallel key with its keyways, for a range of
// shafts.
type ParallelKey struct {
	Over, To    float64 // mm, diameters of shaft: more than Over, up to To
	Width       float64 // mm, of key and keyways; key h9, shaft N9, hub JS9
	Height      float64 // mm, of the key
	Shaft       float64 // mm, depth of the keyway in the shaft, t1
	Hub         float64 // mm, depth of the keyway in the hub, t2
	DepthMore   float64 // mm, upper limit on both depths; the lower is 0
	HubEither   float64 // mm, limit either way on the width of the hub's keyway, JS9
	Short, Long float64 // mm, usual lengths
	Source      string
	FitSource   string // of DepthMore and HubEither
}

const (
	din6885  = "DIN 6885-1, as reprinted in a fastener reference table"
	din6885x = "DIN 6885-1, from memory"
	js9      = "DIN 6885-1 (JS9 of ISO 286-1), from memory"
)

// parallelKeys lists the sizes by rising shaft.
var parallelKeys = []ParallelKey{
	{6, 8, 2, 2, 1.2, 1.0, 0.1, 0.0125, 6, 20, din6885, js9},
	{8, 10, 3, 3, 1.8, 1.4, 0.1, 0.0125, 6, 36, din6885, js9},
	{10, 12, 4, 4, 2.5, 1.8, 0.1, 0.015, 8, 45, din6885, js9},
	{12, 17, 5, 5, 3.0, 2.3, 0.1, 0.015, 10, 56, din6885, js9},
	{17, 22, 6, 6, 3.5, 2.8, 0.1, 0.015, 14, 70, din6885, js9},
	{22, 30, 8, 7, 4.0, 3.3, 0.2, 0.018, 18, 90, din6885x, js9},
	{30, 38, 10, 8, 5.0, 3.3, 0.2, 0.018, 22, 110, din6885x, js9},
	{38, 44, 12, 8, 5.0, 3.3, 0.2, 0.0215, 28, 140, din6885x, js9},
	{44, 50, 14, 9, 5.5, 3.8, 0.2, 0.0215, 36, 160, din6885x, js9},
}

// LeastKeyRoom is the least gap, in mm, that the standard's depths leave
// between a key's top and the hub: t1 + t2 - h of the smallest keys.
const LeastKeyRoom = 0.2

// ParallelKeys returns all sizes by rising shaft.
func ParallelKeys() []ParallelKey { return append([]ParallelKey(nil), parallelKeys...) }

// FindParallelKey returns the key for a shaft of the given diameter, mm, and
// whether the table has one: for more than 6 up to 50 mm.
func FindParallelKey(shaft float64) (ParallelKey, bool) {
	for _, k := range parallelKeys {
		if shaft > k.Over && shaft <= k.To {
			return k, true
		}
	}
	return ParallelKey{}, false
}

// ParallelKeyOfWidth returns the key of exactly the given width, mm, and
// whether the table has one.
func ParallelKeyOfWidth(width float64) (ParallelKey, bool) {
	for _, k := range parallelKeys {
		if k.Width == width {
			return k, true
		}
	}
	return ParallelKey{}, false
}
