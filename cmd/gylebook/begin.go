package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"time"

	"gylebook/internal/book"
	"gylebook/internal/journal"
	"gylebook/internal/scribe"
)

type beginCommand struct {
	Name  []string `arg:"" optional:"" help:"The beer's name. Without it: that of the gyle it follows."`
	After string   `placeholder:"GYLE" help:"The gyle that this one revises: its recipe is carried over, and what it taught stands above it as comments."`
	As    string   `placeholder:"WAY" help:"A short entry for one way of brewing: kit, extract, grain, cask, lager, sour, cider, mead or wine."`
}

func (b *beginCommand) Help() string {
	return "Starts a new entry, named by the next number and the beer, with a comment for every key. With --after it carries that gyle's aim, liquor, grist, mash, sparge, hops, finings and yeast, " +
		"but none of its readings and dates; the grist is scaled to the aim by your own median yield, once enough gyles have taught one. " +
		"With --as it is short, with what that way of brewing needs and an example of each behind #, which is not read. " +
		"Where there is no journal yet, it starts that too: in --journal, else in the folder journal. Nothing that is there is overwritten. " +
		"Exit code 0: begun. 2: not."
}

// run starts an entry, and a journal around it if there is none: 0; 2 it could
// not.
func (b *beginCommand) run(c *call) (int, error) {
	if b.As != "" && (b.After != "" || !slices.Contains(scribe.Ways(), b.As)) {
		return exitCannot, fmt.Errorf("beginning as %s: say one of %s, and without --after", b.As,
			strings.Join(scribe.Ways(), ", "))
	}
	now, err := c.clock()
	if err != nil {
		return exitCannot, err
	}
	dir, err := c.findJournal("")
	if err != nil {
		if dir, err = b.newJournal(c, err); err != nil {
			return exitCannot, err
		}
	}
	err = scribe.Hold(dir, func() error { return b.begin(c, dir, now) })
	if err != nil {
		return exitCannot, err
	}
	return exitDone, nil
}

// newJournal makes the folder and the settings of a journal where none was
// found, for the reason missing. A folder that is named must be empty or not
// there.
func (b *beginCommand) newJournal(c *call, missing error) (dir string, err error) {
	if b.After != "" {
		return "", missing // there is no gyle to follow
	}
	dir = c.Journal
	if dir == "" {
		dir = "journal"
	}
	there, err := os.ReadDir(dir)
	switch {
	case err == nil && len(there) > 0:
		return "", fmt.Errorf("starting a journal in %s: there are files in it, and no index.md with journal: in that; name another folder with --journal", dir)
	case err != nil && !errors.Is(err, fs.ErrNotExist):
		return "", fmt.Errorf("starting a journal: %w", err)
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return "", fmt.Errorf("starting a journal: %w", err)
	}
	zone := c.homeZone()
	if err := scribe.Create(dir, scribe.NewJournal("The brewing book", zone), scribe.Folders()...); err != nil {
		return "", fmt.Errorf("starting a journal: %w", err)
	}
	if !c.Quiet {
		out := c.paper(c.stdout)
		out.indented("", fmt.Sprintf("%s is a journal now. Its settings are in %s: give it a title.", dir, filepath.Join(dir, "index.md")))
		if zone == "" {
			out.indented("", "Say there, too, where its clock stands (time_zone); it is UTC until then.")
		}
	}
	return dir, nil
}

// homeZone is the name of this machine's time zone, "" where it does not say.
func (c *call) homeZone() string {
	zone := c.getenv("TZ")
	if zone == "" {
		link, _ := os.Readlink("/etc/localtime")
		_, zone, _ = strings.Cut(filepath.ToSlash(link), "zoneinfo/")
	}
	if _, err := time.LoadLocation(zone); err != nil || zone == "Local" || strings.ContainsAny(zone, ":#") {
		return ""
	}
	return zone
}

// begin writes the entry.
func (b *beginCommand) begin(c *call, dir string, now time.Time) error {
	o, err := c.open(dir)
	if err != nil {
		return err
	}
	plan, after, err := b.plan(o)
	if err != nil {
		return err
	}
	file := path.Join(folderOf(o, after), scribe.FileName(plan.Number, plan.Beer))
	text, err := b.draft(o, &plan, after, file, now.In(o.zone()))
	if err != nil {
		return err
	}
	if err := scribe.Create(dir, []scribe.File{{Name: file, Text: text}}); err != nil {
		return err
	}
	b.print(c, o, plan, file)
	return nil
}

// plan is the number, the name and the recipe.
func (b *beginCommand) plan(o *opened) (plan scribe.Plan, after *journal.Gyle, err error) {
	plan = scribe.Plan{Number: nextNumber(o), Beer: strings.TrimSpace(strings.Join(b.Name, " "))}
	if n, err := strconv.Atoi(plan.Beer); err == nil {
		return plan, nil, fmt.Errorf("beginning %s: that is a number and no name; to carry on from gyle %d, say --after %d", plan.Beer, n, n)
	}
	if b.After != "" {
		if after, err = o.theGyle(b.After); err != nil {
			return plan, nil, errors.New(err.Error() + o.nearNumber(b.After))
		}
		raw, err := fs.ReadFile(o.files, after.File)
		if err != nil {
			return plan, nil, fmt.Errorf("reading the entry to follow: %w", err)
		}
		if plan.After, err = scribe.RecipeOf(after, raw); err != nil {
			return plan, nil, fmt.Errorf("following %s: %w", o.shown(after.File), err)
		}
		if plan.Beer == "" {
			plan.Beer = after.Beer.Text
		}
	}
	if plan.Beer == "" {
		plan.Beer = fmt.Sprintf("Gyle %d", plan.Number)
	}
	return plan, after, nil
}

// nextNumber is the number after the highest that a gyle has or had.
func nextNumber(o *opened) int {
	last := 0
	for _, g := range o.Gyles {
		last = max(last, g.Number.N)
		for _, old := range g.Formerly {
			last = max(last, old.N)
		}
	}
	return last + 1
}

// folderOf is where the new entry goes: beside the one it follows, else beside
// the latest, else in gyles.
func folderOf(o *opened, after *journal.Gyle) string {
	if after == nil && len(o.Gyles) > 0 {
		after = o.Gyles[len(o.Gyles)-1]
	}
	if after == nil {
		return "gyles"
	}
	return path.Dir(after.File)
}

// draft is the entry's text, its grist scaled. What gylebook could not read
// itself it does not write.
func (b *beginCommand) draft(o *opened, plan *scribe.Plan, after *journal.Gyle, file string, now time.Time) ([]byte, error) {
	text := scribe.Draft(*plan)
	if b.As != "" {
		text = scribe.Begun(*plan, b.As)
	}
	if after != nil {
		b.learn(o, plan, after, file, text, now)
		text = scribe.Draft(*plan)
	}
	d := journal.ReadFile(file, text, o.Settings)
	if len(d.Errors) > 0 || d.Gyle == nil {
		return nil, fmt.Errorf("beginning %s: what the recipe says of %s cannot be read: %s; put that right first", file, d.Errors[0].Of, d.Errors[0].Says)
	}
	return text, nil
}

// learn puts into the plan what the gyle it follows and those before it taught.
func (b *beginCommand) learn(o *opened, plan *scribe.Plan, after *journal.Gyle, file string, text []byte, now time.Time) {
	k := book.Open(o.With(journal.ReadFile(file, text, o.Settings)), now)
	if g := k.GyleIn(file); g != nil {
		plan.After.Scale, plan.Grist = scaling(g, after.Number.N)
	}
	plan.Notes = lessons(k, k.GyleIn(after.File), plan.After.Scale != 1)
}

func (b *beginCommand) print(c *call, o *opened, plan scribe.Plan, file string) {
	if c.Quiet {
		return
	}
	out := c.paper(c.stdout)
	says := fmt.Sprintf("%s is gyle %d, %s", o.shown(file), plan.Number, plan.Beer)
	if plan.After != nil {
		says += fmt.Sprintf(", after gyle %d", plan.After.Number)
	}
	out.answer(says + ".")
	if plan.Grist != "" {
		out.indented("  ", plan.Grist)
	}
	if plan.After == nil {
		for _, g := range o.Gyles {
			if strings.EqualFold(g.Beer.Text, plan.Beer) {
				out.indented("  ", fmt.Sprintf("Gyle %d is called so too: begin --after %d would have carried its recipe.", g.Number.N, g.Number.N))
			}
		}
	}
	out.answer(fmt.Sprintf("Fill in what you mean to brew; gylebook figures %d says what it should come to.", plan.Number))
}
