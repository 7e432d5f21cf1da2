package job

// The rows of what holds the parts: bore, coupling, hub, set screws, flange,
// step and screw holes.

var boreKeys = []Key{
	{Section: "pinion.bore", Name: "shape", takes: aWord, Default: "required in this section",
		words:   append(now("round", "d"), later(fixings, "double-d", "hexagon", "keyed", "coupling")...),
		Meaning: "of the shaft; coupling: a plate for a bought flange coupling"},
	{Section: "pinion.bore", Name: "diameter", Unit: "mm", takes: aQuantity, lo: 0.5, hi: 500, Default: "required in this section, except for shape hexagon",
		Meaning: "of the shaft, as the caliper reads it; coupling: of what stands in the middle", Usual: "3, 4, 5, 6, 8"},
	{Section: "pinion.bore", Name: "across_flat", Unit: "mm", takes: aQuantity, lo: 0.25, hi: 500, Default: "required for shapes d, double-d, hexagon",
		Meaning: "of the shaft; d: from the flat to the far side; double-d, hexagon: from flat to flat", Usual: "d: 0.5 less than the diameter"},
	{Section: "pinion.bore", Name: "clearance", Unit: "mm", takes: aQuantity, lo: -1, hi: 5, Default: "0.1 printed, 0.05 cut, 0 exact",
		Meaning: "added to diameter, flats and key, in total: half of it is the gap per side", Source: practice},
	{Section: "pinion.bore", Name: "flat_angle", Unit: "deg", takes: aQuantity, lo: -360, hi: 360, preset: "0",
		Meaning: "where the flat or the key faces, from the middle of a tooth", Source: "the tool's own"},
	{Section: "pinion.bore", Name: "depth", Unit: "mm", From: fixings, takes: aQuantity, lo: 0.2, hi: 2000, Default: "through",
		Meaning: "of a blind bore, from the face opposite the hub (no hub: from below)", Source: "the tool's own"},
	{Section: "pinion.bore", Name: "key_width", Unit: "mm", From: fixings, takes: aQuantity, lo: 0.5, hi: 100, Default: "auto", auto: fixings,
		Meaning: "keyed: of the key; auto: the standard's for the diameter", Source: "DIN 6885-1"},
	{Section: "pinion.bore", Name: "key_height", Unit: "mm", From: fixings, takes: aQuantity, lo: 0.5, hi: 100, Default: "auto", auto: fixings,
		Meaning: "keyed: of the key; auto: the standard's for its width", Source: "DIN 6885-1"},
	{Section: "pinion.bore", Name: "key_depth", Unit: "mm", From: fixings, takes: aQuantity, lo: 0.1, hi: 100, Default: "auto", auto: fixings,
		Meaning: "keyed: how deep the key lies in the shaft; auto: the standard's for its width", Source: "DIN 6885-1"},
}

var couplingKeys = []Key{
	{Section: "pinion.coupling", Name: "count", From: fixings, takes: aCount, lo: 2, hi: 24, Default: "required in this section",
		Meaning: "number of the flange's screws", Usual: "4, 6"},
	{Section: "pinion.coupling", Name: "circle", Unit: "mm", From: fixings, takes: aQuantity, lo: 1, hi: 1000, Default: "required in this section",
		Meaning: "diameter through the centres of the flange's screws", Usual: "16, 22"},
	{Section: "pinion.coupling", Name: "screw", From: fixings, takes: aScrew, Default: "this or hole is required in this section",
		Meaning: "size; the hole is its medium clearance hole", Usual: "M3, M4"},
	{Section: "pinion.coupling", Name: "hole", Unit: "mm", From: fixings, takes: aQuantity, lo: 0.5, hi: 100, Default: "this or screw is required in this section",
		Meaning: "diameter, instead of a screw size"},
	{Section: "pinion.coupling", Name: "head", From: fixings, takes: aWord, preset: `"none"`, words: later(fixings, "none", "countersunk", "counterbored"),
		Meaning: "room for the screws' heads, on the face away from the coupling", Source: "the tool's own"},
	{Section: "pinion.coupling", Name: "side", From: fixings, takes: aWord, preset: `"below"`, words: later(fixings, "above", "below"),
		Meaning: "the face that the coupling's flange lies against", Source: "the tool's own"},
	{Section: "pinion.coupling", Name: "angle", Unit: "deg", From: fixings, takes: aQuantity, lo: -360, hi: 360, preset: "0",
		Meaning: "of the first screw; 0: at a tooth", Source: "the tool's own"},
	{Section: "pinion.coupling", Name: "recess_count", From: fixings, takes: aCount, lo: 0, hi: 12, preset: "0",
		Meaning: "number of round pockets that leave room for the coupling's own set screws", Usual: "1, 2", Source: "the tool's own"},
	{Section: "pinion.coupling", Name: "recess_diameter", Unit: "mm", From: fixings, takes: aQuantity, lo: 0.5, hi: 200, Default: "required with recess_count",
		Meaning: "of each pocket"},
	{Section: "pinion.coupling", Name: "recess_depth", Unit: "mm", From: fixings, takes: aQuantity, lo: 0.2, hi: 1000, Default: "required with recess_count",
		Meaning: "of each pocket, from the face that the coupling lies against"},
	{Section: "pinion.coupling", Name: "recess_circle", Unit: "mm", From: fixings, takes: aQuantity, lo: 0.5, hi: 1000, Default: "auto", auto: fixings,
		Meaning: "diameter through the pockets' centres; auto: at the edge of the middle bore", Source: "the tool's own"},
	{Section: "pinion.coupling", Name: "recess_angle", Unit: "deg", From: fixings, takes: aQuantity, lo: -360, hi: 360, Default: "0",
		Meaning: "of the first pocket; 0: at a tooth", Source: "the tool's own"},
}

var hubKeys = []Key{
	{Section: "pinion.hub", Name: "diameter", Unit: "mm", From: fixings, takes: aQuantity, lo: 1, hi: 1000, Default: "required in this section",
		Meaning: "of the hub", Usual: "2.5 to 4 times the shaft's"},
	{Section: "pinion.hub", Name: "length", Unit: "mm", From: fixings, takes: aQuantity, lo: 0.5, hi: 1000, Default: "required in this section",
		Meaning: "of the hub, beyond the teeth", Usual: "8 to 15"},
	{Section: "pinion.hub", Name: "side", From: fixings, takes: aWord, preset: `"above"`, words: later(fixings, "above", "below"),
		Meaning: "of the teeth; above prints without support", Source: "the tool's own"},
	{Section: "pinion.hub", Name: "foot", Unit: "mm", From: fixings, takes: aQuantity, lo: 0, hi: 50, preset: "0.5",
		Meaning: "radius of the fillet, or width of the chamfer, where the hub meets the teeth", Usual: "0.5 to 2", Source: practice},
	{Section: "pinion.hub", Name: "foot_shape", From: fixings, takes: aWord, preset: `"fillet"`, words: later(fixings, "fillet", "chamfer"),
		Meaning: "of the foot", Source: practice},
}

var setScrewKeys = []Key{
	{Section: "pinion.set_screw", Name: "size", From: fixings, takes: aSetScrew, Default: "required in this section",
		Meaning: "of the screw", Usual: "half the shaft's diameter"},
	{Section: "pinion.set_screw", Name: "angle", Unit: "deg", From: fixings, takes: aQuantity, lo: -360, hi: 360, preset: "0",
		Meaning: "from the middle of the flat (round: from a tooth), counter-clockwise seen from the hub", Source: practice},
	{Section: "pinion.set_screw", Name: "height", Unit: "mm", From: fixings, takes: aQuantity, lo: 0, hi: 3000, preset: `"auto"`, auto: fixings,
		Meaning: "of the screw's axis above the pinion's lowest face; auto: the middle of the hub", Source: "the tool's own"},
	{Section: "pinion.set_screw", Name: "seat", From: fixings, takes: aWord, preset: `"hex-nut"`, words: later(fixings, "plain", "tapped", "hex-nut", "square-nut", "insert"),
		Meaning: "what holds the screw; plain: a clearance hole, tapped: a thread cut in the plastic", Source: practice},
	{Section: "pinion.set_screw", Name: "length", Unit: "mm", From: fixings, takes: aQuantity, lo: 1, hi: 100, preset: `"auto"`, auto: fixings,
		Meaning: "of the screw; auto: the longest usual one that does not stand proud", Source: "ISO 888, from memory"},
}

var flangeKeys = []Key{
	{Section: "pinion.flange", Name: "diameter", Unit: "mm", From: fixings, takes: aQuantity, lo: 1, hi: 2000, preset: `"auto"`, auto: fixings,
		Meaning: "of the disc; auto: two modules over the pinion's tips, so that it reaches over the ring's rim", Source: practice},
	{Section: "pinion.flange", Name: "thickness", Unit: "mm", From: fixings, takes: aQuantity, lo: 0.2, hi: 100, preset: "2",
		Meaning: "of the disc", Usual: "1.6 to 3", Source: practice},
	{Section: "pinion.flange", Name: "side", From: fixings, takes: aWord, Default: "opposite the hub; below without one", words: later(fixings, "above", "below"),
		Meaning: "of the teeth", Source: practice},
}

var stepKeys = []Key{
	{Section: "ring.step", Name: "diameter", Unit: "mm", From: fixings, takes: aQuantity, lo: 1, hi: 60000, Default: "required in this section",
		Meaning: "of the bearing's bore or rim that the step fits, as the caliper reads it"},
	{Section: "ring.step", Name: "height", Unit: "mm", From: fixings, takes: aQuantity, lo: 0.2, hi: 200, preset: "2",
		Meaning: "of the step; less than the bearing is thick", Usual: "1.5 to 4", Source: practice},
	{Section: "ring.step", Name: "side", From: fixings, takes: aWord, preset: `"below"`, words: later(fixings, "above", "below"),
		Meaning: "the face that lies against the bearing", Source: "the tool's own"},
	{Section: "ring.step", Name: "fits", From: fixings, takes: aWord, preset: `"bore"`, words: later(fixings, "bore", "rim"),
		Meaning: "bore: the step stands in the bearing's bore; rim: it stands around its rim", Source: "the tool's own"},
	{Section: "ring.step", Name: "clearance", Unit: "mm", From: fixings, takes: aQuantity, lo: -1, hi: 5, Default: "0.1 printed, 0 exact",
		Meaning: "between step and bearing, on the diameter: half of it is the gap per side", Source: practice},
}

var bolts = []string{"ring.bolts"}

var boltKeys = []Key{
	{Section: "pinion.bolts", Also: bolts, Name: "count", takes: aCount, lo: 3, hi: 64, Default: "required in this section",
		Meaning: "number of holes", Usual: "4, 6, 8, 12"},
	{Section: "pinion.bolts", Also: bolts, Name: "circle", Unit: "mm", takes: aQuantity, lo: 0.5, hi: 60000, preset: `"auto"`, auto: first,
		Meaning: "diameter through the holes' centres; auto: mid rim", Source: "the tool's rule"},
	{Section: "pinion.bolts", Also: bolts, Name: "screw", takes: aScrew, Default: "this or hole is required in this section",
		Meaning: "size; the hole is its medium clearance hole, a pilot hole 0.8 of the thread", Usual: "M3, M4, M5"},
	{Section: "pinion.bolts", Also: bolts, Name: "hole", Unit: "mm", takes: aQuantity, lo: 0.5, hi: 100, Default: "this or screw is required in this section",
		Meaning: "diameter, instead of a screw size"},
	{Section: "pinion.bolts", Also: bolts, Name: "head", takes: aWord, preset: `"none"`,
		words:   append(now("none"), later(fixings, "countersunk", "counterbored", "pilot", "slot")...),
		Meaning: "room for the head; pilot: the screw cuts its thread in the plastic; slot: along the radius", Source: "the tool's own"},
	{Section: "pinion.bolts", Also: bolts, Name: "side", From: fixings, takes: aWord, Default: "above", words: later(fixings, "above", "below"),
		Meaning: "the face in which the heads lie; with head countersunk or counterbored", Source: "the tool's own"},
	{Section: "pinion.bolts", Also: bolts, Name: "slot_length", Unit: "mm", From: fixings, takes: aQuantity, lo: 0.1, hi: 200, Default: "required for head slot",
		Meaning: "how far a screw can move along its slot", Usual: "1 to 4"},
	{Section: "pinion.bolts", Also: bolts, Name: "angle", Unit: "deg", takes: aQuantity, lo: -360, hi: 360, preset: "0",
		Meaning: "of the first hole; 0: at a tooth (ring: at a space)", Source: "the tool's own"},
}
