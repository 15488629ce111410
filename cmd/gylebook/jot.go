package main

import (
	"errors"
	"fmt"
	"io/fs"
	"strconv"
	"strings"
	"time"

	"gylebook/internal/book"
	"gylebook/internal/journal"
	"gylebook/internal/scribe"
	"gylebook/internal/store"
)

type jotCommand struct {
	Gyle    string   `arg:"" help:"The gyle: its number, or its file."`
	Reading []string `arg:"" help:"What was read or done."`
	When    string   `placeholder:"TIME" help:"When it was, if not now: 16:10 today, 2026-03-07, or \"2026-03-07 16:10\"."`
	Instead bool     `help:"Put it in the place of what the entry says: of the last thing said of that kind."`
	DryRun  bool     `name:"dry-run" help:"Show what would be written and what it would come to, and write nothing."`
}

// Help lists what can be jotted, from the scribe's own table.
func (j *jotCommand) Help() string {
	var b strings.Builder
	b.WriteString("Writes a reading or a deed into the head of an entry, with the time, and leaves every other byte as it was. " +
		"A value goes where its unit belongs; one that has no place of itself takes a key before it, as `gylebook words` lists them: 1.022 sample_at 24C with refractometer. " +
		"Words to note go in quotation marks.\n\n")
	var deeds []string
	for _, p := range scribe.Places() {
		if p.Deed() {
			deeds = append(deeds, p.Words)
			continue
		}
		fmt.Fprintf(&b, "  jot 14 %s\n      %s\n", p.Eg, p.Says)
	}
	fmt.Fprintf(&b, "  jot 14 vented package 0\n  jot 14 cleaned \"hand pump and line\" with \"line cleaner\"\n      deeds: %s\n", strings.Join(deeds, ", "))
	b.WriteString("\nSay it as you would: sg 1.012 at 20C, bottled 38, dry hopped 20 g goldings; what is not understood for certain is refused, and kept as words by jot 14 note WORDS. A time may end the line: @16:10. " +
		"What the entry says already is not overwritten, but by jot 14 not 1.022 but 1.012, or with --instead; what was there is shown. A container that the entry plans is filled, and takes the number that it came to. A value that begins with - goes after --. " +
		"Exit code 0: written. 2: nothing was written, for the reason given.")
	return b.String()
}

// run writes a jotting and tells what it comes to: 0; 2 nothing was written.
func (j *jotCommand) run(c *call) (int, error) {
	now, err := c.clock()
	if err != nil {
		return exitCannot, err
	}
	dir, names, err := c.locate([]string{j.Gyle})
	if err != nil {
		return exitCannot, err
	}
	if len(names) == 0 {
		return exitCannot, fmt.Errorf("finding the gyle: %s is a whole journal; name one gyle, by its file or its number", j.Gyle)
	}
	o, err := c.open(dir)
	if err != nil {
		return exitCannot, err
	}
	entry, err := o.theGyle(names[0])
	if err != nil {
		return exitCannot, errors.New(err.Error() + o.nearNumber(names[0]))
	}
	when := scribe.Now(now, o.zone())
	if rest, at := scribe.Timed(j.Reading); at != "" && j.When == "" && len(rest) > 0 {
		j.Reading, j.When = rest, at
	}
	if j.When != "" {
		if when, err = scribe.At(j.When, now, o.zone()); err != nil {
			return exitCannot, err
		}
	}
	edit, err := j.write(o, entry.File, when)
	if err != nil {
		return exitCannot, c.refused(o, entry.File, err)
	}
	j.print(c, o, edit, now.In(o.zone()))
	return exitDone, nil
}

// write makes the edit and, unless it is only to be shown, saves it.
func (j *jotCommand) write(o *opened, file string, when scribe.When) (*scribe.Edit, error) {
	make := func(raw []byte) (*scribe.Edit, error) {
		d := journal.ReadFile(file, raw, o.Settings)
		if d.Gyle == nil {
			return nil, &scribe.Refusal{Reason: "it is not the entry of a gyle", Notices: d.Errors}
		}
		var jotting scribe.Jotting
		var err error
		if j.Instead || scribe.Correction(j.Reading) {
			jotting, err = scribe.Correct(j.Reading, when, d.Gyle, o.Settings, raw)
		} else {
			jotting, err = scribe.Understand(j.Reading, when, d.Gyle, o.Settings)
		}
		if err != nil {
			return nil, err
		}
		return scribe.Write(file, raw, o.Settings, jotting)
	}
	if !j.DryRun {
		return scribe.Save(o.dir, file, make)
	}
	raw, err := fs.ReadFile(o.files, file)
	if err != nil {
		return nil, fmt.Errorf("reading the entry: %w", err)
	}
	return make(raw)
}

// refused prints what could not be read, if that is why nothing was written, and
// gives the reason.
func (c *call) refused(o *opened, file string, err error) error {
	var why *scribe.Refusal
	if !errors.As(err, &why) {
		return fmt.Errorf("writing into %s: %w", o.shown(file), err)
	}
	c.paper(c.stderr).printErrors(o, why.Notices)
	return fmt.Errorf("nothing was written into %s: %w", o.shown(file), err)
}

// print shows what was written and what it comes to.
func (j *jotCommand) print(c *call, o *opened, e *scribe.Edit, now time.Time) {
	if c.Quiet {
		return
	}
	out := c.paper(c.stdout)
	if j.DryRun {
		fmt.Fprintf(out, "%s would be changed so:\n%s", o.shown(e.File), e.Diff())
	} else {
		for _, l := range e.Lines() {
			fmt.Fprintf(out, "%s, line %d:\n  %s\n", o.shown(e.File), l.Number, l.Text)
			if e.Replaces() {
				fmt.Fprintf(out, "  instead of:\n  %s\n", l.Was)
			}
		}
	}
	for _, remark := range e.Remarks {
		out.indented("  ", remark)
	}
	kept := store.New(nil) // the other gyles are the same before and after
	before := book.OpenWith(kept, o.With(o.asWritten(e.File, e.Before)), now)
	after := book.OpenWith(kept, o.With(o.asWritten(e.File, e.After)), now)
	printOutcome(out, o, e.File, before, after)
}

// nearNumber suggests the nearest number of a gyle where one was named that is
// not there.
func (o *opened) nearNumber(name string) string {
	n, err := strconv.Atoi(name)
	if err != nil || o.Gyle(n) != nil {
		return ""
	}
	best := 0
	for _, g := range o.Gyles {
		if g.Number.Written() && (best == 0 || distance(g.Number.N, n) < distance(best, n)) {
			best = g.Number.N
		}
	}
	if best == 0 {
		return ""
	}
	return fmt.Sprintf("; the nearest is %d, %s", best, o.Gyle(best).Beer.Text)
}

func distance(a, b int) int { return max(a-b, b-a) }
