// Package drafts makes up job files for the tests of the packages that work jobs
// out: sensible ones, bad ones, and any within the allowed ranges.
package drafts

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
)

// Dice draws numbers, both ends included.
type Dice interface {
	Real(lo, hi float64) float64
	Whole(lo, hi int) int
}

// Seeded returns Dice that always fall the same way.
func Seeded(seed uint64) Dice { return seeded{rand.New(rand.NewPCG(seed, 1))} }

type seeded struct{ *rand.Rand }

func (s seeded) Real(lo, hi float64) float64 { return lo + (hi-lo)*s.Float64() }
func (s seeded) Whole(lo, hi int) int        { return lo + s.IntN(hi-lo+1) }

// draft is a job file in the making: values by section.key.
type draft struct {
	Dice
	keys map[string]string
}

func (d draft) set(key string, value any) {
	if v, ok := value.(float64); ok {
		value = fmt.Sprintf("%.4f", v)
	}
	d.keys[key] = fmt.Sprint(value)
}

func (d draft) drop(keys ...string) {
	for _, k := range keys {
		delete(d.keys, k)
	}
}

// kind sets how both parts are made and drops what belongs to another way.
func (d draft) kind(kind string) {
	d.drop("making.growth", "making.shrinkage", "making.line_width", "making.kerf")
	d.set("making.kind", `"`+kind+`"`)
}

func (d draft) odds(n int) bool { return d.Whole(1, n) == 1 }

func pick[T any](d Dice, of ...T) T { return of[d.Whole(0, len(of)-1)] }

// String writes the job file.
func (d draft) String() string {
	bySection := map[string][]string{}
	for key, v := range d.keys {
		i := strings.LastIndexByte(key, '.')
		bySection[key[:i]] = append(bySection[key[:i]], key[i+1:]+" = "+v)
	}
	var b strings.Builder
	for _, s := range []string{"teeth", "pinion", "pinion.bore", "pinion.bolts", "ring", "ring.bolts",
		"making", "making.pinion", "making.ring", "mounting", "output"} {
		if lines := bySection[s]; len(lines) > 0 {
			slices.Sort(lines)
			fmt.Fprintf(&b, "[%s]\n%s\n", s, strings.Join(lines, "\n"))
		}
	}
	return b.String()
}

// sensible drafts a job as a maker would who has not gone wrong yet.
func sensible(from Dice) (d draft, m float64, z1, z2 int) {
	d = draft{from, map[string]string{}}
	m = pick(from, 1, 1.5, 2, 2.5, 3, 4)
	z1, z2 = d.Whole(9, 24), d.Whole(60, 140)
	d.set("teeth.module", m)
	d.set("teeth.pinion", z1)
	d.set("teeth.ring", z2)
	if d.odds(6) {
		d.set("teeth.pressure_angle", pick(from, 14.5, 22.5, 25.0))
	}
	if d.odds(5) {
		d.set("teeth.rack", pick(from, `"B"`, `"C"`, `"D"`))
	}
	if d.odds(2) {
		d.set("pinion.bore.shape", `"d"`)
		d.set("pinion.bore.diameter", 4+m/2)
		d.set("pinion.bore.across_flat", 3.5+m/2)
	}
	if d.odds(2) {
		d.set("ring.bolts.count", d.Whole(4, 12))
		d.set("ring.bolts.screw", pick(from, `"M3"`, `"M4"`, `"#8"`))
	}
	switch d.Whole(1, 4) {
	case 1:
		d.kind("cut")
	case 2:
		d.kind("exact")
	case 3:
		d.set("making.growth", d.Real(0, 0.15))
		d.set("making.shrinkage", d.Real(0, 0.8))
	}
	d.set("making.bed", "[600, 600, 300]")
	return d, m, z1, z2
}
