package roll_test

import (
	"context"
	"fmt"
	"testing"

	"ringtrack/gear/plane"
	"ringtrack/gear/roll"
)

// standard is the pair of the benchmarks: 15 and 104 teeth of module 2.5.
func standard(t testing.TB) (roll.Pair, roll.Options) {
	p := resolve(t, wish(2.5, 15, 104, 0.3))
	return outlines(p), options(p)
}

// withFacets flattens both outlines, the symmetry kept.
func withFacets(p roll.Pair, chord float64) roll.Pair {
	p.Pinion, p.Ring = facets(p.Pinion, chord), facets(p.Ring, chord)
	return p
}

func rollAll(b *testing.B, p roll.Pair, o roll.Options) {
	b.Helper()
	b.ReportAllocs()
	for b.Loop() {
		if _, err := roll.Roll(context.Background(), p, o); err != nil {
			b.Fatal(err)
		}
	}
}

// One pitch in 720 steps, flattened at 5 um: everything that Roll does.
func BenchmarkPitch(b *testing.B) {
	p, o := standard(b)
	rollAll(b, withFacets(p, 0.005), o)
}

// The same of exact pieces.
func BenchmarkPitchExact(b *testing.B) {
	p, o := standard(b)
	rollAll(b, p, o)
}

// A turn of the ring with the ring off centre, 5 um.
func BenchmarkTurnOffCentre(b *testing.B) {
	p, o := standard(b)
	p = withFacets(p, 0.005)
	p.RingOff = plane.Vec{X: 0.1}
	rollAll(b, p, o)
}

// One position against the number of ring teeth and against fineness: the time
// follows the points in the mesh.
func BenchmarkPosition(b *testing.B) {
	for _, z2 := range []int{52, 104, 416} {
		p := resolve(b, wish(2.5, 15, z2, 0.3))
		benchPosition(b, fmt.Sprintf("15-%d-5um", z2), withFacets(outlines(p), 0.005))
	}
	p, _ := standard(b)
	for _, um := range []float64{1, 0.1} {
		benchPosition(b, fmt.Sprintf("15-104-%gum", um), withFacets(p, um/1000))
	}
	benchPosition(b, "15-104-exact", p)
}

func benchPosition(b *testing.B, name string, p roll.Pair) {
	b.Run(name, func(b *testing.B) {
		e, err := roll.New(p, roll.Options{})
		if err != nil {
			b.Fatal(err)
		}
		phi := 0.0
		for b.Loop() {
			e.Free(phi)
			phi += 0.0007
		}
		b.ReportMetric(float64(len(p.Pinion.Unit)*p.Pinion.Turns()+len(p.Ring.Unit)*p.Ring.Turns()), "pieces")
	})
}

// The same answer by brute force: a general-purpose library's crossing test and
// bisection, both ends of one interval to 1e-6 rad.
func BenchmarkPositionBruteForce(b *testing.B) {
	p, _ := standard(b)
	p = withFacets(p, 0.005)
	e, err := roll.New(p, roll.Options{})
	if err != nil {
		b.Fatal(err)
	}
	brute := newBrute(p)
	phi := 0.0
	for b.Loop() {
		brute.free(phi, e.Free(phi).Mid(), 0.003, 1e-6)
		phi += 0.0007
	}
}
