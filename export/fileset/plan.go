package fileset

import (
	"fmt"
	"io"
	"slices"

	"ringtrack/export/png"
	"ringtrack/export/report"
	"ringtrack/export/sheet"
	"ringtrack/export/stl"
	"ringtrack/export/svg"
	"ringtrack/gear/drive"
	"ringtrack/gear/solid"
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
	solids []*report.Solid                        // one for each mesh, filled while it is written
	meshes map[string]func() (*solid.Mesh, error) // by part, each made once

	cut     []cutMember
	cutting report.Cutting
	failed  error // what has no room where it was to go
}

// newPlan lists the files of a design by its formats.
func newPlan(d *drive.Design, faulty bool) *plan {
	p := &plan{design: d}
	if faulty {
		p.prefix = faultyPrefix
	}
	p.layOut()
	var made []*drive.Member
	for _, m := range []*drive.Member{&d.Ring, &d.Pinion} { // the larger first
		if m.Make && m.Drawn {
			p.addPart(m)
			made = append(made, m)
		}
	}
	p.addViews(made...)
	if d.Pair != nil && p.wants("svg") {
		p.add("assembly.svg", "", "svg", func(w io.Writer) error { return svg.WriteFigure(w, sheet.Assembly(d)) })
	}
	if d.Pair != nil && p.wants("png") {
		p.add("assembly.png", "", "png", func(w io.Writer) error { return png.Write(w, sheet.Assembly(d), png.Options{}) })
	}
	p.addPaper()
	if sheet.HasBudget(d) {
		p.addBudget()
	}
	if sheet.HasLoad(d) {
		p.addLoad()
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
	if p.wants("stl") {
		mesh := p.meshOf(m)
		made := &report.Solid{Part: name}
		p.solids = append(p.solids, made)
		p.add(name+".stl", name, "stl", func(w io.Writer) error {
			m, err := mesh()
			if err != nil {
				return err
			}
			made.Triangles = len(m.Facets)
			return stl.Write(w, m, stl.Options{})
		})
	}
	p.addOutlines(m)
}

// partNotes are the words in a part's outline files.
func partNotes(d *drive.Design, m *drive.Member) []string {
	out := []string{
		fmt.Sprintf("%s: %s", d.Job.Title, m.Body.Name),
		fmt.Sprintf("true size, face width %.4g mm", m.Body.Height),
	}
	if k := m.Making; k.Growth != 0 || k.HoleShrink != 0 || k.Shrinkage != 0 || k.Kerf != 0 {
		out = append(out, "making allowances are in these outlines: do not compensate again")
	} else {
		out = append(out, "no making allowances are in these outlines")
	}
	return out
}
