package report

import (
	"fmt"
	"io"
	"strings"

	"ringtrack/gear/find"
	"ringtrack/gear/job"
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
	s.blocks(&b, fs, nil)
	b.WriteString(Count(fs) + "\n")
	_, err := io.WriteString(w, b.String())
	return err
}

// blocks writes the findings of a job, nil when there is none.
func (s Style) blocks(b *strings.Builder, fs []find.Finding, j *job.Job) {
	for _, f := range fs {
		written := ""
		if j != nil {
			written = j.Raw(f.About)
		}
		s.block(b, f, written)
	}
}

// block writes one finding: what was found, where and what stands there, what
// is allowed, and each change that cures it.
func (s Style) block(b *strings.Builder, f find.Finding, written string) {
	const label, next = "  %-9s", "           "
	head := fmt.Sprintf("%-8s %s", f.Level, f.Code)
	fmt.Fprintf(b, "%s\n", s.paint(f.Level, head))
	wrap(b, "  ", "  ", f.Text)
	if place := s.place(f, written); place != "" {
		wrap(b, fmt.Sprintf(label, "at"), next, place)
	}
	if v := amount(f.Found, f.Unit); v != "" && !saysItself(f.Code) {
		line := "found " + v
		if l := amount(f.Limit, f.Unit); l != "" {
			line += ", limit " + l
		}
		wrap(b, fmt.Sprintf(label, "measure"), next, line)
	}
	word := "cures"
	if saysItself(f.Code) {
		word = "set"
	}
	for i, line := range cures(f) {
		if i > 0 {
			word = "or"
		}
		wrap(b, fmt.Sprintf(label, word), next, line)
	}
	b.WriteString("\n")
}

// place says which key a finding is about, what stands there and where.
func (s Style) place(f find.Finding, written string) string {
	place := f.About
	if written != "" {
		place += " = " + written
	}
	switch {
	case f.Line > 0 && s.File != "":
		place += fmt.Sprintf("   (%s, line %d)", s.File, f.Line)
	case f.Line > 0:
		place += fmt.Sprintf("   (line %d)", f.Line)
	}
	return place
}

// cures returns a finding's cures as lines, on one line where they fit.
func cures(f find.Finding) []string {
	var out []string
	for _, c := range f.Change {
		out = append(out, change(c))
	}
	switch all := strings.Join(out, "   or   "); {
	case saysItself(f.Code) && len(out) == 1:
		return []string{out[0] + ", or what you measure"}
	case len(out) == 0 && f.Level == find.Fault && f.Limit != nil:
		return []string{"no single change cures this: leave out some of the values that are given"}
	case len(out) > 1 && len([]rune(all)) <= width-11:
		return []string{all}
	}
	return out
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
