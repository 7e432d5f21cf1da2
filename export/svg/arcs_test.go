package svg_test

import (
	"bytes"
	"math"
	"strings"
	"testing"

	"ringtrack/export/figure"
	"ringtrack/export/svg"
	"ringtrack/gear/plane"
)

// TestArcsByDefault: smooth pieces are written as arcs, which read back within
// the tolerance and without corners.
func TestArcsByDefault(t *testing.T) {
	d := pinionLike()
	got := write(t, d, svg.Options{})
	golden(t, "pinion-like-arcs.svg", got)
	if !bytes.Contains(got, []byte("arcs leave smooth curves by at most 0.002 mm")) {
		t.Error("no word of the tolerance")
	}
	res := read(t, got)
	for i, o := range d.Outlines {
		l := res.Outlines[i].Loop
		if math.Abs(l.Area()-o.Loop.Area()) > 0.002*o.Loop.Length() {
			t.Errorf("outline %d: area %g, want %g", i, l.Area(), o.Loop.Area())
		}
		for k, p := range l.Unit {
			for _, u := range []float64{0, 0.3, 0.5, 0.8} {
				if off := o.Loop.Distance(p.At(u)); off > 0.002+1e-5 {
					t.Fatalf("outline %d is %g mm off", i, off)
				}
			}
			a, b := p.Frame(1).V, l.Unit[(k+1)%len(l.Unit)].Frame(0).V
			if turn := math.Abs(math.Atan2(a.Cross(b), a.Dot(b))) * 180 / math.Pi; i == len(d.Outlines)-1 && turn > 0.01 {
				t.Errorf("a corner of %g degrees in a smooth outline", turn)
			}
		}
	}
	for _, opt := range []svg.Options{{Arc: 0.01, Chord: 0.01}, {Arc: -1}, {Arc: math.NaN()}} {
		if err := svg.Write(&bytes.Buffer{}, d, opt); err == nil {
			t.Errorf("%+v was taken", opt)
		}
	}
}

// TestBridgesAreGaps: an outline with bridges is open runs of one path.
func TestBridgesAreGaps(t *testing.T) {
	d := figure.Drawing{Outlines: []figure.Outline{{Layer: figure.CutOutside, Loop: plane.CircleLoop(plane.Vec{}, 10),
		Bridges: []figure.Bridge{{At: plane.Vec{X: 10}, Width: 1}, {At: plane.Vec{X: -10}, Width: 1}}}}}
	got := string(write(t, d, svg.Options{}))
	if n := strings.Count(got, "M "); n != 2 || strings.Contains(got, "Z") || strings.Count(got, "<path") != 1 {
		t.Errorf("%d runs in\n%s", n, got)
	}
	if !strings.Contains(got, `viewBox="-11 -11 22 22"`) {
		t.Errorf("the sheet changed:\n%s", got)
	}
	if _, err := svg.Read(strings.NewReader(got), svg.Limits{}); err == nil || !strings.Contains(err.Error(), "open") {
		t.Errorf("the gaps went unseen: %v", err)
	}
}
