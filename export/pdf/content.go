package pdf

import (
	"math"

	"ringtrack/export/figure"
	"ringtrack/export/number"
	"ringtrack/gear/plane"
)

const (
	pathDecimals = 6 // of a mm
	wordDecimals = 4
)

// painter writes the operators of one page.
type painter struct {
	out       []byte
	decimals  int
	opacities map[uint8]bool
	set       state // as the reader has it
}

// state is what operators set and later ones use.
type state struct {
	stroke, fill figure.Colour
	width        float64
	dash         string
	opacity      uint8
}

// content returns a page's operators. Opacities in use are noted.
func content(marks []figure.Mark, opacities map[uint8]bool) []byte {
	p := &painter{opacities: opacities, decimals: 15}
	black := figure.Colour{A: 255}
	p.set = state{stroke: black, fill: black, width: 1, dash: "[]", opacity: 255}
	p.op("cm", 1/Point, 0, 0, 1/Point, 0, 0)
	p.op("j", 1) // round joins
	for _, m := range marks {
		p.mark(m)
	}
	return p.out
}

func (p *painter) op(name string, args ...float64) {
	for _, v := range args {
		p.out = number.Append(p.out, v, p.decimals)
		p.out = append(p.out, ' ')
	}
	p.out = append(p.out, name...)
	p.out = append(p.out, '\n')
}

func (p *painter) mark(m figure.Mark) {
	s := m.Style
	filled, stroked := s.Fill.A != 0, s.Stroke.A != 0 && s.Width > 0
	if len(m.Path) == 0 || !filled && !stroked {
		return
	}
	if m.Label != "" {
		p.out = append(p.out, "/Span<</ActualText"+text(m.Label)+">>BDC\n"...)
	}
	switch {
	case filled && stroked && s.Fill.A == s.Stroke.A:
		p.look(s, true, true, s.Fill.A)
		p.paint(m, "B")
	default:
		if filled {
			p.look(s, true, false, s.Fill.A)
			p.paint(m, "f")
		}
		if stroked {
			p.look(s, false, true, s.Stroke.A)
			p.paint(m, "S")
		}
	}
	if m.Label != "" {
		p.out = append(p.out, "EMC\n"...)
	}
}

// look sets what differs from what is set.
func (p *painter) look(s figure.Style, fill, stroke bool, opaque uint8) {
	p.decimals = 4
	part := func(v uint8) float64 { return float64(v) / 255 }
	plain := func(c figure.Colour) figure.Colour { c.A = 255; return c }
	if c := plain(s.Fill); fill && c != p.set.fill {
		p.op("rg", part(c.R), part(c.G), part(c.B))
		p.set.fill = c
	}
	if opaque != p.set.opacity {
		p.opacities[opaque] = true
		p.out = append(p.out, "/"+opacity(opaque)+" gs\n"...)
		p.set.opacity = opaque
	}
	if !stroke {
		return
	}
	if c := plain(s.Stroke); c != p.set.stroke {
		p.op("RG", part(c.R), part(c.G), part(c.B))
		p.set.stroke = c
	}
	if s.Width != p.set.width {
		p.op("w", s.Width)
		p.set.width = s.Width
	}
	dash := "["
	for i, d := range s.Dash {
		if i > 0 {
			dash += " "
		}
		dash += number.Format(d, 4)
	}
	if dash += "]"; dash != p.set.dash {
		p.out = append(p.out, dash+" 0 d\n"...)
		p.set.dash = dash
	}
}

func (p *painter) paint(m figure.Mark, how string) {
	p.decimals = pathDecimals
	if m.Label != "" {
		p.decimals = wordDecimals
	}
	var at plane.Vec
	for _, s := range m.Path {
		switch s.Op {
		case figure.MoveTo:
			p.op("m", s.P.X, s.P.Y)
		case figure.LineTo:
			p.op("l", s.P.X, s.P.Y)
		case figure.QuadTo: // the same parabola as a cubic
			c, d := at.Add(s.C.Sub(at).Mul(2.0/3)), s.P.Add(s.C.Sub(s.P).Mul(2.0/3))
			p.op("c", c.X, c.Y, d.X, d.Y, s.P.X, s.P.Y)
		case figure.ArcTo:
			p.arc(at, s)
		case figure.CloseTo:
			p.op("h")
		}
		at = s.P
	}
	p.op(how)
}

// mostSweep of one cubic, radians.
const mostSweep = math.Pi / 12

// arc writes an arc as cubics. Each has its control points on the tangents at
// 4/3 tan(sweep/4) radii from its ends, which puts its middle on the arc; its
// greatest distance from it, outward, is (2/27) sin(sweep/4)^6 / cos(sweep/4)^2
// radii to first order: 5.8e-9 at 15 degrees.
func (p *painter) arc(from plane.Vec, s figure.Segment) {
	n := math.Max(1, math.Ceil(math.Abs(s.Sweep)/mostSweep-1e-9))
	turn := s.Sweep / n
	k := 4.0 / 3 * math.Tan(turn/4)
	v := from.Sub(s.C)
	left := func(v plane.Vec) plane.Vec { return plane.Vec{X: -v.Y, Y: v.X} }
	a := v
	for i := 1.0; i <= n; i++ {
		b := v.Turn(turn * i)
		c, d, to := s.C.Add(a).Add(left(a).Mul(k)), s.C.Add(b).Sub(left(b).Mul(k)), s.C.Add(b)
		if i == n {
			to = s.P
		}
		p.op("c", c.X, c.Y, d.X, d.Y, to.X, to.Y)
		a = b
	}
}
