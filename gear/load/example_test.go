package load_test

import (
	"fmt"
	"math"

	"ringtrack/gear"
	"ringtrack/gear/load"
	"ringtrack/gear/machine"
	"ringtrack/gear/stock"
)

// A light platform on a geared dc motor: what the teeth bear under every case,
// and what the motor has in hand.
func Example() {
	pair, _ := gear.Resolve(gear.Wish{
		Module: 2.5, PressureAngle: 20 * math.Pi / 180, Pinion: gear.MemberWish{Teeth: 15}, Ring: gear.MemberWish{Teeth: 104},
		Share: 0.5, RackType: 'A', LeastTip: 0.45, Spread: 0.1, ProcessPlay: 0.15,
	})
	petg, _ := stock.FindMechanics("petg")
	print := stock.Print{Infill: 0.4, Walls: 1.8}

	drive := machine.Drive{
		Motor: machine.Motor{Kind: machine.DC, Rated: 12, NoLoad: machine.FromRPM(200), Stall: 2060, GearboxLimit: 981, Slack: 3 * math.Pi / 180},
		Platform: machine.Platform{Mass: 8, Diameter: 500, Height: 100, Race: 110,
			Friction: machine.PullTest(3, 2, 250)},
		Pinion: 15, Ring: 104, PinionBase: pair.Pinion.BaseDiameter / 2, Working: pair.WorkingPressureAngle,
		Backlash: pair.Backlash.AngleRing,
	}
	at := drive.At(12)
	mesh, _ := load.NewMesh(pair, load.Making{Face: 10, Pinion: load.Elastic{Modulus: 2500, Poisson: 0.4}, Ring: load.Elastic{Modulus: 2500, Poisson: 0.4}})
	wind, _ := mesh.WindUp(at.Uphill)
	drive.Stiffness = machine.Series(wind.Rate, machine.ShaftStiffness(6, 20)*drive.Ratio()*drive.Ratio())
	stop := drive.StopFrom(at.Speed)

	a, _ := load.Analyse(load.Task{
		Pair: pair, Face: 10, Temperature: 30,
		Pinion: load.Part{Material: petg, Print: print}, Ring: load.Part{Material: petg, Print: print},
		Cases: []load.Case{
			{Name: load.Working, Torque: at.Uphill},
			{Name: load.Stall, Torque: at.Stall, Rare: true},
			{Name: load.DeadStop, Torque: stop.Peak, Rare: true, Bound: true},
			{Name: load.Hand, Torque: drive.HandTorque(machine.UsualHand), Rare: true},
		},
	})
	fmt.Printf("%.1f rpm, starts with %.0f times the torque\n", machine.ToRPM(at.Speed), at.StartMargin)
	for _, r := range a.Ratings {
		fmt.Printf("%s: %.1f N on the teeth, %.1f MPa, safety %.1f\n", r.Case.Name, r.Normal, r.Pinion.Tangent, r.Pinion.Safety)
	}
	// Output:
	// 27.7 rpm, starts with 17 times the torque
	// working torque: 4.5 N on the teeth, 0.6 MPa, safety 73.8
	// stall: 116.9 N on the teeth, 14.5 MPa, safety 2.9
	// dead stop: 1473.5 N on the teeth, 182.2 MPa, safety 0.2
	// a hand on the rim: 204.6 N on the teeth, 25.3 MPa, safety 1.6
}
