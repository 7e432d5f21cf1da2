package sheet

import (
	"fmt"
	"math"

	"ringtrack/gear/drive"
	"ringtrack/gear/part"
	"ringtrack/gear/plane"
)

// PairTemplate returns what a design asks to be marked out where it is built
// in: the ring with its screw holes about the bearing's axis, the motor's axis
// on the line of centres, the pinion about it. Everything is as designed, at
// the assembly's place.
//
// Errors: a design without a pair.
func PairTemplate(d *drive.Design) (Template, error) {
	if d == nil || d.Pair == nil {
		return Template{}, fmt.Errorf("sheet: template: the design has no teeth")
	}
	p := d.Pair
	motor := plane.Vec{X: p.CentreDistance}
	t := Template{Title: "Drill template: " + d.Job.Title}
	t.Outlines = append(t.Outlines, toothed(d.Ring.Body, plane.Same())...)
	t.Outlines = append(t.Outlines, toothed(d.Pinion.Body, plane.Moved(motor))...)
	t.holes(d.Ring.Holes, plane.Vec{}, "ring")
	t.holes(d.Pinion.Holes, motor, "pinion")
	shaft := 0.0
	words := "motor's axis"
	if b := d.Pinion.Bore; b != nil {
		shaft = b.Diameter
		words = fmt.Sprintf("motor's axis, shaft Ø %.4g", shaft)
	}
	t.Axes = append(t.Axes, TemplateAxis{Text: "bearing's axis"}, TemplateAxis{At: motor, Diameter: shaft, Text: words})
	t.Centres = append(t.Centres, TemplateCentres{To: motor, Text: "centre distance " + distanceWords(d)})
	t.Notes = append(t.Notes, "The motor nearer to the bearing's axis: more play.")
	return t, nil
}

// toothed returns the body's contours but its screw holes, which have marks of
// their own.
func toothed(b part.Body, m plane.Similarity) []plane.Loop {
	var out []plane.Loop
	for _, c := range b.Contours {
		if c.Name != part.ScrewHole && len(c.Designed.Unit) > 0 {
			out = append(out, c.Designed.Map(m))
		}
	}
	return out
}

// holes adds a circle of screw holes.
func (t *Template) holes(h *part.Holes, centre plane.Vec, of string) {
	if h == nil || h.Count == 0 {
		return
	}
	step := 2 * math.Pi / float64(h.Count)
	for i := range h.Count {
		t.Holes = append(t.Holes, TemplateHole{At: centre.Add(plane.Polar(h.Circle/2, h.Angle+float64(i)*step)), Diameter: h.Diameter})
	}
	t.Circles = append(t.Circles, TemplateCircle{Centre: centre, Diameter: h.Circle, Angle: h.Angle + step*(math.Floor(float64(h.Count)/4)+0.5),
		Text: fmt.Sprintf("%d holes Ø %.4g on Ø %.5g, %s", h.Count, h.Diameter, h.Circle, of)})
}
