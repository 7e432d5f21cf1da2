package fileset

import (
	"context"
	"errors"
	"io"
	"runtime"
	"sync"

	"ringtrack/export/report"
	"ringtrack/gear/drive"
)

// Options of Build.
type Options struct {
	Force   bool // replace files that are not ours
	Despite bool // write a faulty design too, with FAULTY in every name
}

// Outcome is what a build did.
type Outcome struct {
	Names   []string // of the files written, in order
	Built   report.Built
	Removed []string // files of an earlier set that this one no longer has
	Kept    []string // files once ours, changed since, left alone
}

// Build writes a design's files into the folder, all or nothing. The files are
// read back and rolled against each other before they take their place. A
// design with a fault is written only with opt.Despite; the caller asks first;
// so are files that bind. It stops, with nothing changed, when ctx ends.
//
// Errors: *BindsError, *ForeignError, *BusyError, and those of the file system.
func Build(ctx context.Context, d *drive.Design, dir string, opt Options) (Outcome, error) {
	out, err := build(ctx, d, dir, opt, d.Faulty())
	var binds *BindsError
	if errors.As(err, &binds) && opt.Despite {
		return build(ctx, d, dir, opt, true)
	}
	return out, err
}

// build writes the set under plain names or, when it is faulty, under names
// that say so; a set of plain names must not bind.
func build(ctx context.Context, d *drive.Design, dir string, opt Options, faulty bool) (Outcome, error) {
	p := newPlan(d, faulty)
	if p.failed != nil {
		return Outcome{}, p.failed
	}
	reports := []Item{{p.prefix + "report.txt", "", "txt"}, {p.prefix + ReportName, "", "json"}}
	var out Outcome
	for _, t := range p.tasks {
		out.Names = append(out.Names, t.Name)
	}
	for _, r := range reports {
		out.Names = append(out.Names, r.Name)
	}
	s, err := Open(dir, out.Names, opt.Force)
	if err != nil {
		return Outcome{}, err
	}
	defer s.Discard()
	if out.Built.Rolled, err = p.writeAndRoll(ctx, s); err != nil {
		return Outcome{}, err
	}
	out.Built.Cutting = p.cutting
	for _, m := range p.solids {
		out.Built.Solids = append(out.Built.Solids, *m)
	}
	if err := writeReports(s, d, reports, &out); err != nil {
		return Outcome{}, err
	}
	if err := ctx.Err(); err != nil {
		return Outcome{}, err
	}
	res, err := s.Commit()
	out.Removed, out.Kept = res.Removed, res.Kept
	return out, err
}

// writeAndRoll stages the parts' files, then rolls them while the pictures are
// drawn.
func (p *plan) writeAndRoll(ctx context.Context, s *Set) (*report.Rolled, error) {
	var parts, pictures []task
	for _, t := range p.tasks {
		if t.Part != "" {
			parts = append(parts, t)
		} else {
			pictures = append(pictures, t)
		}
	}
	if err := writeAll(ctx, s, parts); err != nil {
		return nil, err
	}
	ctx, cancel := context.WithCancelCause(ctx)
	defer cancel(nil)
	drawn := make(chan struct{})
	go func() {
		defer close(drawn)
		if err := writeAll(ctx, s, pictures); err != nil {
			cancel(err)
		}
	}()
	rolled, err := p.roll(ctx, s)
	if err != nil {
		cancel(err)
	}
	<-drawn
	return rolled, context.Cause(ctx)
}

// roll rolls what was written. A faulty set is rolled too, if that can be done.
func (p *plan) roll(ctx context.Context, s *Set) (*report.Rolled, error) {
	r, err := rollFiles(ctx, s, p)
	faulty := p.prefix != ""
	switch {
	case err != nil && faulty && ctx.Err() == nil:
		return nil, nil
	case err != nil:
		return nil, err
	case r.Binds && !faulty:
		return nil, &BindsError{r.Where}
	}
	return r, nil
}

// writeReports stages report.txt, then report.json, which lists it.
func writeReports(s *Set, d *drive.Design, reports []Item, out *Outcome) error {
	list := func() {
		out.Built.Files = out.Built.Files[:0]
		for _, e := range s.Entries(out.Names) {
			out.Built.Files = append(out.Built.Files, report.File{
				Name: e.Name, Part: e.Part, Format: e.Format, Bytes: e.Bytes, SHA256: e.SHA256,
			})
		}
	}
	list()
	if err := s.Write(reports[0], func(w io.Writer) error { return report.WriteText(w, d, out.Built) }); err != nil {
		return err
	}
	list()
	return s.Write(reports[1], func(w io.Writer) error { return report.WriteJSON(w, d, out.Built) })
}

// writeAll stages the tasks' files, as many at a time as there are processors,
// and returns the first error.
func writeAll(ctx context.Context, s *Set, tasks []task) error {
	ctx, cancel := context.WithCancelCause(ctx)
	defer cancel(nil)
	queue := make(chan task)
	var wg sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		wg.Go(func() {
			for t := range queue {
				if ctx.Err() != nil {
					continue
				}
				if err := s.Write(t.Item, t.write); err != nil {
					cancel(err)
				}
			}
		})
	}
	for _, t := range tasks {
		queue <- t
	}
	close(queue)
	wg.Wait()
	return context.Cause(ctx)
}
