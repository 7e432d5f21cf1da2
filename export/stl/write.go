package stl

import (
	"encoding/binary"
	"fmt"
	"io"
	"math"

	"ringtrack/gear/solid"
)

// tool begins every header.
const tool = "ringtrack"

const (
	headerSize = 80
	prefixSize = headerSize + 4 // with the count
	facetSize  = 50
)

// Options says how to write. The zero value is ready for use.
type Options struct {
	// Name follows the tool's name in the header: printable ASCII, at most 70
	// characters.
	Name string
}

// Write writes mesh m to w as a binary STL file in the mesh's unit, millimetres.
// m must be sound (solid.Mesh.Check). The same mesh gives the same bytes.
//
// It buffers, and does not close w. Nothing is allocated by the facet beyond the
// rounded copy of m.
//
// Errors: before the first byte, a *solid.PrecisionError when 32-bit numbers
// cannot hold the mesh, a name that does not fit, more than 2^32-1 facets;
// otherwise the first error of w.
func Write(w io.Writer, m *solid.Mesh, opt Options) error {
	head, err := header(opt.Name)
	if err != nil {
		return fmt.Errorf("stl: %w", err)
	}
	r, err := m.Float32()
	if err != nil {
		return fmt.Errorf("stl: %w", err)
	}
	n, err := facetCount(len(r.Facets))
	if err != nil {
		return fmt.Errorf("stl: %w", err)
	}
	p := &printer{w: w, buf: make([]byte, 0, 1024*facetSize)}
	p.buf = append(p.buf, head[:]...)
	p.buf = binary.LittleEndian.AppendUint32(p.buf, n)
	p.facets(r)
	p.flush()
	if p.err != nil {
		return fmt.Errorf("stl: %w", p.err)
	}
	return nil
}

// header returns the 80 bytes, filled with blanks.
func header(name string) (h [headerSize]byte, err error) {
	text := tool
	if name != "" {
		text += " " + name
	}
	if len(text) > headerSize {
		return h, fmt.Errorf("the name %q is %d characters too long for the header", name, len(text)-headerSize)
	}
	for i := range h {
		h[i] = ' '
	}
	for i := range len(text) {
		if text[i] < ' ' || text[i] > '~' {
			return h, fmt.Errorf("the name %q has a character that the header cannot hold", name)
		}
		h[i] = text[i]
	}
	return h, nil
}

func facetCount(n int) (uint32, error) {
	if uint64(n) > math.MaxUint32 {
		return 0, fmt.Errorf("%d facets are more than a file can count", n)
	}
	return uint32(n), nil
}

// printer writes in large pieces and keeps the first error.
type printer struct {
	w   io.Writer
	buf []byte
	err error
}

func (p *printer) flush() {
	if p.err == nil && len(p.buf) > 0 {
		n, err := p.w.Write(p.buf)
		if err == nil && n < len(p.buf) {
			err = io.ErrShortWrite
		}
		p.err = err
	}
	p.buf = p.buf[:0]
}

func (p *printer) facets(m *solid.Mesh) {
	for _, f := range m.Facets {
		if cap(p.buf)-len(p.buf) < facetSize {
			if p.flush(); p.err != nil {
				return
			}
		}
		a, b, c := m.Vertices[f[0]], m.Vertices[f[1]], m.Vertices[f[2]]
		at := len(p.buf)
		p.buf = p.buf[:at+facetSize]
		out := (*[facetSize]byte)(p.buf[at:])
		put(out[0:12], unit(b.Sub(a).Cross(c.Sub(a))))
		put(out[12:24], a)
		put(out[24:36], b)
		put(out[36:48], c)
		out[48], out[49] = 0, 0
	}
}

func unit(n solid.Point3) solid.Point3 {
	k := 1 / n.Len()
	return solid.Point3{X: n.X*k + 0, Y: n.Y*k + 0, Z: n.Z*k + 0} // + 0: no negative zero
}

func put(b []byte, p solid.Point3) {
	_ = b[11]
	binary.LittleEndian.PutUint32(b[0:], math.Float32bits(float32(p.X)))
	binary.LittleEndian.PutUint32(b[4:], math.Float32bits(float32(p.Y)))
	binary.LittleEndian.PutUint32(b[8:], math.Float32bits(float32(p.Z)))
}
