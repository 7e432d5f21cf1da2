package fileset_test

import (
	"errors"
	"path/filepath"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"ringtrack/export/fileset"
)

// TestBusy refuses a second build while one holds the folder, also through
// another name of it, and lets it in afterwards. Nothing of the lock stays.
func TestBusy(t *testing.T) {
	dir, locks := t.TempDir(), t.TempDir()
	t.Setenv("TMPDIR", locks)
	s, err := fileset.Open(dir, nil, false)
	require.NoError(t, err)
	_, err = build(t, carousel, filepath.Join(dir, "..", filepath.Base(dir))+"/.", fileset.Options{})
	var busy *fileset.BusyError
	require.ErrorAs(t, err, &busy)
	require.Len(t, content(t, locks), 1)
	s.Discard()
	mustBuild(t, carousel, dir)
	require.Empty(t, content(t, locks))
}

// TestTwoAtOnce starts builds of two jobs into one folder, many times: each is
// whole or refused, and what lies there in the end is the set of one of them.
func TestTwoAtOnce(t *testing.T) {
	sets := []map[string]string{setOf(t, carousel), setOf(t, drum)}
	for range 10 {
		dir := t.TempDir()
		var wg sync.WaitGroup
		errs := make([]error, 2)
		for i, text := range []string{carousel, drum} {
			d := design(t, text)
			wg.Go(func() { _, errs[i] = fileset.Build(t.Context(), d, dir, fileset.Options{}) })
		}
		wg.Wait()
		done := 0
		for _, err := range errs {
			var busy *fileset.BusyError
			if err == nil {
				done++
			} else {
				require.True(t, errors.As(err, &busy), "%v", err)
			}
		}
		require.Positive(t, done)
		require.Contains(t, sets, content(t, dir))
	}
}
