package fileset

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"

	"ringtrack/export/sheet"
	"ringtrack/gear/drive"
	"ringtrack/gear/find"
	"ringtrack/gear/job"
)

// Check works a job out as drive.Check does and adds what the files that are
// asked for have no room for: parts on their sheet, tabs, dowel holes, pages of
// paper. Its cures are tried like the others.
func Check(j *job.Job) *drive.Design {
	d := drive.Check(j)
	first := len(d.Findings)
	d.Findings = append(d.Findings, Shortfalls(d)...)
	for i := range d.Findings[first:] {
		f := &d.Findings[first+i]
		f.Change = cures(d, *f)
	}
	find.Sort(d.Findings)
	return d
}

// Shortfalls returns what has no room, without cures.
func Shortfalls(d *drive.Design) []find.Finding {
	if d.Pair == nil {
		return nil
	}
	members, errs := cutMembers(d, 0)
	_, more := laySheets(d.Job, members)
	errs = append(errs, more...)
	if slices.Contains(d.Job.Output.Formats, "pdf") {
		if _, err := templatePages(d); err != nil {
			errs = append(errs, err)
		}
	}
	var out []find.Finding
	for _, err := range errs {
		var fit *sheet.FitError
		if !errors.As(err, &fit) {
			out = append(out, find.Finding{Code: find.OutOfRange, Level: find.Fault, About: "output.formats", Line: d.Job.Line("output.formats"), Text: err.Error()})
			continue
		}
		out = append(out, shortfall(d.Job, fit))
	}
	return out
}

// shortfall makes a finding of what does not fit.
func shortfall(j *job.Job, e *sheet.FitError) find.Finding {
	f := find.Finding{Level: find.Fault, Found: find.Num(e.Found), Limit: find.Num(e.Limit), Unit: "mm", Text: e.Error()}
	switch e.Fit {
	case sheet.SheetSize:
		f.Code, f.About = find.OutsideSheet, "sheet"
	case sheet.Spacing:
		f.Code, f.About = find.NarrowGap, "sheet.spacing"
	case sheet.TabPlace:
		f.Code, f.About, f.Text = find.TabsDoNotFit, makingKey(j, e.Part, "tabs"), e.Part+": "+f.Text
	case sheet.DowelWall:
		f.Code, f.About = find.DowelMeetsEdge, makingKey(j, e.Part, "dowel")
	default:
		f.Code, f.About, f.Unit = find.ManyPages, "output.paper", ""
	}
	f.Line = j.Line(f.About)
	return f
}

// makingKey returns the key of how a member is made that stands in the file:
// its own before that of both.
func makingKey(j *job.Job, who, name string) string {
	if own := "making." + who + "." + name; j.Given(own) {
		return own
	}
	return "making." + name
}

// mostCures of one finding.
const mostCures = 3

// cures returns the changes that, each alone, remove the finding and add no
// fault.
func cures(d *drive.Design, f find.Finding) []find.Change {
	var out []find.Change
	for _, c := range candidates(d, f) {
		if len(out) < mostCures && heals(d, f, c) {
			out = append(out, c)
		}
	}
	return out
}

// heals reports whether a change removes the finding and adds no fault.
func heals(d *drive.Design, f find.Finding, c find.Change) bool {
	j, _ := drive.Apply(d.Job, c)
	if j == nil {
		return false
	}
	e := drive.Resolve(j)
	for _, g := range append(e.Findings, Shortfalls(e)...) {
		before := func(h find.Finding) bool { return h.Code == g.Code && h.About == g.About }
		if g.Code == f.Code && (g.About == f.About || g.Text == f.Text) || g.Level == find.Fault && !slices.ContainsFunc(d.Findings, before) && g.Code != f.Code {
			return false
		}
	}
	return true
}

// candidates returns what may give room, best first.
func candidates(d *drive.Design, f find.Finding) []find.Change {
	set := func(key string, v float64) find.Change {
		return find.Change{Key: key, Value: strconv.FormatFloat(v, 'f', -1, 64)}
	}
	tenth := func(v float64) float64 { return math.Floor(10*v+1e-9) / 10 }
	switch f.Code {
	case find.OutsideSheet:
		need := math.Ceil(*f.Found + 2*d.Job.Sheet.Edge)
		return []find.Change{set("sheet.width", need), set("sheet.height", need), set("sheet.edge", 0), {Key: "sheet"}}
	case find.NarrowGap:
		return []find.Change{{Key: "sheet.spacing"}, set("sheet.spacing", math.Ceil(*f.Limit))}
	case find.TabsDoNotFit:
		width := f.About[:len(f.About)-len("tabs")] + "tab_width"
		return []find.Change{set(width, tenth(*f.Limit)), set(f.About, 0), set(f.About, 1)}
	case find.DowelMeetsEdge:
		stem := f.About[:len(f.About)-len("dowel")]
		out := []find.Change{{Key: stem + "dowel_circle"}}
		for _, v := range []float64{4, 3, 2.5, 2, 1.5, 1} {
			out = append(out, set(f.About, v))
		}
		return append(out, set(stem+"dowels", 2), set(stem+"dowels", 0))
	case find.ManyPages:
		var out []find.Change
		for _, p := range []string{"a3", "tabloid"} {
			out = append(out, find.Change{Key: "output.paper", Value: strconv.Quote(p)})
		}
		return append(out, find.Change{Key: "output.formats", Value: without(d.Job.Output.Formats, "pdf")})
	}
	return nil
}

// without writes a list of words but one.
func without(words []string, word string) string {
	out := ""
	for _, w := range words {
		if w != word {
			out += fmt.Sprintf(", %q", w)
		}
	}
	if out == "" {
		return `["svg"]`
	}
	return "[" + out[2:] + "]"
}
