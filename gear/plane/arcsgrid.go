package plane

import (
	"errors"
	"math"
)

// arcGrid is a row of smooth pieces with the places at which arcs may join. A
// place on the row is one number: the piece's index plus the parameter on it.
//
// Places share out the integral of |dk/ds|^(1/3) ds, k the curvature, evenly:
// arcs of one tolerance h long leave the curve by h^3 |dk/ds|/125 when they
// join smoothly (the greatest value of the third Bernoulli polynomial over 6),
// so arcs of equal error span equally many places.
type arcGrid struct {
	row    []Piece
	arcs   float64 // how many arcs of the tolerance the integral asks for
	place  []float64
	point  []Vec // at places and half-way between them in turn
	theta  []float64
	cum    []float64 // the integral at equal steps of place
	places int       // their number less one
}

var errSharp = errors.New("the curve turns too sharply for arcs")

// bernoulli is the error of smoothly joined arcs: |k'| h^3 over this.
const bernoulli = 124.70765814495916 // 72 sqrt(3)

const (
	fineSteps  = 96 // of the integral, for each piece
	leastParts = 48
	mostParts  = 3000
	partsToArc = 16
)

func newArcGrid(row []Piece, tol float64, more int) (*arcGrid, error) {
	g := &arcGrid{row: row}
	if err := g.measure(); err != nil {
		return nil, err
	}
	total := g.cum[len(g.cum)-1]
	g.arcs = total / math.Cbrt(bernoulli*tol)
	g.places = more * int(math.Min(mostParts, math.Max(leastParts, math.Ceil(partsToArc*g.arcs))))
	last := heading(row[0], 0)
	angle := last.Angle()
	for i := 0; i <= 2*g.places; i++ {
		v := g.at(float64(i) / float64(2*g.places))
		if i == 2*g.places {
			v = float64(len(row))
		}
		p, dir := g.frame(v)
		g.point = append(g.point, p)
		angle += turnBetween(last, dir)
		last = dir
		if i%2 == 0 {
			g.place = append(g.place, v)
			g.theta = append(g.theta, angle)
		}
	}
	return g, nil
}

// frame returns point and direction at a place.
func (g *arcGrid) frame(v float64) (Vec, Vec) {
	i := min(int(v), len(g.row)-1)
	u := math.Min(v-float64(i), 1)
	return g.row[i].At(u), heading(g.row[i], u)
}

// measure fills the integral. Curvature is taken from the turn of the tangent
// over each step, so one that grows without bound at an end does no harm. A
// tenth of the mean is added where it hardly changes.
func (g *arcGrid) measure() error {
	var weight []float64
	sum := 0.0
	for _, p := range g.row {
		k, ds := make([]float64, fineSteps), make([]float64, fineSteps)
		a, dir := p.At(0), heading(p, 0)
		for i := range k {
			u := float64(i+1) / fineSteps
			b, next := p.At(u), heading(p, u)
			ds[i] = b.Sub(a).Len()
			turn := turnBetween(dir, next)
			if !(ds[i] > 0) || !(math.Abs(turn) < 1) {
				return errSharp
			}
			k[i] = turn / ds[i]
			a, dir = b, next
		}
		for i := range k {
			lo, hi := max(i-1, 0), min(i+1, fineSteps-1)
			slope := math.Abs(k[hi]-k[lo]) / (ds[i] * float64(hi-lo))
			w := math.Cbrt(slope) * ds[i]
			weight = append(weight, w)
			sum += w
		}
	}
	floor := 0.1 * sum / float64(len(weight))
	if sum == 0 { // lines and circles in disguise
		floor = 1
	}
	g.cum = []float64{0}
	for i, w := range weight {
		g.cum = append(g.cum, g.cum[i]+w+floor)
	}
	return nil
}

// at returns the place up to which the share x, 0..1, of the integral lies.
func (g *arcGrid) at(x float64) float64 {
	want := x * g.cum[len(g.cum)-1]
	lo, hi := 0, len(g.cum)-1
	for hi-lo > 1 {
		if m := (lo + hi) / 2; g.cum[m] <= want {
			lo = m
		} else {
			hi = m
		}
	}
	return (float64(lo) + (want-g.cum[lo])/(g.cum[hi]-g.cum[lo])) / fineSteps
}
