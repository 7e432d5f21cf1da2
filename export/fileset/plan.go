package fileset

import (
	"fmt"
	"io"
	"slices"

	"ringtrack/export/dxf"
	"ringtrack/export/figure"
	"ringtrack/export/png"
	"ringtrack/export/report"
	"ringtrack/export/sheet"
	"ringtrack/export/stl"
	"ringtrack/export/svg"
	"ringtrack/gear/drive"
)

// faultyPrefix stands before every name of a set that is written despite faults.
const faultyPrefix = "FAULTY-"

// task is one file and how to write it.
type task struct {
	Item
	write func(io.Writer) error
}

// plan is what a design's set holds, the reports apart.
type plan struct {
	design *drive.Design
	prefix string
	tasks  []task
	solids []*report.Solid // one for each mesh, filled while it is written
}

// newPlan lists the files of a design by its formats.
func newPlan(d *drive.Design, faulty bool) *plan {
	p := &plan{design: d}
	if faulty {
		p.prefix = faultyPrefix
	}
	for _, m := range []*drive.Member{&d.Ring, &d.Pinion} { // the larger first
		if m.Make && m.Drawn {
			p.addPart(m)
		}
	}
	if d.Pair != nil && p.wants("svg") {
		p.add("assembly.svg", "", "svg", func(w io.Writer) error { return svg.WriteFigure(w, sheet.Assembly(d)) })
	}
	if d.Pair != nil && p.wants("png") {
		p.add("assembly.png", "", "png", func(w io.Writer) error { return png.Write(w, sheet.Assembly(d), png.Options{}) })
	}
	return p
}

func (p *plan) wants(format string) bool { return slices.Contains(p.design.Job.Output.Formats, format) }

func (p *plan) add(name, part, format string, write func(io.Writer) error) {
	p.tasks = append(p.tasks, task{Item{p.prefix + name, part, format}, write})
}

// addPart lists one made member's files.
func (p *plan) addPart(m *drive.Member) {
	name := m.Body.Name
	chord := p.design.Job.Output.Tolerance
	drawing := figure.Part(m.Body.DrawnRegion())
	drawing.Notes = partNotes(p.design, m)
	if p.wants("stl") {
		made := &report.Solid{Part: name}
		p.solids = append(p.solids, made)
		p.add(name+".stl", name, "stl", func(w io.Writer) error {
			mesh, err := m.Solid.Mesh(chord)
			if err != nil {
				return err
			}
			made.Triangles = len(mesh.Facets)
			return stl.Write(w, mesh, stl.Options{})
		})
	}
	if p.wants("dxf") {
		p.add(name+".dxf", name, "dxf", func(w io.Writer) error { return dxf.Write(w, drawing, dxf.Options{Chord: chord}) })
	}
	if p.wants("svg") {
		p.add(name+".svg", name, "svg", func(w io.Writer) error { return svg.Write(w, drawing, svg.Options{Chord: chord}) })
	}
}

// partNotes are the words in a part's outline files.
func partNotes(d *drive.Design, m *drive.Member) []string {
	out := []string{
		fmt.Sprintf("%s: %s", d.Job.Title, m.Body.Name),
		fmt.Sprintf("true size in mm, face width %.4g mm", m.Body.Height),
	}
	if k := m.Making; k.Growth != 0 || k.HoleShrink != 0 || k.Shrinkage != 0 || k.Kerf != 0 {
		out = append(out, "making allowances are in these outlines: do not compensate again")
	} else {
		out = append(out, "no making allowances are in these outlines")
	}
	return out
}
