package solid

// index notes a half-edge for each point.
func (f *fabric) index() {
	f.half = make([]int32, len(f.pts))
	for h := range int32(len(f.twin)) {
		f.half[start(f.tris, h)] = h
	}
}

// edge returns the half-edge from a to b, or -1. a is not an outer point.
func (f *fabric) edge(a, b int32) int32 {
	for k := f.half[a]; ; {
		if start(f.tris, nextHalf(k)) == b {
			return k
		}
		k = nextHalf(f.twin[k])
		if k == f.half[a] {
			return -1
		}
	}
}

// constrain makes the edge from u to v part of the triangulation. No point lies
// on it, and it crosses no edge that was made so before. It reports whether this
// could be done, which these two conditions ensure.
//
// Method: the triangles that the edge crosses are taken out, and the hollows
// left on its two sides cut into triangles anew.
func (f *fabric) constrain(u, v int32) bool {
	if f.edge(u, v) >= 0 {
		return true
	}
	left, right, gone := f.crossed(u, v)
	fresh := f.fill(make([][3]int32, 0, len(gone)), left, -1)
	fresh = f.fill(fresh, right, 1)
	if len(fresh) != len(gone) {
		return false
	}
	f.sew(gone, fresh)
	return true
}

// crossed returns what the edge from u to v crosses: the points next to it on
// its left and on its right, both from u to v, and the triangles.
func (f *fabric) crossed(u, v int32) (left, right, gone []int32) {
	k := f.half[u]
	ahead := func() bool {
		h := nextHalf(k)
		return f.turn(u, v, start(f.tris, h)) < 0 && f.turn(u, v, start(f.tris, nextHalf(h))) > 0
	}
	for !ahead() {
		k = nextHalf(f.twin[k])
	}
	h := nextHalf(k)
	left = []int32{u, start(f.tris, nextHalf(h))}
	right = []int32{u, start(f.tris, h)}
	gone = []int32{h / 3}
	for {
		// h runs from right to left in the triangle nearer to u.
		g := f.twin[h]
		gone = append(gone, g/3)
		d := start(f.tris, nextHalf(nextHalf(g)))
		switch {
		case d == v:
			return append(left, v), append(right, v), gone
		case f.turn(u, v, d) < 0:
			right = append(right, d)
			h = nextHalf(nextHalf(g)) // from d to the left end
		default:
			left = append(left, d)
			h = nextHalf(g) // from the right end to d
		}
	}
}

// fill adds the triangles between a chain and the straight edge from its first
// point to its last, which lies on the chain's right (side -1) or left (+1).
//
// Method: corners that bulge away from the edge are cut off from the first on
// (Graham). That is sound because every point of the chain sees the edge.
func (f *fabric) fill(tris [][3]int32, chain []int32, side int) [][3]int32 {
	stack := make([]int32, 0, len(chain))
	for _, c := range chain {
		for n := len(stack); n >= 2 && f.turn(stack[n-2], stack[n-1], c) == side; n = len(stack) {
			a, b := stack[n-2], stack[n-1]
			if side < 0 {
				tris = append(tris, [3]int32{a, c, b})
			} else {
				tris = append(tris, [3]int32{a, b, c})
			}
			stack = stack[:n-1]
		}
		stack = append(stack, c)
	}
	return tris
}

// sew puts fresh triangles in the place of as many that are gone and pairs
// their half-edges with each other and with those around.
func (f *fabric) sew(gone []int32, fresh [][3]int32) {
	open := make(map[[2]int32]int32, 4*len(gone)) // half-edges by start and end
	lost := make(map[int32]bool, len(gone))
	for _, t := range gone {
		lost[t] = true
	}
	for _, t := range gone {
		for h := 3 * t; h < 3*t+3; h++ {
			if g := f.twin[h]; g >= 0 && !lost[g/3] {
				open[[2]int32{start(f.tris, g), start(f.tris, nextHalf(g))}] = g
			}
		}
	}
	for i, t := range gone {
		f.tris[t] = fresh[i]
		for h := 3 * t; h < 3*t+3; h++ {
			a, b := start(f.tris, h), start(f.tris, nextHalf(h))
			f.half[a] = h
			f.twin[h] = -1
			if g, ok := open[[2]int32{b, a}]; ok {
				f.twin[h], f.twin[g] = g, h
			} else {
				open[[2]int32{a, b}] = h
			}
		}
	}
}

func (f *fabric) turn(a, b, c int32) int { return orient(f.pts[a], f.pts[b], f.pts[c]) }

// within returns the triangles on the left of the closed chains that next
// describes, edges from i to next[i], all part of the triangulation; twin pairs
// their half-edges among themselves.
func (f *fabric) within(next []int32) (tris [][3]int32, twin []int32) {
	border := make([]bool, len(f.twin))
	number := make([]int32, len(f.tris)) // in the result, + 1
	var stack []int32
	reach := func(t int32) {
		if number[t] == 0 {
			tris = append(tris, f.tris[t])
			number[t] = int32(len(tris))
			stack = append(stack, t)
		}
	}
	tris = make([][3]int32, 0, len(f.tris))
	starts := make([]int32, len(next))
	for i, n := range next {
		h := f.edge(int32(i), n)
		border[h] = true
		starts[i] = h / 3
	}
	for _, t := range starts {
		reach(t)
		for len(stack) > 0 {
			t := stack[len(stack)-1]
			stack = stack[:len(stack)-1]
			for h := 3 * t; h < 3*t+3; h++ {
				if !border[h] && f.twin[h] >= 0 {
					reach(f.twin[h] / 3)
				}
			}
		}
	}
	return tris, f.renumbered(border, number, len(tris))
}

// renumbered returns the twins among the n triangles that have a number.
func (f *fabric) renumbered(border []bool, number []int32, n int) []int32 {
	twin := make([]int32, 3*n)
	for h, g := range f.twin {
		k := number[h/3] - 1
		if k < 0 {
			continue
		}
		twin[3*k+int32(h%3)] = -1
		if g >= 0 && !border[h] {
			twin[3*k+int32(h%3)] = 3*(number[g/3]-1) + g%3
		}
	}
	return twin
}
