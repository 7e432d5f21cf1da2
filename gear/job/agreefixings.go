package job

import (
	"slices"
	"strings"

	"ringtrack/gear/find"
	"ringtrack/gear/stock"
)

// wanted reports keys that a section needs.
func (r *reading) wanted(s string, of map[string]string, names ...string) {
	for _, name := range names {
		if p := join(s, name); !r.has(p) {
			r.missing(p, "%s is missing: %s under %s", of[name], name, index.sections[plain(s)].header())
		}
	}
}

// agreeHoles wants exactly one of screw and hole, and a screw for every head
// that has a size.
func (r *reading) agreeHoles(s string) {
	screw, hole, head := r.has(s+".screw"), r.has(s+".hole"), r.given[s+".head"]
	switch {
	case screw && hole:
		second := max(r.given[s+".screw"].line, r.given[s+".hole"].line)
		r.fault(find.Contradicts, s+".hole", second, "screw and hole both say how large the holes are; leave one out")
	case !screw && !hole:
		r.missing(s+".screw", "the size of the holes is missing: screw (or hole) under [%s]", s)
	case !screw && head.ok && (head.text == "countersunk" || head.text == "counterbored"):
		f := r.fault(find.Contradicts, s+".head", head.line, "head = %s: a hole's diameter does not say how large the head is; give screw instead of hole", clip(head.raw))
		f.Change = []find.Change{{Key: s + ".head", Value: `"none"`}}
	}
}

// agreeBolts wants a number of holes, their size, and the length of slots.
func (r *reading) agreeBolts(s string) {
	if !r.hasSection(s) {
		return
	}
	r.wanted(s, map[string]string{"count": "the number of holes"}, "count")
	r.agreeHoles(s)
	head, certain := r.entry(s+".head").text, !r.has(s+".head") || r.good(s+".head")
	if !certain {
		return
	}
	switch slot := s + ".slot_length"; {
	case head == "slot" && !r.has(slot):
		r.missing(slot, "the way of a screw along its slot is missing: slot_length under [%s]", s)
	case head != "slot" && r.has(slot):
		f := r.fault(find.Contradicts, slot, r.given[slot].line, `slot_length: the holes are round; leave it out, or set head = "slot"`)
		f.Change = []find.Change{{Key: s + ".head", Value: `"slot"`}}
	}
	if p := s + ".side"; r.has(p) && head != "countersunk" && head != "counterbored" {
		r.fault(find.Contradicts, p, r.given[p].line, "side: with head = %q both faces are alike; leave it out", head)
	}
}

// agreeCoupling wants bore shape and section together, the pattern whole, and
// recesses with their measures.
func (r *reading) agreeCoupling() {
	const s, shape = "pinion.coupling", "pinion.bore.shape"
	is := r.good(shape) && r.given[shape].text == "coupling"
	switch {
	case is && !r.hasSection(s):
		r.missing(s+".count", "the coupling's screws are missing: count, circle and screw under [%s]", s)
		return
	case !r.hasSection(s):
		return
	case !is && (r.good(shape) || !r.has(shape)):
		f := r.fault(find.Contradicts, s, r.headers[s], `[%s] belongs to a bore of shape = "coupling"; leave it out, or set that shape`, s)
		f.Change = []find.Change{{Key: shape, Value: `"coupling"`}}
	}
	r.wanted(s, map[string]string{"count": "the number of the coupling's screws", "circle": "the circle of the coupling's screws"}, "count", "circle")
	r.agreeHoles(s)
	r.agreeRecess(s)
}

// agreeRecess wants recesses whole or not at all.
func (r *reading) agreeRecess(s string) {
	if r.num(s+".recess_count", 0) > 0 {
		r.wanted(s, map[string]string{"recess_diameter": "the diameter of the recesses", "recess_depth": "the depth of the recesses"},
			"recess_diameter", "recess_depth")
		return
	}
	if r.has(s+".recess_count") && !r.good(s+".recess_count") {
		return
	}
	for _, name := range []string{"recess_diameter", "recess_depth", "recess_circle", "recess_angle"} {
		if p := join(s, name); r.has(p) {
			f := r.fault(find.Contradicts, p, r.given[p].line, "%s: there are no recesses; leave it out, or set recess_count", name)
			f.Change = []find.Change{{Key: s + ".recess_count", Value: "1"}}
		}
	}
}

// agreeHub wants the hub's measures.
func (r *reading) agreeHub() {
	if r.hasSection("pinion.hub") {
		r.wanted("pinion.hub", map[string]string{"diameter": "the hub's diameter", "length": "the hub's length"}, "diameter", "length")
	}
}

// agreeStep wants the step's diameter.
func (r *reading) agreeStep() {
	if r.hasSection("ring.step") {
		r.wanted("ring.step", map[string]string{"diameter": "the diameter of the bearing's bore or rim"}, "diameter")
	}
}

// agreeSetScrews wants of every set screw a size, a seat that exists in that
// size, a shaft to press on and a height.
func (r *reading) agreeSetScrews() {
	for i := range r.count("pinion.set_screw") {
		s := numbered("pinion.set_screw", i)
		r.wanted(s, map[string]string{"size": "the size of the set screw"}, "size")
		r.agreeSeat(s)
		if i == 0 {
			r.agreeShaft(s)
		}
		if r.hasSection("pinion.hub") || r.setting(s+".height").Given || r.has(s+".height") && !r.good(s+".height") {
			continue
		}
		r.fault(find.MissingKey, s+".height", r.given[s+".height"].line,
			"without a hub (diameter and length under [pinion.hub]) a set screw needs its height: height under [[pinion.set_screw]]")
	}
}

// agreeSeat wants a nut or insert that is made in the screw's size.
func (r *reading) agreeSeat(s string) {
	size, seat := r.given[s+".size"], r.entry(s+".seat")
	if !size.ok || r.has(s+".seat") && !r.good(s+".seat") {
		return
	}
	var made []string
	switch seat.text {
	case "hex-nut":
		made = stock.NutNames("hex")
	case "square-nut":
		made = stock.NutNames("square")
	case "insert":
		made = stock.InsertNames()
	default:
		return
	}
	if slices.Contains(made, size.text) {
		return
	}
	f := r.fault(find.Contradicts, s+".seat", r.given[s+".seat"].line, "seat = %s: there is none for %s; there is for %s",
		clip(r.given[s+".seat"].raw), size.text, strings.Join(made, ", "))
	f.Change = []find.Change{{Key: s + ".seat", Value: `"hex-nut"`}}
}

// agreeShaft wants a shaft for set screws to press on.
func (r *reading) agreeShaft(s string) {
	const shape = "pinion.bore.shape"
	switch {
	case !r.hasSection("pinion.bore"):
		r.fault(find.Contradicts, s, r.headers[s], "a set screw presses on the shaft, and the pinion has no bore: give [pinion.bore], or leave the screw out")
	case r.good(shape) && r.given[shape].text == "coupling":
		r.fault(find.Contradicts, s, r.headers[s], "the coupling holds the shaft with set screws of its own; leave [[pinion.set_screw]] out")
	}
}

// agreeSheet refuses on a part cut from a sheet what rises above or sinks into
// its faces.
func (r *reading) agreeSheet() {
	for _, m := range []struct {
		who      string
		sections []string
		keys     []string
	}{
		{"pinion", []string{"pinion.hub", "pinion.set_screw", "pinion.flange"}, []string{"pinion.bore.depth"}},
		{"ring", []string{"ring.step"}, nil},
	} {
		if kind, certain := r.kind(m.who); kind != "cut" || !certain {
			continue
		}
		for _, s := range m.sections {
			if first := s; r.hasSection(s) || r.hasSection(numbered(s, 0)) {
				if index.sections[s].double {
					first = numbered(s, 0)
				}
				r.flat(m.who, s, r.headers[first])
			}
		}
		for _, k := range m.keys {
			if r.has(k) {
				r.flat(m.who, k, r.given[k].line)
			}
		}
		r.agreeSheetHoles(m.who)
	}
}

// agreeSheetHoles refuses heads, recesses and stand-offs on a cut part.
func (r *reading) agreeSheetHoles(who string) {
	sunk := []string{who + ".bolts.head"}
	if who == "pinion" {
		sunk = append(sunk, "pinion.coupling.head")
	}
	for _, p := range sunk {
		if e := r.given[p]; e.ok && (e.text == "countersunk" || e.text == "counterbored") {
			r.flat(who, p, e.line)
		}
	}
	for _, p := range []string{"pinion.coupling.recess_count", "ring.stand_off"} {
		if e := r.given[p]; e.ok && e.num > 0 && strings.HasPrefix(p, who) {
			r.flat(who, p, e.line)
		}
	}
}

// flat reports something that a cut part cannot have.
func (r *reading) flat(who, about string, line int) {
	f := r.fault(find.Contradicts, about, line, "%s: the %s is cut from a sheet, and its faces stay flat; leave it out, or print the %s", about, who, who)
	f.Change = []find.Change{{Key: "making." + who + ".kind", Value: `"printed"`}}
}
