package pdf

import (
	"bufio"
	"bytes"
	"compress/zlib"
	"fmt"
	"io"
	"sort"
	"unicode/utf16"

	"ringtrack/export/figure"
	"ringtrack/export/number"
)

// Options of Write. The zero value is the default.
type Options struct {
	Title string // of the document; empty: that of the first page
}

// MaxPages is the largest number of pages: far beyond any drawing, it keeps a
// slip in a scale from filling the disk.
const MaxPages = 2000

// Point is the length of a PDF unit in mm.
const Point = 25.4 / 72

// Write writes the figures as the pages of one document. It buffers, reports
// the first write error and does not close w.
//
// Errors, before the first byte: no page or more than MaxPages, those of a
// figure's Marks with the number of the page.
func Write(w io.Writer, pages []figure.Figure, opt Options) error {
	if len(pages) == 0 || len(pages) > MaxPages {
		return fmt.Errorf("pdf: %d pages; 1 to %d are written", len(pages), MaxPages)
	}
	if opt.Title == "" {
		opt.Title = pages[0].Title
	}
	opacities := map[uint8]bool{}
	streams := make([][]byte, len(pages))
	for i, f := range pages {
		marks, err := f.Marks()
		if err != nil {
			return fmt.Errorf("pdf: page %d: %w", i+1, err)
		}
		if streams[i], err = packed(content(marks, opacities)); err != nil {
			return fmt.Errorf("pdf: page %d: %w", i+1, err)
		}
	}
	d := &document{w: bufio.NewWriterSize(w, 64<<10)}
	d.str("%PDF-1.7\n%\xe2\xe3\xcf\xd3\n")
	d.catalogue(len(pages), opt.Title, opacities)
	for i, f := range pages {
		d.page(i, f, streams[i])
	}
	d.end()
	return d.w.Flush()
}

func packed(b []byte) ([]byte, error) {
	var out bytes.Buffer
	z, err := zlib.NewWriterLevel(&out, zlib.DefaultCompression)
	if err != nil {
		return nil, err
	}
	if _, err := z.Write(b); err != nil {
		return nil, err
	}
	if err := z.Close(); err != nil {
		return nil, err
	}
	return out.Bytes(), nil
}

// document writes objects and remembers where they begin. The first write error
// sticks to the buffer.
type document struct {
	w      *bufio.Writer
	at     int64
	starts []int64 // of object i+1
}

// Numbers of the objects that every document has; pages follow, each before
// its content.
const (
	oCatalogue = 1 + iota
	oPages
	oInfo
	oResources
	oFirstPage
)

func (d *document) str(s string) {
	d.w.WriteString(s)
	d.at += int64(len(s))
}

// object writes the next object.
func (d *document) object(body string) {
	d.starts = append(d.starts, d.at)
	d.str(fmt.Sprintf("%d 0 obj\n%s\nendobj\n", len(d.starts), body))
}

func (d *document) catalogue(pages int, title string, opacities map[uint8]bool) {
	d.object(fmt.Sprintf("<</Type/Catalog/Pages %d 0 R/ViewerPreferences<</PrintScaling/None>>>>", oPages))
	kids := ""
	for i := range pages {
		kids += fmt.Sprintf(" %d 0 R", oFirstPage+2*i)
	}
	d.object(fmt.Sprintf("<</Type/Pages/Count %d/Kids[%s]>>", pages, kids[1:]))
	d.object("<</Title" + text(title) + "/Producer(ringtrack)>>")
	var list []int
	for a := range opacities {
		list = append(list, int(a))
	}
	sort.Ints(list)
	states := ""
	for _, a := range list {
		v := number.Format(float64(a)/255, 4)
		states += fmt.Sprintf("/%s<</ca %s/CA %s>>", opacity(uint8(a)), v, v)
	}
	if states != "" {
		states = "/ExtGState<<" + states + ">>"
	}
	d.object("<<" + states + ">>")
}

// opacity is the name of the state that sets it.
func opacity(a uint8) string { return fmt.Sprintf("A%d", a) }

func (d *document) page(i int, f figure.Figure, stream []byte) {
	d.object(fmt.Sprintf("<</Type/Page/Parent %d 0 R/MediaBox[0 0 %s %s]/Resources %d 0 R/Contents %d 0 R>>",
		oPages, number.Format(f.Width/Point, 6), number.Format(f.Height/Point, 6), oResources, oFirstPage+2*i+1))
	d.object(fmt.Sprintf("<</Length %d/Filter/FlateDecode>>\nstream\n%s\nendstream", len(stream), stream))
}

func (d *document) end() {
	start := d.at
	d.str(fmt.Sprintf("xref\n0 %d\n0000000000 65535 f \n", len(d.starts)+1))
	for _, s := range d.starts {
		d.str(fmt.Sprintf("%010d 00000 n \n", s))
	}
	d.str(fmt.Sprintf("trailer\n<</Size %d/Root %d 0 R/Info %d 0 R>>\nstartxref\n%d\n%%%%EOF\n", len(d.starts)+1, oCatalogue, oInfo, start))
}

// text writes a string in UTF-16, as hexadecimal digits.
func text(s string) string {
	b := []byte("<FEFF")
	for _, u := range utf16.Encode([]rune(s)) {
		b = fmt.Appendf(b, "%04X", u)
	}
	return string(append(b, '>'))
}
