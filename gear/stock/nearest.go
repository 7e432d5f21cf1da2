package stock

import "strings"

// longestWord is the longest word, in bytes, that Nearest looks at: no name of
// ours comes near it, and the work grows with the length.
const longestWord = 64

// Nearest returns the entry of among that word was probably meant to be, and
// whether one is near enough: at most a third of the word's letters (at least
// one) are wrong, missing, superfluous or swapped with a neighbour. Case does
// not count, and "-", "_" and blanks are the same. Of equally near entries the
// first one wins.
//
// Method: edit distance with adjacent swaps (optimal string alignment).
func Nearest(word string, among []string) (string, bool) {
	if len(word) > longestWord {
		return "", false
	}
	w := fold(word)
	best, least := "", max(1, len(w)/3)+1
	for _, name := range among {
		n := fold(name)
		if gap := len(n) - len(w); gap >= least || -gap >= least {
			continue
		}
		if d := distance(w, n); d < least {
			best, least = name, d
		}
	}
	return best, best != ""
}

// fold makes spellings that differ only in case or joining marks the same.
func fold(s string) string {
	return strings.NewReplacer("-", "_", " ", "_").Replace(strings.ToLower(s))
}

// distance counts the single-letter edits and neighbour swaps from a to b.
func distance(a, b string) int {
	before, last, row := make([]int, len(b)+1), make([]int, len(b)+1), make([]int, len(b)+1)
	for k := range last {
		last[k] = k
	}
	for i := 1; i <= len(a); i++ {
		row[0] = i
		for k := 1; k <= len(b); k++ {
			cost := 1
			if a[i-1] == b[k-1] {
				cost = 0
			}
			row[k] = min(last[k]+1, row[k-1]+1, last[k-1]+cost)
			if i > 1 && k > 1 && a[i-1] == b[k-2] && a[i-2] == b[k-1] {
				row[k] = min(row[k], before[k-2]+1)
			}
		}
		before, last, row = last, row, before
	}
	return last[len(b)]
}
