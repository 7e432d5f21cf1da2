package solid

import (
	"fmt"
	"testing"
)

func BenchmarkBody(b *testing.B) {
	for _, shape := range []struct {
		name string
		body *Body
	}{{"pinion", hubPinion()}, {"ring", boltRing(104)}, {"ring-with-step", stepRing(104)}} {
		for _, chord := range []float64{0.005, 0.0005} {
			m, err := shape.body.Mesh(chord)
			if err != nil {
				b.Fatal(err)
			}
			b.Run(fmt.Sprintf("%s-%gum-%d", shape.name, 1000*chord, len(m.Facets)), func(b *testing.B) {
				b.ReportAllocs()
				for b.Loop() {
					if _, err := shape.body.Mesh(chord); err != nil {
						b.Fatal(err)
					}
				}
			})
		}
	}
}
