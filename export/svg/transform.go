package svg

import (
	"fmt"
	"math"
	"strings"
)

// transform reads a transform attribute: functions, each within the one
// before it.
func transform(s string) (affine, error) {
	m := identity()
	rest := strings.Trim(s, " \t\r\n,")
	for n := 0; rest != ""; n++ {
		name, after, ok := strings.Cut(rest, "(")
		args, next, closed := strings.Cut(after, ")")
		if !ok || !closed || n == 100 {
			return m, fmt.Errorf("the transform %q is not understood", clip(s))
		}
		v, err := numbers(args, 6)
		if err != nil {
			return m, fmt.Errorf("transform: %w", err)
		}
		f, ok := function(strings.TrimSpace(name), v)
		if !ok {
			return m, fmt.Errorf("the transform %q with %d numbers is not understood", clip(strings.TrimSpace(name)), len(v))
		}
		m = m.then(f)
		rest = strings.TrimLeft(next, " \t\r\n,")
	}
	if !m.finite() {
		return m, fmt.Errorf("the transform %q is too large", clip(s))
	}
	return m, nil
}

// function returns one transform function's map.
func function(name string, v []float64) (affine, bool) {
	deg := math.Pi / 180
	switch n := len(v); {
	case name == "matrix" && n == 6:
		return affine{v[0], v[1], v[2], v[3], v[4], v[5]}, true
	case name == "translate" && n == 1:
		return affine{a: 1, d: 1, e: v[0]}, true
	case name == "translate" && n == 2:
		return affine{a: 1, d: 1, e: v[0], f: v[1]}, true
	case name == "scale" && n == 1:
		return affine{a: v[0], d: v[0]}, true
	case name == "scale" && n == 2:
		return affine{a: v[0], d: v[1]}, true
	case name == "rotate" && n == 1:
		s, c := sincos(v[0])
		return affine{a: c, b: s, c: -s, d: c}, true
	case name == "rotate" && n == 3:
		s, c := sincos(v[0])
		there := affine{a: 1, d: 1, e: v[1], f: v[2]}
		back := affine{a: 1, d: 1, e: -v[1], f: -v[2]}
		return there.then(affine{a: c, b: s, c: -s, d: c}).then(back), true
	case name == "skewX" && n == 1:
		return affine{a: 1, d: 1, c: math.Tan(v[0] * deg)}, true
	case name == "skewY" && n == 1:
		return affine{a: 1, d: 1, b: math.Tan(v[0] * deg)}, true
	}
	return affine{}, false
}

// sincos of degrees, exact for whole quarter turns.
func sincos(deg float64) (s, c float64) {
	switch math.Mod(deg, 360) {
	case 0:
		return 0, 1
	case 90, -270:
		return 1, 0
	case 180, -180:
		return 0, -1
	case 270, -90:
		return -1, 0
	}
	return math.Sincos(deg * math.Pi / 180)
}
