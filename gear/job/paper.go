package job

import (
	"math"

	"ringtrack/gear/find"
)

// Cutting is how a cut member lies in its sheet. The zero value belongs to
// members that are not cut.
type Cutting struct {
	Tabs        int
	TabWidth    float64 // mm
	Copies      int
	Thickness   float64 // mm, of the sheet as measured; 0 when the file gives none
	Dowels      int     // of layers
	Dowel       float64 // mm, finished
	DowelCircle Setting // mm
}

// Layers returns how many sheets make a face width of mm.
func (c Cutting) Layers(face float64) int {
	if c.Thickness == 0 {
		return 1
	}
	return max(1, int(math.Ceil(face/c.Thickness-1e-9)))
}

// Sheet is what cut parts are laid out on.
type Sheet struct {
	Width, Height, Edge, Spacing float64 // mm
	Openings                     bool
}

// Paper is what drawings and pages are written to.
type Paper struct {
	ArcTolerance float64    // mm, greatest distance of an arc from the curve in drawings
	DrawingUnit  string     // of DXF: mm, in
	PaperSize    string     // a4, a3, letter, tabloid
	PaperScale   [2]float64 // what a print measures over what it should, across and up the page
}

// paper fills in what [output] says of drawings and pages.
func (r *reading) paper() Paper {
	return Paper{
		ArcTolerance: r.num("output.arc_tolerance", 0),
		DrawingUnit:  r.entry("output.drawing_unit").text,
		PaperSize:    r.entry("output.paper").text,
		PaperScale:   [2]float64{r.num("output.paper_across", 100) / 100, r.num("output.paper_up", 100) / 100},
	}
}

// cutting fills in how a member is cut.
func (r *reading) cutting(member, kind string) Cutting {
	if kind != "cut" {
		return Cutting{}
	}
	n := func(name string) float64 { v, _ := r.allowance(member, kind, name); return v }
	return Cutting{
		Tabs: int(n("tabs")), TabWidth: n("tab_width"), Copies: int(n("copies")), Thickness: n("sheet_thickness"),
		Dowels: int(n("dowels")), Dowel: n("dowel"),
		DowelCircle: r.setting("making."+member+".dowel_circle", "making.dowel_circle"),
	}
}

// whole returns the default face width of a member: in whole layers where the
// thickness of its sheet is given.
func (r *reading) whole(member string, face float64) float64 {
	kind, _ := r.kind(member)
	c := r.cutting(member, kind)
	if c.Thickness == 0 {
		return face
	}
	return float64(c.Layers(face)) * c.Thickness
}

// sheet fills in the section of that name, nil when there is none.
func (r *reading) sheet() *Sheet {
	const s = "sheet"
	if !r.hasSection(s) {
		return nil
	}
	return &Sheet{
		Width: r.num(s+".width", 0), Height: r.num(s+".height", 0),
		Edge: r.num(s+".edge", 0), Spacing: r.num(s+".spacing", 0), Openings: r.entry(s + ".openings").flag,
	}
}

// agreeCutting wants a sheet's size where there is a sheet, and a cut part for it.
func (r *reading) agreeCutting() {
	const s = "sheet"
	if !r.hasSection(s) {
		return
	}
	for _, k := range []string{"width", "height"} {
		if !r.has(join(s, k)) {
			r.missing(join(s, k), "the sheet's %s is missing: %s under [sheet]", k, k)
		}
	}
	for _, m := range []string{"pinion", "ring"} {
		kind, certain := r.kind(m)
		if (kind == "cut" || !certain) && r.entry(m+".make").flag {
			return
		}
	}
	f := r.fault(find.Contradicts, s, r.headers[s], "nothing is cut, so that nothing is laid out on a sheet; leave [sheet] out")
	f.Change = []find.Change{{Key: s}}
}
