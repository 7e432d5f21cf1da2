package job

import (
	"fmt"
	"strconv"
	"strings"

	"ringtrack/gear/stock"
)

// Key is one row of the table of keys.
type Key struct {
	Section string   // the section it stands under, "" for the head of the file
	Also    []string // further sections that take the same key
	Name    string
	Unit    string // of a bare number: mm, deg, %, 1/in, x m (multiples of the module), or none
	Default string // what holds when the key is left out, in words or as written
	Allowed string // what it takes
	Meaning string // in one line
	Usual   string // usual choices
	Source  string // of the default
	From    string // the stage that brings it; Reads says whether this version has it

	takes    takes
	lo, hi   float64  // in Unit, both allowed
	preset   string   // the default as written in a file, where it is a constant
	auto     string   // the stage that reads "auto"; empty: never
	words    []choice // for aWord and someWords
	kinds    string   // the kinds of making it belongs to, "a or b"; empty: all
	beyond   string   // who reads a value above hi; empty: nobody
	required bool
	constant entry // preset, decoded
}

// The stages that this version reads, in the order in which they came.
const (
	first   = "teeth"
	fixings = "fixings"
	budget  = "budget"
)

// Reads reports whether this version reads the keys of a stage.
func Reads(stage string) bool {
	return stage == first || stage == fixings || stage == budget || stage == load || stage == templates
}

// takes is what a key takes.
type takes int

const (
	nothing        takes = iota // a key of a later stage
	aQuantity                   // a number, or text with a unit
	aCount                      // a whole number
	aWord                       // one of words
	someWords                   // a list of words
	aText                       // any text, hi characters at most
	aFlag                       // true or false
	aBox                        // a list of three quantities
	aRange                      // a list of two quantities, the lower one first
	aMaterial                   // a name in stock
	aScrew                      // a name in stock
	aSetScrew                   // a name in stock
	someQuantities              // a quantity, or a list of some
	aCurve                      // points of speed and torque
	aFraction                   // a product of fractions of whole numbers
	aShore                      // a Shore hardness
)

// choice is a word that a key takes, with the stage that reads it.
type choice struct{ word, from string }

// section is one section of the file.
type section struct {
	name, from, meaning string
	double              bool // stands in double brackets and may be repeated, mostRepeats times
	optional            bool // its absence means something
}

// tables holds the table of keys with its lookups. It is made once and never
// changed.
type tables struct {
	rows     []*Key
	keys     map[string]*Key // by section.key
	sections map[string]section
}

var index = newTables()

// key returns the row of a path, nil when there is none. Numbers of repeated
// sections do not count.
func (t tables) key(path string) *Key { return t.keys[plain(path)] }

// newTables joins the rows and makes the lookups.
func newTables() tables {
	t := tables{keys: map[string]*Key{}, sections: map[string]section{}}
	for _, s := range sections {
		t.sections[s.name] = s
	}
	for _, part := range [][]Key{headKeys, teethKeys, memberKeys, boreKeys, couplingKeys, hubKeys, setScrewKeys, flangeKeys, stepKeys, boltKeys, makingKeys, budgetKeys, outputKeys, paperKeys, flexibleKeys, printKeys, cutKeys, figureKeys, motorKeys, platformKeys, sheetKeys, laterKeys} {
		for i := range part {
			k := part[i]
			k.finish()
			t.rows = append(t.rows, &k)
			for _, s := range append([]string{k.Section}, k.Also...) {
				t.keys[join(s, k.Name)] = &k
			}
		}
	}
	return t
}

// finish fills in what follows from the other columns of the row.
func (k *Key) finish() {
	if k.From == "" {
		k.From = first
	}
	if k.Allowed == "" {
		k.Allowed = k.allowed()
	}
	if k.preset == "" {
		return
	}
	if k.Default == "" {
		k.Default = k.preset
	}
	items, _ := scan([]byte("x = " + k.preset))
	for _, it := range items {
		k.constant, _ = k.decode(it)
	}
}

// allowed says what the key takes.
func (k *Key) allowed() string {
	var s string
	switch k.takes {
	case aQuantity:
		s = span(k.lo, k.hi)
	case aCount:
		s = "whole, " + span(k.lo, k.hi)
	case aWord, someWords:
		s = strings.Join(k.choices(), ", ")
	case aFlag:
		s = "true, false"
	case aBox:
		s = "[x, y, z], each " + span(k.lo, k.hi)
	case aRange:
		s = "[least, greatest], each " + span(k.lo, k.hi)
	case aText:
		s = fmt.Sprintf("text of at most %g characters", k.hi)
	case aMaterial:
		s = strings.Join(stock.MaterialNames(), ", ")
	case aScrew:
		s = strings.Join(stock.ScrewNames(), ", ")
	case aSetScrew:
		s = strings.Join(stock.SetScrewNames(), ", ")
	}
	if Reads(k.auto) {
		s += `, or "auto"`
	}
	return s
}

// choices returns the words that this version takes.
func (k *Key) choices() []string {
	var out []string
	for _, c := range k.words {
		if Reads(c.from) {
			out = append(out, c.word)
		}
	}
	return out
}

// dim returns what a quantity of the key measures.
func (k *Key) dim() Dimension {
	switch k.Unit {
	case "mm":
		return Length
	case "deg":
		return Angle
	case "degC":
		return Temperature
	case "%":
		return Percent
	case "1/in":
		return PerInch
	}
	for _, u := range units {
		if u.name == k.Unit {
			return u.dim
		}
	}
	return Number
}

// unit returns the unit for a finding: multiples of the module have none.
func (k *Key) unit() string {
	if k.Unit == "x m" {
		return ""
	}
	return k.Unit
}

// Paths returns the key's full names, one for each section that takes it.
func (k Key) Paths() []string {
	paths := []string{join(k.Section, k.Name)}
	for _, s := range k.Also {
		paths = append(paths, join(s, k.Name))
	}
	return paths
}

// Keys returns the table of keys: those of the job file's head, then section by
// section, those of later stages last. Changing the result changes nothing here.
func Keys() []Key {
	out := make([]Key, len(index.rows))
	for i, k := range index.rows {
		out[i] = *k
		out[i].Also = append([]string(nil), k.Also...)
		out[i].words = append([]choice(nil), k.words...)
	}
	return out
}

// now and later make rows of choices.
func now(words ...string) []choice { return later(first, words...) }

func later(from string, words ...string) []choice {
	var out []choice
	for _, w := range words {
		out = append(out, choice{w, from})
	}
	return out
}

// join makes section.key; the head of the file has no section.
func join(section, name string) string {
	if section == "" {
		return name
	}
	return section + "." + name
}

// split is the reverse of join. Points within a quoted part do not count.
func split(path string) (section, name string) {
	at, quoted := -1, false
	for i := 0; i < len(path); i++ {
		switch c := path[i]; {
		case c == '"':
			quoted = !quoted
		case c == '\\':
			i++
		case c == '.' && !quoted:
			at = i
		}
	}
	return path[:max(at, 0)], path[at+1:]
}

// span says a range.
func span(lo, hi float64) string { return short(lo) + " to " + short(hi) }

// short writes a number with as few digits as hold it, nine at most.
func short(v float64) string {
	r, err := strconv.ParseFloat(strconv.FormatFloat(v, 'g', 9, 64), 64)
	if err != nil {
		r = v
	}
	if r != 0 && (r > 1e12 || r < -1e12 || (r < 1e-9 && r > -1e-9)) {
		return strconv.FormatFloat(r, 'g', -1, 64)
	}
	return strconv.FormatFloat(r, 'f', -1, 64)
}
