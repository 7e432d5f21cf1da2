package solid

import "fmt"

// ProblemKind is what is wrong with a mesh.
type ProblemKind int

// The kinds of Problem.
const (
	BadIndex      ProblemKind = iota // a facet names a vertex that does not exist
	NotFinite                        // a vertex has a coordinate that is no number
	Unused                           // no facet names the vertex
	ZeroArea                         // the facet's corners lie on one line, exactly
	OpenEdge                         // an edge is used by one facet only
	ReusedEdge                       // an edge is used twice in one direction, or by more than two facets
	PinchedVertex                    // surfaces touch in a vertex that they share
	InsideOut                        // the mesh is closed but encloses no positive volume
)

// Problem is one thing wrong with a mesh. Facet and Vertex are -1 where they
// do not apply.
type Problem struct {
	Kind   ProblemKind
	Facet  int
	Vertex int
	At     Point3
}

// Error says it in one sentence.
func (p Problem) Error() string {
	at := fmt.Sprintf("at (%.6g, %.6g, %.6g)", p.At.X, p.At.Y, p.At.Z)
	switch p.Kind {
	case BadIndex:
		return fmt.Sprintf("facet %d names a vertex that does not exist", p.Facet)
	case NotFinite:
		return fmt.Sprintf("vertex %d is not finite", p.Vertex)
	case Unused:
		return fmt.Sprintf("vertex %d belongs to no facet", p.Vertex)
	case ZeroArea:
		return fmt.Sprintf("facet %d has no area, %s", p.Facet, at)
	case OpenEdge:
		return fmt.Sprintf("facet %d has an open edge %s", p.Facet, at)
	case ReusedEdge:
		return fmt.Sprintf("facet %d shares an edge with more than one other, %s", p.Facet, at)
	case PinchedVertex:
		return fmt.Sprintf("surfaces touch in vertex %d %s", p.Vertex, at)
	}
	return "the mesh encloses no positive volume: it is inside out or flat"
}

// Report is the answer of Check.
type Report struct {
	Vertices, Edges, Facets int // vertices that facets use; edges in either direction are one
	Shells                  int // parts that hang together over edges
	Euler                   int // Vertices - Edges + Facets: 2 a shell, less 2 a through hole
	Problems                []Problem
}

// Err returns nil for a sound mesh, otherwise an error that names the first
// problem and says how many there are.
func (r Report) Err() error {
	switch n := len(r.Problems); n {
	case 0:
		return nil
	case 1:
		return r.Problems[0]
	default:
		return fmt.Errorf("%w (and %d more)", r.Problems[0], n-1)
	}
}

// Check looks at the whole mesh and returns everything wrong with it: each
// directed edge must be used once and its reverse once, each facet must have an
// area (decided exactly), each vertex must be finite, used, and surrounded by
// one ring of facets, and the volume must be positive. A mesh with bad indices
// is looked at no further. It takes O(n).
func (m *Mesh) Check() Report {
	r := Report{Facets: len(m.Facets)}
	if r.Problems = m.badIndices(); len(r.Problems) > 0 {
		return r
	}
	r.Problems = append(r.Problems, m.badPoints()...)
	twin, again := twins(m.Facets)
	reused := make(map[int32]bool, len(again))
	for _, h := range again {
		reused[h] = true
		r.Problems = append(r.Problems, m.at(ReusedEdge, h))
	}
	paired := 0
	for h, t := range twin {
		switch {
		case t >= 0:
			paired++
		case !reused[int32(h)]:
			r.Problems = append(r.Problems, m.at(OpenEdge, int32(h)))
		}
	}
	r.Edges = paired/2 + len(twin) - paired
	r.Shells = shells(twin)
	pinched := m.rings(&r, twin)
	r.Euler = r.Vertices - r.Edges + r.Facets
	if paired == len(twin) {
		r.Problems = append(r.Problems, pinched...)
		if len(m.Facets) == 0 || m.Volume() <= 0 {
			r.Problems = append(r.Problems, Problem{Kind: InsideOut, Facet: -1, Vertex: -1})
		}
	}
	return r
}

func (m *Mesh) at(k ProblemKind, h int32) Problem {
	v := start(m.Facets, h)
	return Problem{k, int(h / 3), int(v), m.Vertices[v]}
}

func (m *Mesh) badIndices() (out []Problem) {
	n := int64(len(m.Vertices))
	for f, c := range m.Facets {
		for _, v := range c {
			if v < 0 || int64(v) >= n {
				out = append(out, Problem{Kind: BadIndex, Facet: f, Vertex: int(v)})
				break
			}
		}
	}
	return out
}

// badPoints returns vertices that are not finite and facets without area.
func (m *Mesh) badPoints() (out []Problem) {
	for i, v := range m.Vertices {
		if !v.finite() {
			out = append(out, Problem{NotFinite, -1, i, v})
		}
	}
	for f, c := range m.Facets {
		a, b, d := m.Vertices[c[0]], m.Vertices[c[1]], m.Vertices[c[2]]
		if a.finite() && b.finite() && d.finite() && collinear(a, b, d) {
			out = append(out, Problem{ZeroArea, f, int(c[0]), a})
		}
	}
	return out
}

// shells counts the parts that hang together over paired half-edges.
func shells(twin []int32) int {
	seen := make([]bool, len(twin)/3)
	var stack []int32
	n := 0
	for f := range seen {
		if seen[f] {
			continue
		}
		n++
		seen[f] = true
		stack = append(stack[:0], int32(f))
		for len(stack) > 0 {
			g := stack[len(stack)-1]
			stack = stack[:len(stack)-1]
			for i := range int32(3) {
				if t := twin[3*g+i]; t >= 0 && !seen[t/3] {
					seen[t/3] = true
					stack = append(stack, t/3)
				}
			}
		}
	}
	return n
}

// rings counts the used vertices into r, reports unused ones there, and returns
// the vertices around which the facets form more than one ring.
func (m *Mesh) rings(r *Report, twin []int32) (pinched []Problem) {
	seen := make([]bool, len(twin))
	count := make([]int32, len(m.Vertices))
	for h := range twin {
		if seen[h] {
			continue
		}
		v := start(m.Facets, int32(h))
		count[v]++
		for k := int32(h); k >= 0 && !seen[k]; {
			seen[k] = true
			if k = twin[k]; k >= 0 {
				k = nextHalf(k)
			}
		}
	}
	for v, n := range count {
		switch {
		case n == 0:
			r.Problems = append(r.Problems, Problem{Unused, -1, v, m.Vertices[v]})
			continue
		case n > 1:
			pinched = append(pinched, Problem{PinchedVertex, -1, v, m.Vertices[v]})
		}
		r.Vertices++
	}
	return pinched
}
