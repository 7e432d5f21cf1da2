package dxf_test

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"
	"ringtrack/export/dxf"
	"ringtrack/export/figure"
	"ringtrack/gear/plane"
)

// groups turns "code value" pairs, separated by "|", into a file's lines.
func groups(s string) string {
	var b strings.Builder
	for _, g := range strings.Split(s, "|") {
		code, v, _ := strings.Cut(strings.TrimSpace(g), " ")
		b.WriteString(code + "\n" + v + "\n")
	}
	return b.String()
}

// drawing wraps entities in a file without a header, as R12 allows.
func drawing(entities string) string {
	return groups("0 SECTION|2 ENTITIES|" + entities + "|0 ENDSEC|0 EOF")
}

func inUnits(code int, entities string) string {
	return groups(fmt.Sprintf("0 SECTION|2 HEADER|9 $ACADVER|1 AC1015|9 $INSUNITS|70 %d|0 ENDSEC|0 SECTION|2 ENTITIES|", code) +
		entities + "|0 ENDSEC|0 EOF")
}

const (
	square  = "0 LINE|8 A|10 0|20 0|11 10|21 0|0 LINE|8 A|10 10|20 10|11 10|21 0|0 LINE|10 10|20 10|11 0|21 10|0 LINE|10 0|20 0|11 0|21 10"
	stadium = "0 ARC|10 0|20 0|40 5|50 90|51 270|0 LINE|10 0|20 -5|11 20|21 -5|0 ARC|10 20|20 0|40 5|50 -90|51 90|0 LINE|10 20|20 5|11 0|21 5.001"
)

func TestReadOthers(t *testing.T) {
	stadiumArea := 200 + 25*math.Pi
	for name, tt := range map[string]struct {
		file   string
		layer  figure.Layer
		area   float64 // with its sign
		remark string
	}{
		"lines in any order and direction": {drawing(square), "A", 100, "names no unit"},
		"arcs and lines, an end 1 um off":  {drawing(stadium), "0", stadiumArea, ""},
		"circle":                           {drawing("0 CIRCLE|8 B|10 1|20 2|40 2"), "B", 4 * math.Pi, ""},
		"inches":                           {inUnits(1, "0 CIRCLE|10 0|20 0|40 1"), "0", 25.4 * 25.4 * math.Pi, ""},
		"metres":                           {inUnits(6, "0 CIRCLE|10 0|20 0|40 0.01"), "0", 100 * math.Pi, ""},
		"micrometres":                      {inUnits(13, "0 CIRCLE|10 0|20 0|40 1000"), "0", math.Pi, ""},
		"unit given as none":               {inUnits(0, "0 CIRCLE|10 0|20 0|40 1"), "0", math.Pi, "names no unit"},
		"polyline, two bulges, clockwise": {drawing("0 LWPOLYLINE|90 2|70 1|10 -3|20 0|42 -1|10 3|20 0|42 -1"), "0",
			-9 * math.Pi, ""},
		"old polyline with bulge": {drawing("0 POLYLINE|8 C|66 1|70 1|10 0|20 0|30 0|0 VERTEX|8 C|10 0|20 0|0 VERTEX|10 4|20 0|42 1|" +
			"0 VERTEX|10 4|20 4|0 VERTEX|10 0|20 4|0 SEQEND"), "C", 16 + 2*math.Pi, ""},
		"open polyline, ends equal": {drawing("0 LWPOLYLINE|90 4|70 0|10 0|20 0|10 6|20 0|10 0|20 6|10 0|20 0"), "0", 18, ""},
		"open polyline and an arc":  {drawing("0 LWPOLYLINE|90 2|10 -5|20 0|10 5|20 0|0 ARC|10 0|20 0|40 5|50 0|51 180"), "0", 12.5 * math.Pi, ""},
		"repeated vertex":           {drawing("0 LWPOLYLINE|90 4|70 1|10 0|20 0|10 6|20 0|10 6|20 0|10 0|20 6"), "0", 18, ""},
		"seen from below, a mirrored arc": {drawing("0 ARC|10 0|20 0|40 5|50 -90|51 90|230 -1|0 LINE|10 0|20 -5|11 0|21 5"), "0",
			-12.5 * math.Pi, ""},
		"words and points left out": {drawing("0 TEXT|10 0|20 0|40 3|1 hello|0 POINT|10 0|20 0|0 CIRCLE|10 0|20 0|40 1"), "0", math.Pi,
			"left out: 1 POINT, 1 TEXT"},
		"paper left out":            {drawing("0 CIRCLE|67 1|10 0|20 0|40 9|0 CIRCLE|10 0|20 0|40 1"), "0", math.Pi, "of the paper"},
		"elevated":                  {drawing("0 LINE|10 0|20 0|30 7|11 4|21 0|31 7|0 ARC|10 2|20 0|30 7|40 2|50 180|51 0"), "0", -2 * math.Pi, ""},
		"numbers with plus and exp": {drawing("0 CIRCLE|10 +1e0|20 -.5|40 1.0E+00"), "0", math.Pi, ""},
		"windows line ends":         {strings.ReplaceAll(drawing("0 CIRCLE|10 0|20 0|40 1"), "\n", "\r\n"), "0", math.Pi, ""},
		"blocks and tables skipped": {groups("0 SECTION|2 BLOCKS|0 BLOCK|2 X|0 SPLINE|10 0|0 ENDBLK|0 ENDSEC|0 SECTION|2 ENTITIES|0 CIRCLE|10 0|20 0|40 1|0 ENDSEC|0 EOF"), "0", math.Pi, ""},
		"whole circle as an arc":    {drawing("0 ARC|10 0|20 0|40 1|50 30|51 390"), "0", math.Pi, ""},
	} {
		t.Run(name, func(t *testing.T) {
			res := read(t, []byte(tt.file))
			if len(res.Outlines) != 1 {
				t.Fatalf("%d outlines", len(res.Outlines))
			}
			o := res.Outlines[0]
			// An end moved by 1 um moves the area by at most its length times that.
			if a := o.Loop.Area(); math.Abs(a-tt.area) > 0.011 || o.Layer != tt.layer {
				t.Errorf("area %g on %s, want %g on %s", a, o.Layer, tt.area, tt.layer)
			}
			if err := o.Loop.Check(1e-9); err != nil {
				t.Error(err)
			}
			if all := strings.Join(res.Remarks, "; "); !strings.Contains(all, tt.remark) {
				t.Errorf("remarks %q, want %q", all, tt.remark)
			}
		})
	}
}

func TestUnitWhereNoneIsNamed(t *testing.T) {
	res, err := dxf.Read(strings.NewReader(drawing("0 CIRCLE|10 0|20 0|40 1")), dxf.Limits{Unit: 25.4})
	if err != nil || res.Unit != "inch" || !res.Assumed || math.Abs(res.Outlines[0].Loop.Box().Max.X-25.4) > 1e-12 {
		t.Errorf("%+v %v", res, err)
	}
}

func TestReadRefuses(t *testing.T) {
	circle := "0 CIRCLE|10 0|20 0|40 1"
	for name, tt := range map[string]struct {
		file string
		line int
		want string
	}{
		"empty":            {"", 0, "ends without EOF"},
		"words":            {"hello\nworld\n", 1, `"hello" is not a group code`},
		"not text":         {"0\nSEC\x00TION\n", 2, "not text"},
		"breaks off":       {drawing(square)[:100], 0, "ends"},
		"ends after code":  {"0\nSECTION\n2\n", 3, "ends after a group code"},
		"no entities":      {groups("0 EOF"), 2, "no outline"},
		"nothing in it":    {groups("0 SECTION|2 ENTITIES|0 ENDSEC|0 EOF"), 8, "no outline"},
		"spline and more":  {drawing(circle + "|0 SPLINE|70 8|0 SPLINE|70 8|0 INSERT|2 X|0 ELLIPSE|10 0"), 14, "1 ELLIPSE, 1 INSERT, 2 SPLINE"},
		"spline-fitted":    {drawing("0 POLYLINE|70 5|0 VERTEX|10 0|20 0|0 SEQEND"), 6, "spline-fitted POLYLINE"},
		"open square":      {drawing("0 LINE|10 0|20 0|11 1|21 0|0 LINE|10 1|20 0|11 1|21 1"), 16, "open"},
		"end too far":      {drawing(strings.ReplaceAll(stadium, "5.001", "5.01")), 0, "open"},
		"drawn twice":      {drawing(square + "|" + square), 0, "more than two ends"},
		"branch":           {drawing(square + "|0 LINE|10 10|20 10|11 20|21 20"), 0, "more than two ends"},
		"there and back":   {drawing("0 LWPOLYLINE|90 2|70 1|10 0|20 0|10 5|20 0"), 6, "encloses nothing"},
		"NaN":              {drawing("0 CIRCLE|10 NaN|20 0|40 1"), 8, `"NaN" is not a number`},
		"infinite":         {drawing("0 CIRCLE|10 0|20 1e999|40 1"), 10, "not a number"},
		"hexadecimal":      {drawing("0 CIRCLE|10 0x10|20 0|40 1"), 8, "not a number"},
		"decimal comma":    {drawing("0 CIRCLE|10 1,5|20 0|40 1"), 8, `"1,5" is not a number`},
		"huge number":      {drawing("0 CIRCLE|10 1e300|20 0|40 1"), 8, "outside"},
		"far away":         {drawing("0 CIRCLE|10 1e7|20 0|40 1"), 6, "outside"},
		"radius 0":         {drawing("0 CIRCLE|10 0|20 0|40 0"), 6, "radius 0"},
		"huge count":       {drawing("0 LWPOLYLINE|90 4000000000|70 1|10 0|20 0"), 8, "4000000000 vertices"},
		"count not kept":   {drawing("0 LWPOLYLINE|90 4|70 1|10 0|20 0|10 1|20 0|10 0|20 1"), 6, "promises 4 vertices and has 3"},
		"vertex alone":     {drawing("0 VERTEX|10 0|20 0"), 6, "VERTEX without"},
		"polyline broken":  {drawing("0 POLYLINE|70 1|0 VERTEX|10 0|20 0|0 LINE|10 0"), 16, "expected VERTEX or SEQEND"},
		"tilted":           {drawing("0 CIRCLE|10 0|20 0|40 1|210 1|220 0|230 0"), 6, "tilted"},
		"leaves the plane": {drawing("0 LINE|10 0|20 0|30 0|11 1|21 0|31 5"), 6, "leaves the plane"},
		"unknown unit":     {inUnits(99, circle), 0, "$INSUNITS 99"},
		"unit not whole":   {inUnits(4, circle)[:60] + "70\n4.5\n", 0, ""},
		"long line":        {"0\n" + strings.Repeat("x", 100000) + "\n", 0, "longer than"},
		"group in section": {groups("0 SECTION|2 ENTITIES|10 0"), 6, "expected an entity"},
		"no section":       {groups("9 $ACADVER"), 2, "expected the start of a section"},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := dxf.Read(strings.NewReader(tt.file), dxf.Limits{})
			var e *dxf.Error
			if !errors.As(err, &e) {
				t.Fatalf("got %v", err)
			}
			if !strings.Contains(e.Text, tt.want) || tt.line != 0 && e.Line != tt.line {
				t.Errorf("got line %d %q, want line %d %q", e.Line, e.Text, tt.line, tt.want)
			}
		})
	}
}

func TestLimitsAreChecked(t *testing.T) {
	file := drawing("0 CIRCLE|10 0|20 0|40 1")
	for _, lim := range []dxf.Limits{{Join: -1}, {Join: math.NaN()}, {Unit: math.Inf(1)}, {Extent: -3}, {Bytes: 20}, {Pieces: -1}} {
		if _, err := dxf.Read(strings.NewReader(file), lim); err == nil {
			t.Errorf("%+v accepted", lim)
		}
	}
}

// endless repeats a text for ever.
type endless struct {
	text string
	at   int
}

func (e *endless) Read(b []byte) (int, error) {
	n := copy(b, e.text[e.at:])
	e.at = (e.at + n) % len(e.text)
	return n, nil
}

func TestHostileIsRefusedFast(t *testing.T) {
	head := groups("0 SECTION|2 ENTITIES")
	for name, r := range map[string]io.Reader{
		"endless line":      &endless{text: "x"},
		"endless comments":  &endless{text: "999\nbla\n"},
		"endless vertices":  io.MultiReader(strings.NewReader(head+groups("0 LWPOLYLINE|70 1")), &endless{text: "10\n1\n20\n2\n"}),
		"endless lines":     io.MultiReader(strings.NewReader(head), &endless{text: groups("0 LINE|10 0|20 0|11 1|21 1")}),
		"endless blanks":    &endless{text: "\n"},
		"endless kinds":     io.MultiReader(strings.NewReader(head), &endless{text: groups("0 SPLINE|10 0")}),
		"all ends together": strings.NewReader(drawing(strings.TrimSuffix(strings.Repeat("0 LINE|10 0|20 0|11 1|21 1|", 10000), "|"))),
	} {
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		start := time.Now()
		if _, err := dxf.Read(r, dxf.Limits{Bytes: 4 << 20, Pieces: 100_000}); err == nil {
			t.Errorf("%s: accepted", name)
		}
		if d := time.Since(start); d > 5*time.Second {
			t.Errorf("%s: refused after %v", name, d)
		}
		runtime.ReadMemStats(&after)
		if mb := (after.TotalAlloc - before.TotalAlloc) >> 20; mb > 200 {
			t.Errorf("%s: %d MB allocated in all", name, mb)
		}
	}
}

// TestLooseRoundTrip: a loop exploded into single entities, shuffled and
// turned about, comes back as one loop of the same area.
func TestLooseRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := randomLoop(t)
		var ents []string
		for _, p := range l.Unit {
			if rapid.Bool().Draw(t, "turned") {
				p = p.Reverse()
			}
			switch p := p.(type) {
			case plane.Line:
				ents = append(ents, fmt.Sprintf("0 LINE|10 %.9f|20 %.9f|11 %.9f|21 %.9f", p.A.X, p.A.Y, p.B.X, p.B.Y))
			case plane.Arc:
				if p.Sweep < 0 {
					p = p.Reverse().(plane.Arc)
				}
				deg := 180 / math.Pi
				ents = append(ents, fmt.Sprintf("0 ARC|10 %.9f|20 %.9f|40 %.9f|50 %.12f|51 %.12f", p.C.X, p.C.Y, p.R, p.A0*deg, (p.A0+p.Sweep)*deg))
			}
		}
		ents = rapid.Permutation(ents).Draw(t, "order")
		res, err := dxf.Read(strings.NewReader(drawing(strings.Join(ents, "|"))), dxf.Limits{})
		if err != nil {
			t.Fatal(err)
		}
		if len(res.Outlines) != 1 {
			t.Fatalf("%d outlines", len(res.Outlines))
		}
		want, got := math.Abs(l.Area()), math.Abs(res.Outlines[0].Loop.Area())
		if math.Abs(want-got) > 1e-6*(1+l.Length()) {
			t.Fatalf("area %g, want %g", got, want)
		}
	})
}

func TestReadFilesOfOthers(t *testing.T) {
	files, err := filepath.Glob("testdata/others/*.dxf")
	if err != nil || len(files) < 2 {
		t.Fatalf("%v %v", files, err)
	}
	for _, f := range files {
		b, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		res := read(t, b)
		// Every file holds a plate of 60 by 40 with corners of radius 5, a
		// bore of radius 8 and a slot of 20 by 6.
		want := []float64{60*40 - (4-math.Pi)*25, math.Pi * 64, 14*6 + math.Pi*9}
		if len(res.Outlines) != len(want) {
			t.Fatalf("%s: %d outlines", f, len(res.Outlines))
		}
		for i, w := range want {
			if got := math.Abs(res.Outlines[i].Loop.Area()); math.Abs(got-w) > 0.01 {
				t.Errorf("%s: outline %d has area %g, want %g", f, i, got, w)
			}
		}
	}
}

func FuzzRead(f *testing.F) {
	for _, s := range []string{square, stadium, "0 CIRCLE|10 0|20 0|40 1", "0 SPLINE|10 0",
		"0 LWPOLYLINE|90 2|70 1|10 -3|20 0|42 -1|10 3|20 0|42 -1|230 -1",
		"0 POLYLINE|70 1|0 VERTEX|10 0|20 0|42 1|0 VERTEX|10 4|20 0|42 1|0 SEQEND"} {
		f.Add([]byte(drawing(s)))
		f.Add([]byte(inUnits(1, s)))
	}
	f.Fuzz(func(t *testing.T, b []byte) {
		res, err := dxf.Read(bytes.NewReader(b), dxf.Limits{Pieces: 10000})
		if err != nil {
			return
		}
		for i, o := range res.Outlines {
			if err := o.Loop.Check(1e-3); err != nil {
				t.Fatalf("outline %d: %v", i, err)
			}
			if a := o.Loop.Area(); math.IsNaN(a) || math.IsInf(a, 0) {
				t.Fatalf("outline %d has the area %g", i, a)
			}
		}
	})
}
