package dxf

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
	"strconv"
)

// Error says what is wrong with a file and where.
type Error struct {
	Line int // counted from 1, of the line at fault or the last one read
	Text string
}

func (e *Error) Error() string { return fmt.Sprintf("dxf: line %d: %s", e.Line, e.Text) }

// longestLine in bytes: the format itself allows 2,049 characters of text.
const longestLine = 64 << 10

// tag is a group: its code, its value and the line on which the value stands.
// The value is valid until the next tag is read.
type tag struct {
	code  int
	value []byte
	line  int
}

func (t tag) is(s string) bool { return string(t.value) == s }

// scanner reads groups and forgets them.
type scanner struct {
	r     *bufio.Reader
	line  int
	left  int64 // bytes that may still be read
	notes []string
}

// mostNotes is how many comments are kept.
const mostNotes = 100

func (s *scanner) fail(format string, args ...any) *Error {
	return &Error{Line: s.line, Text: fmt.Sprintf(format, args...)}
}

// text returns the next line without blanks around it; nil at the end of the file.
func (s *scanner) text() ([]byte, error) {
	b, err := s.r.ReadSlice('\n')
	s.left -= int64(len(b))
	if len(b) > 0 {
		s.line++
	}
	switch {
	case errors.Is(err, bufio.ErrBufferFull):
		return nil, s.fail("the line is longer than %d bytes", longestLine)
	case s.left < 0:
		return nil, s.fail("the file is larger than allowed")
	case err == io.EOF && len(b) == 0:
		return nil, nil
	case err != nil && err != io.EOF:
		return nil, fmt.Errorf("dxf: line %d: %w", s.line, err)
	case bytes.IndexByte(b, 0) >= 0:
		return nil, s.fail("the file is not text; only the text form of DXF is read")
	}
	if b = bytes.TrimSpace(b); b == nil {
		b = []byte{} // an empty line is not the end of the file
	}
	return b, nil
}

// next returns the next group; comments are kept aside.
func (s *scanner) next() (tag, error) {
	for {
		code, err := s.code()
		if err != nil {
			return tag{}, err
		}
		v, err := s.text()
		if err != nil {
			return tag{}, err
		}
		if v == nil {
			return tag{}, s.fail("the file ends after a group code")
		}
		if code != 999 {
			return tag{code, v, s.line}, nil
		}
		if len(s.notes) < mostNotes {
			s.notes = append(s.notes, string(v))
		}
	}
}

func (s *scanner) code() (int, error) {
	b, err := s.text()
	if err != nil {
		return 0, err
	}
	if b == nil {
		return 0, s.fail("the file ends without EOF")
	}
	if s.line == 1 {
		b = bytes.TrimPrefix(b, []byte("\xef\xbb\xbf"))
	}
	code, err := strconv.Atoi(string(b))
	if err != nil || code < -5 || code > 1071 {
		return 0, s.fail("%s is not a group code", quoted(b))
	}
	return code, nil
}

// quoted returns what was found, short enough for a message.
func quoted(b []byte) string {
	if len(b) > 40 {
		return fmt.Sprintf("%q..", b[:40])
	}
	return fmt.Sprintf("%q", b)
}

// real returns the group's value as a number with |value| <= limit.
func (t tag) real(limit float64) (float64, error) {
	for _, c := range t.value {
		if (c < '0' || c > '9') && c != '+' && c != '-' && c != '.' && c != 'e' && c != 'E' {
			return 0, &Error{t.line, quoted(t.value) + " is not a number"}
		}
	}
	v, err := strconv.ParseFloat(string(t.value), 64)
	if err != nil {
		return 0, &Error{t.line, quoted(t.value) + " is not a number"}
	}
	if v > limit || v < -limit {
		return 0, &Error{t.line, fmt.Sprintf("%s is outside -%g..%g", quoted(t.value), limit, limit)}
	}
	return v, nil
}

// int returns the group's value as a whole number.
func (t tag) int() (int, error) {
	v, err := strconv.ParseInt(string(t.value), 10, 64)
	if err != nil {
		return 0, &Error{t.line, quoted(t.value) + " is not a whole number"}
	}
	return int(v), nil
}
