package svg

import (
	"fmt"
	"math"

	"ringtrack/gear/plane"
)

// shape draws one of the basic shapes by its attributes.
func (t *tracer) shape(name string, attr map[string]string) error {
	switch name {
	case "path":
		return t.path(attr["d"])
	case "polygon", "polyline", "line":
		return t.points(name, attr)
	}
	var v [6]float64
	names := map[string][]string{
		"rect":   {"x", "y", "width", "height", "rx", "ry"},
		"circle": {"cx", "cy", "r", "r"}, "ellipse": {"cx", "cy", "rx", "ry"},
	}[name]
	for i, n := range names {
		x, unit, err := length(attr[n])
		if err != nil {
			return fmt.Errorf("%s: %w", n, err)
		}
		px, _ := pixels(unit)
		v[i] = x * px
	}
	if !(v[2] > 0 && v[3] > 0) {
		return fmt.Errorf("it has no size")
	}
	if name == "rect" {
		return t.rect(v, attr["rx"] != "", attr["ry"] != "")
	}
	c := plane.Vec{X: v[0], Y: v[1]}
	e := ellipse{c: c, u: plane.Vec{X: v[2]}, v: plane.Vec{Y: v[3]}, turn: 2 * math.Pi}
	from := c.Add(e.u)
	if err := t.ellipse(e, from, from); err != nil {
		return err
	}
	return t.end()
}

func (t *tracer) points(name string, attr map[string]string) error {
	if name == "line" {
		return fmt.Errorf("the outline is open")
	}
	v, err := numbers(attr["points"], 2**t.left)
	if err != nil {
		return err
	}
	if len(v) == 0 || len(v)%2 != 0 {
		return fmt.Errorf("%d coordinates; pairs are needed", len(v))
	}
	t.start = plane.Vec{X: v[0], Y: v[1]}
	t.at = t.start
	for i := 2; i < len(v); i += 2 {
		if err := t.lineTo(plane.Vec{X: v[i], Y: v[i+1]}); err != nil {
			return err
		}
	}
	if name == "polygon" {
		if err := t.lineTo(t.start); err != nil {
			return err
		}
	}
	return t.end()
}

// rect draws x, y, width, height with corner radii; one alone stands for both.
func (t *tracer) rect(v [6]float64, hasX, hasY bool) error {
	x, y, w, h, rx, ry := v[0], v[1], v[2], v[3], math.Abs(v[4]), math.Abs(v[5])
	if !hasX {
		rx = ry
	} else if !hasY {
		ry = rx
	}
	rx, ry = math.Min(rx, w/2), math.Min(ry, h/2)
	t.start = plane.Vec{X: x + rx, Y: y}
	t.at = t.start
	for _, c := range [...]struct{ x, y, fromX, fromY, toX, toY float64 }{
		{x + w, y, -rx, 0, 0, ry}, {x + w, y + h, 0, -ry, -rx, 0},
		{x, y + h, rx, 0, 0, -ry}, {x, y, 0, ry, rx, 0},
	} {
		if err := t.lineTo(plane.Vec{X: c.x + c.fromX, Y: c.y + c.fromY}); err != nil {
			return err
		}
		to := plane.Vec{X: c.x + c.toX, Y: c.y + c.toY}
		if err := t.arcTo([7]float64{rx, ry, 0, 0, 1}, to); err != nil {
			return err
		}
	}
	return t.end()
}
