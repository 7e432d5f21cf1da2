package job

import "ringtrack/gear/stock"

// The rows of what may be off: spreads of making, mounting and climate, and the
// play that must be left.

// plates are the materials of a base that the table of materials does not have.
var plates = []string{"aluminium", "steel"}

var budgetKeys = []Key{
	{Section: "teeth", Name: "least_play", Unit: "mm", From: budget, takes: aQuantity, lo: 0, hi: 50, Allowed: "0 to the module, and to a given backlash",
		Default: "0.05 printed, 0.03 cut, 0.02 exact; at most a given backlash",
		Meaning: "backlash that 39 of 40 builds shall keep all the way round", Usual: "0.03 to 0.1", Source: practice},
	{Section: "making", Also: members, Name: "spread", Unit: "mm", From: budget, takes: aQuantity, lo: 0, hi: 2, Default: "0.05 printed, 0.03 cut, 0 exact", kinds: "printed or cut",
		Meaning: "95 of 100 flanks stand within this of their place, either way", Usual: "0.03 to 0.1", Source: practice},
	{Section: "mounting", Name: "bearing_play", Unit: "mm", From: budget, takes: aQuantity, lo: 0, hi: 10, Default: "0.5, a guess; 0 when both parts are exact",
		Meaning: "radial play of the turntable bearing, in total, as a dial shows it when the platform is pushed and pulled", Usual: "0.1 to 1", Source: practice},
	{Section: "mounting", Name: "ring_runout", Unit: "mm", From: budget, takes: aQuantity, lo: 0, hi: 10, Default: "0.2, a guess; 0 when both parts are exact",
		Meaning: "of the mounted ring, as a dial shows it over a turn: twice what it is off centre", Usual: "0.1 to 0.4", Source: practice},
	{Section: "mounting", Name: "ring_runout_at", Unit: "deg", From: budget, takes: aQuantity, lo: -360, hi: 360, Default: "not known: deviations are laid together at one place",
		Meaning: "where on the ring the dial shows it standing furthest out, from the space on +x, counter-clockwise", Source: "the tool's own"},
	{Section: "mounting", Name: "ring_ovality", Unit: "mm", From: budget, takes: aQuantity, lo: 0, hi: 10, preset: "0",
		Meaning: "largest less smallest radius of the mounted ring, where it is oval beside its run-out", Usual: "0 to 0.3", Source: "taken to be in ring_runout"},
	{Section: "mounting", Name: "pinion_runout", Unit: "mm", From: budget, takes: aQuantity, lo: 0, hi: 10, Default: "the bore's clearance, a guess",
		Meaning: "of the pinion on its shaft, as a dial shows it over a turn", Usual: "0.05 to 0.15", Source: "the shaft lies against one side of the bore"},
	{Section: "mounting", Name: "joint_step", Unit: "mm", From: budget, takes: aQuantity, lo: 0, hi: 10, Default: "0.1 with segments; a ring in one piece has no joints",
		Meaning: "the pitch across a joint may be off by this, either way", Source: practice},
	{Section: "mounting", Name: "tilt", Unit: "deg", From: budget, takes: aQuantity, lo: 0, hi: 15, Default: "the bore's clearance over its length, a guess",
		Meaning: "of the pinion's axis against the ring's", Usual: "0.1 to 0.5", Source: "the shaft lies across the bore; up to the next 0.01 deg"},
	{Section: "mounting", Name: "temperature", Unit: "degC", From: budget, takes: aRange, lo: -60, hi: 150, preset: "[15, 30]",
		Meaning: "range in use; the workshop's 20 degC is taken in", Source: practice},
	{Section: "mounting", Name: "base", From: budget, takes: aWord, words: now(append(stock.MaterialNames(), plates...)...), preset: `"plywood"`, Usual: "plywood, mdf, aluminium, steel",
		Meaning: "material of the plate that holds bearing and motor: how it grows with warmth and moisture", Source: practice},
}
