package pdf_test

import (
	"bytes"
	"compress/zlib"
	"errors"
	"fmt"
	"io"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"ringtrack/export/figure"
	"ringtrack/export/pdf"
	"ringtrack/gear/plane"
)

// page is what the test's reader finds on a page: curves in mm of paper.
type page struct {
	width, height float64
	curves        [][4]plane.Vec // cubics; a line has its control points on itself
	subpaths      int
	words         []string
	operators     map[string]int
	opacities     string
}

// readPDF follows the cross-reference table, inflates the pages and runs their
// operators.
func readPDF(t *testing.T, b []byte) []page {
	t.Helper()
	number := func(s string) int {
		v, err := strconv.Atoi(strings.TrimSpace(s))
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
	tail := string(b[bytes.LastIndex(b, []byte("startxref")):])
	start := number(strings.Split(tail, "\n")[1])
	table := strings.Split(string(b[start:]), "\n")
	if table[0] != "xref" {
		t.Fatalf("startxref points to %q", table[0])
	}
	count := number(strings.Fields(table[1])[1])
	object := func(i int) []byte {
		row := table[2+i]
		if len(row) != 19 { // and the newline
			t.Fatalf("row %d of the table: %q", i, row)
		}
		o := b[number(row[:10]):]
		if !bytes.HasPrefix(o, []byte(fmt.Sprintf("%d 0 obj\n", i))) {
			t.Fatalf("object %d is not where the table says: %.20q", i, o)
		}
		return o[:bytes.Index(o, []byte("\nendobj"))]
	}
	if !strings.Contains(string(object(1)), "/ViewerPreferences<</PrintScaling/None>>") {
		t.Error("the document does not ask for true size")
	}
	var out []page
	for i := 5; i < count; i += 2 {
		p := page{operators: map[string]int{}, opacities: string(object(4))}
		m := regexp.MustCompile(`/MediaBox\[0 0 ([\d.]+) ([\d.]+)\]`).FindSubmatch(object(i))
		w, _ := strconv.ParseFloat(string(m[1]), 64)
		h, _ := strconv.ParseFloat(string(m[2]), 64)
		p.width, p.height = w*25.4/72, h*25.4/72
		o := object(i + 1)
		at := bytes.Index(o, []byte("stream\n")) + 7
		length := regexp.MustCompile(`/Length (\d+)`).FindSubmatch(o)
		z, err := zlib.NewReader(bytes.NewReader(o[at : at+number(string(length[1]))]))
		if err != nil {
			t.Fatal(err)
		}
		text, err := io.ReadAll(z)
		if err != nil {
			t.Fatal(err)
		}
		p.run(t, string(text))
		out = append(out, p)
	}
	return out
}

// run interprets the operators; one a line, its operands before it.
func (p *page) run(t *testing.T, text string) {
	t.Helper()
	scale := 1.0
	var at, first plane.Vec
	mm := func(x, y float64) plane.Vec { return plane.Vec{X: x, Y: y}.Mul(scale * 25.4 / 72) }
	for _, l := range strings.Split(strings.TrimSpace(text), "\n") {
		if strings.HasPrefix(l, "/Span") {
			p.words = append(p.words, l)
			continue
		}
		f := strings.Fields(l)
		op := f[len(f)-1]
		p.operators[op]++
		var v []float64
		for _, s := range f[:len(f)-1] {
			if x, err := strconv.ParseFloat(s, 64); err == nil {
				v = append(v, x)
			}
		}
		switch op {
		case "cm":
			scale = v[0]
			if v[3] != scale || v[1] != 0 || v[2] != 0 || v[4] != 0 || v[5] != 0 {
				t.Errorf("matrix %v", v)
			}
		case "m":
			at = mm(v[0], v[1])
			first = at
			p.subpaths++
		case "l":
			to := mm(v[0], v[1])
			p.curves = append(p.curves, [4]plane.Vec{at, at, to, to})
			at = to
		case "c":
			to := mm(v[4], v[5])
			p.curves = append(p.curves, [4]plane.Vec{at, mm(v[0], v[1]), mm(v[2], v[3]), to})
			at = to
		case "h":
			at = first
		case "j", "w", "d", "rg", "RG", "gs", "f", "S", "B", "EMC":
		default:
			t.Errorf("operator %q", l)
		}
	}
}

func bezier(c [4]plane.Vec, u float64) plane.Vec {
	w := 1 - u
	return c[0].Mul(w * w * w).Add(c[1].Mul(3 * u * w * w)).Add(c[2].Mul(3 * u * u * w)).Add(c[3].Mul(u * u * u))
}

func write(t testing.TB, pages ...figure.Figure) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := pdf.Write(&b, pages, pdf.Options{}); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

var line = figure.Style{Stroke: figure.Colour{A: 255}, Width: 0.1}

// TestCirclesAreRound: a whole circle of 150 mm leaves its radius by less than
// 1e-5 mm, and so do arcs both ways.
func TestCirclesAreRound(t *testing.T) {
	c := plane.Vec{X: 160, Y: 161}
	f := figure.Figure{Width: 320, Height: 330}
	f.Add(figure.Shape{Path: figure.Circle(c, 150), Style: line},
		figure.Shape{Path: figure.Arc(c, 150, 0.3, -2.2), Style: line},
		figure.Shape{Path: figure.Arc(c, 150, 2, 0.01), Style: line})
	p := readPDF(t, write(t, f))[0]
	worst := 0.0
	for _, k := range p.curves {
		for i := range 51 {
			worst = math.Max(worst, math.Abs(bezier(k, float64(i)/50).Sub(c).Len()-150))
		}
	}
	t.Logf("radius 150 mm: %.2g mm off, %d cubics", worst, len(p.curves))
	if worst > 1e-5 || len(p.curves) != 24+9+1 {
		t.Errorf("%g mm off with %d curves", worst, len(p.curves))
	}
	end := p.curves[24+8][3]
	if want := c.Add(plane.Polar(150, 0.3-2.2)); end.Sub(want).Len() > 1e-6 {
		t.Errorf("the arc ends at %v, want %v", end, want)
	}
}

// TestPagesAreTrue: paper and lines come out in their millimetres.
func TestPagesAreTrue(t *testing.T) {
	a := figure.Figure{Width: 210, Height: 297, Title: "Prüfblatt"}
	a.Add(figure.Shape{Path: figure.Lines(plane.Vec{X: 10, Y: 20}, plane.Vec{X: 110, Y: 20}), Style: line})
	b := figure.Figure{Width: 215.9, Height: 279.4}
	b.Add(figure.Shape{Path: figure.Rectangle(plane.Vec{X: 1, Y: 2}, plane.Vec{X: 102.6, Y: 3}), Style: figure.Style{Fill: figure.Colour{R: 9, A: 128}}})
	b.Add(figure.Text{At: plane.Vec{X: 50, Y: 50}, Text: "Ø 6.1 α"})
	data := write(t, a, b)
	pages := readPDF(t, data)
	if len(pages) != 2 {
		t.Fatalf("%d pages", len(pages))
	}
	for i, f := range []figure.Figure{a, b} {
		if math.Abs(pages[i].width-f.Width) > 1e-6 || math.Abs(pages[i].height-f.Height) > 1e-6 {
			t.Errorf("page %d is %g x %g", i, pages[i].width, pages[i].height)
		}
	}
	if l := pages[0].curves[0]; l[3].Sub(l[0]).Sub(plane.Vec{X: 100}).Len() > 1e-9 {
		t.Errorf("100 mm became %v", l)
	}
	if !strings.Contains(pages[1].opacities, "/A128<</ca 0.502/CA 0.502>>") || pages[1].operators["gs"] != 2 {
		t.Errorf("opacity: %s, %v", pages[1].opacities, pages[1].operators)
	}
	if len(pages[1].words) != 1 || !strings.Contains(pages[1].words[0], "<FEFF00D8002000360") {
		t.Errorf("words %q", pages[1].words)
	}
	if !bytes.Contains(data, []byte("/Title<FEFF005000720")) || bytes.Contains(data, []byte("Date")) {
		t.Error("title or dates")
	}
	if again := write(t, a, b); !bytes.Equal(data, again) {
		t.Error("the second document differs from the first")
	}
}

// TestParabolas: a quadratic curve stays itself.
func TestParabolas(t *testing.T) {
	var path figure.Path
	p0, c, p1 := plane.Vec{X: 10, Y: 10}, plane.Vec{X: 30, Y: 50}, plane.Vec{X: 60, Y: 12}
	path.Move(p0)
	path.Quad(c, p1)
	f := figure.Figure{Width: 100, Height: 100}
	f.Add(figure.Shape{Path: path, Style: line})
	k := readPDF(t, write(t, f))[0].curves[0]
	for i := range 11 {
		u := float64(i) / 10
		w := 1 - u
		want := p0.Mul(w * w).Add(c.Mul(2 * u * w)).Add(p1.Mul(u * u))
		if d := bezier(k, u).Sub(want).Len(); d > 1e-6 {
			t.Errorf("%g mm off at %g", d, u)
		}
	}
}

type failing struct{ n int }

var errFull = errors.New("full")

func (f *failing) Write(b []byte) (int, error) {
	if f.n -= len(b); f.n < 0 {
		return 0, errFull
	}
	return len(b), nil
}

func TestErrors(t *testing.T) {
	good := figure.Figure{Width: 100, Height: 100}
	good.Add(figure.Shape{Path: figure.Circle(plane.Vec{X: 50, Y: 50}, 20), Style: line})
	bad := good
	bad.Add(figure.Shape{Path: figure.Circle(plane.Vec{X: math.NaN()}, 20), Style: line})
	for _, tt := range []struct {
		pages []figure.Figure
		want  string
	}{{nil, "0 pages"}, {make([]figure.Figure, pdf.MaxPages+1), "pages; 1 to"}, {[]figure.Figure{good, bad}, "page 2"}, {[]figure.Figure{{}}, "page 1"}} {
		var b bytes.Buffer
		if err := pdf.Write(&b, tt.pages, pdf.Options{}); err == nil || !strings.Contains(err.Error(), tt.want) || b.Len() > 0 {
			t.Errorf("got %v and %d bytes, want %q", err, b.Len(), tt.want)
		}
	}
	size := len(write(t, good))
	for _, n := range []int{0, size / 2, size - 1} {
		if err := pdf.Write(&failing{n}, []figure.Figure{good}, pdf.Options{}); !errors.Is(err, errFull) {
			t.Errorf("after %d bytes: %v", n, err)
		}
	}
}
