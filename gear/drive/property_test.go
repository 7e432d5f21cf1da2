package drive_test

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"ringtrack/gear/drive"
	"ringtrack/gear/drive/drafts"
	"ringtrack/gear/job"
	"ringtrack/gear/part"
	"ringtrack/gear/plane"
)

// TestAnyJob works out jobs whose values lie in the allowed ranges, however
// little they go together: each has a fault, or its outlines, as designed and as
// drawn, are closed, simple, rightly turned and have their teeth.
func TestAnyJob(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) { checkJob(t, drafts.Any(rapidDice{t})) })
}

// TestAnyBadJob does the same with jobs as makers write them.
func TestAnyBadJob(t *testing.T) {
	sound := 0
	for seed := range uint64(300) {
		if checkJob(t, drafts.Bad(drafts.Seeded(seed))) {
			sound++
		}
	}
	if sound < 50 {
		t.Errorf("only %d of the jobs have outlines to look at", sound)
	}
}

type tester interface {
	Fatalf(format string, args ...any)
}

// checkJob works a job out and reports whether its outlines could be looked at.
func checkJob(t tester, text string) bool {
	j, bad := job.Read("any.toml", []byte(text))
	if j == nil {
		t.Fatalf("%s\n%v", text, bad)
	}
	d := drive.Resolve(j)
	if d.Faulty() {
		return false
	}
	for _, m := range []*drive.Member{&d.Pinion, &d.Ring} {
		if !m.Drawn {
			t.Fatalf("%s\nno fault, but the %s is not drawn", text, m.Body.Name)
		}
		teeth := j.Teeth.Pinion
		if m == &d.Ring {
			teeth = j.Teeth.Ring
		}
		for _, c := range m.Body.Contours {
			for as, l := range map[string]plane.Loop{"designed": c.Designed, "drawn": c.Drawn} {
				if err := checkLoop(l, c.Name, m.Body.Name, teeth, j.Teeth.Module); err != nil {
					t.Fatalf("%s\nthe %s's %s as %s: %v", text, m.Body.Name, c.Name, as, err)
				}
			}
		}
	}
	return true
}

// checkLoop wants a loop closed, simple and with the material on its left, and
// of a toothed one the number of teeth.
func checkLoop(l plane.Loop, name, of string, teeth int, m float64) error {
	inner, outer := l.Radii()
	if err := l.Check(1e-9 * math.Max(1, outer)); err != nil {
		return err
	}
	pts := l.Flatten(math.Min(0.01*m, outer/20))
	area := 0.0
	for i, p := range pts {
		area += p.Cross(pts[(i+1)%len(pts)]) / 2
	}
	solid := name == part.OutsideContour || (name == part.TeethContour && of == "pinion")
	if solid != (area > 0) || math.IsNaN(area) {
		return fmt.Errorf("area %g", area)
	}
	if i, k, ok := crossing(pts); ok {
		return fmt.Errorf("crosses itself near %v and %v", pts[i], pts[k])
	}
	if name != part.TeethContour {
		return nil
	}
	mid, through := (inner+outer)/2, 0
	for i, p := range pts {
		if q := pts[(i+1)%len(pts)]; (p.Len() > mid) != (q.Len() > mid) {
			through++
		}
	}
	if through != 2*teeth {
		return fmt.Errorf("%d passages of its middle circle, want %d for %d teeth", through, 2*teeth, teeth)
	}
	return nil
}
