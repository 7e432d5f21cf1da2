// Package fileset writes a set of files into a folder, all or nothing.
//
// The files are first staged in a temporary folder inside the target, where
// they can be read back; Commit then moves them into place. A failure, a full
// disk or an interruption before that leaves the earlier files as they were;
// one in the middle of the move is undone by the next build, from the copies
// that the move set aside.
//
// A file in the folder is OURS when a report.json there lists it with the
// SHA-256 that it still has. Anything else is somebody's: it is never replaced
// or removed unless force is given. Files of ours that a new set no longer has
// are removed, so that no stale outline lies beside new ones.
//
// Only one build works in a folder at a time: a lock is held from Open to Commit
// or Discard.
package fileset

import (
	"fmt"
	"strings"
)

// Item is one file to write.
type Item struct {
	Name   string // base name, no folder
	Part   string // empty for files about the whole
	Format string
}

// Entry is a staged file.
type Entry struct {
	Item
	Bytes  int64
	SHA256 string
}

// ForeignError names the files that stand in the way and are not ours.
type ForeignError struct {
	Folder string
	Names  []string
}

func (e *ForeignError) Error() string {
	return fmt.Sprintf("%s holds %s that this tool did not write, or that changed since: %s (--force replaces)",
		e.Folder, plural(len(e.Names)), strings.Join(e.Names, ", "))
}

func plural(n int) string {
	if n == 1 {
		return "a file"
	}
	return fmt.Sprintf("%d files", n)
}

// BusyError says that another build holds the folder.
type BusyError struct{ Folder string }

func (e *BusyError) Error() string {
	return fmt.Sprintf("another build is writing to %s; wait for it to end", e.Folder)
}
