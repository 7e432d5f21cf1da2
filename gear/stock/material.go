package stock

import "strings"

// Form says how a material is worked.
type Form string

// The forms.
const (
	Filament Form = "filament" // printed from a strand
	Resin    Form = "resin"    // printed from a liquid
	Sheet    Form = "sheet"    // cut from a sheet
	Metal    Form = "metal"    // bought, as a rule
)

// Material is one row of the table of materials.
type Material struct {
	Name          string // generic, lower case
	What          string
	Form          Form
	Density       float64 // kg/m3, of the solid material
	DensitySource string
	Shrinkage     Shrinkage // zero for sheets
}

// Shrinkage is how much shorter a cooled print is than it was drawn, as a
// fraction of the length. It is linear and the same in both directions of the
// bed; that is a simplification, and Least and Most say how far sources differ.
type Shrinkage struct {
	Usual, Least, Most float64
	Source             string // empty: does not apply
}

const (
	memory  = "from memory"
	guides  = "published filament shrinkage guides, as printed and cooled"
	moulded = "published moulding data for acetal"
)

// materials lists filaments, resin, sheets, then metals.
var materials = []Material{
	{"pla", "polylactide, the usual filament; softens from 55 degC", Filament, 1240, memory, Shrinkage{0.002, 0.001, 0.003, guides}},
	{"petg", "glycol-modified polyester; tougher and warmer than pla", Filament, 1270, memory, Shrinkage{0.003, 0.002, 0.006, guides}},
	{"abs", "acrylonitrile butadiene styrene", Filament, 1040, memory, Shrinkage{0.007, 0.004, 0.016, guides}},
	{"asa", "acrylonitrile styrene acrylate; stands sunlight", Filament, 1070, memory, Shrinkage{0.006, 0.004, 0.015, guides}},
	{"pa", "polyamide (nylon), unfilled; takes up water", Filament, 1130, memory, Shrinkage{0.010, 0.005, 0.030, guides}},
	{"pa-cf", "polyamide with chopped carbon fibre", Filament, 1200, memory, Shrinkage{0.003, 0.001, 0.006, memory}},
	{"pc", "polycarbonate", Filament, 1200, memory, Shrinkage{0.006, 0.004, 0.008, memory}},
	{"pom", "acetal, printed", Filament, 1410, memory, Shrinkage{0.020, 0.018, 0.035, moulded}},
	{"pp", "polypropylene", Filament, 900, memory, Shrinkage{0.015, 0.010, 0.025, memory}},
	{"tpu-95a", "thermoplastic polyurethane, Shore 95A: flexible", Filament, 1210, memory, Shrinkage{0.004, 0.002, 0.010, memory}},
	{"resin", "photopolymer, cured after printing", Resin, 1180, memory, Shrinkage{0.004, 0.002, 0.010, memory}},
	{"acrylic", "PMMA sheet", Sheet, 1190, memory, Shrinkage{}},
	{"plywood", "birch plywood", Sheet, 680, memory, Shrinkage{}},
	{"mdf", "medium density fibreboard", Sheet, 750, memory, Shrinkage{}},
	{"pom-sheet", "acetal sheet", Sheet, 1410, memory, Shrinkage{}},
	{"steel", "unhardened steel, of a bought part", Metal, 7850, memory, Shrinkage{}},
	{"brass", "brass, of a bought part", Metal, 8500, memory, Shrinkage{}},
}

// Materials returns all rows: filaments, resin, sheets, metals.
func Materials() []Material { return append([]Material(nil), materials...) }

// MaterialNames returns the names in the order of Materials.
func MaterialNames() []string {
	names := make([]string, len(materials))
	for i, m := range materials {
		names[i] = m.Name
	}
	return names
}

// FindMaterial returns the material called name, in any case, and whether there
// is one.
func FindMaterial(name string) (Material, bool) {
	for _, m := range materials {
		if strings.EqualFold(m.Name, name) {
			return m, true
		}
	}
	return Material{}, false
}
