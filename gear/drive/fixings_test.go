package drive

import (
	"fmt"
	"math/rand/v2"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"ringtrack/gear/find"
	"ringtrack/gear/job"
)

// fixingJob draws a job with a hub, set screws, a flange, a step, heads.
func fixingJob(r *rand.Rand) string {
	var b strings.Builder
	pick := func(words ...string) string { return words[r.IntN(len(words))] }
	between := func(lo, hi float64) string { return fmt.Sprintf("%.2f", lo+(hi-lo)*r.Float64()) }
	fmt.Fprintf(&b, "[teeth]\nmodule = %s\npinion = %d\nring = %d\n", pick("1.5", "2", "2.5", "3"), 13+r.IntN(12), 70+r.IntN(60))
	shape := pick("round", "d", "d", "double-d", "hexagon", "keyed")
	b.WriteString("[pinion.bore]\nshape = \"" + shape + "\"\n")
	switch shape {
	case "round":
		b.WriteString("diameter = " + between(3, 8) + "\n")
	case "d", "double-d":
		b.WriteString("diameter = 6\nacross_flat = " + between(5, 5.7) + "\n")
	case "hexagon":
		b.WriteString("across_flat = " + between(4, 7) + "\n")
	case "keyed":
		b.WriteString("diameter = " + pick("7", "8", "10") + "\n")
	}
	if r.IntN(4) > 0 {
		fmt.Fprintf(&b, "[pinion.hub]\ndiameter = %s\nlength = %s\nside = %q\nfoot = %s\nfoot_shape = %q\n",
			between(14, 32), between(7, 16), pick("above", "below"), pick("0", "0.4", "1"), pick("fillet", "chamfer"))
		for i := range r.IntN(3) {
			fmt.Fprintf(&b, "[[pinion.set_screw]]\nsize = %q\nangle = %d\nseat = %q\n",
				pick("M3", "M4", "#6"), i*(90+r.IntN(90)), pick("plain", "tapped", "hex-nut", "square-nut", "insert"))
		}
		if r.IntN(3) == 0 {
			b.WriteString("[pinion.flange]\nthickness = " + between(1, 3) + "\n")
		}
	}
	if r.IntN(2) == 0 {
		fmt.Fprintf(&b, "[ring]\nstand_off = %s\n", pick("0", "2"))
	}
	fmt.Fprintf(&b, "[ring.bolts]\ncount = %d\nscrew = %q\nhead = %q\nside = %q\n", 3+r.IntN(20), pick("M3", "M4", "#8"),
		pick("none", "countersunk", "counterbored", "pilot", "slot"), pick("above", "below"))
	return b.String()
}

// TestAnyFixings: a job with fixings comes to parts whose meshes are closed, one
// shell each, still so in 32-bit numbers, of the exact volume within what the
// chords allow; or to a fault.
func TestAnyFixings(t *testing.T) {
	n := 40
	if os.Getenv("RINGTRACK_SLOW") != "" {
		n = 500
	}
	const chord = 0.02
	r := rand.New(rand.NewPCG(7, 11))
	built := 0
	for i := range n {
		text := fixingJob(r)
		j, found := job.Read("fixings.toml", []byte(text))
		if j == nil {
			require.NotZero(t, find.Count(found, find.Fault), text)
			continue
		}
		d := Resolve(j)
		if d.Faulty() {
			continue
		}
		built++
		for _, m := range []*Member{&d.Pinion, &d.Ring} {
			mesh, err := m.Solid.Mesh(chord)
			require.NoError(t, err, "job %d, %s:\n%s", i, m.Body.Name, text)
			report := mesh.Check()
			require.NoError(t, report.Err(), text)
			require.Equal(t, 1, report.Shells, text)
			require.Empty(t, mesh.Crossings(), text)
			small, err := mesh.Float32()
			require.NoError(t, err, text)
			require.NoError(t, small.Check().Err(), text)
			require.InEpsilon(t, m.Volume, mesh.Volume(), 5e-3, text)
			require.InDelta(t, m.Body.Overall(), mesh.Box().Size().Z, 1e-9, text)
		}
	}
	require.Greater(t, built, n/6, "too few of the drawn jobs can be built to prove anything")
}

// TestFixingCures: every cure of a fault about fixings removes it.
func TestFixingCures(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 5))
	codes := map[find.Code]int{}
	for range 60 {
		j, _ := job.Read("fixings.toml", []byte(fixingJob(r)))
		if j == nil {
			continue
		}
		d := Check(j)
		for _, f := range d.Findings {
			if f.Level != find.Fault {
				continue
			}
			codes[f.Code]++
			for _, c := range f.Change {
				cured, found := applied(j, c)
				require.NotNil(t, cured, "%v %v", c, found)
				for _, g := range Resolve(cured).Findings {
					require.False(t, g.Code == f.Code && g.About == f.About && g.Level <= f.Level, "%v does not cure %v", c, f)
				}
			}
		}
	}
	for _, c := range []find.Code{find.HubMeetsTeeth, find.ThinWall, find.ChannelMeetsEdge, find.ChannelsMeet} {
		require.NotZero(t, codes[c], "%s never came up: %v", c, codes)
	}
}

func applied(j *job.Job, c find.Change) (*job.Job, []find.Finding) {
	if c.Value == "" {
		return j.Without(c.Key)
	}
	return j.With(c.Key, c.Value)
}

// TestTurnedOver: the same pinion with its hub below is the mirror image in the
// file, and everything that counts is the same.
func TestTurnedOver(t *testing.T) {
	const text = `
[teeth]
module = 2.5
pinion = 15
ring = 104
[pinion.bore]
shape = "d"
diameter = 6
across_flat = 5.5
flat_angle = 40
[pinion.hub]
diameter = 22
length = 12
side = %q
[[pinion.set_screw]]
size = "M3"
seat = "square-nut"
`
	volume := func(side string) float64 {
		j, found := job.Read("hub.toml", []byte(fmt.Sprintf(text, side)))
		require.NotNil(t, j, found)
		d := Resolve(j)
		require.False(t, d.Faulty(), d.Findings)
		require.Equal(t, side == "below", d.Pinion.Shape.Flipped)
		require.Len(t, d.Screws, 1)
		require.Equal(t, 8.0, d.Screws[0].Length)
		return d.Pinion.Volume
	}
	require.InEpsilon(t, volume("above"), volume("below"), 1e-9)
}
