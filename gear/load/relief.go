package load

import (
	"math"

	"ringtrack/involute"
)

// Relief is what must be taken off tips so that teeth which bend do not meet the
// next tooth too early.
type Relief struct {
	EntryYield                 float64 // mm along the line of action: how far the carrying teeth have given way when the next tip enters
	LeavingYield               float64 // mm: the same when the last tip has left
	Entry                      float64 // mm along the line of action, to take off the tip of the driven member
	Leaving                    float64 // mm, the same for the tip of the driving member
	EntryLength, LeavingLength float64 // mm along the line of action, from the tip down, over which they fade out
	Longest                    float64 // mm along the line of action: a longer relief would leave a stretch on which no pair meets unrelieved
	Enough                     bool    // false: the teeth bend too far for any relief of that length
	Backlash                   float64 // mm: circumferential play at the working circles that the bending itself opens behind the tooth
	LastPairs                  int     // pairs that carry at the moment before the next one joins
}

// Relief returns the relief for a torque, N mm on the pinion.
//
// At the moment when the next pair is about to join, the pairs in contact have
// given way by some amount, and the driven member lags by it: the entering tip
// would dig in by as much. The same amount is what a leaving tip lets go at
// once. Driving by the pinion, the ring's tip enters and the pinion's tip
// leaves; a load that overhauls, or a ring that drives, exchanges both.
//
// Source: practice of gear makers, that a tip is relieved by the deflection under
// working load, over half of what lies outside the stretch of single contact
// (short relief) or all of it (long relief); from memory.
func (m *Mesh) Relief(torque float64) (Relief, error) {
	var r Relief
	if err := positive("the pinion's torque in N mm", torque); err != nil {
		return r, err
	}
	line := torque / m.Pinion.Base / m.Face
	var err error
	if r.EntryYield, r.LastPairs, err = m.beside(m.Start, m.BasePitch(), line); err != nil {
		return r, err
	}
	if r.LeavingYield, _, err = m.beside(m.End, -m.BasePitch(), line); err != nil {
		return r, err
	}
	r.Longest = math.Max(0, m.End-m.Start-m.BasePitch())
	var in, out bool
	r.Entry, r.EntryLength, in = m.fade(r.EntryYield, m.Start, 1, true)
	r.Leaving, r.LeavingLength, out = m.fade(r.LeavingYield, m.End, -1, false)
	r.Enough = in && out
	r.Backlash = math.Max(r.EntryYield, r.LeavingYield) / math.Cos(m.Working)
	return r, nil
}

// fade chooses length and amount of a relief that fades out as the square, so
// that flanks which have come nearer by need stay clear everywhere.
//
//	end    where on the line of action the relieved tip lies
//	inward +1 when the relief runs toward greater lengths
//	wheel  the tip is the wheel's
//
// At the string length x from the tip the flank lies x tan(alpha_y) along itself,
// and flanks part as the square of that over 2R; the least of A (1 - x/L)^2 +
// x^2/k is A B/(A + B) with B = L^2/k, k = 2R/tan^2(alpha_y), taken at its
// largest over the relief. The shorter length is taken where it asks for no more
// than twice the need. ok is false where even the longer one leaves too little;
// the amount is then four times the need.
func (m *Mesh) fade(need, end, inward float64, wheel bool) (amount, length float64, ok bool) {
	long := math.Max(0, m.End-m.Start-m.BasePitch())
	if need == 0 {
		return 0, long / 2, true
	}
	for _, l := range []float64{long / 2, long} {
		k := 0.0
		for _, at := range []float64{end, end + inward*l} {
			rho1, rho2 := m.strings(at)
			tan := rho1 / m.Pinion.Base
			if wheel {
				tan = math.Abs(rho2) / m.Wheel.Base
			}
			k = math.Max(k, 2*Curvature(rho1, rho2)/(tan*tan))
		}
		b := l * l / k
		if b >= 2*need || l == long && b >= 4.0/3*need {
			return need * b / (b - need), l, true
		}
	}
	return 4 * need, long, false
}

// beside returns by how much the pairs in contact give way that lie whole steps
// from the place end, without the pair at end itself, and how many they are.
func (m *Mesh) beside(end, step, line float64) (yield float64, pairs int, err error) {
	var list []contact
	for l := end + step; l >= m.Start && l <= m.End; l += step {
		k, err := m.at(l)
		if err != nil {
			return 0, 0, err
		}
		list = append(list, k)
	}
	if len(list) == 0 {
		return 0, 0, nil
	}
	_, yield = m.share(list, line)
	return yield, len(list), nil
}

// Relieved is an involute whose tip is taken back along its normal: by Amount at
// the end T1 (for a pinion) or T0 (for a ring) and by less, as the square of the
// distance along the line of action, down to nothing after Length. It is a
// smooth curve over the roll angle like the involute itself.
type Relieved struct {
	involute.Curve
	Amount float64 // mm at the tip
	Length float64 // mm along the line of action
	Ring   bool    // the tip lies at T0, and the material on the other side
}

// At returns the point at roll angle t and its first and second derivatives.
//
// The normal at t has the polar angle of the string: with e the radial and f the
// string's unit vector, p = rb e - rb t f, and taking c off the flank shortens
// the string by c (lengthens it, for a ring). Up to the relief's beginning the
// curve is the involute; there point and tangent agree and the curvature jumps.
func (r Relieved) At(t float64) (x, y, dx, dy, ddx, ddy float64) {
	x, y, dx, dy, ddx, ddy = r.Curve.At(t)
	c, c1, c2 := r.depth(t)
	if c == 0 && c2 == 0 {
		return
	}
	s, k := math.Sincos(r.Phase + r.Hand*t)
	// f, along the string from the flank to the base circle, and its derivatives.
	fx, fy := -r.Hand*s, r.Hand*k
	gx, gy := -k, -s              // f'
	hx, hy := r.Hand*s, -r.Hand*k // f''
	x, y = x+c*fx, y+c*fy
	dx, dy = dx+c1*fx+c*gx, dy+c1*fy+c*gy
	ddx, ddy = ddx+c2*fx+2*c1*gx+c*hx, ddy+c2*fy+2*c1*gy+c*hy
	return
}

// depth returns how much is taken off at t, with derivatives, positive along f.
func (r Relieved) depth(t float64) (c, c1, c2 float64) {
	rate := r.Base / r.Length // of the fraction by t
	q := 1 - (r.T1-t)*rate
	sign := 1.0
	if r.Ring {
		q = 1 - (t-r.T0)*rate
		rate, sign = -rate, -1
	}
	const rounding = 1e-12 // of a piece that begins where the relief does
	if !(r.Length > 0) || q < -rounding {
		return 0, 0, 0
	}
	q = math.Max(q, 0)
	return sign * r.Amount * q * q, sign * 2 * r.Amount * q * rate, sign * 2 * r.Amount * rate * rate
}
