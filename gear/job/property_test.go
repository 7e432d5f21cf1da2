package job_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"ringtrack/gear/find"
	"ringtrack/gear/job"
	"ringtrack/gear/stock"
)

// length draws a length in one of its spellings.
func length(lo, hi float64) *rapid.Generator[string] {
	return rapid.Custom(func(t *rapid.T) string {
		v := rapid.Float64Range(lo, hi).Draw(t, "v")
		return fmt.Sprintf(rapid.SampledFrom([]string{"%.4f", `"%.4f mm"`, `"%.4fmm"`}).Draw(t, "spelling"), v)
	})
}

func plain(lo, hi float64) *rapid.Generator[string] {
	return rapid.Map(rapid.Float64Range(lo, hi), func(v float64) string { return fmt.Sprintf("%.4f", v) })
}

func whole(lo, hi int) *rapid.Generator[string] {
	return rapid.Map(rapid.IntRange(lo, hi), func(v int) string { return fmt.Sprint(v) })
}

func oneOf(words ...string) *rapid.Generator[string] {
	return rapid.Map(rapid.SampledFrom(words), func(w string) string { return fmt.Sprintf("%q", w) })
}

func orAuto(g *rapid.Generator[string]) *rapid.Generator[string] {
	return rapid.OneOf(g, rapid.Just(`"auto"`))
}

// chance is a key that a drawn job may have.
type chance struct {
	name  string
	value *rapid.Generator[string]
}

var (
	shape = []chance{{"addendum", plain(0.5, 1.2)}, {"dedendum", plain(0.6, 1.5)}, {"root_radius", plain(0, 0.4)}}
	some  = map[string][]chance{
		"teeth": append([]chance{
			{"pressure_angle", plain(14.5, 30)}, {"pinion_shift", orAuto(plain(-1, 2))}, {"ring_shift", orAuto(plain(-1, 2))},
			{"centre_distance", orAuto(length(1, 25000))}, {"backlash", length(0, 0.2)}, {"backlash_share", plain(0, 1)},
			{"rack", oneOf("A", "B", "C", "D")}, {"least_tip", length(0, 2)}}, shape...),
		"pinion": append([]chance{
			{"make", rapid.SampledFrom([]string{"true", "false"})}, {"face_width", length(1, 100)},
			{"material", oneOf(stock.MaterialNames()...)}, {"tip_diameter", orAuto(length(1, 1000))}}, shape...),
		"ring": append([]chance{
			{"face_width", length(1, 100)}, {"outer_diameter", orAuto(length(10, 1000))}, {"material", oneOf("PLA", "mdf")}}, shape...),
		"pinion.bore": {{"clearance", length(-0.5, 1)}},
		"pinion.hub":  {{"side", oneOf("above", "below")}, {"foot", length(0, 5)}, {"foot_shape", oneOf("fillet", "chamfer")}},
		"pinion.set_screw": {{"angle", plain(-360, 360)}, {"height", orAuto(length(0, 50))}, {"length", orAuto(length(1, 30))},
			{"seat", oneOf("plain", "tapped", "hex-nut")}},
		"pinion.flange":   {{"diameter", orAuto(length(1, 200))}, {"thickness", length(0.5, 5)}, {"side", oneOf("above", "below")}},
		"pinion.coupling": {{"angle", plain(-360, 360)}, {"side", oneOf("above", "below")}},
		"ring.step": {{"height", length(0.5, 5)}, {"side", oneOf("above", "below")}, {"fits", oneOf("bore", "rim")},
			{"clearance", length(-0.5, 1)}},
		"pinion.bolts": {{"circle", orAuto(length(1, 1000))}, {"angle", plain(-360, 360)}},
		"ring.bolts":   {{"circle", orAuto(length(1, 1000))}, {"angle", plain(-360, 360)}},
		"printed": {{"line_width", length(0.1, 1)}, {"layer", length(0.05, 1)}, {"growth", length(-0.5, 0.5)},
			{"hole_shrink", length(-0.5, 0.5)}, {"shrinkage", plain(-1, 5)}, {"edge", length(0, 1)}, {"foot", length(0, 0.5)}},
		"cut":      {{"kerf", length(0, 1)}},
		"exact":    {{"edge", length(0, 1)}},
		"mounting": {{"centre_distance_spread", length(0, 1)}},
		"output": {{"tolerance", plain(0.0001, 1)},
			{"formats", rapid.SampledFrom([]string{`["stl"]`, `["dxf", "svg"]`, `["dxf", "stl", "png"]`})}},
	}
)

// drawing is a job being drawn.
type drawing struct {
	t    *rapid.T
	text strings.Builder
	keys map[string]string
}

func (d *drawing) put(section, name, value string) {
	fmt.Fprintf(&d.text, "%s = %s\n", name, value)
	d.keys[section+"."+name] = value
}

// maybe puts some of the keys that the named list has.
func (d *drawing) maybe(section, of string) {
	for _, c := range some[of] {
		if rapid.Bool().Draw(d.t, section+"."+c.name) {
			d.put(section, c.name, c.value.Draw(d.t, c.name))
		}
	}
}

// section begins one.
func (d *drawing) section(name string) { fmt.Fprintf(&d.text, "[%s]\n", name) }

func (d *drawing) teeth() {
	d.section("teeth")
	if rapid.Bool().Draw(d.t, "in inches") {
		d.put("teeth", "diametral_pitch", plain(0.508, 127).Draw(d.t, "pitch"))
	} else {
		d.put("teeth", "module", length(0.2, 50).Draw(d.t, "module"))
	}
	z := rapid.IntRange(5, 300).Draw(d.t, "pinion")
	d.put("teeth", "pinion", fmt.Sprint(z))
	d.put("teeth", "ring", whole(z+1, 1000).Draw(d.t, "ring"))
	d.maybe("teeth", "teeth")
}

func (d *drawing) bore() {
	const s = "pinion.bore"
	shape := rapid.SampledFrom([]string{"round", "d", "double-d", "hexagon", "keyed", "coupling"}).Draw(d.t, "shape")
	d.section(s)
	d.put(s, "shape", fmt.Sprintf("%q", shape))
	if shape != "hexagon" {
		d.put(s, "diameter", map[bool]string{true: "9.5", false: "6"}[shape == "keyed"])
	}
	switch shape {
	case "d", "double-d", "hexagon":
		d.put(s, "across_flat", length(3.001, 5.999).Draw(d.t, "flat"))
	case "keyed":
		d.put(s, "key_width", rapid.SampledFrom([]string{`"auto"`, "2", "3"}).Draw(d.t, "width"))
	}
	d.maybe(s, s)
	if shape == "coupling" {
		d.coupling()
	} else if rapid.Bool().Draw(d.t, "screws") {
		d.setScrews()
	}
}

func (d *drawing) coupling() {
	const s = "pinion.coupling"
	d.section(s)
	d.put(s, "count", whole(2, 24).Draw(d.t, "count"))
	d.put(s, "circle", length(1, 1000).Draw(d.t, "circle"))
	d.put(s, "screw", oneOf(stock.ScrewNames()...).Draw(d.t, "size"))
	d.put(s, "head", oneOf("none", "countersunk", "counterbored").Draw(d.t, "head"))
	if n := rapid.IntRange(0, 12).Draw(d.t, "recesses"); n > 0 {
		d.put(s, "recess_count", fmt.Sprint(n))
		d.put(s, "recess_diameter", length(0.5, 20).Draw(d.t, "recess"))
		d.put(s, "recess_depth", length(0.2, 20).Draw(d.t, "recess"))
	}
	d.maybe(s, s)
}

// setScrews draws a hub with screws through it.
func (d *drawing) setScrews() {
	d.section("pinion.hub")
	d.put("pinion.hub", "diameter", length(10, 50).Draw(d.t, "hub"))
	d.put("pinion.hub", "length", length(5, 30).Draw(d.t, "hub"))
	d.maybe("pinion.hub", "pinion.hub")
	for i := range rapid.IntRange(0, 8).Draw(d.t, "screws") {
		s := fmt.Sprintf("pinion.set_screw[%d]", i)
		d.text.WriteString("[[pinion.set_screw]]\n")
		d.put(s, "size", oneOf(stock.SetScrewNames()...).Draw(d.t, "size"))
		d.maybe(s, "pinion.set_screw")
	}
}

func (d *drawing) bolts(s string) {
	d.section(s)
	d.put(s, "count", whole(3, 64).Draw(d.t, "count"))
	head := "none"
	if rapid.Bool().Draw(d.t, "screw") {
		d.put(s, "screw", oneOf(stock.ScrewNames()...).Draw(d.t, "size"))
		head = rapid.SampledFrom([]string{"none", "countersunk", "counterbored", "pilot", "slot"}).Draw(d.t, "head")
		d.put(s, "head", fmt.Sprintf("%q", head))
	} else {
		d.put(s, "hole", length(1, 20).Draw(d.t, "hole"))
	}
	switch head {
	case "slot":
		d.put(s, "slot_length", length(0.1, 10).Draw(d.t, "slot"))
	case "countersunk", "counterbored":
		d.put(s, "side", oneOf("above", "below").Draw(d.t, "side"))
	}
	d.maybe(s, s)
}

// kinds lists how a member can be made: one with a shape in height not from a
// sheet.
func (d *drawing) kinds(section string) []string {
	all := []string{"printed", "exact", "cut"}
	text := d.text.String()
	high := map[string][]string{
		"making.pinion": {"[pinion.hub]", "[pinion.flange]", "[pinion.coupling]"},
		"making.ring":   {"[ring.step]"},
	}[section]
	for _, s := range append(high, "\"countersunk\"", "\"counterbored\"") {
		if section != "making" && strings.Contains(text, s) {
			return all[:2]
		}
	}
	return all
}

// drawJob draws a valid job and the keys that stand in it. Both members say how
// they are made, so that [making] says no more than a kind.
func drawJob(t *rapid.T) (text string, keys map[string]string) {
	d := &drawing{t: t, keys: map[string]string{}}
	d.teeth()
	for _, s := range []string{"pinion", "ring", "mounting", "output"} {
		d.section(s)
		d.maybe(s, s)
	}
	if rapid.Bool().Draw(t, "bore") {
		d.bore()
	}
	for _, s := range []string{"pinion.bolts", "ring.bolts"} {
		if rapid.Bool().Draw(t, s) {
			d.bolts(s)
		}
	}
	if rapid.Bool().Draw(t, "flange") {
		d.section("pinion.flange")
		d.maybe("pinion.flange", "pinion.flange")
	}
	if rapid.Bool().Draw(t, "step") {
		d.section("ring.step")
		d.put("ring.step", "diameter", length(1, 1000).Draw(t, "step"))
		d.maybe("ring.step", "ring.step")
	}
	for _, s := range []string{"making", "making.pinion", "making.ring"} {
		kind := rapid.SampledFrom(d.kinds(s)).Draw(t, s)
		d.section(s)
		d.put(s, "kind", fmt.Sprintf("%q", kind))
		if s != "making" {
			d.maybe(s, kind)
		}
	}
	return d.text.String(), d.keys
}

func TestAnyValidJobDecodes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text, keys := drawJob(t)
		j, found := job.Read("x.toml", []byte(text))
		if j == nil || len(found) > 0 {
			t.Fatalf("%s\n%v", text, found)
		}
		for key, value := range keys {
			if !j.Given(key) || j.Line(key) == 0 || j.Raw(key) != value {
				t.Fatalf("%s = %s: given %v in line %d as %s", key, value, j.Given(key), j.Line(key), j.Raw(key))
			}
		}
	})
}

func TestWithTheSameValueIsTheSameJob(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text, keys := drawJob(t)
		j, _ := job.Read("x.toml", []byte(text))
		for key, value := range keys {
			k, found := j.With(key, value)
			if k == nil || !assert.ObjectsAreEqual(j, k) {
				t.Fatalf("%s\n%s = %s: %v", text, key, value, found)
			}
		}
	})
}

// Setting a key by With is the same as writing it into the file.
func TestWithIsLikeWriting(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text, _ := drawJob(t)
		j, _ := job.Read("x.toml", []byte(text))
		c := find.Change{Key: "teeth.rack", Value: `"C"`}
		if rapid.Bool().Draw(t, "other") {
			c = find.Change{Key: "ring.face_width", Value: `"0.5 in"`}
		}
		with, _ := j.With(c.Key, c.Value)
		read, found := job.Read("x.toml", []byte(write(text, c)))
		if read == nil {
			t.Fatalf("%v", found)
		}
		for _, pair := range [][2]any{{with.Teeth, read.Teeth}, {with.Pinion, read.Pinion}, {with.Ring, read.Ring}} {
			if !assert.ObjectsAreEqual(pair[0], pair[1]) {
				t.Fatalf("%+v\n%+v", pair[0], pair[1])
			}
		}
	})
}
