package svg

import (
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"sort"
	"strings"

	"ringtrack/export/figure"
)

// Limits of Read. A zero field takes its default.
type Limits struct {
	Chord  float64 // mm, curves other than circular arcs become chords within this; 0 is DefaultChord
	Join   float64 // mm, ends of open runs of a path this close are joined; 0 is DefaultJoin
	Unit   float64 // mm to a user unit where the file gives no size in real units; 0 is DefaultUnit
	Extent float64 // mm, greatest coordinate; 0 is DefaultExtent
	Bytes  int64   // greatest size of the file; 0 is DefaultBytes
	Pieces int     // most lines and arcs in all; 0 is DefaultPieces
}

const (
	// DefaultJoin in mm is the rounding of files with three decimals, at both
	// ends and in both directions, with a margin of two.
	DefaultJoin = 0.003
	// DefaultUnit is the px of the standard, 96 to the inch.
	DefaultUnit   = 25.4 / 96
	DefaultExtent = 1e6
	DefaultBytes  = 32 << 20
	DefaultPieces = 2_000_000
)

const (
	deepest   = 200 // elements in elements
	mostNotes = 100
	longNote  = 10_000 // bytes
)

func (l Limits) filled() (Limits, error) {
	for _, f := range []struct {
		v    *float64
		name string
		def  float64
	}{{&l.Chord, "Chord", DefaultChord}, {&l.Join, "Join", DefaultJoin}, {&l.Unit, "Unit", DefaultUnit}, {&l.Extent, "Extent", DefaultExtent}} {
		if *f.v == 0 {
			*f.v = f.def
		}
		if !(*f.v >= 1e-9 && *f.v <= 1e9) {
			return l, fmt.Errorf("svg: limit %s is %g; 1e-9 to 1e9 is allowed", f.name, *f.v)
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

// Error says what is wrong with a file and where.
type Error struct {
	Line int // counted from 1
	Text string
}

func (e *Error) Error() string { return fmt.Sprintf("svg: line %d: %s", e.Line, e.Text) }

// Result is what a file holds.
type Result struct {
	// Drawing has the closed outlines in mm, y upward, about the file's
	// origin, each of Fold 1 and made of lines and arcs, in the order of the
	// file. An outline's layer is its class, else the id of the nearest group.
	// Notes are the titles, descriptions and metadata.
	Drawing
	Scale   float64 // mm to a user unit
	Assumed bool    // the file gives no size in real units
	Remarks []string
}

// Read reads the closed outlines of a file.
//
// Errors: *Error with the line for a file that is not SVG, breaks off, exceeds
// a limit, has a path that is open, or uses what Read does not understand;
// elements of that kind are named with their number.
func Read(r io.Reader, lim Limits) (*Result, error) {
	lim, err := lim.filled()
	if err != nil {
		return nil, err
	}
	rd := &reader{
		dec:   xml.NewDecoder(&limited{r: r, left: lim.Bytes}),
		lim:   lim,
		left:  lim.Pieces,
		seen:  map[string]int{},
		named: map[string]int{},
	}
	rd.dec.CharsetReader = charset
	if err := rd.document(); err != nil {
		return nil, rd.located(err)
	}
	return rd.finish()
}

var errTooLarge = errors.New("the file is larger than allowed")

// mostAttributes in one tag: the decoder gathers them all before it hands over
// the element, so they are counted before it sees them.
const mostAttributes = 10_000

var errAttributes = fmt.Errorf("more than %d attributes in one element", mostAttributes)

// limited hands out a limited number of bytes and of equals signs between
// angle brackets.
type limited struct {
	r      io.Reader
	left   int64
	equals int
}

func (l *limited) Read(b []byte) (int, error) {
	if l.left <= 0 {
		return 0, errTooLarge
	}
	if int64(len(b)) > l.left {
		b = b[:l.left]
	}
	n, err := l.r.Read(b)
	l.left -= int64(n)
	for _, c := range b[:n] {
		switch c {
		case '=':
			if l.equals++; l.equals > mostAttributes {
				return 0, errAttributes
			}
		case '<', '>':
			l.equals = 0
		}
	}
	return n, err
}

func charset(name string, r io.Reader) (io.Reader, error) {
	switch strings.ToLower(name) {
	case "us-ascii", "ascii":
		return r, nil
	}
	return nil, fmt.Errorf("the encoding %q is not read; save the file as UTF-8", name)
}

// reader walks through the document.
type reader struct {
	dec   *xml.Decoder
	lim   Limits
	left  int
	res   Result
	stack []state
	seen  map[string]int // skipped, by name
	named map[string]int // refused, by name
	first int            // line of the first refused
}

// state is what an element passes on to those in it.
type state struct {
	m     affine
	layer string
}

func (r *reader) line() int {
	n, _ := r.dec.InputPos()
	return n
}

// located gives an error the line that was reached.
func (r *reader) located(err error) error {
	var syntax *xml.SyntaxError
	var own *Error
	switch {
	case errors.As(err, &own):
		return err
	case errors.As(err, &syntax):
		return &Error{syntax.Line, syntax.Msg}
	case err == io.EOF || err == io.ErrUnexpectedEOF:
		return &Error{r.line(), "the file breaks off"}
	}
	return &Error{r.line(), err.Error()}
}

func (r *reader) document() error {
	root := false
	for {
		tok, err := r.dec.Token()
		if err == io.EOF {
			if !root {
				return fmt.Errorf("there is no svg element")
			}
			return nil
		}
		if err != nil {
			return err
		}
		switch tok := tok.(type) {
		case xml.Directive:
			if d := strings.ToUpper(string(tok)); strings.Contains(d, "[") || strings.Contains(d, "ENTITY") {
				return fmt.Errorf("a document type with entities is not read")
			}
		case xml.StartElement:
			if !root {
				root = true
				if tok.Name.Local != "svg" {
					return fmt.Errorf("the document is %q, not svg", clip(tok.Name.Local))
				}
				if err := r.root(attributes(tok)); err != nil {
					return err
				}
				break
			}
			if err := r.element(tok); err != nil {
				return err
			}
		case xml.EndElement:
			if len(r.stack) > 0 {
				r.stack = r.stack[:len(r.stack)-1]
			}
		}
	}
}

// attributes by their local names; those of foreign namespaces are left out.
func attributes(e xml.StartElement) map[string]string {
	m := make(map[string]string, len(e.Attr))
	for _, a := range e.Attr {
		if a.Name.Space == "" {
			m[a.Name.Local] = a.Value
		}
	}
	return m
}

const namespace = "http://www.w3.org/2000/svg"

// element takes in an element; unless it pushes a state, it reads to its end.
func (r *reader) element(e xml.StartElement) error {
	name := e.Name.Local
	if e.Name.Space != "" && e.Name.Space != namespace {
		return r.skip()
	}
	if len(r.stack) == 0 {
		return fmt.Errorf("an element after the end of the drawing")
	}
	switch name {
	case "title", "desc", "metadata":
		return r.note()
	case "defs", "symbol", "clipPath", "mask", "pattern", "marker", "linearGradient", "radialGradient", "filter":
		return r.skip()
	case "text", "image", "script":
		r.seen[name]++
		return r.skip()
	case "style":
		return r.style()
	case "g", "a", "path", "rect", "circle", "ellipse", "polygon", "polyline", "line":
	default:
		r.refuse(name)
		return r.skip()
	}
	attr := attributes(e)
	if hidden(attr) {
		r.seen["hidden element"]++
		return r.skip()
	}
	s, err := r.inner(attr)
	if err != nil {
		return err
	}
	if name == "g" || name == "a" {
		if len(r.stack) >= deepest {
			return errDeep
		}
		if id := attr["id"]; id != "" {
			s.layer = id
		}
		r.stack = append(r.stack, s)
		return nil
	}
	if err := r.outline(name, attr, s); err != nil {
		return err
	}
	return r.skip()
}

// skip reads to the end of the element at hand.
func (r *reader) skip() error {
	return r.within(func(xml.CharData) {})
}

// within hands over the text up to the end of the element at hand.
func (r *reader) within(text func(xml.CharData)) error {
	for depth := 1; depth > 0; {
		tok, err := r.dec.Token()
		if err != nil {
			return err
		}
		switch tok := tok.(type) {
		case xml.StartElement:
			if depth++; depth > deepest {
				return errDeep
			}
		case xml.EndElement:
			depth--
		case xml.CharData:
			text(tok)
		}
	}
	return nil
}

var errDeep = fmt.Errorf("more than %d elements in each other", deepest)

// refuse counts an element that is not understood; the message comes at the
// end, with all of them.
func (r *reader) refuse(name string) {
	if len(r.named) == 0 {
		r.first = r.line()
	}
	if name = clip(name); len(r.named) >= 100 {
		name = "other"
	}
	r.named[name]++
}

func hidden(attr map[string]string) bool {
	style := strings.ReplaceAll(attr["style"], " ", "")
	return attr["display"] == "none" || attr["visibility"] == "hidden" ||
		strings.Contains(style, "display:none") || strings.Contains(style, "visibility:hidden")
}

// inner returns the state within an element.
func (r *reader) inner(attr map[string]string) (state, error) {
	s := r.stack[len(r.stack)-1]
	if strings.Contains(attr["style"], "transform") || attr["transform-origin"] != "" {
		return s, fmt.Errorf("a transform in a style, or about an origin of its own, is not read")
	}
	if attr["clip-path"] != "" || attr["mask"] != "" {
		r.seen["clip or mask"]++
	}
	m, err := transform(attr["transform"])
	if err != nil {
		return s, err
	}
	if s.m = s.m.then(m); !s.m.finite() {
		return s, fmt.Errorf("the transforms together are too large")
	}
	return s, nil
}

func (r *reader) outline(name string, attr map[string]string, s state) error {
	t := tracer{m: s.m, chord: r.lim.Chord, join: r.lim.Join, extent: r.lim.Extent, left: &r.left}
	line := r.line()
	err := t.shape(name, attr)
	if err == nil {
		err = t.closed()
	}
	if err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	layer := s.layer
	if c := strings.Fields(attr["class"]); len(c) > 0 {
		layer = c[0]
	}
	for _, l := range t.loops {
		r.res.Outlines = append(r.res.Outlines, figure.Outline{Layer: figure.Layer(layer), Loop: l, Line: line})
	}
	return nil
}

// note keeps an element's text.
func (r *reader) note() error {
	var b strings.Builder
	err := r.within(func(text xml.CharData) {
		if b.Len()+len(text) <= longNote {
			b.Write(text)
		}
	})
	if err != nil {
		return err
	}
	if s := strings.TrimSpace(b.String()); s != "" && len(r.res.Notes) < mostNotes {
		r.res.Notes = append(r.res.Notes, s)
	}
	return nil
}

// style refuses style sheets that move or hide outlines.
func (r *reader) style() error {
	for {
		tok, err := r.dec.Token()
		if err != nil {
			return err
		}
		switch tok := tok.(type) {
		case xml.EndElement:
			return nil
		case xml.StartElement:
			return fmt.Errorf("an element in a style sheet")
		case xml.CharData:
			s := string(tok)
			for _, word := range []string{"transform", "display", "visibility"} {
				if strings.Contains(s, word) {
					return fmt.Errorf("a style sheet with %q is not read", word)
				}
			}
		}
	}
}

func (r *reader) finish() (*Result, error) {
	if len(r.named) > 0 {
		return nil, &Error{r.first, "the file holds what is not read: " + counted(r.named)}
	}
	if len(r.res.Outlines) == 0 {
		return nil, &Error{r.line(), "the file holds no outline"}
	}
	if len(r.seen) > 0 {
		r.res.Remarks = append(r.res.Remarks, "left out: "+counted(r.seen))
	}
	return &r.res, nil
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
