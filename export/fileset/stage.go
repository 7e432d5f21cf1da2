package fileset

import (
	"bufio"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"sync"

	"github.com/gofrs/flock"
)

const stagePrefix = ".ringtrack-stage-"

// Set is a set in the making.
type Set struct {
	dir     string
	stage   string
	created []string // folders that Open made, outermost first
	force   bool
	lock    *flock.Flock

	mu      sync.Mutex
	entries map[string]Entry
}

// Open locks the folder, which is made if it is missing, undoes what an
// interrupted build left behind and makes a stage. names are the files that the
// set will hold: if one of them stands there and is not ours, and force is
// false, the answer is a *ForeignError and nothing has been touched.
func Open(dir string, names []string, force bool) (*Set, error) {
	s := &Set{dir: dir, force: force, entries: map[string]Entry{}}
	if err := s.makeFolder(); err != nil {
		return nil, err
	}
	if err := s.acquire(); err != nil {
		s.removeCreated()
		return nil, err
	}
	err := undoInterrupted(dir)
	if err == nil {
		err = s.checkForeign(names)
	}
	if err == nil {
		s.stage, err = os.MkdirTemp(dir, stagePrefix)
	}
	if err != nil {
		s.release()
		s.removeCreated()
		return nil, err
	}
	return s, nil
}

// makeFolder makes the folder and remembers which levels were missing.
func (s *Set) makeFolder() error {
	for p := filepath.Clean(s.dir); ; p = filepath.Dir(p) {
		info, err := os.Stat(p)
		if err == nil {
			if !info.IsDir() {
				return fmt.Errorf("%s is a file, not a folder", p)
			}
			break
		}
		if !errors.Is(err, fs.ErrNotExist) {
			return err
		}
		s.created = append([]string{p}, s.created...)
	}
	if err := os.MkdirAll(s.dir, 0o777); err != nil {
		s.removeCreated()
		return err
	}
	return nil
}

func (s *Set) removeCreated() {
	for i := len(s.created) - 1; i >= 0; i-- {
		_ = os.Remove(s.created[i]) // fails, rightly, when something is in it
	}
}

// checkForeign looks for files in the way that are not ours. A folder in the way
// is never replaced, for what is in it.
func (s *Set) checkForeign(names []string) error {
	for _, n := range names {
		if info, err := os.Lstat(filepath.Join(s.dir, n)); err == nil && info.IsDir() {
			return fmt.Errorf("%s is a folder, where a file is to be written", filepath.Join(s.dir, n))
		}
	}
	if s.force {
		return nil
	}
	ours, _, err := owned(s.dir)
	if err != nil {
		return err
	}
	e := &ForeignError{Folder: s.dir}
	for _, n := range names {
		if _, err := os.Lstat(filepath.Join(s.dir, n)); err == nil && !ours[n] {
			e.Names = append(e.Names, n)
		}
	}
	if len(e.Names) > 0 {
		return e
	}
	return nil
}

// Write stages one file. It may be called from several goroutines.
func (s *Set) Write(it Item, write func(io.Writer) error) error {
	f, err := os.Create(filepath.Join(s.stage, it.Name))
	if err != nil {
		return err
	}
	h := sha256.New()
	count := &counter{w: io.MultiWriter(f, h)}
	buf := bufio.NewWriterSize(count, 1<<18)
	err = write(buf)
	if err == nil {
		err = buf.Flush()
	}
	if e := f.Close(); err == nil {
		err = e
	}
	if err != nil {
		return fmt.Errorf("%s: %w", it.Name, err)
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	s.entries[it.Name] = Entry{it, count.n, hex.EncodeToString(h.Sum(nil))}
	return nil
}

type counter struct {
	w io.Writer
	n int64
}

func (c *counter) Write(p []byte) (int, error) {
	n, err := c.w.Write(p)
	c.n += int64(n)
	return n, err
}

// Entries returns the staged files in the order of names given.
func (s *Set) Entries(order []string) []Entry {
	s.mu.Lock()
	defer s.mu.Unlock()
	var out []Entry
	for _, n := range order {
		if e, ok := s.entries[n]; ok {
			out = append(out, e)
		}
	}
	return out
}

// Read opens a staged file.
func (s *Set) Read(name string) (*os.File, error) { return os.Open(filepath.Join(s.stage, name)) }

// Discard removes the stage and releases the folder. After Commit it does nothing.
func (s *Set) Discard() {
	if s.stage == "" {
		return
	}
	_ = os.RemoveAll(s.stage)
	s.stage = ""
	s.release()
	s.removeCreated()
}

// isStage reports whether a folder entry is a stage.
func isStage(e fs.DirEntry) bool { return e.IsDir() && strings.HasPrefix(e.Name(), stagePrefix) }
