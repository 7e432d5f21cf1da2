package job

import (
	"bytes"
	"errors"
	"fmt"
	"strconv"
	"strings"
	"unicode/utf8"

	"github.com/pelletier/go-toml/v2"
	"github.com/pelletier/go-toml/v2/unstable"

	"ringtrack/gear/find"
)

const (
	mostBytes    = 1 << 20 // of a file
	mostFindings = 100     // of one file; the reading stops there
	mostBroken   = 20      // lines that cannot be read; the reading stops there
	mostParts    = 6       // of a dotted key; none of ours has more than 3
)

// item is a key with its value, or the header of a section (kindNone).
type item struct {
	path   string // section.key
	line   int
	double bool // a header in double brackets
	value
}

// scanner turns the text of a file into items. It goes on after a line that it
// cannot read.
type scanner struct {
	data   []byte
	base   int // where the part now being parsed begins in data
	prefix string
	count  map[string]int // of each section in double brackets, so far
	items  []item
	found  []find.Finding
	broken int
	end    int // where the last good expression ends

	lineAt, lineNo int // the line number at an offset, kept for the next question
}

// scan returns the items of data in the order of the file, and what stands in it
// that is no TOML.
func scan(data []byte) ([]item, []find.Finding) {
	return scanUnder("", data)
}

// scanUnder is scan for text that stands under the header of a section.
func scanUnder(section string, data []byte) ([]item, []find.Finding) {
	if f, bad := unreadable(data); bad {
		return nil, []find.Finding{f}
	}
	s := &scanner{data: bytes.TrimPrefix(data, []byte("\ufeff")), lineNo: 1, prefix: section, count: map[string]int{}}
	s.parse()
	return s.items, s.found
}

// next returns the path of a section in double brackets with its number.
func (s *scanner) next(path string) string {
	n := s.count[path]
	s.count[path]++
	return numbered(path, n)
}

// unreadable refuses what is no text of a sensible size.
func unreadable(data []byte) (find.Finding, bool) {
	text, line := "", 0
	switch {
	case len(data) > mostBytes:
		text = fmt.Sprintf("the file holds %d bytes; a job file has at most %d", len(data), mostBytes)
	case bytes.HasPrefix(data, []byte("\xff\xfe")), bytes.HasPrefix(data, []byte("\xfe\xff")):
		text = "the file is UTF-16; save it as UTF-8"
	case bytes.IndexByte(data, 0) >= 0:
		text = "this is not a text file"
	case !utf8.Valid(data):
		text, line = "the file is not UTF-8; save it as UTF-8", foreignLine(data)
	default:
		return find.Finding{}, false
	}
	return fault(find.NotReadable, "file", line, text), true
}

// foreignLine returns the first line that is not UTF-8.
func foreignLine(data []byte) int {
	for i, line := range bytes.Split(data, []byte("\n")) {
		if !utf8.Valid(line) {
			return i + 1
		}
	}
	return 0
}

// parse reads expression after expression, and goes on behind broken ones.
func (s *scanner) parse() {
	var p unstable.Parser
	p.Reset(s.data)
	for {
		for p.NextExpression() {
			s.expression(&p, p.Expression())
		}
		var broken *unstable.ParserError
		if !errors.As(p.Error(), &broken) {
			return
		}
		at := s.base + int(p.Range(broken.Highlight).Offset)
		next, ok := s.repair(at, broken.Message)
		if !ok {
			return
		}
		s.base, s.end = next, next
		p.Reset(s.data[next:])
	}
}

// expression takes one header or one key with its value.
func (s *scanner) expression(p *unstable.Parser, e *unstable.Node) {
	if e.Kind == unstable.KeyValue {
		s.keyValue(p, e, s.prefix, 0)
		s.end = s.base + int(e.Raw.Offset+e.Raw.Length)
		return
	}
	path, first, last := s.key(e, "")
	s.end = last
	double := e.Kind == unstable.ArrayTable
	if double {
		path = s.next(path)
	}
	s.prefix = path
	s.items = append(s.items, item{path: path, line: s.line(first), double: double})
}

// keyValue takes a key with its value; a table in braces, or a list of such, is
// taken key by key.
func (s *scanner) keyValue(p *unstable.Parser, e *unstable.Node, prefix string, depth int) {
	path, first, last := s.key(e, prefix)
	n := e.Value()
	if n.Kind == unstable.InlineTable && depth < mostParts {
		s.inline(p, n, item{path: path, line: s.line(first)}, depth)
		return
	}
	if areTables(n) && depth < mostParts {
		for it := n.Children(); it.Next(); {
			s.inline(p, it.Node(), item{path: s.next(path), line: s.line(first), double: true}, depth)
		}
		return
	}
	raw := s.data[last : s.base+int(e.Raw.Offset+e.Raw.Length)]
	raw = bytes.TrimSpace(raw[bytes.IndexByte(raw, '=')+1:])
	s.items = append(s.items, item{path: path, line: s.line(first), value: newValue(n, raw)})
}

// inline takes a table in braces, key by key.
func (s *scanner) inline(p *unstable.Parser, table *unstable.Node, header item, depth int) {
	s.items = append(s.items, header)
	for it := table.Children(); it.Next(); {
		s.keyValue(p, it.Node(), header.path, depth+1)
	}
}

// areTables reports whether the value is a list of tables in braces.
func areTables(n *unstable.Node) bool {
	if n.Kind != unstable.Array {
		return false
	}
	some := false
	for it := n.Children(); it.Next(); some = true {
		if it.Node().Kind != unstable.InlineTable {
			return false
		}
	}
	return some
}

// key joins the parts of a dotted key behind prefix, and says where in data the
// first part begins and the last one ends.
func (s *scanner) key(e *unstable.Node, prefix string) (path string, first, last int) {
	parts := make([]string, 0, 4)
	if prefix != "" {
		parts = append(parts, prefix)
	}
	for it := e.Key(); it.Next(); {
		k := it.Node()
		if last == 0 {
			first = s.base + int(k.Raw.Offset)
		}
		last = s.base + int(k.Raw.Offset+k.Raw.Length)
		if len(parts) <= mostParts {
			parts = append(parts, bareKey(string(k.Data)))
		}
	}
	return strings.Join(parts, "."), first, last
}

// bareKey keeps a key that could be written without quotes and quotes others, so
// that a point within a key cannot be taken for one between keys.
func bareKey(k string) string {
	for i := range len(k) {
		if c := k[i]; !digit(c) && !letter(c) && c != '_' && c != '-' {
			return strconv.Quote(k)
		}
	}
	if k == "" {
		return `""`
	}
	return k
}

func letter(c byte) bool { return 'a' <= c|0x20 && c|0x20 <= 'z' }

// line returns the number of the line that holds offset.
func (s *scanner) line(offset int) int {
	if offset < s.lineAt {
		s.lineAt, s.lineNo = 0, 1
	}
	s.lineNo += bytes.Count(s.data[s.lineAt:offset], []byte("\n"))
	s.lineAt = offset
	return s.lineNo
}

// strict runs data through a complete TOML decoder: it knows the rules that no
// single expression can break. Its work grows with the square of the number of
// keys, so that it comes last, when nothing else is amiss and keys are few.
func strict(data []byte) []find.Finding {
	err := toml.Unmarshal(bytes.TrimPrefix(data, []byte("\ufeff")), &map[string]any{})
	if err == nil {
		return nil
	}
	line := 0
	var at *toml.DecodeError
	if errors.As(err, &at) {
		line, _ = at.Position()
	}
	text := "this is not valid TOML: " + strings.TrimPrefix(err.Error(), "toml: ")
	return []find.Finding{fault(find.NotReadable, "file", line, text)}
}

// fault makes a finding without numbers.
func fault(code find.Code, about string, line int, text string) find.Finding {
	return find.Finding{Code: code, Level: find.Fault, About: about, Line: line, Text: text}
}
