package budget

import "math"

// The names of the causes, in the order in which they are listed.
const (
	MakingPinion   = "making-pinion"
	MakingRing     = "making-ring"
	CentreDistance = "centre-distance"
	BearingPlay    = "bearing-play"
	RingRunout     = "ring-runout"
	RingOvality    = "ring-ovality"
	PinionRunout   = "pinion-runout"
	Tilt           = "tilt"
	JointStep      = "joint-step"
	Temperature    = "temperature"
	Moisture       = "moisture"
	// Together is the last row: what the causes do together beyond the sum of what
	// each does alone, because backlash is not quite linear in them; and what tips
	// and roots take already at nominal.
	Together = "together"
)

// Cause is one row of the budget.
type Cause struct {
	Name    string
	Key     string  // the job's key, section.key
	Amount  float64 // as given: mm, degC (width of the range), rad, or a fraction
	Unit    string  // mm, degC, rad, or empty
	Guessed bool
	// EveryTurn says that the cause comes round in every turn of every build and
	// does not average out.
	EveryTurn bool
	Effect    Effect // alone, on j_wt
	// HalvingWins is by how much the least backlash (root sum of squares) rises
	// when the amount is halved, mm.
	HalvingWins float64
}

// Counts reports whether what the cause does shows among thousandths of a mm.
func (c Cause) Counts() bool {
	const shows = 0.0005 // mm
	return math.Abs(c.Effect.Least) >= shows || math.Abs(c.Effect.Greatest) >= shows
}

// Effect is what a cause does to the least and to the greatest backlash, mm.
type Effect struct{ Least, Greatest float64 }

func (e Effect) add(f Effect) Effect { return Effect{e.Least + f.Least, e.Greatest + f.Greatest} }

// Figures are a bound of the backlash taken two ways, mm.
type Figures struct{ WorstCase, RootSumSquare float64 }

// Sum adds causes up.
//
// Worst case: all effects added. Root sum of squares: the effects of causes that
// come round in every turn, and the middle of the range of the others, are
// added; the half ranges of the others are added as squares. What the causes do
// together goes into the worst case whole, and into the root sum of squares in
// proportion to the square of the distance from nominal, as a term of second
// order does.
func Sum(nominal float64, causes []Cause) (least, greatest Figures) {
	var worst, rest Effect
	every, mid, squares := Effect{}, 0.0, 0.0
	for _, c := range causes {
		switch {
		case c.Name == Together:
			rest = rest.add(c.Effect)
			continue
		case c.EveryTurn:
			every = every.add(c.Effect)
		default:
			half := (c.Effect.Greatest - c.Effect.Least) / 2
			mid += (c.Effect.Greatest + c.Effect.Least) / 2
			squares += half * half
		}
		worst = worst.add(c.Effect)
	}
	root := math.Sqrt(squares)
	side := func(every, worst, rest float64, root float64) Figures {
		v := every + mid + root
		part := 0.0
		if worst != 0 {
			part = v * v / (worst * worst)
		}
		return Figures{nominal + worst + rest, nominal + v + rest*part}
	}
	return side(every.Least, worst.Least, rest.Least, -root), side(every.Greatest, worst.Greatest, rest.Greatest, root)
}

// row is a cause with the handle on its amount.
type row struct {
	Cause
	halve func(*Spreads)
	// parts are what the cause does to the pair as a whole at its least and at its
	// greatest; what remains of its effect is added to first order.
	ends  [2]change // least, greatest
	pitch [2]float64
}

// rows returns all causes with their effects, without Together.
func (m *model) rows() []row {
	rows := append(m.partRows(), m.ringRows()...)
	rows = append(rows, m.pinionRows()...)
	return append(rows, m.climateRows()...)
}

// symmetrical fills in the effect of a cause that is a change of the pair either way.
func (m *model) symmetrical(r row, least change) row {
	r.ends[0] = least
	r.ends[1] = change{distance: -least.distance, flank1: -least.flank1, flank2: -least.flank2}
	n := m.play(change{})
	r.Effect = Effect{m.play(r.ends[0]) - n, m.play(r.ends[1]) - n}
	return r
}

// mm returns the head of a row about an amount in mm.
func mm(name, key string, a Amount, every bool, halve func(*Spreads)) row {
	return row{Cause: Cause{Name: name, Key: key, Amount: a.Value, Unit: "mm", Guessed: a.Guessed, EveryTurn: every}, halve: halve}
}

func (m *model) partRows() []row {
	s := &m.s
	return []row{
		m.symmetrical(mm(MakingPinion, "making.pinion.spread", s.MakingPinion, false,
			func(s *Spreads) { s.MakingPinion = s.MakingPinion.half() }), change{flank1: s.MakingPinion.Value}),
		m.symmetrical(mm(MakingRing, "making.ring.spread", s.MakingRing, false,
			func(s *Spreads) { s.MakingRing = s.MakingRing.half() }), change{flank2: s.MakingRing.Value}),
		m.symmetrical(mm(CentreDistance, "mounting.centre_distance_spread", s.CentreDistance, false,
			func(s *Spreads) { s.CentreDistance = s.CentreDistance.half() }), change{distance: s.CentreDistance.Value}),
		m.symmetrical(mm(BearingPlay, "mounting.bearing_play", s.BearingPlay, false,
			func(s *Spreads) { s.BearingPlay = s.BearingPlay.half() }), change{distance: s.BearingPlay.Value / 2}),
	}
}

func (m *model) ringRows() []row {
	s := &m.s
	oval := mm(RingOvality, "mounting.ring_ovality", s.RingOvality, true,
		func(s *Spreads) { s.RingOvality = s.RingOvality.half() })
	o, n := m.ovality(), m.play(change{})
	oval.ends = [2]change{{deeper: s.RingOvality.Value / 2}, {deeper: -s.RingOvality.Value / 2}}
	oval.Effect = Effect{o.Least + m.play(oval.ends[0]) - n, o.Greatest + m.play(oval.ends[1]) - n}
	joint := mm(JointStep, "mounting.joint_step", s.JointStep, true,
		func(s *Spreads) { s.JointStep = s.JointStep.half() })
	if len(m.joints) > 0 {
		for _, d := range []float64{0, m.depth.reach} {
			for _, step := range []float64{s.JointStep.Value, -s.JointStep.Value} {
				e := m.stepAt(step, d)
				joint.Effect = Effect{math.Min(joint.Effect.Least, e.Least), math.Max(joint.Effect.Greatest, e.Greatest)}
			}
		}
	}
	return []row{
		m.symmetrical(mm(RingRunout, "mounting.ring_runout", s.RingRunout, true,
			func(s *Spreads) { s.RingRunout = s.RingRunout.half() }), change{distance: s.RingRunout.Value / 2}),
		oval, joint,
	}
}

// ovality returns the effect of the oval: tightest where the radius is least,
// loosest where it is largest.
func (m *model) ovality() Effect {
	o := m.s.RingOvality.Value
	return Effect{m.unit.oval.Least * o, m.unit.oval.Greatest * o}
}

func (m *model) pinionRows() []row {
	s := &m.s
	t := row{Cause: Cause{Name: Tilt, Key: "mounting.tilt", Amount: s.Tilt.Value, Unit: "rad", Guessed: s.Tilt.Guessed, EveryTurn: true},
		halve: func(s *Spreads) { s.Tilt = s.Tilt.half() }}
	// The tilt takes least where both of its parts are equal.
	t.Effect = Effect{m.tilted(math.Pi / 2), m.tilted(math.Atan(m.tanW))}
	return []row{
		m.symmetrical(mm(PinionRunout, "mounting.pinion_runout", s.PinionRunout, true,
			func(s *Spreads) { s.PinionRunout = s.PinionRunout.half() }), change{distance: s.PinionRunout.Value / 2}),
		t,
	}
}

func (m *model) climateRows() []row {
	c := m.s.Climate
	guess := c.Pinion.Guessed || c.Ring.Guessed || c.Base.Guessed
	heat := row{Cause: Cause{Name: Temperature, Key: "mounting.temperature", Amount: c.High - c.Low, Unit: "degC", Guessed: guess || c.Guessed},
		halve: func(s *Spreads) {
			s.Climate.Low, s.Climate.High = (c.Low+c.Set)/2, (c.High+c.Set)/2
		}}
	damp := row{Cause: Cause{Name: Moisture, Key: "ring.material", Amount: c.Ring.Moisture, Guessed: guess},
		halve: func(s *Spreads) {
			for _, b := range []*Movement{&s.Climate.Pinion, &s.Climate.Ring, &s.Climate.Base} {
				b.Moisture /= 2
			}
		}}
	hot, wet := c.moves()
	if hot {
		m.between(&heat, [][2]float64{{c.Low, 0}, {c.High, 0}})
	}
	if wet {
		m.between(&damp, [][2]float64{{c.Set, 0}, {c.Set, 1}})
	}
	return []row{heat, damp}
}

// between fills in the effect of a cause that lies between two climates.
func (m *model) between(r *row, ends [][2]float64) {
	n := m.play(change{})
	r.Effect = Effect{math.Inf(1), math.Inf(-1)}
	for _, e := range ends {
		c, pitch := m.climate(e[0], e[1])
		flat := m.unit.pitch.of(pitch)
		v := m.play(c) - n
		if v+flat.Least < r.Effect.Least {
			r.Effect.Least, r.ends[0], r.pitch[0] = v+flat.Least, c, pitch
		}
		if v+flat.Greatest > r.Effect.Greatest {
			r.Effect.Greatest, r.ends[1], r.pitch[1] = v+flat.Greatest, c, pitch
		}
	}
}

// together returns the last row: the play with every cause at its end, less the sum.
func (m *model) together(rows []row) Cause {
	return Cause{Name: Together, Effect: Effect{
		m.beyond(rows, 0, func(e Effect) float64 { return e.Least }),
		m.beyond(rows, 1, func(e Effect) float64 { return e.Greatest }),
	}}
}

// beyond returns what the causes do at one end, together less each alone.
func (m *model) beyond(rows []row, end int, side func(Effect) float64) float64 {
	n := m.play(change{})
	var all change
	alone, pitch := 0.0, 0.0
	for i := range rows {
		r := &rows[i]
		all = all.plus(r.ends[end])
		pitch += r.pitch[end]
		alone += m.play(r.ends[end]) - n + side(m.unit.pitch.of(r.pitch[end]))
	}
	return m.play(all) - m.nominal() + side(m.unit.pitch.of(pitch)) - alone
}

// plus joins two changes.
func (c change) plus(d change) change {
	return change{
		c.distance + d.distance, c.flank1 + d.flank1, c.flank2 + d.flank2,
		c.grow1 + d.grow1, c.grow2 + d.grow2, c.plate + d.plate, c.deeper + d.deeper,
	}
}

// causes returns the finished rows and the sums.
func (m *model) causes() (out []Cause, least, greatest Figures) {
	rows := m.rows()
	out = plain(rows, m.together(rows))
	least, greatest = Sum(m.nominal(), out)
	for i, r := range rows {
		if r.Effect == (Effect{}) {
			continue
		}
		s := m.s
		r.halve(&s)
		h := m.with(s)
		hr := h.rows()
		better, _ := Sum(h.nominal(), plain(hr, h.together(hr)))
		out[i].HalvingWins = better.RootSumSquare - least.RootSumSquare
	}
	return out, least, greatest
}

func plain(rows []row, last Cause) []Cause {
	out := make([]Cause, 0, len(rows)+1)
	for _, r := range rows {
		out = append(out, r.Cause)
	}
	return append(out, last)
}

// costliest returns the cause whose halving wins most, among guesses alone if
// asked; nil when none costs anything.
func costliest(causes []Cause, guesses bool) *Cause {
	var best *Cause
	for i := range causes {
		c := &causes[i]
		if c.HalvingWins > 0 && (c.Guessed || !guesses) && (best == nil || c.HalvingWins > best.HalvingWins) {
			best = c
		}
	}
	return best
}
