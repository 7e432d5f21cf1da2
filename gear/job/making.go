package job

import (
	"slices"
	"strings"

	"ringtrack/gear/find"
	"ringtrack/gear/stock"
)

// making fills in how a member is made: its own section before [making], before
// the defaults of the kind in force.
//
//	member     pinion or ring
//	thickness  mm, face width: that of the sheet when cut
//	material   name in stock, or empty
func (r *reading) making(member string, thickness float64, material string) Making {
	kind, _ := r.kind(member)
	m := Making{Kind: kind, Bed: r.makingEntry(member, "bed").box}
	m.LineWidth, _ = r.allowance(member, kind, "line_width")
	m.Layer, _ = r.allowance(member, kind, "layer")
	m.Growth, m.Measured.Growth = r.allowance(member, kind, "growth")
	m.HoleShrink, m.Measured.HoleShrink = r.allowance(member, kind, "hole_shrink")
	m.Shrinkage, m.Measured.Shrinkage = r.allowance(member, kind, "shrinkage")
	m.Kerf, m.Measured.Kerf = r.allowance(member, kind, "kerf")
	m.Foot, _ = r.allowance(member, kind, "foot")
	m.Edge = r.edge(member, kind)
	m.Spread = r.spread(member, kind)
	r.print(member, kind, &m)
	m.Cutting = r.cutting(member, kind)
	if kind == "printed" && !m.Measured.Shrinkage {
		of, _ := stock.FindMaterial(material)
		m.Shrinkage, m.ShrinkageSource = of.Shrinkage.Usual, of.Shrinkage.Source
	}
	if m.Cutting.Thickness > 0 {
		thickness = m.Cutting.Thickness
	}
	if kind == "cut" && !m.Measured.Kerf {
		m.Kerf, m.KerfSource, _ = stock.FindKerf(material, thickness)
	}
	return m
}

// kind returns how a member is made, and whether that is certain: a bad value is
// replaced by the default, and nothing should be concluded from it.
func (r *reading) kind(member string) (string, bool) {
	for _, p := range []string{"making." + member + ".kind", "making.kind"} {
		if r.has(p) {
			return r.entry(p).text, r.good(p)
		}
	}
	return r.entry("making.kind").text, true
}

// makingEntry returns one key of the making of a member, with its constant default.
func (r *reading) makingEntry(member, name string) entry {
	if p := "making." + member + "." + name; r.good(p) {
		return r.given[p]
	}
	return r.entry("making." + name)
}

// allowance returns one number of the making of a member, 0 when it does not
// belong to the kind, and whether the file gives it.
func (r *reading) allowance(member, kind, name string) (v float64, given bool) {
	if !belongs(index.keys["making."+name].kinds, kind) {
		return 0, false
	}
	return r.makingEntry(member, name).num, r.good("making."+member+"."+name) || r.good("making."+name)
}

// edge returns the chamfer on a member's faces: the one given, else that of
// printed parts.
func (r *reading) edge(member, kind string) float64 {
	v, given := r.allowance(member, kind, "edge")
	if !given && kind == "printed" {
		return printedEdge
	}
	return v
}

// printedEdge is the chamfer of printed parts, mm: common practice against the
// spreading of the first layer.
const printedEdge = 0.4

// belongs reports whether a kind of making is among kinds, "a or b".
func belongs(kinds, kind string) bool {
	for _, k := range strings.Split(kinds, " or ") {
		if k == kind {
			return true
		}
	}
	return false
}

// agreeMaking refuses keys of making that no member concerned makes use of.
func (r *reading) agreeMaking() {
	for _, k := range slices.Concat(makingKeys, printKeys, cutKeys, budgetKeys) {
		if k.kinds == "" {
			continue
		}
		r.useful(join("making", k.Name), k.kinds, "pinion", "ring")
		r.useful(join("making.pinion", k.Name), k.kinds, "pinion")
		r.useful(join("making.ring", k.Name), k.kinds, "ring")
	}
}

// useful refuses the key at path unless one of the members is of its kinds.
func (r *reading) useful(path, kinds string, members ...string) {
	if !r.has(path) {
		return
	}
	var are []string
	for _, m := range members {
		k, certain := r.kind(m)
		if belongs(kinds, k) || !certain {
			return
		}
		are = append(are, "the "+m+" is "+k)
	}
	section, name := split(path)
	f := r.fault(find.Contradicts, path, r.given[path].line,
		"%s belongs to %s parts; %s; leave it out", name, kinds, strings.Join(are, " and "))
	kind, _, _ := strings.Cut(kinds, " ")
	if len(members) == 1 || !r.has("making.pinion.kind") || !r.has("making.ring.kind") {
		f.Change = []find.Change{{Key: section + ".kind", Value: `"` + kind + `"`}}
	}
}
