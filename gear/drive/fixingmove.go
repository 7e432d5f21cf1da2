package drive

import (
	"fmt"
	"math"
	"strings"

	"ringtrack/gear/find"
)

// fixingMoves continues moves for hubs, flanges, set screws, steps and edges.
func (d *Design) fixingMoves(f find.Finding) []move {
	switch f.Code {
	case find.HubMeetsTeeth:
		return []move{down("pinion.hub.diameter"), down("pinion.hub.foot"), up("teeth.pinion"), up("teeth.module"), up("teeth.ring")}
	case find.ThinWall:
		return []move{up("pinion.hub.diameter"), up("pinion.hub.length"), up(f.About), down(f.About), down("pinion.bore.diameter"),
			up("ring.bolts.circle"), down("ring.bolts.circle"), up("teeth.pinion")}
	case find.ChannelMeetsEdge:
		return []move{auto(f.About), down(f.About), up(f.About), up("pinion.hub.length"), down("pinion.hub.foot")}
	case find.ChannelsMeet:
		return []move{up(f.About), down(f.About), up("pinion.hub.diameter")}
	case find.ScrewProud:
		return []move{auto(f.About), down(f.About), up("pinion.hub.diameter")}
	case find.ScrewShort:
		return []move{auto(f.About), up(f.About), up("pinion.hub.diameter"), down("pinion.hub.diameter")}
	case find.FirstLayer:
		return []move{up(f.About), auto(f.About)}
	}
	return nil
}

// rangeOfFixings continues rangeOf for hubs, flanges, set screws, steps and edges.
func (d *Design) rangeOfFixings(key string) (span, bool) {
	j := d.Job
	hub := j.Pinion.Hub
	switch {
	case strings.HasSuffix(key, ".edge") && strings.HasPrefix(key, "making."):
		now := d.Ring.Shape.Edge
		if strings.HasPrefix(key, "making.pinion.") || d.Pinion.Shape.Edge < now {
			now = d.Pinion.Shape.Edge
		}
		return span{now, 1, 0, 5, 0.01}, true
	case key == "pinion.flange.diameter" && j.Pinion.Flange != nil:
		return span{d.Pinion.Shape.Flange.Diameter, 4 * j.Teeth.Module, 1, 2000, 0.1}, true
	case key == "ring.step.diameter" && j.Ring.Step != nil:
		return span{j.Ring.Step.Diameter, 20 * j.Teeth.Module, 1, 60000, 0.1}, true
	case hub == nil:
		return span{}, false
	case key == "pinion.hub.diameter":
		return span{hub.Diameter, hub.Diameter, 1, 1000, 0.1}, true
	case key == "pinion.hub.length":
		return span{hub.Length, hub.Length, 0.5, 1000, 0.1}, true
	case key == "pinion.hub.foot":
		return span{hub.Foot, hub.Foot, 0, 50, 0.05}, true
	}
	return d.rangeOfScrew(key)
}

// rangeOfScrew continues rangeOf for one set screw.
func (d *Design) rangeOfScrew(key string) (span, bool) {
	for i, s := range d.Job.Pinion.SetScrews {
		prefix := fmt.Sprintf("pinion.set_screw[%d].", i)
		if !strings.HasPrefix(key, prefix) || i >= len(d.Pinion.Shape.Screws) {
			continue
		}
		switch key[len(prefix):] {
		case "height":
			now := s.Height.Value
			if !s.Height.Given {
				now = d.Pinion.Shape.Screws[i].Z
			}
			return span{now, d.Job.Pinion.Hub.Length, 0, 3000, 0.1}, true
		case "angle":
			return span{s.Angle * 180 / math.Pi, 90, -360, 360, 1}, true
		case "length":
			if s.Length.Given {
				return span{s.Length.Value, s.Length.Value, 1, 100, 0.5}, true
			}
		}
	}
	return span{}, false
}
