// Package healthy has the entries that examples are made of: gyles in which all is
// well, one for each stretch of a gyle's life, with the cards and the settings that
// they stand among. Rules and causes declare an example as one of these with a few
// values changed; tests work it out with Sheet. It is for tests only.
package healthy

import (
	"cmp"
	"embed"
	"io/fs"
	"os"
	"slices"
	"sync"
	"testing"
	"time"

	"go.yaml.in/yaml/v4"

	"gylebook/internal/figures"
	"gylebook/internal/journal"
	"gylebook/internal/notice"
	q "gylebook/internal/quantity"
)

// SettingsWith is a journal's settings with limits in them, as typed.
func SettingsWith(t testing.TB, limits string) *journal.Settings {
	t.Helper()
	d := journal.ReadFile("index.md", []byte("---\njournal: x\nlimits: {"+limits+"}\n---\n"), nil)
	for _, e := range d.Errors {
		t.Fatalf("%s: %s", limits, e)
	}
	return d.Settings
}

// Limited is a sheet worked out under other limits.
func Limited(t testing.TB, s *figures.Sheet, limits string) *figures.Sheet {
	t.Helper()
	context := s.Context
	context.Settings = SettingsWith(t, limits)
	return figures.Work(s.Gyle, context)
}

//go:embed entries
var embedded embed.FS

// Entries is the journal's folder.
var Entries = func() fs.FS {
	sub, err := fs.Sub(embedded, "entries")
	if err != nil {
		panic(err) // the name stands above
	}
	return sub
}()

// Days are the entries that rules are shown by, each with the day on which
// it is looked at.
var Days = map[string]string{
	"planned": "", "mashing": "2026-03-01 09:40", "pitching": "2026-03-01", "working": "", "logged": "2026-03-06",
	"bottled": "", "bagged": "", "casked": "", "kegged": "", "barrelled": "", "pouring": "2026-03-28",
}

// Journal is the journal that the example entries stand in.
var Journal = sync.OnceValue(func() *journal.Journal { return journal.Read(Entries, journal.Options{}) })

// Clock reads the moment that a rule's example or a table is looked at: noon
// where only the day is given.
func Clock(t testing.TB, text string) time.Time {
	t.Helper()
	now, dateOnly, wrong := journal.ParseMoment(text, time.UTC)
	if wrong != nil {
		t.Fatal(wrong)
	}
	if dateOnly {
		now = now.Add(12 * time.Hour)
	}
	return now
}

// Sheet is an entry worked out with some values changed, each KEY=VALUE as a what-if
// takes it, on a day: "" is noon of 2026-03-20.
func Sheet(t testing.TB, entry string, day string, sets ...string) *figures.Sheet {
	t.Helper()
	j := Journal()
	for _, e := range j.Errors {
		t.Errorf("the example entries have an error: %s", e)
	}
	name := entry + ".md"
	raw, err := fs.ReadFile(Entries, name)
	if err != nil {
		t.Fatal(err)
	}
	d := journal.ReadFileSet(name, raw, j.Settings, sets)
	d.ReadLogOf(Entries, j.Settings, nil)
	for _, e := range d.Errors {
		t.Errorf("%s with %v: %s", name, sets, e)
	}
	if day == "" {
		day = "2026-03-20"
	}
	return figures.Work(d.Gyle, figures.Context{Larder: j.Larder, Settings: j.Settings, Now: Clock(t, day)})
}

// Example shows a rule or a cause by an entry that raises it, and one that comes as near
// as can be and does not.
type Example struct {
	Word   string   `yaml:"word"` // of a cause: what tasters found
	In     string   `yaml:"in"`   // the entry
	Day    string   `yaml:"day"`  // or the day and hour
	Raises []string `yaml:"raises"`
	Spares []string `yaml:"spares"`
}

// Raised is the sheet that raises what the example is of.
func (e Example) Raised(t testing.TB) *figures.Sheet {
	t.Helper()
	return e.With(t, e.Raises...)
}

// Spared is the sheet that comes near and does not.
func (e Example) Spared(t testing.TB) *figures.Sheet {
	t.Helper()
	return e.With(t, e.Spares...)
}

// With is the entry with some values changed. The word of a cause is found at the first
// tasting, of the beer that is on tap where no entry is named.
func (e Example) With(t testing.TB, sets ...string) *figures.Sheet {
	t.Helper()
	if e.Word != "" {
		found := []string{"tastings[0].found[+]=" + e.Word}
		if e.In != "" {
			found = slices.Insert(found, 0, "tastings[+].when=2026-03-26")
		}
		sets = append(found, sets...)
		e.In, e.Day = cmp.Or(e.In, "pouring"), cmp.Or(e.Day, "2026-03-28")
	}
	return Sheet(t, e.In, e.Day, sets...)
}

// Examples reads a file of examples, by what each is of.
func Examples(t testing.TB, file string) map[string]Example {
	t.Helper()
	raw, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	var all map[string]Example
	if err := yaml.Load(raw, &all, yaml.WithKnownFields()); err != nil {
		t.Fatalf("%s: %s", file, err)
	}
	return all
}

// WithID are the notices of one finding.
func WithID(notices []notice.Notice, id string) []notice.Notice {
	return slices.DeleteFunc(slices.Clone(notices), func(n notice.Notice) bool { return n.ID != id })
}

// Gravest is the gravest severity of some notices, −1 where there are none.
func Gravest(notices []notice.Notice) notice.Severity {
	worst := notice.Severity(-1)
	for _, n := range notices {
		worst = max(worst, n.Severity)
	}
	return worst
}

// InUnits is a sheet worked out with other units set.
func InUnits(s *figures.Sheet, units string) *figures.Sheet {
	settings := journal.Settings{}
	if s.Settings != nil {
		settings = *s.Settings
	}
	settings.Units = journal.Units{All: journal.Choice[q.System]{Word: q.System(units)}}
	context := s.Context
	context.Settings = &settings
	return figures.Work(s.Gyle, context)
}
