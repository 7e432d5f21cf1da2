package drafts

// Any returns a job whose every value lies in its key's allowed range, however
// little the values go together.
func Any(from Dice) string {
	d := draft{from, map[string]string{}}
	z1 := d.Whole(5, 300)
	if d.odds(2) {
		z1 = d.Whole(5, 30)
	}
	d.set("teeth.pinion", z1)
	d.set("teeth.ring", d.Whole(z1+1, 1000))
	m := d.Real(0.2, 50)
	if d.odds(4) {
		d.set("teeth.diametral_pitch", 25.4/m)
	} else {
		d.set("teeth.module", m)
	}
	d.anyTeeth(m)
	d.anyMaking()
	if d.odds(2) {
		d.anyBore(m * float64(z1))
	}
	for _, s := range []string{"pinion.bolts", "ring.bolts"} {
		if d.odds(2) {
			d.set(s+".count", d.Whole(3, 64))
			d.set(s+".hole", d.Real(0.5, 100))
			d.maybe(s+".circle", 0.5, 3*m*float64(z1))
			d.maybe(s+".angle", -360, 360)
		}
	}
	d.maybe("ring.outer_diameter", 1, 60000)
	d.maybe("mounting.centre_distance_spread", 0, 10)
	d.set("output.tolerance", d.Real(0.0001, 1))
	return d.String()
}

// maybe sets a number, one time in four.
func (d draft) maybe(key string, lo, hi float64) {
	if d.odds(4) {
		d.set(key, d.Real(lo, hi))
	}
}

func (d draft) anyTeeth(m float64) {
	d.maybe("teeth.pressure_angle", 14.5, 30)
	d.maybe("teeth.pinion_shift", -1, 2)
	d.maybe("teeth.ring_shift", -1, 2)
	d.maybe("teeth.centre_distance", 0.1, 25000)
	d.maybe("teeth.backlash", 0, min(m, 50)*0.999)
	d.maybe("teeth.backlash_share", 0, 1)
	d.maybe("teeth.least_tip", 0, 20)
	d.set("teeth.rack", pick(d.Dice, `"A"`, `"B"`, `"C"`, `"D"`))
	for _, s := range []string{"teeth", "pinion", "ring"} {
		d.maybe(s+".addendum", 0.1, 2)
		d.maybe(s+".dedendum", 0.1, 2.5)
		d.maybe(s+".root_radius", 0, 1)
	}
	d.maybe("pinion.tip_diameter", 0.1, 600*m)
	d.maybe("ring.tip_diameter", 0.1, 1200*m)
	d.maybe("ring.face_width", 0.2, 1000)
}

func (d draft) anyBore(across float64) {
	round := d.odds(2)
	dia := d.Real(0.5, min(500, max(1, across)))
	d.set("pinion.bore.diameter", dia)
	d.set("pinion.bore.shape", `"round"`)
	if !round && dia > 1 {
		d.set("pinion.bore.shape", `"d"`)
		d.set("pinion.bore.across_flat", dia*d.Real(0.501, 0.999))
		d.maybe("pinion.bore.flat_angle", -360, 360)
	}
	d.maybe("pinion.bore.clearance", max(-1, -0.4*dia), 5) // a hole must be left
}

func (d draft) anyMaking() {
	for _, s := range []string{"making.pinion", "making.ring"} {
		kind := pick(d.Dice, "printed", "cut", "exact")
		d.set(s+".kind", `"`+kind+`"`)
		switch kind {
		case "printed":
			d.maybe(s+".line_width", 0.05, 3)
			d.maybe(s+".growth", -1, 1)
			d.maybe(s+".hole_shrink", -1, 2)
			d.maybe(s+".shrinkage", -1, 10)
		case "cut":
			d.maybe(s+".kerf", 0, 3)
		}
	}
}
