package load

import "strings"

// ScrewHold is how a set screw holds a hub on a round shaft.
type ScrewHold struct {
	Name       string
	MetalTight float64 // N mm, tightening torque in a metal hub
	NutTight   float64 // N mm, at which a hexagon nut begins to sink into plastic
	Axial      float64 // N, force at the first slip after MetalTight, cup point on a steel shaft: careful end
}

// screwHolds: tightening torques from published charts of two screw makers (a
// third, a machine maker's, agrees within 10 %); the nut's from 20 MPa under its
// face outside a medium hole with K = 0.2 (from memory); axial forces from a
// published inch series of tests, carried over to metric sizes (from memory).
// Holding is nearly proportional to tightening torque (published screw makers'
// guides).
func screwHolds() []ScrewHold {
	return []ScrewHold{
		{"M3", 800, 210, 700},
		{"M4", 2200, 420, 1700},
		{"M5", 4000, 630, 2400},
		{"M6", 7200, 1260, 4400},
	}
}

// ScrewSource says where the figures of set screws come from.
const ScrewSource = "screw makers' published torque charts and holding tests; plastic hubs from memory"

// screwSafety is the least safety for loads that change: 4 to 8 in the published
// holding tests' own advice.
const screwSafety = 4

// FindScrewHold returns the row of a size, in any case, and whether there is one.
func FindScrewHold(name string) (ScrewHold, bool) {
	for _, s := range screwHolds() {
		if strings.EqualFold(s.Name, name) {
			return s, true
		}
	}
	return ScrewHold{}, false
}

// Torque returns the torque, N mm, that one screw holds on a shaft: at the first
// slip, and what of it may be used for loads that change.
//
//	shaft  mm, radius
//	nut    the screw sits in a nut trapped in plastic, not in metal
//
// A nut in plastic allows a fraction of the tightening torque; what then holds is
// little. Torque belongs on the flat.
func (s ScrewHold) Torque(shaft float64, nut bool) (slip, usable float64) {
	slip = s.Axial * shaft
	if nut {
		slip *= s.NutTight / s.MetalTight
	}
	return slip, slip / screwSafety
}
