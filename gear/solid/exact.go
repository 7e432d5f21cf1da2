package solid

import (
	"math"
	"math/big"

	"ringtrack/gear/plane"
)

// orientExact returns the sign of ax by - ax cy - cx by - ay bx + ay cx + cy bx.
func orientExact(a, b, c plane.Vec) int {
	if !tame(a) || !tame(b) || !tame(c) {
		return orientBig(a, b, c)
	}
	var e expansion
	e.addProduct(a.X, b.Y)
	e.addProduct(-a.X, c.Y)
	e.addProduct(-c.X, b.Y)
	e.addProduct(-a.Y, b.X)
	e.addProduct(a.Y, c.X)
	e.addProduct(c.Y, b.X)
	return e.sign()
}

// tame reports whether products of p's coordinates with another tame point's
// neither overflow nor lose bits below the smallest number.
func tame(p plane.Vec) bool { return tameNumber(p.X) && tameNumber(p.Y) }

func tameNumber(v float64) bool {
	v = math.Abs(v)
	return v == 0 || (v > 1e-100 && v < 1e100)
}

// expansion is an unevaluated exact sum of numbers, each small beside the
// next: nonoverlapping, in order of growing magnitude.
type expansion struct {
	part [12]float64
	n    int
}

// addProduct adds x y exactly.
func (e *expansion) addProduct(x, y float64) {
	p := x * y
	e.add(math.FMA(x, y, -p))
	e.add(p)
}

// add adds v exactly: v is passed up through the parts, each step leaving its
// rounding error behind.
func (e *expansion) add(v float64) {
	k := 0
	for i := range e.n {
		s := v + e.part[i]
		t := s - v
		err := (v - (s - t)) + (e.part[i] - t)
		v = s
		if err != 0 {
			e.part[k] = err
			k++
		}
	}
	if v != 0 {
		e.part[k] = v
		k++
	}
	e.n = k
}

// sign returns the sign of the sum: that of its greatest part.
func (e *expansion) sign() int {
	if e.n == 0 {
		return 0
	}
	return sign(e.part[e.n-1])
}

func sign(v float64) int {
	switch {
	case v > 0:
		return 1
	case v < 0:
		return -1
	}
	return 0
}

// orientBig is orientExact in rational numbers, for any finite coordinates.
func orientBig(a, b, c plane.Vec) int {
	rat := func(v float64) *big.Rat { r := new(big.Rat); r.SetFloat64(v); return r }
	diff := func(p, q float64) *big.Rat { return new(big.Rat).Sub(rat(p), rat(q)) }
	l := new(big.Rat).Mul(diff(a.X, c.X), diff(b.Y, c.Y))
	r := new(big.Rat).Mul(diff(a.Y, c.Y), diff(b.X, c.X))
	return l.Cmp(r)
}
