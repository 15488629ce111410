package rules_test

import (
	"slices"
	"strings"
	"testing"

	"gylebook/internal/assay/healthy"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
	"gylebook/internal/notice"
	"gylebook/internal/rules"
)

const cellarBook = "testdata/cellar-book"

// deserved is what an entry of the cellar book deserves on a day: its dangers
// and mends, ids with the container where they are about one. The story stands in
// the entry's first comment.
type deserved struct {
	file, on string
	dangers  []string
	mends    []string
}

var verdicts = []deserved{
	{file: "01-thursday", on: "2026-02-10", dangers: []string{"bottle-limit packages[0]", "not-finished packages[0]"}},
	{file: "02-dry-as-a-bone", on: "2026-02-05", dangers: []string{"over-attenuated"}},
	{file: "03-wheat-and-fizz", on: "2026-03-05", dangers: []string{"bottle-limit packages[0]"}},
	{file: "04-the-glasshouse", on: "2026-06-15", dangers: []string{"pressure-high packages[0]"}},
	{file: "04-the-glasshouse", on: "2026-06-01", dangers: []string{"pressure-high packages[0]"}}, // planned: not there, then
	{file: "05-three-demijohns", on: "2026-03-20", dangers: []string{"rating-unknown packages[0]"}, mends: []string{"vessel-unknown packages[0]"}},
	{file: "06-lively-barrel", on: "2026-02-05", dangers: []string{"barrel-over packages[0]"}},
	{file: "07-lemonade-glass", on: "2026-03-01", dangers: []string{"bottle-unfit packages[1]", "bottle-unfit packages[2]"}},
	{file: "08-uncles-keg", on: "2026-04-01", dangers: []string{"keg-no-relief packages[0]"}},
	{file: "09-party-keg", on: "2026-04-01", dangers: []string{"keg-no-relief packages[0]", "pressure-high packages[0]"}},
	{file: "10-green-and-quick", on: "2026-03-10", dangers: []string{"hop-creep packages[0]"}},
	{file: "11-purple-line", on: "2026-03-21 12:30", dangers: []string{"rinse-missing"}},
	{file: "11-purple-line", on: "2026-03-20"}, // the day before
	{file: "12-belt-and-braces", on: "2026-03-21", dangers: []string{"cleaner-mix"}},
	{file: "12-belt-and-braces", on: "2026-03-20", dangers: []string{"cleaner-mix"}}, // planned, and time to think again
	{file: "13-milk-stout", on: "2026-03-01", dangers: []string{"allergen-missing"}},
	{file: "14-family-lunch", on: "2026-03-05", dangers: []string{"under-age"}},
	{file: "15-under-the-stairs", on: "2026-02-03", dangers: []string{"co2-space"}},
	{file: "16-rain-stopped-play", on: "2026-03-14 11:00", dangers: []string{"burner-indoors"}},
	{file: "17-the-cube", on: "2026-03-06", dangers: []string{"wort-waits"}},
	{file: "17-the-cube", on: "2026-03-03"}, // two days are only a look
	{
		file: "18-everything-at-once", on: "2026-02-10",
		dangers: []string{"bottle-limit packages[0]", "not-finished packages[0]", "not-finished packages[1]", "rating-unknown packages[1]"},
		mends:   []string{"vessel-unknown packages[1]"},
	},
	{file: "19-no-readings", on: "2026-03-20", dangers: []string{"not-finished packages[0]"}},
	{file: "20-puddler", on: "2026-03-01"},
	{file: "20-puddler", on: "2026-02-07 09:30"},
	{file: "20-puddler", on: "2026-02-11"},
	{file: "21-bag-for-the-fete", on: "2026-05-29"},
	{file: "22-waited-for-the-hops", on: "2026-03-10"},
	{file: "23-garage-lager", on: "2026-02-20"},
	{file: "24-racked-early", on: "2026-03-15", mends: []string{"not-finished packages[0]", "pressure-high packages[0]"}},
	{
		file: "25-swollen-bag", on: "2026-03-15",
		dangers: []string{"bag-will-swell packages[0]"}, // most likely near a bar: no bag is made for that
		mends:   []string{"not-finished packages[0]"},
	},
	{file: "26-sulking-porter", on: "2026-02-23", mends: []string{"stuck"}},
	{file: "27-on-paper", on: "2026-04-01"},
	{file: "28-kitchen-induction", on: "2026-03-14 09:30", mends: []string{"mash-ph-off"}},
	{file: "29-ring-last-month", on: "2026-03-10"},
	{file: "30-all-drunk", on: "2026-05-01"},
	{
		file: "30-all-drunk", on: "2026-01-20", // while there was still something to fear
		dangers: []string{"bottle-limit packages[0]", "bottle-unfit packages[0]", "not-finished packages[0]"},
	},
	{file: "31-farmhouse", on: "2026-04-10"},
	{file: "32-aired-cellar", on: "2026-02-03"},
	{file: "33-yeast-forgotten", on: "2026-03-08 18:00", mends: []string{"og-off"}},
	{file: "34-plastic-and-hops", on: "2026-03-10", mends: []string{"hop-creep packages[0]"}},
	{file: "35-read-again", on: "2026-03-20"},
	{file: "35-read-again", on: "2026-03-10", dangers: []string{"hop-creep packages[0]"}}, // before it was answered
	{
		file: "37-boot-of-the-car", on: "2026-06-15 12:00",
		dangers: []string{"bag-will-swell packages[1]", "place-too-hot packages[0]"},
	},
	{
		file: "36-slow-cask", on: "2026-02-27",
		mends: []string{"beer-ph-off", "diet-claim", "label-abv", "line-overdue"},
	},
}

// TestCellarBook holds the findings to what each entry deserves: no danger
// missed, none raised that is none, and the same of mends.
func TestCellarBook(t *testing.T) {
	j := readBook(t)
	for _, want := range verdicts {
		t.Run(want.file+" on "+want.on, func(t *testing.T) {
			found := rules.Examine(sheetIn(t, j, want.file, want.on))
			for severity, ids := range map[notice.Severity][]string{notice.Danger: want.dangers, notice.Mend: want.mends} {
				if got := graded(found, severity); !slices.Equal(got, ids) {
					t.Errorf("%s: %q, deserved %q", severity, got, ids)
				}
			}
		})
	}
}

// TestCellarBookIsWide: every entry is judged, every danger and every severity
// occurs.
func TestCellarBookIsWide(t *testing.T) {
	j := readBook(t)
	judged, dangers, severities := map[string]bool{}, map[string]bool{}, map[notice.Severity]bool{}
	for _, v := range verdicts {
		judged[v.file+".md"] = true
		for _, n := range rules.Examine(sheetIn(t, j, v.file, v.on)) {
			severities[n.Severity] = true
			if n.Severity == notice.Danger {
				dangers[n.ID] = true
			}
		}
	}
	for _, g := range j.Gyles {
		if !judged[g.File] {
			t.Errorf("%s is in the book and nobody judges it", g.File)
		}
	}
	for _, r := range rules.Rules() {
		if r.Worst == notice.Danger && !dangers[r.ID] {
			t.Errorf("no entry shows the danger %s", r.ID)
		}
	}
	for s := notice.Note; s <= notice.Danger; s++ {
		if !severities[s] {
			t.Errorf("no entry shows a %s", s)
		}
	}
	if len(j.Gyles) < 30 {
		t.Errorf("only %d entries", len(j.Gyles))
	}
}

func readBook(t *testing.T) *journal.Journal {
	t.Helper()
	j := readAll(cellarBook)
	for _, e := range j.Errors {
		t.Fatal(e)
	}
	return j
}

func sheetIn(t *testing.T, j *journal.Journal, file, on string) *figures.Sheet {
	t.Helper()
	for _, g := range j.Gyles {
		if g.File == file+".md" {
			return figures.Work(g, figures.Context{Larder: j.Larder, Settings: j.Settings, Now: healthy.Clock(t, on)})
		}
	}
	t.Fatalf("%s is not in the book", file)
	return nil
}

// graded are the findings of one severity, sorted: the id, and the container it
// is about.
func graded(found []notice.Notice, severity notice.Severity) []string {
	var ids []string
	for _, n := range found {
		if n.Severity == severity {
			ids = append(ids, strings.TrimSpace(n.ID+" "+n.Of))
		}
	}
	slices.Sort(ids)
	return ids
}

// readAll is a journal that is kept for tests.
func readAll(dir string) *journal.Journal {
	fsys, err := journal.Root(dir)
	if err != nil {
		panic(err) // of a test, which has no entries then
	}
	return journal.Read(fsys, journal.Options{})
}
