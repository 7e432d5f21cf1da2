package fileset_test

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"io/fs"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"ringtrack/export/fileset"
	"ringtrack/gear/drive"
	"ringtrack/gear/job"
)

// Two jobs whose sets differ in content and in names.
const (
	carousel = `
[teeth]
module = 2
pinion = 18
ring = 60
[making]
kind = "exact"
[output]
formats = ["stl", "dxf"]
tolerance = 0.01
`
	drum = `
[teeth]
module = 1
pinion = 20
ring = 70
[making]
kind = "exact"
[output]
formats = ["dxf", "svg"]
tolerance = 0.01
`
	jam = `
[teeth]
module = 2
pinion = 12
ring = 96
pinion_shift = 0
ring_shift = 0
[pinion]
tip_diameter = 28
[ring]
tip_diameter = 188
[making]
kind = "exact"
[output]
formats = ["stl", "dxf"]
`
)

func design(t testing.TB, text string) *drive.Design {
	j, found := job.Read("bench.toml", []byte(text))
	require.NotNil(t, j, "%v", found)
	return drive.Resolve(j)
}

func build(t testing.TB, text, dir string, opt fileset.Options) (fileset.Outcome, error) {
	return fileset.Build(context.Background(), design(t, text), dir, opt)
}

func mustBuild(t testing.TB, text, dir string) fileset.Outcome {
	out, err := build(t, text, dir, fileset.Options{})
	require.NoError(t, err)
	return out
}

// content returns all that a folder holds, hidden files and folders too.
func content(t testing.TB, dir string) map[string]string {
	out := map[string]string{}
	require.NoError(t, filepath.WalkDir(dir, func(path string, e fs.DirEntry, err error) error {
		if err != nil || path == dir {
			return err
		}
		name, err := filepath.Rel(dir, path)
		if err != nil {
			return err
		}
		if !e.Type().IsRegular() {
			out[name] = e.Type().String()
			return nil
		}
		data, err := os.ReadFile(path)
		out[name] = string(data)
		return err
	}))
	return out
}

// setOf returns what a job's set is, built on its own.
func setOf(t testing.TB, text string) map[string]string {
	dir := filepath.Join(t.TempDir(), "set")
	mustBuild(t, text, dir)
	return content(t, dir)
}

func write(t testing.TB, path, text string) {
	require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
}

// TestListed wants each file of the set listed in report.json, with its size and
// SHA-256, the reports apart from themselves.
func TestListed(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "deep", "er")
	out := mustBuild(t, carousel, dir)
	var r struct {
		Files []struct {
			File, Format string
			Part         *string
			Bytes        int
			SHA256       string
		}
	}
	got := content(t, dir)
	require.NoError(t, json.Unmarshal([]byte(got["report.json"]), &r))
	var names []string
	for _, f := range r.Files {
		sum := sha256.Sum256([]byte(got[f.File]))
		require.Equal(t, hex.EncodeToString(sum[:]), f.SHA256, f.File)
		require.Len(t, got[f.File], f.Bytes, f.File)
		if f.Format == "stl" || f.Format == "dxf" {
			require.NotNil(t, f.Part)
			require.Contains(t, f.File, *f.Part)
		}
		names = append(names, f.File)
	}
	names = append(names, "report.json")
	require.ElementsMatch(t, out.Names, names)
	require.Len(t, got, len(names), "nothing else lies in the folder")
}

// TestSameBytes builds twice.
func TestSameBytes(t *testing.T) { require.Equal(t, setOf(t, carousel), setOf(t, carousel)) }

// TestForeignKept wants a file that is not ours, or that changed since, or a
// link, left alone; and the rest of the folder with it.
func TestForeignKept(t *testing.T) {
	for name, change := range map[string]func(dir string){
		"foreign":     func(dir string) { require.NoError(t, os.Remove(dir+"/report.json")) },
		"changed":     func(dir string) { write(t, dir+"/ring.stl", "my own") },
		"link":        func(dir string) { link(t, dir+"/ring.stl", dir+"/elsewhere") },
		"link astray": func(dir string) { require.NoError(t, os.Remove(dir+"/ring.stl")); astray(t, dir+"/ring.stl") },
	} {
		t.Run(name, func(t *testing.T) {
			dir := t.TempDir()
			mustBuild(t, carousel, dir)
			change(dir)
			before := content(t, dir)
			_, err := build(t, carousel, dir, fileset.Options{})
			var foreign *fileset.ForeignError
			require.ErrorAs(t, err, &foreign)
			require.Contains(t, foreign.Names, "ring.stl")
			require.Equal(t, before, content(t, dir))

			_, err = build(t, carousel, dir, fileset.Options{Force: true})
			require.NoError(t, err)
			require.Equal(t, setOf(t, carousel)["ring.stl"], content(t, dir)["ring.stl"])
		})
	}
}

// link moves a file elsewhere and leaves a link to it.
func link(t testing.TB, path, elsewhere string) {
	require.NoError(t, os.Rename(path, elsewhere))
	require.NoError(t, os.Symlink(elsewhere, path))
}

func astray(t testing.TB, path string) { require.NoError(t, os.Symlink("/nowhere/at/all", path)) }

// TestForceKeepsTheLinkedFile replaces a link, not what it leads to.
func TestForceKeepsTheLinkedFile(t *testing.T) {
	dir := t.TempDir()
	write(t, dir+"/elsewhere", "my own")
	require.NoError(t, os.Symlink(dir+"/elsewhere", dir+"/ring.stl"))
	_, err := build(t, carousel, dir, fileset.Options{Force: true})
	require.NoError(t, err)
	require.Equal(t, "my own", content(t, dir)["elsewhere"])
	require.Equal(t, setOf(t, carousel)["ring.stl"], content(t, dir)["ring.stl"])
}

// TestFolderInTheWay is never replaced, not even by force.
func TestFolderInTheWay(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, os.Mkdir(dir+"/ring.stl", 0o755))
	write(t, dir+"/ring.stl/note", "my own")
	before := content(t, dir)
	for _, force := range []bool{false, true} {
		_, err := build(t, carousel, dir, fileset.Options{Force: force})
		require.ErrorContains(t, err, "is a folder")
		require.Equal(t, before, content(t, dir))
	}
}

// TestStaleGo wants files of ours that the new set no longer has removed, unless
// they changed since; and what is somebody's left alone.
func TestStaleGo(t *testing.T) {
	dir := t.TempDir()
	mustBuild(t, carousel, dir)
	write(t, dir+"/pinion.stl", "my own")
	write(t, dir+"/note.txt", "my own")
	out := mustBuild(t, drum, dir)
	require.Equal(t, []string{"ring.stl"}, out.Removed)
	require.Equal(t, []string{"pinion.stl"}, out.Kept)
	want := setOf(t, drum)
	want["pinion.stl"], want["note.txt"] = "my own", "my own"
	require.Equal(t, want, content(t, dir))
}

// TestFaultySet is written under names that say so, and goes when a good one
// comes.
func TestFaultySet(t *testing.T) {
	dir := t.TempDir()
	out, err := build(t, jam, dir, fileset.Options{Despite: true})
	require.NoError(t, err)
	for _, n := range out.Names {
		require.Contains(t, n, "FAULTY-")
	}
	require.Len(t, content(t, dir), len(out.Names))
	mustBuild(t, carousel, dir)
	require.Equal(t, setOf(t, carousel), content(t, dir))
}

// TestLinkedTarget builds into a folder that is reached through a link, and
// refuses a link that leads nowhere.
func TestLinkedTarget(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, os.Mkdir(dir+"/real", 0o755))
	require.NoError(t, os.Symlink(dir+"/real", dir+"/out"))
	mustBuild(t, carousel, dir+"/out")
	require.Equal(t, setOf(t, carousel), content(t, dir+"/real"))

	astray(t, dir+"/nowhere")
	_, err := build(t, carousel, dir+"/nowhere", fileset.Options{})
	require.Error(t, err)
	require.NoDirExists(t, "/nowhere")
}

// TestStopped wants a build that is stopped to leave everything as it was.
func TestStopped(t *testing.T) {
	dir := t.TempDir()
	mustBuild(t, carousel, dir+"/old")
	before := content(t, dir)
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	for _, into := range []string{"/old", "/new/folder"} {
		_, err := fileset.Build(ctx, design(t, drum), dir+into, fileset.Options{})
		require.ErrorIs(t, err, context.Canceled)
		require.Equal(t, before, content(t, dir))
	}
}
