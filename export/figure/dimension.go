package figure

import (
	"math"

	"ringtrack/gear/plane"
)

// Linear is the distance of two points, drawn beside them: lines drawn out
// from the points, a line with arrows between, words on it.
type Linear struct {
	From, To plane.Vec
	Offset   float64 // mm from the points to the line; positive to the left of From-To
	Text     string
	Size     float64 // mm, height of capitals; 0 is TextSize
}

// The proportions of a dimension in heights of its text, by ISO 129-1.
const (
	arrowLength = 1.1
	arrowHalf   = 0.18
	beyond      = 0.6 // of the line that is drawn out
	gap         = 0.3 // before it begins
	above       = 0.45
)

func (d Linear) marks() ([]Mark, error) {
	if d.Size == 0 {
		d.Size = TextSize
	}
	style := Look(Dimension)
	v := d.To.Sub(d.From)
	length := v.Len()
	if length == 0 {
		return Text{At: d.From, Size: d.Size, Text: d.Text}.marks()
	}
	along := v.Mul(1 / length)
	left := plane.Vec{X: -along.Y, Y: along.X}
	a, b := d.From.Add(left.Mul(d.Offset)), d.To.Add(left.Mul(d.Offset))
	var lines, heads Path
	for _, end := range [...][2]plane.Vec{{d.From, a}, {d.To, b}} {
		if out := math.Copysign(d.Size, d.Offset); math.Abs(d.Offset) > gap*d.Size {
			lines = append(lines, Lines(end[0].Add(left.Mul(gap*out)), end[1].Add(left.Mul(beyond*out)))...)
		}
	}
	width, err := TextWidth(d.Text, d.Size)
	if err != nil {
		return nil, err
	}
	arrow := arrowLength * d.Size
	inside := length > 2.5*arrow
	if inside {
		lines = append(lines, Lines(a, b)...)
		heads = append(head(a, along.Mul(-1), d.Size), head(b, along, d.Size)...)
	} else {
		heads = append(head(a, along, d.Size), head(b, along.Mul(-1), d.Size)...)
	}
	at, tail := a.Add(b).Mul(0.5), 2*arrow
	if width > length-0.4*arrow { // no room between: beyond the end
		at = b.Add(along.Mul(tail + (width+d.Size)/2))
		tail += width + d.Size
	} else if inside {
		tail = 0
	}
	if !inside {
		lines = append(lines, Lines(a.Sub(along.Mul(2*arrow)), b)...)
	}
	lines = append(lines, Lines(b, b.Add(along.Mul(tail)))...)
	angle, up := upright(along)
	words, err := Text{At: at.Add(up.Mul(above * d.Size)), Size: d.Size, Angle: angle, Along: Middle, Text: d.Text, Halo: 0.25 * d.Size}.marks()
	return append([]Mark{{Path: lines, Style: style}, {Path: heads, Style: Style{Fill: style.Stroke}}}, words...), err
}

// upright returns the angle of words along a line so that they are read from
// below or from the right, and the direction above them.
func upright(along plane.Vec) (float64, plane.Vec) {
	if along.X < -1e-9 || math.Abs(along.X) <= 1e-9 && along.Y < 0 {
		along = along.Mul(-1)
	}
	return along.Angle(), plane.Vec{X: -along.Y, Y: along.X}
}

// head is an arrow's head at a point, in the direction in which it points.
func head(at, direction plane.Vec, size float64) Path {
	back := at.Sub(direction.Mul(arrowLength * size))
	side := plane.Vec{X: -direction.Y, Y: direction.X}.Mul(arrowHalf * size)
	return Polygon(at, back.Add(side), back.Sub(side))
}

// Leader points with an arrow from words to a place. The words stand on a
// short level line at Knee, on the side away from At.
type Leader struct {
	At, Knee plane.Vec
	Text     string
	Size     float64 // mm, height of capitals; 0 is TextSize
}

// Radial returns a leader to the circle's line at an angle, its knee out mm
// outside the circle; negative inside. Text such as "R 3" or "Ø 12.5".
func Radial(c plane.Vec, r, angle, out float64, text string) Leader {
	return Leader{At: c.Add(plane.Polar(r, angle)), Knee: c.Add(plane.Polar(r+out, angle)), Text: text}
}

func (l Leader) marks() ([]Mark, error) {
	if l.Size == 0 {
		l.Size = TextSize
	}
	width, err := TextWidth(l.Text, l.Size)
	if err != nil {
		return nil, err
	}
	side := 1.0
	if l.Knee.X < l.At.X-1e-9 {
		side = -1
	}
	end := l.Knee.Add(plane.Vec{X: side * (width + 0.4*l.Size)})
	style := Look(Dimension)
	out := []Mark{{Path: Lines(l.At, l.Knee, end), Style: style}}
	if v := l.At.Sub(l.Knee); v.Len() > 0 {
		out = append(out, Mark{Path: head(l.At, v.Mul(1/v.Len()), l.Size), Style: Style{Fill: style.Stroke}})
	}
	at := l.Knee.Add(end).Mul(0.5).Add(plane.Vec{Y: above * l.Size})
	words, err := Text{At: at, Size: l.Size, Along: Middle, Text: l.Text, Halo: 0.25 * l.Size}.marks()
	return append(out, words...), err
}
