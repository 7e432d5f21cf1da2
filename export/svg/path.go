package svg

import (
	"fmt"
	"math"

	"ringtrack/export/figure"
	"ringtrack/gear/plane"
)

// tracer turns path commands into pieces in mm.
type tracer struct {
	m           affine // user units to mm, y upward
	chord, join float64
	extent      float64
	left        *int // pieces that the file may still hold

	start, at plane.Vec // of the subpath, in user units
	control   plane.Vec // the last curve's last control point
	last      byte      // last command, in upper case
	pieces    []plane.Piece
	run       []plane.Piece // of subpaths that are open yet
	loops     []plane.Loop
}

// path reads the d attribute whole.
func (t *tracer) path(d string) error {
	l := lexer{s: d}
	l.blanks()
	var cmd byte
	for first := true; !l.done(); first = false {
		if c := l.s[l.at]; c >= 'A' && c <= 'Z' || c >= 'a' && c <= 'z' {
			cmd = c
			l.at++
			l.blanks()
		} else if cmd == 0 || cmd == 'Z' || cmd == 'z' {
			return fmt.Errorf("expected a path command, found %s", l.rest())
		}
		if first && cmd != 'M' && cmd != 'm' {
			return fmt.Errorf("a path begins with M, not with %c", cmd)
		}
		if err := t.command(&l, cmd); err != nil {
			return fmt.Errorf("path command %c at character %d: %w", cmd, l.at+1, err)
		}
		switch cmd { // further pairs after M are lines
		case 'M':
			cmd = 'L'
		case 'm':
			cmd = 'l'
		}
	}
	return t.end()
}

// arity is how many numbers a command takes.
func arity(cmd byte) int {
	switch cmd {
	case 'M', 'L', 'T':
		return 2
	case 'H', 'V':
		return 1
	case 'C':
		return 6
	case 'S', 'Q':
		return 4
	case 'A':
		return 7
	case 'Z':
		return 0
	}
	return -1
}

func (t *tracer) command(l *lexer, letter byte) error {
	cmd, relative := letter, false
	if letter >= 'a' {
		cmd, relative = letter-'a'+'A', true
	}
	n := arity(cmd)
	if n < 0 {
		return fmt.Errorf("it is not a command")
	}
	var v [7]float64
	for i := range n {
		var err error
		if cmd == 'A' && (i == 3 || i == 4) {
			var on bool
			if on, err = l.flag(); on {
				v[i] = 1
			}
		} else {
			v[i], err = l.number()
		}
		if err != nil {
			return err
		}
	}
	o := plane.Vec{}
	if relative {
		o = t.at
	}
	return t.draw(cmd, v, o)
}

// draw carries out a command whose points are given from o.
func (t *tracer) draw(cmd byte, v [7]float64, o plane.Vec) error {
	p := func(i int) plane.Vec { return o.Add(plane.Vec{X: v[i], Y: v[i+1]}) }
	last := t.last
	t.last = cmd
	switch cmd {
	case 'M':
		if err := t.end(); err != nil {
			return err
		}
		t.start, t.at = p(0), p(0)
	case 'L':
		return t.lineTo(p(0))
	case 'H':
		return t.lineTo(plane.Vec{X: o.X + v[0], Y: t.at.Y})
	case 'V':
		return t.lineTo(plane.Vec{X: t.at.X, Y: o.Y + v[0]})
	case 'C':
		return t.cubicTo(p(0), p(2), p(4))
	case 'S':
		return t.cubicTo(t.mirrored(last == 'C' || last == 'S'), p(0), p(2))
	case 'Q':
		return t.quadTo(p(0), p(2))
	case 'T':
		return t.quadTo(t.mirrored(last == 'Q' || last == 'T'), p(0))
	case 'A':
		return t.arcTo(v, p(5))
	case 'Z':
		if err := t.lineTo(t.start); err != nil {
			return err
		}
		return t.end()
	}
	return nil
}

// mirrored returns the control point that continues the curve before smoothly.
func (t *tracer) mirrored(curve bool) plane.Vec {
	if !curve {
		return t.at
	}
	return t.at.Mul(2).Sub(t.control)
}

// add appends a piece and counts it.
func (t *tracer) add(p plane.Piece) error {
	if *t.left--; *t.left < 0 {
		return fmt.Errorf("too many lines and arcs in the file")
	}
	t.pieces = append(t.pieces, p)
	return nil
}

func (t *tracer) lineTo(to plane.Vec) error {
	a, b := t.m.point(t.at), t.m.point(to)
	t.at = to
	if a == b {
		return nil
	}
	return t.add(plane.Line{A: a, B: b})
}

func (t *tracer) quadTo(c, to plane.Vec) error {
	a := t.at
	err := t.cubicTo(a.Add(c.Sub(a).Mul(2.0/3)), to.Add(c.Sub(to).Mul(2.0/3)), to)
	t.control = c
	return err
}

// cubicTo divides the curve evenly: no chord leaves it by more than an eighth
// of the second derivative's greatest length times the square of the step.
func (t *tracer) cubicTo(c, d, to plane.Vec) error {
	p0, p1, p2, p3 := t.m.point(t.at), t.m.point(c), t.m.point(d), t.m.point(to)
	t.control, t.at = d, to
	bend := 6 * math.Max(p0.Sub(p1.Mul(2)).Add(p2).Len(), p1.Sub(p2.Mul(2)).Add(p3).Len())
	return t.chords(math.Max(1, math.Ceil(math.Sqrt(bend/(8*t.chord)))), p0, p3, func(u float64) plane.Vec {
		w := 1 - u
		return p0.Mul(w * w * w).Add(p1.Mul(3 * w * w * u)).Add(p2.Mul(3 * w * u * u)).Add(p3.Mul(u * u * u))
	})
}

// chords draws n chords from a to b with the corners at(1/n), at(2/n) and so on.
func (t *tracer) chords(n float64, a, b plane.Vec, at func(u float64) plane.Vec) error {
	if !(n <= float64(*t.left)) {
		return fmt.Errorf("a curve of %g chords; too many lines and arcs in the file", n)
	}
	for i := 1; i <= int(n); i++ {
		q := b
		if i < int(n) {
			q = at(float64(i) / n)
		}
		if q == a {
			continue
		}
		if err := t.add(plane.Line{A: a, B: q}); err != nil {
			return err
		}
		a = q
	}
	return nil
}

func (t *tracer) arcTo(v [7]float64, to plane.Vec) error {
	from := t.at
	rx, ry := math.Abs(v[0]), math.Abs(v[1])
	if from == to {
		return nil
	}
	if rx == 0 || ry == 0 {
		return t.lineTo(to)
	}
	t.at = to
	return t.ellipse(throughEnds(from, to, rx, ry, v[2]*math.Pi/180, v[3] == 1, v[4] == 1), from, to)
}

// ellipse draws a curve given in user units; from and to are its ends.
func (t *tracer) ellipse(e ellipse, from, to plane.Vec) error {
	e = e.mapped(t.m)
	if a, ok := e.arc(); ok {
		return t.add(a)
	}
	return t.chords(e.chords(t.chord), t.m.point(from), t.m.point(to), func(u float64) plane.Vec { return e.at(e.t0 + u*e.turn) })
}

// throughEnds returns the elliptic arc between two points by the rules of SVG:
// radii too small to reach are enlarged alike; of the four arcs possible, large
// and growing (angles grow from x to y) choose one.
func throughEnds(p, q plane.Vec, rx, ry, tilt float64, large, growing bool) ellipse {
	// In the ellipse's own directions, scaled by its radii, it is the unit circle.
	h := p.Sub(q).Mul(0.5).Turn(-tilt)
	h = plane.Vec{X: h.X / rx, Y: h.Y / ry}
	half := h.Len()
	off := 0.0
	if half > 1 {
		rx, ry = rx*half, ry*half
		h = h.Mul(1 / half)
		half = 1
	} else {
		off = math.Sqrt((1-half)*(1+half)) / half
	}
	if large == growing {
		off = -off
	}
	c := plane.Vec{X: h.Y, Y: -h.X}.Mul(off)
	t0 := h.Sub(c).Angle()
	turn := h.Mul(-1).Sub(c).Angle() - t0
	switch {
	case growing && turn <= 0:
		turn += 2 * math.Pi
	case !growing && turn >= 0:
		turn -= 2 * math.Pi
	}
	u, w := plane.Vec{X: rx}.Turn(tilt), plane.Vec{Y: ry}.Turn(tilt)
	mid := p.Add(q).Mul(0.5).Add(u.Mul(c.X)).Add(w.Mul(c.Y))
	return ellipse{c: mid, u: u, v: w, t0: t0, turn: turn}
}

// end closes the subpath. One that is open must be continued by the next where it
// ends, or within join of that: together they are one outline with gaps.
func (t *tracer) end() error {
	pieces := t.pieces
	t.pieces, t.at = nil, t.start
	if len(pieces) == 0 {
		return nil
	}
	for _, p := range pieces {
		b := p.Box()
		if !(b.Min.X >= -t.extent && b.Min.Y >= -t.extent && b.Max.X <= t.extent && b.Max.Y <= t.extent) {
			return fmt.Errorf("a coordinate is outside -%g..%g mm", t.extent, t.extent)
		}
	}
	if len(t.run) > 0 && !t.meet(t.run, pieces) {
		return t.closed()
	}
	if t.run = append(t.run, pieces...); t.meet(t.run, t.run) {
		return t.closed()
	}
	return nil
}

// meet reports whether one run ends where the other begins.
func (t *tracer) meet(a, b []plane.Piece) bool {
	return b[0].At(0).Sub(a[len(a)-1].At(1)).Len() <= t.join
}

// closed makes a loop of the run of subpaths, if there is one.
func (t *tracer) closed() error {
	if len(t.run) == 0 {
		return nil
	}
	loop, err := figure.Close(t.run, t.join)
	if err != nil {
		return err
	}
	t.run, t.loops = nil, append(t.loops, loop)
	return nil
}
