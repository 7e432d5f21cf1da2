package job

import (
	"bytes"
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"ringtrack/gear/find"
)

// What makers write that is no TOML, but plain enough to be understood. Each is
// a fault with the right spelling beside it; the value is used for the rest of
// the reading, so that the fault does not hide others.
var (
	header      = regexp.MustCompile(`^\s*\[+\s*([A-Za-z0-9_.-]+)`)
	assignment  = regexp.MustCompile(`^\s*([A-Za-z0-9_.-]+)\s*=\s*(.*?)\s*$`)
	commaNumber = regexp.MustCompile(`^[+-]?\d+,\d+(?:\s*[A-Za-z%/ ]+)?$`)
	openNumber  = regexp.MustCompile(`^[+-]?(?:\d+\.|\.\d+)$`)
	unitNumber  = regexp.MustCompile(`^[+-]?[\d.]+(?:[eE][+-]?\d+)?\s*[A-Za-z%/][A-Za-z%/ ]*$`)
	bareWord    = regexp.MustCompile(`^[A-Za-z][A-Za-z0-9 _.-]*$`)
	pointless   = regexp.MustCompile(`\d,\d`)
)

// repair reports the expression that could not be read and returns where to go
// on, or false when there is no sense in going on.
//
//	at       offset where the parser stopped
//	message  its complaint
func (s *scanner) repair(at int, message string) (next int, ok bool) {
	start := min(s.begin(), at)
	stop := len(s.data)
	if n := bytes.IndexByte(s.data[start:], '\n'); n >= 0 {
		stop = start + n + 1
	}
	text := strings.TrimRight(string(s.data[start:min(stop, start+500)]), "\r\n")
	line := s.line(start)
	if at > stop || !s.understood(text, line) {
		s.found = append(s.found, broken(text, line, s.line(at), message))
	}
	if m := header.FindStringSubmatch(text); m != nil {
		double := strings.HasPrefix(strings.TrimSpace(text), "[[")
		s.prefix = m[1]
		if double {
			s.prefix = s.next(m[1])
		}
		s.items = append(s.items, item{path: s.prefix, line: line, double: double})
	}
	s.broken++
	if s.broken == mostBroken {
		s.found = append(s.found, fault(find.NotReadable, "file", line, "too many lines cannot be read; the rest has not been looked at"))
	}
	open := at > stop && (strings.Contains(text, `"""`) || strings.Contains(text, "'''"))
	return stop, s.broken < mostBroken && !open && stop < len(s.data)
}

// begin returns where the expression behind the last good one begins: past the
// rest of that line, empty lines and comments.
func (s *scanner) begin() int {
	at := s.end
	if at > s.base {
		at = s.lineEnd(at)
	}
	for at < len(s.data) {
		rest := bytes.TrimLeft(s.data[at:], " \t\r\n")
		at = len(s.data) - len(rest)
		if len(rest) == 0 || rest[0] != '#' {
			break
		}
		at = s.lineEnd(at)
	}
	return at
}

// lineEnd returns where the line behind that of offset begins.
func (s *scanner) lineEnd(offset int) int {
	if n := bytes.IndexByte(s.data[offset:], '\n'); n >= 0 {
		return offset + n + 1
	}
	return len(s.data)
}

// understood takes a line whose meaning is plain: it reports the spelling and
// keeps the value.
func (s *scanner) understood(text string, line int) bool {
	m := assignment.FindStringSubmatch(text)
	if m == nil {
		return false
	}
	path, written := m[1], strings.TrimSpace(strings.SplitN(m[2], "#", 2)[0])
	if s.prefix != "" {
		path = s.prefix + "." + path
	}
	right, why := respell(written)
	if right == "" {
		return false
	}
	f := fault(find.WrongUnit, path, line, fmt.Sprintf("%s = %s: %s: %s", m[1], clip(written), why, clip(right)))
	f.Change = []find.Change{{Key: path, Value: right}}
	s.found = append(s.found, f)
	s.items = append(s.items, item{path: path, line: line, value: respelled(right)})
	return true
}

// respell returns the right spelling of a value, and what was wrong; empty when
// nobody can know.
func respell(v string) (right, why string) {
	switch {
	case commaNumber.MatchString(v):
		right = strings.Replace(v, ",", ".", 1)
		if numberLen(right) < len(right) {
			right = strconv.Quote(right)
		}
		return right, "this is a decimal comma; write a point"
	case openNumber.MatchString(v):
		return strconv.FormatFloat(float(v), 'f', -1, 64), "a digit must stand on both sides of the point"
	case strings.EqualFold(v, "true"), strings.EqualFold(v, "false"):
		return strings.ToLower(v), "write it in lower case"
	case unitNumber.MatchString(v):
		return strconv.Quote(v), "a value with a unit stands in quotes"
	case bareWord.MatchString(v):
		return strconv.Quote(v), "a word stands in quotes"
	}
	return "", ""
}

// respelled makes a value of what respell returned.
func respelled(right string) value {
	if text, err := strconv.Unquote(right); err == nil {
		return value{kind: kindText, raw: right, text: text}
	}
	if right == "true" || right == "false" {
		return value{kind: kindFlag, raw: right, flag: right == "true"}
	}
	return value{kind: kindFloat, raw: right, num: float(right)}
}

// broken reports a line whose meaning is not plain.
//
//	text, line  where the expression begins
//	at          the line where the parser stopped
func broken(text string, line, at int, message string) find.Finding {
	say := fmt.Sprintf("this line cannot be read: %s", clip(strings.TrimSpace(text)))
	if at != line {
		say = fmt.Sprintf("what begins here cannot be read; it breaks off in line %d: %s", at, clip(strings.TrimSpace(text)))
	}
	if m := assignment.FindStringSubmatch(text); m != nil && (m[2] == "" || m[2][0] == '#') {
		say = fmt.Sprintf("%s has no value", clip(m[1]))
	}
	say += " (" + message + ")"
	if pointless.MatchString(text) {
		say += "; should a comma in it be a decimal point?"
	}
	return fault(find.NotReadable, "file", line, say)
}
