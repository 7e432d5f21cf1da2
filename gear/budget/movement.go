package budget

import "strings"

// movements holds typical growth of materials: linear expansion of the solid
// material per kelvin and linear growth from dry to a damp room. Published
// figures for one plastic differ by a third, those for moisture by a factor of
// two. All rows: from memory.
var movements = []struct {
	name                string
	expansion, moisture float64
}{
	{"pla", 68e-6, 0.001},
	{"petg", 60e-6, 0.0005},
	{"abs", 90e-6, 0.0005},
	{"asa", 95e-6, 0.0005},
	{"pa", 85e-6, 0.007},
	{"pa-cf", 40e-6, 0.002},
	{"pc", 68e-6, 0.0005},
	{"pom", 110e-6, 0.001},
	{"pp", 110e-6, 0},
	{"tpu-95a", 150e-6, 0.002},
	{"resin", 90e-6, 0.002},
	{"acrylic", 70e-6, 0.002},
	{"plywood", 7e-6, 0.001},
	{"mdf", 7e-6, 0.002},
	{"pom-sheet", 110e-6, 0.001},
	{"aluminium", 23e-6, 0},
	{"steel", 12e-6, 0},
	{"brass", 19e-6, 0},
}

// MovementOf returns how a material moves, marked as a guess, and whether it is
// known. Names are those of stock's materials, and aluminium and steel for
// plates; upper and lower case are alike.
func MovementOf(material string) (Movement, bool) {
	for _, m := range movements {
		if strings.EqualFold(m.name, material) {
			return Movement{m.expansion, m.moisture, true}, true
		}
	}
	return Movement{}, false
}
