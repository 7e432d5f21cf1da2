package main

import (
	"errors"
	"io/fs"
	"os"

	"github.com/urfave/cli/v2"

	"ringtrack/gear/job"
)

func newCommand() *cli.Command {
	return &cli.Command{
		Name:         "new",
		Usage:        "write a commented job file that builds as it is",
		ArgsUsage:    "[FILE]",
		OnUsageError: onUsage,
		Action:       newJob,
	}
}

func newJob(c *cli.Context) error {
	if c.Args().Len() == 0 {
		_, err := c.App.Writer.Write(job.Template())
		return err
	}
	path, err := one(c, "a file")
	if err != nil {
		return err
	}
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
	if errors.Is(err, fs.ErrExist) {
		return usage("%s exists already; choose another name", path)
	}
	if err != nil {
		return usage("cannot write %s: %s", path, reason(err))
	}
	_, err = f.Write(job.Template())
	if e := f.Close(); err == nil {
		err = e
	}
	if err != nil {
		_ = os.Remove(path)
		return usage("cannot write %s: %s", path, reason(err))
	}
	return nil
}
