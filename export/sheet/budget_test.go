package sheet_test

import (
	"context"
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"ringtrack/export/figure"
	"ringtrack/export/sheet"
	"ringtrack/gear/budget"
	"ringtrack/gear/drive"
	"ringtrack/gear/job"
)

func budgeted(t *testing.T, text string) *drive.Design {
	t.Helper()
	j, bad := job.Read("a.toml", []byte("title = \"Tray\"\n[teeth]\nmodule = 2.5\npinion = 15\nring = 104\n"+text))
	require.NotNil(t, j, "%v", bad)
	d := drive.Resolve(j)
	require.True(t, sheet.HasBudget(d))
	return d
}

// inWords returns the words of a figure, all of whose marks lie on the paper.
func inWords(t *testing.T, f figure.Figure) map[string]bool {
	t.Helper()
	marks, err := f.Marks()
	require.NoError(t, err)
	box := figure.Extent(marks)
	const hair = 0.2 // mm: lines along the edge
	require.GreaterOrEqual(t, box.Min.X, -hair)
	require.GreaterOrEqual(t, box.Min.Y, -hair)
	require.LessOrEqual(t, box.Max.X, f.Width+hair)
	require.LessOrEqual(t, box.Max.Y, f.Height+hair)
	out := map[string]bool{}
	for _, m := range marks {
		out[m.Label] = true
	}
	return out
}

// The sheet of the budget keeps to the paper and names every cause that does
// anything, the tightest place and the play at the rim.
func TestBudgetSheet(t *testing.T) {
	for _, text := range []string{
		"", "backlash = \"auto\"\n", "backlash = 0.1\n", "[making]\nkind = \"exact\"\n",
		"[mounting]\nring_runout = 0.8\nring_runout_at = 90\nring_ovality = 0.6\n",
		"[mounting]\nring_runout_at = 200\n", "[mounting]\nring_runout_at = -45\n",
	} {
		d := budgeted(t, text)
		words := inWords(t, sheet.Budget(d))
		require.True(t, words["Tray"])
		for _, c := range d.Budget.Causes {
			require.Equal(t, c.Counts(), words[budget.Words(c.Name)], "%s: %s", text, c.Name)
		}
		s := d.Budget.Turn.Tightest
		require.True(t, words[fmt.Sprintf("%.3f, space %d", s.Play, s.Space)], text)
		require.Equal(t, inWords(t, sheet.Assembly(d))[fmt.Sprintf("tightest, space %d", s.Space)], d.Budget.Turn.Loosest.Play > s.Play+1e-6, text)
	}
}

// A ring in segments shows its joints.
func TestBudgetSheetJoints(t *testing.T) {
	d := budgeted(t, "")
	s := budget.Spreads{JointStep: budget.Measured(0.1), Segments: 4}
	r, bad, err := budget.Work(context.Background(), d.Pair, s, budget.Options{Target: 0.05})
	require.NoError(t, err)
	require.NotNil(t, r, "%v", bad)
	d.Budget = r
	words := inWords(t, sheet.Budget(d))
	for i := range 4 {
		require.True(t, words[fmt.Sprintf("joint %d", i+1)])
	}
}
