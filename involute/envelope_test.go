package involute_test

import (
	"errors"
	"math"
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"ringtrack/involute"
)

// corner is a corner of the rack's outline: along the rack from the middle of
// one of its teeth, and below its datum line.
type corner struct{ along, below float64 }

// rackOutline returns one side of a rack tooth of module 1 as a polygon, from
// the middle of its tip to its root line, its corner arc in chords that stay
// within 0.02 um of the arc.
func rackOutline(r involute.Rack) []corner {
	const sagitta = 0.02e-3
	sin, cos := math.Sincos(r.PressureAngle)
	depth := r.Dedendum - r.RootRadius // of the arc's centre
	across := math.Pi/4 - depth*math.Tan(r.PressureAngle) - r.RootRadius/cos
	out := []corner{{0, r.Dedendum}, {across, r.Dedendum}}
	sweep := math.Pi/2 - r.PressureAngle // from straight down to the flank's normal
	n := 1
	if r.RootRadius > 0 {
		n = int(math.Ceil(sweep / (2 * math.Acos(1-sagitta/r.RootRadius))))
	}
	for i := 1; i <= n; i++ {
		s, c := math.Sincos(sweep * float64(i) / float64(n))
		out = append(out, corner{across + r.RootRadius*s, depth + r.RootRadius*c})
	}
	end := out[len(out)-1]
	// The straight flank, up to the line that the tip circle touches.
	const top = -1.0
	return append(out, corner{end.along + (end.below-top)*sin/cos, top})
}

// envelope returns the least half tooth angle that the rack leaves at each
// radius while it rolls past in the given number of positions. It knows nothing
// of involutes and trochoids: it only turns the gear, shifts the rack by the arc
// of the reference circle, and looks where its polygon crosses each circle.
func envelope(rack involute.Rack, z int, x float64, radii []float64, positions int) []float64 {
	r := float64(z) / 2
	half := make([]float64, len(radii))
	for i := range half {
		half[i] = math.Inf(1)
	}
	outline := rackOutline(rack)
	const reach = 6.0 // modules of roll to either side: contact is nearer
	for p := range positions {
		shift := reach * (2*float64(p)/float64(positions-1) - 1)
		turn := shift / r
		for i := 1; i < len(outline); i++ {
			a, b := outline[i-1], outline[i]
			ax, ay := shift+a.along, r+x-a.below
			bx, by := shift+b.along, r+x-b.below
			dx, dy := bx-ax, by-ay
			// |a + u d| = radius
			dd, ad, aa := dx*dx+dy*dy, ax*dx+ay*dy, ax*ax+ay*ay
			if dd == 0 {
				continue
			}
			far := math.Sqrt(math.Max(aa, bx*bx+by*by))
			near := math.Sqrt(math.Max(0, aa-ad*ad/dd))
			for j, radius := range radii {
				if radius < near || radius > far {
					continue
				}
				root := math.Sqrt(math.Max(0, ad*ad-dd*(aa-radius*radius)))
				for _, u := range [2]float64{(-ad - root) / dd, (-ad + root) / dd} {
					if u < 0 || u > 1 {
						continue
					}
					// The angle from the space's centre line, in the gear.
					angle := math.Atan2(ax+u*dx, ay+u*dy) - turn
					half[j] = math.Min(half[j], math.Pi/float64(z)-angle)
				}
			}
		}
	}
	return half
}

// halfAngle returns half the tooth angle of the finished tooth at radius r, from
// its flank or its fillet, unthinned.
func halfAngle(tooth *involute.Tooth, r float64) float64 {
	if r >= tooth.FormRadius {
		return tooth.HalfAngle(r)
	}
	f := tooth.Fillet(1)
	lo, hi := f.T0, f.T1 // the radius falls from the joint to the root circle
	for range 80 {
		mid := (lo + hi) / 2
		if x, y, _, _, _, _ := f.At(mid); math.Hypot(x, y) > r {
			lo = mid
		} else {
			hi = mid
		}
	}
	x, y, _, _, _, _ := f.At(hi)
	return -math.Atan2(y, x)
}

// TestEnvelope compares teeth with what the rolling rack leaves: 0.5 um at
// module 1. A few teeth always, the whole grid with RINGTRACK_SLOW=1.
func TestEnvelope(t *testing.T) {
	type gear struct {
		kind  byte
		alpha float64
		z     int
		x     float64
	}
	grid := []gear{
		{'A', 20, 8, 0}, {'A', 20, 8, 0.5}, {'A', 20, 12, 0}, {'A', 20, 15, 0.16}, {'A', 20, 17, 0},
		{'B', 20, 18, 0}, {'D', 20, 10, -0.3}, {'C', 14.5, 24, 0}, {'A', 30, 9, 0.2}, {'A', 20, 40, 0.6},
	}
	if os.Getenv("RINGTRACK_SLOW") != "" {
		for z := 8; z <= 40; z++ {
			for x := -0.3; x < 0.61; x += 0.1 {
				grid = append(grid, gear{'A', 20, z, x})
			}
			grid = append(grid, gear{'D', 20, z, 0.05}, gear{'B', 25, z, -0.1})
		}
	}
	worst, compared := 0.0, 0
	for _, g := range grid {
		rack, _, err := involute.StandardRack(g.kind, deg(g.alpha))
		require.NoError(t, err)
		tip := float64(g.z)/2 + 1 + g.x
		tooth, err := involute.NewTooth(involute.ToothSpec{Module: 1, Teeth: g.z, Rack: rack, Shift: g.x, TipRadius: tip})
		var d *involute.DomainError
		if errors.As(err, &d) && d.Cause == involute.Pointed {
			continue
		}
		require.NoError(t, err, "%+v", g)
		radii := make([]float64, 200)
		for i := range radii {
			radii[i] = tooth.RootRadius + (tip-tooth.RootRadius)*(float64(i)+0.5)/float64(len(radii))
		}
		left := envelope(rack, g.z, g.x, radii, 4000)
		for i, r := range radii {
			off := r * math.Abs(left[i]-halfAngle(tooth, r))
			worst = math.Max(worst, off)
			if !(off < 0.5e-3) {
				t.Errorf("%c %g deg, z %d, x %.1f: %.3g um off at radius %.4f (form %.4f)", g.kind, g.alpha, g.z, g.x, 1000*off, r, tooth.FormRadius)
				break
			}
		}
		compared++
	}
	t.Logf("%d teeth, worst %.3f um at module 1", compared, 1000*worst)
	require.GreaterOrEqual(t, compared, 9)
}
