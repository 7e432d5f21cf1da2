package drafts

// mistakes are what goes wrong in a job, one each.
var mistakes = []func(d draft, m float64, z1, z2 int){
	func(d draft, m float64, z1, z2 int) { // the obvious drawing: no shift, full depth
		d.set("teeth.pinion_shift", 0)
		d.set("teeth.ring_shift", 0)
		d.set("pinion.tip_diameter", m*float64(z1+2))
		d.set("ring.tip_diameter", m*float64(z2-2))
	},
	func(d draft, _ float64, z1, z2 int) { // tips that meet where their circles cross
		d.set("teeth.ring", z1+d.Whole(3, 8))
		d.set("teeth.ring_shift", d.Real(0, 0.2))
	},
	func(d draft, m float64, z1, _ int) { // a long tip against wide root corners
		d.set("pinion.tip_diameter", m*(float64(z1)+d.Real(2.3, 2.8)))
		d.set("ring.root_radius", d.Real(0.35, 0.47))
	},
	func(d draft, _ float64, _, _ int) { d.set("teeth.pinion_shift", d.Real(-0.6, 0)) },
	func(d draft, _ float64, _, _ int) { d.set("teeth.pinion_shift", d.Real(0.6, 1.4)) },
	func(d draft, _ float64, _, _ int) { d.set("teeth.ring_shift", d.Real(-0.9, 1.9)) },
	func(d draft, m float64, z1, _ int) { d.set("pinion.tip_diameter", m*(float64(z1)+d.Real(0.5, 4))) },
	func(d draft, m float64, _, z2 int) { d.set("ring.tip_diameter", m*(float64(z2)-d.Real(-1, 5))) },
	func(d draft, _ float64, z1, z2 int) { d.set("teeth.ring", z1+d.Whole(2, 12)) },
	func(d draft, _ float64, _, _ int) {
		d.set("teeth.pinion", d.Whole(5, 7))
		d.kind("exact")
	},
	func(d draft, m float64, z1, z2 int) {
		d.set("teeth.centre_distance", m*(float64(z2-z1)/2+d.Real(-0.4, 0.6)))
		d.set("teeth.pinion_shift", d.Real(0, 0.3))
		d.set("teeth.ring_shift", d.Real(0, 0.4))
	},
	func(d draft, m float64, z1, z2 int) { // room between the teeth, and little play asked for
		d.set("teeth.centre_distance", m*(float64(z2-z1)/2-d.Real(0.1, 0.3)))
		d.set("teeth.pinion_shift", 0.2)
		d.set("teeth.ring_shift", 0.3)
		d.set("teeth.backlash", 0.05*m)
	},
	func(d draft, m float64, z1, z2 int) {
		d.set("teeth.centre_distance", m*(float64(z2-z1)/2+d.Real(-4, 4)))
	},
	func(d draft, m float64, _, _ int) {
		d.set("teeth.backlash", d.Real(0, 0.1*m))
		d.set("mounting.centre_distance_spread", d.Real(0.1, 0.6))
	},
	func(d draft, _ float64, _, _ int) {
		d.set("teeth.pressure_angle", d.Real(29.3, 30))
		d.set("teeth.rack", `"D"`)
	},
	func(d draft, _ float64, _, _ int) {
		d.set(pick(d.Dice, "teeth", "pinion", "ring")+".dedendum", d.Real(0.7, 2.2))
	},
	func(d draft, _ float64, _, _ int) {
		d.set(pick(d.Dice, "teeth", "pinion", "ring")+".addendum", d.Real(0.6, 1.6))
	},
	func(d draft, _ float64, _, _ int) {
		d.set(pick(d.Dice, "teeth", "pinion", "ring")+".root_radius", d.Real(0, 0.9))
	},
	func(d draft, m float64, _, _ int) { d.set("teeth.least_tip", m*d.Real(0.2, 1.2)) },
	func(d draft, m float64, _, z2 int) { d.set("ring.outer_diameter", m*(float64(z2)+d.Real(0, 8))) },
	func(d draft, m float64, z1, _ int) {
		d.drop("pinion.bore.across_flat")
		d.set("pinion.bore.shape", `"round"`)
		d.set("pinion.bore.diameter", m*(float64(z1)-d.Real(0, 6)))
	},
	func(d draft, m float64, _, z2 int) {
		d.drop("ring.bolts.screw")
		d.set("ring.bolts.count", d.Whole(3, 64))
		d.set("ring.bolts.hole", m*d.Real(1, 6))
		d.set("ring.bolts.circle", m*(float64(z2)+d.Real(0, 16)))
	},
	func(d draft, m float64, z1, _ int) {
		d.set("pinion.bolts.count", d.Whole(3, 24))
		d.set("pinion.bolts.screw", pick(d.Dice, `"M2"`, `"M3"`))
		d.set("pinion.bolts.circle", m*(float64(z1)-d.Real(0, 8)))
	},
	func(d draft, _ float64, _, _ int) {
		d.kind("cut")
		d.set("making.kerf", d.Real(0.2, 3))
	},
	func(d draft, _ float64, _, _ int) {
		d.kind("printed")
		d.set("making.growth", d.Real(0.2, 1))
	},
	func(d draft, m float64, _, _ int) {
		d.kind("printed")
		d.set("making.line_width", d.Real(0.3, 0.9)*min(m, 2))
	},
	func(d draft, _ float64, _, _ int) {
		d.set("making.bed", pick(d.Dice, "[120, 120, 120]", "[220, 220, 5]"))
	},
	func(d draft, _ float64, _, _ int) { d.set("output.tolerance", "0.00002") },
	func(d draft, _ float64, _, _ int) {
		d.set("teeth.pinion_shift", d.Real(0.5, 2))
		d.set("teeth.ring_shift", d.Real(-1, -0.5))
		d.set("teeth.ring", d.Whole(26, 60))
	},
}

// Bad returns a job with one to three mistakes.
func Bad(from Dice) string {
	d, m, z1, z2 := sensible(from)
	for range d.Whole(1, 3) {
		pick(from, mistakes...)(d, m, z1, z2)
	}
	return d.String()
}
