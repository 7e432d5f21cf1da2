package job

import (
	"math"
	"strconv"
	"strings"

	"github.com/pelletier/go-toml/v2/unstable"
)

// valueKind is what stands behind an equals sign.
type valueKind int

const (
	kindNone    valueKind = iota // a section's header: no value
	kindInteger                  // 15
	kindFloat                    // 2.5, inf, nan
	kindText                     // "12 mm"
	kindFlag                     // true, false
	kindList                     // [1, 2]
	kindOther                    // a date, a time, a table within a list
)

// word names the kind in a sentence.
func (k valueKind) word() string {
	return [...]string{"nothing", "a whole number", "a number", "text", "true or false", "a list", "a date, time or table"}[k]
}

// value is one value of the file, not yet checked against a key.
type value struct {
	kind valueKind
	raw  string // as written; empty for members of a list that are lists
	text string
	num  float64
	flag bool
	list []value // the first mostMembers members
	size int     // how many members there are
}

// mostMembers is how many members of a list are kept: more than any key takes.
const mostMembers = 32

// newValue converts a node of the parser.
func newValue(n *unstable.Node, raw []byte) value {
	v := value{kind: kindOther, raw: string(raw)}
	switch n.Kind {
	case unstable.String:
		v.kind, v.text = kindText, string(n.Data)
	case unstable.Bool:
		v.kind, v.flag = kindFlag, string(n.Data) == "true"
	case unstable.Integer:
		v.kind, v.num = kindInteger, integer(string(n.Data))
	case unstable.Float:
		v.kind, v.num = kindFloat, float(string(n.Data))
	case unstable.Array:
		v.kind = kindList
		for it := n.Children(); it.Next(); v.size++ {
			if v.size < mostMembers {
				v.list = append(v.list, newMember(it.Node()))
			}
		}
	}
	return v
}

// newMember converts a member of a list: pairs, of a list in it; lists in that
// are not followed.
func newMember(n *unstable.Node) value {
	if n.Kind == unstable.Array {
		v := value{kind: kindList}
		for it := n.Children(); it.Next(); v.size++ {
			switch c := it.Node(); {
			case v.size >= 2:
			case c.Kind == unstable.Array:
				v.list = append(v.list, value{kind: kindList})
			default:
				v.list = append(v.list, newMember(c))
			}
		}
		return v
	}
	v := newValue(n, n.Data)
	if n.Kind == unstable.String {
		v.raw = strconv.Quote(v.text)
	}
	return v
}

// integer reads a whole number of TOML, 0x, 0o and 0b included.
func integer(s string) float64 {
	s = strings.ReplaceAll(s, "_", "")
	if v, err := strconv.ParseInt(s, 0, 64); err == nil {
		return float64(v)
	}
	return float(s)
}

// float reads a decimal number of TOML; one too large to hold is infinite.
func float(s string) float64 {
	v, err := strconv.ParseFloat(strings.ReplaceAll(s, "_", ""), 64)
	if err != nil && !math.IsInf(v, 0) {
		return math.NaN()
	}
	return v
}
