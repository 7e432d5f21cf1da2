package job

// laterKeys are named so that nobody takes them for spelling mistakes. They are
// refused, never read and ignored.
var laterKeys = []Key{
	{Section: "pinion.bolts", Also: bolts, Name: "points", Unit: "mm", From: "machine", Allowed: "[[x, y], ..]", Meaning: "holes at given points instead of on a circle"},
	{Section: "ring", Name: "segments", From: "segments", Allowed: `1 to 64, or "auto"`, Default: "1", Meaning: "pieces that the ring is made in"},
	{Section: "ring", Name: "joint", From: "segments", Allowed: "butt, lap, dovetail", Default: "dovetail", Meaning: "between segments"},
	{Section: "ring", Name: "joint_clearance", Unit: "mm", From: "segments", Default: "0.15", Meaning: "in a joint, per side"},
	{Section: "ring", Name: "arc_teeth", From: "segments", Allowed: "3 to the ring's number", Default: "all", Meaning: "teeth of an incomplete ring"},
	{Section: "bearing", Name: "radial_load", Unit: "N", From: "machine", Meaning: "that the bearing carries"},
}
