package drive_test

import (
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"ringtrack/gear/drive"
	"ringtrack/gear/drive/drafts"
	"ringtrack/gear/job"
)

const example = "../../examples/seedling-carousel.toml"

func BenchmarkResolve(b *testing.B) { bench(b, readExample(b), drive.Resolve) }

func BenchmarkCheck(b *testing.B) { bench(b, readExample(b), drive.Check) }

// BenchmarkCheckBad checks bad jobs, with the search for their cures.
func BenchmarkCheckBad(b *testing.B) {
	var jobs []*job.Job
	for seed := range uint64(40) {
		j, _ := job.Read("bad.toml", []byte(drafts.Bad(drafts.Seeded(seed))))
		require.NotNil(b, j)
		jobs = append(jobs, j)
	}
	i := 0
	for b.Loop() {
		drive.Check(jobs[i%len(jobs)])
		i++
	}
}

// BenchmarkDecode reads the example's text.
func BenchmarkDecode(b *testing.B) {
	data, err := os.ReadFile(example)
	require.NoError(b, err)
	for b.Loop() {
		job.Read("example.toml", data)
	}
}

func bench(b *testing.B, j *job.Job, work func(*job.Job) *drive.Design) {
	for b.Loop() {
		work(j)
	}
}

func readExample(b *testing.B) *job.Job {
	data, err := os.ReadFile(example)
	require.NoError(b, err)
	j, bad := job.Read("example.toml", data)
	require.NotNil(b, j, "%v", bad)
	return j
}
