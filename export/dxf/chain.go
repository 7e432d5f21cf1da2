package dxf

import (
	"fmt"
	"math"

	"ringtrack/export/figure"
	"ringtrack/gear/plane"
)

// joiner finds, for every end of a chain, the one other end that lies within
// tol of it. Ends are kept in square cells so small that two ends in one cell
// are always within tol: a third end in a cell is a branch, and no search is
// long, whatever the file holds.
type joiner struct {
	chains []chain
	tol    float64
	cell   float64
	grid   map[[2]int64][2]int32 // ends in the cell, one more than their number; 0 none
}

// end e belongs to chain e/2: its start when e is even, else its end.
func (j *joiner) at(e int32) plane.Vec {
	c := j.chains[e/2].pieces
	if e%2 == 0 {
		return c[0].At(0)
	}
	return c[len(c)-1].At(1)
}

// join chains open chains into closed outlines by ends within tol mm, each
// outline in the direction of its first chain in the file. A chain of one
// piece no longer than tol is left out.
func join(chains []chain, tol float64) ([]figure.Outline, error) {
	j := &joiner{tol: tol, cell: tol / 1.5, grid: map[[2]int64][2]int32{}}
	for _, c := range chains {
		if p := c.pieces[0]; len(c.pieces) > 1 || p.Box().Size().Len() > tol {
			j.chains = append(j.chains, c)
		}
	}
	for e := range int32(2 * len(j.chains)) {
		if err := j.put(e); err != nil {
			return nil, err
		}
	}
	used := make([]bool, len(j.chains))
	var out []figure.Outline
	for i := range j.chains {
		if used[i] {
			continue
		}
		o, err := j.follow(int32(i), used)
		if err != nil {
			return nil, err
		}
		out = append(out, o)
	}
	return out, nil
}

func (j *joiner) key(p plane.Vec) [2]int64 {
	return [2]int64{int64(math.Floor(p.X / j.cell)), int64(math.Floor(p.Y / j.cell))}
}

func (j *joiner) put(e int32) error {
	k := j.key(j.at(e))
	c := j.grid[k]
	switch {
	case c[0] == 0:
		c[0] = e + 1
	case c[1] == 0:
		c[1] = e + 1
	default:
		return j.branch(e)
	}
	j.grid[k] = c
	return nil
}

func (j *joiner) branch(e int32) error {
	p := j.at(e)
	return &Error{j.chains[e/2].line, fmt.Sprintf("more than two ends meet at (%.6g, %.6g); an outline drawn twice, or one that branches", p.X, p.Y)}
}

// partner returns the other end at e's place.
func (j *joiner) partner(e int32) (int32, error) {
	p := j.at(e)
	lo := j.key(plane.Vec{X: p.X - j.tol, Y: p.Y - j.tol})
	hi := j.key(plane.Vec{X: p.X + j.tol, Y: p.Y + j.tol})
	found := int32(-1)
	for x := lo[0]; x <= hi[0]; x++ {
		for y := lo[1]; y <= hi[1]; y++ {
			for _, o := range j.grid[[2]int64{x, y}] {
				if o == 0 || o-1 == e || j.at(o-1).Sub(p).Len() > j.tol {
					continue
				}
				if found >= 0 {
					return 0, j.branch(e)
				}
				found = o - 1
			}
		}
	}
	if found < 0 {
		return 0, &Error{j.chains[e/2].line, fmt.Sprintf("the outline is open: nothing within %g mm of its end at (%.6g, %.6g)", j.tol, p.X, p.Y)}
	}
	return found, nil
}

// follow walks from the end of chain first until it is back at its start.
func (j *joiner) follow(first int32, used []bool) (figure.Outline, error) {
	c := j.chains[first]
	o := figure.Outline{Layer: figure.Layer(c.layer), Line: c.line}
	pieces := append([]plane.Piece(nil), c.pieces...)
	used[first] = true
	for e := 2*first + 1; ; {
		next, err := j.partner(e)
		if err != nil {
			return o, err
		}
		if next == 2*first {
			break
		}
		if used[next/2] {
			return o, j.branch(e)
		}
		used[next/2] = true
		pieces = append(pieces, directed(j.chains[next/2].pieces, next%2 == 1)...)
		e = next ^ 1
	}
	loop, err := figure.Close(pieces, j.tol)
	if err != nil {
		return o, &Error{c.line, err.Error()}
	}
	o.Loop = loop
	return o, nil
}

// directed returns the pieces, backwards on request.
func directed(pieces []plane.Piece, backwards bool) []plane.Piece {
	if !backwards {
		return pieces
	}
	out := make([]plane.Piece, len(pieces))
	for i, p := range pieces {
		out[len(out)-1-i] = p.Reverse()
	}
	return out
}
