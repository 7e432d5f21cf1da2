package solid

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"ringtrack/gear/plane"
)

// curved returns the area of what is not flat, or more: curved walls, slopes on
// any outline, channels.
func curved(b *Body) float64 {
	total := 0.0
	for i := range b.Walls {
		w := &b.Walls[i]
		bent, all := 0.0, w.Loop.Length()
		for p := range w.Loop.All() {
			if _, flat := p.(plane.Line); !flat {
				bent += plane.Loop{Unit: []plane.Piece{p}}.Length()
			}
		}
		total += bent * (w.High - w.Low)
		for _, e := range []Edge{w.Foot, w.Head} {
			s := math.Abs(e.Shift)
			total += (all + 2*math.Pi*s) * math.Hypot(e.tall(), s)
		}
	}
	reach := 2 * b.size()
	for _, c := range b.Channels {
		for _, s := range c.Steps {
			total += 2 * math.Pi * s.Radius * reach
		}
	}
	return total
}

// requireBody checks everything that a body's mesh promises and returns it.
func requireBody(t testing.TB, b *Body, chord float64) *Mesh {
	t.Helper()
	m, err := b.Mesh(chord)
	require.NoError(t, err)
	r := m.Check()
	require.NoError(t, r.Err())
	require.Equal(t, 1, r.Shells)
	require.Empty(t, m.Crossings())
	f, err := m.Float32()
	require.NoError(t, err)
	require.NoError(t, f.Check().Err())
	require.Empty(t, f.Crossings())
	v, err := b.Volume()
	require.NoError(t, err)
	require.LessOrEqual(t, math.Abs(m.Volume()-v), chord*curved(b))
	box := m.Box()
	for i := range 10 {
		requireSection(t, b, m, box.Min.Z+(box.Max.Z-box.Min.Z)*(float64(i)+0.4567)/10, chord)
	}
	return m
}

// requireSection compares the mesh's section at z with the exact one.
func requireSection(t testing.TB, b *Body, m *Mesh, z, chord float64) {
	t.Helper()
	exact, err := b.Section(z)
	require.NoError(t, err)
	var loops []plane.Loop
	area, length := 0.0, 0.0
	for _, r := range exact {
		area += r.Area()
		for _, l := range r.Loops() {
			require.NoError(t, l.Check(1e-7))
			loops = append(loops, l)
			length += l.Length()
		}
	}
	drawn := slice(m, z)
	require.Len(t, drawn, len(loops), "loops at z = %g", z)
	got := 0.0
	// Steep or not, a surface may leave its place by chord; seen at one height
	// that is as far as the exact section moves over that height.
	slack := chord * (1 + 1.0/32)
	for i := range b.Walls {
		if w := &b.Walls[i]; w.Foot.Round || w.Head.Round {
			slack += math.Abs(w.shiftAt(math.Min(w.High, z+2*chord)) - w.shiftAt(math.Max(w.Low, z-2*chord)))
		}
	}
	for _, c := range b.Channels {
		for _, s := range c.Steps {
			slack += math.Abs(s.halfWidth(z-c.Z+2*chord)-s.halfWidth(z-c.Z)) + math.Abs(s.halfWidth(z-c.Z-2*chord)-s.halfWidth(z-c.Z))
		}
	}
	near := make([]loopFinder, len(loops))
	for i, l := range loops {
		near[i] = newLoopFinder(l)
	}
	for _, p := range drawn {
		got += turnOf(p) / 2
		const most = 301 // points that are looked at
		for i := 0; i < len(p); i += 1 + len(p)/most {
			a := p[i]
			mid := a.Add(p[(i+1)%len(p)]).Mul(0.5)
			for _, q := range []plane.Vec{a, mid} {
				d := 1e3
				for _, l := range near {
					d = l.distance(q, d)
				}
				if d > slack && d < 4*slack && nearSurfaces(t, b, q, z, slack) {
					continue
				}
				require.LessOrEqual(t, d, slack, "at (%g, %g, %g)", q.X, q.Y, z)
			}
		}
	}
	require.InDelta(t, area, got, slack*length)
}

// nearSurfaces reports whether q lies within slack both of a wall at z, channels
// left aside, and of the side of a channel. Where the two meet at a sharp angle
// (30 degrees or more) the rim between them moves by up to four times as much as
// either.
func nearSurfaces(t testing.TB, b *Body, q plane.Vec, z, slack float64) bool {
	side := false
	for _, c := range b.Channels {
		p := q.Turn(-c.Angle)
		for _, s := range c.Steps {
			side = side || math.Abs(math.Abs(p.Y)-s.halfWidth(z-c.Z)) < slack
		}
	}
	exact, err := (&Body{Walls: b.Walls}).Section(z)
	require.NoError(t, err)
	for _, r := range exact {
		for _, l := range r.Loops() {
			f := newLoopFinder(l)
			if side && f.distance(q, 2*slack) < slack {
				return true
			}
		}
	}
	return false
}

// loopFinder finds the distance of points from a loop.
type loopFinder struct {
	loop  plane.Loop
	boxes []plane.Box
	start float64 // polar angle of the unit's middle
}

func newLoopFinder(l plane.Loop) loopFinder {
	n := loopFinder{loop: l, start: l.Unit[len(l.Unit)/2].At(0.5).Sub(l.Centre).Angle()}
	for _, p := range l.Unit {
		n.boxes = append(n.boxes, p.Box())
	}
	return n
}

// distance returns the distance of q from the loop if that is below limit.
func (n *loopFinder) distance(q plane.Vec, limit float64) float64 {
	turns := []int{0}
	step := 0.0
	if n.loop.Turns() > 1 { // the unit that faces q, and its neighbours
		step = 2 * math.Pi / float64(n.loop.Fold)
		k := int(math.Round((q.Sub(n.loop.Centre).Angle() - n.start) / step))
		turns = []int{k, k - 1, k + 1}
	}
	for _, k := range turns {
		p := q
		if k != 0 {
			p = n.loop.Centre.Add(q.Sub(n.loop.Centre).Turn(-step * float64(k)))
		}
		for i, piece := range n.loop.Unit {
			if n.boxes[i].Meets(plane.Box{Min: p, Max: p}.Grow(limit)) {
				limit = math.Min(limit, plane.PieceDistance(piece, p))
			}
		}
	}
	return limit
}

// slice returns the closed polygons in which the plane at z cuts the mesh; no
// vertex lies at z. The material lies on their left.
func slice(m *Mesh, z float64) [][]plane.Vec {
	type edge [2]int32
	key := func(a, b int32) edge { return edge{min(a, b), max(a, b)} }
	next := map[edge]edge{}
	var order []edge
	for _, f := range m.Facets {
		var up, down edge
		n := 0
		for i := range 3 {
			a, b := f[i], f[(i+1)%3]
			switch lo, hi := m.Vertices[a].Z < z, m.Vertices[b].Z < z; {
			case lo && !hi:
				up, n = key(a, b), n+1
			case !lo && hi:
				down, n = key(a, b), n+1
			}
		}
		if n == 2 {
			next[down] = up
			order = append(order, down)
		}
	}
	at := func(e edge) plane.Vec {
		a, b := m.Vertices[e[0]], m.Vertices[e[1]]
		k := (z - a.Z) / (b.Z - a.Z)
		return plane.Vec{X: a.X + k*(b.X-a.X), Y: a.Y + k*(b.Y-a.Y)}
	}
	var out [][]plane.Vec
	done := map[edge]bool{}
	for _, e := range order {
		var p []plane.Vec
		for k := e; !done[k]; k = next[k] {
			done[k] = true
			p = append(p, at(k))
		}
		if len(p) > 0 {
			out = append(out, p)
		}
	}
	return out
}

func TestPinionWithHub(t *testing.T) {
	for _, chord := range []float64{0.02, 0.005, 0.0005} {
		m := requireBody(t, hubPinion(), chord)
		require.Equal(t, 2-2*3, m.Check().Euler) // the bore, and the channel before and behind the slot
		if chord == 0.005 {
			render(t, "pinion", m, 0.5, 0.7)
			render(t, "pinion-under", m, 0.5, -0.7)
		}
	}
}

func TestRingWithCountersunkHoles(t *testing.T) {
	for _, b := range []*Body{boltRing(104), stepRing(60)} {
		m := requireBody(t, b, 0.005)
		require.Equal(t, 2-2*25, m.Check().Euler)
		render(t, fmt.Sprintf("ring-%d", len(b.Walls)), m, 0.3, 0.9)
	}
}

func TestVolumeErrorFallsWithTheTolerance(t *testing.T) {
	for _, b := range []*Body{hubPinion(), boltRing(60)} {
		v, err := b.Volume()
		require.NoError(t, err)
		var off []float64
		for _, chord := range []float64{1e-2, 1e-3, 1e-4} {
			m, err := b.Mesh(chord)
			require.NoError(t, err)
			off = append(off, math.Abs(m.Volume()-v))
		}
		require.Less(t, off[1], off[0]/4)
		require.Less(t, off[2], off[1]/4)
	}
}

// drawBody returns a random body that can be made.
func drawBody(r *rand.Rand) (b *Body, genus int) {
	if r.IntN(4) == 0 {
		return drawRing(r)
	}
	return drawPinion(r)
}

func pick[T any](r *rand.Rand, of ...T) T { return of[r.IntN(len(of))] }

func between(r *rand.Rand, lo, hi float64) float64 { return lo + (hi-lo)*r.Float64() }

func drawRing(r *rand.Rand) (*Body, int) {
	z := pick(r, 60, 72, 104)
	b := boltRing(z)
	if r.IntN(2) == 0 {
		b = stepRing(z)
	}
	keep := len(b.Walls) - 24 + r.IntN(25)
	b.Walls = b.Walls[:keep]
	genus := 1
	for i := range b.Walls {
		w := &b.Walls[i]
		switch p := w.Loop.Unit[0].(type) {
		case plane.Arc:
			if p.R < 2 {
				genus++
				w.Head = pick(r, Edge{}, Edge{Height: between(r, 0.5, 2), Shift: -between(r, 0.5, 1.5)}, Chamfer(1))
			}
		}
		if w.High-w.Low > 10 && i < 2 {
			w.Foot, w.Head = pick(r, Edge{}, Chamfer(between(r, 0.1, 0.6))), pick(r, Edge{}, Chamfer(between(r, 0.1, 0.6)))
		}
	}
	if r.IntN(2) == 0 { // oil holes through the rim, blind or to the teeth's roots
		a := 2 * math.Pi * r.Float64()
		root := pairOf(2.5, 15, z).Ring.RootDiameter / 2
		outer := root + 10
		b.Channels = append(b.Channels, Channel{Angle: a, Z: 5, Steps: []Step{{Radius: 1, To: outer - 2}}})
	}
	return b, genus
}

func drawPinion(r *rand.Rand) (*Body, int) {
	z, module := 12+r.IntN(10), pick(r, 2.0, 2.5, 3)
	p := pairOf(module, z, 104).Pinion
	face := between(r, 8, 16)
	b := &Body{Walls: []Wall{{Loop: p.Outline().Map(plane.Turned(r.Float64())), High: face, Foot: pick(r, Edge{}, Chamfer(between(r, 0.1, 0.5))), Head: pick(r, Edge{}, Chamfer(between(r, 0.1, 0.5)))}}}
	hub, hubTop := p.RootDiameter/2-1.5, face+between(r, 9, 14)
	hubWall := Wall{Loop: plane.CircleLoop(plane.Vec{}, hub), Low: face, High: hubTop, Head: pick(r, Edge{}, Chamfer(0.5), Edge{Height: 0.8, Shift: -0.8, Round: true})}
	hubWall.Foot = pick(r, Edge{}, Edge{Height: 0.7, Shift: 0.7}, Edge{Height: 0.7, Shift: 0.7, Round: true})
	b.Walls = append(b.Walls, hubWall)
	genus := 1
	angle := 2 * math.Pi * r.Float64()
	bore := Wall{High: hubTop, Foot: pick(r, Edge{}, Chamfer(0.3)), Head: pick(r, Edge{}, Chamfer(0.3), Chamfer(0.1))}
	radius := between(r, 2.4, 3.1)
	switch r.IntN(5) {
	case 0:
		bore.Loop = hole(plane.Vec{}, radius)
	case 1, 2:
		bore.Loop = dBore(radius, radius*between(r, 0.75, 0.9), angle)
	case 3:
		bore.Loop = keyedBore(radius, 2, radius+1, angle+math.Pi)
	case 4:
		bore.Loop = polygonBore(6, radius*0.9, angle+math.Pi/6)
	}
	if r.IntN(4) == 0 { // blind, from above
		bore.Low, bore.Foot, genus = 2, Edge{}, 0
	}
	b.Walls = append(b.Walls, bore)
	if r.IntN(3) == 0 {
		b.Walls = append(b.Walls, Wall{Loop: hole(plane.Vec{}, radius+1.5), Low: -2, High: 0}, Wall{Loop: plane.CircleLoop(plane.Vec{}, hub), Low: -2, High: 0})
	}
	return drawScrews(r, b, genus, hub, face, hubTop, angle)
}

// drawScrews adds set screws to a pinion: around the hub, at one height or two.
func drawScrews(r *rand.Rand, b *Body, genus int, hub, face, top, angle float64) (*Body, int) {
	radius := between(r, 0.8, 1.4)
	height := face + 1 + between(r, 1.9, 2.5)*1.5
	for k := range r.IntN(4) {
		crown := pick(r, 0, radius, 1.2*radius, Ridge(radius), -Ridge(radius), -radius)
		c := Channel{Angle: angle + 2*math.Pi*float64(k)/3, Z: height, Steps: []Step{{Radius: radius, Crown: crown}}}
		genus++
		switch r.IntN(4) {
		case 0:
			c.Steps = []Step{{Radius: radius * 1.5, To: hub - 2}, c.Steps[0]}
			c.Z += 0.1
		case 1:
			b.Walls = append(b.Walls, Wall{Loop: slot(hub-4, hub-2, 3.2*radius, c.Angle), Low: height - 1.7*radius, High: top})
			genus++
		case 2:
			c.Steps[0].To = hub - 1.5
			genus--
		}
		b.Channels = append(b.Channels, c)
	}
	if r.IntN(3) == 0 { // an oil hole through a tooth or a space, under the first screw
		b.Channels = append(b.Channels, Channel{Angle: angle, Z: face / 2, Steps: []Step{{Radius: 0.4, Crown: pick(r, 0, Ridge(0.4))}}})
		genus++
	}
	return b, genus
}

func TestRandomBodies(t *testing.T) {
	n := 40
	if os.Getenv("RINGTRACK_SLOW") != "" {
		n = 500
	}
	made, refused := 0, map[ChannelKind]int{}
	for seed := uint64(1); made < n; seed++ {
		r := rand.New(rand.NewPCG(seed, 5))
		b, genus := drawBody(r)
		chord := pick(r, 0.02, 0.01, 0.005, 0.002)
		t.Run(fmt.Sprint(seed), func(t *testing.T) {
			_, err := b.Mesh(chord)
			var c *ChannelError
			if errors.As(err, &c) { // an oil hole may meet a flank that leans over it
				refused[c.Kind]++
				return
			}
			require.NoError(t, err)
			made++
			m := requireBody(t, b, chord)
			require.Equal(t, 2-2*genus, m.Check().Euler)
			render(t, fmt.Sprintf("random-%d", seed), m, 0.5, 0.7)
		})
		if t.Failed() && made < n {
			made++
		}
	}
	t.Logf("%d bodies, refused: %v", made, refused)
}
