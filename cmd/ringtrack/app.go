package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"strings"

	"github.com/urfave/cli/v2"

	"ringtrack/export/report"
	"ringtrack/gear/stock"
)

// Exit codes.
const (
	exitGood  = 0 // no fault
	exitFault = 1 // a fault in the design
	exitUsage = 2 // usage, a job or file that cannot be read or written
)

// exit is an error that carries its exit code. An empty text says nothing more:
// what there is to say has been said.
type exit struct {
	code int
	text string
}

func (e *exit) Error() string { return e.text }

func usage(format string, args ...any) error {
	return &exit{exitUsage, fmt.Sprintf(format, args...)}
}

// run runs one command line and returns its exit code.
func run(ctx context.Context, args []string, stdout, stderr io.Writer) int {
	app := newApp(stdout, stderr)
	args, err := arrange(app, args)
	if err == nil {
		err = app.RunContext(ctx, args)
	}
	if err == nil {
		return exitGood
	}
	var e *exit
	if !errors.As(err, &e) {
		e = &exit{exitUsage, err.Error()}
	}
	if e.text != "" {
		fmt.Fprintf(stderr, "ringtrack: %s\n", e.text)
	}
	return e.code
}

func newApp(stdout, stderr io.Writer) *cli.App {
	return &cli.App{
		Name:            "ringtrack",
		Usage:           "from a turntable bearing and a gearmotor to a pinion and a toothed ring that mesh",
		Version:         report.Version,
		Writer:          stdout,
		ErrWriter:       stderr,
		HideHelpCommand: true,
		Commands:        []*cli.Command{buildCommand(), checkCommand(), rollCommand(), newCommand()},
		ExitErrHandler:  func(*cli.Context, error) {},
		OnUsageError:    func(_ *cli.Context, err error, _ bool) error { return usage("%s", err) },
		Action: func(c *cli.Context) error {
			if c.Args().Present() {
				return unknownCommand(c.App, c.Args().First())
			}
			return cli.ShowAppHelp(c)
		},
	}
}

func unknownCommand(app *cli.App, name string) error {
	var names []string
	for _, c := range app.Commands {
		names = append(names, c.Name)
	}
	if near, ok := stock.Nearest(name, names); ok {
		return usage("there is no command %q; did you mean %q?", name, near)
	}
	return usage("there is no command %q; there are %s", name, strings.Join(names, ", "))
}

// arrange moves a command's options before its other arguments, where the
// command-line library reads them, and refuses options that do not exist. An
// argument that begins with - is never taken for a file.
func arrange(app *cli.App, args []string) ([]string, error) {
	if len(args) < 2 {
		return args, nil
	}
	cmd := app.Command(args[1])
	if cmd == nil {
		if strings.HasPrefix(args[1], "-") && !isHelp(args[1]) && args[1] != "--version" && args[1] != "-v" {
			return nil, usage("there is no option %q", args[1])
		}
		return args, nil
	}
	takesValue := flagNames(cmd)
	var options, files []string
	for rest := args[2:]; len(rest) > 0; rest = rest[1:] {
		a := rest[0]
		if !strings.HasPrefix(a, "-") {
			files = append(files, a)
			continue
		}
		name, _, hasValue := strings.Cut(strings.TrimLeft(a, "-"), "=")
		value, known := takesValue[name]
		switch {
		case isHelp(a):
		case !known || a == "-" || a == "--":
			return nil, unknownOption(cmd, a)
		case value && !hasValue:
			if len(rest) < 2 {
				return nil, usage("%s: option %s needs a value", cmd.Name, a)
			}
			options = append(options, a)
			rest = rest[1:]
			a = rest[0]
		}
		options = append(options, a)
	}
	return append(append(args[:2:2], options...), files...), nil
}

func isHelp(a string) bool { return a == "--help" || a == "-h" }

// flagNames returns every name of the command's flags and whether it takes a value.
func flagNames(cmd *cli.Command) map[string]bool {
	out := map[string]bool{}
	for _, f := range cmd.Flags {
		_, boolean := f.(*cli.BoolFlag)
		for _, n := range f.Names() {
			out[n] = !boolean
		}
	}
	return out
}

func unknownOption(cmd *cli.Command, a string) error {
	var names []string
	for n := range flagNames(cmd) {
		if len(n) > 1 {
			names = append(names, n)
		}
	}
	name, _, _ := strings.Cut(strings.TrimLeft(a, "-"), "=")
	if near, ok := stock.Nearest(name, names); ok {
		return usage("%s has no option %s; did you mean --%s?", cmd.Name, a, near)
	}
	return usage("%s has no option %s; see ringtrack %s --help", cmd.Name, a, cmd.Name)
}

// onUsage answers what the library itself finds wrong with a command's options.
func onUsage(c *cli.Context, err error, _ bool) error {
	return usage("%s: %s", c.Command.Name, err)
}

// one returns the command's single argument.
func one(c *cli.Context, what string) (string, error) {
	switch c.Args().Len() {
	case 0:
		return "", usage("%s needs %s", c.Command.Name, what)
	case 1:
		return c.Args().First(), nil
	}
	return "", usage("%s takes one %s, not %d", c.Command.Name, strings.TrimPrefix(strings.TrimPrefix(what, "a "), "the "), c.Args().Len())
}

// colourful reports whether w is a terminal that wants colour.
func colourful(w io.Writer) bool {
	f, ok := w.(*os.File)
	if !ok || os.Getenv("NO_COLOR") != "" || os.Getenv("TERM") == "dumb" {
		return false
	}
	info, err := f.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0
}
