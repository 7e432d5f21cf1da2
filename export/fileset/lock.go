package fileset

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"os"
	"path/filepath"

	"github.com/gofrs/flock"
)

// acquire takes the lock, which lies in the system's temporary folder under the
// target's own name, so that nothing of it stays in the target.
func (s *Set) acquire() error {
	abs, err := filepath.Abs(s.dir)
	if err != nil {
		return err
	}
	if real, err := filepath.EvalSymlinks(abs); err == nil {
		abs = real
	}
	sum := sha256.Sum256([]byte(abs))
	name := fmt.Sprintf("ringtrack-%d-%s.lock", os.Getuid(), hex.EncodeToString(sum[:8]))
	for {
		s.lock = flock.New(filepath.Join(os.TempDir(), name))
		ok, err := s.lock.TryLock()
		if err != nil {
			return fmt.Errorf("cannot lock %s: %w", s.dir, err)
		}
		if !ok {
			return &BusyError{s.dir}
		}
		if current(s.lock) {
			return nil
		}
		_ = s.lock.Unlock() // its last holder took the file away meanwhile
	}
}

// current reports whether the file that is locked is the one that others would
// find.
func current(l *flock.Flock) bool {
	held, err1 := l.Stat()
	there, err2 := os.Stat(l.Path())
	return err1 == nil && err2 == nil && os.SameFile(held, there)
}

// release takes the lock's file away and lets go of it, in this order: who
// waits for it sees that it has gone.
func (s *Set) release() {
	_ = os.Remove(s.lock.Path())
	_ = s.lock.Unlock()
}
