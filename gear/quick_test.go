package gear

import (
	"fmt"
	"math"
	"testing"
)

func TestQuick(t *testing.T) {
	for _, z := range [][3]float64{{15, 104, 2.5}, {13, 91, 2.5}, {12, 96, 2.5}, {5, 60, 1}, {40, 50, 1}, {300, 1000, 1}} {
		w := Wish{Module: z[2], PressureAngle: 20 * math.Pi / 180, Pinion: MemberWish{Teeth: int(z[0])}, Ring: MemberWish{Teeth: int(z[1])}, Share: .5, RackType: 'A', LeastTip: .45, Spread: .1, ProcessPlay: .15}
		p, f := Resolve(w)
		fmt.Println(z)
		for _, x := range f {
			fmt.Println("  ", x.Level, x.Code, x.Text)
		}
		if p == nil {
			continue
		}
		for _, c := range p.Chosen {
			fmt.Printf("   %s %.4f %s\n", c.Key, c.Value, c.Reason)
		}
		fmt.Printf("   eps %.4f %.4f a %.4f %+v\n   %+v gap %.4f clear %.4f %.4f\n", p.ContactRatio, p.ContactRatioFormula, p.CentreDistance, p.Backlash, p.Interference, p.TipCornerGap, p.TipClearancePinion, p.TipClearanceRing)
		a, b := p.Pinion.Outline(), p.Ring.Outline()
		fmt.Println("   ", a.Check(1e-12), b.Check(1e-12), a.Area(), b.Area(), len(a.Flatten(.005)), len(b.Flatten(.005)), p.Pinion.SpanLength, p.Pinion.Pins, p.Ring.Pins)
	}
	w := Wish{Module: 1, PressureAngle: 20 * math.Pi / 180, Pinion: MemberWish{Teeth: 12, Shift: Fixed(0), TipRadius: Fixed(7)}, Ring: MemberWish{Teeth: 96, Shift: Fixed(0), TipRadius: Fixed(47)}, Share: .5, RackType: 'A', LeastTip: .2}
	_, f := Resolve(w)
	for _, x := range f {
		fmt.Println("  ", x.Level, x.Code, x.Text)
	}
}
