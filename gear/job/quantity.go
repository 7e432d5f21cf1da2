package job

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"ringtrack/gear/find"
	"ringtrack/gear/stock"
)

// Dimension is what a quantity measures.
type Dimension int

// The dimensions, with the unit of a bare number and, where it differs, the one
// that ParseQuantity returns.
const (
	Number      Dimension = iota // no unit
	Length                       // mm
	Angle                        // deg; returned in radians
	Speed                        // rpm
	Torque                       // N mm
	Force                        // N
	Mass                         // kg
	Voltage                      // V
	Current                      // A
	Stress                       // MPa
	Temperature                  // degC
	Time                         // s
	Percent                      // %; returned as a fraction
	PerInch                      // 1/in: diametral pitch
	Inertia                      // kg mm2
)

// unit is one unit: bare = (v - zero) * times / over.
type unit struct {
	name              string
	dim               Dimension
	times, over, zero float64
}

// Exact by definition: inch, pound, standard gravity.
const (
	inch = 25.4            // mm
	lb   = 0.45359237      // kg
	kgf  = 9.80665         // N
	lbf  = lb * kgf        // N
	ozf  = lbf / 16        // N
	tilt = math.Pi / 180.0 // rad in one degree
)

// units lists every unit; the first of a dimension is that of a bare number.
var units = []unit{
	{"mm", Length, 1, 1, 0}, {"um", Length, 1, 1000, 0}, {"cm", Length, 10, 1, 0}, {"m", Length, 1000, 1, 0}, {"in", Length, inch, 1, 0},
	{"deg", Angle, 1, 1, 0}, {"rad", Angle, 1, tilt, 0},
	{"rpm", Speed, 1, 1, 0}, {"deg/s", Speed, 1, 6, 0},
	{"N mm", Torque, 1, 1, 0}, {"N cm", Torque, 10, 1, 0}, {"N m", Torque, 1000, 1, 0}, {"kgf cm", Torque, kgf * 10, 1, 0},
	{"ozf in", Torque, ozf * inch, 1, 0}, {"lbf in", Torque, lbf * inch, 1, 0},
	{"N", Force, 1, 1, 0}, {"kgf", Force, kgf, 1, 0}, {"lbf", Force, lbf, 1, 0},
	{"kg", Mass, 1, 1, 0}, {"g", Mass, 1, 1000, 0}, {"lb", Mass, lb, 1, 0},
	{"V", Voltage, 1, 1, 0},
	{"A", Current, 1, 1, 0}, {"mA", Current, 1, 1000, 0},
	{"MPa", Stress, 1, 1, 0}, {"GPa", Stress, 1000, 1, 0},
	{"degC", Temperature, 1, 1, 0}, {"degF", Temperature, 5, 9, 32},
	{"s", Time, 1, 1, 0}, {"min", Time, 60, 1, 0},
	{"%", Percent, 1, 1, 0},
	{"1/in", PerInch, 1, 1, 0},
	{"kg mm2", Inertia, 1, 1, 0}, {"g cm2", Inertia, 1, 10, 0}, {"kg m2", Inertia, 1e6, 1, 0},
}

// Units returns the units that dim is read in, that of a bare number first.
func (dim Dimension) Units() []string {
	var names []string
	for _, u := range units {
		if u.dim == dim {
			names = append(names, u.name)
		}
	}
	return names
}

// inside turns a value in the unit of a bare number into the one used inside.
func (dim Dimension) inside(v float64) float64 {
	switch dim {
	case Angle:
		return v * math.Pi / 180
	case Percent:
		return v / 100
	}
	return v
}

// QuantityError says why a text is not a quantity of the dimension asked for.
type QuantityError struct {
	Code   find.Code // find.WrongUnit or find.OutOfRange
	Text   string    // what was read, shortened
	Reason string    // in words, without the text
	Right  string    // the right spelling, empty when nobody can know it
}

// Error names the text and the reason.
func (e *QuantityError) Error() string { return fmt.Sprintf("%q %s", e.Text, e.Reason) }

// ParseQuantity reads "NUMBER" or "NUMBER UNIT" (the blank may be left out) as a
// quantity of the given dimension.
//
//	text  a decimal number with a point, then a unit of the dimension or nothing
//	dim   what it must measure
//
// The value comes back in the unit used inside: mm, rad, rpm, N mm, N, kg, V, A,
// MPa, degC, s, a fraction, 1/in, kg mm2. Its relative error is below 1e-15 (one rounding
// each for reading, factor and division).
//
// Errors: *QuantityError with find.WrongUnit for a decimal comma (with the right
// spelling), an unknown unit, one of another dimension, or no number at all; with
// find.OutOfRange for NaN, infinities and numbers too large to hold.
func ParseQuantity(text string, dim Dimension) (float64, error) {
	v, err := parseBare(text, dim)
	if err != nil {
		return 0, err
	}
	return dim.inside(v), nil
}

// parseBare reads text as ParseQuantity does and returns the value in the unit
// of a bare number.
func parseBare(text string, dim Dimension) (float64, error) {
	s := strings.TrimSpace(text)
	n := numberLen(s)
	if n == 0 {
		return 0, noNumber(s, dim)
	}
	rest := s[n:]
	if len(rest) > 1 && rest[0] == ',' && digit(rest[1]) {
		return 0, decimalComma(s, dim)
	}
	v, err := strconv.ParseFloat(s[:n], 64)
	if err != nil {
		return 0, &QuantityError{find.OutOfRange, clip(s), "is too large a number", ""}
	}
	name := strings.TrimSpace(rest)
	if name == "" {
		return v, nil
	}
	u, err := unitOf(s, name, dim)
	if err != nil {
		return 0, err
	}
	if v = (v - u.zero) * u.times / u.over; math.IsInf(v, 0) {
		return 0, &QuantityError{find.OutOfRange, clip(s), "is too large a number", ""}
	}
	return v, nil
}

// numberLen returns the length of the decimal number that s begins with, 0 when
// it begins with none.
func numberLen(s string) int {
	i, digits := 0, 0
	if i < len(s) && (s[i] == '+' || s[i] == '-') {
		i++
	}
	for ; i < len(s) && digit(s[i]); i++ {
		digits++
	}
	if i < len(s) && s[i] == '.' {
		for i++; i < len(s) && digit(s[i]); i++ {
			digits++
		}
	}
	if digits == 0 {
		return 0
	}
	if k := i + 1; i < len(s) && (s[i] == 'e' || s[i] == 'E') {
		if k < len(s) && (s[k] == '+' || s[k] == '-') {
			k++
		}
		for ; k < len(s) && digit(s[k]); k++ {
			i = k + 1
		}
	}
	return i
}

func digit(c byte) bool { return '0' <= c && c <= '9' }

// noNumber explains a text that does not begin with a number.
func noNumber(s string, dim Dimension) error {
	switch strings.ToLower(strings.TrimLeft(s, "+-")) {
	case "nan", "inf", "infinity":
		return &QuantityError{find.OutOfRange, clip(s), "is not a finite number", ""}
	}
	return &QuantityError{find.WrongUnit, clip(s), "is not " + dim.spelled(), ""}
}

// decimalComma explains a number written with a comma. With several commas the
// right spelling is anybody's guess, and none is given.
func decimalComma(s string, dim Dimension) error {
	e := &QuantityError{find.WrongUnit, clip(s), "is not " + dim.spelled(), ""}
	right := strings.Replace(s, ",", ".", 1)
	if _, err := parseBare(right, dim); err == nil {
		e.Right = right
		e.Reason = fmt.Sprintf("has a decimal comma; write a point: %s", right)
	}
	return e
}

// unitOf finds the unit called name, blanks not counting, and checks that it
// measures dim.
func unitOf(s, name string, dim Dimension) (unit, error) {
	joined := strings.Join(strings.Fields(name), "")
	for _, u := range units {
		if strings.ReplaceAll(u.name, " ", "") != joined {
			continue
		}
		if u.dim == dim {
			return u, nil
		}
		return unit{}, &QuantityError{find.WrongUnit, clip(s), fmt.Sprintf("is in %s: %s", u.name, dim.wanted()), ""}
	}
	e := &QuantityError{find.WrongUnit, clip(s), fmt.Sprintf("has the unit %q, which is not known: %s", clip(name), dim.wanted()), ""}
	if near, ok := stock.Nearest(name, dim.Units()); ok {
		right := s[:numberLen(s)] + " " + near
		e.Right, e.Reason = right, e.Reason+fmt.Sprintf("; perhaps %s", right)
	}
	return unit{}, e
}

// wanted says which units dim takes.
func (dim Dimension) wanted() string {
	if dim == Number {
		return "this takes a number without a unit"
	}
	return "this takes " + either(dim.Units())
}

// spelled says how a quantity of dim is written.
func (dim Dimension) spelled() string {
	if dim == Number {
		return "a number"
	}
	return "a number, or a number with its unit (" + strings.Join(dim.Units(), ", ") + ")"
}

// either joins words: a, b or c.
func either(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " or " + words[len(words)-1]
}

// clip shortens what a finding quotes to 40 characters.
func clip(s string) string {
	const most = 40
	if r := []rune(s[:min(len(s), 4*most+4)]); len(r) > most {
		return string(r[:most-1]) + "…"
	}
	return s
}
