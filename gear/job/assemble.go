package job

// entry returns a key's good value, else its constant default.
func (r *reading) entry(path string) entry {
	if e := r.given[path]; e.ok {
		return e
	}
	return index.key(path).constant
}

// num returns a key's good number, else its constant default, else fallback.
func (r *reading) num(path string, fallback float64) float64 {
	if e := r.entry(path); e.ok && !e.auto {
		return e.num
	}
	return fallback
}

// setting returns a number that the tool may choose: the first key given.
func (r *reading) setting(paths ...string) Setting {
	for _, p := range paths {
		if e := r.given[p]; e.ok && !e.auto {
			return Setting{Value: e.num, Given: true}
		}
	}
	return Setting{}
}

// has reports whether a key stands in the file, good or bad.
func (r *reading) has(path string) bool {
	_, ok := r.given[path]
	return ok
}

// good reports whether all keys stand in the file with good values.
func (r *reading) good(paths ...string) bool {
	for _, p := range paths {
		if !r.given[p].ok {
			return false
		}
	}
	return true
}

// hasSection reports whether a section stands in the file, or a key of it.
func (r *reading) hasSection(name string) bool {
	if _, ok := r.headers[name]; ok {
		return true
	}
	for _, k := range namesIn(plain(name)) {
		if r.has(join(name, k)) {
			return true
		}
	}
	return false
}

// job fills a job with what is good and with defaults for the rest.
func (r *reading) job() *Job {
	j := &Job{Name: r.name, Title: r.name, given: r.given, headers: r.headers}
	if e := r.given["title"]; e.ok {
		j.Title = e.text
	}
	j.Format = int(r.num("format", 1))
	m := r.module()
	j.Ring = r.member("ring", max(4*m, 6))
	j.Pinion = r.member("pinion", j.Ring.FaceWidth+2)
	j.Teeth = r.teeth(m, j)
	j.Pinion.Bore = r.bore(j.Pinion.Making.Kind)
	j.Pinion.Hub = r.hub()
	j.Pinion.SetScrews = r.setScrews()
	j.Pinion.Flange = r.flange()
	j.Ring.OuterDiameter = r.setting("ring.outer_diameter")
	j.Ring.Step = r.step(j.Ring.Making.Kind)
	j.Ring.StandOff = r.num("ring.stand_off", 0)
	spread := 0.1
	if j.Pinion.Making.Kind == "exact" && j.Ring.Making.Kind == "exact" {
		spread = 0
	}
	j.Mounting.CentreDistanceSpread = r.num("mounting.centre_distance_spread", spread)
	j.Motor, j.Platform = r.motor(r.shaft(j.Pinion.Bore)), r.platform()
	j.Sheet = r.sheet()
	j.Mounting.Play = r.play(j)
	j.Output = Output{
		Tolerance: r.num("output.tolerance", 0),
		Paper:     r.paper(),
		Formats:   append([]string(nil), r.entry("output.formats").words...),
	}
	return j
}

// module returns the module in mm; without a good one it is 1, and the job is
// refused anyway.
func (r *reading) module() float64 {
	if e := r.given["teeth.module"]; e.ok {
		return e.num
	}
	if e := r.given["teeth.diametral_pitch"]; e.ok {
		return 127 / (5 * e.num) // an inch is 127/5 mm: rounded once
	}
	return 1
}

// teeth fills in the section of that name. j: members with their making.
func (r *reading) teeth(m float64, j *Job) Teeth {
	return Teeth{
		Module:            m,
		PressureAngle:     r.num("teeth.pressure_angle", 0),
		Pinion:            int(r.num("teeth.pinion", 0)),
		Ring:              int(r.num("teeth.ring", 0)),
		PinionShift:       r.setting("teeth.pinion_shift"),
		RingShift:         r.setting("teeth.ring_shift"),
		CentreDistance:    r.setting("teeth.centre_distance"),
		Backlash:          r.setting("teeth.backlash"),
		BacklashAuto:      r.entry("teeth.backlash").auto,
		LeastPlay:         r.setting("teeth.least_play"),
		BacklashShare:     r.num("teeth.backlash_share", 0),
		FlexibleAllowance: r.setting("teeth.flexible_allowance"),
		Rack:              r.entry("teeth.rack").text[0],
		LeastTip:          r.num("teeth.least_tip", leastTip(m, j.Pinion.Making, j.Ring.Making)),
	}
}

// leastTip returns the narrowest tip allowed when the job does not say: one
// printed line, the wider of the two printers', when the pinion is printed.
func leastTip(m float64, pinion, ring Making) float64 {
	if pinion.Kind != "printed" {
		return 0.2 * m
	}
	return max(pinion.LineWidth, ring.LineWidth)
}

// member fills in the pinion or the ring.
func (r *reading) member(name string, faceWidth float64) Member {
	m := Member{
		Make:        r.entry(name + ".make").flag,
		FaceWidth:   r.num(name+".face_width", r.whole(name, faceWidth)),
		Material:    r.entry(name + ".material").text,
		Figures:     r.figures(name),
		TipDiameter: r.setting(name + ".tip_diameter"),
		TipRelief:   r.setting(name + ".tip_relief"),
		Addendum:    r.setting(name+".addendum", "teeth.addendum"),
		Dedendum:    r.setting(name+".dedendum", "teeth.dedendum"),
		RootRadius:  r.setting(name+".root_radius", "teeth.root_radius"),
		Bolts:       r.bolts(name + ".bolts"),
	}
	m.Making = r.making(name, m.FaceWidth, m.Material)
	return m
}
