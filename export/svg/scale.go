package svg

import (
	"fmt"
	"strings"
)

// root finds the scale by width, height and viewBox.
func (r *reader) root(attr map[string]string) error {
	w, real, err := side(attr, "width")
	if err != nil {
		return err
	}
	h, alsoReal, err := side(attr, "height")
	if err != nil {
		return err
	}
	r.res.Scale = r.lim.Unit
	box := strings.TrimSpace(attr["viewBox"])
	if box != "" {
		v, err := numbers(box, 4)
		if err != nil || len(v) != 4 || !(v[2] > 0 && v[3] > 0) {
			return fmt.Errorf("the viewBox %q is not understood", clip(box))
		}
		if err := r.fit(w/v[2], h/v[3], attr["preserveAspectRatio"]); err != nil {
			return err
		}
	}
	r.res.Assumed = !(real || alsoReal) || box == ""
	if r.res.Assumed {
		r.res.Remarks = append(r.res.Remarks, fmt.Sprintf("the file gives no scale in real units: one unit is read as %.6g mm", r.res.Scale))
	}
	m := affine{a: r.res.Scale, d: -r.res.Scale}
	if !m.finite() || m.a < 1e-12 {
		return fmt.Errorf("a scale of %g mm to a unit", m.a)
	}
	r.stack = []state{{m: m}}
	s, err := r.inner(attr)
	r.stack[0].m = s.m
	return err
}

// side returns width or height in mm, 0 when the file leaves it to the page,
// and whether it is given in a real unit.
func side(attr map[string]string, name string) (mm float64, real bool, err error) {
	s := strings.TrimSpace(attr[name])
	if s == "" || s == "auto" || strings.HasSuffix(s, "%") {
		return 0, false, nil
	}
	v, unit, err := length(s)
	if err != nil {
		return 0, false, fmt.Errorf("%s: %w", name, err)
	}
	if !(v > 0) {
		return 0, false, fmt.Errorf("%s is %q", name, clip(s))
	}
	k, _ := millimetres(unit)
	return v * k, unit != "" && unit != "px", nil
}

// fit sets the scale from those of width and height, 0 where one is missing.
func (r *reader) fit(sx, sy float64, aspect string) error {
	switch {
	case sx == 0 && sy == 0:
		return nil
	case sx == 0 || sy == 0:
		r.res.Scale = max(sx, sy)
		return nil
	case strings.Contains(aspect, "none") && sx != sy:
		return fmt.Errorf("the drawing is stretched by preserveAspectRatio none")
	case strings.Contains(aspect, "slice"):
		r.res.Scale = max(sx, sy)
	default:
		r.res.Scale = min(sx, sy)
	}
	if max(sx, sy) > 1.001*min(sx, sy) {
		r.res.Remarks = append(r.res.Remarks, "width and height do not have the viewBox's proportions")
	}
	return nil
}
