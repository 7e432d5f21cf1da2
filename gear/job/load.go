package job

// Motor is the motor with its gearbox; speeds and torques are those of the
// output shaft.
type Motor struct {
	Kind               string    // dc, stepper
	RatedVoltage       float64   // V, dc
	Supply             []float64 // V, dc, at least one
	NoLoadSpeed        float64   // rpm, dc
	StallTorque        float64   // N mm, dc
	Steps, Microsteps  int       // stepper
	Curve              []PullOut // stepper
	Counts             int       // of an encoder for a turn of the motor itself; 0: none
	GearboxOver        int64     // turns of the motor for GearboxUnder turns of the output shaft; 0: not given
	GearboxUnder       int64
	GearboxLimit       float64 // N mm, 0: not known
	GearboxSlack       Setting // radians in total; not given: the usual
	RadialLoad         float64 // N, 0: not known
	Shaft, ShaftLength float64 // mm; Shaft 0: not known
	RotorInertia       float64 // kg mm2, before the gearbox
}

// PullOut is a point of a stepper's curve: rpm and N mm.
type PullOut struct{ Speed, Torque float64 }

// Platform is what turns.
type Platform struct {
	Mass                  float64 // kg
	Diameter, Inertia     Setting // mm, kg mm2
	LoadHeight            float64 // mm
	LoadOffset            float64 // mm
	OffLevel              float64 // radians
	BearingDiameter       Setting // mm
	Friction              Setting // N mm
	Pull, PullMoving      Setting // N
	PullRadius            Setting // mm
	CoastTime, CoastSpeed Setting // s, rpm
	Speed                 Setting // rpm, wanted
}

// Figures are a member's own figures of its material, in place of the table's.
type Figures struct {
	Modulus, Strength, ToothRoot  Setting // MPa
	LayerStrength                 Setting // fraction
	Poisson, Density              Setting // -, kg/m3
	Expansion, Moisture           Setting // 1/K, fraction
	ServiceTemperature, Softening Setting // degC
	Friction                      Setting
	Hardness                      Setting // Shore
	Scale                         byte    // of Hardness: 'A' or 'D'
}

// motor fills in the section of that name, nil when there is none.
//
//	bore  mm, diameter of the pinion's bore: the shaft's where none is given
func (r *reading) motor(bore float64) *Motor {
	const s = "motor"
	if !r.hasSection(s) {
		return nil
	}
	box := r.given[s+".gearbox"]
	m := &Motor{
		Kind:         r.entry(s + ".kind").text,
		RatedVoltage: r.num(s+".rated_voltage", 0),
		Supply:       append([]float64(nil), r.given[s+".supply"].nums...),
		NoLoadSpeed:  r.num(s+".no_load_speed", 0),
		StallTorque:  r.num(s+".stall_torque", 0),
		Steps:        int(r.num(s+".steps", 0)),
		Microsteps:   int(r.num(s+".microsteps", 1)),
		Counts:       int(r.num(s+".counts", 0)),
		GearboxOver:  box.over, GearboxUnder: box.under,
		GearboxLimit: r.num(s+".gearbox_limit", 0),
		GearboxSlack: r.setting(s + ".gearbox_slack"),
		RadialLoad:   r.num(s+".radial_load", 0),
		Shaft:        r.num(s+".shaft", bore),
		ShaftLength:  r.num(s+".shaft_length", 0),
		RotorInertia: r.num(s+".rotor_inertia", 0),
	}
	if len(m.Supply) == 0 {
		m.Supply = []float64{m.RatedVoltage}
	}
	for c := r.given[s+".curve"].nums; len(c) > 1; c = c[2:] {
		m.Curve = append(m.Curve, PullOut{c[0], c[1]})
	}
	return m
}

// platform fills in the section of that name, nil when there is none.
func (r *reading) platform() *Platform {
	const s = "platform"
	if !r.hasSection(s) {
		return nil
	}
	return &Platform{
		Mass:            r.num(s+".mass", 0),
		Diameter:        r.setting(s + ".diameter"),
		Inertia:         r.setting(s + ".inertia"),
		LoadHeight:      r.num(s+".load_height", 0),
		LoadOffset:      r.num(s+".load_offset", 0),
		OffLevel:        r.num(s+".off_level", 0),
		BearingDiameter: r.setting(s + ".bearing_diameter"),
		Friction:        r.setting(s + ".bearing_friction"),
		Pull:            r.setting(s + ".pull"),
		PullMoving:      r.setting(s + ".pull_moving"),
		PullRadius:      r.setting(s + ".pull_radius"),
		CoastTime:       r.setting(s + ".coast_time"),
		CoastSpeed:      r.setting(s + ".coast_speed"),
		Speed:           r.setting(s + ".speed"),
	}
}

// figures fills in a member's figures of its material: its own section before
// [material].
func (r *reading) figures(member string) Figures {
	of := func(name string) Setting { return r.setting("material."+member+"."+name, "material."+name) }
	f := Figures{
		Modulus: of("modulus"), Strength: of("strength"), ToothRoot: of("tooth_root"), LayerStrength: of("layer_strength"),
		Poisson: of("poisson"), Density: of("density"), Expansion: of("expansion"), Moisture: of("moisture"),
		ServiceTemperature: of("service_temperature"), Softening: of("softening"), Friction: of("friction"), Hardness: of("hardness"),
	}
	for _, s := range []string{"material." + member + ".hardness", "material.hardness"} {
		if e := r.given[s]; e.ok && f.Scale == 0 {
			f.Scale = e.text[0]
		}
	}
	return f
}

// print fills in how a member's inside is printed.
func (r *reading) print(member, kind string, m *Making) {
	m.Infill, _ = r.allowance(member, kind, "infill")
	walls, _ := r.allowance(member, kind, "walls")
	m.Walls = int(walls)
	m.Upright = kind == "printed" && r.makingEntry(member, "upright").flag
}

// shaft returns the diameter of a bore's shaft, 0 where it is not known.
func (r *reading) shaft(b *Bore) float64 {
	if b == nil || b.Shape == "coupling" {
		return 0
	}
	return b.Diameter
}
