package fileset

import (
	"io"
	"sync"

	"ringtrack/export/figure"
	"ringtrack/export/png"
	"ringtrack/export/sheet"
	"ringtrack/export/svg"
	"ringtrack/gear/drive"
	"ringtrack/gear/solid"
)

// meshOf returns how to get a member's mesh, which is made once for all files.
func (p *plan) meshOf(m *drive.Member) func() (*solid.Mesh, error) {
	name := m.Body.Name
	if p.meshes == nil {
		p.meshes = map[string]func() (*solid.Mesh, error){}
	}
	if p.meshes[name] == nil {
		chord := p.design.Job.Output.Tolerance
		p.meshes[name] = sync.OnceValues(func() (*solid.Mesh, error) { return m.Solid.Mesh(chord) })
	}
	return p.meshes[name]
}

// addViews lists the pictures of the made parts as they look.
func (p *plan) addViews(members ...*drive.Member) {
	if len(members) == 0 || !(p.wants("svg") || p.wants("png")) {
		return
	}
	get := make([]func() (*solid.Mesh, error), len(members))
	for i, m := range members {
		get[i] = p.meshOf(m)
	}
	draw := sync.OnceValues(func() (figure.Figure, error) {
		var parts []sheet.ViewedPart
		for i, m := range members {
			mesh, err := get[i]()
			if err != nil {
				return figure.Figure{}, err
			}
			role := figure.Ring
			if m == &p.design.Pinion {
				role = figure.Pinion
			}
			parts = append(parts, sheet.ViewedPart{Name: m.Body.Name, Mesh: mesh, Role: role, Down: p.design.PrintFace(m)})
		}
		return sheet.PartView(p.design.Job.Title, parts...)
	})
	write := func(render func(io.Writer, figure.Figure) error) func(io.Writer) error {
		return func(w io.Writer) error {
			f, err := draw()
			if err != nil {
				return err
			}
			return render(w, f)
		}
	}
	if p.wants("svg") {
		p.add("parts.svg", "", "svg", write(svg.WriteFigure))
	}
	if p.wants("png") {
		p.add("parts.png", "", "png", write(func(w io.Writer, f figure.Figure) error { return png.Write(w, f, png.Options{Width: viewWidth}) }))
	}
}

// viewWidth is how many pixels wide the pictures of parts are.
const viewWidth = 1000
