package solid

import (
	"math"
	"math/big"
	"testing"

	"pgregory.net/rapid"

	"ringtrack/gear/plane"
)

// nearby draws a point a few roundings away from one of a coarse grid, so that
// most triples are collinear or nearly so.
func nearby(t *rapid.T, scale, shift float64) plane.Vec {
	one := func(name string) float64 {
		v := shift + scale*float64(rapid.IntRange(-4, 4).Draw(t, name))
		for range rapid.IntRange(0, 2).Draw(t, "up") {
			v = math.Nextafter(v, math.Inf(1))
		}
		return v
	}
	return plane.Vec{X: one("x"), Y: one("y")}
}

func TestOrientIsExact(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		scale := rapid.SampledFrom([]float64{1, 0.1, 1e-9, 1e-160, 1e9, 1e48}).Draw(t, "scale")
		shift := rapid.SampledFrom([]float64{0, 1, 1e4, math.Pi}).Draw(t, "shift")
		a, b, c := nearby(t, scale, shift), nearby(t, scale, shift), nearby(t, scale, shift)
		if got, want := orient(a, b, c), orientBig(a, b, c); got != want {
			t.Fatalf("orient(%v, %v, %v) = %d, exactly %d", a, b, c, got, want)
		}
		if tame(a) && tame(b) && tame(c) && orientExact(a, b, c) != orientBig(a, b, c) {
			t.Fatalf("the expansion's sign is wrong for %v, %v, %v", a, b, c)
		}
	})
}

// insideExactly is inCircle in rational numbers.
func insideExactly(a, b, c, d plane.Vec) bool {
	rat := func(p, q float64) *big.Rat {
		x, y := new(big.Rat), new(big.Rat)
		x.SetFloat64(p)
		y.SetFloat64(q)
		return x.Sub(x, y)
	}
	mul := func(x, y *big.Rat) *big.Rat { return new(big.Rat).Mul(x, y) }
	det := new(big.Rat)
	p := [3]plane.Vec{a, b, c}
	for i := range p {
		q, r := p[(i+1)%3], p[(i+2)%3]
		x, y := rat(p[i].X, d.X), rat(p[i].Y, d.Y)
		cross := mul(rat(q.X, d.X), rat(r.Y, d.Y))
		cross.Sub(cross, mul(rat(r.X, d.X), rat(q.Y, d.Y)))
		det.Add(det, mul(cross, new(big.Rat).Add(mul(x, x), mul(y, y))))
	}
	return det.Sign() > 0
}

func TestInCircleIsNeverWronglySure(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		scale := rapid.SampledFrom([]float64{1, 0.1, 1e-9, 1e9}).Draw(t, "scale")
		shift := rapid.SampledFrom([]float64{0, 1, 1e4}).Draw(t, "shift")
		a, b, c, d := nearby(t, scale, shift), nearby(t, scale, shift), nearby(t, scale, shift), nearby(t, scale, shift)
		if orient(a, b, c) > 0 && inCircle(a, b, c, d) && !insideExactly(a, b, c, d) {
			t.Fatalf("%v does not lie inside the circle of %v, %v, %v", d, a, b, c)
		}
	})
}

func TestInCircleSeesPlainCases(t *testing.T) {
	a, b, c := plane.Vec{X: 1}, plane.Vec{Y: 1}, plane.Vec{X: -1}
	for _, tt := range []struct {
		d    plane.Vec
		want bool
	}{
		{plane.Vec{}, true}, {plane.Vec{Y: -0.999999}, true}, {plane.Vec{Y: -1}, false},
		{plane.Vec{Y: -1.000001}, false}, {plane.Vec{X: 5, Y: 5}, false},
	} {
		if got := inCircle(a, b, c, tt.d); got != tt.want {
			t.Errorf("inCircle(%v) = %v", tt.d, got)
		}
	}
}
