package gear

import (
	"math"

	"ringtrack/involute"
)

// DefaultBacklash returns the circumferential backlash that is used when none
// is given: (2/3)(0.06 + 0.0005 a + 0.03 m)/cos alpha_w, the least value of
// ISO/TR 10064-2 (from memory), plus what the spread of the centre distance can
// take away, 2 tan(alpha_w) spread, plus the process's share.
func DefaultBacklash(a, module, alphaW, spread, process float64) float64 {
	return 2.0/3*(0.06+0.0005*a+0.03*module)/math.Cos(alphaW) + 2*math.Tan(alphaW)*spread + process
}

// playAt returns the normal backlash at mesh m of teeth thinned by thin1 and
// spaces widened by wide2 (arcs on the reference circles):
// j_bn = (ds1 + de2) cos(alpha) + (db2 - db1)(inv alpha_w0 - inv alpha_w).
func (s *state) playAt(m mesh, thin1, wide2 float64) float64 {
	return (thin1+wide2)*math.Cos(s.w.PressureAngle) +
		2*(m.rb2-m.rb1)*(s.invW0-involute.Inv(m.alphaW))
}

// setBacklash settles the thinning: as much as supplies the play that shifts
// and centre distance do not, never less than none.
func (s *state) setBacklash() {
	m := s.nominal
	cosW := math.Cos(m.alphaW)
	b := Backlash{Source: "rule", Free: s.playAt(m, 0, 0) / cosW}
	b.Asked = DefaultBacklash(m.a, s.m(), m.alphaW, s.w.Spread, s.w.ProcessPlay)
	if s.w.Backlash.Given {
		b.Source, b.Asked = "given", s.w.Backlash.Value
	}
	total := math.Max(0, (b.Asked-b.Free)*cosW/math.Cos(s.w.PressureAngle))
	s.thin1, s.wide2 = s.w.Share*total, (1-s.w.Share)*total
	b.Normal = s.playAt(m, s.thin1, s.wide2)
	b.Circumferential = b.Normal / cosW
	b.Radial = b.Circumferential / (2 * math.Tan(m.alphaW))
	b.AnglePinion, b.AngleRing = b.Normal/m.rb1, b.Normal/m.rb2
	b.AtFar = s.playAt(s.far, s.thin1, s.wide2) / math.Cos(s.far.alphaW)
	s.backlash = b
}
