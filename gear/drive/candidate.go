package drive

import (
	"math"
	"strconv"
	"strings"
)

// candidate is one change that may cure a finding: a word to set, or numbers to
// try from the present one on.
type candidate struct {
	key    string
	number bool
	word   string // of no number: as written in the job file; empty takes the key out
	now    float64
	bounds [2]float64 // by reach; which side of now they lie on is the direction
	step   float64    // numbers are multiples of this
}

// reach is how far from its present value a number may go.
type reach int

const (
	near reach = iota // as far as the design stays much the same
	far               // as far as the key allows
)

// dir returns the direction of the numbers: +1 or -1.
func (c candidate) dir() float64 { return math.Copysign(1, c.bounds[far]-c.now) }

// first returns the first multiple of the step beyond the present value.
func (c candidate) first() float64 {
	if c.dir() > 0 {
		return math.Floor(c.now/c.step+1e-9) + 1
	}
	return math.Ceil(c.now/c.step-1e-9) - 1
}

// steps returns how many numbers there are up to the bound.
func (c candidate) steps(r reach) int {
	last := c.bounds[r] / c.step
	if c.dir() > 0 {
		last = math.Floor(last + 1e-9)
	} else {
		last = math.Ceil(last - 1e-9)
	}
	return max(0, int(math.Round((last-c.first())*c.dir()))+1)
}

// at returns the i-th number, from 1, as written in the job file.
func (c candidate) at(i int) string {
	return plain(roundTo((c.first()+c.dir()*float64(i-1))*c.step, c.step))
}

// roundTo takes off the noise of multiplying a step.
func roundTo(v, step float64) float64 {
	digits := int(math.Max(0, math.Ceil(-math.Log10(step)-1e-9)))
	w, err := strconv.ParseFloat(strconv.FormatFloat(v, 'f', digits, 64), 64)
	if err != nil {
		return v
	}
	return w
}

func plain(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

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
	case m.word != "":
		return candidate{key: key, word: m.word}, d.Job.Raw(key) != m.word
	case m.dir == 0:
		if !d.Job.Given(key) || d.Job.Raw(key) == `"auto"` {
			return candidate{}, false
		}
		if hasAuto[key] || strings.HasPrefix(key, "pinion.set_screw[") {
			return candidate{key: key, word: `"auto"`}, true
		}
		return candidate{key: key}, true
	}
	r, ok := d.rangeOf(key)
	if !ok {
		return candidate{}, false
	}
	dir := m.dir
	if key == "teeth.diametral_pitch" {
		dir = -dir // a larger pitch is a smaller tooth
	}
	c := candidate{key: key, number: true, now: r.now, step: r.step, bounds: [2]float64{math.Min(r.now+r.near, r.most), r.most}}
	if dir < 0 {
		c.bounds = [2]float64{math.Max(r.now-r.near, r.least), r.least}
	}
	return c, (c.bounds[far]-c.now)*dir > 0
}

// hasAuto are the keys that take "auto"; the others fall back to the default
// when they are taken out.
var hasAuto = map[string]bool{
	"teeth.pinion_shift": true, "teeth.ring_shift": true, "teeth.centre_distance": true,
	"pinion.tip_diameter": true, "ring.tip_diameter": true, "ring.outer_diameter": true,
	"pinion.bolts.circle": true, "ring.bolts.circle": true, "pinion.flange.diameter": true,
	"teeth.flexible_allowance": true, "pinion.tip_relief": true, "ring.tip_relief": true,
}

// standing returns the key that stands in the file for the one asked for.
func (d *Design) standing(key string) string {
	who, name, _ := strings.Cut(key, ".")
	switch {
	case key == "teeth.module" && d.Job.Given("teeth.diametral_pitch"):
		return "teeth.diametral_pitch"
	case who == "making" && !strings.Contains(name, "."):
		for _, m := range []string{"ring", "pinion"} {
			if own := "making." + m + "." + name; d.Job.Given(own) {
				return own
			}
		}
	}
	return key
}
