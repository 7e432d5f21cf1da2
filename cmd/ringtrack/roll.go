package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"time"

	"github.com/urfave/cli/v2"

	"ringtrack/export/figure"
	"ringtrack/export/fileset"
	"ringtrack/export/outline"
	"ringtrack/export/report"
	"ringtrack/export/sheet"
	"ringtrack/gear/drive"
	"ringtrack/gear/job"
	"ringtrack/gear/plane"
	"ringtrack/gear/roll"
)

func rollCommand() *cli.Command {
	return &cli.Command{
		Name:         "roll",
		Usage:        "turn two outlines against each other: a job's, or any two files'",
		ArgsUsage:    "[JOB]",
		OnUsageError: onUsage,
		Description: "With a JOB its outlines are rolled as they would be made. Without, --pinion, --ring and\n" +
			"--centre-distance name any two files: DXF, SVG paths or STL, whoever drew them. Exit code 1: they bind.",
		Flags: []cli.Flag{
			&cli.StringFlag{Name: "pinion", Usage: "outline of the pinion, from `FILE`"},
			&cli.StringFlag{Name: "ring", Usage: "outline of the ring, from `FILE`"},
			&cli.StringFlag{Name: "centre-distance", Usage: "`LENGTH` from the ring's centre to the pinion's, such as 111.25 or \"4.38 in\""},
			&cli.StringFlag{Name: "gap", Usage: "bridge gaps of up to this `LENGTH`, where tabs were left in an outline"},
			&cli.StringFlag{Name: "pinion-off", Usage: "mount the pinion this `LENGTH` off its axis"},
			&cli.StringFlag{Name: "ring-off", Usage: "mount the ring this `LENGTH` off its axis"},
			&cli.StringFlag{Name: "rim", Usage: "tell play at the rim of a platform of this `RADIUS` too"},
			&cli.StringSliceFlag{Name: "plot", Usage: "draw play, transmission error and contact to `FILE`: .svg, .png, or .gif for one pitch turning; may be repeated"},
			&cli.BoolFlag{Name: "json", Usage: "print the result as JSON"},
		},
		Action: rollPair,
	}
}

// rolling is what one roll command works on.
type rolling struct {
	pair    roll.Pair
	options roll.Options
	title   string
	source  string
	rim     float64
	plots   []string
}

func rollPair(c *cli.Context) error {
	r, err := rollingOf(c)
	if err != nil {
		return err
	}
	if err := checkPlots(r.plots); err != nil {
		return err
	}
	r.options.Progress = progress(c.App.ErrWriter)
	res, err := roll.Roll(c.Context, r.pair, r.options)
	var input *roll.InputError
	switch {
	case errors.Is(err, context.Canceled):
		return usage("stopped")
	case errors.As(err, &input):
		return usage("these outlines cannot be rolled: %s", input)
	case err != nil:
		return err
	}
	out := report.NewRolled(res, r.source)
	if c.Bool("json") {
		err = report.WriteRollJSON(c.App.Writer, out, r.title, r.rim)
	} else {
		err = report.WriteRoll(c.App.Writer, out, r.title, r.rim)
	}
	if err != nil {
		return err
	}
	if err := r.draw(c.Context, res); err != nil {
		return err
	}
	if out.Binds {
		return &exit{code: exitFault}
	}
	return nil
}

// rollingOf reads what to roll: a job or two files.
func rollingOf(c *cli.Context) (*rolling, error) {
	files := c.IsSet("pinion") || c.IsSet("ring")
	r := &rolling{plots: c.StringSlice("plot")}
	var err error
	switch {
	case files && c.Args().Present():
		return nil, usage("roll: a job or --pinion and --ring, not both")
	case files:
		err = r.fromFiles(c)
	default:
		err = r.fromJob(c)
	}
	if err != nil {
		return nil, err
	}
	var pinionOff, ringOff float64
	for _, f := range []struct {
		name string
		to   *float64
	}{{"pinion-off", &pinionOff}, {"ring-off", &ringOff}, {"rim", &r.rim}} {
		if *f.to, err = length(c, f.name); err != nil {
			return nil, err
		}
	}
	r.pair.PinionOff.X, r.pair.RingOff.X = pinionOff, ringOff
	return r, nil
}

func (r *rolling) fromJob(c *cli.Context) error {
	path, err := one(c, "a job file, or --pinion and --ring")
	if err != nil {
		return err
	}
	j, err := load(path, c.App.ErrWriter)
	if err != nil {
		return err
	}
	d := drive.Resolve(j)
	if d.Pair == nil {
		return &exit{exitFault, fmt.Sprintf("there is nothing to roll: %s (see ringtrack check)", report.Verdict(d))}
	}
	pinion, ring, err := fileset.MadeOutlines(d)
	if err != nil {
		return &exit{exitFault, fmt.Sprintf("there is nothing to roll: %s (see ringtrack check)", err)}
	}
	r.pair = roll.Pair{Pinion: pinion, Ring: ring, CentreDistance: d.Pair.CentreDistance}
	if a, err := length(c, "centre-distance"); err != nil {
		return err
	} else if c.IsSet("centre-distance") {
		r.pair.CentreDistance = a
	}
	r.options, r.title, r.source = fileset.RollOptions(d), j.Title, "design"
	return nil
}

func (r *rolling) fromFiles(c *cli.Context) error {
	for _, need := range []string{"pinion", "ring", "centre-distance"} {
		if !c.IsSet(need) {
			return usage("roll: --pinion, --ring and --centre-distance go together; --%s is missing", need)
		}
	}
	gap, err := length(c, "gap")
	if err != nil {
		return err
	}
	if gap < 0 {
		return usage("--gap: %s is out of range", c.String("gap"))
	}
	read := func(flag string, side outline.Side) (plane.Loop, error) {
		o, err := outline.ReadFileAcross(c.String(flag), side, gap)
		if err != nil {
			return plane.Loop{}, usage("%s", err)
		}
		for _, m := range o.Remarks {
			fmt.Fprintf(c.App.ErrWriter, "%s: %s\n", c.String(flag), m)
		}
		return o.Loop, nil
	}
	if r.pair.Pinion, err = read("pinion", outline.Pinion); err != nil {
		return err
	}
	if r.pair.Ring, err = read("ring", outline.Ring); err != nil {
		return err
	}
	if r.pair.CentreDistance, err = length(c, "centre-distance"); err != nil {
		return err
	}
	r.title, r.source = c.String("pinion")+" in "+c.String("ring"), "files"
	r.options.Join = 1e-5 // mm: what an outline read from a file may lack at a joint
	return nil
}

// length reads a flag as the job file reads a length; 0 when it is not set.
func length(c *cli.Context, name string) (float64, error) {
	if !c.IsSet(name) {
		return 0, nil
	}
	v, err := job.ParseQuantity(c.String(name), job.Length)
	if err != nil {
		return 0, usage("--%s: %s", name, err)
	}
	if math.IsNaN(v) || math.IsInf(v, 0) || math.Abs(v) > 1e6 {
		return 0, usage("--%s: %s is out of range", name, c.String(name))
	}
	return v, nil
}

// progress tells, on a terminal and only beyond the first second, how far a
// rolling has come.
func progress(w io.Writer) func(done, total int) {
	f, ok := w.(*os.File)
	if !ok {
		return nil
	}
	if info, err := f.Stat(); err != nil || info.Mode()&os.ModeCharDevice == 0 {
		return nil
	}
	start, shown := time.Now(), time.Time{}
	return func(done, total int) {
		now := time.Now()
		if now.Sub(start) < time.Second || (done < total && now.Sub(shown) < 200*time.Millisecond) {
			return
		}
		shown = now
		end := ""
		if done == total {
			end = "\n"
		}
		fmt.Fprintf(w, "\rrolled %d of %d positions%s", done, total, end)
	}
}

// turningPictures is how many pictures a pitch has as an animation.
const turningPictures = 24

// checkPlots refuses names of pictures that cannot be written, before the work.
func checkPlots(paths []string) error {
	for _, p := range paths {
		if _, err := fileset.PictureKind(p); err != nil {
			return usage("%s", err)
		}
	}
	return nil
}

// draw writes the pictures that were asked for.
func (r *rolling) draw(ctx context.Context, res roll.Result) error {
	shown := sheet.Rolling{Title: r.title, Pair: r.pair, Result: res}
	for _, path := range r.plots {
		var figures []figure.Figure
		if kind, _ := fileset.PictureKind(path); kind == ".gif" {
			e, err := roll.New(r.pair, r.options)
			if err != nil {
				return err
			}
			figures = sheet.Turning(shown, e, turningPictures)
		} else {
			figures = []figure.Figure{sheet.Rolled(shown)}
		}
		if err := ctx.Err(); err != nil {
			return usage("stopped")
		}
		if err := fileset.WritePicture(path, figures...); err != nil {
			return usage("%s", err)
		}
	}
	return nil
}
