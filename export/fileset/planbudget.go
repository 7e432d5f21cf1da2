package fileset

import (
	"io"

	"ringtrack/export/png"
	"ringtrack/export/sheet"
	"ringtrack/export/svg"
)

// addBudget lists the pictures of what takes the play and what is left of it.
func (p *plan) addBudget() {
	d := p.design
	if p.wants("svg") {
		p.add("budget.svg", "", "svg", func(w io.Writer) error { return svg.WriteFigure(w, sheet.Budget(d)) })
	}
	if p.wants("png") {
		p.add("budget.png", "", "png", func(w io.Writer) error { return png.Write(w, sheet.Budget(d), png.Options{}) })
	}
}
