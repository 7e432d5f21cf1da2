package job

import (
	"fmt"
	"strings"
)

// scenario is the job of the template: a tray of seedlings turning on a
// greenhouse bench, driven by a small gearmotor with a 6 mm D shaft.
var scenario = map[string]string{
	"title":                   `"Seedling carousel"`,
	"teeth.module":            "2.5",
	"teeth.pinion":            "15",
	"teeth.ring":              "104",
	"teeth.backlash":          `"auto"`,
	"pinion.material":         `"petg"`,
	"pinion.bore.shape":       `"d"`,
	"pinion.bore.diameter":    "6",
	"pinion.bore.across_flat": "5.5",
	"ring.material":           `"petg"`,
	"ring.bolts.count":        "8",
	"ring.bolts.screw":        `"M4"`,
	"making.bed":              "[300, 300, 300]",
}

// resolved gives, for defaults that follow from other keys, what they come to in
// the scenario.
var resolved = map[string]string{
	"teeth.least_tip":                 "0.45",
	"pinion.face_width":               "12",
	"pinion.bore.clearance":           "0.1",
	"ring.face_width":                 "10",
	"making.shrinkage":                "0.3",
	"making.edge":                     "0.4",
	"mounting.centre_distance_spread": "0.1",
	"making.spread":                   "0.05",
	"mounting.bearing_play":           "0.5",
	"mounting.ring_runout":            "0.2",
	"mounting.pinion_runout":          "0.1",
	"mounting.tilt":                   "0.48",
}

// example gives values for sections that the scenario does not have.
var example = map[string]string{
	"pinion.coupling.count":  "4",
	"pinion.coupling.circle": "16",
	"pinion.coupling.screw":  `"M3"`,
	"pinion.hub.diameter":    "20",
	"pinion.hub.length":      "10",
	"pinion.set_screw.size":  `"M3"`,
	"ring.step.diameter":     "280",
	"ring.step.clearance":    "0.1",
	"motor.kind":             `"dc"`,
	"motor.rated_voltage":    "12",
	"motor.supply":           "[12, 9]",
	"motor.no_load_speed":    "60",
	"motor.stall_torque":     "1500",
	"motor.gearbox_slack":    "3",
	"platform.mass":          "8",
	"platform.diameter":      "500",
}

// skipped sections are spoken of in one line.
var skipped = map[string]string{
	"pinion.bolts":  "\n# [pinion.bolts] takes the keys of [ring.bolts]: screw holes through the pinion.\n",
	"making.pinion": "\n# [making.pinion] and [making.ring] take the keys of [making], for one part alone.\n",
	"making.ring":   "",
	"material": "\n# [material.pinion] and [material.ring] take your own figures of a material in place of the\n" +
		"# table's, [material] those of both: hardness, modulus, strength, tooth_root, layer_strength,\n" +
		"# poisson, density, expansion, moisture, service_temperature, softening, friction.\n",
	"material.pinion": "",
	"material.ring":   "",
	"sheet": "\n# [sheet] takes width, height, edge, spacing and openings: the sheet that cut parts are laid out on,\n" +
		"# what is kept free along its edges and between parts, and true for parts within the ring.\n",
}

const preamble = `# A job for ringtrack: a pinion and the toothed ring track that it drives.
#
# Lengths are in mm and angles in degrees, or write "0.5 in", "30 deg". Decimal point, no comma.
# A line that begins with # and a key shows what holds if the key is left out: take the # away
# to change it. Lines that begin with # and a blank only explain. Sections behind # and a blank are
# not in this job: take both away from the header and the lines with an equals sign to have one.
`

// margin is the column where explanations begin; width that of the file.
const (
	margin = 30
	width  = 100
)

// Template returns a commented job file that builds as it is. Every key that
// this version reads is explained in it.
func Template() []byte {
	var b strings.Builder
	b.WriteString(preamble)
	for _, s := range sections {
		if !Reads(s.from) {
			continue
		}
		if say, skip := skipped[s.name]; skip {
			b.WriteString(say)
			continue
		}
		b.WriteString("\n")
		templateSection(&b, s)
	}
	return []byte(b.String())
}

// templateSection writes a section; keys that stand under [teeth] already are
// named in one line.
func templateSection(b *strings.Builder, s section) {
	lead := ""
	if s.optional && !inScenario(s.name) {
		lead = "# "
	}
	if s.name != "" {
		explain(b, lead+s.header(), s.meaning, "")
	}
	var shared []string
	for _, k := range keysIn(s.name) {
		if k.Section == "teeth" && s.name != "teeth" {
			shared = append(shared, k.Name)
			continue
		}
		templateKey(b, lead, join(s.name, k.Name), k)
	}
	if shared != nil {
		fmt.Fprintf(b, "# %s may stand here too, for the %s alone.\n", strings.Join(shared, ", "), s.name)
	}
}

// inScenario reports whether the scenario has a key of the section.
func inScenario(section string) bool {
	for path := range scenario {
		if s, _ := split(path); s == section {
			return true
		}
	}
	return false
}

// templateKey writes the line of a key: with the scenario's value, or commented
// out with its default, or in words where neither can be written. lead stands
// before the lines of a section that is not in the scenario.
func templateKey(b *strings.Builder, lead, path string, k *Key) {
	say := k.Meaning
	if k.Unit != "" {
		say = k.Unit + "; " + say
	}
	usual := k.Usual
	if usual == "" && (k.takes == aWord || k.takes == someWords) {
		usual = strings.Join(k.choices(), ", ")
	}
	if usual != "" {
		usual = "(" + usual + ")"
	}
	value, active := scenario[path]
	if active {
		explain(b, k.Name+" = "+value, say, usual)
		return
	}
	for _, v := range []string{resolved[path], example[path], k.preset} {
		if value == "" {
			value = v
		}
	}
	if k.Section == "making" && k.kinds != "" && !belongs(k.kinds, "printed") {
		value = "" // the scenario is printed
	}
	if value != "" && lead != "" {
		explain(b, lead+k.Name+" = "+value, say, usual)
		return
	}
	if value != "" {
		explain(b, "#"+k.Name+" = "+value, say, usual)
		return
	}
	if k.Default != "auto" { // else the meaning tells of it
		say += "; left out: " + k.Default
	}
	explain(b, "# "+k.Name, say, usual)
}

// explain writes a line with its explanation and, kept together, the usual
// choices. What does not fit goes on below.
func explain(b *strings.Builder, line, say, usual string) {
	words := strings.Fields(say)
	if usual != "" {
		words = append(words, usual)
	}
	at := margin
	if len(line) < margin {
		fmt.Fprintf(b, "%-*s#", margin, line)
	} else {
		fmt.Fprintf(b, "%s\n%*s#", line, margin, "")
	}
	for _, w := range words {
		if at+2+len(w) > width {
			fmt.Fprintf(b, "\n%*s# ", margin, "")
			at = margin + 1
		}
		b.WriteString(" " + w)
		at += 1 + len(w)
	}
	b.WriteByte('\n')
}
