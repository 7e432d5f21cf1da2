package stl

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
	"strconv"

	"ringtrack/gear/solid"
)

// maxWord bounds a word of a text file: a number of 32 bits needs far less.
const maxWord = 256

// words splits a text file.
type words struct {
	r    *bufio.Reader
	buf  []byte
	line int // of the word returned last
	next int // of the byte read next
	err  error
}

// word returns the next word in small letters, "" at the end or after an error.
// It holds until the next call.
func (w *words) word() string {
	w.buf = w.buf[:0]
	for {
		c, err := w.r.ReadByte()
		if err != nil {
			w.keep(err)
			break
		}
		if c == ' ' || c == '\t' || c == '\r' || c == '\n' {
			if len(w.buf) > 0 {
				w.keep(w.r.UnreadByte())
				break
			}
			if c == '\n' {
				w.next++
			}
			continue
		}
		if len(w.buf) == maxWord {
			w.keep(&FormatError{-1, w.next, "a word is too long"})
			return ""
		}
		w.buf = append(w.buf, c)
	}
	w.line = w.next
	return string(bytes.ToLower(w.buf))
}

// skipLine passes the rest of the line.
func (w *words) skipLine() {
	for {
		part, err := w.r.ReadSlice('\n')
		if len(part) > 0 && part[len(part)-1] == '\n' {
			w.next++
			return
		}
		if err != nil && err != bufio.ErrBufferFull {
			w.keep(err)
			return
		}
	}
}

func (w *words) keep(err error) {
	if err != nil && err != io.EOF && w.err == nil {
		w.err = err
	}
}

// textReader reads the text form.
type textReader struct {
	words
	b   builder
	max int
}

func readText(r *bufio.Reader, opt ReadOptions) (*solid.Mesh, error) {
	t := &textReader{words: words{r: r, next: 1}, max: opt.MaxFacets}
	err := t.solids()
	var format *FormatError
	switch {
	case errors.As(t.err, &format):
		return nil, format
	case t.err != nil:
		return nil, fmt.Errorf("stl: %w", t.err)
	}
	if err != nil {
		return nil, err
	}
	return t.b.mesh(), nil
}

// solids reads "solid name ... endsolid name", once or more, to the end.
func (t *textReader) solids() error {
	for n := 0; ; n++ {
		w := t.word()
		if w == "" && n > 0 {
			return nil
		}
		if w != "solid" {
			return t.fail("solid", w)
		}
		t.skipLine()
		for {
			w := t.word()
			if w == "endsolid" {
				t.skipLine()
				break
			}
			if w != "facet" {
				return t.fail("facet or endsolid", w)
			}
			if err := t.facet(); err != nil {
				return err
			}
		}
	}
}

// facet reads what follows the word facet.
func (t *textReader) facet() error {
	if len(t.b.facets) >= t.max {
		return t.wrong(fmt.Sprintf("more than the %d facets allowed", t.max))
	}
	if err := t.expect("normal"); err != nil {
		return err
	}
	if _, err := t.point(0); err != nil {
		return err
	}
	if err := t.expect("outer", "loop"); err != nil {
		return err
	}
	var p [3][3]float32
	for k := range p {
		if err := t.expect("vertex"); err != nil {
			return err
		}
		var err error
		if p[k], err = t.point(k + 1); err != nil {
			return err
		}
	}
	if err := t.expect("endloop", "endfacet"); err != nil {
		return err
	}
	for _, q := range p {
		t.b.add(q)
	}
	return nil
}

func (t *textReader) expect(list ...string) error {
	for _, want := range list {
		if w := t.word(); w != want {
			return t.fail(want, w)
		}
	}
	return nil
}

// point reads three numbers: the normal for k = 0, corner k otherwise.
func (t *textReader) point(k int) (p [3]float32, err error) {
	for i := range p {
		w := t.word()
		v, err := strconv.ParseFloat(w, 32)
		if errors.Is(err, strconv.ErrRange) {
			return p, t.wrong(fmt.Sprintf("the %s is out of range: %q", corner[k], w))
		}
		if err != nil {
			return p, t.fail("a number", w)
		}
		p[i] = float32(v)
	}
	if !finite(p) {
		return p, t.wrong(fmt.Sprintf("the %s is not a finite number", corner[k]))
	}
	return p, nil
}

func (t *textReader) fail(want, got string) error {
	if got == "" {
		got = "the end of the file"
	} else {
		got = strconv.Quote(got)
	}
	return t.wrong(fmt.Sprintf("expected %s, found %s", want, got))
}

func (t *textReader) wrong(text string) error {
	return &FormatError{Facet: len(t.b.facets), Line: t.line, Text: text}
}
