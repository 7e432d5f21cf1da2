package sheet

import (
	"fmt"
	"strings"
)

// Paper is a size of paper, upright.
type Paper struct {
	Name          string
	Width, Height float64 // mm
}

// Papers returns the sizes that printers at home and in offices take: A4 and A3
// of ISO 216; letter 8.5 by 11 in and tabloid 11 by 17 in (ANSI Y14.1, from
// memory).
func Papers() []Paper {
	return []Paper{{"a4", 210, 297}, {"a3", 297, 420}, {"letter", 215.9, 279.4}, {"tabloid", 279.4, 431.8}}
}

// FindPaper returns the paper of that name.
//
// Errors: an unknown name; the message lists those that there are.
func FindPaper(name string) (Paper, error) {
	var names []string
	for _, p := range Papers() {
		if p.Name == name {
			return p, nil
		}
		names = append(names, p.Name)
	}
	return Paper{}, fmt.Errorf("sheet: paper %q; there are %s", name, strings.Join(names, ", "))
}

// across returns the paper turned by a quarter.
func (p Paper) across() Paper { return Paper{p.Name, p.Height, p.Width} }
