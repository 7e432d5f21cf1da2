package gear_test

import (
	"testing"

	"ringtrack/gear"
)

func BenchmarkResolve(b *testing.B) {
	for b.Loop() {
		if p, _ := gear.Resolve(open(2.5, 15, 104)); p == nil {
			b.Fatal("no pair")
		}
	}
}

func BenchmarkFlatten(b *testing.B) {
	p, _ := gear.Resolve(open(2.5, 15, 104))
	l := p.Ring.Outline()
	for _, tt := range []struct {
		name  string
		chord float64
	}{{"1um", 1e-3}, {"5um", 5e-3}} {
		b.Run(tt.name, func(b *testing.B) {
			n := 0
			for b.Loop() {
				n = len(l.Flatten(tt.chord))
			}
			b.ReportMetric(float64(n), "points")
		})
	}
}

func BenchmarkOffset(b *testing.B) {
	p, _ := gear.Resolve(open(2.5, 15, 104))
	l := p.Ring.Outline()
	for b.Loop() {
		if _, err := l.Offset(-0.08); err != nil {
			b.Fatal(err)
		}
	}
}
