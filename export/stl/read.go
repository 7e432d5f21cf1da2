package stl

import (
	"bufio"
	"bytes"
	"encoding/binary"
	"fmt"
	"io"
	"math"

	"ringtrack/gear/solid"
)

// ReadOptions bounds what is read. The zero value is ready for use.
type ReadOptions struct {
	// MaxFacets is the greatest number of facets to accept; 0 stands for
	// DefaultMaxFacets.
	MaxFacets int
}

// DefaultMaxFacets bounds what is read to about 5 GB of file and 3 GB of mesh.
const DefaultMaxFacets = 100_000_000

// FormatError says what is wrong with a file.
type FormatError struct {
	Facet int // the facet it concerns, from 0; -1 when it concerns none
	Line  int // of a text file, from 1; 0 in a binary one
	Text  string
}

// Error says it in one line.
func (e *FormatError) Error() string {
	s := "stl: "
	if e.Line > 0 {
		s += fmt.Sprintf("line %d: ", e.Line)
	}
	if e.Facet >= 0 {
		s += fmt.Sprintf("facet %d: ", e.Facet)
	}
	return s + e.Text
}

// Read reads a binary or text STL file to its end. Corners of equal coordinates
// become one vertex; vertices are numbered as they first appear, facets as they
// stand in the file. The normals in the file are required to be numbers and
// otherwise not used. The mesh is returned as it is: ask its Check whether it is
// closed.
//
// A file that begins with "solid" is text unless its length is the one that it
// would have as a binary file, or its first kilobyte holds a zero byte. When r
// tells its size (as bytes.Reader, strings.Reader and os.File do) a wrong
// length is refused before anything is read; in any case memory grows only with
// what has been read.
//
// Errors: *FormatError, or an error of r.
func Read(r io.Reader, opt ReadOptions) (*solid.Mesh, error) {
	if opt.MaxFacets <= 0 {
		opt.MaxFacets = DefaultMaxFacets
	}
	// A mesh's half-edges are numbered in 32 bits.
	opt.MaxFacets = min(opt.MaxFacets, math.MaxInt32/3)
	size, known := sizeOf(r)
	b := bufio.NewReaderSize(r, 1<<16)
	start, err := b.Peek(1024)
	if err != nil && err != io.EOF {
		return nil, fmt.Errorf("stl: %w", err)
	}
	if isText(start, size, known) {
		return readText(b, opt)
	}
	return readBinary(b, opt, size, known)
}

// sizeOf returns how many bytes r still holds, when it can tell.
func sizeOf(r io.Reader) (int64, bool) {
	switch s := r.(type) {
	case interface{ Len() int }:
		return int64(s.Len()), true
	case io.Seeker:
		at, err := s.Seek(0, io.SeekCurrent)
		if err != nil {
			return 0, false
		}
		end, err := s.Seek(0, io.SeekEnd)
		if err != nil {
			return 0, false
		}
		if _, err := s.Seek(at, io.SeekStart); err != nil {
			return 0, false
		}
		return end - at, true
	}
	return 0, false
}

func isText(start []byte, size int64, known bool) bool {
	if !bytes.HasPrefix(bytes.TrimLeft(start, " \t\r\n"), []byte("solid")) {
		return false
	}
	if known && len(start) >= prefixSize && size == promised(start) {
		return false
	}
	return bytes.IndexByte(start, 0) < 0
}

// promised returns the length of a binary file with this beginning.
func promised(start []byte) int64 {
	return prefixSize + facetSize*int64(binary.LittleEndian.Uint32(start[headerSize:]))
}

func readBinary(r io.Reader, opt ReadOptions, size int64, known bool) (*solid.Mesh, error) {
	var prefix [prefixSize]byte
	if _, err := io.ReadFull(r, prefix[:]); err != nil {
		return nil, short(err, "the file is shorter than the 84 bytes before the first facet")
	}
	count := int64(binary.LittleEndian.Uint32(prefix[headerSize:]))
	if want := promised(prefix[:]); known && size != want {
		return nil, &FormatError{-1, 0, fmt.Sprintf("%d facets make %d bytes, but the file has %d", count, want, size)}
	}
	if count > int64(opt.MaxFacets) {
		return nil, &FormatError{-1, 0, fmt.Sprintf("%d facets are more than the %d allowed", count, opt.MaxFacets)}
	}
	var b builder
	if known && count > 0 {
		b.facets = make([][3]int32, 0, count)
	}
	var rec [facetSize]byte
	for i := range int(count) {
		if _, err := io.ReadFull(r, rec[:]); err != nil {
			return nil, short(err, fmt.Sprintf("the file promises %d facets and ends after %d", count, i))
		}
		for k := range 4 {
			p := get(rec[12*k:])
			if !finite(p) {
				return nil, &FormatError{i, 0, fmt.Sprintf("the %s is not a finite number", corner[k])}
			}
			if k > 0 {
				b.add(p)
			}
		}
	}
	if n, err := r.Read(rec[:1]); n > 0 {
		return nil, &FormatError{-1, 0, fmt.Sprintf("the file goes on after the %d facets that it promises", count)}
	} else if err != nil && err != io.EOF {
		return nil, fmt.Errorf("stl: %w", err)
	}
	return b.mesh(), nil
}

// corner names the four points of a facet's record.
var corner = [4]string{"normal", "first corner", "second corner", "third corner"}

// short turns an early end into a FormatError.
func short(err error, text string) error {
	if err == io.EOF || err == io.ErrUnexpectedEOF {
		return &FormatError{-1, 0, text}
	}
	return fmt.Errorf("stl: %w", err)
}

func get(b []byte) [3]float32 {
	_ = b[11]
	return [3]float32{
		math.Float32frombits(binary.LittleEndian.Uint32(b[0:])),
		math.Float32frombits(binary.LittleEndian.Uint32(b[4:])),
		math.Float32frombits(binary.LittleEndian.Uint32(b[8:])),
	}
}

func finite(p [3]float32) bool { return p[0]-p[0] == 0 && p[1]-p[1] == 0 && p[2]-p[2] == 0 }

// builder collects corners, three a facet.
type builder struct {
	weld   solid.Welder
	facets [][3]int32
	facet  [3]int32
	n      int // corners of the facet so far
}

func (b *builder) add(p [3]float32) {
	b.facet[b.n] = b.weld.Add(p)
	if b.n++; b.n == 3 {
		b.facets = append(b.facets, b.facet)
		b.n = 0
	}
}

func (b *builder) mesh() *solid.Mesh {
	pts := b.weld.Points()
	m := &solid.Mesh{Vertices: make([]solid.Point3, len(pts)), Facets: b.facets}
	for i, p := range pts {
		m.Vertices[i] = solid.Point3{X: float64(p[0]), Y: float64(p[1]), Z: float64(p[2])}
	}
	return m
}
