package load

import (
	"bufio"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"ringtrack/gear"
	"ringtrack/gear/find"
	"ringtrack/gear/plane"
	"ringtrack/involute"
)

const degree = math.Pi / 180

// rows reads a table of testdata: fields between bars, the source on top.
func rows(t testing.TB, name string) [][]string {
	t.Helper()
	f, err := os.Open("testdata/" + name)
	require.NoError(t, err)
	defer f.Close()
	var out [][]string
	s := bufio.NewScanner(f)
	for s.Scan() {
		if line := strings.TrimSpace(s.Text()); line != "" && line[0] != '#' {
			out = append(out, strings.Split(line, "|"))
		}
	}
	require.NoError(t, s.Err())
	require.NotEmpty(t, out)
	return out
}

func num(t testing.TB, s string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(s, 64)
	require.NoError(t, err)
	return v
}

func rack(t testing.TB, kind byte) involute.Rack {
	t.Helper()
	r, _, err := involute.StandardRack(kind, 20*degree)
	require.NoError(t, err)
	return r
}

// tooth returns a full-depth tooth of type A.
func tooth(t testing.TB, m float64, z int, x float64) *involute.Tooth {
	t.Helper()
	k, err := involute.NewTooth(involute.ToothSpec{Module: m, Teeth: z, Rack: rack(t, 'A'), Shift: x, TipRadius: m * (float64(z)/2 + 1 + x)})
	require.NoError(t, err)
	return k
}

func external(t testing.TB, k *involute.Tooth) *Profile {
	t.Helper()
	p, err := OutlineProfile(gear.ToothLoop(k))
	require.NoError(t, err)
	return p
}

// pair resolves a pair by the project's own rule.
func pair(t testing.TB, m float64, z1, z2 int) *gear.Pair {
	t.Helper()
	p, found := gear.Resolve(gear.Wish{
		Module: m, PressureAngle: 20 * degree, Pinion: gear.MemberWish{Teeth: z1}, Ring: gear.MemberWish{Teeth: z2},
		Share: 0.5, RackType: 'A', LeastTip: 0.45, Spread: 0.1, ProcessPlay: 0.15,
	})
	require.NotNil(t, p, "%v", found)
	require.Zero(t, find.Count(found, find.Fault), "%v", found)
	return p
}

// rackProfile is half a tooth of the rack's counterpart: straight flank, one
// fillet arc, the pitch line at X = 0.
func rackProfile(t testing.TB) *Profile {
	t.Helper()
	const rho, depth = 0.38, 1.25
	a := 20 * degree
	y := func(x float64) float64 { return math.Pi/4 - x*math.Tan(a) } // half width of the flank
	// The fillet's centre lies rho above the root line and rho beside the flank.
	cx := -depth + rho
	cy := y(cx) + rho/math.Cos(a)
	arc := plane.Arc{C: plane.Vec{X: cx, Y: cy}, R: rho, A0: -math.Pi/2 - a, Sweep: -(math.Pi/2 - a)}
	p, err := NewProfile([]plane.Piece{plane.Line{A: plane.Vec{X: 1, Y: y(1)}, B: arc.At(0)}, arc}, false)
	require.NoError(t, err)
	return p
}

var (
	steel = Elastic{206000, 0.3}
	pla   = Elastic{3000, 0.36}
	tpu   = Elastic{100, 0.48}
)
