package sheet_test

import (
	"bytes"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"ringtrack/export/figure"
	"ringtrack/export/png"
	"ringtrack/export/sheet"
	"ringtrack/export/svg"
	"ringtrack/export/view"
	"ringtrack/gear/plane"
	"ringtrack/gear/solid"
)

func viewed(t *testing.T, name string, r float64, from solid.Point3) sheet.ViewedPart {
	t.Helper()
	m, err := (&solid.Body{Walls: []solid.Wall{
		{Loop: plane.CircleLoop(plane.Vec{}, r), Low: 0, High: 10, Foot: solid.Chamfer(0.4), Head: solid.Chamfer(0.4)},
		{Loop: plane.CircleLoop(plane.Vec{}, r/2), Low: 10, High: 18},
		{Loop: plane.CircleLoop(plane.Vec{}, r/4).Reverse(), Low: 0, High: 18},
	}}).Mesh(0.01)
	if err != nil {
		t.Fatal(err)
	}
	return sheet.ViewedPart{Name: name, Mesh: m, Role: figure.Pinion, Down: "print it with the flat face down, the hub up", From: from}
}

func TestPartView(t *testing.T) {
	for n := 1; n <= 6; n++ {
		var parts []sheet.ViewedPart
		for i := range n {
			from := solid.Point3{}
			if i%2 == 1 {
				from = view.Below()
			}
			parts = append(parts, viewed(t, "part "+string(rune('A'+i)), 12*float64(i+1), from))
		}
		f, err := sheet.PartView("Parts", parts...)
		if err != nil {
			t.Fatal(err)
		}
		marks, err := f.Marks()
		if err != nil {
			t.Fatal(err)
		}
		e := figure.Extent(marks)
		if e.Min.X < 0 || e.Min.Y < 0 || e.Max.X > f.Width || e.Max.Y > f.Height {
			t.Errorf("%d parts: the marks lie in %v, beyond the paper", n, e)
		}
		var b, c bytes.Buffer
		if err := svg.WriteFigure(&b, f); err != nil {
			t.Fatal(err)
		}
		for _, want := range []string{"part A", "width 24.0, depth 24.0, height 18.0 mm", "flat face down"} {
			if !strings.Contains(b.String(), want) {
				t.Errorf("%d parts: %q is not on the sheet", n, want)
			}
		}
		if dir := os.Getenv("RINGTRACK_PICTURES"); dir != "" {
			if err := png.Write(&c, f, png.Options{}); err != nil {
				t.Fatal(err)
			}
			if err := os.WriteFile(filepath.Join(dir, "partview-"+string(rune('0'+n))+".png"), c.Bytes(), 0o644); err != nil {
				t.Fatal(err)
			}
		}
	}
}

func TestPartViewBadInput(t *testing.T) {
	if _, err := sheet.PartView("none"); err == nil {
		t.Error("a sheet without parts")
	}
	if _, err := sheet.PartView("many", make([]sheet.ViewedPart, 7)...); err == nil {
		t.Error("a sheet of seven parts")
	}
	_, err := sheet.PartView("empty", sheet.ViewedPart{Name: "plate", Mesh: &solid.Mesh{}})
	if err == nil || !strings.Contains(err.Error(), "plate") {
		t.Errorf("an empty mesh: %v", err)
	}
	if _, err := sheet.PartView("direction", viewed(t, "disc", 10, solid.Point3{X: math.NaN()})); err == nil {
		t.Error("a direction that is no number")
	}
}
