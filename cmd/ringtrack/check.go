package main

import (
	"errors"

	"github.com/urfave/cli/v2"

	"ringtrack/export/fileset"
	"ringtrack/export/report"
)

func checkCommand() *cli.Command {
	return &cli.Command{
		Name:         "check",
		Usage:        "work a job out and say what is wrong with it, writing no files",
		ArgsUsage:    "JOB",
		OnUsageError: onUsage,
		Flags: []cli.Flag{
			&cli.BoolFlag{Name: "json", Usage: "print the report as JSON on standard output"},
		},
		Action: check,
	}
}

func check(c *cli.Context) error {
	path, err := one(c, "a job file")
	if err != nil {
		return err
	}
	asJSON := c.Bool("json")
	j, err := load(path, c.App.ErrWriter)
	if err != nil {
		var bad *faultyJob
		if asJSON && errors.As(err, &bad) {
			if e := report.WriteFaultyJSON(c.App.Writer, bad.found); e != nil {
				return e
			}
		}
		return err
	}
	d := fileset.Check(j)
	if asJSON {
		err = report.WriteJSON(c.App.Writer, d, report.Built{})
	} else {
		err = report.WriteCheck(c.App.Writer, d, report.Style{Colour: colourful(c.App.Writer), File: path})
	}
	if err != nil {
		return err
	}
	if d.Faulty() {
		return &exit{code: exitFault}
	}
	return nil
}
