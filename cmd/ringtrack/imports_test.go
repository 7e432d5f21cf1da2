package main

import (
	"os/exec"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// imports returns, for each of our packages without "ringtrack/", all of ours
// that it depends on, tests apart.
func imports(t *testing.T) map[string][]string {
	out, err := exec.Command("go", "list", "-f", `{{.ImportPath}}{{range .Deps}} {{.}}{{end}}`, "ringtrack/...").Output()
	require.NoError(t, err)
	deps := map[string][]string{}
	for _, line := range strings.Split(strings.TrimSpace(string(out)), "\n") {
		words := strings.Fields(line)
		var ours []string
		for _, w := range words[1:] {
			if name, ok := strings.CutPrefix(w, "ringtrack/"); ok {
				ours = append(ours, name)
			}
		}
		deps[strings.TrimPrefix(words[0], "ringtrack/")] = ours
	}
	return deps
}

// mayImport lists what a package may depend on of ours, directly or not; those
// that are not listed are free below cmd.
var mayImport = map[string]string{
	"involute":      "",
	"gear/plane":    "",
	"gear/find":     "",
	"gear/stock":    "",
	"gear":          "involute gear/plane gear/find",
	"gear/job":      "gear/find gear/stock",
	"gear/solid":    "gear/plane",
	"gear/roll":     "gear/plane",
	"gear/part":     "gear gear/plane gear/solid gear/stock gear/find involute",
	"gear/machine":  "gear/find",
	"gear/budget":   "gear gear/plane gear/roll gear/find involute",
	"gear/load":     "gear gear/plane gear/solid gear/stock gear/find gear/part involute",
	"export/figure": "export/number gear/plane",
	"export/dxf":    "export/figure export/number gear/plane gear/solid",
	"export/svg":    "export/figure export/number gear/plane gear/solid",
	"export/png":    "export/figure export/number gear/plane gear/solid",
	"export/stl":    "export/figure export/number gear/plane gear/solid",
}

// TestImportArrows wants data to run one way: nothing lower knows anything
// higher.
func TestImportArrows(t *testing.T) {
	deps := imports(t)
	for name, may := range mayImport {
		ours, ok := deps[name]
		require.True(t, ok, "there is no package %s", name)
		for _, d := range ours {
			require.Contains(t, strings.Fields(may), d, "%s must not depend on %s", name, d)
		}
	}
	for name, ours := range deps {
		for _, d := range ours {
			switch {
			case strings.HasPrefix(name, "gear") || name == "involute":
				require.False(t, strings.HasPrefix(d, "export") || strings.HasPrefix(d, "cmd"), "%s depends on %s", name, d)
			case strings.HasPrefix(name, "export"):
				require.False(t, strings.HasPrefix(d, "cmd"), "%s depends on %s", name, d)
			}
			// Drafts of jobs are for tests.
			require.NotEqual(t, "gear/drive/drafts", d, "%s depends on %s", name, d)
		}
	}
	for _, room := range []string{"gear", "gear/job", "gear/part", "gear/plane", "gear/stock", "gear/find", "involute"} {
		require.True(t, slices.Contains(deps["gear/drive"], room), "gear/drive joins all of gear, %s too", room)
	}
}

// TestNoCgo wants the program to be one static binary: nothing that it is made
// of needs C.
func TestNoCgo(t *testing.T) {
	out, err := exec.Command("go", "list", "-deps", "-f", `{{if not .Standard}}{{if .CgoFiles}}{{.ImportPath}}{{end}}{{end}}`, ".").Output()
	require.NoError(t, err)
	require.Empty(t, strings.TrimSpace(string(out)))
	list := exec.Command("go", "list", "-deps", ".")
	list.Env = append(list.Environ(), "CGO_ENABLED=0")
	out, err = list.Output()
	require.NoError(t, err)
	require.NotContains(t, strings.Fields(string(out)), "runtime/cgo")
}
