package drive

import (
	"fmt"
	"math"
)

// PrintFace says how a member lies on the bed in its file, in words.
func (d *Design) PrintFace(m *Member) string {
	s := m.Body.Shape
	switch {
	case m == &d.Pinion && s.Hub != nil && s.Flange != nil:
		return "print it as it lies in the file: flange down, hub up"
	case m == &d.Pinion && s.Hub != nil:
		return "print it as it lies in the file: teeth down, hub up"
	case m == &d.Pinion && s.Flange != nil:
		return "print it as it lies in the file: flange down"
	case len(s.Ribs) > 0:
		return "print it as it lies in the file: the face toward the bearing up"
	case s.Edge > 0:
		return "either face may lie down; both have the edge"
	}
	return "either face may lie down"
}

// HubShift returns how far one-sided pressure of a set screw pushes the hub off
// the shaft's axis: half of the bore's clearance, mm. ok is false without screws.
func (d *Design) HubShift() (shift float64, ok bool) {
	if len(d.Screws) == 0 || d.Pinion.Bore == nil {
		return 0, false
	}
	return math.Max(0, d.Pinion.Bore.Clearance) / 2, true
}

// FixingNotes are the sentences that a builder needs to put the parts on.
func (d *Design) FixingNotes() []string {
	var out []string
	if b := d.Pinion.Bore; b != nil {
		out = append(out, fmt.Sprintf("Bore: %.3g mm of clearance in total, %.3g mm per side.", b.Clearance, b.Clearance/2))
	}
	for i, s := range d.Screws {
		out = append(out, s.sentence(i))
	}
	if shift, ok := d.HubShift(); ok {
		out = append(out, fmt.Sprintf("The screw's pressure on one side pushes the hub up to %.3g mm off the shaft's axis: %.3g mm of run-out on a dial.", shift, 2*shift))
		out = append(out, d.tightening())
	}
	return out
}

// sentence says what one set screw is and whether its key reaches it.
func (s ScrewFit) sentence(i int) string {
	text := fmt.Sprintf("Set screw %d: %s x %.3g, in a %s; it bears on the shaft and ends %.2g mm inside the hub. Hexagon key %.3g mm; ",
		i+1, s.Size, s.Length, seatWords[s.Seat], math.Max(0, s.Recess), s.Key)
	if s.OverRim >= 0 {
		return text + fmt.Sprintf("the key passes the ring's face by %.1f mm with the ring in place.", s.OverRim)
	}
	return text + fmt.Sprintf("the ring is in the key's way by %.1f mm: tighten it before the ring goes on.", -s.OverRim)
}

var seatWords = map[string]string{
	"plain": "clear hole", "tapped": "thread cut in the plastic", "hex-nut": "captive hexagon nut", "square-nut": "captive square nut", "insert": "heat-set insert",
}

// tightening says in which order set screws are tightened.
func (d *Design) tightening() string {
	switch {
	case len(d.Screws) == 1 && d.Pinion.Bore.Shape == "d":
		return "Turn the flat to the screw before tightening; the torque belongs on the flat, the screw only keeps the hub from walking off."
	case d.Pinion.Bore.Shape == "d":
		return "Tighten the screw on the flat first, then the others; the torque belongs on the flat."
	}
	return "Tighten the screws in turn, a little at a time; on a shaft without a flat they hold little in plastic."
}
