package fileset

import (
	"errors"
	"fmt"
	"io"
	"sync"

	"ringtrack/export/dxf"
	"ringtrack/export/figure"
	"ringtrack/export/pdf"
	"ringtrack/export/sheet"
	"ringtrack/export/svg"
	"ringtrack/gear/drive"
	"ringtrack/gear/job"
)

// addDrawing lists the files of a drawing at true size, in every format for
// cutters that is asked for, and returns their names. In the name of a DXF
// stand the unit, when it is inches, and the form, when it is the old one: an
// R12 file cannot say its unit. Its arcs are fitted once for all formats.
func (p *plan) addDrawing(name, part string, d figure.Drawing) []string {
	fitted := sync.OnceValues(func() (figure.Drawing, error) { return withArcs(d, p.design.Job.Output.ArcTolerance) })
	o := p.design.Job.Output
	opt, base := dxf.Options{Arc: o.ArcTolerance}, name
	if o.DrawingUnit == "in" {
		opt.Unit, base = dxf.Inch, name+"-in"
	}
	var names []string
	add := func(file, format string, write func(io.Writer) error) {
		if p.wants(format) {
			p.add(file, part, format, write)
			names = append(names, p.prefix+file)
		}
	}
	inDXF := func(opt dxf.Options) func(io.Writer) error {
		return func(w io.Writer) error {
			d, err := fitted()
			if err != nil {
				return err
			}
			return dxf.Write(w, d, opt)
		}
	}
	add(base+".dxf", "dxf", inDXF(opt))
	opt.Form = dxf.R12
	add(base+"-r12.dxf", "dxf-r12", inDXF(opt))
	add(name+".svg", "svg", func(w io.Writer) error {
		d, err := fitted()
		if err != nil {
			return err
		}
		return svg.Write(w, d, svg.Options{Arc: o.ArcTolerance, Title: p.design.Job.Title})
	})
	return names
}

// addOutlines lists the outline files of a member, with what its cutter needs.
func (p *plan) addOutlines(m *drive.Member) {
	for i := range p.cut {
		if c := &p.cut[i]; c.member == m {
			d, err := sheet.Cut(c.part)
			if err != nil { // cutMembers has cut it before
				p.failed = err
				return
			}
			d.Notes = append(append(partNotes(p.design, m), c.notes()...), d.Notes...)
			p.addDrawing(m.Body.Name, m.Body.Name, d)
			return
		}
	}
	d := figure.Part(m.Body.DrawnRegion())
	d.Notes = partNotes(p.design, m)
	if m.Making.Kerf > 0 {
		d.Notes = append(d.Notes, "FAULTY: tabs and dowel holes for which there is no room are left out")
	}
	p.addDrawing(m.Body.Name, m.Body.Name, d)
}

// layOut settles how cut members lie in their sheets.
func (p *plan) layOut() {
	var errs, more []error
	var sheets []laid
	p.cut, errs = cutMembers(p.design, p.design.Job.Output.ArcTolerance)
	if len(errs) == 0 {
		sheets, more = laySheets(p.design.Job, p.cut)
	}
	p.failed = errors.Join(append(errs, more...)...)
	switch {
	case p.failed != nil && p.prefix == "":
		return
	case p.failed != nil: // a faulty set is written without what has no room; the findings name it
		p.failed = nil
	}
	for _, c := range p.cut {
		p.cutting.Stacks = append(p.cutting.Stacks, c.stack)
	}
	for i, s := range sheets {
		words := fmt.Sprintf("%s: sheet %d", p.design.Job.Title, i+1)
		if s.Material != "" {
			words += ", " + s.Material
		}
		s.Drawing.Notes = append([]string{words + fmt.Sprintf(", %.4g mm thick", s.Thickness)}, s.Drawing.Notes...)
		s.Laid.Files = p.addDrawing(fmt.Sprintf("sheet-%d", i+1), "", s.Drawing)
		p.cutting.Sheets = append(p.cutting.Sheets, s.Laid)
	}
}

// addPaper lists the drill template and the gear data sheet.
func (p *plan) addPaper() {
	d := p.design
	if d.Pair == nil {
		return
	}
	if p.wants("pdf") && p.hasTemplate() {
		p.add("template.pdf", "", "pdf", func(w io.Writer) error {
			pages, err := templatePages(d)
			if err != nil {
				return err
			}
			return pdf.Write(w, pages, pdf.Options{})
		})
	}
	if p.wants("pdf") {
		p.add("datasheet.pdf", "", "pdf", func(w io.Writer) error {
			f, err := sheet.Datasheet(d)
			if err != nil {
				return err
			}
			return pdf.Write(w, []figure.Figure{f}, pdf.Options{})
		})
	}
	if p.wants("svg") {
		p.add("datasheet.svg", "", "svg", func(w io.Writer) error {
			f, err := sheet.Datasheet(d)
			if err != nil {
				return err
			}
			return svg.WriteFigure(w, f)
		})
	}
}

// hasTemplate reports whether the set has a drill template: a faulty one goes
// without it where it does not fit the paper.
func (p *plan) hasTemplate() bool {
	if p.prefix == "" {
		return true
	}
	_, err := templatePages(p.design)
	return err == nil
}

// templatePages returns the drill template's pages on the job's paper.
func templatePages(d *drive.Design) ([]figure.Figure, error) {
	o := d.Job.Output
	paper, err := sheet.FindPaper(o.PaperSize)
	if err != nil {
		return nil, err
	}
	t, err := sheet.PairTemplate(d)
	if err != nil {
		return nil, err
	}
	return sheet.Templates(t, sheet.TemplateOptions{Paper: paper, ScaleX: o.PaperScale[0], ScaleY: o.PaperScale[1]})
}

// gap returns how wide the gaps in a member's outlines are, 0 for none: those
// that its tabs leave, with what the last decimals round away.
func gap(c job.Making) float64 {
	if c.Cutting.Tabs == 0 {
		return 0
	}
	return c.Cutting.TabWidth + dxf.DefaultJoin
}
