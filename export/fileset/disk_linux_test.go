package fileset_test

import (
	"syscall"
	"testing"

	"github.com/stretchr/testify/require"
)

// disk mounts a small disk in memory, or returns nothing without the right to.
func disk(t *testing.T, size string) string {
	dir := t.TempDir()
	if err := syscall.Mount("tmpfs", dir, "tmpfs", 0, size); err != nil {
		t.Logf("no disk of its own: %v", err)
		return ""
	}
	t.Cleanup(func() { require.NoError(t, syscall.Unmount(dir, syscall.MNT_DETACH)) })
	return dir
}

// readOnly makes a mounted disk refuse all writing; elsewhere it does nothing.
func readOnly(dir string) { _ = syscall.Mount("", dir, "", syscall.MS_REMOUNT|syscall.MS_RDONLY, "") }

// room returns how many bytes are free.
func room(t *testing.T, dir string) int {
	var s syscall.Statfs_t
	require.NoError(t, syscall.Statfs(dir, &s))
	return int(s.Bavail) * int(s.Bsize)
}
