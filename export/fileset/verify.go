package fileset

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"strings"

	"ringtrack/export/outline"
	"ringtrack/export/report"
	"ringtrack/gear"
	"ringtrack/gear/drive"
	"ringtrack/gear/job"
	"ringtrack/gear/part"
	"ringtrack/gear/plane"
	"ringtrack/gear/roll"
)

// BindsError says that the written files, read back and rolled, do not turn.
type BindsError struct{ Where string }

func (e *BindsError) Error() string {
	return "the written files bind when they are rolled against each other: " + e.Where
}

// rollFiles reads both members' outlines back from the staged files, takes their
// making allowances off and rolls what would be made. A member without files is
// taken from the design.
func rollFiles(ctx context.Context, s *Set, p *plan) (*report.Rolled, error) {
	d := p.design
	var ring plane.Loop
	var b bool
	var failed error
	read := make(chan struct{})
	go func() {
		defer close(read)
		ring, b, failed = p.madeOutline(s, &d.Ring, d.Job.Ring.Making, outline.Ring)
	}()
	pinion, a, err := p.madeOutline(s, &d.Pinion, d.Job.Pinion.Making, outline.Pinion)
	<-read
	if err = cmp.Or(err, failed); err != nil {
		return nil, err
	}
	source := "files"
	if !a && !b {
		source = "design"
	}
	return RollOutlines(ctx, d, pinion, ring, source)
}

// RollOutlines rolls two made outlines at the design's centre distance. An
// outline that cannot be rolled at all is an error; binding is a result.
func RollOutlines(ctx context.Context, d *drive.Design, pinion, ring plane.Loop, source string) (*report.Rolled, error) {
	res, err := roll.Roll(ctx, roll.Pair{Pinion: pinion, Ring: ring, CentreDistance: d.Pair.CentreDistance}, RollOptions(d))
	if err != nil {
		return nil, err
	}
	return report.NewRolled(res, source), nil
}

// RollOptions are the design's counts and base radii.
func RollOptions(d *drive.Design) roll.Options {
	return roll.Options{
		PinionTeeth: d.Pair.Pinion.Teeth, RingTeeth: d.Pair.Ring.Teeth,
		BaseRing: d.Pair.Ring.BaseDiameter / 2,
		Join:     1e-5, // mm: what an outline read from a file may lack at a joint
	}
}

// readOrder is which format is read back first for a way of making: the one
// that the part will be made from.
func readOrder(cut bool) []string {
	if cut {
		return []string{"dxf", "dxf-r12", "svg", "stl"}
	}
	return []string{"stl", "dxf", "dxf-r12", "svg"}
}

// fileOf returns the name of a member's file of a format, empty without one.
func (p *plan) fileOf(part, format string) string {
	for _, t := range p.tasks {
		if t.Part == part && t.Format == format {
			return t.Name
		}
	}
	return ""
}

// madeOutline returns a member's toothed outline as it would be made, from its
// file if it has one. Where tabs stand the outline has gaps, which are bridged.
func (p *plan) madeOutline(s *Set, m *drive.Member, making job.Making, side outline.Side) (l plane.Loop, fromFile bool, err error) {
	for _, format := range readOrder(making.Kind == "cut") {
		name := p.fileOf(m.Body.Name, format)
		if name == "" {
			continue // not among the formats written
		}
		f, err := s.Read(name)
		if err != nil {
			return plane.Loop{}, false, err
		}
		low, high := m.Body.TeethAt()
		o, err := outline.ReadAcross(f, strings.TrimSuffix(format, "-r12"), side, (low+high)/2, gap(making))
		f.Close()
		if err != nil {
			return plane.Loop{}, false, fmt.Errorf("%s cannot be read back: %w", name, err)
		}
		l, err := m.Making.Made(o.Loop, gear.Teeth)
		if err != nil {
			return plane.Loop{}, false, fmt.Errorf("%s: %w", name, err)
		}
		return straight(l), true, nil
	}
	l, err = madeOf(m)
	return l, false, err
}

// MadeOutlines returns both members' toothed outlines as the design would be
// made: drawn, with the making allowances taken off again.
func MadeOutlines(d *drive.Design) (pinion, ring plane.Loop, err error) {
	if pinion, err = madeOf(&d.Pinion); err == nil {
		ring, err = madeOf(&d.Ring)
	}
	return pinion, ring, err
}

func madeOf(m *drive.Member) (plane.Loop, error) {
	teeth, ok := m.Body.Contour(part.TeethContour)
	if !ok || !m.Drawn {
		return plane.Loop{}, errors.New("the design has no outline to roll")
	}
	return m.Making.Made(teeth.Drawn, gear.Teeth)
}

// rollChord is how far the straight pieces that are rolled may leave what was
// read, mm: fifty times less than a file's usual tolerance.
const rollChord = 1e-4

// straight returns the loop as straight pieces: a file's outline moved by the
// making has an arc at every vertex, which rolling need not follow exactly.
func straight(l plane.Loop) plane.Loop {
	pts := l.Flatten(rollChord)
	out := plane.Loop{Fold: 1, Centre: l.Centre, Unit: make([]plane.Piece, 0, len(pts))}
	for i, p := range pts {
		if q := pts[(i+1)%len(pts)]; p != q {
			out.Unit = append(out.Unit, plane.Line{A: p, B: q})
		}
	}
	return out
}
