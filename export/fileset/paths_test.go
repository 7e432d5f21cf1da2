package fileset_test

import (
	"context"
	"encoding/json"
	"fmt"
	"os"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"ringtrack/export/fileset"
	"ringtrack/gear/drive"
	"ringtrack/gear/job"
)

// full is a job whose report leaves nothing out that can be there.
const full = `
[teeth]
module = 1.25
pinion = 14
ring = 100
pinion_shift = 0
backlash = 0.5
[pinion]
material = "petg"
[pinion.bore]
shape = "d"
diameter = 5
across_flat = 4.5
[ring.bolts]
count = 4
screw = "M3"
[mounting]
bearing_play = 0.1
ring_runout = 0.1
[output]
formats = ["stl", "dxf", "svg", "png"]
`

// report builds the set of a job and returns its report.
func report(t *testing.T, text string) (raw string, tree map[string]any) {
	j, found := job.Read("bench.toml", []byte(text))
	require.NotNil(t, j, "%v", found)
	dir := t.TempDir()
	_, err := fileset.Build(context.Background(), drive.Check(j), dir, fileset.Options{Despite: true})
	require.NoError(t, err)
	for name, data := range content(t, dir) {
		if strings.HasSuffix(name, fileset.ReportName) {
			raw = data
		}
	}
	require.NoError(t, json.Unmarshal([]byte(raw), &tree), raw)
	return raw, tree
}

// TestPaths walks every promised path of report.json.
func TestPaths(t *testing.T) {
	_, tree := report(t, full)
	require.Equal(t, "caution", tree["verdict"])
	require.NotEmpty(t, tree["findings"])
	data, err := os.ReadFile("testdata/paths.txt")
	require.NoError(t, err)
	for _, line := range strings.Split(strings.TrimSpace(string(data)), "\n") {
		if strings.HasPrefix(line, "#") {
			continue
		}
		path, kind, _ := strings.Cut(line, " ")
		for _, p := range spelledOut(path) {
			require.NoError(t, walk(tree, p, strings.TrimSpace(kind)), p)
		}
	}
}

// spelledOut replaces the words in capitals of a path.
func spelledOut(path string) []string {
	for word, names := range map[string][]string{
		"MEMBER": {"pinion", "ring"},
		"MARGIN": {"ring_tip_on_pinion_root", "pinion_tip_on_ring_root", "tip_on_tip", "radial_assembly"},
	} {
		if strings.Contains(path, word) {
			var out []string
			for _, n := range names {
				out = append(out, strings.Replace(path, word, n, 1))
			}
			return out
		}
	}
	return []string{path}
}

// walk wants a path below v, of a type, in every member of every list on it.
func walk(v any, path, kind string) error {
	if path == "" {
		return isOf(v, kind)
	}
	name, rest, _ := strings.Cut(path, ".")
	bare := strings.TrimSuffix(name, "[]")
	m, ok := v.(map[string]any)
	if !ok {
		return fmt.Errorf("no object before %s, but %v", path, v)
	}
	v, ok = m[bare]
	if !ok {
		return fmt.Errorf("there is no %s", bare)
	}
	if bare == name {
		return walk(v, rest, kind)
	}
	list, ok := v.([]any)
	if !ok || len(list) == 0 && name != "change[]" {
		return fmt.Errorf("%s is no list with members", bare)
	}
	for _, v := range list {
		if err := walk(v, rest, kind); err != nil {
			return err
		}
	}
	return nil
}

func isOf(v any, kind string) error {
	is := "object"
	switch v.(type) {
	case nil:
		is = "null"
	case string:
		is = "text"
	case float64:
		is = "number"
	case bool:
		is = "bool"
	case []any:
		is = "list"
	}
	for _, k := range strings.Split(kind, " or ") {
		if k == is {
			return nil
		}
	}
	return fmt.Errorf("%v is %s, not %s", v, is, kind)
}

var number = regexp.MustCompile(`[:\[ ](-?\d[\d.]*(?:e[-+]?\d+)?),?\n`)

// TestNumbers wants numbers of nine significant digits at most, and never -0.
func TestNumbers(t *testing.T) {
	for _, text := range []string{full, carousel, jam} {
		raw, _ := report(t, text)
		all := number.FindAllStringSubmatch(raw, -1)
		require.Greater(t, len(all), 100)
		for _, m := range all {
			mantissa, _, _ := strings.Cut(m[1], "e")
			digits := strings.TrimLeft(strings.NewReplacer(".", "", "-", "").Replace(mantissa), "0")
			require.LessOrEqual(t, len(digits), 9, m[1])
			require.NotRegexp(t, `^-0(\.0*)?$`, m[1])
		}
		require.NotContains(t, raw, "NaN")
		require.NotContains(t, raw, "\\u0000")
	}
}
