package job

import (
	"math"
	"strconv"
	"strings"

	"ringtrack/gear/find"
	"ringtrack/gear/stock"
)

// loadValue takes the kinds of values that motors and materials have.
func (d *decoder) loadValue() {
	switch d.key.takes {
	case someQuantities:
		d.quantities()
	case aCurve:
		d.curve()
	case aFraction:
		d.fraction()
	case aShore:
		d.shore()
	}
}

// mostQuantities is how many numbers a list of them takes.
const mostQuantities = 8

// quantities takes one quantity, or a list of some.
func (d *decoder) quantities() {
	list := d.item.list
	switch {
	case d.item.kind != kindList:
		list = []value{d.item.value}
	case d.item.size == 0 || d.item.size > mostQuantities:
		d.wrong("one quantity, or a list of up to "+strconv.Itoa(mostQuantities)+" in brackets", "")
		return
	}
	for _, v := range list {
		n, ok := d.measure(v)
		if !ok || !d.within(n) {
			return
		}
		d.entry.nums = append(d.entry.nums, d.key.dim().inside(n))
	}
	d.entry.num, d.entry.ok = d.entry.nums[0], true
}

// curve takes pairs of speed and torque by rising speed.
func (d *decoder) curve() {
	const form = "points in brackets by rising speed, [[speed, torque], [speed, torque], ..]"
	if d.item.kind != kindList || d.item.size < 2 || d.item.size > mostMembers {
		d.wrong(form+", from 2 to "+strconv.Itoa(mostMembers), "")
		return
	}
	for _, p := range d.item.list {
		if p.kind != kindList || p.size != 2 {
			d.wrong(form, "")
			return
		}
		speed, ok1 := d.measureAs(p.list[0], Speed)
		torque, ok2 := d.measureAs(p.list[1], Torque)
		if !ok1 || !ok2 {
			return
		}
		if !(speed >= 0 && speed <= 1e5 && torque >= 0 && torque <= 1e7) {
			d.say(find.OutOfRange, "", "a point is %s rpm, %s N mm; allowed are 0 to 100000 rpm and 0 to 10000000 N mm", short(speed), short(torque))
			return
		}
		if n := len(d.entry.nums); n > 0 && !(speed > d.entry.nums[n-2]) {
			d.say(find.Contradicts, "", "the speeds must rise from point to point; %s rpm comes after %s", short(speed), short(d.entry.nums[n-2]))
			return
		}
		d.entry.nums = append(d.entry.nums, speed, torque)
	}
	if d.entry.nums[1] == 0 {
		d.say(find.OutOfRange, "", "the first point has no torque: such a motor turns nothing")
		return
	}
	d.entry.ok = true
}

// measureAs reads one number as a quantity of a dimension that is not the key's.
func (d *decoder) measureAs(v value, dim Dimension) (float64, bool) {
	switch v.kind {
	case kindInteger, kindFloat:
		if !math.IsNaN(v.num) && !math.IsInf(v.num, 0) {
			return v.num, true
		}
	case kindText:
		n, err := parseBare(v.text, dim)
		if err == nil {
			return n, true
		}
		d.say(find.WrongUnit, "", "%v", err)
		return 0, false
	}
	d.wrong("points of two finite numbers, or of quantities in quotes", "")
	return 0, false
}

// mostTerm bounds the numerator and denominator of a fraction: what float64
// holds as a whole number.
const mostTerm = 1 << 53

// fraction takes a product of fractions of whole numbers, in lowest terms.
func (d *decoder) fraction() {
	text := d.item.text
	if d.item.kind == kindInteger {
		text = d.item.raw
	} else if d.item.kind != kindText {
		d.wrong(`numbers of teeth in quotes, as "36/12 x 34/14 x 30"; a decimal number is not exact`, "")
		return
	}
	over, under := int64(1), int64(1)
	for _, f := range strings.FieldsFunc(text, func(r rune) bool { return r == 'x' || r == '*' || r == '×' }) {
		a, b, divided := strings.Cut(f, "/")
		if !divided {
			b = "1"
		}
		n, ok1 := teethNumber(a)
		m, ok2 := teethNumber(b)
		if !ok1 || !ok2 {
			d.say(find.WrongUnit, "", `%q is no fraction of whole numbers, 1 or more; write "36/12 x 34/14 x 30"`, clip(strings.TrimSpace(f)))
			return
		}
		over, under = lowest(over*n, under*m)
		if over > mostTerm/1000000 || under > mostTerm/1000000 {
			d.say(find.OutOfRange, "", "the fraction's terms are too large to keep exact")
			return
		}
	}
	if text == "" || over < under {
		d.say(find.OutOfRange, "", "the motor must turn at least once for a turn of the output shaft")
		return
	}
	d.entry.over, d.entry.under, d.entry.ok = over, under, true
}

// teethNumber reads a whole number from 1 to 1,000,000.
func teethNumber(s string) (int64, bool) {
	n, err := strconv.ParseInt(strings.TrimSpace(s), 10, 64)
	return n, err == nil && n >= 1 && n <= 1e6
}

// lowest returns a fraction in lowest terms.
func lowest(a, b int64) (int64, int64) {
	x, y := a, b
	for y != 0 {
		x, y = y, x%y
	}
	return a / x, b / x
}

// shore takes a Shore hardness, number and scale.
func (d *decoder) shore() {
	text := strings.ToUpper(strings.Join(strings.Fields(d.item.text), ""))
	text = strings.TrimPrefix(text, "SHORE")
	if d.item.kind != kindText || len(text) < 2 {
		d.wrong(`a Shore hardness in quotes, "95A" or "40D"`, "")
		return
	}
	scale := text[len(text)-1]
	n, err := strconv.ParseFloat(text[:len(text)-1], 64)
	if err != nil || scale != 'A' && scale != 'D' {
		d.wrong(`a Shore hardness, "95A" or "40D"`, "")
		return
	}
	if _, ok := stock.ModulusOfShore(scale, n); !ok {
		d.say(find.OutOfRange, "", "allowed is %s", d.key.Allowed)
		return
	}
	d.entry.num, d.entry.text, d.entry.ok = n, string(scale), true
}
