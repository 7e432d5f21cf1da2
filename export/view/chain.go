package view

import "ringtrack/gear/solid"

// An end of edge e is the number 2e where it starts and 2e+1 where it ends;
// end^1 is the other end of the same edge.

// chain is edges in a row, each by the end that comes first.
type chain struct {
	ends   []int32
	closed bool
}

// straightOn is the least cosine between two edges, seen as a way on, that are
// joined where three or more meet: that of 40 degrees.
const straightOn = 0.766

// mostJoined is how many edges may meet in a point and still be joined.
const mostJoined = 16

// chains joins the edges into rows: every edge is in one of them, once.
func (s *scene) chains(edges []edge) []chain {
	link := s.links(edges)
	used := make([]bool, len(edges))
	var out []chain
	walk := func(from int32) {
		c := chain{}
		at := from
		for !used[at/2] {
			used[at/2] = true
			c.ends = append(c.ends, at)
			if at = link[at^1]; at < 0 {
				break
			}
		}
		c.closed = at == from
		out = append(out, c)
	}
	for end := range int32(2 * len(edges)) {
		if link[end] < 0 && !used[end/2] {
			walk(end)
		}
	}
	for e := range int32(len(edges)) {
		if !used[e] {
			walk(2 * e)
		}
	}
	return out
}

// links returns, for each end of an edge, the end that it is joined to, or -1.
func (s *scene) links(edges []edge) []int32 {
	link := make([]int32, 2*len(edges))
	first := make([]int32, len(s.at)+1)
	for i := range link {
		link[i] = -1
		first[vertex(edges, int32(i))+1]++
	}
	for i := range s.at {
		first[i+1] += first[i]
	}
	meet, next := make([]int32, len(link)), append([]int32(nil), first...)
	for i := range link {
		v := vertex(edges, int32(i))
		meet[next[v]] = int32(i)
		next[v]++
	}
	for v := range s.at {
		switch here := meet[first[v]:first[v+1]]; {
		case len(here) == 2:
			link[here[0]], link[here[1]] = here[1], here[0]
		case len(here) > 2 && len(here) <= mostJoined:
			s.straightest(edges, here, link)
		}
	}
	return link
}

func vertex(edges []edge, end int32) int32 {
	if end%2 == 0 {
		return edges[end/2].a
	}
	return edges[end/2].b
}

// straightest joins the ends that meet in a point, two by two, those first that
// go straightest on.
func (s *scene) straightest(edges []edge, here, link []int32) {
	var away [mostJoined]solid.Point3 // directions along the edges
	for i, end := range here {
		d := s.at[vertex(edges, end^1)].Sub(s.at[vertex(edges, end)])
		if l := d.Len(); l > 0 {
			d = d.Mul(1 / l)
		}
		away[i] = d
	}
	for {
		best, p, q := straightOn, int32(-1), int32(-1)
		for i, a := range here {
			for j, b := range here[:i] {
				if on := -away[i].Dot(away[j]); on > best && link[a] < 0 && link[b] < 0 {
					best, p, q = on, a, b
				}
			}
		}
		if p < 0 {
			return
		}
		link[p], link[q] = q, p
	}
}
