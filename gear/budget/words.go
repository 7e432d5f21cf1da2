package budget

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// words says what a cause is called in a sentence, after "the".
var words = map[string]string{
	MakingPinion:   "pinion's making spread",
	MakingRing:     "ring's making spread",
	CentreDistance: "spread of the centre distance",
	BearingPlay:    "bearing's play",
	RingRunout:     "ring's run-out",
	RingOvality:    "ring's ovality",
	PinionRunout:   "pinion's run-out",
	Tilt:           "tilt of the pinion",
	JointStep:      "step at the joints",
	Temperature:    "range of temperature",
	Moisture:       "growth by moisture",
	Together:       "causes together beyond their sum",
}

// Words returns what a cause is called in a sentence, after "the".
func Words(name string) string { return words[name] }

var text = fmt.Sprintf

// num writes a length for a sentence, to 0.01 mm; smaller ones to 0.001.
func num(v float64) string {
	digits := 2
	if math.Abs(v) < 0.1 {
		digits = 3
	}
	s := strconv.FormatFloat(v, 'f', digits, 64)
	s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	if s == "-0" || s == "" {
		return "0"
	}
	return s
}

// percent writes a share.
func percent(v float64) string {
	switch {
	case v == 0:
		return "none"
	case v < 0.001:
		return "fewer than 1 in 1000"
	case v < 0.1:
		return strconv.FormatFloat(100*v, 'f', 1, 64) + " %"
	}
	return strconv.FormatFloat(100*v, 'f', 0, 64) + " %"
}

// jointName returns how a joint is called, counted from 1.
func jointName(n int) string {
	small := []string{"", "first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth"}
	if n < len(small) {
		return "the " + small[n] + " joint"
	}
	return "joint " + strconv.Itoa(n)
}
