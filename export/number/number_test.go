package number_test

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"
	"ringtrack/export/number"
)

func TestFormat(t *testing.T) {
	for _, tt := range []struct {
		v        float64
		decimals int
		want     string
	}{
		{0, 3, "0"}, {math.Copysign(0, -1), 3, "0"}, {-0.0004, 3, "0"}, {-0.0006, 3, "-0.001"},
		{1, 7, "1"}, {100, 0, "100"}, {100, 7, "100"}, {-100, 2, "-100"}, {1.5, 7, "1.5"},
		{1e21, 2, "1000000000000000000000"}, {1e-21, 7, "0"}, {123456.789, 1, "123456.8"},
		{0.1, 15, "0.1"}, {2, -4, "2"}, {1.0 / 3, 99, "0.333333333333333"}, {9.9999, 2, "10"},
	} {
		if got := number.Format(tt.v, tt.decimals); got != tt.want {
			t.Errorf("Format(%g, %d) = %q, want %q", tt.v, tt.decimals, got, tt.want)
		}
	}
}

func TestAppendKeepsWhatStands(t *testing.T) {
	if got := string(number.Append([]byte("0.500 "), 100, 0)); got != "0.500 100" {
		t.Errorf("got %q", got)
	}
}

func TestReadsBackWithinHalfADigit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := rapid.Float64Range(-1e6, 1e6).Draw(t, "v")
		d := rapid.IntRange(0, 9).Draw(t, "decimals")
		s := number.Format(v, d)
		if strings.ContainsAny(s, "eE,+") || s == "-0" {
			t.Fatalf("%q", s)
		}
		back, err := strconv.ParseFloat(s, 64)
		if err != nil {
			t.Fatal(err)
		}
		unit := math.Pow(10, -float64(d))
		if math.Abs(back-v) > unit/2+1e-9*unit+2e-10 {
			t.Fatalf("%v written as %s", v, s)
		}
		if r := number.Round(v, d); math.Abs(r-back) > 2e-10 && math.Abs(math.Abs(r-back)-unit) > 2e-10 {
			t.Fatalf("Round(%v) = %v, written %v", v, r, back)
		}
	})
}

func TestFinite(t *testing.T) {
	if !number.Finite(1, -2, 0) || number.Finite(1, math.NaN()) || number.Finite(math.Inf(-1)) {
		t.Error("wrong")
	}
}

func BenchmarkAppend(b *testing.B) {
	buf := make([]byte, 0, 32)
	for b.Loop() {
		buf = number.Append(buf[:0], 143.7392615, 7)
	}
}
