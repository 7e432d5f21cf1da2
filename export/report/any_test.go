package report_test

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"ringtrack/export/report"
	"ringtrack/gear/drive"
	"ringtrack/gear/drive/drafts"
	"ringtrack/gear/job"
)

// TestAnyJobReported reports jobs of all kinds, with teeth and without: the JSON
// is valid, says what the findings say, and the texts keep to their width.
func TestAnyJobReported(t *testing.T) {
	verdicts := map[string]int{}
	for seed := range uint64(400) {
		text := drafts.Bad(drafts.Seeded(seed))
		if seed%2 == 1 {
			text = drafts.Any(drafts.Seeded(seed))
		}
		j, bad := job.Read("any.toml", []byte(text))
		require.NotNil(t, j, "%v", bad)
		d := drive.Resolve(j)
		verdicts[d.Verdict()]++

		var b bytes.Buffer
		require.NoError(t, report.WriteJSON(&b, d, report.Built{}))
		var r struct {
			Verdict          string
			Pair             map[string]any
			Findings, Ledger []any
		}
		require.NoError(t, json.Unmarshal(b.Bytes(), &r), "%s\n%s", text, b.String())
		require.Equal(t, d.Verdict(), r.Verdict)
		require.Equal(t, d.Pair == nil, r.Pair == nil)
		require.Len(t, r.Findings, len(d.Findings))
		require.Len(t, r.Ledger, len(d.Ledger))

		b.Reset()
		require.NoError(t, report.WriteCheck(&b, d, report.Style{File: "a-job-with-a-longish-name.toml"}))
		require.NoError(t, report.WriteText(&b, d, report.Built{}))
		for _, line := range strings.Split(b.String(), "\n") {
			require.LessOrEqual(t, len([]rune(line)), 100, line)
			for _, word := range []string{"NaN", "Inf", "%!", "\x00"} {
				require.NotContains(t, line, word, text)
			}
		}
	}
	for _, v := range []string{"good", "caution", "fault"} {
		require.GreaterOrEqual(t, verdicts[v], 10, "%v", verdicts)
	}
}
