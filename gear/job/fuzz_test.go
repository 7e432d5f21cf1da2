package job_test

import (
	"bytes"
	"slices"
	"testing"
	"time"

	"ringtrack/gear/find"
	"ringtrack/gear/job"
)

func FuzzRead(f *testing.F) {
	f.Add([]byte(least))
	f.Add(job.Template())
	f.Add([]byte("\ufeff[teeth]\r\nmodule = 2,5\r\n"))
	f.Add([]byte("a = [[{}], {b = 1}]\n[[x]]\n'' = \"\"\"\n"))
	f.Add([]byte("pinion = { bore = { shape = 'd', diameter = \"1e999 mm\" } }"))
	f.Add([]byte("\"a.b\".\"\\\"\" = 1\n[\"x.\\u0022y\"]\nz = nan"))
	f.Add([]byte(least + dBore + hub + "[[pinion.set_screw]]\nsize = \"M3\"\n[[pinion.set_screw]]\nsize = \"#6\"\n"))
	f.Add([]byte("pinion.set_screw = [{}, { size = \"M3\" }]\n[[pinion.set_screw"))
	for _, b := range slices.Concat(badBelow, badFixings) {
		f.Add([]byte(least + b.text + "\n"))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		start := time.Now()
		j, found := job.Read("x.toml", data)
		if d := time.Since(start); d > 5*time.Second {
			t.Fatalf("took %v", d)
		}
		if (j == nil) != (find.Count(found, find.Fault) > 0) {
			t.Fatalf("job %v with %v", j, found)
		}
		last, lines := 0, 1+bytes.Count(data, []byte("\n"))
		for _, f := range found {
			if f.Line < last || f.Line > lines || f.Text == "" || f.About == "" {
				t.Fatalf("line %d after %d of %d: %v", f.Line, last, lines, f)
			}
			last = f.Line
		}
		if j != nil && j.Teeth.Ring <= j.Teeth.Pinion {
			t.Fatalf("%+v", j.Teeth)
		}
	})
}

func FuzzWith(f *testing.F) {
	f.Add("teeth.module", "3")
	f.Add("making.bed", "[1, 2, 3]")
	f.Add("pinion.bore", "{ shape = 'd' }")
	f.Add("x\ny", "2,5")
	f.Add("pinion.set_screw[0].height", "20")
	f.Add("pinion.set_screw[]..[1", "[{}]")
	f.Add("ring", "{}")
	base, _ := job.Read("x.toml", job.Template())
	f.Fuzz(func(t *testing.T, key, value string) {
		j, found := base.With(key, value)
		if (j == nil) != (find.Count(found, find.Fault) > 0) {
			t.Fatalf("job %v with %v", j, found)
		}
		if j != nil && (!j.Given(key) || base.Teeth.Module != 2.5) {
			t.Fatalf("%q = %q", key, value)
		}
	})
}

func BenchmarkRead(b *testing.B) {
	data := job.Template()
	b.ReportAllocs()
	for b.Loop() {
		if j, _ := job.Read("x.toml", data); j == nil {
			b.Fatal("the template is refused")
		}
	}
}

func BenchmarkWith(b *testing.B) {
	j, _ := job.Read("x.toml", job.Template())
	b.ReportAllocs()
	for b.Loop() {
		if k, _ := j.With("teeth.pinion_shift", "0.16"); k == nil {
			b.Fatal("refused")
		}
	}
}
