package report

import (
	"fmt"
	"math"
	"strings"
)

// Cutting is how cut parts lie in their sheets.
type Cutting struct {
	Stacks []Stack
	Sheets []Laid
}

// Stack is a cut part in its layers, lengths in mm.
type Stack struct {
	Part                    string
	Copies, Layers          int
	Thickness, Height, Over float64 // of the sheet, of all layers, of that more than the face width
	Dowels                  int     // 0 for none
	Dowel, Circle           float64 // diameters
	Angle                   float64 // radians, of the first dowel
}

// Laid is one sheet with parts on it, lengths in mm.
type Laid struct {
	Files                    []string
	Material                 string
	Thickness, Width, Height float64
	Used                     float64 // share that becomes parts
	Parts                    []Copies
}

// Copies is how many of a part lie on a sheet.
type Copies struct {
	Part  string `json:"part"`
	Count int    `json:"count"`
}

// StackWords says how a part's layers are put together.
func StackWords(s Stack) string {
	t := fmt.Sprintf("%d layers of %.4g mm make %.4g mm", s.Layers, s.Thickness, s.Height)
	if s.Over > 0.005 {
		t += fmt.Sprintf(", %.3g more than the face width", s.Over)
	}
	if s.Dowels > 0 {
		t += fmt.Sprintf("; %d dowel holes of %.4g mm on a circle of %.5g mm hold them in line, the first at %.4g degrees", s.Dowels, s.Dowel, s.Circle, s.Angle*180/math.Pi)
	} else {
		t += "; there are no dowel holes to hold them in line"
	}
	return t + "; lay all layers the same way up; each is in one piece, so there are no joints to stagger"
}

// cuttingText writes how the parts lie in their sheets and how layers go together.
func cuttingText(b *strings.Builder, c Cutting) {
	if len(c.Stacks) == 0 {
		return
	}
	section(b, "Cutting")
	for _, s := range c.Stacks {
		t := s.Part + ": "
		if s.Layers > 1 {
			t += StackWords(s)
		} else {
			t += fmt.Sprintf("one layer, sheet %.4g mm thick", s.Thickness)
		}
		if s.Copies > 1 {
			t += fmt.Sprintf("; %d copies", s.Copies)
		}
		wrap(b, "  * ", "    ", t+".")
	}
	for _, s := range c.Sheets {
		if len(s.Files) == 0 {
			continue
		}
		var on []string
		for _, p := range s.Parts {
			on = append(on, fmt.Sprintf("%d × %s", p.Count, p.Part))
		}
		wrap(b, "  * ", "    ", fmt.Sprintf("%s: %s on %.6g by %.6g mm, %.0f %% of which becomes parts.",
			strings.Join(s.Files, ", "), strings.Join(on, ", "), s.Width, s.Height, 100*s.Used))
	}
	wrap(b, "  * ", "    ", "The kerf is in the outlines: cut along them without any further compensation, in the order of the file.")
	wrap(b, "  * ", "    ", "A cut is not quite square to the sheet: turn one member over, so that the two tapers meet.")
	b.WriteString("\n")
}

// stackRow and laidRow are the same in report.json.
type stackRow struct {
	Part      string `json:"part"`
	Copies    int    `json:"copies"`
	Layers    int    `json:"layers"`
	Thickness num    `json:"thickness"`
	Height    num    `json:"height"`
	Over      num    `json:"over"`
	Dowels    int    `json:"dowels"`
	Dowel     num    `json:"dowel"`
	Circle    num    `json:"dowel_circle"`
	Angle     num    `json:"dowel_angle"`
}

type laidRow struct {
	Files     []string `json:"files"`
	Material  *string  `json:"material"`
	Thickness num      `json:"thickness"`
	Width     num      `json:"width"`
	Height    num      `json:"height"`
	Used      num      `json:"used"`
	Parts     []Copies `json:"parts"`
}

// cuttingRoot is what report.json says of cutting.
type cuttingRoot struct {
	Parts  []stackRow `json:"parts"`
	Sheets []laidRow  `json:"sheets"`
}

func cuttingOf(c Cutting) *cuttingRoot {
	if len(c.Stacks) == 0 {
		return nil
	}
	out := &cuttingRoot{Sheets: []laidRow{}}
	for _, s := range c.Stacks {
		r := stackRow{Part: s.Part, Copies: s.Copies, Layers: s.Layers, Thickness: num(s.Thickness), Height: num(s.Height), Over: num(s.Over),
			Dowels: s.Dowels, Dowel: none, Circle: none, Angle: none}
		if s.Dowels > 0 {
			r.Dowel, r.Circle, r.Angle = num(s.Dowel), num(s.Circle), deg(s.Angle)
		}
		out.Parts = append(out.Parts, r)
	}
	for _, s := range c.Sheets {
		r := laidRow{Files: append([]string{}, s.Files...), Thickness: num(s.Thickness), Width: num(s.Width), Height: num(s.Height), Used: num(s.Used), Parts: s.Parts}
		if s.Material != "" {
			m := s.Material
			r.Material = &m
		}
		out.Sheets = append(out.Sheets, r)
	}
	return out
}

// fileMeaning says what a file about the whole is for.
func fileMeaning(f File) string {
	name := strings.TrimPrefix(f.Name, "FAULTY-")
	switch {
	case name == "assembly.svg":
		return "the pair in mesh, true to scale"
	case name == "assembly.png":
		return "the same as a picture"
	case strings.HasPrefix(name, "budget."):
		return "what takes the play, what is left of it, and how it goes round the turn"
	case strings.HasPrefix(name, "load."):
		return "what motor and teeth have in hand, as diagrams"
	case name == "template.pdf":
		return "to drill and mount by, at true size: print at 100 % and measure its marks"
	case strings.HasPrefix(name, "datasheet."):
		return "the gear data sheet: both parts, their figures, how to measure them"
	case strings.HasPrefix(name, "sheet-"):
		return "parts laid out on a sheet, for the cutter"
	case f.Format == "json":
		return "this report for scripts"
	case f.Format == "txt":
		return "this report"
	}
	return ""
}
