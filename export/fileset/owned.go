package fileset

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
)

// ReportName is the file that lists a set; with a prefix it lists a second set
// in the same folder.
const ReportName = "report.json"

// owned returns the names in dir that a report there lists and that are
// unchanged, and the names listed but changed since.
func owned(dir string) (ours map[string]bool, changed []string, err error) {
	ours = map[string]bool{}
	entries, err := os.ReadDir(dir)
	if errors.Is(err, fs.ErrNotExist) {
		return ours, nil, nil
	}
	if err != nil {
		return nil, nil, err
	}
	for _, e := range entries {
		if !strings.HasSuffix(e.Name(), ReportName) || !e.Type().IsRegular() {
			continue
		}
		listed, ok := readReport(filepath.Join(dir, e.Name()))
		if !ok {
			continue
		}
		ours[e.Name()] = true
		for name, sum := range listed {
			if _, err := os.Lstat(filepath.Join(dir, name)); err != nil {
				continue // gone
			}
			if got, err := fileSum(filepath.Join(dir, name)); err == nil && got == sum {
				ours[name] = true
			} else {
				changed = append(changed, name)
			}
		}
	}
	return ours, changed, nil
}

// readReport returns the files that a report lists with their sums; ok is false
// for a file that is no report of ours.
func readReport(path string) (map[string]string, bool) {
	const most = 16 << 20
	f, err := os.Open(path)
	if err != nil {
		return nil, false
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, most))
	if err != nil {
		return nil, false
	}
	var r struct {
		Tool  string
		Files []struct{ File, SHA256 string }
	}
	if json.Unmarshal(data, &r) != nil || r.Tool != "ringtrack" {
		return nil, false
	}
	out := map[string]string{}
	for _, e := range r.Files {
		if e.File == filepath.Base(e.File) && e.File != "." && e.File != ".." {
			out[e.File] = e.SHA256
		}
	}
	return out, true
}

// fileSum returns the SHA-256 of a regular file; a link is not one.
func fileSum(path string) (string, error) {
	if info, err := os.Lstat(path); err != nil || !info.Mode().IsRegular() {
		return "", fmt.Errorf("%s is no regular file", path)
	}
	f, err := os.Open(path)
	if err != nil {
		return "", err
	}
	defer f.Close()
	h := sha256.New()
	if _, err := io.Copy(h, f); err != nil {
		return "", err
	}
	return hex.EncodeToString(h.Sum(nil)), nil
}
