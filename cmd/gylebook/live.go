package main

import (
	"errors"
	"fmt"
	"strings"
	"syscall"
	"time"

	"gylebook/internal/live"
	"gylebook/internal/notice"
)

type liveCommand struct {
	Dir string `arg:"" optional:"" name:"journal" help:"The journal's folder."`
	At  string `placeholder:"HOST:PORT" default:"127.0.0.1:4380" help:"Where to listen (${default}): this machine only, unless you say otherwise."`
}

func (l *liveCommand) Help() string {
	return "Serves the site from memory, drafts included, and keeps open pages as the journal is saved, where they stand. An entry that cannot be read yet is shown as it was, with the error over it. Nothing is written. Stop it with Ctrl-C."
}

// run serves until it is interrupted: 0; 2 it could not begin.
func (l *liveCommand) run(c *call) (int, error) {
	if _, err := c.clock(); err != nil {
		return exitCannot, err
	}
	dir, err := c.findJournal(l.Dir)
	if err != nil {
		return exitCannot, err
	}
	templates, err := c.templates()
	if err != nil {
		return exitCannot, err
	}
	o := &opened{dir: dir}
	out := c.paper(c.stdout)
	err = live.Serve(c.ctx, live.Options{
		Journal: dir, Address: l.At, Templates: templates, TemplatesDir: c.Templates, Version: version(),
		Now: func() time.Time {
			now, _ := c.clock() // asked once above
			return now
		},
		Started: func(address string, loopback bool) { c.printStarted(out, dir, address, loopback) },
		Warned:  func(says string) { fmt.Fprintln(c.stderr, "gylebook: "+says) },
		Report:  func(r live.Rebuild) { c.printRebuild(out, o, r) },
	})
	if errors.Is(err, syscall.EADDRINUSE) {
		return exitCannot, fmt.Errorf("listening on %s: another program has that port; stop it, or choose another with --at", l.At)
	}
	return exitDone, err
}

func (c *call) printStarted(out paper, dir, address string, loopback bool) {
	if c.Quiet {
		return
	}
	fmt.Fprintf(out, "%s is open at %s. Stop with Ctrl-C.\n", dir, address)
	if !loopback {
		out.indented("", "Anyone who can reach this machine can read it there, drafts and private names included.")
	}
}

// printRebuild writes a line for a build, and the errors and findings that it
// brought or cured.
func (c *call) printRebuild(out paper, o *opened, r live.Rebuild) {
	if r.Err != nil {
		fmt.Fprintf(c.stderr, "gylebook: building the site again: %v; the last one stands\n", r.Err)
		return
	}
	if !c.Quiet {
		fmt.Fprintln(out, rebuildLine(r))
	}
	for _, n := range r.New {
		if !c.Quiet || n.Severity >= notice.Danger {
			out.printHeadline(o, n)
		}
	}
	for _, n := range r.Cured {
		if !c.Quiet {
			fmt.Fprintf(out, "%s: cured: %s\n", o.shown(n.Place.File), n.ID)
		}
	}
}

// rebuildLine says what was saved, how long the build took, and what there is
// to see to.
func rebuildLine(r live.Rebuild) string {
	says := fmt.Sprintf("built in %d ms", r.Took.Milliseconds())
	if !r.First {
		says = what(r) + ": re" + says
	}
	if counts := severityCounts(r.Notices); counts != "" {
		says += "; " + counts
	}
	if !r.First && len(r.New)+len(r.Cured) > 0 {
		says += fmt.Sprintf("; %d new, %d cured", len(r.New), len(r.Cured))
	}
	return says
}

// what was saved, in a few words.
func what(r live.Rebuild) string {
	const most = 3
	switch {
	case len(r.Changed) == 0 || r.Changed[0] == "":
		return "many changes"
	case len(r.Changed) > most:
		return fmt.Sprintf("%s and %d more", strings.Join(r.Changed[:most], ", "), len(r.Changed)-most)
	}
	return strings.Join(r.Changed, ", ")
}
