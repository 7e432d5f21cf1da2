package main

import (
	"bytes"
	"errors"
	"os"
	"os/exec"
	"strconv"
	"strings"

	"github.com/rogpeppe/go-internal/testscript"
)

// commands are what the scripts know beside the usual.
var commands = map[string]func(*testscript.TestScript, bool, []string){
	"exits":   exits,
	"fill":    fill,
	"variant": variant,
}

// exits CODE COMMAND... runs a command that must end with that exit code.
func exits(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: exits CODE COMMAND...")
	}
	code := 0
	var e *exec.ExitError
	if err := ts.Exec(args[1], args[2:]...); errors.As(err, &e) {
		code = e.ExitCode()
	} else if err != nil {
		ts.Fatalf("%v", err)
	}
	if strconv.Itoa(code) != args[0] {
		ts.Fatalf("exit code %d, want %s", code, args[0])
	}
}

// fill FILE BYTES TEXT makes a large file of a repeated text, with escapes as
// in Go.
func fill(ts *testscript.TestScript, _ bool, args []string) {
	n, err := strconv.Atoi(args[1])
	ts.Check(err)
	text, err := strconv.Unquote(`"` + args[2] + `"`)
	ts.Check(err)
	data := bytes.Repeat([]byte(text), n/len(text)+1)[:n]
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), data, 0o666))
}

// variant NEW OLD FROM TO writes a file with one text of it replaced, which must
// stand in it once.
func variant(ts *testscript.TestScript, _ bool, args []string) {
	if len(args) != 4 {
		ts.Fatalf("usage: variant NEW OLD FROM TO")
	}
	text := ts.ReadFile(args[1])
	if strings.Count(text, args[2]) != 1 {
		ts.Fatalf("%q does not stand once in %s", args[2], args[1])
	}
	text = strings.Replace(text, args[2], strings.ReplaceAll(args[3], `\n`, "\n"), 1)
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), []byte(text), 0o666))
}
