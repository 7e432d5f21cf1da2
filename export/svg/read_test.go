package svg_test

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"math"
	"runtime"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"
	"ringtrack/export/figure"
	"ringtrack/export/svg"
	"ringtrack/gear/plane"
)

// doc wraps content in a drawing of 100 mm by 100 mm, one unit a millimetre.
func doc(content string) string {
	return `<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="100mm" viewBox="0 0 100 100">` + "\n" + content + "\n</svg>"
}

// area of everything in the file, with the sign that a viewer sees.
func area(t *testing.T, file string) float64 {
	t.Helper()
	res := read(t, []byte(file))
	sum := 0.0
	for _, o := range res.Outlines {
		sum += o.Loop.Area()
		if err := o.Loop.Check(1e-9); err != nil {
			t.Error(err)
		}
	}
	return sum
}

func TestReadPaths(t *testing.T) {
	for name, tt := range map[string]struct {
		content string
		area    float64 // positive when counter-clockwise as seen
		tol     float64
	}{
		"absolute, clockwise as seen": {`<path d="M0 0 L10 0 L10 10 L0 10 Z"/>`, -100, 1e-12},
		"relative":                    {`<path d="m5,5h10v10h-10z"/>`, -100, 1e-12},
		"pairs after m are lines":     {`<path d="m0 0 10 0 0 10-10 0z"/>`, -100, 1e-12},
		"glued numbers":               {`<path d="M.5.5 10.5.5 10.5 10.5-.5 10.5z"/>`, -105, 1e-12},
		"exponents":                   {`<path d="M0 0L1e1 0 1E+1 100e-1 0 10z"/>`, -100, 1e-12},
		"closed by its ends":          {`<path d="M0 0 L10 0 L10 10 L0 10 L0 0.001"/>`, -100, 0.01},
		"two in one path":             {`<path d="M0 0H10V10H0Z M2 2V4H4V2Z"/>`, -96, 1e-12},
		"relative after z":            {`<path d="m10 10h10v10h-10z m2 2v4h4v-4z"/>`, -84, 1e-12},
		"drawn on after z":            {`<path d="M0 0H10V10H0Z V-10 H-10 Z"/>`, -100 + 50, 1e-12},
		"circle of two arcs":          {`<path d="M10 0 A10 10 0 0 0 -10 0 A10 10 0 0 0 10 0 Z"/>`, 100 * math.Pi, 1e-9},
		"large arc":                   {`<path d="M10 0 A10 10 0 1 0 0 10 L0 0 Z"/>`, 75 * math.Pi, 1e-9},
		"glued flags":                 {`<path d="M10 0A10 10 0 10-10 0A10 10 0 0010 0z"/>`, 100 * math.Pi, 1e-9},
		"radius too small":            {`<path d="M10 0 A1 1 0 0 0 -10 0 A1 1 0 0 0 10 0 Z"/>`, 100 * math.Pi, 1e-9},
		"radius zero is a line":       {`<path d="M0 0H10A0 5 0 0 0 10 10H0Z"/>`, -100, 1e-12},
		"relative arcs":               {`<path d="M10 0 a10 10 0 0 0 -20 0 a10 10 0 0 0 20 0 Z"/>`, 100 * math.Pi, 1e-9},
		"half an ellipse, turned":     {`<path d="M0 10 A10 5 90 0 0 0 -10 Z"/>`, -0, 100},
		"cubic, a quarter circle":     {`<path d="M0 0 L10 0 C10 5.5228475 5.5228475 10 0 10 Z"/>`, -25 * math.Pi, 0.1},
		"smooth cubic":                {`<path d="M0 0 C0 5 5 5 5 0 S10 -5 10 0 Z"/>`, 0, 0.05},
		"quadratic":                   {`<path d="M0 0 Q5 10 10 0 Z"/>`, 2.0 / 3 * 10 * 5, 0.05},
		"smooth quadratic":            {`<path d="M0 0 Q5 10 10 0 T20 0 Z"/>`, 0, 0.05},
		"relative curves":             {`<path d="M3 3 q5 10 10 0 z m0 0 c0 5 5 5 5 0 s5 -5 5 0 z"/>`, 2.0 / 3 * 10 * 5, 0.1},
		"rect":                        {`<rect x="1" y="2" width="10" height="5"/>`, -50, 1e-12},
		"rounded rect":                {`<rect width="10" height="8" rx="2"/>`, -(80 - (4-math.Pi)*4), 1e-9},
		"rect round at the ends":      {`<rect width="10" height="4" ry="90" rx="2"/>`, -(24 + 4*math.Pi), 1e-9},
		"circle":                      {`<circle cx="5" cy="5" r="3"/>`, -9 * math.Pi, 1e-9},
		"ellipse":                     {`<ellipse cx="5" cy="5" rx="6" ry="3"/>`, -18 * math.Pi, 0.2},
		"round ellipse":               {`<ellipse rx="3" ry="3"/>`, -9 * math.Pi, 1e-9},
		"polygon":                     {`<polygon points="0,0 10,0 10,10, 0 10"/>`, -100, 1e-12},
		"closed polyline":             {`<polyline points="0,0 10,0 10,10 0 10 0 0"/>`, -100, 1e-12},
		"moved":                       {`<g transform="translate(5 7)"><path transform="translate(3)" d="M0 0H10V10Z"/></g>`, -50, 1e-12},
		"scaled":                      {`<g transform="scale(2)"><circle r="3" transform="scale(0.5)"/></g>`, -9 * math.Pi, 1e-9},
		"mirrored":                    {`<circle r="3" transform="scale(-1 1)"/>`, 9 * math.Pi, 1e-9},
		"turned":                      {`<g transform="rotate(30)"><path d="M0 0H10V10H0z" transform="rotate(-75, 5, 5)"/></g>`, -100, 1e-9},
		"matrix":                      {`<path d="M0 0H10V10H0z" transform="matrix(1 2 3 4 5 6)"/>`, 200, 1e-9},
		"skewed square":               {`<path d="M0 0H10V10H0z" transform="skewX(30) skewY(0)"/>`, -100, 1e-9},
		"skewed circle":               {`<circle r="5" transform="skewX(40)"/>`, -25 * math.Pi, 0.2},
		"stretched circle":            {`<circle r="5" transform="scale(2, 1)"/>`, -50 * math.Pi, 0.3},
		"several transforms":          {`<path d="M0 0H1V1H0z" transform=" translate(3,4), scale(5) rotate(90)"/>`, -25, 1e-9},
		"hidden and defined":          {`<defs><path d="M0 0"/></defs><path display="none" d="x"/><g style="display: none"><path d="x"/></g><circle r="3"/>`, -9 * math.Pi, 1e-9},
		"foreign elements":            {`<x:y xmlns:x="urn:x"><x:path d="x"/></x:y><circle r="3"/>`, -9 * math.Pi, 1e-9},
		"lengths with units":          {`<circle r="10px" cx="1in"/>`, -100 * math.Pi, 1e-9},
	} {
		t.Run(name, func(t *testing.T) {
			if got := area(t, doc(tt.content)); math.Abs(got-tt.area) > tt.tol {
				t.Errorf("area %.9g, want %.9g", got, tt.area)
			}
		})
	}
}

func TestArcsStayArcs(t *testing.T) {
	for _, content := range []string{
		`<circle r="5" transform="rotate(33) scale(1.7) translate(3 4)"/>`,
		`<path d="M5 0A5 5 20 0 1 -5 0A5 5 0 0 1 5 0" transform="matrix(0.6 0.8 -0.8 0.6 1 2)"/>`,
		`<path d="M5 0A5 5 20 0 1 -5 0A5 5 0 0 1 5 0" transform="matrix(0.6 0.8 0.8 -0.6 1 2)"/>`,
	} {
		for _, p := range read(t, []byte(doc(content))).Outlines[0].Loop.Unit {
			if _, ok := p.(plane.Arc); !ok {
				t.Errorf("%s: %T", content, p)
			}
		}
	}
}

// TestCurvesKeepTheTolerance measures chords against circles written as
// ellipses that a transform makes round, or nearly.
func TestCurvesKeepTheTolerance(t *testing.T) {
	for _, chord := range []float64{0.1, 0.01, 0.001} {
		file := doc(`<ellipse rx="20" ry="10" transform="scale(1 2.0001)"/>`)
		res, err := svg.Read(strings.NewReader(file), svg.Limits{Chord: chord})
		if err != nil {
			t.Fatal(err)
		}
		pieces := res.Outlines[0].Loop.Unit
		for _, p := range pieces {
			r := p.At(0.5).Len()
			if r < 20-chord || r > 20.0011 {
				t.Fatalf("a chord's middle at %g", r)
			}
		}
		if least := math.Pi / math.Acos(1-chord/20); float64(len(pieces)) > 1.1*least+2 {
			t.Errorf("%d chords, %g would do", len(pieces), least)
		}
	}
}

func TestUnits(t *testing.T) {
	circle := `<circle r="10"/></svg>`
	for head, want := range map[string]struct {
		mm      float64
		assumed bool
	}{
		`width="100mm" height="50mm" viewBox="0 0 100 50"`:                                      {10, false},
		`width="10cm" height="5cm" viewBox="0 0 100 50"`:                                        {10, false},
		`width="10in" height="5in" viewBox="0 0 1000 500"`:                                      {2.54, false},
		`width="72pt" height="72pt" viewBox="0 0 25.4 25.4"`:                                    {10, false},
		`width="100mm" viewBox="-50 -50 100 50"`:                                                {10, false},
		`height="100mm" width="100%" viewBox="0 0 500 50"`:                                      {20, false},
		`width="200mm" height="50mm" viewBox="0 0 100 50"`:                                      {10, false},
		`width="200mm" height="50mm" viewBox="0 0 100 50" preserveAspectRatio="xMidYMid slice"`: {20, false},
		`width="96" height="96" viewBox="0 0 96 96"`:                                            {254.0 / 96, true},
		`width="100mm" height="100mm"`:                                                          {254.0 / 96, true},
		`viewBox="0 0 10 10"`:                                                                   {254.0 / 96, true},
		``:                                                                                      {254.0 / 96, true},
		`width="100mm" height="100mm" viewBox="0 0 100 100" transform="scale(3)"`:               {30, false},
	} {
		res := read(t, []byte("<svg "+head+">"+circle))
		if got := res.Outlines[0].Loop.Box().Max.X; math.Abs(got-want.mm) > 1e-12*want.mm || res.Assumed != want.assumed {
			t.Errorf("%s: radius %.15g, assumed %v", head, got, res.Assumed)
		}
	}
	res, err := svg.Read(strings.NewReader("<svg>"+circle), svg.Limits{Unit: 1})
	if err != nil || res.Outlines[0].Loop.Box().Max.X != 10 {
		t.Errorf("%v %v", res, err)
	}
}

func TestLayersNotesRemarks(t *testing.T) {
	res := read(t, []byte(doc(`<title>T</title><g id="outer"><circle r="1"/><circle class="CUT_INSIDE thin" r="1"/></g><circle r="2"/>
<text>words</text><text>more</text><image/><metadata>tolerance</metadata>`)))
	var layers []string
	for _, o := range res.Outlines {
		layers = append(layers, fmt.Sprintf("%s:%d", o.Layer, o.Line))
	}
	if got := strings.Join(layers, " "); got != "outer:2 CUT_INSIDE:2 :2" {
		t.Errorf("layers %s", got)
	}
	if strings.Join(res.Notes, "|") != "T|tolerance" || strings.Join(res.Remarks, "|") != "left out: 1 image, 2 text" {
		t.Errorf("%q %q", res.Notes, res.Remarks)
	}
}

func TestReadRefuses(t *testing.T) {
	for name, tt := range map[string]struct {
		file string
		line int
		want string
	}{
		"empty":               {"", 0, "no svg element"},
		"words":               {"hello", 0, "no svg element"},
		"not svg":             {"<html></html>", 1, `"html", not svg`},
		"breaks off":          {doc(`<circle r="3"/>`)[:100], 0, ""},
		"nothing in it":       {doc(""), 0, "no outline"},
		"entities":            {`<!DOCTYPE svg [<!ENTITY a "aaaa"><!ENTITY b "&a;&a;">]>` + doc("<title>&b;</title>"), 1, "document type with entities"},
		"unknown entity":      {doc("<title>&b;</title>"), 2, "entity"},
		"open path":           {doc(`<path d="M0 0 L10 0 L10 10"/>`), 2, "path: the outline is open: 14.1 mm from (10, -10) to (0, 0)"},
		"open then closed":    {doc(`<path d="M0 0 L10 0 L10 10 M0 0H1V1Z"/>`), 2, "open"},
		"open polyline":       {doc(`<polyline points="0 0 1 0 1 1"/>`), 2, "open"},
		"line":                {doc(`<line x2="5"/>`), 2, "open"},
		"no outline there":    {doc(`<path d="M0 0L5 5Z"/>`), 2, "encloses nothing"},
		"use":                 {doc(`<use href="#a"/><use href="#a"/><foreignObject/><circle r="1"/>`), 2, "1 foreignObject, 2 use"},
		"nested":              {doc("\n" + doc(`<circle r="1"/>`)), 3, "1 svg"},
		"bad command":         {doc(`<path d="M0 0 X 5 5Z"/>`), 2, "path command X"},
		"no M":                {doc(`<path d="L0 0 5 5Z"/>`), 2, "begins with M"},
		"numbers first":       {doc(`<path d="5 5Z"/>`), 2, "expected a path command"},
		"number missing":      {doc(`<path d="M0 0 L5 Z"/>`), 2, "expected a number"},
		"word for a number":   {doc(`<path d="M0 NaN"/>`), 2, `expected a number, found "NaN"`},
		"infinite":            {doc(`<path d="M0 1e999"/>`), 2, "expected a number"},
		"bad flag":            {doc(`<path d="M0 0A5 5 0 2 0 5 5Z"/>`), 2, "arc flag"},
		"far away":            {doc(`<path d="M0 0H1e9V5Z"/>`), 2, "outside"},
		"bad transform":       {doc(`<path transform="twist(3)" d=""/>`), 2, `"twist" with 1 numbers`},
		"transform too short": {doc(`<path transform="matrix(1 2 3)" d=""/>`), 2, `"matrix" with 3 numbers`},
		"transform not shut":  {doc(`<path transform="scale(3" d=""/>`), 2, "not understood"},
		"transform in style":  {doc(`<g style="transform: scale(2)"/>`), 2, "transform in a style"},
		"style sheet":         {doc(`<style>path{transform:scale(2)}</style>`), 2, `"transform"`},
		"transform origin":    {doc(`<g transform-origin="5 5"/>`), 2, "origin of its own"},
		"stretched":           {strings.Replace(doc(""), `100"`, `90" preserveAspectRatio="none"`, 1), 0, ""},
		"stretched page":      {`<svg width="5mm" height="9mm" viewBox="0 0 1 1" preserveAspectRatio="none"/>`, 1, "stretched"},
		"width 0":             {`<svg width="0mm" height="9mm" viewBox="0 0 1 1"/>`, 1, "width"},
		"width in em":         {`<svg width="5em" height="9mm" viewBox="0 0 1 1"/>`, 1, "are read"},
		"viewBox of three":    {`<svg viewBox="0 0 1"/>`, 1, "viewBox"},
		"circle without r":    {doc(`<circle/>`), 2, "no size"},
		"relative radius":     {doc(`<circle r="5%"/>`), 2, "are read"},
		"odd points":          {doc(`<polygon points="0 0 1"/>`), 2, "pairs"},
		"deep groups":         {doc(strings.Repeat("<g>", 300) + strings.Repeat("</g>", 300)), 2, "elements in each other"},
		"other encoding":      {`<?xml version="1.0" encoding="utf-16"?>` + doc(""), 1, "save the file as UTF-8"},
		"deep unknown":        {doc(strings.Repeat("<q>", 300) + strings.Repeat("</q>", 300)), 2, "elements in each other"},
		"two roots":           {doc(`<circle r="1"/>`) + "<svg/>", 0, ""},
		"shrunk to nothing":   {doc(`<circle r="1" transform="scale(0)"/>`), 3, "no outline"},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := svg.Read(strings.NewReader(tt.file), svg.Limits{})
			var e *svg.Error
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
	file := doc(`<circle r="1"/>`)
	for _, lim := range []svg.Limits{{Join: -1}, {Chord: math.NaN()}, {Unit: math.Inf(1)}, {Extent: -3}, {Bytes: 20}, {Pieces: -1}} {
		if _, err := svg.Read(strings.NewReader(file), lim); err == nil {
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
	head := strings.TrimSuffix(doc(""), "</svg>")
	for name, r := range map[string]io.Reader{
		"endless text":       &endless{text: "x"},
		"endless groups":     io.MultiReader(strings.NewReader(head), &endless{text: "<g>"}),
		"endless unknown":    io.MultiReader(strings.NewReader(head), &endless{text: "<x>"}),
		"endless path":       io.MultiReader(strings.NewReader(head+`<path d="M0 0`), &endless{text: " L1 1"}),
		"endless points":     io.MultiReader(strings.NewReader(head+`<polygon points="0 0`), &endless{text: " 1 1"}),
		"endless shapes":     io.MultiReader(strings.NewReader(head), &endless{text: `<circle r="5"/>`}),
		"endless attributes": io.MultiReader(strings.NewReader(head+`<path `), &endless{text: `a="" `}),
		"endless attribute":  io.MultiReader(strings.NewReader(head+`<path a="`), &endless{text: `a `}),
		"endless siblings":   io.MultiReader(strings.NewReader(head), &endless{text: `<x/>`}),
		"endless titles":     io.MultiReader(strings.NewReader(head), &endless{text: `<title>x</title>`}),
		"endless chords":     strings.NewReader(doc(`<path transform="scale(1e6)" d="M0 0C0 1e6 1e6 1e6 1e6 0Z"/>`)),
		"endless ellipse":    strings.NewReader(doc(`<ellipse transform="scale(1e6)" rx="1e6" ry="1"/>`)),
	} {
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		start := time.Now()
		if _, err := svg.Read(r, svg.Limits{Bytes: 2 << 20, Pieces: 100_000}); err == nil {
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

// TestTransformsKeepArea: any transform turns the area by its determinant.
func TestTransformsKeepArea(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var v [6]float64
		for i := range v {
			v[i] = math.Round(rapid.Float64Range(-3, 3).Draw(t, "v")*1000) / 1000
		}
		det := v[0]*v[3] - v[1]*v[2]
		if math.Abs(det) < 0.1 {
			return
		}
		file := doc(fmt.Sprintf(`<g transform="matrix(%g %g %g %g %g %g)"><path d="M10 0A10 10 0 0 1 0 10A10 10 0 0 1 -10 0L0 -10z"/></g>`, v[0], v[1], v[2], v[3], v[4], v[5]))
		res, err := svg.Read(strings.NewReader(file), svg.Limits{Chord: 1e-4})
		if err != nil {
			t.Fatal(err)
		}
		want := -(50*math.Pi + 100) * det
		if got := res.Outlines[0].Loop.Area(); math.Abs(got-want) > 0.05 {
			t.Fatalf("area %g, want %g", got, want)
		}
	})
}

func TestLayerNames(t *testing.T) {
	for _, l := range []figure.Layer{"", "1A", "A B", `A"`} {
		d := figure.Drawing{Outlines: []figure.Outline{{Layer: l, Loop: plane.CircleLoop(plane.Vec{}, 3)}}}
		if err := svg.Write(io.Discard, d, svg.Options{}); err == nil {
			t.Errorf("%q accepted", l)
		}
	}
}

func FuzzRead(f *testing.F) {
	for _, s := range []string{`<path d="M0 0 L10 0 L10 10 L0 10 Z"/>`, `<path d="m0 0h5v5zq1 2 3 4t5 6s1 2 3 4c1 2 3 4 5 6a5 5 0 01 1 1z"/>`,
		`<g transform="rotate(30) skewX(3) matrix(1 2 3 4 5 6)"><rect width="10" height="8" rx="2"/></g>`,
		`<circle r="1in"/><ellipse rx="3" ry="2"/><polygon points="0,0 1,1 0 1"/>`, `<use/><text>x</text><defs/>`} {
		f.Add([]byte(doc(s)))
	}
	f.Fuzz(func(t *testing.T, b []byte) {
		res, err := svg.Read(bytes.NewReader(b), svg.Limits{Pieces: 10000})
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
