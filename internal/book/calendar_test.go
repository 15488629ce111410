package book

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"gylebook/internal/figures"
	"gylebook/internal/journal"
)

func TestCalendar(t *testing.T) {
	b := open(t, entries{
		"1.md": `gyle: 1
beer: A
brewed: 2026-05-01
yeast: {yeast: house ale, pitched: 2026-05-01 14:00}
hops: [{hop: goldings, weight: 15 g, dry: 3 days, when: 2026-05-30}]
racked: {on: 2026-06-03, volume: 20 L}
packages: [{vessel: pin, on: 2026-06-03, broached: 2026-06-20}, {vessel: pin, on: 2026-05-31, emptied: 2026-05-31}]
party: {on: 2026-06-20, occasion: Midsummer}`,
	})
	want := `2026-05-01 Brewed gyle-1-brewed
2026-05-01 14:00 Pitched with house ale gyle-1-yeast-0-pitched
2026-05-30 Hops in: 15 g goldings gyle-1-hops-0-when
2026-05-31 Emptied: pin, no. 2 gyle-1-packages-1-emptied
2026-05-31 Filled: pin, no. 2 gyle-1-packages-1-on
2026-06-02 Take hops out: 15 g goldings gyle-1-hops-0-when-out, planned
2026-06-03 Fill pin, no. 1 gyle-1-packages-0-on, planned
2026-06-03 Rack gyle-1-racked-on, planned
2026-06-13 Last day to chill it gyle-1-plan-cool, planned
2026-06-16 Last day to vent it, chilled gyle-1-plan-vent, planned
2026-06-17 Last day to fine it, if you do gyle-1-plan-fine, planned
2026-06-18 Last day to put it in its serving place gyle-1-plan-place, planned
2026-06-19 Last day to clean the line, connect and taste gyle-1-plan-clean, planned
2026-06-20 Broach pin, no. 1 gyle-1-packages-0-broached, planned
2026-06-20 Party: Midsummer gyle-1-party-on, planned
`
	var got strings.Builder
	for _, e := range b.Calendar() {
		if e.What == Reckoned {
			continue
		}
		layout := "2006-01-02 15:04"
		if e.AllDay {
			layout = time.DateOnly
		}
		fmt.Fprintf(&got, "%s %s %s", e.At.Format(layout), e.Says, strings.TrimSuffix(e.UID(b), "@brewing.example"))
		if e.Planned {
			got.WriteString(", planned")
		}
		got.WriteString("\n")
	}
	if got.String() != want {
		t.Errorf("got\n%s\nwant\n%s", got.String(), want)
	}
	if !slices.Equal(b.Events(b.Gyle(1)), b.Calendar()) {
		t.Error("the only gyle's events are not the calendar's")
	}
}

func TestReckonedDatesAreOfWhatIsLeft(t *testing.T) {
	b := open(t, entries{
		"1.md": "gyle: 1\nbeer: A\nbrewed: 2026-05-01\nracked: {on: 2026-05-20, volume: 19 L}\npackages: [{vessel: soft bag 10 L, fill: 9 L}, {vessel: soft bag 10 L, fill: 9 L, emptied: 2026-05-31}]",
		"2.md": "gyle: 2\nbeer: B\nbrewed: 2026-04-01\nracked: {on: 2026-04-20, volume: 9 L}\npackages: [{vessel: soft bag 10 L, fill: 9 L}]\nserved: {emptied: 2026-05-30}",
	})
	var reckoned []string
	for _, e := range b.Calendar() {
		if e.What != Reckoned {
			continue
		}
		reckoned = append(reckoned, e.Gyle.Slug+" "+string(e.Figure))
		f, ok := e.Gyle.Sheet.Find(e.Figure, "packages[0]")
		if !ok || !e.At.Equal(f.Date) || e.PlusMinus != f.PlusMinus || !strings.HasSuffix(e.Says, ": soft bag 10 L, no. 1") {
			t.Errorf("%+v is not the sheet's %v ± %v", e, f.Date, f.PlusMinus)
		}
	}
	if got, want := strings.Join(reckoned, ", "), "1 ready-on, 1 drink-by"; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
}

func TestUIDsAreApartAndLast(t *testing.T) {
	files := brewedOften(6)
	b := open(t, files)
	seen := map[string]string{}
	for _, e := range b.Calendar() {
		if other, twice := seen[e.UID(b)]; twice {
			t.Errorf("%q and %q share the UID %s", e.Says, other, e.UID(b))
		}
		seen[e.UID(b)] = e.Says
	}
	moved := Open(b.Journal, noon.AddDate(1, 0, 0))
	for _, e := range moved.Calendar() {
		if _, kept := seen[e.UID(moved)]; !kept {
			t.Errorf("the clock alone made %s of %s", e.UID(moved), e.Says)
		}
	}
}

func TestReadingDue(t *testing.T) {
	for name, test := range map[string]struct{ readings, want string }{
		"none yet":             {"", "2026-05-28"},
		"one":                  {"{when: 2026-05-30 09:00, gravity: 1.020}", "2026-06-02"},
		"two that agree":       {"{when: 2026-05-31 09:00, gravity: 1.011}, {when: 2026-06-01 09:00, gravity: 1.011}", "2026-06-02"},
		"stood still for long": {"{when: 2026-05-29 09:00, gravity: 1.011}, {when: 2026-06-01 09:00, gravity: 1.011}", ""},
	} {
		b := open(t, entries{"1.md": "gyle: 1\nbeer: A\nbrewed: 2026-05-26\nyeast: {yeast: house ale, pitched: 2026-05-26 14:00}\nfermenter: {volume: 20 L, gravity: 1.040}\nreadings: [" + test.readings + "]"})
		got := ""
		for _, e := range b.Events(b.Gyle(1)) {
			if e.What == ReadingDue {
				got = e.At.Format(time.DateOnly)
			}
		}
		if got != test.want {
			t.Errorf("%s: due %q, want %q", name, got, test.want)
		}
	}
}

// TestReadingDueByTheSettings: readings_every and level_for move the next gravity.
func TestReadingDueByTheSettings(t *testing.T) {
	for name, test := range map[string]struct{ limits, readings, want string }{
		"one":            {"readings_every: 5 days", "{when: 2026-05-30 09:00, gravity: 1.020}", "2026-06-04"},
		"two that agree": {"level_for: 4 days", "{when: 2026-05-31 09:00, gravity: 1.011}, {when: 2026-06-01 09:00, gravity: 1.011}", "2026-06-04"},
		"level for less": {"level_for: 4 days", "{when: 2026-05-29 09:00, gravity: 1.011}, {when: 2026-06-01 09:00, gravity: 1.011}", "2026-06-02"},
	} {
		files := fstest.MapFS{
			"index.md": {Data: []byte("---\njournal: A test book\nlimits: {" + test.limits + "}\n---\n")},
			"1.md":     {Data: []byte("---\ngyle: 1\nbeer: A\nbrewed: 2026-05-26\nyeast: {yeast: house ale, pitched: 2026-05-26 14:00}\nfermenter: {volume: 20 L, gravity: 1.040}\nreadings: [" + test.readings + "]\n---\n")},
		}
		b, got := Open(journal.Read(files, journal.Options{}), noon), ""
		for _, e := range b.Events(b.Gyle(1)) {
			if e.What == ReadingDue {
				got = e.At.Format(time.DateOnly)
			}
		}
		if got != test.want {
			t.Errorf("%s: due %q, want %q", name, got, test.want)
		}
	}
}

func TestStatus(t *testing.T) {
	for name, test := range map[string]struct {
		front string
		stage figures.Stage
		parts []string // what is said, by subject and words; a part in … is only asked for its subject
	}{
		"no day yet":      {"", figures.Paper, []string{"brew: no brewing day yet"}},
		"planned":         {"brewed: 2026-06-13\nparty: {on: 2026-07-25, occasion: Rally}", figures.Paper, []string{"brew: to be brewed on 2026-06-13", "party: for Rally on 2026-07-25"}},
		"mashed in":       {"brewed: 2026-06-01\nmash: {started: 2026-06-01 09:05}", figures.Copper, []string{"brew: mashed in at 09:05"}},
		"boiling":         {"brewed: 2026-06-01\ncopper: {started: 2026-06-01 11:20}", figures.Copper, []string{"boil: boiling since 11:20"}},
		"boiled":          {"brewed: 2026-06-01\ncopper: {started: 2026-06-01 10:20, after: {volume: 20 L}}", figures.Copper, []string{"boil: boiled, to be cooled and pitched"}},
		"left overnight":  {"brewed: 2026-05-31", figures.Copper, []string{"brew: no yeast in it yet, brewed on 2026-05-31"}},
		"pitched today":   {"brewed: 2026-06-01\nyeast: {yeast: ale, pitched: 2026-06-01 11:00, at: 19 C}", figures.Working, []string{"day: pitched today", "reading-due: read the gravity by 2026-06-03"}},
		"working":         {"brewed: 2026-05-29\nyeast: {yeast: ale, pitched: 2026-05-29 14:00}\nreadings: [{when: 2026-05-31, temp: 22 C}, {when: 2026-06-01 08:00, gravity: 1.020, temp: 75.2 F}]", figures.Working, []string{"day: day 3 at 75.2 °F", "gravity: …", "reading-due: read the gravity by 2026-06-04"}},
		"standing still":  {"brewed: 2026-05-20\nyeast: {yeast: ale, pitched: 2026-05-20}\nfermenter: {gravity: 1.040}\nreadings: [{when: 2026-05-28, gravity: 1.010}, {when: 2026-05-31, gravity: 1.010}]", figures.Working, []string{"day: day 12", "gravity: …", "stable: stands still, may be racked"}},
		"maturing":        {"brewed: 2026-05-01\nracked: {on: 2026-05-25, volume: 9 L}\npackages: [{vessel: soft bag 10 L, fill: 9 L}]\nparty: {on: 2026-06-20}", figures.Maturing, []string{"pints: …", "ready: ready about 2026-06-08", "party: for a party on 2026-06-20", "drink-by: drink by about 2026-06-26"}},
		"emptied, scored": {"brewed: 2026-01-01\npackages: [{vessel: pin, on: 2026-02-01, emptied: 2026-03-01}]\ntastings: [{score: 30}]", figures.Empty, []string{"emptied: emptied on 2026-03-01", "score: scored 60 % by 1 taster"}},
	} {
		b := open(t, entries{"1.md": "gyle: 1\nbeer: A\n" + test.front})
		s := b.Gyle(1).Status
		var got []string
		for i, p := range s.Parts {
			text := p.About + ": " + p.Text
			if i < len(test.parts) && test.parts[i] == p.About+": …" {
				text = test.parts[i]
			}
			got = append(got, text)
		}
		if s.Stage != test.stage || strings.Join(got, "\n") != strings.Join(test.parts, "\n") {
			t.Errorf("%s: at %s\n%s\nwant at %s\n%s", name, s.Stage, strings.Join(got, "\n"), test.stage, strings.Join(test.parts, "\n"))
		}
	}
}

func TestBoard(t *testing.T) {
	b := open(t, entries{
		"1.md": "gyle: 1\nbeer: A\nbrewed: 2026-05-01\npackages: [{vessel: bottle 500 mL, count: 20, on: 2026-05-20, broached: 2026-05-31}]\npoured: [{when: 2026-05-31, volume: 5 L}]",
		"2.md": "gyle: 2\nbeer: B", "3.md": "gyle: 3\nbeer: C\nbrewed: 2026-06-01", "4.md": "gyle: 4\nbeer: D",
	})
	var got []string
	for _, r := range b.Board {
		got = append(got, r.Stage.String()+" "+slugsOf(r.Gyles))
	}
	if got, want := strings.Join(got, ", "), "pouring 1, maturing , working , copper 3, paper 4 2, empty "; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
	if left := b.Gyle(1).Status.Parts[0]; left.About != "pints" || !strings.HasSuffix(left.Text, " pints left") || left.Value < 5 || left.Value > 12 {
		t.Errorf("ten litres less five, less sediment, is said as %+v", left)
	}
}
