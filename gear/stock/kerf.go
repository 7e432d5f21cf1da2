package stock

import "strings"

// Kerf is the full width that a carbon dioxide laser removes along its path.
type Kerf struct {
	Material  string  // name in Materials
	Thickness float64 // mm, of the sheet
	Width     float64 // mm, in total
	Source    string
}

const (
	twoShops = "middle of two cutting shops' published kerf tables"
	oneShop  = "one cutting shop's published kerf table"
)

// kerfs lists the rows by material, then by rising thickness. Sources differ by
// up to 0.08 mm for one sheet: a test cut is better than any of these.
var kerfs = []Kerf{
	{"acrylic", 1.5, 0.18, oneShop},
	{"acrylic", 3, 0.20, "three cutting shops' published values: 0.15, 0.20 and 0.23"},
	{"acrylic", 6, 0.22, twoShops},
	{"acrylic", 10, 0.25, oneShop},
	{"plywood", 1.5, 0.15, oneShop},
	{"plywood", 3, 0.20, twoShops},
	{"plywood", 6, 0.25, twoShops},
	{"mdf", 3, 0.17, twoShops},
	{"mdf", 6, 0.21, twoShops},
	{"mdf", 12, 0.25, oneShop},
	{"pom-sheet", 2, 0.15, memory},
	{"pom-sheet", 3, 0.20, memory},
	{"pom-sheet", 5, 0.25, memory},
}

// UsualKerf is the kerf, in mm, assumed where the table knows nothing of the
// material. Source: published values for 3 mm sheet run from 0.15 to 0.23.
const UsualKerf = 0.20

// Kerfs returns all rows, by material and rising thickness.
func Kerfs() []Kerf { return append([]Kerf(nil), kerfs...) }

// FindKerf returns the kerf for a sheet, where it comes from, and whether the
// table knows the material.
//
//	material   name in Materials, any case
//	thickness  mm
//	width      mm in total; UsualKerf when the material is not in the table
//
// Between two rows the width is interpolated on a straight line; beyond the
// first and last row their width is kept.
func FindKerf(material string, thickness float64) (width float64, source string, ok bool) {
	var below, above *Kerf
	for i := range kerfs {
		k := &kerfs[i]
		switch {
		case !strings.EqualFold(k.Material, material):
		case k.Thickness <= thickness:
			below = k
		case above == nil:
			above = k
		}
	}
	switch {
	case below == nil && above == nil:
		return UsualKerf, "common practice", false
	case above == nil:
		return below.Width, below.Source, true
	case below == nil:
		return above.Width, above.Source, true
	}
	part := (thickness - below.Thickness) / (above.Thickness - below.Thickness)
	return below.Width + part*(above.Width-below.Width), below.Source, true
}
