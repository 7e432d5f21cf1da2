package fileset

import (
	"fmt"

	"ringtrack/export/report"
	"ringtrack/export/sheet"
	"ringtrack/gear/drive"
	"ringtrack/gear/job"
)

// cutMember is a made member that is cut out of sheet material.
type cutMember struct {
	who    string
	job    job.Member
	member *drive.Member
	part   sheet.CutPart // one layer; as many copies as are to be cut
	stack  report.Stack
}

// cutMembers returns the members that are cut, the ring first, and what has no
// room in them. Smooth pieces become arcs within tol mm, so that copies share
// them; 0 leaves them as they are.
func cutMembers(d *drive.Design, tol float64) ([]cutMember, []error) {
	var out []cutMember
	var errs []error
	for _, c := range []cutMember{
		{who: "ring", job: d.Job.Ring, member: &d.Ring}, {who: "pinion", job: d.Job.Pinion, member: &d.Pinion},
	} {
		if c.job.Making.Kind != "cut" || !c.member.Make || !c.member.Drawn {
			continue
		}
		if err := c.lay(d, tol); err != nil {
			errs = append(errs, err)
			continue
		}
		if _, err := sheet.Cut(c.part); err != nil {
			errs = append(errs, err)
			continue
		}
		out = append(out, c)
	}
	return out, errs
}

// thickness returns that of the member's sheet: its face width unless measured.
func (c *cutMember) thickness() float64 {
	if t := c.job.Making.Cutting.Thickness; t > 0 {
		return t
	}
	return c.job.FaceWidth
}

// lay fills in the part, in layers where the sheet is thinner than the face.
func (c *cutMember) lay(d *drive.Design, tol float64) error {
	k := c.job.Making.Cutting
	c.part = sheet.CutPart{
		Name: c.who, Region: c.member.Body.DrawnRegion(), Kerf: c.job.Making.Kerf, Copies: k.Copies,
		Tabs: sheet.Tabs{Count: k.Tabs, Width: k.TabWidth},
	}
	if tol > 0 {
		var err error
		if c.part.Region, err = fittedRegion(c.part.Region, tol); err != nil {
			return fmt.Errorf("%s: %w", c.who, err)
		}
	}
	n := k.Layers(c.job.FaceWidth)
	c.stack = report.Stack{Part: c.who, Copies: k.Copies, Layers: n, Thickness: c.thickness(), Height: float64(n) * c.thickness()}
	c.stack.Over = max(0, c.stack.Height-c.job.FaceWidth)
	if n == 1 {
		return nil
	}
	if k.Dowels == 0 {
		c.part.Copies *= n
		return nil
	}
	opt := sheet.StackOptions{
		Face: c.job.FaceWidth, Sheet: k.Thickness, Dowels: k.Dowels, Dowel: k.Dowel, DowelCircle: c.dowelCircle(d),
		Wall: drive.LeastWall(c.job.Making) + c.job.Making.Kerf/2, // the region as drawn has the kerf in it
	}
	s, err := sheet.Layers(c.part, opt)
	if err != nil {
		return err
	}
	c.part = s.Part
	c.stack.Dowels, c.stack.Dowel, c.stack.Circle, c.stack.Angle = k.Dowels, k.Dowel, opt.DowelCircle, s.Angle
	return nil
}

// dowelCircle returns the circle given, or the middle of the member's wall.
func (c *cutMember) dowelCircle(d *drive.Design) float64 {
	if s := c.job.Making.Cutting.DowelCircle; s.Given {
		return s.Value
	}
	if c.who == "ring" {
		return (d.Pair.Ring.RootDiameter + d.Ring.Outer) / 2
	}
	inner := 0.0
	if d.Pinion.Bore != nil {
		inner = 2 * d.Pinion.Bore.Reach()
	}
	return (inner + d.Pair.Pinion.RootDiameter) / 2
}

// notes are the words about cutting and stacking in the part's own files.
func (c *cutMember) notes() []string {
	s := c.stack
	out := []string{fmt.Sprintf("cut %d from sheet %.4g mm thick", max(1, c.part.Copies), s.Thickness)}
	if s.Layers > 1 {
		out = append(out, report.StackWords(s))
	}
	return out
}

// laid is one sheet with parts on it.
type laid struct {
	sheet.CutSheet
	report.Laid
}

// laySheets lays the parts out on the job's sheet: those of one material and
// thickness together. Nothing without a sheet.
func laySheets(j *job.Job, members []cutMember) ([]laid, []error) {
	if j.Sheet == nil {
		return nil, nil
	}
	type stuff struct {
		material  string
		thickness float64
	}
	var order []stuff
	groups := map[stuff][]sheet.CutPart{}
	for _, m := range members {
		k := stuff{m.job.Material, m.thickness()}
		if groups[k] == nil {
			order = append(order, k)
		}
		groups[k] = append(groups[k], m.part)
	}
	opt := sheet.NestOptions{Width: j.Sheet.Width, Height: j.Sheet.Height, Edge: j.Sheet.Edge, Spacing: j.Sheet.Spacing, Openings: j.Sheet.Openings}
	var out []laid
	var errs []error
	for _, k := range order {
		sheets, err := sheet.CutSheets(groups[k], opt)
		if err != nil {
			errs = append(errs, err)
			continue
		}
		for _, s := range sheets {
			l := laid{s, report.Laid{Material: k.material, Thickness: k.thickness, Width: opt.Width, Height: opt.Height, Used: s.Used}}
			for _, m := range members {
				n := 0
				for _, p := range s.Placed {
					if p.Name == m.who {
						n++
					}
				}
				if n > 0 {
					l.Parts = append(l.Parts, report.Copies{Part: m.who, Count: n})
				}
			}
			out = append(out, l)
		}
	}
	return out, errs
}
