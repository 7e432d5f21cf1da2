package involute_test

import (
	"math"
	"math/big"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"ringtrack/involute"
)

// bits is the working precision of the reference values: 90 digits.
const bits = 300

// piDigits is pi to 100 digits.
const piDigits = "3.1415926535897932384626433832795028841971693993751058209749445923078164062862089986280348253421170680"

func num(x float64) *big.Float { return new(big.Float).SetPrec(bits).SetFloat64(x) }
func zero() *big.Float         { return new(big.Float).SetPrec(bits) }

// sincos sums the two series to beyond the working precision.
func sincos(a *big.Float) (sin, cos *big.Float) {
	sin, cos = zero(), zero()
	term := num(1)
	for k := 0; k < 90; k++ {
		signed := zero().Set(term)
		if k%4 >= 2 {
			signed.Neg(signed)
		}
		if k%2 == 0 {
			cos.Add(cos, signed)
		} else {
			sin.Add(sin, signed)
		}
		term.Mul(term, a)
		term.Quo(term, num(float64(k+1)))
	}
	return sin, cos
}

// bigInv returns tan a - a and tan^2 a, its derivative.
func bigInv(a *big.Float) (inv, slope *big.Float) {
	sin, cos := sincos(a)
	tan := zero().Quo(sin, cos)
	return zero().Sub(tan, a), zero().Mul(tan, tan)
}

// bigInvInverse improves the start by Newton's method to the working precision.
func bigInvInverse(v *big.Float, start float64) *big.Float {
	a := num(start)
	for range 3 {
		inv, slope := bigInv(a)
		step := zero().Sub(inv, v)
		a.Sub(a, step.Quo(step, slope))
	}
	return a
}

func relative(got float64, want *big.Float) float64 {
	d := zero().Sub(num(got), want)
	d.Quo(d, want)
	f, _ := d.Float64()
	return math.Abs(f)
}

// TestReferenceValues holds the reference itself against digits that were
// computed elsewhere, with decimal arithmetic of 60 digits.
func TestReferenceValues(t *testing.T) {
	pi, _, err := big.ParseFloat(piDigits, 10, bits, big.ToNearestEven)
	require.NoError(t, err)
	for angle, want := range map[float64]string{
		14.5: "0.005544842816712493223065659618",
		20:   "0.014904383867336445966309729079",
		25:   "0.029975345156416198599083502677",
		30:   "0.053751493591326891432041549955",
	} {
		a := zero().Quo(zero().Mul(pi, num(angle)), num(180))
		inv, _ := bigInv(a)
		require.Equal(t, want, inv.Text('f', 30))
	}
}

// angles returns the angles, in radians, at which the function is measured: from
// 1e-4 to 89.9 degrees, evenly in the logarithm, and evenly.
func angles() []float64 {
	var out []float64
	lo, hi := deg(1e-4), deg(89.9)
	for i := range 1501 {
		f := float64(i) / 1500
		out = append(out, math.Min(hi, lo*math.Pow(hi/lo, f)), math.Max(lo, hi*f))
	}
	return out
}

func TestInvError(t *testing.T) {
	worst, at := 0.0, 0.0
	for _, a := range angles() {
		want, _ := bigInv(num(a))
		if e := relative(involute.Inv(a), want); e > worst {
			worst, at = e, a
		}
	}
	t.Logf("worst relative error of Inv %.2g at %.6g degrees", worst, inDeg(at))
	require.Less(t, worst, 2e-15)
}

func TestInvInverseError(t *testing.T) {
	worst, at := 0.0, 0.0
	for _, a := range angles() {
		v := involute.Inv(a)
		got, err := involute.InvInverse(v)
		require.NoError(t, err)
		if e := relative(got, bigInvInverse(num(v), got)); e > worst {
			worst, at = e, a
		}
	}
	t.Logf("worst relative error of InvInverse %.2g at %.6g degrees", worst, inDeg(at))
	require.Less(t, worst, 2e-15)
}

func TestInvAnywhere(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.Float64Range(deg(1e-4), deg(89.9)).Draw(t, "alpha")
		want, _ := bigInv(num(a))
		require.Less(t, relative(involute.Inv(a), want), 4e-15)
		got, err := involute.InvInverse(involute.Inv(a))
		require.NoError(t, err)
		require.Less(t, relative(got, bigInvInverse(num(involute.Inv(a)), got)), 4e-15)
	})
}

// TestInvInverseDomain asks for what has no answer, and for the ends of the
// floating-point range.
func TestInvInverseDomain(t *testing.T) {
	for _, v := range []float64{-1e-300, -1, math.NaN(), math.Inf(1), math.Inf(-1)} {
		_, err := involute.InvInverse(v)
		var d *involute.DomainError
		require.ErrorAs(t, err, &d, "%g", v)
		require.Equal(t, involute.BadArgument, d.Cause)
		require.Contains(t, d.Error(), "0 or more, finite")
	}
	a, err := involute.InvInverse(0)
	require.NoError(t, err)
	require.Zero(t, a)
	for _, v := range []float64{5e-324, 1e-300, 1e-30, 1e15, 1e300, math.MaxFloat64} {
		a, err := involute.InvInverse(v)
		require.NoError(t, err)
		require.True(t, a > 0 && a < math.Pi/2*(1+1e-15), "%g gives %g", v, a)
		if v < 1e-10 {
			require.InEpsilon(t, math.Cbrt(3)*math.Cbrt(v), a, 1e-6)
		}
	}
}

func TestPressureAngleAndString(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rb := rapid.Float64Range(0.1, 25000).Draw(t, "rb")
		a := rapid.Float64Range(1e-6, 1.5).Draw(t, "alpha")
		r := rb / math.Cos(a)
		// r carries a rounding of its own: near the base circle it moves the angle.
		slack := 4e-16*(1/(a*a)+math.Tan(a)/a) + 1e-15
		require.InEpsilon(t, a, involute.PressureAngle(rb, r), slack)
		require.InEpsilon(t, rb*math.Tan(a), involute.StringLength(rb, r), slack*(1+a*math.Tan(a)/(math.Cos(a)*math.Cos(a))+1/math.Cos(a)))
	})
	require.Zero(t, involute.PressureAngle(10, 10))
	require.Zero(t, involute.PressureAngle(10, 9))
	require.Zero(t, involute.StringLength(10, 9))
}
