package main

import (
	"encoding/json"
	"fmt"
	"slices"

	"gylebook/internal/book"
	"gylebook/internal/figures"
	"gylebook/internal/notice"
)

type verifyCommand struct {
	Of     []string `arg:"" optional:"" name:"journal or entry" help:"The journal's folder, or the entries to speak of: files, or numbers of gyles."`
	JSON   bool     `name:"json" help:"Print JSON."`
	By     string   `name:"by" default:"gravest" enum:"gravest,line" help:"What comes first: the gravest, or by line of each file (${default})."`
	FailOn string   `name:"fail-on" placeholder:"WORD" default:"danger" enum:"note,look,mend,danger" help:"Exit with 1 at a finding that is this grave or graver: note, look, mend or danger (${default})."`
}

func (v *verifyCommand) Help() string {
	return "Prints each error and finding as file:line:col: severity: text [id], why it matters and what to do: the gravest first, or with --by line in the order of each file. " +
		"Made for a git hook. Exit code 0: none as grave as --fail-on. 1: some. 2: something in an entry cannot be read."
}

// run prints errors and findings: 0 none as grave as --fail-on; 1 some;
// 2 something in an entry cannot be read.
func (v *verifyCommand) run(c *call) (int, error) {
	now, err := c.clock()
	if err != nil {
		return exitCannot, err
	}
	dir, names, err := c.locate(v.Of)
	if err != nil {
		return exitCannot, err
	}
	o, err := c.open(dir)
	if err != nil {
		return exitCannot, err
	}
	b := book.Open(o.Journal, now.In(o.zone()))
	s, err := c.build(o, b, true)
	if err != nil {
		return exitCannot, err
	}
	all := allNotices(b, s)
	wanted, err := o.wanted(names)
	if err != nil {
		return exitCannot, err
	}
	if len(names) > 0 {
		all = only(b, all, wanted)
	}
	limit, _ := notice.ParseSeverity(v.FailOn)
	if err := v.print(c, o, all, len(wanted), limit); err != nil {
		return exitCannot, fmt.Errorf("writing the findings: %w", err)
	}
	return verdict(all, limit), nil
}

// verdict is the exit code: unreadable outranks grave.
func verdict(all []notice.Notice, limit notice.Severity) int {
	exit := exitDone
	for _, n := range all {
		switch {
		case n.Severity == notice.Unreadable:
			return exitCannot
		case n.Severity >= limit && n.Accepted == "":
			exit = exitSome
		}
	}
	return exit
}

func (v *verifyCommand) print(c *call, o *opened, all []notice.Notice, files int, limit notice.Severity) error {
	if v.JSON {
		return printNoticesJSON(c, all)
	}
	out := c.paper(c.stdout)
	if v.By != "line" {
		all = slices.Clone(all)
		slices.SortStableFunc(all, func(a, b notice.Notice) int { return int(b.Severity) - int(a.Severity) })
	}
	for _, n := range all {
		if n.Accepted == "" && (!c.Quiet || n.Severity >= limit) {
			out.printNotice(o, n)
		}
	}
	if !c.Quiet {
		of := count(len(o.Gyles), "gyle", "gyles")
		if files > 0 {
			of = count(files, "entry", "entries")
		}
		out.printClosing(o, of, all)
	}
	return nil
}

// printClosing says how many there were, and names the dangers once more, since
// they have scrolled away.
func (p paper) printClosing(o *opened, of string, all []notice.Notice) {
	counts := tally(all)
	says := severityCounts(counts)
	if says == "" {
		says = "nothing wants seeing to"
	}
	accepted := len(slices.DeleteFunc(slices.Clone(all), func(n notice.Notice) bool { return n.Accepted == "" }))
	if accepted > 0 {
		says += fmt.Sprintf(" (%d accepted)", accepted)
	}
	if len(counts) > 0 {
		fmt.Fprintln(p)
	}
	p.hanging("", "", of+": "+says+".")
	for _, n := range all {
		if n.Severity == notice.Danger {
			p.printHeadline(o, n)
		}
	}
}

// verifyJSON is what verify --json prints.
type verifyJSON struct {
	Errors   []figures.NoticeJSON `json:"errors"`
	Findings []figures.NoticeJSON `json:"findings"`
}

func printNoticesJSON(c *call, all []notice.Notice) error {
	errs, findings := split(all)
	out := json.NewEncoder(c.stdout)
	out.SetEscapeHTML(false)
	out.SetIndent("", " ")
	return out.Encode(verifyJSON{figures.NoticesJSON(errs, ""), figures.NoticesJSON(findings, "")})
}
