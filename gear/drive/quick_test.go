package drive

import (
	"fmt"
	"testing"
	"time"

	"ringtrack/gear/job"
)

func TestQuick(t *testing.T) {
	for _, text := range []string{string(job.Template()), `
[teeth]
module = 2
pinion = 12
ring = 96
pinion_shift = 0
ring_shift = 0
[pinion]
tip_diameter = 28
[ring]
tip_diameter = 188
`, `
[teeth]
module = 1
pinion = 5
ring = 60
[making]
kind = "exact"
`, `
[teeth]
module = 2
pinion = 15
ring = 60
pinion_shift = 1.2
ring_shift = 0
centre_distance = 46
[ring.bolts]
count = 4
circle = 122
screw = "M4"
[pinion.bore]
shape = "round"
diameter = 30
`} {
		j, f := job.Read("x.toml", []byte(text))
		for _, x := range f {
			fmt.Println("J ", x)
		}
		if j == nil {
			continue
		}
		t0 := time.Now()
		d := Check(j)
		fmt.Println(time.Since(t0), d.Verdict())
		for _, x := range d.Findings {
			fmt.Println("  ", x.Level, x.Code, x.About, x.Line, x.Text, x.Change)
		}
		for _, r := range d.Ledger {
			fmt.Printf("%-8s %-10s %9.5f %12.8f %12.8f %12.8f %12.8f\n", r.Part, r.Step, r.Given, r.Thickness, r.Tip, r.Root, r.Bore)
		}
		fmt.Println(d.Pinion.Gauge, d.Ring.Gauge)
		t0 = time.Now()
		for range 10 {
			Resolve(j)
		}
		fmt.Println("resolve", time.Since(t0)/10)
		t0 = time.Now()
		for range 10 {
			teeth(j)
		}
		fmt.Println("teeth", time.Since(t0)/10)
	}
}
