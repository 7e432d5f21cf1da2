package fileset_test

import (
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"ringtrack/export/fileset"
)

// buildInto, in the environment, makes the test binary build both jobs into a
// folder by turns until it is killed.
const buildInto = "RINGTRACK_TEST_BUILD_INTO"

func TestMain(m *testing.M) {
	if dir := os.Getenv(buildInto); dir != "" {
		buildForever(dir)
	}
	os.Exit(m.Run())
}

func buildForever(dir string) {
	t := new(testing.T)
	designs := []string{carousel, drum}
	for i := 0; ; i++ {
		if _, err := build(t, designs[i%2], dir, fileset.Options{}); err != nil {
			fmt.Fprintln(os.Stderr, err)
			os.Exit(1)
		}
	}
}

// TestKilled kills builds at random moments: after the next build has begun, one
// whole set lies in the folder, and nothing else.
func TestKilled(t *testing.T) {
	sets := []map[string]string{setOf(t, carousel), setOf(t, drum)}
	dir := t.TempDir()
	mustBuild(t, carousel, dir)
	dice := rand.New(rand.NewPCG(7, 7))
	inTheMiddle := 0
	for range 25 {
		cmd := exec.Command(os.Args[0], "-test.run=^$")
		cmd.Env = append(os.Environ(), buildInto+"="+dir)
		cmd.Stderr = os.Stderr
		require.NoError(t, cmd.Start())
		time.Sleep(30*time.Millisecond + time.Duration(dice.IntN(120))*time.Millisecond)
		require.NoError(t, cmd.Process.Kill())
		require.ErrorContains(t, cmd.Wait(), "killed")
		if len(content(t, dir)) != len(sets[0]) && len(content(t, dir)) != len(sets[1]) {
			inTheMiddle++
		}
		s, err := fileset.Open(dir, nil, false)
		require.NoError(t, err)
		s.Discard()
		require.Contains(t, sets, content(t, dir))
	}
	require.Positive(t, inTheMiddle, "no build was killed in its middle")
}
