package load

import (
	"encoding/json"
	"errors"
	"testing"

	"pgregory.net/rapid"

	"ringtrack/gear"
	"ringtrack/gear/stock"
)

// Whatever pair, materials and loads: an answer without a figure that is no
// number, or an *InputError. encoding/json refuses NaN and infinities.
func TestAnalysisOfAnything(t *testing.T) {
	names := stock.MechanicsNames()
	rapid.Check(t, func(t *rapid.T) {
		z1 := rapid.IntRange(5, 40).Draw(t, "z1")
		z2 := rapid.IntRange(z1+8, z1+150).Draw(t, "z2")
		alpha := rapid.SampledFrom([]float64{14.5, 20, 25, 30}).Draw(t, "alpha") * degree
		p, _ := gear.Resolve(gear.Wish{
			Module: rapid.Float64Range(0.3, 10).Draw(t, "m"), PressureAngle: alpha,
			Pinion: gear.MemberWish{Teeth: z1}, Ring: gear.MemberWish{Teeth: z2},
			Share: 0.5, RackType: 'A', LeastTip: 0.1, Spread: 0.1, ProcessPlay: 0.15,
		})
		if p == nil {
			return
		}
		part := func(name string) Part {
			m, _ := stock.FindMechanics(rapid.SampledFrom(names).Draw(t, name))
			return Part{m, stock.Print{Infill: rapid.Float64Range(0, 1).Draw(t, "infill"), Walls: rapid.Float64Range(0, 3).Draw(t, "walls"), Upright: rapid.Bool().Draw(t, "upright")}}
		}
		a, err := Analyse(Task{
			Pair: p, Face: rapid.Float64Range(1, 50).Draw(t, "face"), Pinion: part("pinion"), Ring: part("ring"),
			Temperature: rapid.Float64Range(-10, 70).Draw(t, "temperature"),
			Rim:         Rim{rapid.Float64Range(0, 20).Draw(t, "rim"), rapid.Float64Range(0, 100).Draw(t, "free")},
			Cases:       []Case{{Name: Working, Torque: rapid.Float64Range(0.1, 1e5).Draw(t, "torque")}, {Name: Stall, Torque: 1e4, Rare: true}},
		})
		var bad *InputError
		if errors.As(err, &bad) {
			t.Logf("%v", err)
			return
		}
		if err != nil {
			t.Fatal(err)
		}
		for _, part := range []any{a.Course, a.Ratings, a.Relief, a.WindUp, a.Allowance, a.Skipping, a.Findings} {
			if _, err := json.Marshal(part); err != nil {
				t.Fatalf("%T: %v", part, err)
			}
		}
	})
}
