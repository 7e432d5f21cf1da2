package dxf

import (
	"bufio"
	"fmt"
	"io"
	"sort"
	"strings"

	"ringtrack/export/figure"
	"ringtrack/gear/plane"
)

// Limits of Read. A zero field takes its default.
type Limits struct {
	Join   float64 // mm, ends closer than this are joined; 0 is DefaultJoin
	Unit   float64 // mm to a drawing unit where the file names none, not even in the comment of Write; 0 is 1
	Extent float64 // mm, greatest coordinate and radius; 0 is DefaultExtent
	Bytes  int64   // greatest size of the file; 0 is DefaultBytes
	Pieces int     // most lines and arcs in all; 0 is DefaultPieces
}

const (
	// DefaultJoin in mm is the rounding of files with three decimals, at both
	// ends and in both directions, with a margin of two.
	DefaultJoin    = 0.003
	DefaultExtent  = 1e6
	DefaultBytes   = 256 << 20
	DefaultPieces  = 2_000_000
	greatestNumber = 1e12 // of any number in a file, before its unit is known
)

func (l Limits) filled() (Limits, error) {
	for _, f := range []struct {
		v    *float64
		name string
		def  float64
	}{{&l.Join, "Join", DefaultJoin}, {&l.Unit, "Unit", 1}, {&l.Extent, "Extent", DefaultExtent}} {
		if *f.v == 0 {
			*f.v = f.def
		}
		if !(*f.v >= 1e-9 && *f.v <= 1e9) {
			return l, fmt.Errorf("dxf: limit %s is %g; 1e-9 to 1e9 is allowed", f.name, *f.v)
		}
	}
	if l.Bytes == 0 {
		l.Bytes = DefaultBytes
	}
	if l.Pieces == 0 {
		l.Pieces = DefaultPieces
	}
	return l, nil
}

// Result is what a file holds.
type Result struct {
	// Drawing has the closed outlines in mm, each of Fold 1 and made of lines
	// and arcs, in its own direction, in the order of the file; and the file's
	// comments.
	Drawing
	Version string  // as the file names it, such as AC1015; empty when it does not
	Unit    string  // the unit's name
	Scale   float64 // mm to a drawing unit
	Assumed bool    // the file names no unit, or in a comment alone
	Remarks []string
}

// Read reads the closed outlines of a drawing.
//
// Errors: *Error with the line for a file that is not DXF text, breaks off,
// holds something that is not a number, exceeds a limit, has an outline that
// is open or branches, or holds entities that Read does not understand; those
// are named with their number.
func Read(r io.Reader, lim Limits) (*Result, error) {
	lim, err := lim.filled()
	if err != nil {
		return nil, err
	}
	rd := &reader{
		scanner: scanner{r: bufio.NewReaderSize(r, longestLine), left: lim.Bytes},
		lim:     lim, skipped: map[string]int{}, refused: map[string]int{},
	}
	if err := rd.sections(); err != nil {
		return nil, err
	}
	return rd.result()
}

// reader gathers what the sections hold, in drawing units.
type reader struct {
	scanner
	lim       Limits
	version   string
	units     int // $INSUNITS, 0 when absent
	inches    bool
	chains    []chain
	pieces    int
	skipped   map[string]int
	refused   map[string]int
	refusedAt int
}

// chain is a run of pieces as an entity gave it.
type chain struct {
	pieces []plane.Piece
	closed bool
	layer  string
	line   int
}

func (r *reader) sections() error {
	for {
		t, err := r.next()
		if err != nil {
			return err
		}
		if t.code != 0 {
			return r.fail("expected the start of a section, found group %d", t.code)
		}
		if t.is("EOF") {
			return nil
		}
		if !t.is("SECTION") {
			return r.fail("expected SECTION or EOF, found %s", quoted(t.value))
		}
		if t, err = r.next(); err != nil {
			return err
		}
		switch {
		case t.code == 2 && t.is("HEADER"):
			err = r.header()
		case t.code == 2 && t.is("ENTITIES"):
			err = r.entities()
		default:
			err = r.skipSection()
		}
		if err != nil {
			return err
		}
	}
}

func (r *reader) skipSection() error {
	for {
		t, err := r.next()
		if err != nil || t.code == 0 && t.is("ENDSEC") {
			return err
		}
		if t.code == 0 && t.is("EOF") {
			return r.fail("the file ends inside a section")
		}
	}
}

func (r *reader) header() error {
	variable := ""
	for {
		t, err := r.next()
		if err != nil || t.code == 0 {
			return err
		}
		switch {
		case t.code == 9:
			variable = string(t.value)
		case variable == "$ACADVER" && t.code == 1:
			r.version = string(t.value)
		case variable == "$INSUNITS" && t.code == 70:
			if r.units, err = t.int(); err != nil {
				return err
			}
		case variable == "$MEASUREMENT" && t.code == 70:
			r.inches = t.is("0")
		}
	}
}

// unit is a drawing unit of $INSUNITS.
type unit struct {
	name string
	mm   float64
}

func unitOf(code int) (unit, bool) {
	u, ok := map[int]unit{
		1: {"inch", 25.4}, 2: {"foot", 304.8}, 3: {"mile", 1609344}, 4: {"millimetre", 1}, 5: {"centimetre", 10},
		6: {"metre", 1000}, 7: {"kilometre", 1e6}, 8: {"microinch", 25.4e-6}, 9: {"thousandth of an inch", 25.4e-3},
		10: {"yard", 914.4}, 12: {"nanometre", 1e-6}, 13: {"micrometre", 1e-3}, 14: {"decimetre", 100},
	}[code]
	return u, ok
}

// result converts to mm, chains and reports.
func (r *reader) result() (*Result, error) {
	if len(r.refused) > 0 {
		return nil, &Error{r.refusedAt, "the drawing holds what is not read: " + counted(r.refused) + "; lines, arcs, circles and polylines are"}
	}
	res := &Result{Version: r.version}
	res.Notes = r.notes
	switch u, ok := unitOf(r.units); {
	case ok:
		res.Unit, res.Scale = u.name, u.mm
	case r.units == 0 && len(r.notes) > 0 && r.notes[0] == unitComment(Inch):
		res.Unit, res.Scale, res.Assumed = Inch.String(), Inch.mm(), true
		res.Remarks = append(res.Remarks, "the file names its unit in a comment alone: "+res.Unit)
	case r.units == 0:
		res.Unit, res.Scale, res.Assumed = unitName(r.lim.Unit), r.lim.Unit, true
		res.Remarks = append(res.Remarks, "the file names no unit: read as "+res.Unit)
		if r.inches {
			res.Remarks = append(res.Remarks, "its $MEASUREMENT says that it was drawn for inches")
		}
	default:
		return nil, &Error{r.line, fmt.Sprintf("$INSUNITS %d is not a unit that is read", r.units)}
	}
	if len(r.skipped) > 0 {
		res.Remarks = append(res.Remarks, "left out: "+counted(r.skipped))
	}
	return res, r.outlines(res)
}

func unitName(mm float64) string {
	switch mm {
	case 1:
		return "millimetre"
	case 25.4:
		return "inch"
	}
	return fmt.Sprintf("%g mm", mm)
}

// outlines closes what is closed, and chains the rest.
func (r *reader) outlines(res *Result) error {
	var loose []chain
	for _, c := range r.chains {
		if err := c.toMillimetres(res.Scale, r.lim.Extent); err != nil {
			return err
		}
		if !c.closed {
			loose = append(loose, c)
			continue
		}
		loop, err := figure.Close(c.pieces, r.lim.Join)
		if err != nil {
			return &Error{c.line, err.Error()}
		}
		res.Outlines = append(res.Outlines, figure.Outline{Layer: figure.Layer(c.layer), Loop: loop, Line: c.line})
	}
	chained, err := join(loose, r.lim.Join)
	if err != nil {
		return err
	}
	res.Outlines = append(res.Outlines, chained...)
	if len(chained) > 0 {
		sort.SliceStable(res.Outlines, func(i, j int) bool { return res.Outlines[i].Line < res.Outlines[j].Line })
	}
	if len(res.Outlines) == 0 {
		return &Error{r.line, "the drawing holds no outline"}
	}
	return nil
}

// toMillimetres scales the chain in place.
func (c chain) toMillimetres(scale, extent float64) error {
	m := plane.Scaled(scale)
	for i, p := range c.pieces {
		if scale != 1 {
			p = p.Map(m)
			c.pieces[i] = p
		}
		b := p.Box()
		if !(b.Min.X >= -extent && b.Min.Y >= -extent && b.Max.X <= extent && b.Max.Y <= extent) {
			return &Error{c.line, fmt.Sprintf("a coordinate is outside -%g..%g mm", extent, extent)}
		}
	}
	return nil
}

// counted lists names with their numbers, in order of the alphabet.
func counted(m map[string]int) string {
	var names []string
	for n := range m {
		names = append(names, n)
	}
	sort.Strings(names)
	for i, n := range names {
		names[i] = fmt.Sprintf("%d %s", m[n], n)
	}
	if len(names) > 10 {
		names = append(names[:10], fmt.Sprintf("%d other kinds", len(names)-10))
	}
	return strings.Join(names, ", ")
}
