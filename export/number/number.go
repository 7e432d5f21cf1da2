// Package number writes the numbers of text formats: fixed decimals without
// the zeros at the end, never an exponent, never a comma, never minus zero.
//
// A number so written differs from the true one by at most half a unit of the
// last decimal. Nothing here depends on the locale. No function panics.
package number

import (
	"bytes"
	"math"
	"strconv"
)

// MaxDecimals is the largest number of decimals: more would show digits that a
// float64 of a millimetre or more does not hold.
const MaxDecimals = 15

// Append appends v to b.
//
//	v         any unit; the caller has made sure that it is finite
//	decimals  0..MaxDecimals, others are brought to the nearer bound
//
// Zeros at the end of the fraction are left out, and the point with them.
func Append(b []byte, v float64, decimals int) []byte {
	start := len(b)
	decimals = min(max(decimals, 0), MaxDecimals)
	b = strconv.AppendFloat(b, v, 'f', decimals, 64)
	if decimals > 0 && bytes.IndexByte(b[start:], '.') >= 0 {
		for b[len(b)-1] == '0' {
			b = b[:len(b)-1]
		}
		if b[len(b)-1] == '.' {
			b = b[:len(b)-1]
		}
	}
	if string(b[start:]) == "-0" {
		b = append(b[:start], '0')
	}
	return b
}

// Format returns v as Append writes it.
func Format(v float64, decimals int) string {
	return string(Append(make([]byte, 0, 24), v, decimals))
}

// Round returns v as a reader of Append's text will find it, to rounding.
func Round(v float64, decimals int) float64 {
	k := math.Pow(10, float64(min(max(decimals, 0), MaxDecimals)))
	return math.Round(v*k) / k
}

// Finite reports whether every value is a number, neither infinite nor NaN.
func Finite(values ...float64) bool {
	for _, v := range values {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return false
		}
	}
	return true
}
