package load

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"

	"ringtrack/gear"
	"ringtrack/gear/plane"
	"ringtrack/involute"
)

// A plane-strain finite element model of one tooth, built from the profile that
// the code under test uses: eight-node elements in rows that begin and end on
// the outline; the rows are straight in the tooth and bulge into the body as
// half ellipses. The last row, about one and a half pitches wide, is held.
// Neighbouring teeth are left out.
type model struct {
	p        *Profile
	root     float64 // mm: radius of the root circle
	width    float64 // mm along the root circle, from the fillet's end to the last row
	depth    float64 // mm: of the last row below the root circle
	lines    []plane.Vec
	bulge    []float64
	columns  int
	rowStart []int
	nodes    []plane.Vec
	moved    []float64
}

const (
	modelModulus = 1000.0
	modelPoisson = 0.3
)

// newModel lays out and solves the model for a unit force, per mm, along the
// normal at the tip.
func newModel(t testing.TB, p *Profile, root, width, depth float64) *model {
	m := &model{p: p, root: root, width: width, depth: depth, columns: 16}
	m.outline()
	m.place()
	m.solve(t)
	return m
}

// outline lists the points at which rows, and the middles of rows, begin: an odd
// number of points from the tip along flank, fillet and root circle.
func (m *model) outline() {
	add := func(v plane.Vec) { m.lines = append(m.lines, v) }
	const flank, fillet, floor = 12, 24, 14
	first := len(m.p.pieces) - 1
	for i := range m.p.pieces {
		n := flank
		if i == first {
			n = fillet
		}
		for k := range 2 * n {
			add(m.p.pieces[i].At(float64(k) / float64(2*n)))
		}
	}
	start := len(m.lines) - 2*fillet
	end := m.p.pieces[first].At(1)
	sign := math.Copysign(1, end.X)
	a0 := math.Atan2(end.Y, sign*end.X)
	for k := range 2*floor + 1 {
		s := float64(k) / (2 * floor)
		a := a0 + m.width/m.root*(0.25*s+0.75*s*s)
		add(plane.Vec{X: sign * m.root * math.Cos(a), Y: m.root * math.Sin(a)})
	}
	long := make([]float64, len(m.lines))
	for i := start + 1; i < len(m.lines); i++ {
		long[i] = long[i-1] + m.lines[i].Sub(m.lines[i-1]).Len()
	}
	m.bulge = make([]float64, len(m.lines))
	last := len(m.lines) - 1
	for i := range m.lines {
		m.bulge[i] = m.depth * math.Pow(long[i]/long[last], 1.2)
	}
}

// place puts the nodes: whole rows have 2c+1, the middles of rows c+1.
func (m *model) place() {
	for i, v := range m.lines {
		m.rowStart = append(m.rowStart, len(m.nodes))
		n := 2 * m.columns
		if i%2 == 1 {
			n = m.columns
		}
		for k := range n + 1 {
			s, c := math.Sincos(math.Pi / 2 * (2*float64(k)/float64(n) - 1))
			m.nodes = append(m.nodes, plane.Vec{X: v.X - m.bulge[i]*c, Y: v.Y * s})
		}
	}
}

// element returns the eight nodes of column c between the rows r and r+2:
// corners, then middles of sides.
func (m *model) element(r, c int) [8]int {
	a, b, d := m.rowStart[r], m.rowStart[r+1], m.rowStart[r+2]
	return [8]int{a + 2*c, a + 2*c + 2, d + 2*c + 2, d + 2*c, a + 2*c + 1, b + c + 1, d + 2*c + 1, b + c}
}

// shape returns the derivatives of the eight shape functions at (x, y).
func shape(x, y float64) (dx, dy [8]float64) {
	corners := [4][2]float64{{-1, -1}, {1, -1}, {1, 1}, {-1, 1}}
	for i, k := range corners {
		a, b := k[0], k[1]
		dx[i] = a * (1 + b*y) * (2*a*x + b*y) / 4
		dy[i] = b * (1 + a*x) * (2*b*y + a*x) / 4
	}
	dx[4], dy[4] = -x*(1-y), -(1-x*x)/2
	dx[5], dy[5] = (1-y*y)/2, -y*(1+x)
	dx[6], dy[6] = -x*(1+y), (1-x*x)/2
	dx[7], dy[7] = -(1-y*y)/2, -y*(1-x)
	return
}

func (m *model) solve(t testing.TB) {
	held := m.rowStart[len(m.rowStart)-1]
	n := 2 * held
	band := 2 * (4*m.columns + m.columns + 8)
	k := mat.NewSymBandDense(n, band, nil)
	g := [3][2]float64{{-math.Sqrt(0.6), 5.0 / 9}, {0, 8.0 / 9}, {math.Sqrt(0.6), 5.0 / 9}}
	nu := modelPoisson
	f := modelModulus / ((1 + nu) * (1 - 2*nu))
	d11, d12, d33 := f*(1-nu), f*nu, f*(1-2*nu)/2
	for r := 0; r+2 < len(m.lines); r += 2 {
		for c := range m.columns {
			e := m.element(r, c)
			var ke [16][16]float64
			for _, gx := range g {
				for _, gy := range g {
					dx, dy := shape(gx[0], gy[0])
					var j [4]float64
					for i, id := range e {
						q := m.nodes[id]
						j[0] += dx[i] * q.X
						j[1] += dx[i] * q.Y
						j[2] += dy[i] * q.X
						j[3] += dy[i] * q.Y
					}
					det := j[0]*j[3] - j[1]*j[2]
					require.Greater(t, math.Abs(det), 0.0)
					w := math.Abs(det) * gx[1] * gy[1]
					var bx, by [8]float64
					for i := range e {
						bx[i] = (j[3]*dx[i] - j[1]*dy[i]) / det
						by[i] = (j[0]*dy[i] - j[2]*dx[i]) / det
					}
					for a := range 8 {
						for b := range 8 {
							ke[2*a][2*b] += w * (bx[a]*d11*bx[b] + by[a]*d33*by[b])
							ke[2*a][2*b+1] += w * (bx[a]*d12*by[b] + by[a]*d33*bx[b])
							ke[2*a+1][2*b] += w * (by[a]*d12*bx[b] + bx[a]*d33*by[b])
							ke[2*a+1][2*b+1] += w * (by[a]*d11*by[b] + bx[a]*d33*bx[b])
						}
					}
				}
			}
			for a := range 16 {
				for b := range 16 {
					p, q := 2*e[a/2]+a%2, 2*e[b/2]+b%2
					if p <= q && q < n {
						k.SetSymBand(p, q, k.At(p, q)+ke[a][b])
					}
				}
			}
		}
	}
	s := m.p.Tip()
	load := mat.NewVecDense(n, nil)
	at := m.rowStart[1] - 1 // the tip corner at positive Y
	load.SetVec(2*at, -math.Sin(s.Slope))
	load.SetVec(2*at+1, -math.Cos(s.Slope))
	var chol mat.BandCholesky
	require.True(t, chol.Factorize(k), "the model is held")
	var u mat.VecDense
	require.NoError(t, chol.SolveVecTo(&u, load))
	m.moved = make([]float64, 2*len(m.nodes))
	copy(m.moved, u.RawVector().Data)
}

// peak returns the greatest tension along the fillet on the loaded side, per
// unit force and mm of width, and where: the strain of the free surface in the
// middle of every row, times E/(1 - nu^2).
func (m *model) peak() (stress float64, at plane.Vec) {
	edge := func(r int) int {
		if r+1 < len(m.rowStart) {
			return m.rowStart[r+1] - 1
		}
		return len(m.nodes) - 1
	}
	for r := 8; r+2 < len(m.lines); r += 2 {
		a, b := edge(r), edge(r+2)
		d := m.nodes[b].Sub(m.nodes[a])
		v := plane.Vec{X: m.moved[2*b] - m.moved[2*a], Y: m.moved[2*b+1] - m.moved[2*a+1]}
		if s := modelModulus / (1 - modelPoisson*modelPoisson) * v.Dot(d) / d.Dot(d); s > stress {
			stress, at = s, m.nodes[edge(r+1)]
		}
	}
	return
}

// yield returns how far the middle of the tip, away from the point load, moves
// across the tooth, times the modulus over the line force.
func (m *model) yield() float64 {
	at := m.rowStart[0] + m.columns
	s := m.p.Tip()
	return modelModulus * -(m.moved[2*at]*math.Sin(s.Slope) + m.moved[2*at+1]*math.Cos(s.Slope))
}

// The model itself: the sum of both fillets' stresses of a long thin tooth is
// that of a bar. A bar 2 wide and 12 long under a unit force across its end.
func TestModelOfABar(t *testing.T) {
	bar, err := NewProfile([]plane.Piece{
		plane.Line{A: plane.Vec{X: 112, Y: 1}, B: plane.Vec{X: 101, Y: 1}},
		plane.Arc{C: plane.Vec{X: 101, Y: 3}, R: 2, A0: -math.Pi / 2, Sweep: -1.5},
	}, false)
	require.NoError(t, err)
	m := newModel(t, bar, bar.pieces[1].At(1).Len(), 4, 6)
	// The strain on the surface four rows down the bar: M/W = 6 F x/t^2.
	a, b := m.rowStart[13]-1, m.rowStart[15]-1
	d := m.nodes[b].Sub(m.nodes[a])
	v := plane.Vec{X: m.moved[2*b] - m.moved[2*a], Y: m.moved[2*b+1] - m.moved[2*a+1]}
	got := modelModulus / 0.91 * v.Dot(d) / d.Dot(d)
	x := 112 - m.nodes[m.rowStart[14]-1].X
	assert.InEpsilon(t, 6*x/4, got, 0.01)
}

// External teeth: the tangent method is known to fit them.
func TestModelOfExternalTeeth(t *testing.T) {
	for _, z := range []int{17, 40, 100} {
		k := tooth(t, 1, z, 0)
		p := external(t, k)
		f, err := p.Form(p.Tip(), 1, 20*degree)
		require.NoError(t, err)
		m := newModel(t, p, k.RootRadius, math.Pi, 4)
		stress, _ := m.peak()
		want := math.Cos(20*degree) * f.YF * f.YS
		t.Logf("z %d: model %.3f, factors %.3f (%+.1f %%)", z, stress, want, 100*(want/stress-1))
		assert.InEpsilon(t, stress, want, 0.15)
	}
}

// ringProfile returns half a ring tooth of module 1 with the given corner.
func ringProfile(t testing.TB, z int, x, corner float64) (*Profile, *involute.Space) {
	t.Helper()
	tip := float64(z)/2 - 1 + x
	if b := float64(z) / 2 * math.Cos(20*degree); tip < b+0.02 {
		tip = b + 0.02
	}
	s, err := involute.NewSpace(involute.SpaceSpec{Module: 1, Teeth: z, Rack: rack(t, 'A'), Shift: x, TipRadius: tip, Corner: corner})
	require.NoError(t, err)
	p, err := OutlineProfile(gear.SpaceLoop(s))
	require.NoError(t, err)
	return p, s
}

// No published value for the root stress of a ring is known to us. The model
// of the same outline must agree with the factors of the 60 degree tangent
// within 15 %, and both must fall as the corner grows.
func TestModelOfRingTeeth(t *testing.T) {
	for _, z := range []int{40, 104, 200} {
		last, lastFactor := math.Inf(1), math.Inf(1)
		for _, corner := range []float64{0.2, 0.3, 0.38} {
			p, s := ringProfile(t, z, 0, corner)
			f, err := p.Form(p.Tip(), 1, 20*degree)
			require.NoError(t, err)
			m := newModel(t, p, s.RootRadius, math.Pi, 4)
			stress, at := m.peak()
			want := math.Cos(20*degree) * f.YF * f.YS
			t.Logf("z %d, corner %.2f (%.3f): model %.3f at x %.2f, factors %.3f (%+.1f %%), section at %.2f", z, corner, s.CornerRadius, stress, at.X, want, 100*(want/stress-1), f.X)
			assert.InEpsilon(t, stress, want, 0.15)
			assert.Less(t, stress, last, "a larger corner lowers the peak")
			assert.Less(t, want, lastFactor)
			last, lastFactor = stress, want
		}
	}
}

// The model's deflection of ring teeth under a load at the tip, against bending,
// shear and the root's tilting. The point at which the model's is read lies off
// the contact, so no flattening belongs to it.
func TestModelOfRingDeflection(t *testing.T) {
	for _, z := range []int{40, 104, 200} {
		p, s := ringProfile(t, z, 0, 0.3)
		l, err := p.Lever(p.Tip())
		require.NoError(t, err)
		got := l.ToothYield(modelPoisson) + l.RootYield(modelPoisson)
		m := newModel(t, p, s.RootRadius, 6, 8)
		t.Logf("z %d: model %.2f, Weber and Banaschek %.2f", z, m.yield(), got)
		assert.InEpsilon(t, m.yield(), got, 0.10)
	}
}
