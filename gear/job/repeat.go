package job

import (
	"fmt"
	"strconv"
	"strings"

	"ringtrack/gear/find"
)

// A repeated section stands in double brackets. Its keys are named with a number
// behind the section, from 0 in the order of the file:
// pinion.set_screw[1].size. A key in a file cannot be taken for such a name:
// brackets within a key are kept in quotes.

// mostRepeats is how often a repeated section may stand in a file.
const mostRepeats = 8

// numbered makes section[n].
func numbered(section string, n int) string { return section + "[" + strconv.Itoa(n) + "]" }

// plain returns a path without numbers: a[1].b is a.b. Brackets within a quoted
// part do not count.
func plain(path string) string {
	if strings.IndexByte(path, '[') < 0 {
		return path
	}
	var b strings.Builder
	quoted := false
	for i := 0; i < len(path); i++ {
		switch c := path[i]; {
		case c == '"':
			quoted = !quoted
		case c == '\\' && i+1 < len(path):
			b.WriteByte(c)
			i++
		case c == '[' && !quoted:
			if n := numberEnd(path[i:]); n > 0 {
				i += n - 1
				continue
			}
		}
		b.WriteByte(path[i])
	}
	return b.String()
}

// numberEnd returns the length of the [n] that s begins with, 0 if there is none.
func numberEnd(s string) int {
	n := 1
	for n < len(s) && digit(s[n]) {
		n++
	}
	if n == 1 || n == len(s) || s[n] != ']' {
		return 0
	}
	return n + 1
}

// number splits section[n]rest; ok is false when path is not of that form.
func number(path, section string) (n int, rest string, ok bool) {
	tail, found := strings.CutPrefix(path, section)
	if !found || tail == "" || tail[0] != '[' {
		return 0, "", false
	}
	end := numberEnd(tail)
	if end == 0 {
		return 0, "", false
	}
	n, err := strconv.Atoi(tail[1 : end-1])
	return n, tail[end:], err == nil
}

// place gives a path its number where its section is repeated, and takes
// numbers away elsewhere. It reports a repeated section without its brackets,
// once, and one too many; the latter is not taken.
func (r *reading) place(path string, line int) (placed string, ok bool) {
	bare := plain(path)
	for _, s := range sections {
		if !s.double || bare != s.name && !strings.HasPrefix(bare, s.name+".") {
			continue
		}
		n, rest, ok := number(path, s.name)
		if !ok {
			n, rest = 0, bare[len(s.name):]
			r.tell(s.name, find.WrongUnit, line, "%s: this section may stand several times, in double brackets, %s", s.name, s.header())
		}
		count := r.count(s.name)
		switch {
		case n >= mostRepeats:
			r.tell(numbered(s.name, mostRepeats), find.OutOfRange, line, "%s stands more than %d times", s.header(), mostRepeats)
			return "", false
		case n > count:
			r.fault(find.UnknownKey, path, line, "%s stands %d times; the next one is %s", s.header(), count, numbered(s.name, count))
			return "", false
		}
		return numbered(s.name, n) + rest, true
	}
	return bare, true
}

// tell adds a fault about something unless it has been told already.
func (r *reading) tell(about string, code find.Code, line int, format string, args ...any) {
	if _, told := r.as[about]; told {
		return
	}
	r.as[about] = ""
	r.fault(code, about, line, format, args...)
}

// count returns how often a repeated section stands in the file.
func (r *reading) count(section string) int {
	n := 0
	for r.hasSection(numbered(section, n)) {
		n++
	}
	return n
}

// drop returns m without a section and all that stands in it. When it is one of
// a repeated section those behind it move up.
func drop[V any](m map[string]V, section string) map[string]V {
	base, cut := section, -1
	if i := strings.LastIndexByte(section, '['); i >= 0 {
		if n, rest, ok := number(section, section[:i]); ok && rest == "" {
			base, cut = section[:i], n
		}
	}
	out := map[string]V{}
	for path, v := range m {
		n, rest, of := number(path, base)
		switch {
		case path == section, strings.HasPrefix(path, section+"."), strings.HasPrefix(path, section+"["):
		case cut >= 0 && of && n > cut:
			out[fmt.Sprintf("%s[%d]%s", base, n-1, rest)] = v
		default:
			out[path] = v
		}
	}
	return out
}
