package svg

import (
	"fmt"
	"strconv"
	"strings"
)

// greatest number in a file, before its unit is known.
const greatest = 1e12

// lexer takes numbers, flags and letters from an attribute.
type lexer struct {
	s  string
	at int
}

func (l *lexer) blanks() {
	for l.at < len(l.s) {
		switch l.s[l.at] {
		case ' ', '\t', '\n', '\r', '\f':
			l.at++
		default:
			return
		}
	}
}

// separator skips blanks with at most one comma among them.
func (l *lexer) separator() {
	l.blanks()
	if l.at < len(l.s) && l.s[l.at] == ',' {
		l.at++
		l.blanks()
	}
}

func (l *lexer) done() bool { return l.at >= len(l.s) }

// rest returns what comes next, short enough for a message.
func (l *lexer) rest() string {
	r := l.s[min(l.at, len(l.s)):]
	if len(r) > 20 {
		return fmt.Sprintf("%q..", r[:20])
	}
	return fmt.Sprintf("%q", r)
}

func digits(s string, i int) int {
	for i < len(s) && s[i] >= '0' && s[i] <= '9' {
		i++
	}
	return i
}

// span returns the end of the number that starts at the lexer's place, or the
// place itself.
func (l *lexer) span() int {
	s, i := l.s, l.at
	if i < len(s) && (s[i] == '+' || s[i] == '-') {
		i++
	}
	whole := digits(s, i)
	n := whole - i
	i = whole
	if i < len(s) && s[i] == '.' {
		end := digits(s, i+1)
		n += end - i - 1
		if n > 0 {
			i = end
		}
	}
	if n == 0 {
		return l.at
	}
	if i < len(s) && (s[i] == 'e' || s[i] == 'E') {
		k := i + 1
		if k < len(s) && (s[k] == '+' || s[k] == '-') {
			k++
		}
		if end := digits(s, k); end > k {
			i = end
		}
	}
	return i
}

// number takes a number and the separator after it.
func (l *lexer) number() (float64, error) {
	l.blanks()
	end := l.span()
	v, err := strconv.ParseFloat(l.s[l.at:end], 64)
	if err != nil || v > greatest || v < -greatest {
		return 0, fmt.Errorf("expected a number, found %s", l.rest())
	}
	l.at = end
	l.separator()
	return v, nil
}

// flag takes a 0 or a 1; the next number may follow without a blank.
func (l *lexer) flag() (bool, error) {
	l.blanks()
	if l.done() || l.s[l.at] != '0' && l.s[l.at] != '1' {
		return false, fmt.Errorf("expected an arc flag 0 or 1, found %s", l.rest())
	}
	on := l.s[l.at] == '1'
	l.at++
	l.separator()
	return on, nil
}

// numbers takes all numbers of an attribute, at most most.
func numbers(s string, most int) ([]float64, error) {
	l := lexer{s: s}
	var out []float64
	for l.blanks(); !l.done(); {
		v, err := l.number()
		if err != nil {
			return nil, err
		}
		if out = append(out, v); len(out) > most {
			return nil, fmt.Errorf("more than %d numbers", most)
		}
	}
	return out, nil
}

// length takes a length apart: its number and its unit, one that pixels knows.
// An empty one is 0.
func length(s string) (v float64, unit string, err error) {
	l := lexer{s: s}
	if l.blanks(); l.done() {
		return 0, "", nil
	}
	end := l.span()
	v, err = strconv.ParseFloat(l.s[l.at:end], 64)
	if err != nil || v > greatest || v < -greatest {
		return 0, "", fmt.Errorf("%q is not a length", clip(s))
	}
	unit = strings.TrimSpace(s[end:])
	if _, ok := pixels(unit); !ok {
		return 0, "", fmt.Errorf("the length %q: px, mm, cm, Q, in, pt and pc are read", clip(s))
	}
	return v, unit, nil
}

func clip(s string) string {
	if len(s) > 40 {
		return s[:40] + ".."
	}
	return s
}

// millimetres returns the unit's length in mm; one px is 1/96 inch.
func millimetres(unit string) (float64, bool) {
	switch unit {
	case "", "px":
		return 25.4 / 96, true
	case "mm":
		return 1, true
	case "cm":
		return 10, true
	case "Q":
		return 0.25, true
	case "in":
		return 25.4, true
	case "pt":
		return 25.4 / 72, true
	case "pc":
		return 25.4 / 6, true
	}
	return 0, false
}

// pixels returns the unit's length in px.
func pixels(unit string) (float64, bool) {
	if unit == "" || unit == "px" {
		return 1, true
	}
	mm, ok := millimetres(unit)
	return mm * 96 / 25.4, ok
}
