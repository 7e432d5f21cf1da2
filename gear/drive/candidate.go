package drive

import (
	"math"
	"strings"

	"ringtrack/gear/find"
)

// candidate is one change that may cure a finding: a word to set, or a range of
// numbers from the present value toward a bound.
type candidate struct {
	key         string
	word        string  // set this word, or remove the key
	from, bound float64 // as written in the job file
	step        float64 // the answer is a multiple of this
}

// remove as a word takes the key out of the job.
const remove = "\x00"

// candidates returns what to try for a finding, best first.
func (d *Design) candidates(f find.Finding) []candidate {
	who, _, _ := strings.Cut(f.About, ".")
	switch f.Code {
	case find.Undercut:
		return d.list(auto("teeth.pinion_shift"), up("teeth.pinion_shift"), up("teeth.pinion"), up("teeth.pressure_angle"))
	case find.PointedTip, find.ThinTip:
		return d.tipCandidates(f, who)
	case find.RingTipInterference:
		return d.list(auto("ring.tip_diameter"), up("ring.tip_diameter"), auto("teeth.pinion_shift"), up("teeth.pinion_shift"), auto("teeth.ring_shift"))
	case find.PinionTipInterference:
		return d.list(auto("pinion.tip_diameter"), down("pinion.tip_diameter"), auto("ring.root_radius"), down("ring.root_radius"), up("ring.dedendum"))
	case find.TipOnTip:
		return d.list(auto("teeth.ring_shift"), up("teeth.ring_shift"), down("pinion.tip_diameter"), up("ring.tip_diameter"), up("teeth.ring"))
	case find.RadialAssembly:
		return d.list(up("teeth.ring"), down("pinion.tip_diameter"), up("ring.tip_diameter"))
	case find.LowContactRatio:
		return d.list(auto("pinion.tip_diameter"), auto("ring.tip_diameter"), up("teeth.pinion"), down("teeth.pressure_angle"),
			up("pinion.tip_diameter"), down("ring.tip_diameter"), down("mounting.centre_distance_spread"), down("teeth.pinion_shift"), up("teeth.module"), down("teeth.backlash"))
	case find.Jams:
		return d.list(down("teeth.centre_distance"), auto("teeth.centre_distance"), up("teeth.ring_shift"), auto("teeth.ring_shift"), down("teeth.pinion_shift"))
	case find.MuchPlay:
		return d.list(up("teeth.centre_distance"), auto("teeth.centre_distance"), auto("teeth.ring_shift"), up("teeth.backlash"))
	case find.LittleBacklash:
		return d.list(up("teeth.backlash"), auto("teeth.backlash"), down("mounting.centre_distance_spread"))
	case find.SmallTipClearance:
		return d.list(auto(f.About), d.away(f.About), d.deeper(who), down("mounting.centre_distance_spread"))
	}
	return d.partCandidates(f, who)
}

// partCandidates continues candidates for what lies beside the teeth.
func (d *Design) partCandidates(f find.Finding, who string) []candidate {
	switch f.Code {
	case find.ThinRim:
		return d.list(auto("ring.outer_diameter"), up("ring.outer_diameter"))
	case find.BoreTooLarge:
		return d.list(down("pinion.bore.diameter"), up("teeth.pinion"), up("teeth.module"), down("pinion.bolts.circle"))
	case find.HoleMeetsTeeth:
		return d.list(auto(f.About), d.away(f.About), down(who+".bolts.hole"), up("ring.outer_diameter"))
	case find.HoleOutsideRim:
		return d.list(auto("ring.outer_diameter"), up("ring.outer_diameter"), down(f.About), down(who+".bolts.hole"))
	case find.NarrowGap:
		return d.list(auto("ring.root_radius"), down(f.About), up(f.About), down("making.kerf"), up("teeth.module"))
	case find.OutsideBed:
		return d.bedCandidates(f)
	case find.OutlineLost:
		return d.list(auto(f.About), down(f.About), up(f.About), auto("teeth.pinion_shift"), auto("teeth.ring_shift"),
			auto("pinion.tip_diameter"), auto("ring.tip_diameter"), up("teeth.pinion"), up("teeth.module"))
	case find.RackWithoutLand:
		return d.list(auto(f.About), down(f.About), quoted("teeth.rack", "A"), down("teeth.pressure_angle"), down("teeth.dedendum"))
	case find.ToleranceTooFine:
		return d.list(up("output.tolerance"))
	case find.Contradicts:
		return d.list(auto("teeth.ring_shift"), up("teeth.ring_shift"), auto("teeth.pinion_shift"), down("teeth.pinion_shift"),
			auto("teeth.centre_distance"), up("teeth.centre_distance"))
	case find.OutOfRange:
		return d.list(auto(f.About), d.either(f.About, -1), d.either(f.About, 1), auto("teeth.pinion_shift"), auto("teeth.ring_shift"))
	}
	return nil
}

// tipCandidates continues candidates for tips that are pointed or thin.
func (d *Design) tipCandidates(f find.Finding, who string) []candidate {
	if f.About == "teeth.ring_shift" || who == "ring" {
		return d.list(auto("ring.tip_diameter"), up("ring.tip_diameter"), auto("teeth.ring_shift"), down("teeth.ring_shift"),
			down("teeth.least_tip"), up("teeth.module"), up("teeth.ring"))
	}
	return d.list(auto("pinion.tip_diameter"), down("pinion.tip_diameter"), auto("teeth.pinion_shift"), down("teeth.pinion_shift"),
		down("teeth.least_tip"), up("teeth.module"), up("teeth.pinion"), down("teeth.pressure_angle"), down("teeth.backlash"))
}

// bedCandidates asks for the bed that the part needs, or smaller teeth.
func (d *Design) bedCandidates(f find.Finding) []candidate {
	bed := d.Job.Ring.Making.Bed
	if strings.HasPrefix(f.About, "making.pinion") {
		bed = d.Job.Pinion.Making.Bed
	}
	need := math.Ceil(*f.Found)
	for i, b := range bed {
		if i < 2 || b < *f.Limit+1e-9 {
			bed[i] = math.Max(b, need)
		}
	}
	word := "[" + plain(bed[0]) + ", " + plain(bed[1]) + ", " + plain(bed[2]) + "]"
	return append([]candidate{{key: f.About, word: word}}, d.list(down("teeth.module"))...)
}

// move is a candidate before the design's present value is known.
type move struct {
	key  string
	dir  float64
	word string
}

func up(key string) move                              { return move{key: key, dir: 1} }
func down(key string) move                            { return move{key: key, dir: -1} }
func auto(key string) move                            { return move{key: key, word: "auto"} }
func quoted(key, word string) move                    { return move{key: key, word: `"` + word + `"`} }
func (d *Design) either(key string, dir float64) move { return move{key: key, dir: dir} }

// away moves a tip or a screw circle away from what it meets: a ring's outward,
// a pinion's inward.
func (d *Design) away(key string) move {
	if strings.HasPrefix(key, "ring") {
		return up(key)
	}
	return down(key)
}

// deeper lets the mate of a member's tip have a deeper root.
func (d *Design) deeper(who string) move {
	if who == "ring" {
		return up("pinion.dedendum")
	}
	return up("ring.dedendum")
}

// list turns moves into candidates and drops those that change nothing.
func (d *Design) list(moves ...move) []candidate {
	var out []candidate
	for _, m := range moves {
		if c, ok := d.candidate(m); ok {
			out = append(out, c)
		}
	}
	return out
}

func (d *Design) candidate(m move) (candidate, bool) {
	key := d.standing(m.key)
	switch {
	case m.word == "auto":
		if !d.Job.Given(key) || d.Job.Raw(key) == `"auto"` {
			return candidate{}, false
		}
		if key == "ring.root_radius" || key == "teeth.backlash" || strings.HasPrefix(key, "making") {
			return candidate{key: key, word: remove}, true
		}
		return candidate{key: key, word: `"auto"`}, true
	case m.word != "":
		return candidate{key: key, word: m.word}, d.Job.Raw(key) != m.word
	}
	r, ok := d.rangeOf(key)
	if !ok {
		return candidate{}, false
	}
	dir := m.dir
	if key == "teeth.diametral_pitch" {
		dir = -dir // a larger pitch is a smaller tooth
	}
	c := candidate{key: key, from: r.now, step: r.step, bound: r.most}
	if dir < 0 {
		c.bound = r.least
	}
	return c, (c.bound-c.from)*dir > 0
}

// standing returns the key that stands in the file for the one asked for.
func (d *Design) standing(key string) string {
	if key == "teeth.module" && d.Job.Given("teeth.diametral_pitch") {
		return "teeth.diametral_pitch"
	}
	if who, name, _ := strings.Cut(key, "."); who == "making" && !strings.Contains(name, ".") {
		for _, m := range []string{"ring", "pinion"} {
			if own := "making." + m + "." + name; d.Job.Given(own) {
				return own
			}
		}
	}
	return key
}
