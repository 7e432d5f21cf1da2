package dxf

import (
	"fmt"
	"math"

	"ringtrack/export/figure"
	"ringtrack/gear/plane"
)

// entity is one entity while its groups come in.
type entity struct {
	name   string
	line   int
	layer  string
	x, y   [2]float64 // groups 10, 20 and 11, 21
	z      [2]float64
	r      float64    // 40
	angle  [2]float64 // 50, 51, degrees
	flags  int        // 70
	count  int        // 90, -1 when absent
	paper  bool       // 67
	normal [3]float64 // 210, 220, 230
	vertex []vertex   // of LWPOLYLINE, and of POLYLINE from its VERTEX entities
}

// vertex of a polyline; bulge shapes the way to the next.
type vertex struct{ x, y, z, bulge float64 }

// entities reads the section. VERTEX entities go to the polyline before them.
func (r *reader) entities() error {
	var cur, poly *entity
	for {
		t, err := r.next()
		if err != nil {
			return err
		}
		if t.code != 0 {
			if cur == nil {
				return r.fail("expected an entity, found group %d", t.code)
			}
			if err := r.group(cur, t); err != nil {
				return err
			}
			continue
		}
		if poly, err = r.finish(cur, poly); err != nil {
			return err
		}
		name := string(t.value)
		switch {
		case name == "ENDSEC" && poly == nil:
			return nil
		case poly != nil && name != "VERTEX" && name != "SEQEND":
			return r.fail("expected VERTEX or SEQEND, found %s", quoted(t.value))
		case poly == nil && name == "VERTEX":
			return r.fail("a VERTEX without a POLYLINE")
		case name == "EOF":
			return r.fail("the file ends inside a section")
		}
		cur = &entity{name: name, line: t.line, layer: "0", count: -1, normal: [3]float64{0, 0, 1}}
	}
}

// group takes in one group of an entity.
func (r *reader) group(e *entity, t tag) error {
	var err error
	set := func(to *float64) {
		*to, err = t.real(greatestNumber)
	}
	lw := e.name == "LWPOLYLINE"
	switch t.code {
	case 8:
		e.layer = string(t.value)
	case 10:
		if lw {
			return r.addVertex(e, t)
		}
		set(&e.x[0])
	case 20:
		if lw && len(e.vertex) > 0 {
			set(&e.vertex[len(e.vertex)-1].y)
			break
		}
		set(&e.y[0])
	case 42:
		switch {
		case lw && len(e.vertex) > 0:
			set(&e.vertex[len(e.vertex)-1].bulge)
		case e.name == "VERTEX":
			set(&e.r)
		}
	case 11, 21, 30, 31, 40, 50, 51:
		if place := e.number(t.code); place != nil {
			set(place)
		}
	case 210, 220, 230:
		set(&e.normal[(t.code-210)/10])
	case 67:
		e.paper = t.is("1")
	case 70:
		if e.name == "LWPOLYLINE" || e.name == "POLYLINE" || e.name == "VERTEX" {
			e.flags, err = t.int()
		}
	case 90:
		if lw {
			if e.count, err = t.int(); err == nil && (e.count < 0 || e.count > r.lim.Pieces) {
				return r.fail("a polyline of %d vertices; at most %d are read", e.count, r.lim.Pieces)
			}
		}
	}
	return err
}

// number returns where the group's number belongs in the kinds that are read.
func (e *entity) number(code int) *float64 {
	switch e.name {
	case "LINE", "VERTEX", "CIRCLE", "ARC", "POLYLINE":
	default:
		return nil
	}
	switch code {
	case 11:
		return &e.x[1]
	case 21:
		return &e.y[1]
	case 30:
		return &e.z[0]
	case 31:
		return &e.z[1]
	case 40:
		if e.name != "VERTEX" { // there it is a width, and r holds the bulge
			return &e.r
		}
	case 50:
		return &e.angle[0]
	case 51:
		return &e.angle[1]
	}
	return nil
}

func (r *reader) addVertex(e *entity, t tag) error {
	x, err := t.real(greatestNumber)
	if err != nil {
		return err
	}
	e.vertex = append(e.vertex, vertex{x: x})
	return r.more(1)
}

// more counts pieces and refuses too many.
func (r *reader) more(n int) error {
	if r.pieces += n; r.pieces > r.lim.Pieces {
		return r.fail("more than %d lines and arcs", r.lim.Pieces)
	}
	return nil
}

// finish takes in a complete entity; it returns the polyline whose vertices
// are still to come, if any.
func (r *reader) finish(e, poly *entity) (*entity, error) {
	if e == nil {
		return nil, nil
	}
	switch e.name {
	case "VERTEX":
		poly.vertex = append(poly.vertex, vertex{e.x[0], e.y[0], e.z[0], e.r})
		return poly, r.more(1)
	case "SEQEND":
		if poly == nil {
			return nil, nil
		}
		return nil, r.add(poly)
	case "POLYLINE":
		return e, nil
	}
	return nil, r.add(e)
}

// add turns an entity into pieces, or counts it among what is not read.
func (r *reader) add(e *entity) error {
	switch e.name {
	case "LINE", "ARC", "CIRCLE", "LWPOLYLINE", "POLYLINE":
	case "TEXT", "MTEXT", "POINT", "DIMENSION", "LEADER", "MULTILEADER", "MLEADER", "TOLERANCE",
		"ATTDEF", "ATTRIB", "VIEWPORT", "HATCH", "SEQEND":
		r.skipped[e.name]++
		return nil
	default:
		return r.refuse(e, e.name)
	}
	if e.paper {
		r.skipped["entity of the paper"]++
		return nil
	}
	if e.name == "POLYLINE" {
		switch {
		case e.flags&4 != 0:
			return r.refuse(e, "spline-fitted POLYLINE")
		case e.flags&(16|64) != 0:
			return r.refuse(e, "mesh POLYLINE")
		}
	}
	mirror, err := e.mirrored()
	if err != nil {
		return err
	}
	c := chain{layer: e.layer, line: e.line}
	if err := e.pieces(&c); err != nil {
		return err
	}
	if mirror {
		m := plane.Turned(math.Pi).Then(plane.Mirrored())
		for i, p := range c.pieces {
			c.pieces[i] = p.Map(m)
		}
	}
	if len(c.pieces) > 0 {
		r.chains = append(r.chains, c)
	}
	if e.vertex == nil {
		return r.more(1)
	}
	return nil
}

// refuse counts what cannot be read; the message comes at the end, with all of it.
func (r *reader) refuse(e *entity, kind string) error {
	if len(r.refused) == 0 {
		r.refusedAt = e.line
	}
	if len(kind) > 40 {
		kind = kind[:40]
	}
	if r.refused[kind]++; len(r.refused) > 1000 {
		return &Error{e.line, "this is not a drawing: more than 1000 unknown kinds of entities"}
	}
	return nil
}

// mirrored reports whether the entity is drawn seen from below. Lines are
// always given in the drawing's own directions.
func (e *entity) mirrored() (bool, error) {
	n := e.normal
	if e.name == "LINE" || n[0] == 0 && n[1] == 0 && n[2] > 0 {
		return false, nil
	}
	if n[0] == 0 && n[1] == 0 && n[2] < 0 {
		return true, nil
	}
	return false, &Error{e.line, fmt.Sprintf("%s is tilted out of the plane", e.name)}
}

// pieces fills the chain from the entity.
func (e *entity) pieces(c *chain) error {
	fail := func(format string, args ...any) error {
		return &Error{e.line, e.name + " " + fmt.Sprintf(format, args...)}
	}
	a := plane.Vec{X: e.x[0], Y: e.y[0]}
	switch e.name {
	case "LINE":
		b := plane.Vec{X: e.x[1], Y: e.y[1]}
		if e.z[0] != e.z[1] {
			return fail("leaves the plane")
		}
		if a != b {
			c.pieces = append(c.pieces, plane.Line{A: a, B: b})
		}
		return nil
	case "CIRCLE", "ARC":
		if !(e.r > 0) {
			return fail("has the radius %g", e.r)
		}
		arc := plane.Circle(a, e.r)
		c.closed = e.name == "CIRCLE"
		if !c.closed {
			arc.A0 = math.Mod(e.angle[0], 360) * math.Pi / 180
			arc.Sweep = turn(e.angle[0], e.angle[1]) * math.Pi / 180
			c.closed = arc.Sweep == 2*math.Pi
		}
		c.pieces = append(c.pieces, arc)
		return nil
	}
	if e.count >= 0 && e.count != len(e.vertex) {
		return fail("promises %d vertices and has %d", e.count, len(e.vertex))
	}
	for _, v := range e.vertex {
		if v.z != e.vertex[0].z {
			return fail("leaves the plane")
		}
	}
	c.closed = e.flags&1 != 0
	c.pieces = polyPieces(e.vertex, c.closed)
	return nil
}

// turn returns the way from one angle to another counter-clockwise, degrees,
// in (0, 360].
func turn(from, to float64) float64 {
	d := math.Mod(to-from, 360)
	if d <= 0 {
		d += 360
	}
	return d
}

// leastBulge: an arc of a smaller bulge leaves its chord by less than the
// rounding of its own far centre, so it is a line.
const leastBulge = 1e-8

// polyPieces returns the pieces between the vertices; equal neighbours have none.
func polyPieces(vs []vertex, closed bool) []plane.Piece {
	n := len(vs)
	if !closed {
		n--
	}
	out := make([]plane.Piece, 0, max(n, 0))
	for i := 0; i < n; i++ {
		v, w := vs[i], vs[(i+1)%len(vs)]
		a, b := plane.Vec{X: v.x, Y: v.y}, plane.Vec{X: w.x, Y: w.y}
		switch {
		case a == b:
		case math.Abs(v.bulge) < leastBulge:
			out = append(out, plane.Line{A: a, B: b})
		default:
			out = append(out, figure.ArcBetween(a, b, 4*math.Atan(v.bulge)))
		}
	}
	return out
}
