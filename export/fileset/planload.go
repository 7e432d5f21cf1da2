package fileset

import (
	"io"

	"ringtrack/export/png"
	"ringtrack/export/sheet"
	"ringtrack/export/svg"
)

// addLoad lists the pictures of what motor and teeth have in hand.
func (p *plan) addLoad() {
	d := p.design
	if p.wants("svg") {
		p.add("load.svg", "", "svg", func(w io.Writer) error { return svg.WriteFigure(w, sheet.Load(d)) })
	}
	if p.wants("png") {
		p.add("load.png", "", "png", func(w io.Writer) error { return png.Write(w, sheet.Load(d), png.Options{}) })
	}
}
