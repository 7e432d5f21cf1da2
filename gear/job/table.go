package job

// The rows of the table of keys. Where Source is "common practice" nobody of
// standing has printed the figure; "range" figures without a source are our own
// limits of sense, wide enough for anything a maker builds.

// sections lists the sections in the order of the reference and the template.
var sections = []section{
	{"", first, "the head of the file, above the first section", false, false},
	{"teeth", first, "what the teeth of both parts have in common", false, false},
	{"pinion", first, "the small gear on the motor's shaft", false, false},
	{"pinion.bore", first, "the hole for the shaft; no section, no bore", false, true},
	{"pinion.coupling", fixings, "screw holes for a bought flange coupling, with the bore's shape coupling", false, true},
	{"pinion.hub", fixings, "a collar beside the teeth; no section, no hub", false, true},
	{"pinion.set_screw", fixings, "a screw across the hub against the shaft; stands once for each screw, at most 8 times", true, true},
	{"pinion.flange", fixings, "a disc on one end of the pinion, larger than its teeth, that keeps pinion and ring level; no section, no flange", false, true},
	{"pinion.bolts", first, "screw holes on a circle through the pinion; no section, no holes", false, true},
	{"ring", first, "the toothed ring track", false, false},
	{"ring.step", fixings, "a step that centres the ring on the bearing; no section, no step", false, true},
	{"ring.bolts", first, "screw holes on a circle through the ring's rim; no section, no holes", false, true},
	{"making", first, "how both parts are made", false, false},
	{"making.pinion", first, "keys of [making] that differ for the pinion", false, false},
	{"making.ring", first, "keys of [making] that differ for the ring", false, false},
	{"mounting", first, "how well the parts are held", false, false},
	{"bearing", "machine", "the turntable bearing", false, false},
	{"material", load, "your own figures of both materials, in place of the table's", false, true},
	{"material.pinion", load, "figures of the pinion's material alone", false, true},
	{"material.ring", load, "figures of the ring's material alone", false, true},
	{"motor", load, "the motor with its gearbox; no section, no load", false, true},
	{"platform", load, "what turns", false, true},
	{"measured", "measure", "measurements of a test piece", true, false},
	{"sheet", templates, "the sheet that cut parts are laid out on; no section, no sheet-1.dxf", false, true},
	{"output", first, "what is written", false, false},
}

const practice = "common practice"

var headKeys = []Key{
	{Name: "format", takes: aCount, lo: 1, hi: 1, preset: "1", Allowed: "1", beyond: "a later version of ringtrack",
		Meaning: "version of the job file's format", Source: "the tool's own"},
	{Name: "title", takes: aText, hi: 80, Default: "file name",
		Meaning: "stands on drawings and in the report"},
}

var teethKeys = []Key{
	{Section: "teeth", Name: "module", Unit: "mm", takes: aQuantity, lo: 0.2, hi: 50, Default: "this or diametral_pitch is required",
		Meaning: "size of the teeth: reference diameter over number of teeth", Usual: "1.5, 2, 2.5, 3"},
	{Section: "teeth", Name: "diametral_pitch", Unit: "1/in", takes: aQuantity, lo: 0.508, hi: 127, Default: "this or module is required",
		Meaning: "instead of module: teeth per inch of diameter, module = 25.4 / pitch", Usual: "8, 10, 12"},
	{Section: "teeth", Name: "pressure_angle", Unit: "deg", takes: aQuantity, lo: 14.5, hi: 30, preset: "20",
		Meaning: "of the basic rack", Usual: "20, 25", Source: "ISO 53"},
	{Section: "teeth", Name: "pinion", takes: aCount, lo: 5, hi: 300, Default: "required", required: true,
		Meaning: "number of teeth of the pinion", Usual: "12 to 20"},
	{Section: "teeth", Name: "ring", takes: aCount, lo: 6, hi: 1000, Allowed: "whole, more than the pinion's, to 1000", Default: "required", required: true,
		Meaning: "number of teeth of the ring", Usual: "60 to 200"},
	{Section: "teeth", Name: "pinion_shift", takes: aQuantity, lo: -1, hi: 2, preset: `"auto"`, auto: first,
		Meaning: "profile shift of the pinion, in modules; auto: no undercut", Source: "the tool's rule"},
	{Section: "teeth", Name: "ring_shift", takes: aQuantity, lo: -1, hi: 2, preset: `"auto"`, auto: first,
		Meaning: "profile shift of the ring, in modules; positive: a larger ring", Source: "the tool's rule"},
	{Section: "teeth", Name: "centre_distance", Unit: "mm", takes: aQuantity, lo: 0.1, hi: 25000, preset: `"auto"`, auto: first,
		Meaning: "from the ring's centre to the pinion's; auto: as the shifts ask", Source: "ISO 21771"},
	{Section: "teeth", Name: "backlash", Unit: "mm", takes: aQuantity, lo: 0, hi: 50, Allowed: "0 to the module", auto: budget, Default: "a rule from centre distance, module, its spread and making",
		Meaning: "circumferential play on the working circles, as made; auto: the least that keeps least_play in spite of all spreads", Usual: "0.2 to 0.5 printed",
		Source: "ISO/TR 10064-2, from memory; for making " + practice},
	{Section: "teeth", Name: "backlash_share", takes: aQuantity, lo: 0, hi: 1, preset: "0.5",
		Meaning: "part of the backlash taken from the pinion's teeth", Source: practice},
	{Section: "teeth", Name: "rack", takes: aWord, words: now("A", "B", "C", "D"), preset: `"A"`,
		Meaning: "basic rack: tooth depth and root fillet", Source: "ISO 53"},
	{Section: "teeth", Also: []string{"pinion", "ring"}, Name: "addendum", Unit: "x m", takes: aQuantity, lo: 0.1, hi: 2, Default: "of the rack (A: 1)",
		Meaning: "tooth height outside the reference circle", Source: "ISO 53"},
	{Section: "teeth", Also: []string{"pinion", "ring"}, Name: "dedendum", Unit: "x m", takes: aQuantity, lo: 0.1, hi: 2.5, Default: "of the rack (A: 1.25)",
		Meaning: "tooth depth inside the reference circle", Source: "ISO 53"},
	{Section: "teeth", Also: []string{"pinion", "ring"}, Name: "root_radius", Unit: "x m", takes: aQuantity, lo: 0, hi: 1, Default: "of the rack (A: 0.38)",
		Meaning: "fillet at the root; the ring's: the arc in its corners", Source: "ISO 53"},
	{Section: "teeth", Name: "least_tip", Unit: "mm", takes: aQuantity, lo: 0, hi: 20, Default: "1 x line_width printed, 0.2 x module otherwise",
		Meaning: "narrower tips are a fault", Source: practice},
}

var memberKeys = []Key{
	{Section: "pinion", Also: []string{"ring"}, Name: "make", takes: aFlag, preset: "true",
		Meaning: "false: bought; drawn and checked, no files", Source: "the tool's own"},
	{Section: "pinion", Name: "face_width", Unit: "mm", takes: aQuantity, lo: 0.2, hi: 1000, Default: "the ring's + 2",
		Meaning: "thickness of the toothed part", Usual: "8 to 16", Source: practice},
	{Section: "ring", Name: "face_width", Unit: "mm", takes: aQuantity, lo: 0.2, hi: 1000, Default: "4 x module, at least 6",
		Meaning: "thickness of the toothed part; a cut ring's: of the sheet", Usual: "6 to 12", Source: practice},
	{Section: "pinion", Also: []string{"ring"}, Name: "material", takes: aMaterial, Default: "none: no mass, no shrinkage",
		Meaning: "what it is made of", Usual: "pla, petg, asa; cut: acrylic, plywood", Source: "the tool's own"},
	{Section: "pinion", Also: []string{"ring"}, Name: "tip_diameter", Unit: "mm", takes: aQuantity, lo: 0.1, hi: 60000, preset: `"auto"`, auto: first,
		Meaning: "over (ring: inside) the tips; auto: as long as they can be", Source: "the tool's rule"},
	{Section: "ring", Name: "outer_diameter", Unit: "mm", takes: aQuantity, lo: 1, hi: 60000, preset: `"auto"`, auto: first,
		Meaning: "of the rim; auto: 3.5 modules, or what the screws need", Source: "ISO 6336-3, from memory"},
	{Section: "ring", Name: "stand_off", Unit: "mm", From: fixings, takes: aQuantity, lo: 0, hi: 200, preset: "0",
		Meaning: "height of pads that hold the ring off what it is screwed to; on the step's side, else below", Source: "the tool's own"},
}

var members = []string{"making.pinion", "making.ring"}

var makingKeys = []Key{
	{Section: "making", Also: members, Name: "kind", takes: aWord, words: now("printed", "cut", "exact"), preset: `"printed"`,
		Meaning: "exact: drawn as designed, no allowances", Source: "the tool's own"},
	{Section: "making", Also: members, Name: "line_width", Unit: "mm", takes: aQuantity, lo: 0.05, hi: 3, preset: "0.45", kinds: "printed",
		Meaning: "width of a printed line", Usual: "0.42 to 0.5 for a 0.4 nozzle", Source: "a common slicer's automatic width for a 0.4 nozzle"},
	{Section: "making", Also: members, Name: "layer", Unit: "mm", takes: aQuantity, lo: 0.01, hi: 2, preset: "0.2", kinds: "printed",
		Meaning: "layer height", Usual: "0.1 to 0.3", Source: practice},
	{Section: "making", Also: members, Name: "growth", Unit: "mm", takes: aQuantity, lo: -1, hi: 1, preset: "0.08", kinds: "printed",
		Meaning: "the print stands this far outside the drawing, per side", Usual: "0 to 0.15, measured", Source: practice},
	{Section: "making", Also: members, Name: "hole_shrink", Unit: "mm", takes: aQuantity, lo: -1, hi: 2, preset: "0.15", kinds: "printed",
		Meaning: "a printed hole is this much too small, in total", Usual: "0 to 0.4, measured", Source: "published print guides: 0.1 to 0.2, up to 0.4"},
	{Section: "making", Also: members, Name: "shrinkage", Unit: "%", takes: aQuantity, lo: -1, hi: 10, Default: "of the material, 0 without one", kinds: "printed",
		Meaning: "the cooled print is this much shorter", Usual: "0.2 pla, 0.3 petg, 0.7 abs", Source: "table of materials"},
	{Section: "making", Also: members, Name: "kerf", Unit: "mm", takes: aQuantity, lo: 0, hi: 3, Default: "of sheet and face_width, 0.2 without a sheet", kinds: "cut",
		Meaning: "width of the cut, in total", Usual: "0.15 to 0.25 for a laser", Source: "table of kerfs"},
	{Section: "making", Also: members, Name: "edge", Unit: "mm", From: fixings, takes: aQuantity, lo: 0, hi: 5, Default: "0.4 printed, 0 exact", kinds: "printed or exact",
		Meaning: "45 degree chamfer on both faces of all teeth", Usual: "0.3 to 0.6", Source: practice},
	{Section: "making", Also: members, Name: "foot", Unit: "mm", From: fixings, takes: aQuantity, lo: 0, hi: 2, preset: "0.15", kinds: "printed",
		Meaning: "the first layer spreads by this, per side; an edge at least as wide hides it", Usual: "0.1 to 0.3", Source: "ten published slicer configurations"},
	{Section: "making", Also: members, Name: "bed", Unit: "mm", takes: aBox, lo: 1, hi: 60000, preset: "[220, 220, 250]",
		Meaning: "usable size of the machine", Source: practice},
	{Section: "mounting", Name: "centre_distance_spread", Unit: "mm", takes: aQuantity, lo: 0, hi: 10, Default: "0.1; 0 when both parts are exact",
		Meaning: "the distance may be off by this much either way", Usual: "0.05 to 0.2", Source: practice},
}

var outputKeys = []Key{
	{Section: "output", Name: "tolerance", Unit: "mm", takes: aQuantity, lo: 0.00002, hi: 1, preset: "0.005",
		Meaning: "stl: greatest distance of a chord from the true curve", Source: "a tenth of a good printer's error"},
	{Section: "output", Name: "formats", takes: someWords, preset: `["stl", "dxf", "svg", "png"]`,
		words:   append(append(now("stl", "dxf", "svg", "png"), later("templates", "pdf", "dxf-r12")...), later("formats", "stl-text", "3mf", "step")...),
		Meaning: "files to write", Source: "the tool's own"},
}
