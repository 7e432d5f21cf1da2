package main

import (
	"context"
	"io"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"ringtrack/export/dxf"
	"ringtrack/gear/plane"
)

// The same pair, cut along its outlines and beside them.
const plywood = `
[teeth]
module = 2
pinion = 16
ring = 60
backlash = 0.2
[pinion.bore]
shape = "round"
diameter = 6
clearance = 0
[ring.bolts]
count = 4
hole = 4
[mounting]
centre_distance_spread = 0.1
[output]
formats = ["dxf"]
tolerance = 0.001
`

// radii builds a job and returns the inner and outer radii, about their own
// middles, of the outlines in one of its files, by rising outer radius.
func radii(t *testing.T, text, file string) (out [][2]float64) {
	dir := t.TempDir()
	job := filepath.Join(dir, "sheet.toml")
	require.NoError(t, os.WriteFile(job, []byte(text), 0o666))
	require.Equal(t, exitGood, run(context.Background(), []string{"ringtrack", "build", job, "-o", dir + "/out"}, io.Discard, os.Stderr))
	f, err := os.Open(filepath.Join(dir, "out", file))
	require.NoError(t, err)
	defer f.Close()
	r, err := dxf.Read(f, dxf.Limits{})
	require.NoError(t, err)
	for _, l := range r.Outlines {
		box := plane.NoBox()
		pts := l.Loop.Flatten(0.001)
		for _, p := range pts {
			box = box.Add(p)
		}
		middle := box.Min.Add(box.Max).Mul(0.5)
		in, far := box.Size().Len(), 0.0
		for _, p := range pts {
			d := p.Sub(middle).Len()
			in, far = min(in, d), max(far, d)
		}
		out = append(out, [2]float64{in, far})
	}
	slices.SortFunc(out, func(a, b [2]float64) int { return int(1000 * (a[1] - b[1])) })
	return out
}

// TestKerf wants the path of a cut part beside its outline by half the kerf,
// away from the part: outsides larger, holes and the ring's teeth smaller.
func TestKerf(t *testing.T) {
	exact, cut := plywood+"[making]\nkind = \"exact\"\n", plywood+"[making]\nkind = \"cut\"\nkerf = 0.24\n"
	for file, outer := range map[string]int{"pinion.dxf": 1, "ring.dxf": 5} { // the index of the outside
		was, is := radii(t, exact, file), radii(t, cut, file)
		require.Len(t, is, len(was), file)
		for i := range was {
			want := -0.12
			if i == outer {
				want = 0.12
			}
			require.InDelta(t, want, is[i][1]-was[i][1], 0.004, "%s, outline %d, outermost", file, i)
			require.InDelta(t, want, is[i][0]-was[i][0], 0.004, "%s, outline %d, innermost", file, i)
		}
	}
}
