package sheet

import (
	"fmt"
	"math"

	"ringtrack/export/figure"
	"ringtrack/gear/plane"
)

// besideTab in mm stays free between a bridge and the end of its stretch.
const besideTab = 0.1

// tabsApart is how many widths lie at least between the middles of bridges:
// what stays between two is longer than either, so that a reader that closes
// the gaps cannot take the one for the other.
const tabsApart = 4

// bridgesOn spreads bridges round an outside: the first nearest to +y, the
// others evenly about it, each on the nearest stretch that admits one.
func bridgesOn(name string, l plane.Loop, tabs Tabs) ([]figure.Bridge, error) {
	spots, longest := tabSpots(l, tabs.Width)
	if len(spots) < tabs.Count {
		return nil, &FitError{TabPlace, name, tabs.Width, math.Max(0, longest-2*besideTab), fmt.Sprintf("there is no place for %d bridges of %g mm: beside flanks the longest stretch is %.3g mm", tabs.Count, tabs.Width, longest)}
	}
	used := map[int]bool{}
	var out []figure.Bridge
	for k := range tabs.Count {
		want := math.Pi/2 + 2*math.Pi*float64(k)/float64(tabs.Count)
		best, at := math.Inf(1), -1
		for i, p := range spots {
			off := math.Abs(math.Remainder(p.Sub(l.Centre).Angle()-want, 2*math.Pi))
			if !used[i] && off < best-1e-9 && apart(p, out, tabs.Width) {
				best, at = off, i
			}
		}
		if at < 0 {
			return nil, &FitError{TabPlace, name, tabs.Width, 0, fmt.Sprintf("%d bridges of %g mm do not fit beside one another", tabs.Count, tabs.Width)}
		}
		used[at] = true
		out = append(out, figure.Bridge{At: spots[at], Width: tabs.Width})
	}
	return out, nil
}

func apart(p plane.Vec, others []figure.Bridge, width float64) bool {
	for _, o := range others {
		if o.At.Sub(p).Len() < tabsApart*width {
			return false
		}
	}
	return true
}

// tabSpots returns middles that bridges of a width can have, and the length of
// the longest stretch that is neither a flank nor short. On a toothed outside
// only stretches at its greatest radius count.
func tabSpots(l plane.Loop, width float64) (spots []plane.Vec, longest float64) {
	_, greatest := l.Radii()
	for q := range l.All() {
		if _, smooth := q.(plane.Curve); smooth {
			continue
		}
		if l.Turns() > 1 && q.At(0.5).Sub(l.Centre).Len() < greatest-1e-6 {
			continue
		}
		length := q.At(1).Sub(q.At(0)).Len()
		if a, ok := q.(plane.Arc); ok {
			length = a.R * math.Abs(a.Sweep)
		}
		longest = math.Max(longest, length)
		edge := (width/2 + besideTab) / length
		if edge > 0.5 {
			continue
		}
		n := int(math.Min(360, math.Max(1, length/(2*width))))
		for i := range n {
			u := (float64(i) + 0.5) / float64(n)
			spots = append(spots, q.At(math.Min(1-edge, math.Max(edge, u))))
		}
	}
	return spots, longest
}
