package part

import (
	"fmt"
	"math"

	"ringtrack/gear"
	"ringtrack/gear/find"
)

// Limits is what the way of making asks of walls.
type Limits struct {
	Wall float64 // mm, least wall between a hole and an edge
}

// CheckPinion reports a bore or screw holes that leave too little under the
// pinion's teeth. bore and holes may be nil.
func CheckPinion(p gear.Pinion, bore *Bore, holes *Holes, lim Limits) []find.Finding {
	var out []find.Finding
	root := p.RootDiameter / 2
	inner := 0.0
	if bore != nil {
		inner = bore.HoleDiameter() / 2
		out = append(out, wallUnderTeeth(root-inner, p.Module, lim)...)
	}
	if holes == nil {
		return out
	}
	if wall := root - holes.Circle/2 - holes.Diameter/2; wall < lim.Wall {
		out = append(out, fault(find.HoleMeetsTeeth, "pinion.bolts.circle", wall, lim.Wall,
			"%.3f mm of wall stand between the pinion's screw holes and its root circle; at least %.3g mm is needed", wall, lim.Wall))
	}
	if wall := holes.Circle/2 - holes.Diameter/2 - inner; bore != nil && wall < lim.Wall {
		out = append(out, fault(find.BoreTooLarge, "pinion.bore.diameter", wall, lim.Wall,
			"%.3f mm of wall stand between the bore and the pinion's screw holes; at least %.3g mm is needed", wall, lim.Wall))
	}
	return append(out, holesApart("pinion", holes, lim)...)
}

func wallUnderTeeth(wall, module float64, lim Limits) []find.Finding {
	switch {
	case wall < lim.Wall:
		return []find.Finding{fault(find.BoreTooLarge, "pinion.bore.diameter", wall, lim.Wall,
			"%.3f mm of wall stand between the bore and the pinion's root circle; at least %.3g mm is needed", wall, lim.Wall)}
	case wall < module:
		f := fault(find.BoreTooLarge, "pinion.bore.diameter", wall, module,
			"the wall under the pinion's teeth is %.3f mm; one module (%.3g mm) is good practice", wall, module)
		f.Level = find.Caution
		return []find.Finding{f}
	}
	return nil
}

// CheckRing reports a rim that is too thin and screw holes that leave it.
func CheckRing(r gear.Ring, outer float64, holes *Holes, lim Limits) []find.Finding {
	var out []find.Finding
	root := r.RootDiameter / 2
	if rim := outer/2 - root; rim < lim.Wall {
		out = append(out, fault(find.ThinRim, "ring.outer_diameter", rim, lim.Wall,
			"the rim behind the ring's teeth is %.3f mm; at least %.3g mm is needed", rim, lim.Wall))
	} else if least := ThinRim * r.Module; rim < least-1e-9 {
		f := fault(find.ThinRim, "ring.outer_diameter", rim, least,
			"the rim behind the ring's teeth is %.3f mm; below %.3g mm (1.75 m) it bends under load", rim, least)
		f.Level = find.Caution
		out = append(out, f)
	}
	if holes == nil {
		return out
	}
	if wall := holes.Circle/2 - holes.Diameter/2 - root; wall < lim.Wall {
		out = append(out, fault(find.HoleMeetsTeeth, "ring.bolts.circle", wall, lim.Wall,
			"%.3f mm of wall stand between the ring's screw holes and the roots of its teeth; at least %.3g mm is needed", wall, lim.Wall))
	}
	if wall := outer/2 - holes.Circle/2 - holes.Diameter/2; wall < lim.Wall {
		out = append(out, fault(find.HoleOutsideRim, "ring.bolts.circle", wall, lim.Wall,
			"%.3f mm of wall stand outside the ring's screw holes; at least %.3g mm is needed", wall, lim.Wall))
	}
	return append(out, holesApart("ring", holes, lim)...)
}

// holesApart reports screw holes that run into one another.
func holesApart(who string, h *Holes, lim Limits) []find.Finding {
	wall := h.Circle*math.Sin(math.Pi/float64(h.Count)) - h.Diameter
	if wall >= lim.Wall {
		return nil
	}
	return []find.Finding{fault(find.NarrowGap, who+".bolts.count", wall, lim.Wall,
		"%.3f mm of wall stand between neighbouring screw holes; at least %.3g mm is needed", wall, lim.Wall)}
}

func fault(code find.Code, about string, found, limit float64, format string, args ...any) find.Finding {
	return find.Finding{
		Code: code, Level: find.Fault, About: about, Found: find.Num(found), Limit: find.Num(limit), Unit: "mm",
		Text: fmt.Sprintf(format, args...),
	}
}
