package dxf_test

import (
	"bytes"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"ringtrack/export/dxf"
	"ringtrack/export/figure"
	"ringtrack/gear/plane"
)

// TestForms: each form and unit reads back to the same outlines, and arcs are
// the default.
func TestForms(t *testing.T) {
	d := pinionLike()
	for _, tt := range []struct {
		name string
		opt  dxf.Options
		lim  dxf.Limits
		want []string
	}{
		{"r2000-mm", dxf.Options{}, dxf.Limits{}, []string{"\nAC1015\n", "\n$INSUNITS\n70\n4\n9\n$MEASUREMENT\n70\n1\n", "arcs leave smooth curves by at most 0.002 mm"}},
		{"r2000-inch", dxf.Options{Unit: dxf.Inch}, dxf.Limits{}, []string{"\n$INSUNITS\n70\n1\n9\n$MEASUREMENT\n70\n0\n", "Unit: inch"}},
		{"r12-mm", dxf.Options{Form: dxf.R12}, dxf.Limits{}, []string{"\nAC1009\n", "\nSEQEND\n", "Unit: millimetre"}},
		{"r12-inch", dxf.Options{Form: dxf.R12, Unit: dxf.Inch}, dxf.Limits{Unit: 25.4}, []string{"Unit: inch"}},
	} {
		got := write(t, d, tt.opt)
		golden(t, tt.name+".dxf", got)
		for _, s := range tt.want {
			if !bytes.Contains(got, []byte(s)) {
				t.Errorf("%s: %q is not in the file", tt.name, s)
			}
		}
		if tt.opt.Form == dxf.R12 && (bytes.Contains(got, []byte("LWPOLYLINE")) || bytes.Contains(got, []byte("$INSUNITS"))) {
			t.Errorf("%s holds what R12 does not know", tt.name)
		}
		res, err := dxf.Read(bytes.NewReader(got), tt.lim)
		if err != nil {
			t.Fatalf("%s: %v", tt.name, err)
		}
		if len(res.Outlines) != len(d.Outlines) || res.Assumed != (tt.opt.Form == dxf.R12) {
			t.Fatalf("%s: %d outlines, assumed %v", tt.name, len(res.Outlines), res.Assumed)
		}
		for i, o := range d.Outlines {
			g := res.Outlines[i]
			if a, b := o.Loop.Area(), g.Loop.Area(); g.Layer != o.Layer || math.Abs(a-b) > 0.002*o.Loop.Length() {
				t.Errorf("%s: outline %d on %s, area %g; want %s, %g", tt.name, i, g.Layer, b, o.Layer, a)
			}
			for _, p := range g.Loop.Unit {
				for _, u := range []float64{0, 0.2, 0.5, 0.8} {
					if off := o.Loop.Distance(p.At(u)); off > 0.002+1e-6 {
						t.Fatalf("%s: outline %d is %g mm off", tt.name, i, off)
					}
				}
			}
			if worst := sharpest(g.Loop); i == len(d.Outlines)-1 && worst > 0.01 {
				t.Errorf("%s: a corner of %g degrees in a smooth outline", tt.name, worst)
			}
		}
	}
}

// sharpest returns the greatest turn at a joint in degrees.
func sharpest(l plane.Loop) float64 {
	worst := 0.0
	for i, p := range l.Unit {
		a, b := p.Frame(1).V, l.Unit[(i+1)%len(l.Unit)].Frame(0).V
		worst = math.Max(worst, math.Abs(math.Atan2(a.Cross(b), a.Dot(b))))
	}
	return worst * 180 / math.Pi
}

// TestArcsAreSmallerFiles: at a finer tolerance than the chords'.
func TestArcsAreSmallerFiles(t *testing.T) {
	arcs, chords := write(t, ringLike(), dxf.Options{}), write(t, ringLike(), dxf.Options{Chord: 0.002})
	t.Logf("arcs %d bytes, chords %d bytes", len(arcs), len(chords))
	if 3*len(arcs) > 2*len(chords) {
		t.Errorf("arcs take %d bytes, chords %d", len(arcs), len(chords))
	}
}

func TestBridges(t *testing.T) {
	d := figure.Drawing{Outlines: []figure.Outline{{Layer: figure.CutOutside, Loop: plane.CircleLoop(plane.Vec{X: 3}, 20),
		Bridges: []figure.Bridge{{At: plane.Vec{X: 23}, Width: 0.5}, {At: plane.Vec{X: 3, Y: 20}, Width: 0.8}, {At: plane.Vec{X: -17}, Width: 0.5}}}}}
	for _, form := range []dxf.Form{dxf.R2000, dxf.R12} {
		got := write(t, d, dxf.Options{Form: form})
		name := "LWPOLYLINE"
		if form == dxf.R12 {
			name = "POLYLINE"
		}
		if n := strings.Count(string(got), "\n0\n"+name+"\n"); n != 3 {
			t.Fatalf("%d polylines", n)
		}
		if _, err := dxf.Read(bytes.NewReader(got), dxf.Limits{}); err == nil || !strings.Contains(err.Error(), "open") {
			t.Errorf("the gaps went unseen: %v", err)
		}
		res, err := dxf.Read(bytes.NewReader(got), dxf.Limits{Join: 0.81})
		if err != nil {
			t.Fatal(err)
		}
		l := res.Outlines[0].Loop
		var gaps []float64
		for _, p := range l.Unit {
			if line, ok := p.(plane.Line); ok {
				gaps = append(gaps, 40*math.Asin(line.B.Sub(line.A).Len()/40))
			}
		}
		if len(gaps) != 3 || math.Abs(gaps[0]+gaps[1]+gaps[2]-1.8) > 1e-6 {
			t.Errorf("gaps %v", gaps)
		}
		if cut := l.Length() - gaps[0] - gaps[1] - gaps[2]; math.Abs(cut-(40*math.Pi-1.8)) > 1e-3 {
			t.Errorf("%g mm cut", cut)
		}
	}
	for _, tt := range []struct {
		bridges []figure.Bridge
		want    string
	}{
		{[]figure.Bridge{{At: plane.Vec{X: 23}}}, "a bridge 0 mm wide"},
		{[]figure.Bridge{{At: plane.Vec{X: 23}, Width: math.NaN()}}, "mm wide"},
		{[]figure.Bridge{{At: plane.Vec{X: 21}, Width: 1}}, "off its outline"},
		{[]figure.Bridge{{At: plane.Vec{X: 23}, Width: 1}, {At: plane.Vec{X: 23, Y: 0.01}, Width: 1}}, "run into one another"},
	} {
		d.Outlines[0].Bridges = tt.bridges
		if err := dxf.Write(&bytes.Buffer{}, d, dxf.Options{}); err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("got %v, want %q", err, tt.want)
		}
	}
}

func TestFormsRefuse(t *testing.T) {
	for _, tt := range []struct {
		opt  dxf.Options
		want string
	}{
		{dxf.Options{Arc: 0.01, Chord: 0.01}, "one or the other"},
		{dxf.Options{Arc: -1}, "arc tolerance"},
		{dxf.Options{Arc: math.NaN()}, "arc tolerance"},
		{dxf.Options{Form: 7}, "form 7"},
		{dxf.Options{Unit: 7}, "unit 7"},
	} {
		var b bytes.Buffer
		if err := dxf.Write(&b, pinionLike(), tt.opt); err == nil || !strings.Contains(err.Error(), tt.want) || b.Len() > 0 {
			t.Errorf("got %v and %d bytes, want %q", err, b.Len(), tt.want)
		}
	}
}

// TestSamples writes the files that other readers are shown; see the folder
// given with -show.
func TestSamples(t *testing.T) {
	dir := *show
	if dir == "" {
		dir = t.TempDir()
	}
	for name, d := range map[string]figure.Drawing{"pinion": pinionLike(), "ring": ringLike()} {
		for form, opt := range map[string]dxf.Options{
			"r2000-mm": {}, "r2000-inch": {Unit: dxf.Inch}, "r12-mm": {Form: dxf.R12}, "r12-inch": {Form: dxf.R12, Unit: dxf.Inch},
		} {
			// Beside each file what a reader must find: layer, length and area of
			// every outline, mm, and the file's unit in mm.
			var want strings.Builder
			for _, o := range d.Outlines {
				fmt.Fprintf(&want, "%s\t%.9g\t%.9g\t%g\n", o.Layer, o.Loop.Length(), math.Abs(o.Loop.Area()), map[dxf.Unit]float64{dxf.Millimetre: 1, dxf.Inch: 25.4}[opt.Unit])
			}
			path := filepath.Join(dir, name+"-"+form)
			if err := os.WriteFile(path+".dxf", write(t, d, opt), 0o644); err != nil {
				t.Fatal(err)
			}
			if err := os.WriteFile(path+".tsv", []byte(want.String()), 0o644); err != nil {
				t.Fatal(err)
			}
		}
	}
}
