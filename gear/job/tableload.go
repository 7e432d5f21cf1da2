package job

// The rows of what the teeth bear: flexible teeth, the figures of materials, the
// motor and what it turns.

// load is the stage that brings them.
const load = "load"

var flexibleKeys = []Key{
	{Section: "teeth", Name: "flexible_allowance", Unit: "mm", From: load, takes: aQuantity, lo: 0, hi: 10, preset: `"auto"`, auto: load,
		Meaning: "backlash given up because flexible flanks yield; auto: what a tenth of the working force squeezes away, 0 without a flexible material or a motor", Source: "the tool's rule"},
	{Section: "pinion", Also: []string{"ring"}, Name: "tip_relief", Unit: "mm", From: load, takes: aQuantity, lo: 0, hi: 5, preset: `"auto"`, auto: load,
		Meaning: "taken off the flanks at the tip, along their normal; auto: by how much the teeth bend under the working torque, 0 without a flexible material or a motor", Source: "practice of gear makers, from memory"},
}

var printKeys = []Key{
	{Section: "making", Also: members, Name: "infill", Unit: "%", From: load, takes: aQuantity, lo: 0, hi: 100, preset: "20", kinds: "printed",
		Meaning: "of the inside; what the walls leave of a tooth", Usual: "15 to 50", Source: practice},
	{Section: "making", Also: members, Name: "walls", From: load, takes: aCount, lo: 0, hi: 100, preset: "3", kinds: "printed",
		Meaning: "number of lines around every outline", Usual: "2 to 6", Source: practice},
	{Section: "making", Also: members, Name: "upright", From: load, takes: aFlag, preset: "false", kinds: "printed",
		Meaning: "true: printed standing, so that a tooth bends across the layers", Source: "the tool's own"},
}

var materialParts = []string{"material.pinion", "material.ring"}

// inTable is the default of a material's figure.
const inTable = "table of materials"

var figureKeys = []Key{
	{Section: "material", Also: materialParts, Name: "hardness", From: load, takes: aShore, Allowed: `"20A" to "98A", "30D" to "70D"`, Default: inTable,
		Meaning: "Shore hardness of a rubber; gives its modulus", Usual: `"85A", "95A"`, Source: "gear/stock"},
	{Section: "material", Also: materialParts, Name: "modulus", Unit: "MPa", From: load, takes: aQuantity, lo: 0.1, hi: 500000, Default: inTable,
		Meaning: "of elasticity", Usual: "2500 for stiff plastics, 20 to 200 for flexible ones", Source: "gear/stock"},
	{Section: "material", Also: materialParts, Name: "strength", Unit: "MPa", From: load, takes: aQuantity, lo: 0.1, hi: 5000, Default: inTable,
		Meaning: "tensile, in the plane of the layers", Source: "gear/stock"},
	{Section: "material", Also: materialParts, Name: "tooth_root", Unit: "MPa", From: load, takes: aQuantity, lo: 0.01, hi: 5000, Default: inTable,
		Meaning: "stress that a tooth's root bears for long", Usual: "a quarter of the strength", Source: "gear/stock"},
	{Section: "material", Also: materialParts, Name: "layer_strength", Unit: "%", From: load, takes: aQuantity, lo: 1, hi: 100, Default: inTable,
		Meaning: "strength across the layers, of that in their plane", Usual: "40 to 70", Source: "gear/stock"},
	{Section: "material", Also: materialParts, Name: "poisson", From: load, takes: aQuantity, lo: 0, hi: 0.499, Default: inTable,
		Meaning: "Poisson's ratio", Usual: "0.35 to 0.48", Source: "gear/stock"},
	{Section: "material", Also: materialParts, Name: "density", Unit: "kg/m3", From: load, takes: aQuantity, lo: 50, hi: 25000, Default: inTable,
		Meaning: "of the solid material", Source: "gear/stock"},
	{Section: "material", Also: materialParts, Name: "expansion", Unit: "1/K", From: load, takes: aQuantity, lo: 0, hi: 0.001, Default: inTable,
		Meaning: "linear, by heat", Usual: "0.00007", Source: "gear/stock"},
	{Section: "material", Also: materialParts, Name: "moisture", Unit: "%", From: load, takes: aQuantity, lo: 0, hi: 10, Default: inTable,
		Meaning: "linear growth from dry to soaked", Source: "gear/stock"},
	{Section: "material", Also: materialParts, Name: "service_temperature", Unit: "degC", From: load, takes: aQuantity, lo: 0, hi: 1000, Default: inTable,
		Meaning: "greatest steady temperature", Source: "gear/stock"},
	{Section: "material", Also: materialParts, Name: "softening", Unit: "degC", From: load, takes: aQuantity, lo: 30, hi: 2000, Default: inTable,
		Meaning: "where it softens", Source: "gear/stock"},
	{Section: "material", Also: materialParts, Name: "friction", From: load, takes: aQuantity, lo: 0, hi: 3, Default: inTable,
		Meaning: "coefficient on itself, dry", Usual: "0.2 to 0.6", Source: "gear/stock"},
}

const notKnown = "not known"

var motorKeys = []Key{
	{Section: "motor", Name: "kind", From: load, takes: aWord, words: later(load, "dc", "stepper"), Default: "required in this section",
		Meaning: "of motor; all speeds and torques are those of its output shaft"},
	{Section: "motor", Name: "rated_voltage", Unit: "V", From: load, takes: aQuantity, lo: 0.5, hi: 1000, kinds: "dc", Default: "required for kind dc",
		Meaning: "at which speed and torque are meant", Usual: "6, 12, 24"},
	{Section: "motor", Name: "supply", Unit: "V", From: load, takes: someQuantities, lo: 0.1, hi: 1000, kinds: "dc", Allowed: "0.1 to 1000, or a list of up to 8", Default: "rated_voltage",
		Meaning: "what it runs on; of several the first counts, the others are compared", Usual: "[12, 9, 6]", Source: "the tool's own"},
	{Section: "motor", Name: "no_load_speed", Unit: "rpm", From: load, takes: aQuantity, lo: 0.001, hi: 100000, kinds: "dc", Default: "required for kind dc",
		Meaning: "of the free shaft at the rated voltage", Usual: "5 to 300"},
	{Section: "motor", Name: "stall_torque", Unit: "N mm", From: load, takes: aQuantity, lo: 0.001, hi: 10000000, kinds: "dc", Default: "required for kind dc",
		Meaning: "of the held shaft at the rated voltage", Usual: `"20 kgf cm"`},
	{Section: "motor", Name: "steps", From: load, takes: aCount, lo: 1, hi: 100000, kinds: "stepper", Default: "required for kind stepper",
		Meaning: "full steps for a turn of the motor itself", Usual: "200"},
	{Section: "motor", Name: "microsteps", From: load, takes: aCount, lo: 1, hi: 1024, kinds: "stepper", Default: "1",
		Meaning: "steps that the driver makes of a full one", Usual: "8, 16, 32", Source: "the tool's own"},
	{Section: "motor", Name: "curve", Unit: "rpm, N mm", From: load, takes: aCurve, kinds: "stepper", Allowed: "[[speed, torque], ..], 2 to 32 points by rising speed", Default: "required for kind stepper",
		Meaning: "pull-out torque over the speed of the output shaft, from the maker's data sheet", Usual: "[[0, 400], [300, 300], [600, 120]]"},
	{Section: "motor", Name: "counts", From: load, takes: aCount, lo: 1, hi: 10000000, kinds: "dc", Default: "none",
		Meaning: "counts of an encoder for a turn of the motor itself", Usual: "44, 64", Source: "the tool's own"},
	{Section: "motor", Name: "gearbox", From: load, takes: aFraction, Allowed: `"a/b" or "a/b x c/d ..", whole numbers`, Default: "none: the output shaft is the motor's",
		Meaning: "turns of the motor for one of the output shaft, as numbers of teeth", Usual: `"36/12 x 34/14 x 30"`, Source: "the tool's own"},
	{Section: "motor", Name: "gearbox_limit", Unit: "N mm", From: load, takes: aQuantity, lo: 0.001, hi: 10000000, Default: notKnown,
		Meaning: "most torque that the gearbox bears for long", Source: "the tool's own"},
	{Section: "motor", Name: "gearbox_slack", Unit: "deg", From: load, takes: aQuantity, lo: 0, hi: 90, Default: "3 for a dc motor or a gearbox, else 0",
		Meaning: "in total at the output shaft: 1 mm at the end of a 58 mm stick is 1 degree", Source: practice},
	{Section: "motor", Name: "radial_load", Unit: "N", From: load, takes: aQuantity, lo: 0.01, hi: 1000000, Default: notKnown,
		Meaning: "most that may push the output shaft aside, at the pinion", Source: "the tool's own"},
	{Section: "motor", Name: "shaft", Unit: "mm", From: load, takes: aQuantity, lo: 0.5, hi: 500, Default: "diameter of the pinion's bore",
		Meaning: "diameter of the output shaft", Source: "the tool's own"},
	{Section: "motor", Name: "shaft_length", Unit: "mm", From: load, takes: aQuantity, lo: 0, hi: 1000, preset: "20",
		Meaning: "of the output shaft that twists, from gearbox to pinion", Source: practice},
	{Section: "motor", Name: "rotor_inertia", Unit: "kg mm2", From: load, takes: aQuantity, lo: 0, hi: 10000000, preset: "0",
		Meaning: "of the motor's rotor, before the gearbox", Usual: `"20 g cm2"`, Source: "the tool's own"},
}

var platformKeys = []Key{
	{Section: "platform", Name: "mass", Unit: "kg", From: load, takes: aQuantity, lo: 0.001, hi: 100000, Default: "required in this section",
		Meaning: "of all that turns, with its load"},
	{Section: "platform", Name: "diameter", Unit: "mm", From: load, takes: aQuantity, lo: 1, hi: 60000, Default: "this or inertia is required in this section",
		Meaning: "of the platform's rim; without it the ring's counts as the rim"},
	{Section: "platform", Name: "inertia", Unit: "kg mm2", From: load, takes: aQuantity, lo: 0.001, hi: 1e15, Default: "that of an even disc",
		Meaning: "about the axis", Source: "the tool's own"},
	{Section: "platform", Name: "load_height", Unit: "mm", From: load, takes: aQuantity, lo: 0, hi: 20000, preset: "0",
		Meaning: "of the centre of mass above the bearing", Source: "the tool's own"},
	{Section: "platform", Name: "load_offset", Unit: "mm", From: load, takes: aQuantity, lo: 0, hi: 30000, preset: "0",
		Meaning: "of the centre of mass beside the axis", Source: "the tool's own"},
	{Section: "platform", Name: "off_level", Unit: "deg", From: load, takes: aQuantity, lo: 0, hi: 30, preset: "0",
		Meaning: "by which the base leans", Usual: "0.5 to 2", Source: "the tool's own"},
	{Section: "platform", Name: "bearing_diameter", Unit: "mm", From: load, takes: aQuantity, lo: 1, hi: 60000, Default: "not known: tipping is not looked at, the ring's size counts for friction",
		Meaning: "of the track on which the bearing's balls run", Source: "the tool's own"},
	{Section: "platform", Name: "bearing_friction", Unit: "N mm", From: load, takes: aQuantity, lo: 0.001, hi: 1e9, Default: "of the tests below; without one a guess by mass and bearing",
		Meaning: "torque that keeps the platform turning; half as much again starts it", Source: "the tool's own"},
	{Section: "platform", Name: "pull", Unit: "N", From: load, takes: aQuantity, lo: 0.001, hi: 1000000, Default: "no such test",
		Meaning: "of a luggage scale along the rim just before the platform moves, pinion out of mesh", Usual: `"0.3 kgf"`, Source: "the tool's own"},
	{Section: "platform", Name: "pull_moving", Unit: "N", From: load, takes: aQuantity, lo: 0.001, hi: 1000000, Default: "two thirds of pull",
		Meaning: "the same while it turns steadily", Source: practice},
	{Section: "platform", Name: "pull_radius", Unit: "mm", From: load, takes: aQuantity, lo: 1, hi: 30000, Default: "half the diameter",
		Meaning: "at which the scale pulls", Source: "the tool's own"},
	{Section: "platform", Name: "coast_time", Unit: "s", From: load, takes: aQuantity, lo: 0.1, hi: 100000, Default: "no such test",
		Meaning: "until the platform, let go without the pinion, stands still", Source: "the tool's own"},
	{Section: "platform", Name: "coast_speed", Unit: "rpm", From: load, takes: aQuantity, lo: 0.001, hi: 10000, Default: "required with coast_time",
		Meaning: "at which it was let go"},
	{Section: "platform", Name: "speed", Unit: "rpm", From: load, takes: aQuantity, lo: 1e-6, hi: 10000, Default: "what the motor comes to",
		Meaning: "wanted", Usual: "0.5 to 12", Source: "the tool's own"},
}
