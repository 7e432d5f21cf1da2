package solid

// Half-edge 3f+i is the side of facet f from its corner i to the next.

// nextHalf returns the following side of the same facet.
func nextHalf(h int32) int32 {
	if h%3 == 2 {
		return h - 2
	}
	return h + 1
}

// start returns the corner at which half-edge h starts.
func start(f [][3]int32, h int32) int32 { return f[h/3][h%3] }

// twins pairs the half-edges: twin[h] is the one half-edge that runs against
// h, or -1. again lists those whose edge was already used in that direction or
// paired; they stay unpaired.
func twins(f [][3]int32) (twin, again []int32) {
	n := 3 * len(f)
	bits := 4
	for 1<<bits < n+n/2 {
		bits++
	}
	first := make([]int32, 1<<bits) // half-edge + 1 of each edge, open addressing
	twin = make([]int32, n)
	mask := uint32(1<<bits - 1)
	for h := range int32(n) {
		twin[h] = -1
		a, b := start(f, h), start(f, nextHalf(h))
		for at := edgeHash(a, b) >> (32 - bits); ; at = (at + 1) & mask {
			g := first[at] - 1
			if g < 0 {
				first[at] = h + 1
				break
			}
			c, d := start(f, g), start(f, nextHalf(g))
			if a == d && b == c && twin[g] < 0 {
				twin[g], twin[h] = h, g
				break
			}
			if (a == d && b == c) || (a == c && b == d) {
				again = append(again, h)
				break
			}
		}
	}
	return twin, again
}

// edgeHash mixes the two ends of an edge, in either order, into 32 bits.
func edgeHash(a, b int32) uint32 {
	if a > b {
		a, b = b, a
	}
	k := (uint64(uint32(a))<<32 | uint64(uint32(b))) * 0x9E3779B97F4A7C15
	return uint32((k ^ k>>29) * 0xBF58476D1CE4E5B9 >> 32)
}

// flip turns the edge of half-edge h within the quadrilateral of its two
// facets: facet (a, b, c) with side ab and facet (b, a, d) become (a, d, c)
// and (d, b, c). It returns the four outer half-edges in their new places. The
// edge must have a twin; unpaired outer edges stay so.
func flip(f [][3]int32, twin []int32, h int32) [4]int32 {
	g := twin[h]
	h1, g1 := nextHalf(h), nextHalf(g)
	h2, g2 := nextHalf(h1), nextHalf(g1)
	c, d := start(f, h2), start(f, g2)
	// h's facet keeps sides h2 (ca); g's keeps g2 (db). The new edge is h1: dc
	// within (a, d, c), and g1: cd within (b, c, d).
	tbc, tad := twin[h1], twin[g1]
	f[h1/3][h1%3] = d
	f[g1/3][g1%3] = c
	pair(twin, h, tad)
	pair(twin, g, tbc)
	twin[h1], twin[g1] = g1, h1
	return [4]int32{h, h2, g, g2}
}

func pair(twin []int32, h, t int32) {
	twin[h] = t
	if t >= 0 {
		twin[t] = h
	}
}
