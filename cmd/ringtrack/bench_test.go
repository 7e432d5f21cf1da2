package main

import (
	"os/exec"
	"path/filepath"
	"testing"
)

// binary builds the static binary once for a benchmark.
func binary(b *testing.B) string {
	b.Helper()
	path := filepath.Join(b.TempDir(), "ringtrack")
	cmd := exec.Command("go", "build", "-o", path, ".")
	cmd.Env = append(cmd.Environ(), "CGO_ENABLED=0")
	if out, err := cmd.CombinedOutput(); err != nil {
		b.Fatalf("%v\n%s", err, out)
	}
	return path
}

func process(b *testing.B, args ...string) {
	b.Helper()
	path := binary(b)
	b.ResetTimer()
	for b.Loop() {
		if out, err := exec.Command(path, args...).CombinedOutput(); err != nil {
			b.Fatalf("%v\n%s", err, out)
		}
	}
}

const example = "../../examples/seedling-carousel.toml"

// The whole build of the example as a process: ten files, read back and rolled.
func BenchmarkBuildProcess(b *testing.B) { process(b, "build", example, "-o", b.TempDir()) }

// The check of the example as a process.
func BenchmarkCheckProcess(b *testing.B) { process(b, "check", example) }

// Starting and stopping alone, to compare.
func BenchmarkStartProcess(b *testing.B) { process(b, "--version") }

// The check of an example with motor, platform and a flexible pinion.
func BenchmarkCheckLoadProcess(b *testing.B) {
	process(b, "check", "../../examples/plant-stand.toml")
}
