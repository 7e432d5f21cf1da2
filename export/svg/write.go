package svg

import (
	"bufio"
	"encoding/xml"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"ringtrack/export/figure"
	"ringtrack/export/number"
	"ringtrack/gear/plane"
)

// Drawing is what a file holds: outlines by layer, and notes.
type Drawing = figure.Drawing

// Options of Write. The zero value is the default.
type Options struct {
	// Arc is the greatest distance in mm of an arc from the smooth piece that it
	// stands for; 0 is DefaultArc. At least plane.LeastArcTolerance.
	Arc float64
	// Chord, if not 0, asks for straight chords instead of arcs, with their ends
	// on the curve: the greatest distance in mm. At least figure.MinChord. Not
	// together with Arc.
	Chord float64
	// Decimals of every coordinate, 3..9; 0 is DefaultDecimals.
	Decimals int
	// Margin is the least paper around the outlines, mm; 0 is DefaultMargin.
	// The paper's edges are whole millimetres.
	Margin float64
	// Title is the document's title; empty is none.
	Title string
}

const (
	// DefaultArc and DefaultChord in mm: see the same constants of package dxf.
	DefaultArc   = 0.002
	DefaultChord = 0.005
	// DefaultDecimals keeps a vertex within 1e-6 mm of its true place.
	DefaultDecimals = 6
	// DefaultMargin in mm keeps the stroke on the paper.
	DefaultMargin = 1
)

// stroke is the drawn width of an outline in mm: cutters that tell lines to
// cut from lines to engrave by their width take this for a line to cut.
const stroke = 0.1

func (o Options) filled() (Options, error) {
	if o.Chord != 0 && o.Arc != 0 {
		return o, fmt.Errorf("tolerances for arcs and for chords; smooth pieces become one or the other")
	}
	if o.Chord == 0 && o.Arc == 0 {
		o.Arc = DefaultArc
	}
	if o.Decimals == 0 {
		o.Decimals = DefaultDecimals
	}
	if o.Margin == 0 {
		o.Margin = DefaultMargin
	}
	if o.Decimals < 3 || o.Decimals > 9 {
		return o, fmt.Errorf("%d decimals; 3 to 9 are allowed", o.Decimals)
	}
	if !(o.Margin >= 0 && o.Margin <= 1000) {
		return o, fmt.Errorf("a margin of %g mm; 0 to 1000 is allowed", o.Margin)
	}
	return o, nil
}

// colours of the strokes by layer: dark, and apart from each other in grey too.
var colours = map[figure.Layer]string{
	figure.CutOutside: "#000000", figure.CutInside: "#b00020", figure.Engrave: "#1f4fd8",
	figure.Notes: "#707070", figure.Reference: "#2e8b57",
}

// Write writes the drawing at true size in mm, the outlines in their order. It
// buffers, reports the first write error and does not close w.
//
// Errors, before the first byte: an outline that does not close or has a
// coordinate that is not a number, a bridge off its outline, a layer with characters other than letters,
// digits, _ - and $, a drawing without outlines, options out of range.
func Write(w io.Writer, d Drawing, opt Options) error {
	opt, err := opt.filled()
	if err != nil {
		return fmt.Errorf("svg: %w", err)
	}
	if len(d.Outlines) == 0 {
		return fmt.Errorf("svg: the drawing has no outlines")
	}
	fine := figure.Fineness{Arc: opt.Arc, Chord: opt.Chord, Sweep: math.Pi / 2, Decimals: opt.Decimals}
	courses := make([][]figure.Course, len(d.Outlines))
	box := plane.NoBox()
	for i, o := range d.Outlines {
		if err := checkLayer(o.Layer); err != nil {
			return fmt.Errorf("svg: outline %d: %w", i, err)
		}
		if courses[i], err = figure.Courses(o, fine); err != nil {
			return fmt.Errorf("svg: outline %d on layer %s: %w", i, o.Layer, err)
		}
		for _, c := range courses[i] {
			box = box.Union(figure.Box(c.Steps))
		}
	}
	p := &printer{w: bufio.NewWriterSize(w, 64<<10), decimals: opt.Decimals}
	p.head(box, d.Notes, opt)
	for i, o := range d.Outlines {
		p.outline(i, o.Layer, courses[i])
	}
	p.str("</svg>\n")
	return p.w.Flush()
}

// checkLayer admits names that can stand in an id and in a class.
func checkLayer(l figure.Layer) error {
	for i, r := range string(l) {
		letter := r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z'
		if !letter && (i == 0 || !(r >= '0' && r <= '9') && !strings.ContainsRune("_-$", r)) {
			return fmt.Errorf("layer name %q: a letter, then letters, digits, _ - and $ are allowed", string(l))
		}
	}
	if l == "" {
		return fmt.Errorf("a layer without a name")
	}
	return nil
}

// printer writes text and numbers; the first write error sticks to the buffer.
type printer struct {
	w        *bufio.Writer
	decimals int
	buf      []byte
}

func (p *printer) str(s string) { p.w.WriteString(s) }

func (p *printer) num(v float64) {
	p.buf = number.Append(p.buf[:0], v, p.decimals)
	p.w.Write(p.buf)
}

// nums writes numbers, a blank before each.
func (p *printer) nums(vs ...float64) {
	for _, v := range vs {
		p.w.WriteByte(' ')
		p.num(v)
	}
}

// escaped writes text so that it stands in an element or an attribute; what no
// XML file may hold becomes a replacement character.
func (p *printer) escaped(s string) {
	xml.EscapeText(p.w, []byte(s)) // its error sticks to the buffer too
}

func (p *printer) head(box plane.Box, notes []string, opt Options) {
	left, top := math.Floor(box.Min.X-opt.Margin), math.Floor(-box.Max.Y-opt.Margin)
	w, h := math.Ceil(box.Max.X+opt.Margin)-left, math.Ceil(-box.Min.Y+opt.Margin)-top
	p.root(left, top, w, h)
	p.title(opt.Title)
	p.str("<metadata>ringtrack outlines. Unit: millimetre. True size. Tolerance: ")
	if opt.Arc > 0 {
		p.str("arcs leave smooth curves by at most " + number.Format(opt.Arc, 7) + " mm and join without a corner; their ends lie on them. Lines and other arcs are exact.")
	} else {
		p.str("chords leave smooth curves by at most " + number.Format(opt.Chord, 7) + " mm; vertices lie on them. Lines and arcs are exact.")
	}
	p.str("</metadata>\n")
	for _, n := range notes {
		p.str("<desc>")
		p.escaped(n)
		p.str("</desc>\n")
	}
}

func (p *printer) root(left, top, w, h float64) {
	p.str(`<?xml version="1.0" encoding="UTF-8"?>` + "\n")
	p.str(`<svg xmlns="http://www.w3.org/2000/svg" version="1.1" width="`)
	p.num(w)
	p.str(`mm" height="`)
	p.num(h)
	p.str(`mm" viewBox="`)
	p.num(left)
	p.nums(top, w, h)
	p.str("\">\n")
}

func (p *printer) title(s string) {
	if s != "" {
		p.str("<title>")
		p.escaped(s)
		p.str("</title>\n")
	}
}

// outline writes one path; its bridges are gaps between subpaths.
func (p *printer) outline(i int, l figure.Layer, courses []figure.Course) {
	colour := colours[l]
	if colour == "" {
		colour = "#000000"
	}
	p.str(`<path id="` + string(l) + "-" + strconv.Itoa(i+1) + `" class="` + string(l) + `" fill="none" stroke="` + colour + `" stroke-width="`)
	p.num(stroke)
	p.str(`" d="`)
	for k, c := range courses {
		if k > 0 {
			p.str(" ")
		}
		p.course(c)
	}
	p.str("\"/>\n")
}

func (p *printer) course(c figure.Course) {
	n := len(c.Steps)
	p.str("M")
	p.nums(c.Steps[0].At.X, -c.Steps[0].At.Y)
	for k, s := range c.Steps {
		to := c.Steps[(k+1)%n].At
		switch {
		case s.Sweep == 0 && k+1 == n: // Z draws it; an open course ends here
		case s.Sweep == 0:
			p.str(" L")
			p.nums(to.X, -to.Y)
		default:
			p.arc(s, to)
		}
	}
	if c.Closed {
		p.str(" Z")
	}
}

// arc writes an arc of at most a quarter turn. Seen on paper, y downward, a
// turn to the left is against the direction of growing angles: flag 0.
func (p *printer) arc(s figure.Step, to plane.Vec) {
	p.str(" A")
	p.nums(s.R, s.R)
	if s.Sweep > 0 {
		p.str(" 0 0 0")
	} else {
		p.str(" 0 0 1")
	}
	p.nums(to.X, -to.Y)
}
