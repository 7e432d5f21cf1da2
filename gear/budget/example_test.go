package budget_test

import (
	"context"
	"fmt"
	"math"

	"ringtrack/gear"
	"ringtrack/gear/budget"
)

// A printed drive on a bought bearing whose play nobody has measured.
func Example() {
	pair, _ := gear.Resolve(gear.Wish{
		Module: 2.5, PressureAngle: 20 * math.Pi / 180, Share: 0.5, RackType: 'A', LeastTip: 0.45, Spread: 0.4,
		Pinion: gear.MemberWish{Teeth: 15}, Ring: gear.MemberWish{Teeth: 104}, Backlash: gear.Fixed(0.36),
	})
	spreads := budget.Spreads{
		MakingPinion: budget.Guess(0.05), MakingRing: budget.Guess(0.05), CentreDistance: budget.Measured(0.1),
		BearingPlay: budget.Guess(0.5), RingRunout: budget.Guess(0.2), PinionRunout: budget.Guess(0.1),
		JointStep: budget.Guess(0.1), Segments: 4,
	}
	r, _, err := budget.Work(context.Background(), pair, spreads, budget.Options{Target: budget.DefaultTarget("printed")})
	if err != nil || r == nil {
		return
	}
	for _, c := range r.Causes {
		if c.Effect != (budget.Effect{}) {
			fmt.Printf("%-16s %+.3f %+.3f\n", c.Name, c.Effect.Least, c.Effect.Greatest)
		}
	}
	fmt.Printf("least            %.3f worst case, %.3f root sum of squares\n", r.Least.WorstCase, r.Least.RootSumSquare)
	fmt.Println(r.Verdict.Word+":", r.Verdict.Sentence)
	fmt.Printf("auto: %.2f mm; halving the %s wins %.2f mm\n", r.Auto.Backlash, budget.Words(r.Auto.Costliest), r.Auto.HalvingWins)
	// Output:
	// making-pinion    -0.106 +0.106
	// making-ring      -0.106 +0.106
	// centre-distance  -0.073 +0.073
	// bearing-play     -0.184 +0.180
	// ring-runout      -0.073 +0.073
	// joint-step       -0.100 +0.000
	// pinion-runout    -0.036 +0.036
	// together         -0.007 -0.004
	// least            -0.326 worst case, -0.102 root sum of squares
	// marginal: It may bind at the first joint (space 0) (4.3 % of builds); move the motor 0.12 mm toward the ring's centre.
	// auto: 0.52 mm; halving the bearing's play wins 0.06 mm
}
