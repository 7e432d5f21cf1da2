package fileset_test

import (
	"os"
	"path/filepath"
	"syscall"
	"testing"

	"github.com/stretchr/testify/require"

	"ringtrack/export/fileset"
)

// TestNoFolderPossible wants a clear refusal where no folder can be: under a
// file, and under a file's name.
func TestNoFolderPossible(t *testing.T) {
	dir := t.TempDir()
	write(t, dir+"/file", "my own")
	for _, into := range []string{"/file", "/file/below", "/file/below/that"} {
		_, err := build(t, carousel, dir+into, fileset.Options{})
		require.Error(t, err)
		require.Contains(t, err.Error(), "file")
		require.Equal(t, map[string]string{"file": "my own"}, content(t, dir))
	}
}

// TestFullDisk builds a set that is larger than the disk, over a smaller one.
func TestFullDisk(t *testing.T) {
	dir := disk(t, "size=4m")
	if dir == "" {
		return // no right to mount: TestFailingWriter stands for it
	}
	mustBuild(t, drum, dir)
	before := content(t, dir)
	write(t, filepath.Join(dir, "ballast"), string(make([]byte, room(t, dir)-20<<10)))
	_, err := build(t, carousel, dir, fileset.Options{})
	require.ErrorIs(t, err, syscall.ENOSPC)
	got := content(t, dir)
	delete(got, "ballast")
	require.Equal(t, before, got)

	require.NoError(t, os.Remove(filepath.Join(dir, "ballast")))
	mustBuild(t, carousel, dir)
	require.Equal(t, setOf(t, carousel), content(t, dir))
}

// TestReadOnly builds where nothing may be written, which stops root, too.
func TestReadOnly(t *testing.T) {
	dir := disk(t, "size=4m")
	if dir == "" {
		dir = t.TempDir() // no right to mount, so not root: modes count
	}
	mustBuild(t, carousel, dir)
	before := content(t, dir)
	require.NoError(t, os.Chmod(dir, 0o555))
	t.Cleanup(func() { _ = os.Chmod(dir, 0o755) })
	readOnly(dir)
	for _, into := range []string{dir, filepath.Join(dir, "new")} {
		_, err := build(t, drum, into, fileset.Options{})
		require.Error(t, err)
		require.Equal(t, before, content(t, dir))
	}
}
