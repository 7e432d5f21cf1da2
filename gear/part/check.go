package part

import (
	"errors"
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
		if v := bore.least(); v <= 0 {
			return []find.Finding{fault(find.OutlineLost, "pinion.bore.clearance", v, 0,
				"with this clearance no hole is left: its least measure is %.3f mm", v)}
		}
		inner = bore.Reach()
		out = append(out, wallUnderTeeth(bore.sizeKey(), bore.WallInside(root), p.Module, lim)...)
		out = append(out, checkCoupling(p, bore, lim)...)
	}
	if holes == nil {
		return out
	}
	if wall := root - holes.Outer(); wall < lim.Wall {
		out = append(out, fault(find.HoleMeetsTeeth, "pinion.bolts.circle", wall, lim.Wall,
			"%s", WallText(wall, lim.Wall, "the pinion's screw holes", "its root circle")))
	}
	if wall := holes.Inner() - inner; bore != nil && wall < lim.Wall {
		out = append(out, fault(find.BoreTooLarge, bore.sizeKey(), wall, lim.Wall,
			"%s", WallText(wall, lim.Wall, "the bore", "the pinion's screw holes")))
	}
	return append(out, holesApart("pinion.bolts.count", "the pinion's screw holes", holes, lim)...)
}

func wallUnderTeeth(key string, wall, module float64, lim Limits) []find.Finding {
	switch {
	case wall < lim.Wall:
		return []find.Finding{fault(find.BoreTooLarge, key, wall, lim.Wall,
			"%s", WallText(wall, lim.Wall, "the bore", "the pinion's root circle"))}
	case wall < module:
		f := fault(find.BoreTooLarge, key, wall, module,
			"the wall under the pinion's teeth is %.3f mm; one module (%.3g mm) is good practice", wall, module)
		f.Level = find.Caution
		return []find.Finding{f}
	}
	return nil
}

// checkCoupling reports screw holes and recesses of a coupling that leave too
// little wall between one another, the middle and the teeth.
func checkCoupling(p gear.Pinion, b *Bore, lim Limits) []find.Finding {
	if b.Coupling == nil {
		return nil
	}
	var out []find.Finding
	short := func(code find.Code, key string, wall float64, one, other string) {
		if wall < lim.Wall {
			out = append(out, fault(code, key, wall, lim.Wall, "%s", WallText(wall, lim.Wall, one, other)))
		}
	}
	s, root := b.Coupling.Screws, p.RootDiameter/2
	short(find.HoleMeetsTeeth, "pinion.coupling.circle", root-s.Outer(), "the coupling's screws", "the pinion's root circle")
	out = append(out, holesApart("pinion.coupling.count", "the coupling's screw holes", &s, lim)...)
	if r := b.Coupling.Recess; r != nil {
		short(find.HoleMeetsTeeth, "pinion.coupling.recess_diameter", root-(r.Circle+r.Diameter)/2, "the coupling's recesses", "the pinion's root circle")
	}
	loops, err := b.RecessLoops()
	var bad *RecessError
	if errors.As(err, &bad) {
		return append(out, fault(find.NarrowGap, bad.Key, bad.Found, bad.Limit, "%s", bad.Reason))
	}
	wall := math.Inf(1)
	for _, l := range loops {
		for _, c := range s.Centres() {
			wall = math.Min(wall, wallBeside(l, c, s.Width()/2))
		}
	}
	short(find.BoreTooLarge, "pinion.bore.diameter", wall, "the coupling's screws", "its bore or recesses")
	return out
}

// CheckRing reports a rim that is too thin and screw holes that leave it.
func CheckRing(r gear.Ring, outer float64, holes *Holes, lim Limits) []find.Finding {
	var out []find.Finding
	root := r.RootDiameter / 2
	if rim := outer/2 - root; rim < lim.Wall {
		out = append(out, fault(find.ThinRim, "ring.outer_diameter", rim, lim.Wall,
			"%s", WallText(rim, lim.Wall, "the ring's outside", "the roots of its teeth")))
	} else if least := ThinRim * r.Module; rim < least-1e-9 {
		f := fault(find.ThinRim, "ring.outer_diameter", rim, least,
			"the rim behind the ring's teeth is %.3f mm; below %.3g mm (1.75 m) it bends under load", rim, least)
		f.Level = find.Caution
		out = append(out, f)
	}
	if holes == nil {
		return out
	}
	if wall := holes.Inner() - root; wall < lim.Wall {
		out = append(out, fault(find.HoleMeetsTeeth, "ring.bolts.circle", wall, lim.Wall,
			"%s", WallText(wall, lim.Wall, "the ring's screw holes", "the roots of its teeth")))
	}
	if wall := outer/2 - holes.Outer(); wall < lim.Wall {
		out = append(out, fault(find.HoleOutsideRim, "ring.bolts.circle", wall, lim.Wall,
			"%s", WallText(wall, lim.Wall, "the ring's screw holes", "its outside")))
	}
	return append(out, holesApart("ring.bolts.count", "the ring's screw holes", holes, lim)...)
}

// holesApart reports screw holes that run into one another.
func holesApart(key, what string, h *Holes, lim Limits) []find.Finding {
	wall := h.Apart()
	if wall >= lim.Wall {
		return nil
	}
	return []find.Finding{fault(find.NarrowGap, key, wall, lim.Wall,
		"%s", WallText(wall, lim.Wall, "each of "+what, "the next"))}
}

// WallText says how much wall is left between two places, or by how much
// they overlap.
func WallText(wall, least float64, a, b string) string {
	if wall < 0 {
		return fmt.Sprintf("%s and %s overlap by %.3f mm; at least %.3g mm of wall is needed between them", a, b, -wall, least)
	}
	return fmt.Sprintf("only %.3f mm of wall is left between %s and %s; at least %.3g mm is needed", wall, a, b, least)
}

func fault(code find.Code, about string, found, limit float64, format string, args ...any) find.Finding {
	return find.Finding{
		Code: code, Level: find.Fault, About: about, Found: find.Num(found), Limit: find.Num(limit), Unit: "mm",
		Text: fmt.Sprintf(format, args...),
	}
}
