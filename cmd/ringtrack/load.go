package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"ringtrack/export/report"
	"ringtrack/gear/find"
	"ringtrack/gear/job"
)

// readMost is how much of a job file is read: one byte more than job.Read
// accepts, so that it can say that the file is too large.
const readMost = 1<<20 + 1

// load reads a job file. Faults in it are written to w and end the command.
func load(path string, w io.Writer) (*job.Job, error) {
	data, err := readFile(path)
	if err != nil {
		return nil, err
	}
	j, found := job.Read(filepath.Base(path), data)
	if j == nil || find.Count(found, find.Fault) > 0 {
		if err := report.WriteFindings(w, found, report.Style{Colour: colourful(w), File: path}); err != nil {
			return nil, err
		}
		return nil, &faultyJob{found}
	}
	return j, nil
}

// faultyJob says that the job file's findings have been written.
type faultyJob struct{ found []find.Finding }

func (e *faultyJob) Error() string { return "the job file has faults" }

// As makes a faulty job an exit with nothing more to say.
func (e *faultyJob) As(target any) bool {
	if t, ok := target.(**exit); ok {
		*t = &exit{code: exitUsage}
		return true
	}
	return false
}

func readFile(path string) ([]byte, error) {
	info, err := os.Stat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, usage("there is no file %s", path)
	case err != nil:
		return nil, usage("%s", err)
	case info.IsDir():
		return nil, usage("%s is a folder; a job file is wanted", path)
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, usage("cannot read %s: %s", path, reason(err))
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, readMost))
	if err != nil {
		return nil, usage("cannot read %s: %s", path, reason(err))
	}
	return data, nil
}

// reason returns an error's cause without the path, which has been said.
func reason(err error) error {
	var p *fs.PathError
	if errors.As(err, &p) {
		return p.Err
	}
	return fmt.Errorf("%w", err)
}
