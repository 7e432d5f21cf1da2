package drive

import (
	"fmt"
	"math"

	"ringtrack/gear/find"
	"ringtrack/gear/job"
	"ringtrack/gear/part"
	"ringtrack/gear/stock"
)

// setScrews settles the channels of the set screws and checks each of them and
// every two.
func (d *Design) setScrews() {
	screws := d.Job.Pinion.SetScrews
	if d.Pinion.Shape.Hub == nil || d.Pinion.Shape.Bore == nil {
		return // the job's own rules refuse set screws without them
	}
	for i, s := range screws {
		key := fmt.Sprintf("pinion.set_screw[%d].", i)
		c := d.channel(s)
		d.Pinion.Shape.Screws = append(d.Pinion.Shape.Screws, c)
		d.checkChannel(key, s, c)
		d.fitScrew(key, s, c)
	}
	d.checkChannelsApart()
}

// widest returns the greatest radius of a channel.
func widest(c part.Screw) float64 { return math.Max(c.Hole, c.InsertHole) / 2 }

// checkChannel reports a channel that runs into the hub's fillet or its end, and
// a slot or insert that leaves too little wall.
func (d *Design) checkChannel(key string, s job.SetScrew, c part.Screw) {
	hub, wall := d.Pinion.Shape.Hub, d.wall()
	base := d.floor() + d.Job.Pinion.FaceWidth
	low := base + hub.Foot + widest(c) + wall/2
	high := base + hub.Length - d.Pinion.Shape.Edge - widest(c) - wall
	mounted := func(z float64) float64 {
		if d.Pinion.Shape.Flipped {
			return base + hub.Length - z
		}
		return z
	}
	switch {
	case low > high && d.saidOf("pinion.hub.length"):
	case low > high:
		d.add(find.Fault, find.ChannelMeetsEdge, "pinion.hub.length", hub.Length, hub.Length+low-high, "mm",
			"the hub is too short for a screw of %s: between its foot and its end %.2f mm are missing", s.Size, low-high)
	case c.Z < low-1e-9 || c.Z > high+1e-9:
		d.add(find.Fault, find.ChannelMeetsEdge, key+"height", mounted(c.Z), mounted(math.Max(low, math.Min(high, c.Z))), "mm",
			"the channel runs into the hub's foot or its end; from %.2f to %.2f mm above the pinion's lowest face it does not",
			math.Min(mounted(low), mounted(high)), math.Max(mounted(low), mounted(high)))
	}
	d.checkSeat(key, s, c, wall)
}

// checkSeat reports the walls round a nut's slot or an insert.
func (d *Design) checkSeat(key string, s job.SetScrew, c part.Screw, wall float64) {
	r := d.Pinion.Shape.Hub.Diameter / 2
	short := func(found float64, what string) {
		if found >= wall-1e-9 {
			return
		}
		d.add(find.Fault, find.ThinWall, "pinion.hub.diameter", found, wall, "mm", "%s",
			part.WallText(found, wall, fmt.Sprintf("the %s of screw %s", what, s.Size), "the hub's outside"))
	}
	switch c.Seat {
	case part.Nut:
		short(r-math.Hypot(c.At+c.Thickness/2, c.Width/2), "nut's slot")
		if floor := c.Z - c.Drop; floor < wall {
			d.add(find.Fault, find.ThinWall, key+"height", floor, wall, "mm",
				"the nut's slot comes within %.3f mm of the pinion's far face; at least %.3g mm is needed", floor, wall)
		}
		if reach := math.Hypot(c.At+c.Thickness/2, c.Width/2); c.Z-c.Drop < d.floor()+d.Job.Pinion.FaceWidth {
			if left := d.Pair.Pinion.RootDiameter/2 - reach; left < wall {
				d.add(find.Fault, find.ThinWall, key+"seat", left, wall, "mm",
					"the nut's slot reaches down between the teeth and leaves %.3f mm of wall under their roots; at least %.3g mm is needed", left, wall)
			}
		}
	case part.Insert:
		in, _ := stock.FindInsert(s.Size)
		if left := r - c.InsertDepth - d.boreAt(s); left < wall {
			d.add(find.Fault, find.ThinWall, "pinion.hub.diameter", left, wall, "mm",
				"the insert for %s is %.3g mm deep and leaves %.3f mm before the bore; at least %.3g mm is needed", s.Size, c.InsertDepth, left, wall)
		}
		if h := d.Pinion.Shape.Hub.Length/2 - c.InsertHole/2; h < in.Wall {
			d.add(find.Caution, find.ThinWall, "pinion.hub.length", h, in.Wall, "mm",
				"the wall around the insert is %.3f mm; its makers ask for %.3g mm", h, in.Wall)
		}
	}
}

// fitScrew chooses the longest stocked screw that reaches the shaft and does not
// stand proud; with a nut it must pass it whole.
func (d *Design) fitScrew(key string, s job.SetScrew, c part.Screw) {
	row, ok := stock.FindSetScrew(s.Size)
	if !ok {
		return
	}
	r, shaft := d.Pinion.Shape.Hub.Diameter/2, d.shaftAt(s)
	room, least := r-shaft, row.Shortest
	switch c.Seat {
	case part.Nut:
		least = c.At + c.Thickness/2 - shaft
	case part.Insert:
		least = r - c.InsertDepth/2 - shaft
	}
	fit := ScrewFit{Size: s.Size, Seat: s.Seat, Key: row.Key, Length: s.Length.Value, OverRim: d.overRim(c, row)}
	if !s.Length.Given {
		for _, l := range row.Lengths() {
			if l <= room+1e-9 && l >= least-1e-9 {
				fit.Length = l
			}
		}
	}
	switch {
	case fit.Length == 0:
		d.add(find.Fault, find.ScrewShort, "pinion.hub.diameter", 2*r, math.NaN(), "mm",
			"no stocked %s set screw is between %.2f mm (through its seat to the shaft) and %.2f mm (flush with the hub) long", s.Size, least, room)
	case fit.Length > room+1e-9:
		d.add(find.Fault, find.ScrewProud, key+"length", fit.Length, room, "mm",
			"the screw stands %.2f mm out of the hub; %.2f mm reach the shaft and end flush", fit.Length-room, room)
	case fit.Length < least-1e-9:
		d.add(find.Fault, find.ScrewShort, key+"length", fit.Length, least, "mm",
			"the screw is too short to hold in its seat and reach the shaft: at least %.2f mm is needed", least)
	}
	fit.Recess = room - fit.Length
	d.Screws = append(d.Screws, fit)
}

// overRim returns how far the hexagon key passes above the ring's face.
func (d *Design) overRim(c part.Screw, row stock.SetScrew) float64 {
	top := d.floor() + d.Job.Pinion.FaceWidth
	overhang := (d.Job.Pinion.FaceWidth - d.Job.Ring.FaceWidth) / 2
	return c.Z - top + overhang - row.KeyHole()/2
}

// checkChannelsApart reports channels and slots that run into each other before
// they reach the bore.
func (d *Design) checkChannelsApart() {
	screws, wall := d.Pinion.Shape.Screws, d.wall()
	for i, a := range screws {
		for k := i + 1; k < len(screws); k++ {
			b := screws[k]
			turn := math.Abs(math.Remainder(a.Angle-b.Angle, 2*math.Pi))
			side := math.Max(halfWidth(a), halfWidth(b))
			inner := math.Min(innermost(a, d.Pinion.Shape.Bore), innermost(b, d.Pinion.Shape.Bore))
			beside := 2*inner*math.Sin(math.Min(turn, math.Pi)/2) - 2*side
			above := math.Abs(a.Z-b.Z) - widest(a) - widest(b)
			if a.Seat == part.Nut || b.Seat == part.Nut {
				above = math.Inf(-1) // slots are open to the hub's end
			}
			if gap := math.Max(beside, above); gap < wall {
				d.add(find.Fault, find.ChannelsMeet, fmt.Sprintf("pinion.set_screw[%d].angle", k), gap, wall, "mm", "%s",
					part.WallText(gap, wall, fmt.Sprintf("set screw %d", i+1), fmt.Sprintf("set screw %d", k+1)))
			}
		}
	}
}

func halfWidth(c part.Screw) float64 { return math.Max(widest(c), c.Width/2) }

// innermost returns how near to the axis a channel's widest part comes: a nut's
// slot, otherwise the bore.
func innermost(c part.Screw, b *part.Bore) float64 {
	if c.Seat == part.Nut {
		return c.At - c.Thickness/2
	}
	return b.Reach()
}

// saidOf reports whether a fault about the key stands already.
func (d *Design) saidOf(key string) bool {
	for _, f := range d.Findings {
		if f.Level == find.Fault && f.About == key {
			return true
		}
	}
	return false
}
