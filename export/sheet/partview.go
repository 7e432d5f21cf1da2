package sheet

import (
	"fmt"
	"math"

	"ringtrack/export/figure"
	seen "ringtrack/export/view"
	"ringtrack/gear/plane"
	"ringtrack/gear/solid"
)

// ViewedPart is a part to be shown as it looks.
type ViewedPart struct {
	Name string
	Mesh *solid.Mesh
	Role figure.Role  // gives its colours: Pinion, Ring or Plate
	Down string       // which face to print down, one line; may be empty
	From solid.Point3 // towards the eye; zero is view.Above()
}

// mostViewed parts fit a sheet.
const mostViewed = 6

// Measures of a view's words, mm.
const (
	viewWords  = 17 // high, below the view
	viewMargin = 6
	viewLine   = 0.3  // width of contours
	viewRaster = 1100 // pixels of the raster that decides what is hidden: 0.1 mm on the paper
)

// PartView shows one to six parts on a sheet of A4 across, each as large as its
// place allows, with its name, its overall dimensions along x, y and z, and the
// face to print down.
//
// Errors: the number of parts, and those of view.Draw with the part's name.
func PartView(title string, parts ...ViewedPart) (figure.Figure, error) {
	if len(parts) < 1 || len(parts) > mostViewed {
		return figure.Figure{}, fmt.Errorf("sheet: a view of %d parts; 1 to %d are allowed", len(parts), mostViewed)
	}
	f := figure.Figure{Width: paperWidth, Height: paperHeight, Title: title}
	f.Add(figure.Shape{Path: figure.Rectangle(plane.Vec{}, plane.Vec{X: paperWidth, Y: paperHeight}), Style: figure.Style{Fill: paper}})
	text(&f, plane.Vec{X: edge, Y: 197}, 4.2, title)
	text(&f, plane.Vec{X: edge, Y: 190.5}, 2.4, "the parts as they lie in their files; views not to one scale, lengths in mm")
	for i, p := range parts {
		if err := p.draw(&f, viewPlace(i, len(parts))); err != nil {
			return figure.Figure{}, fmt.Errorf("sheet: %s: %w", p.Name, err)
		}
	}
	return f, nil
}

// viewPlace returns the place of view i of n: up to three in a row.
func viewPlace(i, n int) window {
	columns := min(n, 3)
	if n == 4 {
		columns = 2
	}
	rows := (n + columns - 1) / columns
	const left, low, right, high = edge, edge, paperWidth - edge, 186.0
	w, h := (right-left)/float64(columns), (high-low)/float64(rows)
	x, y := left+w*float64(i%columns), high-h*float64(i/columns+1)
	return window{plane.Vec{X: x, Y: y}, plane.Vec{X: x + w, Y: y + h}}
}

// draw puts the view and its words into a window.
func (p ViewedPart) draw(f *figure.Figure, w window) error {
	from := p.From
	if from == (solid.Point3{}) {
		from = seen.Above()
	}
	box, err := seen.Extent(p.Mesh, from)
	if err != nil {
		return err
	}
	room := w.size().Sub(plane.Vec{X: 2 * viewMargin, Y: viewWords + viewMargin})
	look := figure.Look(p.Role)
	look.Width = viewLine
	d, err := seen.Draw(p.Mesh, from, seen.Options{Raster: viewRaster,
		Scale: math.Min(room.X/box.Size().X, room.Y/box.Size().Y), Look: look,
	})
	if err != nil {
		return err
	}
	middle := plane.Vec{X: w.centre().X, Y: w.min.Y + viewWords + room.Y/2}
	f.Add(figure.Picture{
		Marks: d.Marks, Window: figure.Extent(d.Marks),
		Move: middle.Sub(d.Box.Min.Add(d.Box.Max).Mul(0.5)),
	})
	size := p.Mesh.Box().Size()
	for i, line := range []string{
		p.Name,
		fmt.Sprintf("width %.1f, depth %.1f, height %.1f mm", size.X, size.Y, size.Z),
		p.Down,
	} {
		at := plane.Vec{X: w.centre().X, Y: w.min.Y + viewWords - 5 - 4.6*float64(i)}
		s := 2.4
		if i == 0 {
			s = 3.2
		}
		words, err := fitted(line, s, w.size().X-2)
		if err != nil {
			return err
		}
		words.At = at
		f.Add(words)
	}
	return nil
}

// fitted returns a line of words about its middle, its letters at most size mm
// high and so small that it is no longer than room mm.
func fitted(line string, size, room float64) (figure.Text, error) {
	l, err := figure.TextWidth(line, size)
	if l > room {
		size *= room / l
	}
	return figure.Text{Size: size, Along: figure.Middle, Text: line}, err
}
