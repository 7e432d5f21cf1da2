package drive

import (
	"math"
	"strings"

	"ringtrack/gear/find"
	"ringtrack/gear/job"
	"ringtrack/gear/stock"
)

// move is a candidate before the design's present value is known: a key and the
// direction to go, or a word to set; neither leaves the choice to the tool.
type move struct {
	key  string
	dir  float64
	word string
}

func up(key string) move           { return move{key: key, dir: 1} }
func down(key string) move         { return move{key: key, dir: -1} }
func auto(key string) move         { return move{key: key} }
func quoted(key, word string) move { return move{key: key, word: `"` + word + `"`} }

// moves returns what to try for a finding, best first.
func (d *Design) moves(f find.Finding) []move {
	who, _, _ := strings.Cut(f.About, ".")
	if moves, ok := d.budgetMoves(f); ok {
		return moves
	}
	if out := d.loadMoves(f); out != nil && aboutLoad(f) {
		return out
	}
	switch f.Code {
	case find.Undercut:
		return []move{auto("teeth.pinion_shift"), up("teeth.pinion_shift"), up("teeth.pinion"), up("teeth.pressure_angle")}
	case find.PointedTip, find.ThinTip:
		return tipMoves(f, who)
	case find.RingTipInterference:
		return []move{auto("ring.tip_diameter"), up("ring.tip_diameter"), auto("teeth.pinion_shift"), up("teeth.pinion_shift"),
			auto("teeth.ring_shift"), up("teeth.pinion"), up("teeth.ring")}
	case find.PinionTipInterference:
		return []move{auto("pinion.tip_diameter"), down("pinion.tip_diameter"), auto("ring.root_radius"), down("ring.root_radius"),
			auto("ring.dedendum"), up("ring.dedendum"), down("teeth.pinion_shift"), up("teeth.ring_shift")}
	case find.TipOnTip:
		return []move{auto("teeth.ring_shift"), up("teeth.ring_shift"), auto("pinion.tip_diameter"), auto("ring.tip_diameter"),
			down("pinion.tip_diameter"), up("ring.tip_diameter"), up("teeth.ring"), down("teeth.pinion"), up("teeth.pressure_angle")}
	case find.RadialAssembly:
		return nil // nothing needs to change: its text says how to put the pinion in
	case find.LowContactRatio:
		return []move{auto("pinion.tip_diameter"), auto("ring.tip_diameter"), auto("teeth.pinion_shift"), auto("teeth.ring_shift"),
			up("teeth.pinion"), down("teeth.pressure_angle"), up("pinion.tip_diameter"), down("ring.tip_diameter"),
			down("mounting.centre_distance_spread"), down("teeth.pinion_shift"), up("teeth.module"), down("teeth.backlash"), down("teeth.least_tip")}
	case find.Jams:
		return []move{auto("teeth.centre_distance"), down("teeth.centre_distance"), auto("teeth.ring_shift"), up("teeth.ring_shift"), down("teeth.pinion_shift")}
	case find.MuchPlay:
		return []move{auto("teeth.centre_distance"), up("teeth.centre_distance"), auto("teeth.ring_shift"), up("teeth.backlash"), down("teeth.ring_shift")}
	case find.LittleBacklash:
		return []move{auto("teeth.backlash"), up("teeth.backlash"), down("mounting.centre_distance_spread"), down("teeth.centre_distance")}
	case find.SmallTipClearance:
		return append([]move{auto(f.About), away(f.About)}, clearanceMoves(who)...)
	}
	return d.partMoves(f, who)
}

// clearanceMoves gives a member's tip more room beside its own length: the mate
// gets its depth back, or more of it.
func clearanceMoves(who string) []move {
	mate := "pinion"
	if who == "pinion" {
		mate = "ring"
	}
	return []move{auto(mate + ".dedendum"), up(mate + ".dedendum"), auto("teeth.dedendum"), up("teeth.dedendum"),
		auto(who + ".addendum"), auto("teeth.addendum"), down("mounting.centre_distance_spread")}
}

// partMoves continues moves for what lies beside the teeth.
func (d *Design) partMoves(f find.Finding, who string) []move {
	switch f.Code {
	case find.ThinRim:
		return []move{auto("ring.outer_diameter"), up("ring.outer_diameter"), down("teeth.module"), down("teeth.ring")}
	case find.BoreTooLarge:
		return []move{down("pinion.bore.diameter"), up("teeth.pinion"), up("teeth.module"), auto("pinion.bolts.circle"), up("pinion.bolts.circle"), down("pinion.bolts.hole")}
	case find.HoleMeetsTeeth, find.HoleOutsideRim:
		return d.holeMoves(f, who)
	case find.NarrowGap:
		return d.gapMoves(f, who)
	case find.OutsideBed:
		return append([]move{auto("ring.outer_diameter"), down("teeth.module"), down("teeth.ring"), down("ring.outer_diameter"),
			auto("ring.face_width"), auto("pinion.face_width"), down("ring.face_width"), down("pinion.face_width")}, d.largerBed(f))
	case find.OutlineLost:
		return []move{auto(f.About), down(f.About), up(f.About), auto("teeth.pinion_shift"), auto("teeth.ring_shift"),
			auto("pinion.tip_diameter"), auto("ring.tip_diameter"), up("teeth.pinion"), up("teeth.ring"), up("teeth.module")}
	case find.RackWithoutLand:
		return []move{auto(f.About), down(f.About), quoted("teeth.rack", "A"), auto("teeth.dedendum"), auto("teeth.root_radius"),
			down("teeth.pressure_angle"), down("teeth.dedendum"), down("teeth.root_radius"), auto(who + ".dedendum"), down(who + ".dedendum")}
	case find.ToleranceTooFine:
		return []move{up("output.tolerance")}
	case find.Contradicts:
		if f.About == "pinion.flange.side" {
			return []move{quoted(f.About, "above"), quoted(f.About, "below")}
		}
		return []move{auto("teeth.ring_shift"), up("teeth.ring_shift"), auto("teeth.pinion_shift"), down("teeth.pinion_shift"),
			auto("teeth.centre_distance"), up("teeth.centre_distance")}
	case find.OutOfRange:
		return []move{auto(f.About), down(f.About), up(f.About), auto("teeth.pinion_shift"), auto("teeth.ring_shift"),
			auto("teeth.centre_distance")}
	}
	return d.fixingMoves(f)
}

// tipMoves makes room at a tip that is pointed or thin.
func tipMoves(f find.Finding, who string) []move {
	if f.About == "teeth.ring_shift" || who == "ring" {
		return []move{auto("ring.tip_diameter"), up("ring.tip_diameter"), auto("teeth.ring_shift"), down("teeth.ring_shift"),
			auto("ring.addendum"), auto("teeth.addendum"), auto("teeth.least_tip"), down("teeth.least_tip"), up("teeth.module"), up("teeth.ring"), down("teeth.backlash")}
	}
	return []move{auto("pinion.tip_diameter"), down("pinion.tip_diameter"), auto("teeth.pinion_shift"), down("teeth.pinion_shift"),
		auto("teeth.least_tip"), down("teeth.least_tip"), up("teeth.module"), up("teeth.pinion"), down("teeth.pressure_angle"),
		auto("teeth.backlash"), down("teeth.backlash")}
}

// holeMoves moves screw holes away from what they meet, or makes them smaller.
func (d *Design) holeMoves(f find.Finding, who string) []move {
	out := []move{auto(f.About)}
	switch {
	case f.Code == find.HoleOutsideRim:
		out = append(out, auto("ring.outer_diameter"), up("ring.outer_diameter"), down(f.About))
	default:
		out = append(out, away(f.About))
	}
	out = append(out, d.smallerHole(who)...)
	if who == "pinion" {
		return append(out, down("pinion.bore.diameter"), up("teeth.pinion"), up("teeth.module"))
	}
	return append(out, up("ring.outer_diameter"))
}

// gapMoves widens a gap between teeth or between screw holes.
func (d *Design) gapMoves(f find.Finding, who string) []move {
	switch name := f.About[strings.LastIndexByte(f.About, '.')+1:]; name {
	case "count":
		return append(append([]move{down(f.About)}, d.smallerHole(who)...), up(who+".bolts.circle"))
	case "root_radius":
		return []move{auto(f.About), up(f.About), auto("teeth.root_radius"), down("making.kerf"), up("teeth.module")}
	case "clearance":
		return []move{up(f.About), auto("making.kerf"), down("making.kerf")}
	}
	return []move{auto(f.About), down(f.About), up("teeth.module"), down("teeth.dedendum"), up("teeth.backlash")}
}

// smallerHole tries the next smaller screws, or smaller holes.
func (d *Design) smallerHole(who string) []move {
	b := d.Job.Pinion.Bolts
	if who == "ring" {
		b = d.Job.Ring.Bolts
	}
	if b == nil || b.Screw == "" {
		return []move{down(who + ".bolts.hole")}
	}
	var out []move
	inch := strings.HasPrefix(b.Screw, "#")
	screws := stock.Screws()
	for i := len(screws) - 1; i >= 0; i-- {
		if s := screws[i]; s.Medium < b.Hole && strings.HasPrefix(s.Name, "#") == inch {
			out = append(out, quoted(who+".bolts.screw", s.Name))
		}
	}
	return out
}

// largerBed asks for the bed that the parts on it need.
func (d *Design) largerBed(f find.Finding) move {
	var bed [3]float64
	for _, m := range []struct {
		who          string
		member       job.Member
		across, high float64
	}{
		{"pinion", d.Job.Pinion, d.Pair.Pinion.TipDiameter, d.Job.Pinion.FaceWidth},
		{"ring", d.Job.Ring, d.Ring.Outer, d.Job.Ring.FaceWidth},
	} {
		if d.keyOf(m.who, "bed") == f.About && m.member.Make {
			for i, need := range [3]float64{m.across, m.across, m.high} {
				bed[i] = max(bed[i], m.member.Making.Bed[i], math.Ceil(need))
			}
		}
	}
	return move{key: f.About, word: "[" + plain(bed[0]) + ", " + plain(bed[1]) + ", " + plain(bed[2]) + "]"}
}

// away moves a tip or a screw circle away from what it meets: a ring's outward,
// a pinion's inward.
func away(key string) move {
	if strings.HasPrefix(key, "ring") {
		return up(key)
	}
	return down(key)
}

// everyMove leaves each open key to the tool and turns each number both ways.
func everyMove() []move {
	var out []move
	for _, key := range []string{
		"pinion.tip_diameter", "ring.tip_diameter", "teeth.pinion_shift", "teeth.ring_shift", "teeth.centre_distance", "teeth.backlash",
		"teeth.dedendum", "pinion.dedendum", "ring.dedendum", "teeth.addendum", "pinion.addendum", "ring.addendum",
		"teeth.root_radius", "pinion.root_radius", "ring.root_radius", "teeth.least_tip", "mounting.centre_distance_spread",
		"making.line_width", "making.growth", "making.hole_shrink", "making.kerf", "making.shrinkage", "ring.outer_diameter",
		"teeth.pinion", "teeth.ring", "teeth.pressure_angle", "teeth.module",
	} {
		out = append(out, auto(key), up(key), down(key))
	}
	for _, rack := range []string{"A", "B", "C", "D"} {
		out = append(out, quoted("teeth.rack", rack))
	}
	return out
}
