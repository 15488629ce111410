package main

import (
	"context"
	"errors"
	"fmt"
	"path/filepath"
	"runtime"
	"sync"
	"sync/atomic"

	"gylebook/internal/book"
	"gylebook/internal/journal"
	"gylebook/internal/notice"
	"gylebook/internal/publish"
	"gylebook/internal/site"
	"gylebook/internal/store"
)

type publishCommand struct {
	Dir string `arg:"" optional:"" name:"journal" help:"The journal's folder."`
	To  string `placeholder:"DIR" default:"site" help:"The folder to write (${default})."`

	RemoveAnyway bool `help:"Publish also while something in the journal cannot be read, and remove its pages from the site."`
}

func (p *publishCommand) Help() string {
	return "Writes the whole site into one folder, all or nothing, and touches only files that it wrote itself. " +
		"Exit code 0: written. 1: written, but something in an entry could not be read. 2: nothing written: " +
		"so too while a file or folder of the journal cannot be read at all, since its pages would vanish from the site. " +
		"3: cut short while files were moved one by one: the next run finishes it."
}

// run writes the site: 0 written; 1 written, but something in an entry could
// not be read; 2 nothing written; 3 begun, and the next run finishes it.
func (p *publishCommand) run(c *call) (int, error) {
	now, err := c.clock()
	if err != nil {
		return exitCannot, err
	}
	dir, err := c.findJournal(p.Dir)
	if err != nil {
		return exitCannot, err
	}
	o, err := c.open(dir)
	if err != nil {
		return exitCannot, err
	}
	if err := outside(dir, p.To); err != nil {
		return exitCannot, err
	}
	if err := p.allRead(c, o, o.Errors); err != nil {
		return exitCannot, err
	}
	edition, err := publish.Begin(p.To, publish.Options{Keep: texts(o.Settings.Keep)})
	if err != nil {
		return exitCannot, err
	}
	defer edition.Abort()
	b := book.Open(o.Journal, startOfDay(now, o.zone()))
	s, err := c.build(o, b, false)
	if err != nil {
		return exitCannot, err
	}
	pages := s.Pages()
	if err := p.allRead(c, o, s.Notices()); err != nil {
		return exitCannot, err
	}
	if err := c.put(edition, pages); err != nil {
		return exitCannot, err
	}
	report, err := edition.Commit()
	if err := p.written(c, err); err != nil {
		return exitCannot, err
	}
	return p.report(c, o, allNotices(b, s), report), nil
}

// allRead names what of the journal cannot be read now, and is an error where there is
// anything: what cannot be read is not what is not there.
func (p *publishCommand) allRead(c *call, o *opened, all []notice.Notice) error {
	if p.RemoveAnyway {
		return nil
	}
	out, unread := c.paper(c.stderr), 0
	for _, n := range all {
		if n.ID == journal.UnreadableID {
			out.printHeadline(o, n)
			unread++
		}
	}
	if unread == 0 {
		return nil
	}
	return errors.New("publishing: nothing written, since the pages of what cannot be read would vanish; --remove-anyway if that is meant")
}

// written passes over the one fault of a Commit that leaves the new site in
// place, having told of it.
func (p *publishCommand) written(c *call, err error) error {
	var left *publish.LeftBehindError
	if errors.As(err, &left) {
		fmt.Fprintf(c.stderr, "gylebook: %v\n", err)
		return nil
	}
	return err
}

// report names each error and says what was written.
func (p *publishCommand) report(c *call, o *opened, all []notice.Notice, r publish.Report) int {
	errs, findings := split(all)
	out := c.paper(c.stderr)
	for _, n := range errs {
		out.printHeadline(o, n)
	}
	if !c.Quiet {
		says := fmt.Sprintf("%s: %s, %d of them new or changed, %s removed. Open %s.", p.To,
			count(r.Written+r.Unchanged, "file", "files"), r.Written, count(r.Removed, "file", "files"), filepath.Join(p.To, "index.html"))
		c.paper(c.stdout).answer(says)
		if counts := severityCounts(tally(errs, findings)); counts != "" {
			c.paper(c.stdout).answer(counts + ": on the site under Wants seeing to, or with gylebook verify.")
		}
	}
	if len(errs) > 0 {
		return exitSome
	}
	return exitDone
}

// build makes the site of a book, with drafts or without.
func (c *call) build(o *opened, b *book.Book, drafts bool) (*site.Site, error) {
	templates, err := c.templates()
	if err != nil {
		return nil, err
	}
	s, err := site.Build(b, site.Options{Templates: templates, Version: version(), Live: drafts, Files: o.files, Store: store.New(store.UserFolder())})
	if err != nil {
		return nil, fmt.Errorf("building the site: %w", err)
	}
	return s, nil
}

// put renders every page into the edition, on as many processors as there are.
func (c *call) put(edition *publish.Edition, pages []site.Page) error {
	ctx, stop := context.WithCancelCause(c.ctx)
	defer stop(nil)
	var next atomic.Int64
	var wait sync.WaitGroup
	progress := c.progress("pages", len(pages))
	defer progress.done()
	for range runtime.GOMAXPROCS(0) {
		wait.Go(func() {
			for ctx.Err() == nil {
				i := next.Add(1) - 1
				if i >= int64(len(pages)) {
					return
				}
				if err := putPage(edition, pages[i]); err != nil {
					stop(err)
				}
				progress.step()
			}
		})
	}
	wait.Wait()
	if c.ctx.Err() != nil {
		return errors.New("publishing: interrupted, nothing written")
	}
	return context.Cause(ctx)
}

func putPage(edition *publish.Edition, page site.Page) error {
	body, err := page.Render()
	if err != nil {
		return fmt.Errorf("making the page %s: %w", page.Path, err)
	}
	return edition.Put(page.Path, body)
}
