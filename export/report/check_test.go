package report_test

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"ringtrack/export/report"
	"ringtrack/gear/drive"
	"ringtrack/gear/job"
)

var update = flag.Bool("update", false, "write the golden files")

// golden compares with a golden file, byte for byte.
func golden(t *testing.T, name string, got []byte) {
	t.Helper()
	path := filepath.Join("testdata", "golden", name)
	if *update {
		require.NoError(t, os.WriteFile(path, got, 0o644))
		return
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err, "write it with: go test ./export/report -update")
	require.Equal(t, string(want), string(got))
}

func check(t *testing.T, name string) *drive.Design {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("testdata", "jobs", name+".toml"))
	require.NoError(t, err)
	j, found := job.Read(name+".toml", data)
	require.NotNil(t, j, "%v", found)
	return drive.Check(j)
}

// TestCheckText compares what `check` prints for five jobs: a good one, one
// with cautions, and three with faults.
func TestCheckText(t *testing.T) {
	for name, verdict := range map[string]string{
		"good": "good", "cautions": "caution", "jams": "fault", "screws": "fault", "rack": "fault",
	} {
		t.Run(name, func(t *testing.T) {
			d := check(t, name)
			require.Equal(t, verdict, d.Verdict())
			var b bytes.Buffer
			require.NoError(t, report.WriteCheck(&b, d, report.Style{File: name + ".toml"}))
			text := b.String()
			for _, line := range strings.Split(text, "\n") {
				require.LessOrEqual(t, len([]rune(line)), 100, line)
				require.Equal(t, strings.TrimRight(line, " "), line)
			}
			require.NotContains(t, text, "\x1b")
			first, _, _ := strings.Cut(text, "\n\n")
			require.Equal(t, 1, strings.Count(first+" ", ". "), "the verdict is one sentence: %s", first)
			text, _, _ = strings.Cut(text, "Before it turns\n")
			golden(t, name+".txt", []byte(text))
		})
	}
}

// TestColour wants the level of a finding painted on a terminal, in words that
// carry the meaning without it, and nothing painted elsewhere.
func TestColour(t *testing.T) {
	d := check(t, "jams")
	var plain, painted bytes.Buffer
	require.NoError(t, report.WriteCheck(&plain, d, report.Style{}))
	require.NoError(t, report.WriteCheck(&painted, d, report.Style{Colour: true}))
	require.Contains(t, painted.String(), "\x1b[1;31mfault    ring-tip-interference\x1b[0m")
	require.NotContains(t, plain.String(), "\x1b")
	bare := strings.NewReplacer("\x1b[1;31m", "", "\x1b[1;33m", "", "\x1b[2m", "", "\x1b[0m", "").Replace(painted.String())
	require.Equal(t, plain.String(), bare)
}

// TestCautionsAlways wants the warnings about turning gears with every result.
func TestCautionsAlways(t *testing.T) {
	for _, name := range []string{"good", "rack"} {
		var b bytes.Buffer
		require.NoError(t, report.WriteCheck(&b, check(t, name), report.Style{}))
		for _, word := range []string{"draw fingers", "Isolate the supply", "lifting or carrying people", "licensed trades"} {
			require.Contains(t, b.String(), word)
		}
	}
}
