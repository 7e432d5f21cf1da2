package job

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode"

	"ringtrack/gear/find"
	"ringtrack/gear/stock"
)

// entry is a key that stands in the file: where, how it is written and, when the
// value is good, what it holds.
type entry struct {
	line  int
	raw   string
	ok    bool // the value is good; it stands in one of the fields below
	auto  bool
	num   float64 // units of a Job; a count as it is
	text  string
	flag  bool
	box   [3]float64
	words []string
	nums  []float64 // a list of numbers, or of pairs
	over  int64     // a fraction, in lowest terms
	under int64
}

// decode checks a value against the key's row.
func (k *Key) decode(it item) (entry, []find.Finding) {
	e := entry{line: it.line, raw: it.raw}
	d := decoder{key: k, item: it, entry: &e}
	if it.kind == kindText && it.text == "auto" && k.takes != aText {
		d.takeAuto()
		return e, d.found
	}
	switch k.takes {
	case aQuantity:
		d.quantity()
	case aCount:
		d.count()
	case aWord:
		d.word()
	case someWords:
		d.words()
	case aText:
		d.free()
	case aFlag:
		if e.flag, e.ok = it.flag, it.kind == kindFlag; !e.ok {
			d.wrong("true or false, without quotes", "")
		}
	case aBox:
		d.box()
	case aRange:
		d.span()
	case aMaterial:
		m, ok := stock.FindMaterial(it.text)
		d.name(m.Name, ok, "material", stock.MaterialNames())
	case aScrew:
		s, ok := stock.FindScrew(it.text)
		d.name(s.Name, ok, "screw size", stock.ScrewNames())
	case aSetScrew:
		s, ok := stock.FindSetScrew(it.text)
		d.name(s.Name, ok, "size of set screw", stock.SetScrewNames())
	default:
		d.loadValue()
	}
	return e, d.found
}

// decoder checks one value.
type decoder struct {
	key   *Key
	item  item
	entry *entry
	found []find.Finding
}

// say reports a fault of the value; cure is the value to write, empty for none.
func (d *decoder) say(code find.Code, cure, format string, args ...any) *find.Finding {
	text := fmt.Sprintf("%s = %s: ", d.key.Name, clip(d.item.raw)) + fmt.Sprintf(format, args...)
	f := fault(code, d.item.path, d.item.line, text)
	if cure != "" {
		f.Change = []find.Change{{Key: d.item.path, Value: cure}}
	}
	d.found = append(d.found, f)
	return &d.found[len(d.found)-1]
}

// wrong reports a value of the wrong kind.
func (d *decoder) wrong(wanted, cure string) {
	if cure != "" {
		wanted += "; write " + clip(cure)
	}
	d.say(find.WrongUnit, cure, "this takes %s", wanted)
}

// takeAuto takes the word auto where the key knows it.
func (d *decoder) takeAuto() {
	switch {
	case Reads(d.key.auto):
		d.entry.auto, d.entry.ok = true, true
	case d.key.auto == "":
		d.say(find.WrongUnit, "", "the tool does not choose this one; allowed is %s", d.key.Allowed)
	default:
		d.say(find.NotYet, "", "auto comes with a later stage (%s); leave the key out or give a value", d.key.auto)
	}
}

// quantity takes a number or text with a unit.
func (d *decoder) quantity() {
	v, ok := d.measure(d.item.value)
	if ok {
		d.entry.num, d.entry.ok = d.key.dim().inside(v), d.within(v)
	}
}

// measure reads one number in the unit of the key.
func (d *decoder) measure(v value) (float64, bool) {
	switch v.kind {
	case kindInteger, kindFloat:
		if math.IsNaN(v.num) || math.IsInf(v.num, 0) {
			d.say(find.OutOfRange, "", "this is not a finite number; allowed is %s", d.limits())
			return 0, false
		}
		return v.num, true
	case kindText:
		n, err := parseBare(v.text, d.key.dim())
		if err == nil {
			return n, true
		}
		d.misread(err)
		return 0, false
	}
	d.wrong(d.key.dim().spelled()+", not "+v.kind.word(), "")
	return 0, false
}

// misread reports a text that is no quantity of the key's dimension.
func (d *decoder) misread(err error) {
	e, ok := err.(*QuantityError)
	if !ok {
		d.say(find.WrongUnit, "", "%v", err)
		return
	}
	cure := ""
	if e.Right != "" && d.item.kind == kindText {
		cure = strconv.Quote(e.Right)
	}
	d.say(e.Code, cure, "%v", e)
}

// within checks the range of a number in the unit of the key.
func (d *decoder) within(v float64) bool {
	lo, hi := d.key.lo, d.key.hi
	if v >= lo && v <= hi {
		return true
	}
	limit := lo
	if v > hi {
		limit = hi
	}
	cure := short(limit)
	if d.item.kind == kindList {
		cure = ""
	}
	var f *find.Finding
	if v > hi && d.key.beyond != "" {
		f = d.say(find.NotYet, cure, "this needs %s; this one reads up to %s", d.key.beyond, short(hi))
	} else {
		f = d.say(find.OutOfRange, cure, "allowed is %s", d.limits())
	}
	f.Found, f.Limit, f.Unit = find.Num(v), find.Num(limit), d.key.unit()
	return false
}

// limits says the range with its unit.
func (d *decoder) limits() string {
	return strings.TrimSpace(span(d.key.lo, d.key.hi) + " " + d.key.Unit)
}

// count takes a whole number written as one.
func (d *decoder) count() {
	it := d.item
	if it.kind == kindInteger {
		d.entry.num, d.entry.ok = it.num, d.within(it.num)
		return
	}
	cure, n := "", it.num
	if it.kind == kindText {
		n = float(it.text)
	}
	if (it.kind == kindText || it.kind == kindFloat) && n == math.Trunc(n) && n >= d.key.lo && n <= d.key.hi {
		cure = short(n)
	}
	d.wrong("a whole number without point, unit or quotes", cure)
}

// word takes one of the key's words.
func (d *decoder) word() {
	if d.item.kind != kindText {
		d.wrong("one of the words "+d.list()+", in quotes", "")
		return
	}
	d.entry.text, d.entry.ok = d.item.text, d.known(d.item.text, true)
}

// list names the words that this version takes.
func (d *decoder) list() string { return either(d.key.choices()) }

// known checks one word against the key's words; alone says that it is the
// whole value, so that a better word is a cure.
func (d *decoder) known(word string, alone bool) bool {
	all := make([]string, len(d.key.words))
	for i, c := range d.key.words {
		all[i] = c.word
		if c.word != word {
			continue
		}
		if !Reads(c.from) {
			d.say(find.NotYet, "", "%s comes with a later stage (%s); this version takes %s", word, c.from, d.list())
		}
		return Reads(c.from)
	}
	near, ok := stock.Nearest(word, d.key.choices())
	cure := ""
	if ok {
		if alone {
			cure = strconv.Quote(near)
		}
		near = fmt.Sprintf("; perhaps %q", near)
	}
	d.say(find.OutOfRange, cure, "%q is not one of %s%s", clip(word), d.list(), near)
	return false
}

// words takes a list of words, each once.
func (d *decoder) words() {
	it := d.item
	if it.kind != kindList || it.size == 0 || it.size > len(d.key.words) {
		cure := ""
		if it.kind == kindText {
			cure = "[" + strconv.Quote(it.text) + "]"
		}
		d.wrong("a list in brackets with at least one of "+d.list()+", each once", cure)
		return
	}
	d.entry.ok = true
	for i, v := range it.list {
		switch {
		case v.kind != kindText:
			d.wrong("a list of words in quotes", "")
			d.entry.ok = false
		case contains(d.entry.words[:min(i, len(d.entry.words))], v.text):
			d.say(find.Contradicts, "", "%q stands twice", clip(v.text))
			d.entry.ok = false
		case !d.known(v.text, false):
			d.entry.ok = false
		}
		d.entry.words = append(d.entry.words, v.text)
	}
}

func contains(words []string, word string) bool {
	for _, w := range words {
		if w == word {
			return true
		}
	}
	return false
}

// free takes a text for people.
func (d *decoder) free() {
	it := d.item
	if it.kind != kindText {
		d.wrong("text in quotes", "")
		return
	}
	n := len([]rune(it.text))
	if float64(n) > d.key.hi {
		f := d.say(find.OutOfRange, "", "the text has %d characters; allowed are %g", n, d.key.hi)
		f.Found, f.Limit = find.Num(float64(n)), find.Num(d.key.hi)
		return
	}
	if strings.ContainsFunc(it.text, unicode.IsControl) {
		d.say(find.OutOfRange, "", "the text must stand on one line, without control characters")
		return
	}
	d.entry.text, d.entry.ok = it.text, true
}

// box takes three lengths.
func (d *decoder) box() {
	it := d.item
	if it.kind != kindList || it.size != 3 {
		d.wrong("three lengths in brackets, "+d.key.preset, "")
		return
	}
	d.entry.ok = true
	for i, v := range it.list {
		n, ok := d.measure(v)
		if !ok || !d.within(n) {
			d.entry.ok = false
			return
		}
		d.entry.box[i] = d.key.dim().inside(n)
	}
}

// name takes a name of a table in stock.
func (d *decoder) name(found string, ok bool, what string, all []string) {
	if d.item.kind != kindText {
		d.wrong("the name of a "+what+", in quotes", "")
		return
	}
	if d.entry.text, d.entry.ok = found, ok; ok {
		return
	}
	cure := ""
	near, close := stock.Nearest(d.item.text, all)
	if close {
		cure = strconv.Quote(near)
		near = fmt.Sprintf("; perhaps %q", near)
	}
	d.say(find.OutOfRange, cure, "there is no such %s%s; known are %s", what, near, strings.Join(all, ", "))
}
