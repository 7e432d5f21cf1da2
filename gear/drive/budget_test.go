package drive_test

import (
	"runtime"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"ringtrack/gear/budget"
	"ringtrack/gear/drive"
	"ringtrack/gear/find"
	"ringtrack/gear/job"
)

const plain = "[teeth]\nmodule = 2.5\npinion = 15\nring = 104\n"

func mustCheck(t *testing.T, text string) *drive.Design {
	t.Helper()
	j, bad := job.Read("a.toml", []byte(text))
	require.NotNil(t, j, "%v", bad)
	return drive.Check(j)
}

func theOne(d *drive.Design, code find.Code, about string) *find.Finding {
	for i, f := range d.Findings {
		if f.Code == code && f.About == about {
			return &d.Findings[i]
		}
	}
	return nil
}

// The budget chooses the least backlash, in hundredths, that keeps the play, and
// then nothing binds.
func TestAutoBacklash(t *testing.T) {
	for _, more := range []string{
		"", "[making]\nkind = \"cut\"\n", "[making]\nkind = \"exact\"\n[mounting]\nbearing_play = 0.2\n",
		"[mounting]\nbearing_play = 0.1\nring_runout = 0.4\nring_ovality = 0.2\n",
		"[pinion]\nmaterial = \"pom\"\n[ring]\nmaterial = \"pom\"\n[mounting]\ntemperature = [-20, 60]\nbase = \"steel\"\nbearing_play = 0.1\n",
	} {
		d := mustCheck(t, plain+"backlash = \"auto\"\n"+more)
		require.NotNil(t, d.Budget, more)
		require.Equal(t, "budget", d.Pair.Backlash.Source)
		require.Equal(t, budget.Go, d.Budget.Verdict.Word, more)
		require.Zero(t, find.Count(d.Findings, find.Fault))
		// A hundredth of backlash is chosen on teeth of another backlash, which tips hardly notice.
		require.InDelta(t, d.Budget.Target+0.005, d.Budget.Least.RootSumSquare, 0.012, more)
		require.GreaterOrEqual(t, d.Budget.Builds.Least.Low, d.Budget.Target-1e-9, more)
		var why string
		for _, c := range d.Pair.Chosen {
			if c.Key == "teeth.backlash" {
				why += c.Reason
			}
		}
		require.Contains(t, why, "would win most: 0.")
	}
}

// A guessed bearing is a caution until it is measured; exact parts on exact
// bearings have nothing to guess.
func TestGuesses(t *testing.T) {
	d := mustCheck(t, plain+"backlash = \"auto\"\n")
	f := theOne(d, find.Guessed, "mounting.bearing_play")
	require.NotNil(t, f)
	require.Equal(t, find.Caution, f.Level)
	require.Equal(t, []find.Change{{Key: "mounting.bearing_play", Value: "0.5"}}, f.Change)

	d = mustCheck(t, plain+"backlash = \"auto\"\n[making]\nbed = [300, 300, 300]\n[mounting]\nbearing_play = 0.5\n")
	require.Nil(t, theOne(d, find.Guessed, "mounting.bearing_play"))
	require.Equal(t, "good", d.Verdict())
	require.False(t, d.Budget.Row(budget.BearingPlay).Guessed)
	require.True(t, d.Budget.Row(budget.RingRunout).Guessed)

	d = mustCheck(t, plain+"[making]\nkind = \"exact\"\n")
	require.Empty(t, d.Findings)
	require.InDelta(t, d.Budget.Nominal, d.Budget.Least.WorstCase, 1e-12)
}

// Too little backlash is a fault, with cures that were tried.
func TestBindingBudget(t *testing.T) {
	d := mustCheck(t, plain+"backlash = 0.12\n")
	f := theOne(d, find.Jams, "teeth.backlash")
	require.NotNil(t, f)
	require.Equal(t, find.Fault, f.Level)
	require.Equal(t, 4, f.Line-1)
	require.Greater(t, len(f.Change), 1)
	require.Equal(t, find.Change{Key: "teeth.backlash", Value: `"auto"`}, f.Change[0])
	for _, c := range f.Change {
		require.NoError(t, removes(c, *f, d))
	}
}

// A target that no backlash reaches is a fault that names the cause; a spread
// over the module one about its key.
func TestBadBudget(t *testing.T) {
	d := mustCheck(t, "[teeth]\nmodule = 0.6\npinion = 20\nring = 90\nbacklash = \"auto\"\n[making]\nline_width = 0.1\n[mounting]\nbearing_play = 0.6\n")
	f := theOne(d, find.LittleBacklash, "teeth.backlash")
	require.NotNil(t, f, "%v", d.Findings)
	require.Equal(t, find.Fault, f.Level)
	require.Contains(t, f.Text, "bearing's play alone takes")
	require.Contains(t, f.Text, "halving it would win")

	for key, about := range map[string]string{
		"bearing_play = 2.6": "mounting.bearing_play", "ring_runout = 3": "mounting.ring_runout", "tilt = 15": "mounting.tilt",
	} {
		d := mustCheck(t, plain+"[mounting]\n"+key+"\n")
		require.Nil(t, d.Budget)
		f := theOne(d, find.OutOfRange, about)
		require.NotNil(t, f, "%s: %v", key, d.Findings)
		require.NotEmpty(t, f.Change, key)
		require.NoError(t, removes(f.Change[0], *f, d))
	}
}

// Play is told at the platform's rim where that is known.
func TestFeltAtTheRim(t *testing.T) {
	d := mustCheck(t, plain)
	require.InDelta(t, d.Budget.Felt.Nominal.Angle*d.Ring.Outer/2, d.Budget.Felt.Nominal.Rim, 1e-12)
	d = mustCheck(t, plain+"[motor]\nkind = \"dc\"\nrated_voltage = 12\nno_load_speed = 30\nstall_torque = 600\n[platform]\nmass = 5\ndiameter = 800\n")
	require.InDelta(t, d.Budget.Felt.Nominal.Angle*400, d.Budget.Felt.Nominal.Rim, 1e-12)
}

// A measured place of the run-out says where the turn is tightest: opposite to
// where the ring stands furthest out.
func TestMeasuredRunout(t *testing.T) {
	d := mustCheck(t, plain+"[mounting]\nring_runout = 0.3\nring_runout_at = 90\n")
	require.True(t, d.Budget.Turn.Measured)
	require.Equal(t, 78, d.Budget.Turn.Tightest.Space) // 270 degrees of 104 spaces
	require.True(t, strings.Contains(d.Budget.Verdict.Sentence, "space 78"), d.Budget.Verdict.Sentence)
}

// The same job has the same budget, whatever the number of processors.
func TestBudgetAlwaysTheSame(t *testing.T) {
	want := mustCheck(t, plain).Budget
	before := runtime.GOMAXPROCS(1)
	defer runtime.GOMAXPROCS(before)
	require.Equal(t, want, mustCheck(t, plain).Budget)
}
