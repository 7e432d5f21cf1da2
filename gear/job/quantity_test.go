package job_test

import (
	"errors"
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"ringtrack/gear/find"
	"ringtrack/gear/job"
)

// The definitions: inch 25.4 mm, pound 0.45359237 kg, standard gravity 9.80665
// m/s2 (all exact).
func TestEveryUnit(t *testing.T) {
	for _, tt := range []struct {
		text string
		dim  job.Dimension
		want float64
	}{
		{"2.5", job.Length, 2.5},
		{"2.5mm", job.Length, 2.5},
		{" 2.5  mm ", job.Length, 2.5},
		{"-.5 mm", job.Length, -0.5},
		{"+1.5e1 mm", job.Length, 15},
		{"80 um", job.Length, 0.08},
		{"1.2 cm", job.Length, 12},
		{"0.256 m", job.Length, 256},
		{"0.5 in", job.Length, 12.7},
		{"180", job.Angle, math.Pi},
		{"90 deg", job.Angle, math.Pi / 2},
		{"1 rad", job.Angle, 1},
		{"200 rpm", job.Speed, 200},
		{"90 deg/s", job.Speed, 15},
		{"3 N mm", job.Torque, 3},
		{"3 N cm", job.Torque, 30},
		{"0.4 N m", job.Torque, 400},
		{"0.4Nm", job.Torque, 400},
		{"1 kgf cm", job.Torque, 98.0665},
		{"1 ozf in", job.Torque, 7.06155181422604},
		{"1 lbf in", job.Torque, 112.9848290276167},
		{"2 N", job.Force, 2},
		{"1 kgf", job.Force, 9.80665},
		{"1 lbf", job.Force, 4.4482216152605},
		{"250 g", job.Mass, 0.25},
		{"3 kg", job.Mass, 3},
		{"1 lb", job.Mass, 0.45359237},
		{"12 V", job.Voltage, 12},
		{"350 mA", job.Current, 0.35},
		{"2 A", job.Current, 2},
		{"50 MPa", job.Stress, 50},
		{"2.8 GPa", job.Stress, 2800},
		{"30 degC", job.Temperature, 30},
		{"-40 degF", job.Temperature, -40},
		{"212 degF", job.Temperature, 100},
		{"3 s", job.Time, 3},
		{"2 min", job.Time, 120},
		{"0.3 %", job.Percent, 0.003},
		{"0.3", job.Percent, 0.003},
		{"10", job.PerInch, 10},
		{"10 1/in", job.PerInch, 10},
		{"0.25", job.Number, 0.25},
	} {
		got, err := job.ParseQuantity(tt.text, tt.dim)
		require.NoError(t, err, tt.text)
		assert.InDelta(t, tt.want, got, 2e-15*math.Max(1, math.Abs(tt.want)), tt.text)
	}
}

func TestQuantityRefused(t *testing.T) {
	for _, tt := range []struct {
		text  string
		dim   job.Dimension
		code  find.Code
		words string
		right string
	}{
		{"2,5 mm", job.Length, find.WrongUnit, "decimal comma", "2.5 mm"},
		{"2,5", job.Length, find.WrongUnit, "decimal comma", "2.5"},
		{"1,234,5 mm", job.Length, find.WrongUnit, "not a number", ""},
		{"2,5 kg", job.Length, find.WrongUnit, "not a number", ""},
		{"3 deg", job.Length, find.WrongUnit, "takes mm, um, cm, m or in", ""},
		{"3 mm", job.Angle, find.WrongUnit, "takes deg or rad", ""},
		{"3 mm", job.Number, find.WrongUnit, "without a unit", ""},
		{"3 MM", job.Length, find.WrongUnit, "not known", "3 mm"},
		{"3 inch", job.Length, find.WrongUnit, "not known", ""},
		{"3 N", job.Torque, find.WrongUnit, "takes N mm", ""},
		{"mm", job.Length, find.WrongUnit, "not a number", ""},
		{"", job.Length, find.WrongUnit, "not a number", ""},
		{"-", job.Length, find.WrongUnit, "not a number", ""},
		{".", job.Length, find.WrongUnit, "not a number", ""},
		{"0x10", job.Length, find.WrongUnit, "not known", ""},
		{"1_000", job.Length, find.WrongUnit, "not known", ""},
		{"NaN", job.Length, find.OutOfRange, "not a finite number", ""},
		{"-inf", job.Length, find.OutOfRange, "not a finite number", ""},
		{"1e999", job.Length, find.OutOfRange, "too large", ""},
		{"1e308 m", job.Length, find.OutOfRange, "too large", ""},
		{strings.Repeat("9", 400) + "x", job.Length, find.OutOfRange, "too large", ""},
	} {
		_, err := job.ParseQuantity(tt.text, tt.dim)
		var q *job.QuantityError
		require.True(t, errors.As(err, &q), tt.text)
		assert.Equal(t, tt.code, q.Code, tt.text)
		assert.Contains(t, err.Error(), tt.words, tt.text)
		assert.Equal(t, tt.right, q.Right, tt.text)
		assert.Less(t, len(q.Text), 130)
	}
}

func TestUnitsBeginWithThatOfABareNumber(t *testing.T) {
	for dim := job.Length; dim <= job.PerInch; dim++ {
		names := dim.Units()
		require.NotEmpty(t, names)
		bare, err := job.ParseQuantity("7", dim)
		require.NoError(t, err)
		named, err := job.ParseQuantity("7 "+names[0], dim)
		require.NoError(t, err)
		assert.Equal(t, bare, named)
	}
	assert.Empty(t, job.Number.Units())
}

func TestQuantityNeverNaN(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.OneOf(rapid.String(), rapid.StringMatching(`[-+]?[0-9]{0,4}[.,]?[0-9]{0,4}(e[0-9]{1,3})? ?(mm|um|in|deg|N m|%)?`)).Draw(t, "text")
		dim := job.Dimension(rapid.IntRange(int(job.Number), int(job.PerInch)).Draw(t, "dim"))
		v, err := job.ParseQuantity(text, dim)
		if math.IsNaN(v) || math.IsInf(v, 0) {
			t.Fatalf("%q: %v", text, v)
		}
		var q *job.QuantityError
		if err != nil && !errors.As(err, &q) {
			t.Fatalf("%q: %T", text, err)
		}
		if err != nil && q.Right != "" {
			if _, err := job.ParseQuantity(q.Right, dim); err != nil {
				t.Fatalf("%q: the right spelling %q is refused: %v", text, q.Right, err)
			}
		}
	})
}

func TestQuantityReadsWhatWasWritten(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := rapid.Float64Range(-1e6, 1e6).Draw(t, "v")
		got, err := job.ParseQuantity(strconv.FormatFloat(v, 'g', -1, 64)+" mm", job.Length)
		if err != nil || got != v {
			t.Fatalf("%v read as %v, %v", v, got, err)
		}
	})
}
