package fileset

import (
	"encoding/json"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"sort"
)

// While a commit moves files, the ones that it replaces or removes lie in this
// folder of the stage. Its presence in a stage means: not finished, put back.
const asideName = "aside"

// newName lists, by name and SHA-256, the files that the commit moves in where
// none stood before.
const newName = "new.json"

// Result says what Commit did beside writing.
type Result struct {
	Removed []string // files of ours that the new set no longer has
	Kept    []string // files once ours, changed since, left alone
}

// Commit moves the staged files into place and removes files of ours that the
// set no longer has. On an error everything is put back as it was.
func (s *Set) Commit() (Result, error) {
	defer s.Discard()
	ours, changed, err := owned(s.dir)
	if err != nil {
		return Result{}, err
	}
	var res Result
	for _, n := range changed {
		if _, new := s.entries[n]; !new {
			res.Kept = append(res.Kept, n)
		}
	}
	if err := s.listNew(); err != nil {
		return Result{}, err
	}
	aside := filepath.Join(s.stage, asideName)
	if err := os.Mkdir(aside, 0o777); err != nil {
		return Result{}, err
	}
	if err = s.setAside(aside, ours, &res); err == nil {
		err = s.moveIn()
	}
	if err != nil {
		return Result{}, errors.Join(err, putBack(s.dir, s.stage))
	}
	s.created = nil
	// From here on the new set stands: the stage goes as a whole.
	if err := os.Rename(aside, filepath.Join(s.stage, "done")); err != nil {
		return res, err
	}
	sort.Strings(res.Removed)
	sort.Strings(res.Kept)
	return res, nil
}

// setAside moves away what the new set replaces or no longer has.
func (s *Set) setAside(aside string, ours map[string]bool, res *Result) error {
	move := func(n string) error {
		err := os.Rename(filepath.Join(s.dir, n), filepath.Join(aside, n))
		if errors.Is(err, fs.ErrNotExist) {
			return nil
		}
		return err
	}
	for n := range s.entries {
		if err := move(n); err != nil {
			return err
		}
	}
	for n := range ours {
		if _, new := s.entries[n]; new {
			continue
		}
		if err := move(n); err != nil {
			return err
		}
		res.Removed = append(res.Removed, n)
	}
	return nil
}

func (s *Set) moveIn() error {
	for n := range s.entries {
		if err := os.Rename(filepath.Join(s.stage, n), filepath.Join(s.dir, n)); err != nil {
			return err
		}
	}
	return nil
}

// listNew writes which files come where none stood, for an undo.
func (s *Set) listNew() error {
	sums := map[string]string{}
	for n, e := range s.entries {
		if _, err := os.Lstat(filepath.Join(s.dir, n)); errors.Is(err, fs.ErrNotExist) {
			sums[n] = e.SHA256
		}
	}
	data, err := json.Marshal(sums)
	if err != nil {
		return err
	}
	return os.WriteFile(filepath.Join(s.stage, newName), data, 0o666)
}

// putBack undoes a commit that did not come to its end: new files go, what had
// been set aside comes back over what replaced it. It may itself be interrupted
// and done again.
func putBack(dir, stage string) error {
	var sums map[string]string
	if data, err := os.ReadFile(filepath.Join(stage, newName)); err == nil {
		_ = json.Unmarshal(data, &sums) // a broken list lists nothing
	}
	for n, sum := range sums {
		if n != filepath.Base(n) {
			continue
		}
		if got, err := fileSum(filepath.Join(dir, n)); err == nil && got == sum {
			_ = os.Remove(filepath.Join(dir, n))
		}
	}
	return restore(dir, filepath.Join(stage, asideName))
}

// restore moves everything that was set aside back to its place.
func restore(dir, aside string) error {
	entries, err := os.ReadDir(aside)
	if err != nil {
		return err
	}
	var all error
	for _, e := range entries {
		all = errors.Join(all, os.Rename(filepath.Join(aside, e.Name()), filepath.Join(dir, e.Name())))
	}
	return all
}

// undoInterrupted cleans up after a build that was killed: what its commit had
// set aside goes back, its stage goes away.
func undoInterrupted(dir string) error {
	entries, err := os.ReadDir(dir)
	if err != nil {
		return err
	}
	for _, e := range entries {
		if !isStage(e) {
			continue
		}
		stage := filepath.Join(dir, e.Name())
		if _, err := os.Stat(filepath.Join(stage, asideName)); err == nil {
			if err := putBack(dir, stage); err != nil {
				return err
			}
		}
		if err := os.RemoveAll(stage); err != nil {
			return err
		}
	}
	return nil
}
