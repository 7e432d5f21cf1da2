package report

import (
	"fmt"
	"io"
	"strings"

	"ringtrack/gear/find"
)

// width is the number of columns that text keeps to.
const width = 100

// Style says how text is dressed.
type Style struct {
	Colour bool   // for a terminal only
	File   string // the job file's name, for places; may be empty
}

// paint wraps a word in a terminal's bold or faint; never a colour alone, so the
// word carries the meaning.
func (s Style) paint(level find.Level, word string) string {
	if !s.Colour {
		return word
	}
	code := [...]string{"1;31", "1;33", "2"}[level]
	return "\x1b[" + code + "m" + word + "\x1b[0m"
}

// WriteFindings writes each finding as a block and then the count.
func WriteFindings(w io.Writer, fs []find.Finding, s Style) error {
	var b strings.Builder
	for _, f := range fs {
		s.block(&b, f)
	}
	b.WriteString(Count(fs) + "\n")
	_, err := io.WriteString(w, b.String())
	return err
}

// block writes one finding: what was found, where, what is allowed, and each
// change that cures it.
func (s Style) block(b *strings.Builder, f find.Finding) {
	head := fmt.Sprintf("%-8s %s", f.Level, f.Code)
	fmt.Fprintf(b, "%s\n", s.paint(f.Level, head))
	wrap(b, "  ", "  ", f.Text)
	place := f.About
	switch {
	case f.Line > 0 && s.File != "":
		place += fmt.Sprintf("   (%s, line %d)", s.File, f.Line)
	case f.Line > 0:
		place += fmt.Sprintf("   (line %d)", f.Line)
	}
	if place != "" {
		wrap(b, "  at       ", "           ", place)
	}
	if v := amount(f.Found, f.Unit); v != "" {
		line := "found " + v
		if l := amount(f.Limit, f.Unit); l != "" {
			line += ", limit " + l
		}
		wrap(b, "  measure  ", "           ", line)
	}
	if len(f.Change) > 0 {
		var cures []string
		for _, c := range f.Change {
			cures = append(cures, change(c))
		}
		wrap(b, "  cures    ", "           ", strings.Join(cures, "   or   "))
	}
	b.WriteString("\n")
}

func change(c find.Change) string {
	if c.Value == "" {
		return "leave out " + c.Key
	}
	return c.Key + " = " + c.Value
}

func amount(v *float64, unit string) string {
	if v == nil {
		return ""
	}
	return strings.TrimSpace(short(*v) + " " + unit)
}

// short writes a number for a person: four decimals at most.
func short(v float64) string {
	t := fmt.Sprintf("%.4f", v)
	t = strings.TrimRight(strings.TrimRight(t, "0"), ".")
	if t == "-0" || t == "" {
		return "0"
	}
	if t == "0" && v != 0 {
		return fmt.Sprintf("%.2g", v)
	}
	return t
}

// Count says in one line how many findings there are.
func Count(fs []find.Finding) string {
	var out []string
	for _, l := range []find.Level{find.Fault, find.Caution, find.Note} {
		if n := find.Count(fs, l); n > 0 {
			out = append(out, plural(n, l.String()))
		}
	}
	if len(out) == 0 {
		return "No findings."
	}
	return strings.Join(out, ", ") + "."
}

func plural(n int, word string) string {
	if n == 1 {
		return "1 " + word
	}
	return fmt.Sprintf("%d %ss", n, word)
}

// wrap writes text broken at blanks so that no line passes the width.
func wrap(b *strings.Builder, first, next, text string) {
	line := first
	room := width - len([]rune(first))
	used := 0
	for _, word := range strings.Split(text, " ") {
		n := len([]rune(word))
		if used > 0 && used+1+n > room {
			b.WriteString(strings.TrimRight(line, " ") + "\n")
			line, used = next, 0
			room = width - len([]rune(next))
		}
		if used > 0 {
			line += " "
			used++
		}
		line += word
		used += n
	}
	b.WriteString(strings.TrimRight(line, " ") + "\n")
}
