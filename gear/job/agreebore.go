package job

import (
	"math"
	"slices"
	"strings"

	"ringtrack/gear/find"
)

// measures says which keys of [pinion.bore] a shape must have and which it may
// have; the keys of no shape in particular are not in it.
type measures struct{ must, may []string }

var (
	keyKeys  = []string{"key_width", "key_height", "key_depth"}
	measured = append([]string{"diameter", "across_flat", "flat_angle"}, keyKeys...)
)

// boreMeasures returns the measures of a shape.
func boreMeasures(shape string) measures {
	switch shape {
	case "d", "double-d":
		return measures{[]string{"diameter", "across_flat"}, []string{"flat_angle"}}
	case "hexagon":
		return measures{[]string{"across_flat"}, []string{"flat_angle"}}
	case "keyed":
		return measures{[]string{"diameter"}, append([]string{"flat_angle"}, keyKeys...)}
	}
	return measures{[]string{"diameter"}, nil}
}

// agreeBore wants the measures that the bore's shape has, and no others.
func (r *reading) agreeBore() {
	const s = "pinion.bore"
	if !r.hasSection(s) {
		return
	}
	shape := r.given[s+".shape"]
	if !r.has(s + ".shape") {
		r.missing(s+".shape", `the bore's shape is missing: shape = "round" or "d" or another under [pinion.bore]`)
		if !r.has(s+".diameter") && !r.has(s+".across_flat") {
			r.missingMeasure("diameter")
		}
	}
	if !shape.ok {
		return
	}
	want := boreMeasures(shape.text)
	for _, name := range want.must {
		if !r.has(join(s, name)) {
			r.missingMeasure(name)
		}
	}
	for _, name := range measured {
		if p := join(s, name); r.has(p) && !slices.Contains(want.must, name) && !slices.Contains(want.may, name) {
			r.strangeMeasure(p, name, shape.text)
		}
	}
	if r.good(s+".diameter", s+".across_flat") && (shape.text == "d" || shape.text == "double-d") {
		r.agreeFlat(shape.text, r.given[s+".across_flat"], r.given[s+".diameter"].num)
	}
	if shape.text == "keyed" && r.good(s+".diameter") {
		r.agreeKey(r.given[s+".diameter"])
	}
}

// missingMeasure reports a measure that the shape needs.
func (r *reading) missingMeasure(name string) {
	say := "the shaft's diameter is missing"
	if name == "across_flat" {
		say = "the measure of the flat is missing"
	}
	r.missing(join("pinion.bore", name), "%s: %s under [pinion.bore]", say, name)
}

// strangeMeasure refuses a measure that the shape does not have.
func (r *reading) strangeMeasure(path, name, shape string) {
	line := r.given[path].line
	switch {
	case strings.HasPrefix(name, "key_"):
		r.fault(find.Contradicts, path, line, "%s: only a keyed shaft has a key; leave it out, or set shape = \"keyed\"", name)
	case name == "diameter":
		r.fault(find.Contradicts, path, line, "diameter: a hexagon is measured across its flats (across_flat); leave the diameter out")
	case shape == "keyed":
		r.fault(find.Contradicts, path, line, "%s: a keyed shaft has a key and no flat; leave it out", name)
	case shape == "coupling":
		r.fault(find.Contradicts, path, line, "%s: the middle of a coupling is round and has no flat; leave it out", name)
	default:
		r.fault(find.Contradicts, path, line, "%s: a round shaft has no flat; leave it out, or set shape = \"d\"", name)
	}
}

// agreeFlat wants the flat between the shaft's middle and its rim; of a double-d
// the measure runs from flat to flat and may be smaller.
func (r *reading) agreeFlat(shape string, flat entry, d float64) {
	least, more := 0.0, ""
	if shape == "d" {
		least, more = d/2, " and more than half of it"
	}
	limit := d
	switch {
	case flat.num >= d:
	case flat.num <= least:
		limit = least
	default:
		return
	}
	f := r.fault(find.Contradicts, "pinion.bore.across_flat", flat.line,
		"across_flat = %s: of a shaft of %s mm it must be less than the diameter%s", clip(flat.raw), short(d), more)
	f.Found, f.Limit, f.Unit = find.Num(flat.num), find.Num(limit), "mm"
}

// agreeKey wants a key that the standard has or that is given whole, and one
// that fits the shaft and stands out of it.
func (r *reading) agreeKey(d entry) {
	const s = "pinion.bore"
	for _, name := range keyKeys {
		if r.has(join(s, name)) && !r.good(join(s, name)) {
			return
		}
	}
	if _, ok := r.standardKey(d.num); !ok && !r.keyGiven(d) {
		return
	}
	b := Bore{Diameter: d.num}
	r.keyway(&b)
	out := b.KeyHeight - b.KeyDepth
	switch {
	case b.KeyWidth >= b.Diameter:
		r.keyFault("key_width", b.KeyWidth, b.Diameter, "the key must be narrower than the shaft, %s mm", short(b.Diameter))
	case b.KeyDepth >= b.Diameter/2:
		r.keyFault("key_depth", b.KeyDepth, b.Diameter/2, "the key must lie less deep than half of the shaft, %s mm", short(b.Diameter/2))
	case out <= 0:
		r.keyFault("key_depth", b.KeyDepth, b.KeyHeight, "a key of %s mm must stand out of the shaft", short(b.KeyHeight))
	case b.KeyWidth >= 2*math.Sqrt(b.KeyDepth*(b.Diameter-b.KeyDepth)):
		r.keyFault("key_width", b.KeyWidth, 2*math.Sqrt(b.KeyDepth*(b.Diameter-b.KeyDepth)),
			"%s mm deep in the shaft there is not so much width", short(b.KeyDepth))
	}
}

// keyGiven reports what is missing of a key that the standard does not have.
func (r *reading) keyGiven(d entry) bool {
	whole := true
	for _, name := range keyKeys {
		p := join("pinion.bore", name)
		if r.setting(p).Given {
			continue
		}
		whole = false
		r.fault(find.MissingKey, p, r.given[p].line, "the standard has no such key for a shaft of %s mm (it has them for more than 6 to 50 mm); give %s", short(d.num), name)
	}
	return whole
}

// keyFault reports a measure of the key, at the line of the key or, where the
// standard says it, of the diameter.
func (r *reading) keyFault(name string, found, limit float64, format string, args ...any) {
	p := join("pinion.bore", name)
	line := r.given[p].line
	if line == 0 {
		line = r.given["pinion.bore.diameter"].line
	}
	f := r.fault(find.Contradicts, p, line, "%s = %s: "+format, append([]any{name, short(found)}, args...)...)
	f.Found, f.Limit, f.Unit = find.Num(found), find.Num(limit), "mm"
}
