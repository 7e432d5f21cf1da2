package drive_test

import (
	"fmt"
	"os"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"ringtrack/gear/drive"
	"ringtrack/gear/drive/drafts"
	"ringtrack/gear/find"
	"ringtrack/gear/job"
)

// badJobs is how many bad jobs are worked out: each cure is a whole budget, and
// the longer run of them is asked for with RINGTRACK_SLOW=1.
func badJobs() int {
	if slow() {
		return 300
	}
	return 40
}

func slow() bool { return os.Getenv("RINGTRACK_SLOW") == "1" }

// found are the codes that working a job out can find; the others are about the
// file itself.
var found = []find.Code{
	find.Undercut, find.PointedTip, find.ThinTip, find.RingTipInterference, find.PinionTipInterference, find.TipOnTip,
	find.RadialAssembly, find.LowContactRatio, find.Jams, find.LittleBacklash, find.MuchPlay, find.SmallTipClearance,
	find.NarrowGap, find.ThinRim, find.BoreTooLarge, find.HoleMeetsTeeth, find.HoleOutsideRim, find.OutsideBed,
	find.OutlineLost, find.RackWithoutLand, find.Unmeasured, find.ToleranceTooFine, find.OutOfRange, find.Contradicts,
}

// tally is what came of a number of bad jobs.
type tally struct {
	sync.Mutex
	codes                map[find.Code]int
	faults, cured, cures int
}

// TestCures applies every cure of every finding of many bad jobs, each alone:
// the finding must go and nothing as bad may come. Only where a fault left no teeth to
// look at, or none that a budget can be worked out for, may its cure bring others
// to light.
func TestCures(t *testing.T) {
	sum := tally{codes: map[find.Code]int{}}
	t.Run("jobs", func(t *testing.T) {
		for seed := range uint64(badJobs()) {
			t.Run(fmt.Sprint(seed), func(t *testing.T) {
				t.Parallel()
				tryCures(t, drafts.Bad(drafts.Seeded(seed)), &sum)
			})
		}
	})
	for _, c := range found {
		if !slow() {
			break // few jobs do not come upon everything
		}
		require.GreaterOrEqual(t, sum.codes[c], 3, "the bad jobs hardly come upon %s: %v", c, sum.codes)
	}
	t.Logf("%d cures; of %d faults %d have one; found %v", sum.cures, sum.faults, sum.cured, sum.codes)
	// The rest are given values that hold one another: no single change frees them.
	require.Greater(t, sum.cured, sum.faults*9/10)
}

func tryCures(t *testing.T, text string, sum *tally) {
	j, bad := job.Read("bad.toml", []byte(text))
	require.NotNil(t, j, "%s\n%v", text, bad)
	d := drive.Check(j)
	sum.add(d.Findings)
	for _, f := range d.Findings {
		for i, c := range f.Change {
			require.NotContains(t, f.Change[:i], c, "the same cure twice")
			require.NotEqual(t, j.Raw(c.Key), c.Value, "%s about %s: that stands already", f.Code, f.About)
			require.NoError(t, removes(c, f, d), "%s\n%s about %s", text, f.Code, f.About)
		}
	}
}

func (s *tally) add(fs []find.Finding) {
	s.Lock()
	defer s.Unlock()
	for _, f := range fs {
		s.codes[f.Code]++
		s.cures += len(f.Change)
		if f.Level == find.Fault {
			s.faults++
			s.cured += min(len(f.Change), 1)
		}
	}
}

// removes applies a cure and says what is wrong with it.
func removes(c find.Change, f find.Finding, d *drive.Design) error {
	j, bad := drive.Apply(d.Job, c)
	if j == nil {
		return fmt.Errorf("%s = %s cannot be read: %v", c.Key, c.Value, bad)
	}
	for _, g := range drive.Resolve(j).Findings {
		if g.Code == f.Code && g.About == f.About {
			return fmt.Errorf("%s = %s leaves it: %s", c.Key, c.Value, g.Text)
		}
		if g.Level <= min(f.Level, find.Caution) && d.Pair != nil && (d.Budget != nil || !ofBudget(g)) && !holds(d.Findings, g) {
			return fmt.Errorf("%s = %s brings %s about %s: %s", c.Key, c.Value, g.Code, g.About, g.Text)
		}
	}
	return nil
}

// ofBudget reports whether a finding is one that the budget makes.
func ofBudget(g find.Finding) bool {
	return g.Code == find.Guessed || g.About == "teeth.backlash" && (g.Code == find.Jams || g.Code == find.LittleBacklash)
}

// holds reports whether a finding, as bad as it is, is among the findings.
func holds(fs []find.Finding, g find.Finding) bool {
	for _, f := range fs {
		if f.Level <= g.Level && f.Code == g.Code && f.About == g.About {
			return true
		}
	}
	return false
}

// TestCuresAlwaysTheSame checks that searches that run side by side do not
// disturb one another.
func TestCuresAlwaysTheSame(t *testing.T) {
	for seed := range uint64(8) {
		j, _ := job.Read("bad.toml", []byte(drafts.Bad(drafts.Seeded(seed))))
		require.Equal(t, drive.Check(j).Findings, drive.Check(j).Findings)
	}
}
