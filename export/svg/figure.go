package svg

import (
	"bufio"
	"fmt"
	"io"
	"math"

	"ringtrack/export/figure"
	"ringtrack/export/number"
	"ringtrack/gear/plane"
)

// FigureDecimals of a millimetre of paper: finer than any printer.
const FigureDecimals = 3

// WriteFigure renders a figure: paper size in mm, one user unit a millimetre,
// words as outlines with the text as their label. It buffers, reports the first
// write error and does not close w.
//
// Errors, before the first byte: those of the figure's Marks.
func WriteFigure(w io.Writer, f figure.Figure) error {
	marks, err := f.Marks()
	if err != nil {
		return fmt.Errorf("svg: %w", err)
	}
	p := &painter{printer: printer{w: bufio.NewWriterSize(w, 64<<10), decimals: FigureDecimals}, height: f.Height}
	p.root(0, 0, f.Width, f.Height)
	p.title(f.Title)
	p.str(`<rect width="`)
	p.num(f.Width)
	p.str(`" height="`)
	p.num(f.Height)
	p.str(`" fill="#ffffff"/>` + "\n")
	for _, m := range marks {
		if len(m.Path) > 0 {
			p.mark(m)
		}
	}
	p.str("</svg>\n")
	return p.w.Flush()
}

// painter writes paths by relative steps between rounded points, so that
// nothing adds up.
type painter struct {
	printer
	height float64
	at     plane.Vec // as the reader has it
}

func (p *painter) mark(m figure.Mark) {
	p.str("<path")
	p.paint("fill", m.Style.Fill)
	if s := m.Style; s.Stroke.A != 0 && s.Width > 0 {
		p.paint("stroke", s.Stroke)
		p.str(` stroke-width="`)
		p.num(s.Width)
		p.str(`" stroke-linejoin="round"`)
		if len(s.Dash) > 0 {
			p.str(` stroke-dasharray="`)
			p.num(s.Dash[0])
			p.nums(s.Dash[1:]...)
			p.str(`"`)
		}
	}
	if m.Label != "" {
		p.str(` aria-label="`)
		p.escaped(m.Label)
		p.str(`"`)
	}
	p.str(` d="`)
	p.at = plane.Vec{}
	for i, s := range m.Path {
		p.segment(m.Path, i, s)
	}
	p.str("\"/>\n")
}

func (p *painter) paint(name string, c figure.Colour) {
	if c.A == 0 {
		p.str(" " + name + `="none"`)
		return
	}
	p.str(fmt.Sprintf(` %s="#%02x%02x%02x"`, name, c.R, c.G, c.B))
	if c.A != 255 {
		p.str(" " + name + `-opacity="` + number.Format(float64(c.A)/255, 3) + `"`)
	}
}

// paper returns a point of the figure in the file's directions, rounded.
func (p *painter) paper(v plane.Vec) plane.Vec {
	return plane.Vec{X: number.Round(v.X, p.decimals), Y: number.Round(p.height-v.Y, p.decimals)}
}

// step writes the way from the current point.
func (p *painter) step(to plane.Vec) {
	p.nums(to.X-p.at.X, to.Y-p.at.Y)
}

func (p *painter) segment(path figure.Path, i int, s figure.Segment) {
	to := p.paper(s.P)
	switch s.Op {
	case figure.MoveTo:
		p.str("M")
		p.num(to.X)
		p.nums(to.Y)
	case figure.LineTo:
		p.str("l")
		p.step(to)
	case figure.QuadTo:
		p.str("q")
		p.step(p.paper(s.C))
		p.step(to)
	case figure.CloseTo:
		p.str("z")
	case figure.ArcTo:
		if i > 0 {
			p.sweep(path[i-1].P, s)
		}
	}
	p.at = to
}

// sweep writes an arc in parts of at most a quarter turn.
func (p *painter) sweep(from plane.Vec, s figure.Segment) {
	n := math.Max(1, math.Ceil(math.Abs(s.Sweep)/(math.Pi/2)-1e-9))
	v := from.Sub(s.C)
	for k := 1.0; k <= n; k++ {
		to := p.paper(s.C.Add(v.Turn(s.Sweep * k / n)))
		if k == n {
			to = p.paper(s.P)
		}
		p.str("a")
		p.num(v.Len())
		p.nums(v.Len())
		if s.Sweep > 0 {
			p.str(" 0 0 0")
		} else {
			p.str(" 0 0 1")
		}
		p.step(to)
		p.at = to
	}
}
