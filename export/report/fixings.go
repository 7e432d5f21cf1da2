package report

import (
	"strings"

	"ringtrack/gear/drive"
)

// fixingsText writes how the parts are printed and put on.
func fixingsText(b *strings.Builder, d *drive.Design) {
	section(b, "Printing and putting on")
	for _, m := range members(d) {
		if m.member.Make && m.member.Drawn {
			wrap(b, "  * ", "    ", m.name+": "+d.PrintFace(m.member)+".")
		}
	}
	for _, t := range d.FixingNotes() {
		wrap(b, "  * ", "    ", t)
	}
	b.WriteString("\n")
}

// screwRow is one set screw in report.json.
type screwRow struct {
	Size    string `json:"size"`
	Length  num    `json:"length"`
	Seat    string `json:"seat"`
	Key     num    `json:"key"`
	Recess  num    `json:"recess"`
	OverRim num    `json:"over_rim"`
}

// fixingsRoot is what report.json says of fixings.
type fixingsRoot struct {
	Screws   []screwRow `json:"set_screws"`
	HubShift num        `json:"hub_shift"`
	Notes    []string   `json:"notes"`
}

func fixingsOf(d *drive.Design) *fixingsRoot {
	if d.Pair == nil {
		return nil
	}
	out := &fixingsRoot{Screws: []screwRow{}, HubShift: none, Notes: d.FixingNotes()}
	if out.Notes == nil {
		out.Notes = []string{}
	}
	for _, s := range d.Screws {
		out.Screws = append(out.Screws, screwRow{s.Size, num(s.Length), s.Seat, num(s.Key), num(s.Recess), num(s.OverRim)})
	}
	if v, ok := d.HubShift(); ok {
		out.HubShift = num(v)
	}
	return out
}
