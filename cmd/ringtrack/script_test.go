package main

import (
	"context"
	"os"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){
		"ringtrack": func() { os.Exit(run(context.Background(), os.Args, os.Stdout, os.Stderr)) },
	})
}

// TestScripts types command lines as a user would. The examples of the
// repository lie in $EXAMPLES.
func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir:  "testdata/script",
		Cmds: commands,
		Setup: func(e *testscript.Env) error {
			wd, err := os.Getwd()
			if err != nil {
				return err
			}
			e.Setenv("EXAMPLES", wd+"/../../examples")
			return nil
		},
	})
}
