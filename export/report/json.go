package report

import (
	"bytes"
	"encoding/json"
	"io"
	"math"
	"strconv"

	"ringtrack/gear"
	"ringtrack/gear/drive"
	"ringtrack/gear/find"
	"ringtrack/involute"
)

// num is a number of the report: nine significant digits, null when it is NaN
// or infinite.
type num float64

// MarshalJSON writes the number.
func (n num) MarshalJSON() ([]byte, error) {
	v := float64(n)
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return []byte("null"), nil
	}
	if math.Abs(v) < 1e-12 {
		v = 0 // rounding, and no -0
	}
	return strconv.AppendFloat(nil, v, 'g', 9, 64), nil
}

func deg(radians float64) num { return num(radians * 180 / math.Pi) }

var none = num(math.NaN())

type root struct {
	Tool     string       `json:"tool"`
	Version  string       `json:"version"`
	Title    string       `json:"title"`
	Units    units        `json:"units"`
	Format   int          `json:"format"`
	Verdict  string       `json:"verdict"`
	Chosen   []chosen     `json:"chosen"`
	Pinion   *member      `json:"pinion"`
	Ring     *member      `json:"ring"`
	Pair     *pair        `json:"pair"`
	Ledger   []ledgerRow  `json:"ledger"`
	Rolled   *rolled      `json:"rolled"`
	Budget   *budgetRoot  `json:"budget"`
	Load     *loadReport  `json:"load"`
	Fixings  *fixingsRoot `json:"fixings"`
	Cutting  *cuttingRoot `json:"cutting"`
	Parts    []partRow    `json:"parts"`
	Files    []fileRow    `json:"files"`
	Findings []findingRow `json:"findings"`
	Cautions []string     `json:"cautions"`
}

type units struct {
	Length string `json:"length"`
	Angle  string `json:"angle"`
	Mass   string `json:"mass"`
	Volume string `json:"volume"`
}

type chosen struct {
	Key    string `json:"key"`
	Value  num    `json:"value"`
	Reason string `json:"reason"`
}

type member struct {
	Teeth             int       `json:"teeth"`
	Module            num       `json:"module"`
	PressureAngle     num       `json:"pressure_angle"`
	Rack              rack      `json:"rack"`
	ProfileShift      num       `json:"profile_shift"`
	ReferenceDiameter num       `json:"reference_diameter"`
	BaseDiameter      num       `json:"base_diameter"`
	WorkingDiameter   num       `json:"working_diameter"`
	TipDiameter       num       `json:"tip_diameter"`
	RootDiameter      num       `json:"root_diameter"`
	FormDiameter      num       `json:"form_diameter"`
	ActiveDiameter    num       `json:"active_diameter"`
	ToothThickness    num       `json:"tooth_thickness"`
	SpaceWidth        num       `json:"space_width"`
	TipThickness      num       `json:"tip_thickness"`
	Undercut          num       `json:"undercut"`
	FaceWidth         num       `json:"face_width"`
	Span              *span     `json:"span"`
	Pins              *pins     `json:"pins"`
	Flexible          *flexible `json:"flexible"`
	Drawn             *drawn    `json:"drawn"`
}

type rack struct {
	Addendum   num    `json:"addendum"`
	Dedendum   num    `json:"dedendum"`
	RootRadius num    `json:"root_radius"`
	RadiusRule string `json:"root_radius_rule"`
}

type span struct {
	Teeth  int `json:"teeth"`
	Length num `json:"length"`
}

type pins struct {
	Diameter  num `json:"diameter"`
	Dimension num `json:"dimension"`
}

type drawn struct {
	TipDiameter    num `json:"tip_diameter"`
	RootDiameter   num `json:"root_diameter"`
	ToothThickness num `json:"tooth_thickness"`
	SpaceWidth     num `json:"space_width"`
	Span           num `json:"span"`
	Pins           num `json:"pins"`
	OuterDiameter  num `json:"outer_diameter"`
}

type pair struct {
	Ratio                   num          `json:"ratio"`
	CommonFactor            int          `json:"common_factor"`
	ReferenceCentreDistance num          `json:"reference_centre_distance"`
	CentreDistance          num          `json:"centre_distance"`
	WorkingPressureAngle    num          `json:"working_pressure_angle"`
	ContactRatio            num          `json:"contact_ratio"`
	ContactRatioFormula     num          `json:"contact_ratio_formula"`
	Path                    path         `json:"path"`
	CircumferentialBacklash num          `json:"circumferential_backlash"`
	NormalBacklash          num          `json:"normal_backlash"`
	RadialBacklash          num          `json:"radial_backlash"`
	AngularBacklashPinion   num          `json:"angular_backlash_pinion"`
	AngularBacklashRing     num          `json:"angular_backlash_ring"`
	BacklashSource          string       `json:"backlash_source"`
	TipClearancePinion      num          `json:"tip_clearance_pinion"`
	TipClearanceRing        num          `json:"tip_clearance_ring"`
	TipCornerGap            num          `json:"tip_corner_gap"`
	Interference            interference `json:"interference"`
}

type path struct {
	RingTip    num `json:"ring_tip"`
	PinionForm num `json:"pinion_form"`
	PinionTip  num `json:"pinion_tip"`
	RingForm   num `json:"ring_form"`
}

type interference struct {
	RingTipOnPinionRoot margin `json:"ring_tip_on_pinion_root"`
	PinionTipOnRingRoot margin `json:"pinion_tip_on_ring_root"`
	TipOnTip            margin `json:"tip_on_tip"`
	RadialAssembly      margin `json:"radial_assembly"`
}

type margin struct {
	Clear            bool `json:"clear"`
	Margin           num  `json:"margin"`
	MarginAtSpread   num  `json:"margin_at_spread"`
	AtCentreDistance num  `json:"at_centre_distance"`
}

type ledgerRow struct {
	Part       string `json:"part"`
	Step       string `json:"step"`
	Given      num    `json:"given"`
	Thickness  num    `json:"thickness"`
	Tip        num    `json:"tip_diameter"`
	Root       num    `json:"root_diameter"`
	Bore       num    `json:"bore"`
	MeasuredAt num    `json:"measured_at"`
}

type rolled struct {
	Source   string `json:"source"`
	Pitches  num    `json:"pitches"`
	Backlash struct {
		Least    num `json:"least"`
		Mean     num `json:"mean"`
		Greatest num `json:"greatest"`
		AtTooth  int `json:"at_tooth"`
	} `json:"backlash"`
	TransmissionError struct {
		Forward  num `json:"forward"`
		Backward num `json:"backward"`
	} `json:"transmission_error"`
	SmallestGap num     `json:"smallest_gap"`
	Binds       bool    `json:"binds"`
	Where       *string `json:"where"`
}

type partRow struct {
	Name      string   `json:"name"`
	Files     []string `json:"files"`
	Box       []num    `json:"box"`
	Volume    num      `json:"volume"`
	Triangles *int     `json:"triangles"`
	Mass      num      `json:"mass"`
}

type fileRow struct {
	File   string  `json:"file"`
	Part   *string `json:"part"`
	Format string  `json:"format"`
	Bytes  int64   `json:"bytes"`
	SHA256 string  `json:"sha256"`
}

type findingRow struct {
	Code   string        `json:"code"`
	Level  string        `json:"level"`
	About  string        `json:"about"`
	Line   *int          `json:"line"`
	Found  num           `json:"found"`
	Limit  num           `json:"limit"`
	Unit   string        `json:"unit"`
	Text   string        `json:"text"`
	Change []find.Change `json:"change"`
}

// WriteJSON writes report.json.
func WriteJSON(w io.Writer, d *drive.Design, b Built) error {
	r := root{
		Tool: "ringtrack", Version: Version, Title: d.Job.Title,
		Units:  units{"mm", "deg", "g", "mm3"},
		Format: Format, Verdict: d.Verdict(),
		Chosen: []chosen{}, Ledger: []ledgerRow{}, Parts: parts(d, b), Files: files(b), Fixings: fixingsOf(d),
		Findings: Findings(d.Findings), Cautions: d.Cautions(), Load: loadOf(d),
	}
	if d.Pair != nil {
		for _, c := range d.Pair.Chosen {
			r.Chosen = append(r.Chosen, chosen{c.Key, num(c.Value), c.Reason})
		}
		r.Pinion, r.Ring, r.Pair = pinionMember(d), ringMember(d), pairOf(d.Pair)
	}
	for _, l := range d.Ledger {
		r.Ledger = append(r.Ledger, ledgerRow{l.Part, l.Step, num(l.Given), num(l.Thickness), num(l.Tip), num(l.Root), num(l.Bore), num(l.At)})
	}
	r.Rolled, r.Budget = rolledOf(b.Rolled), budgetOf(d)
	r.Cutting = cuttingOf(b.Cutting)
	return encode(w, r)
}

// encode writes indented JSON without escaping the comparison signs.
func encode(w io.Writer, v any) error {
	var buf bytes.Buffer
	e := json.NewEncoder(&buf)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	if err := e.Encode(v); err != nil {
		return err
	}
	_, err := w.Write(buf.Bytes())
	return err
}

func pinionMember(d *drive.Design) *member {
	p := d.Pair.Pinion
	m := memberOf(p.Member, d.Job.Pinion.FaceWidth)
	m.Undercut = num(p.Undercut)
	if p.SpanTeeth > 0 {
		m.Span = &span{p.SpanTeeth, num(p.SpanLength)}
	}
	if d.Pinion.Drawn {
		m.Drawn = drawnOf(d.Pinion.Gauge, math.NaN())
	}
	return &m
}

func ringMember(d *drive.Design) *member {
	m := memberOf(d.Pair.Ring.Member, d.Job.Ring.FaceWidth)
	m.Undercut = none
	if d.Ring.Drawn {
		_, outer := d.Ring.Body.Contours[0].Drawn.Radii()
		m.Drawn = drawnOf(d.Ring.Gauge, 2*outer)
	}
	return &m
}

func memberOf(g gear.Member, face float64) member {
	return member{
		Teeth: g.Teeth, Module: num(g.Module), PressureAngle: deg(g.PressureAngle),
		Rack:         rack{num(g.Rack.Addendum), num(g.Rack.Dedendum), num(g.Rack.RootRadius), string(g.RadiusRule)},
		ProfileShift: num(g.Shift), ReferenceDiameter: num(g.ReferenceDiameter), BaseDiameter: num(g.BaseDiameter),
		WorkingDiameter: num(g.WorkingDiameter), TipDiameter: num(g.TipDiameter), RootDiameter: num(g.RootDiameter),
		FormDiameter: num(g.FormDiameter), ActiveDiameter: num(g.ActiveDiameter),
		ToothThickness: num(g.ToothThickness), SpaceWidth: num(g.SpaceWidth), TipThickness: num(g.TipThickness),
		FaceWidth: num(face), Pins: pinsOf(g.Pins), Flexible: flexibleOf(g.Flexible),
	}
}

func pinsOf(p *involute.Pins) *pins {
	if p == nil {
		return nil
	}
	return &pins{num(p.Diameter), num(p.Dimension)}
}

func drawnOf(g gear.Drawn, outer float64) *drawn {
	return &drawn{
		num(g.TipDiameter), num(g.RootDiameter), num(g.ToothThickness), num(g.SpaceWidth), num(g.Span), num(g.Pins), num(outer),
	}
}

func pairOf(p *gear.Pair) *pair {
	b, i := p.Backlash, p.Interference
	return &pair{
		Ratio: num(p.Ratio()), CommonFactor: p.CommonFactor(),
		ReferenceCentreDistance: num(p.ReferenceCentreDistance), CentreDistance: num(p.CentreDistance),
		WorkingPressureAngle: deg(p.WorkingPressureAngle),
		ContactRatio:         num(p.ContactRatio), ContactRatioFormula: num(p.ContactRatioFormula),
		Path:                    path{num(p.Path.RingTip), num(p.Path.PinionForm), num(p.Path.PinionTip), num(p.Path.RingForm)},
		CircumferentialBacklash: num(b.Circumferential), NormalBacklash: num(b.Normal), RadialBacklash: num(b.Radial),
		AngularBacklashPinion: deg(b.AnglePinion), AngularBacklashRing: deg(b.AngleRing), BacklashSource: b.Source,
		TipClearancePinion: num(p.TipClearancePinion), TipClearanceRing: num(p.TipClearanceRing),
		TipCornerGap: num(p.TipCornerGap),
		Interference: interference{marginOf(i.RingTip), marginOf(i.PinionTip), marginOf(i.TipOnTip), marginOf(i.Radial)},
	}
}

func marginOf(m gear.Margin) margin {
	if !m.Applies {
		return margin{true, none, none, none}
	}
	return margin{m.Clear(), num(m.Nominal), num(m.AtSpread), num(m.AtCentre)}
}

func rolledOf(r *Rolled) *rolled {
	if r == nil {
		return nil
	}
	out := &rolled{Source: r.Source, Pitches: num(r.Pitches), SmallestGap: num(r.SmallestGap), Binds: r.Binds}
	out.Backlash.Least, out.Backlash.Mean, out.Backlash.Greatest = num(r.Least), num(r.Mean), num(r.Greatest)
	out.Backlash.AtTooth = r.AtTooth
	out.TransmissionError.Forward, out.TransmissionError.Backward = num(r.Forward), num(r.Backward)
	if r.Where != "" {
		out.Where = &r.Where
	}
	return out
}

// parts lists the parts that are made.
func parts(d *drive.Design, b Built) []partRow {
	out := []partRow{}
	if d.Pair == nil {
		return out
	}
	for _, m := range members(d) {
		if !m.member.Make || !m.member.Drawn {
			continue
		}
		across := 2 * m.member.Reach()
		row := partRow{
			Name: m.name, Files: b.filesOf(m.name),
			Box:    []num{num(across), num(across), num(m.member.Body.Overall())},
			Volume: num(m.member.Volume), Mass: none,
		}
		if t := b.triangles(m.name); t > 0 {
			row.Triangles = &t
		}
		if m.member.Mass > 0 {
			row.Mass = num(m.member.Mass)
		}
		out = append(out, row)
	}
	return out
}

func files(b Built) []fileRow {
	out := []fileRow{}
	for _, f := range b.Files {
		row := fileRow{File: f.Name, Format: f.Format, Bytes: f.Bytes, SHA256: f.SHA256}
		if f.Part != "" {
			part := f.Part
			row.Part = &part
		}
		out = append(out, row)
	}
	return out
}

// Findings returns the findings as report.json has them.
func Findings(fs []find.Finding) []findingRow {
	out := []findingRow{}
	for _, f := range fs {
		row := findingRow{
			Code: string(f.Code), Level: f.Level.String(), About: f.About,
			Found: none, Limit: none, Unit: f.Unit, Text: f.Text, Change: f.Change,
		}
		if line := f.Line; line > 0 {
			row.Line = &line
		}
		if f.Found != nil {
			row.Found = num(*f.Found)
		}
		if f.Limit != nil {
			row.Limit = num(*f.Limit)
		}
		if row.Change == nil {
			row.Change = []find.Change{}
		}
		out = append(out, row)
	}
	return out
}

// WriteFaultyJSON writes the report of a job file that has faults: no design,
// only the findings.
func WriteFaultyJSON(w io.Writer, fs []find.Finding) error {
	return encode(w, root{
		Tool: "ringtrack", Version: Version, Units: units{"mm", "deg", "g", "mm3"}, Format: Format, Verdict: find.Worst(fs),
		Chosen: []chosen{}, Ledger: []ledgerRow{}, Parts: []partRow{}, Files: []fileRow{},
		Findings: Findings(fs), Cautions: drive.Cautions(),
	})
}
