package main

import (
	"bytes"
	"os"
	"testing"

	"github.com/stretchr/testify/require"
)

// TestColourful wants colour on a terminal only, and not where it is unwanted.
func TestColourful(t *testing.T) {
	t.Setenv("NO_COLOR", "")
	t.Setenv("TERM", "xterm")
	file, err := os.Create(t.TempDir() + "/file")
	require.NoError(t, err)
	defer file.Close()
	r, w, err := os.Pipe()
	require.NoError(t, err)
	defer r.Close()
	defer w.Close()
	for _, out := range []*os.File{file, w} {
		require.False(t, colourful(out))
	}
	require.False(t, colourful(new(bytes.Buffer)))

	terminal, err := os.OpenFile("/dev/ptmx", os.O_RDWR, 0)
	require.NoError(t, err)
	defer terminal.Close()
	require.True(t, colourful(terminal))
	t.Setenv("NO_COLOR", "1")
	require.False(t, colourful(terminal))
	t.Setenv("NO_COLOR", "")
	t.Setenv("TERM", "dumb")
	require.False(t, colourful(terminal))
}
