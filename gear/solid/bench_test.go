package solid

import (
	"fmt"
	"testing"

	"ringtrack/gear/plane"
)

// chordFor returns a chordal tolerance at which the region has about n points.
func chordFor(r plane.Region, n int) float64 {
	lo, hi := 1e-9, 1.0
	for range 60 {
		m := (lo + hi) / 2
		if count(polygons(r, m)) > n {
			lo = m
		} else {
			hi = m
		}
	}
	return hi
}

func BenchmarkTriangulate(b *testing.B) {
	shapes := map[string][][]plane.Vec{}
	names := []string{}
	add := func(name string, l [][]plane.Vec) {
		name = fmt.Sprintf("%s-%d", name, count(l))
		names = append(names, name)
		shapes[name] = l
	}
	r := ring(104, 2.5, 24)
	for _, n := range []int{3000, 5000, 50000} {
		add("ring", polygons(r, chordFor(r, n)))
	}
	add("annulus", annulus(25000, 100, 110))
	add("thick-annulus", annulus(25000, 10, 110))
	add("disk", annulus(50000, 100, 110)[:1])
	for _, name := range names {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := Triangulate(shapes[name]); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkPrism(b *testing.B) {
	r := ring(104, 2.5, 24)
	for _, n := range []int{3000, 5000, 50000} {
		chord := chordFor(r, n)
		b.Run(fmt.Sprintf("ring-%d", n), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := Prism(r, 0, 12, chord); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkMesh(b *testing.B) {
	r := ring(104, 2.5, 24)
	m, err := Prism(r, 0, 12, chordFor(r, 5000))
	if err != nil {
		b.Fatal(err)
	}
	b.Run("check", func(b *testing.B) {
		for b.Loop() {
			m.Check()
		}
	})
	b.Run("float32", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			if _, err := m.Float32(); err != nil {
				b.Fatal(err)
			}
		}
	})
	b.Run("volume", func(b *testing.B) {
		for b.Loop() {
			m.Volume()
		}
	})
}
