package job

// laterKeys are named so that nobody takes them for spelling mistakes. They are
// refused, never read and ignored.
var laterKeys = []Key{
	{Section: "pinion.bolts", Also: bolts, Name: "points", Unit: "mm", From: "machine", Allowed: "[[x, y], ..]", Meaning: "holes at given points instead of on a circle"},
	{Section: "ring", Name: "segments", From: "segments", Allowed: `1 to 64, or "auto"`, Default: "1", Meaning: "pieces that the ring is made in"},
	{Section: "ring", Name: "joint", From: "segments", Allowed: "butt, lap, dovetail", Default: "dovetail", Meaning: "between segments"},
	{Section: "ring", Name: "joint_clearance", Unit: "mm", From: "segments", Default: "0.15", Meaning: "in a joint, per side"},
	{Section: "ring", Name: "arc_teeth", From: "segments", Allowed: "3 to the ring's number", Default: "all", Meaning: "teeth of an incomplete ring"},
	{Section: "making", Also: members, Name: "spread", Unit: "mm", From: "budget", Default: "0.05 printed, 0.03 cut, 0 exact", Meaning: "range that 95 of 100 flanks keep, per side"},
	{Section: "mounting", Name: "bearing_play", Unit: "mm", From: "budget", Default: "0.5", Meaning: "radial play of the bearing, in total"},
	{Section: "mounting", Name: "ring_runout", Unit: "mm", From: "budget", Default: "0.2", Meaning: "as a dial shows it, twice the eccentricity"},
	{Section: "mounting", Name: "pinion_runout", Unit: "mm", From: "budget", Default: "from the bore's clearance", Meaning: "as a dial shows it"},
	{Section: "mounting", Name: "joint_step", Unit: "mm", From: "budget", Default: "0.1 with segments", Meaning: "pitch error across a joint"},
	{Section: "mounting", Name: "tilt", Unit: "deg", From: "budget", Default: "from clearance and hub length", Meaning: "of the pinion's axis"},
	{Section: "mounting", Name: "temperature", Unit: "degC", From: "budget", Allowed: "[least, greatest]", Default: "[15, 30]", Meaning: "range in use"},
	{Section: "bearing", Name: "radial_load", Unit: "N", From: "machine", Meaning: "that the bearing carries"},
}
