package main

import (
	"fmt"
	"io/fs"
	"slices"
	"time"

	"gylebook/internal/book"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
	"gylebook/internal/notice"
	"gylebook/internal/site"
)

type figuresCommand struct {
	Entry    string   `arg:"" name:"entry" help:"The gyle: its number, or its file."`
	JSON     bool     `name:"json" help:"Print JSON, as the site's figures.json."`
	Workings bool     `help:"Below each figure: its formula, the same with this gyle's numbers, the source, and what its uncertainty comes from."`
	Set      []string `placeholder:"KEY=VALUE" sep:"none" help:"Work it out as if the entry said so: racked.volume=20L, hops[0].weight=30g, readings[+].gravity=1.010; an empty value removes. May be given again."`
}

func (f *figuresCommand) Help() string {
	return "Prints one gyle's figures, then what is missing for others, what wants seeing to, why it may taste as its tasters say, and what to change next time. The entry itself is never changed. " +
		"Exit code 0: printed. 2: no such gyle, a front matter that is not YAML, or a --set that cannot be read."
}

// run prints one gyle's figures: 0; 2 the front matter is not YAML, no such
// gyle, or a --set that cannot be read.
func (f *figuresCommand) run(c *call) (int, error) {
	now, err := c.clock()
	if err != nil {
		return exitCannot, err
	}
	dir, names, err := c.locate([]string{f.Entry})
	if err != nil {
		return exitCannot, err
	}
	if len(names) == 0 {
		return exitCannot, fmt.Errorf("finding the gyle: %s is a whole journal; name one gyle, by its file or its number", f.Entry)
	}
	o, err := c.open(dir)
	if err != nil {
		return exitCannot, err
	}
	entry, err := o.theGyle(names[0])
	if err != nil {
		return exitCannot, err
	}
	if err := f.suppose(c, o, entry.File); err != nil {
		return exitCannot, err
	}
	now = now.In(o.zone())
	b := book.Open(o.Journal, now)
	g := b.GyleIn(entry.File)
	if g == nil {
		return exitCannot, fmt.Errorf("working out %s: with what --set says it is the entry of no gyle", o.shown(entry.File))
	}
	if g.Unread {
		c.paper(c.stderr).printErrors(o, g.Notices)
		return exitCannot, fmt.Errorf("working out %s: its front matter cannot be read", o.shown(entry.File))
	}
	if f.JSON {
		return exitDone, f.printJSON(c, g)
	}
	f.print(c, o, b, g)
	return exitDone, nil
}

// suppose puts the entry as the sets would have it in the place of the one on
// disk, in this reading of the journal only. A set that cannot be read is an
// error: the figures without it would answer another question.
func (f *figuresCommand) suppose(c *call, o *opened, file string) error {
	if len(f.Set) == 0 {
		return nil
	}
	raw, err := fs.ReadFile(o.files, file)
	if err != nil {
		return fmt.Errorf("reading the entry: %w", err)
	}
	supposed := journal.ReadFileSet(file, raw, o.Settings, f.Set)
	supposed.ReadLogOf(o.files, o.Settings, nil)
	if bad := slices.DeleteFunc(slices.Clone(supposed.Errors), isOfEntry); len(bad) > 0 {
		c.paper(c.stderr).printErrors(o, bad)
		return fmt.Errorf("working out %s: what --set says cannot be read", o.shown(file))
	}
	o.Journal = o.With(supposed)
	return nil
}

// isOfEntry tells a notice about the entry from one about a set.
func isOfEntry(n notice.Notice) bool { return n.Place.File != setFile }

// printErrors writes what cannot be read.
func (p paper) printErrors(o *opened, all []notice.Notice) {
	for _, n := range all {
		if n.Severity == notice.Unreadable {
			p.printNotice(o, n)
		}
	}
}

func (f *figuresCommand) printJSON(c *call, g *book.Gyle) error {
	asIs := func(text string) string { return text }
	out, err := figures.Encode(book.Publish(g.Sheet, g.Notices, asIs))
	if err != nil {
		return err
	}
	if _, err := c.stdout.Write(out); err != nil {
		return fmt.Errorf("writing the figures: %w", err)
	}
	return nil
}

// slender is the width that the table keeps to: a phone's, held upright or
// nearly.
const slender = 60

func (f *figuresCommand) print(c *call, o *opened, b *book.Book, g *book.Gyle) {
	out := c.paper(c.stdout)
	out.width = min(out.width, slender)
	f.printTitle(out, o, g, b.Now)
	told := site.Report(b, g)
	if f.Workings && told.Units != "" {
		fmt.Fprintln(out)
		out.hanging("", "", told.Units)
	}
	printFigures(out, told, f.Workings)
	printMissing(out, told.Missing)
	printVerdict(out, told.Verdict)
	printInShort(out, g)
	printDiagnosis(out, told)
	printNextTime(out, told.Proposals)
}

func (f *figuresCommand) printTitle(out paper, o *opened, g *book.Gyle, now time.Time) {
	out.hanging("", "  ", out.ink(bold, fmt.Sprintf("Gyle %d, %s: %s", g.Number.N, g.Beer.Text, g.Sheet.Stage)))
	out.hanging("", "  ", o.shown(g.File))
	fmt.Fprintf(out, "as at %s\n", now.Format("2006-01-02 15:04 MST"))
	for _, set := range f.Set {
		out.hanging("", "  ", "as if "+set)
	}
}

// printInShort is a line for each error and finding; verify tells the rest.
func printInShort(out paper, g *book.Gyle) {
	open := 0
	for _, n := range g.Notices {
		if n.Accepted != "" {
			continue
		}
		if open++; open == 1 {
			out.heading("Wants seeing to")
		}
		text := fmt.Sprintf("%s, line %d: %s [%s]", n.Severity, n.Place.Line, n.Says, n.ID)
		if n.Place.File != g.File {
			text = fmt.Sprintf("%s, %s: %s [%s]", n.Severity, n.Place, n.Says, n.ID)
		}
		out.hanging("  ", "    ", text)
	}
}
