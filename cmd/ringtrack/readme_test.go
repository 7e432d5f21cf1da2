package main

import (
	"flag"
	"fmt"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"ringtrack/gear/find"
	"ringtrack/gear/job"
)

var update = flag.Bool("update", false, "write what the tests would compare")

const readme = "../../README.md"

// TestREADMETables compares the README's tables of keys and of findings with
// the tables that drive the program.
func TestREADMETables(t *testing.T) {
	data, err := os.ReadFile(readme)
	require.NoError(t, err)
	text := string(data)
	want := replaceBlock(t, text, "keys", job.Reference())
	want = replaceBlock(t, want, "codes", codeTable())
	if *update {
		require.NoError(t, os.WriteFile(readme, []byte(want), 0o666))
		return
	}
	require.Equal(t, want, text, "run: go test ./cmd/ringtrack -run README -update")
}

func codeTable() string {
	var b strings.Builder
	b.WriteString("| code | meaning |\n| --- | --- |\n")
	for _, c := range find.Meaning {
		fmt.Fprintf(&b, "| `%s` | %s |\n", c.Code, c.Text)
	}
	return b.String()
}

// replaceBlock puts text between the two marks of a name.
func replaceBlock(t *testing.T, doc, name, text string) string {
	start := strings.Index(doc, "<!-- "+name)
	require.GreaterOrEqual(t, start, 0, "the README has no mark %q", name)
	start += strings.Index(doc[start:], "-->\n") + len("-->\n")
	end := strings.Index(doc, "<!-- end of "+name+" -->")
	require.Greater(t, end, start-1)
	return doc[:start] + "\n" + strings.TrimSpace(text) + "\n\n" + doc[end:]
}
