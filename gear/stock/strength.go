package stock

import (
	"math"
	"strings"
)

// Range is a figure as its sources have it: the least and the greatest value
// that they give, and the one to reckon with. Where strength is asked for, Least
// is the careful end; where stiffness makes a force larger, Most is.
type Range struct {
	Least, Usual, Most float64
	Source             string
}

// Scaled returns the range with every figure multiplied by k.
func (r Range) Scaled(k float64) Range {
	return Range{r.Least * k, r.Usual * k, r.Most * k, r.Source}
}

// Exactly returns a range of one value, for a figure that somebody measured.
func Exactly(v float64, source string) Range { return Range{v, v, v, source} }

// Mechanics is how a material carries load. Modulus and strength are those of
// short pulls at 23 degC; of prints in the plane of the layers, at full density.
type Mechanics struct {
	Name       string // as in Materials
	Modulus    Range  // MPa, of elasticity
	Strength   Range  // MPa, tensile, in the plane of the layers
	Layers     Range  // strength across the layers over Strength; 1 where there are no layers
	Poisson    Range  // Poisson's ratio
	Expansion  Range  // 1/K, linear, by heat
	Moisture   Range  // linear growth from dry to soaked, as a fraction of the length
	Service    Range  // degC, greatest steady temperature
	Softening  Range  // degC: glass transition, or deflection under 0.45 MPa where that comes first
	Friction   Range  // on itself, dry
	ToothRoot  Range  // MPa, first-cut root stress of a tooth that turns for long, indoors and slowly
	Flexible   bool   // a rubber: its modulus depends much on how fast and how far it is bent
	Continuous bool   // no layers, no infill: neither derating applies
}

// The sources, spelled out once.
const (
	sheets      = "published filament data sheets and material guides"
	handbook    = "engineering plastics handbook, bulk material"
	firstCut    = "about a quarter of the tensile strength, common practice"
	rigFriction = "published friction tests of printed parts: 0.04 to 0.20 in a ball tribometer, 0.62 to 0.76 on a dry sliding rig; usual: between them"
	rigNylon    = "published friction tests of printed parts on a dry sliding rig, 0.66 to 1.10; least, on steel, from memory"
	tribometer  = "published tribometer tests of printed parts, 0.04 to 0.20; greatest from memory"
	bulkPOM     = "engineering plastics handbook, bulk; the least, for prints, from memory"
	layerPulls  = "published pulls of printed bars and same-sheet ratios"
	fourTPU     = "four published thermoplastic polyurethane filaments"
	steelBook   = "handbooks of mechanical engineering, from memory"
)

func mem(least, usual, most float64) Range { return Range{least, usual, most, memory} }
func by(source string, least, usual, most float64) Range {
	return Range{least, usual, most, source}
}

// noLayers is the factor of a material that is the same in every direction.
func noLayers() Range { return Exactly(1, "no layers") }

// mechanics lists the rows in the order of materials, then the metals.
//
// Figures for printed plastics scatter by a factor of two between makers; the
// ranges say so. A pull test of one's own bars is better than any row.
func mechanics() []Mechanics {
	return []Mechanics{
		{"pla", by(sheets, 2000, 3000, 4000), by(sheets, 23, 50, 65), by(layerPulls, 0.5, 0.6, 0.7), mem(0.33, 0.36, 0.39),
			mem(60e-6, 70e-6, 85e-6), mem(0, 0.0005, 0.002), by(sheets, 40, 45, 50), by(sheets, 53, 57, 65),
			by(rigFriction, 0.04, 0.4, 0.76), by(firstCut, 6, 15, 16), false, false},
		{"petg", by(sheets, 2000, 2500, 3000), by(sheets, 44, 48, 56), by(layerPulls, 0.55, 0.63, 0.7), mem(0.37, 0.40, 0.42),
			mem(60e-6, 65e-6, 80e-6), mem(0, 0.0005, 0.002), mem(55, 60, 65), by(sheets, 70, 75, 85),
			mem(0.2, 0.35, 0.6), by(firstCut, 11, 14, 14), false, false},
		{"abs", by(sheets, 1400, 1800, 2000), by(sheets, 35, 40, 46), by(sheets, 0.43, 0.5, 0.6), mem(0.35, 0.36, 0.40),
			mem(75e-6, 90e-6, 110e-6), mem(0, 0.001, 0.003), mem(75, 80, 85), mem(88, 90, 105),
			by(tribometer, 0.04, 0.2, 0.5), by(firstCut, 9, 12, 12), false, false},
		{"asa", mem(1800, 2000, 2200), mem(40, 45, 50), mem(0.4, 0.5, 0.6), mem(0.35, 0.36, 0.40),
			mem(80e-6, 95e-6, 110e-6), mem(0, 0.001, 0.003), mem(75, 80, 85), mem(90, 95, 105),
			mem(0.2, 0.3, 0.5), by(firstCut, 10, 12, 12), false, false},
		{"pa", by("one printed data sheet, dry; humid values from memory", 500, 1200, 3400), by("one printed data sheet, dry; humid values from memory", 30, 45, 78), mem(0.4, 0.5, 0.65), mem(0.38, 0.40, 0.42),
			mem(80e-6, 95e-6, 120e-6), mem(0.005, 0.010, 0.025), mem(65, 70, 80), by("one printed data sheet", 80, 90, 180),
			by(rigNylon, 0.2, 0.66, 1.1), by(firstCut, 8, 11, 15), false, false},
		{"pa-cf", mem(4000, 5000, 7000), mem(70, 85, 110), mem(0.3, 0.4, 0.5), mem(0.33, 0.37, 0.40),
			mem(20e-6, 40e-6, 80e-6), mem(0.002, 0.005, 0.010), mem(100, 110, 120), mem(140, 160, 200),
			mem(0.2, 0.35, 0.6), by(firstCut, 17, 20, 27), false, false},
		{"pc", by(sheets, 2000, 2300, 3000), by(sheets, 58, 65, 75), by(layerPulls, 0.55, 0.65, 0.7), mem(0.37, 0.38, 0.40),
			mem(65e-6, 68e-6, 75e-6), mem(0, 0.001, 0.002), mem(95, 105, 115), by(sheets, 115, 130, 150),
			by(tribometer, 0.04, 0.2, 0.5), by(firstCut, 14, 18, 18), false, false},
		{"pom", by(bulkPOM, 2000, 2500, 3000), by(bulkPOM, 50, 60, 72), mem(0.4, 0.5, 0.7), mem(0.35, 0.38, 0.42),
			mem(85e-6, 110e-6, 120e-6), mem(0.001, 0.002, 0.004), mem(80, 90, 100), by(handbook, 140, 160, 180),
			by("engineering plastics handbook; on itself from memory", 0.2, 0.28, 0.35), by(firstCut, 12, 15, 25), false, false},
		{"pp", by(handbook, 1200, 1400, 1700), by(handbook, 31, 33, 37), mem(0.4, 0.6, 0.8), mem(0.40, 0.42, 0.45),
			mem(80e-6, 100e-6, 150e-6), mem(0, 0, 0.0005), mem(70, 80, 90), by(handbook, 107, 110, 121),
			mem(0.2, 0.3, 0.5), by(firstCut, 7, 8, 9), false, false},
		{"tpu-95a", by(fourTPU, 24, 100, 250), by(fourTPU, 18, 28, 36), by(layerPulls, 0.5, 0.62, 0.7), mem(0.45, 0.48, 0.495),
			mem(100e-6, 150e-6, 200e-6), mem(0.001, 0.002, 0.005), by("one published data sheet; default from memory", 50, 60, 70), mem(70, 80, 90),
			mem(0.3, 0.5, 0.9), by(firstCut, 2, 3, 5), true, false},
		{"resin", by("two published data sheets of photopolymers", 820, 2000, 3000), by("two published data sheets of photopolymers", 30, 45, 65), by("two published data sheets: near isotropic", 0.9, 1, 1), mem(0.35, 0.38, 0.42),
			mem(80e-6, 100e-6, 150e-6), mem(0, 0.003, 0.010), by("two published data sheets", 40, 42, 45), by("two published data sheets", 43, 45, 54),
			mem(0.3, 0.5, 0.8), by(firstCut, 7, 10, 14), false, true},
		{"acrylic", mem(2800, 3200, 3300), mem(60, 70, 75), noLayers(), mem(0.35, 0.37, 0.40),
			mem(65e-6, 70e-6, 80e-6), mem(0.001, 0.002, 0.004), mem(65, 70, 80), mem(90, 95, 105),
			mem(0.3, 0.5, 0.8), by("about a sixth of the tensile strength because it is brittle, common practice", 8, 11, 14), false, true},
		{"plywood", mem(6000, 8000, 10000), mem(30, 40, 60), noLayers(), mem(0.1, 0.3, 0.4),
			mem(5e-6, 7e-6, 12e-6), mem(0.001, 0.002, 0.004), mem(50, 60, 70), mem(100, 120, 150),
			mem(0.3, 0.4, 0.6), by("about an eighth of the tensile strength, half of its plies run across, common practice", 3, 5, 7), false, true},
		{"mdf", mem(2500, 3000, 4000), mem(14, 18, 25), noLayers(), mem(0.2, 0.25, 0.3),
			mem(5e-6, 10e-6, 15e-6), mem(0.002, 0.004, 0.006), mem(45, 50, 60), mem(100, 120, 150),
			mem(0.3, 0.4, 0.6), by("about an eighth of the tensile strength, common practice", 1.5, 2, 3), false, true},
		{"pom-sheet", by(handbook, 2500, 2800, 3000), by(handbook, 59, 65, 72), noLayers(), mem(0.35, 0.38, 0.42),
			mem(85e-6, 110e-6, 120e-6), mem(0.001, 0.002, 0.004), by(handbook, 80, 90, 100), by(handbook, 160, 160, 180),
			by("engineering plastics handbook; on itself from memory", 0.2, 0.28, 0.35), by(firstCut, 15, 25, 25), false, true},
		{"steel", by(steelBook, 200000, 206000, 210000), by(steelBook, 400, 500, 700), noLayers(), by(steelBook, 0.28, 0.30, 0.30),
			by(steelBook, 10.5e-6, 11.5e-6, 12.5e-6), Exactly(0, steelBook), by(steelBook, 120, 150, 200), by(steelBook, 400, 500, 600),
			by(steelBook, 0.15, 0.2, 0.6), by("untreated steel, about a third of its strength, common practice", 120, 160, 200), false, true},
		{"brass", by(steelBook, 95000, 100000, 110000), by(steelBook, 340, 400, 480), noLayers(), by(steelBook, 0.33, 0.34, 0.36),
			by(steelBook, 18e-6, 19e-6, 21e-6), Exactly(0, steelBook), by(steelBook, 120, 150, 200), by(steelBook, 250, 300, 350),
			by(steelBook, 0.2, 0.3, 0.5), by("about a quarter of its strength, common practice", 70, 90, 110), false, true},
	}
}

// MechanicsNames returns the names of all rows, in the order of Materials.
func MechanicsNames() []string {
	rows := mechanics()
	names := make([]string, len(rows))
	for i, m := range rows {
		names[i] = m.Name
	}
	return names
}

// FindMechanics returns how the material called name, in any case, carries
// load, and whether the table knows it. Nearest with MechanicsNames proposes
// what was probably meant.
func FindMechanics(name string) (Mechanics, bool) {
	for _, m := range mechanics() {
		if strings.EqualFold(m.Name, name) {
			return m, true
		}
	}
	return Mechanics{}, false
}

// Print says how a printed part is filled.
type Print struct {
	Infill    float64 // 0..1, of the inside
	Walls     float64 // mm, solid on either side: number of outlines times the line's width
	Thickness float64 // mm, of the section that bends
	Upright   bool    // the part was printed with the teeth's length standing across the layers
}

// Stiffness returns the factor on Modulus with which a bent section of the
// print answers, 0..1: solid walls about a core of infill.
//
// With w the walls' share of the thickness and f the core's modulus over the
// solid's, a sandwich bends with 1 - (1 - f)(1 - w)^3 of the solid's stiffness.
// f = infill^2: bending of the struts of a cellular solid (Gibson and Ashby,
// Cellular Solids, from memory).
//
// A section that the walls fill wholly is solid, whatever the infill: that is
// so for the teeth of any module below about two and a half walls.
func (p Print) Stiffness() float64 {
	if !(p.Thickness > 0) {
		return 1
	}
	f := min(1, max(0, p.Infill))
	core := 1 - min(1, max(0, 2*p.Walls/p.Thickness))
	return 1 - (1-f*f)*core*core*core
}

// Strength returns the factor on Strength: that of Stiffness, because the skin
// breaks at the same strain, and the layers' factor where the teeth stand
// upright on the bed.
func (p Print) Strength(m Mechanics) float64 {
	k := p.Stiffness()
	if p.Upright {
		k *= m.Layers.Usual
	}
	return k
}

// Warm returns the factor on strength and modulus at temperature t, degC: 1 up
// to 23 degC, from there on a straight line to nothing at the softening point.
//
// Common practice, careful: real curves stay higher and then fall suddenly.
func (m Mechanics) Warm(t float64) float64 {
	const room = 23
	if t <= room {
		return 1
	}
	return max(0, 1-(t-room)/(m.Softening.Usual-room))
}

// Lasting returns the factor on strength for a load that stays on for weeks:
// plastics creep. A third for plastics and a quarter for flexible ones (common
// practice), 1 for metals.
func (m Mechanics) Lasting() float64 {
	switch {
	case m.Flexible:
		return 0.25
	case m.Modulus.Usual > 50000:
		return 1
	}
	return 1.0 / 3
}

// ModulusOfShore returns the modulus of elasticity, MPa, of a rubber of this
// Shore hardness, and whether the formulas reach so far.
//
//	scale     'A' from 20 to 98, or 'D' from 30 to 70
//	hardness  as the durometer shows it
//
// Least and Most are the two formulas' results: log10 E = 0.0235 S - 0.6403,
// S = A or D + 50 (Qi, Joyce and Boyce, Rubber Chemistry and Technology 76,
// 2003, from memory), and E = 0.0981 (56 + 7.62336 A)/(0.137505 (254 - 2.54 A))
// (Gent 1958, from memory), the latter up to 95 A alone. Usual is their mean.
// Above 80 A both are extrapolated: thermoplastic polyurethanes of 95 A are
// sold with 24 to 250 MPa, and quick bending stiffens them up to threefold.
func ModulusOfShore(scale byte, hardness float64) (Range, bool) {
	const source = "Qi, Joyce and Boyce 2003 and Gent 1958, from memory"
	s := hardness
	switch scale {
	case 'A', 'a':
		if !(s >= 20 && s <= 98) {
			return Range{}, false
		}
	case 'D', 'd':
		if !(s >= 30 && s <= 70) {
			return Range{}, false
		}
		s += 50
	default:
		return Range{}, false
	}
	e := math.Pow(10, 0.0235*s-0.6403)
	lo, hi := e, e
	if (scale == 'A' || scale == 'a') && s <= 95 {
		g := 0.0981 * (56 + 7.62336*s) / (0.137505 * (254 - 2.54*s))
		lo, hi = min(e, g), max(e, g)
	}
	return Range{lo, (lo + hi) / 2, hi, source}, true
}
