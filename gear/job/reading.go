package job

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"ringtrack/gear/find"
	"ringtrack/gear/stock"
)

// reading is the state while a job is read: what stands in the file, checked
// value by value, and what was found.
type reading struct {
	name    string
	given   map[string]entry // by section.key
	headers map[string]int   // sections that stand in the file, with their line
	found   []find.Finding

	as      map[string]string // misspelt section: what it was taken for, "" for nothing
	assumed []item            // values of misspelt keys, under the key probably meant
}

// newReading takes the items of a file.
func newReading(name string, items []item, found []find.Finding) *reading {
	r := &reading{name: name, given: map[string]entry{}, headers: map[string]int{}, as: map[string]string{}, found: found}
	r.dropUnknownCures()
	for _, it := range items {
		r.take(it)
		if len(r.found) >= mostFindings {
			r.fault(find.NotReadable, "file", it.line, "there is more amiss than can be shown; the rest of the file has not been looked at")
			break
		}
	}
	for _, it := range r.assumed {
		if _, there := r.given[it.path]; !there {
			r.put(index.key(it.path), it)
		}
	}
	return r
}

// dropUnknownCures removes cures for keys that do not exist.
func (r *reading) dropUnknownCures() {
	for i, f := range r.found {
		if len(f.Change) > 0 && index.key(f.Change[0].Key) == nil {
			r.found[i].Change = nil
		}
	}
}

// fault adds a finding without numbers.
func (r *reading) fault(code find.Code, about string, line int, format string, args ...any) *find.Finding {
	r.found = append(r.found, fault(code, about, line, fmt.Sprintf(format, args...)))
	return &r.found[len(r.found)-1]
}

// take takes one header, or one key with its value.
func (r *reading) take(it item) {
	bare := plain(it.path)
	if r.later(bare, it.line) {
		return
	}
	if s, ok := index.sections[bare]; ok && it.kind != kindNone {
		r.fault(find.WrongUnit, bare, it.line, "%s = %s: this is a section, and takes no value; its keys stand under %s", bare, clip(it.raw), s.header())
		return
	}
	var ok bool
	if it.path, ok = r.place(it.path, it.line); !ok {
		return
	}
	if it.kind == kindNone {
		r.header(it)
		return
	}
	if k := index.key(it.path); k != nil {
		r.once(k, it)
		return
	}
	r.stranger(it)
}

// header takes the header of a section.
func (r *reading) header(it item) {
	s, ok := index.sections[plain(it.path)]
	if !ok {
		r.section(it.path, it.line)
		return
	}
	if it.double && !s.double {
		r.fault(find.WrongUnit, it.path, it.line, "[[%s]]: this section stands once, in single brackets, [%s]", it.path, it.path)
	}
	if first, twice := r.headers[it.path]; twice {
		r.fault(find.Contradicts, it.path, it.line, "[%s] stands twice, first in line %d; put its keys together", it.path, first)
		return
	}
	r.headers[it.path] = it.line
}

// later refuses, once, a section of a later stage in which path stands or which
// it is.
func (r *reading) later(path string, line int) bool {
	for path != "" {
		s, ok := index.sections[path]
		if !ok || Reads(s.from) {
			path, _ = split(path)
			continue
		}
		if _, told := r.as[path]; !told {
			r.as[path] = ""
			r.fault(find.NotYet, path, line, "[%s], %s, comes with a later stage (%s); leave it out", path, s.meaning, s.from)
		}
		return true
	}
	return false
}

// section returns the section that a path stands for: itself, or what it was
// probably meant to be. An unknown one is reported once.
func (r *reading) section(path string, line int) string {
	if _, ok := index.sections[plain(path)]; ok {
		return path
	}
	if as, told := r.as[path]; told {
		return as
	}
	as := nearSection(path)
	if index.keys[path] != nil {
		as = ""
	}
	r.as[path] = as
	switch {
	case index.keys[path] != nil:
		_, name := split(path)
		r.fault(find.UnknownKey, path, line, "%s is a key, not a section; write %s = ...", path, name)
	case as != "":
		r.fault(find.UnknownKey, path, line, "there is no section [%s]; perhaps [%s]", clip(path), as)
	default:
		r.fault(find.UnknownKey, path, line, "there is no section [%s]; known are %s", clip(path), strings.Join(sectionNames(), ", "))
	}
	return as
}

// nearSection proposes a section: the only one with the same last part, or the
// nearest in spelling.
func nearSection(path string) string {
	_, last := split(path)
	var same []string
	for _, s := range sections {
		if _, name := split(s.name); name == last && Reads(s.from) {
			same = append(same, s.name)
		}
	}
	if len(same) == 1 {
		return same[0]
	}
	near, _ := stock.Nearest(path, sectionNames())
	return near
}

// sectionNames lists the sections that this version reads.
func sectionNames() []string {
	var names []string
	for _, s := range sections {
		if s.name != "" && Reads(s.from) {
			names = append(names, s.name)
		}
	}
	return names
}

// stranger reports a key that its section does not know.
func (r *reading) stranger(it item) {
	in, name := split(it.path)
	sec := r.section(in, it.line)
	if sec != in {
		if k := index.keys[join(sec, name)]; k != nil && sec != "" {
			it.path = join(sec, name)
			r.assumed = append(r.assumed, it)
		}
		return
	}
	where := "at the head of the file"
	if sec != "" {
		where = "in " + index.sections[plain(sec)].header()
	}
	advice, near := "", ""
	if other := homes(name); len(other) > 0 {
		advice = "; it belongs under [" + strings.Join(other, "], [") + "]"
		if len(other) == 1 && !index.sections[other[0]].optional {
			near = join(other[0], name)
		}
	} else if n, ok := stock.Nearest(name, namesIn(plain(sec))); ok {
		advice, near = "; perhaps "+n, join(sec, n)
	} else if n, ok := stock.Nearest(name, allNames()); ok {
		advice = "; perhaps " + n + " under [" + strings.Join(homes(n), "], [") + "]"
	}
	r.fault(find.UnknownKey, it.path, it.line, "there is no key %s %s%s", clip(name), where, advice)
	if near != "" {
		it.path = near
		r.assumed = append(r.assumed, it)
	}
}

// homes lists the sections that take a key of this name.
func homes(name string) []string {
	var out []string
	for _, k := range index.rows {
		if k.Name == name && k.Section != "" {
			out = append(append(out, k.Section), k.Also...)
		}
	}
	return out
}

// namesIn lists the keys of a section; the head of the file has few, and its
// sections are listed with them.
func namesIn(sec string) []string {
	var out []string
	for _, k := range index.rows {
		if k.Section == sec || slices.Contains(k.Also, sec) {
			out = append(out, k.Name)
		}
	}
	return out
}

// allNames lists the keys of all sections.
func allNames() []string {
	var out []string
	for _, k := range index.rows {
		if k.Section != "" {
			out = append(out, k.Name)
		}
	}
	return out
}

// once takes a known key that must not stand twice.
func (r *reading) once(k *Key, it item) {
	if first, twice := r.given[it.path]; twice {
		r.fault(find.Contradicts, it.path, it.line, "%s stands twice, first in line %d as %s", k.Name, first.line, clip(first.raw))
		return
	}
	r.put(k, it)
}

// put checks a value against its row and keeps it.
func (r *reading) put(k *Key, it item) {
	if !Reads(k.From) {
		r.given[it.path] = entry{line: it.line, raw: it.raw}
		r.fault(find.NotYet, it.path, it.line, "%s comes with a later stage (%s); leave it out", k.Name, k.From)
		return
	}
	e, found := k.decode(it)
	r.given[it.path] = e
	r.found = append(r.found, found...)
}

// again makes a reading of a job that can be changed without changing the job.
func (j *Job) again() *reading {
	return &reading{name: j.Name, given: maps.Clone(j.given), headers: maps.Clone(j.headers), as: map[string]string{}}
}
