package main

import (
	"context"
	"errors"
	"fmt"
	"path/filepath"
	"strings"

	"github.com/urfave/cli/v2"

	"ringtrack/export/fileset"
	"ringtrack/export/report"
	"ringtrack/gear/drive"
)

func buildCommand() *cli.Command {
	return &cli.Command{
		Name:         "build",
		Usage:        "write the files of a job: solids, outlines, an assembly drawing and a report",
		ArgsUsage:    "JOB",
		OnUsageError: onUsage,
		Flags: []cli.Flag{
			&cli.StringFlag{Name: "out", Aliases: []string{"o"}, Usage: "write into `DIR` (default: the job's name, in this folder)"},
			&cli.BoolFlag{Name: "force", Usage: "replace files that this tool did not write, or that changed since"},
			&cli.BoolFlag{Name: "despite-faults", Usage: "write a faulty design too, with FAULTY in every name"},
		},
		Action: build,
	}
}

func build(c *cli.Context) error {
	path, err := one(c, "a job file")
	if err != nil {
		return err
	}
	j, err := load(path, c.App.ErrWriter)
	if err != nil {
		return err
	}
	dir := c.String("out")
	if !c.IsSet("out") {
		dir = strings.TrimSuffix(filepath.Base(path), ".toml")
		if dir == filepath.Base(path) {
			dir += "-files"
		}
	}
	if dir == "" {
		return usage("build: --out needs the name of a folder")
	}
	d := fileset.Check(j)
	style := report.Style{Colour: colourful(c.App.ErrWriter), File: path}
	if err := report.WriteTalk(c.App.ErrWriter, d, style); err != nil {
		return err
	}
	if d.Faulty() && !c.Bool("despite-faults") {
		return &exit{exitFault, "nothing was written (--despite-faults writes it all the same)"}
	}
	return write(c, d, dir)
}

// write builds the set and says what was done: the files on standard output,
// one a line, the rest on standard error.
func write(c *cli.Context, d *drive.Design, dir string) error {
	out, err := fileset.Build(c.Context, d, dir, fileset.Options{Force: c.Bool("force"), Despite: c.Bool("despite-faults")})
	switch {
	case errors.Is(err, context.Canceled):
		return usage("stopped; nothing was changed in %s", dir)
	case err != nil:
		return usage("nothing was written: %s", err)
	}
	for _, n := range out.Names {
		fmt.Fprintln(c.App.Writer, filepath.Join(dir, n))
	}
	for _, n := range out.Removed {
		fmt.Fprintf(c.App.ErrWriter, "removed %s, which this job no longer has\n", filepath.Join(dir, n))
	}
	for _, n := range out.Kept {
		fmt.Fprintf(c.App.ErrWriter, "kept %s, which was changed since it was written\n", filepath.Join(dir, n))
	}
	if d.Faulty() {
		return &exit{code: exitFault}
	}
	return nil
}
