package fileset

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

// The files before and after: b is replaced by the same content, c goes, d is new.
var (
	earlier = map[string]string{"a": "old a", "b": "same b", "c": "old c"}
	later   = map[string]string{"a": "new a", "b": "same b", "d": "new d"}
)

// lay writes a set as if it had been built, with a report that lists it.
func lay(t *testing.T, dir string) {
	s := stageSet(t, dir, earlier)
	_, err := s.Commit()
	require.NoError(t, err)
}

func stageSet(t *testing.T, dir string, files map[string]string) *Set {
	s, err := Open(dir, nil, true)
	require.NoError(t, err)
	put := func(name, text string) {
		require.NoError(t, s.Write(Item{Name: name}, func(w io.Writer) error {
			_, err := io.WriteString(w, text)
			return err
		}))
	}
	list := ""
	for n, text := range files {
		put(n, text)
		if list != "" {
			list += ","
		}
		list += fmt.Sprintf(`{"file": %q, "sha256": %q}`, n, s.entries[n].SHA256)
	}
	put(ReportName, `{"tool": "ringtrack", "files": [`+list+`]}`)
	return s
}

// die leaves a set as a killed process does: all but the lock.
func die(s *Set) { s.release() }

// filesIn returns the files in a folder but for the report.
func filesIn(t *testing.T, dir string) map[string]string {
	out := map[string]string{}
	entries, err := os.ReadDir(dir)
	require.NoError(t, err)
	for _, e := range entries {
		if e.Name() == ReportName {
			continue
		}
		data, err := os.ReadFile(filepath.Join(dir, e.Name()))
		require.NoError(t, err)
		out[e.Name()] = string(data)
	}
	return out
}

// reopen does what the next build does first.
func reopen(t *testing.T, dir string) {
	s, err := Open(dir, nil, false)
	require.NoError(t, err)
	s.Discard()
}

// stopAfter carries out the first steps of a commit: every rename is one.
func (s *Set) stopAfter(t *testing.T, steps int) (done bool) {
	require.NoError(t, s.listNew())
	aside := filepath.Join(s.stage, asideName)
	require.NoError(t, os.Mkdir(aside, 0o777))
	step := func(from, to string) bool {
		if steps == 0 {
			return false
		}
		steps--
		require.NoError(t, os.Rename(from, to))
		return true
	}
	for n := range earlier {
		if !step(filepath.Join(s.dir, n), filepath.Join(aside, n)) {
			return false
		}
	}
	if !step(filepath.Join(s.dir, ReportName), filepath.Join(aside, ReportName)) {
		return false
	}
	for n := range s.entries {
		if !step(filepath.Join(s.stage, n), filepath.Join(s.dir, n)) {
			return false
		}
	}
	return step(aside, filepath.Join(s.stage, "done"))
}

// TestKilledInTheMove kills a commit after each of its renames; the next build
// finds the earlier files, or the later ones once all have moved.
func TestKilledInTheMove(t *testing.T) {
	for steps := 0; ; steps++ {
		dir := t.TempDir()
		lay(t, dir)
		s := stageSet(t, dir, later)
		done := s.stopAfter(t, steps)
		die(s)
		reopen(t, dir)
		if done {
			got := filesIn(t, dir)
			delete(got, "c") // goes with the next build, or stays: it is listed no more
			require.Equal(t, later, got)
			require.Equal(t, len(earlier)+len(later)+3, steps)
			return
		}
		require.Equal(t, earlier, filesIn(t, dir), "after %d renames", steps)
	}
}

// TestKilledInTheUndo kills the undoing, too, at each of its steps.
func TestKilledInTheUndo(t *testing.T) {
	for undone := range len(earlier) + 2 {
		dir := t.TempDir()
		lay(t, dir)
		s := stageSet(t, dir, later)
		s.stopAfter(t, len(earlier)+len(later)+2) // all moved, none of it final
		die(s)
		aside := filepath.Join(s.stage, asideName)
		entries, err := os.ReadDir(aside)
		require.NoError(t, err)
		for _, e := range entries[:min(undone, len(entries))] {
			require.NoError(t, os.Rename(filepath.Join(aside, e.Name()), filepath.Join(dir, e.Name())))
		}
		reopen(t, dir)
		require.Equal(t, earlier, filesIn(t, dir), "after %d steps back", undone)
	}
}

// TestFailingWriter wants a file that cannot be written to end the set, with the
// folder as it was.
func TestFailingWriter(t *testing.T) {
	dir := t.TempDir()
	lay(t, dir)
	s, err := Open(dir, nil, false)
	require.NoError(t, err)
	err = s.Write(Item{Name: "a"}, func(w io.Writer) error {
		_, _ = io.WriteString(w, "half")
		return io.ErrShortWrite
	})
	require.ErrorIs(t, err, io.ErrShortWrite)
	require.ErrorContains(t, err, "a: ")
	s.Discard()
	require.Equal(t, earlier, filesIn(t, dir))
}
