package scribe

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

// recipe is the recipe of an entry.
func recipe(t testing.TB, raw string) *Recipe {
	t.Helper()
	d := journal.ReadFile("x.md", []byte(raw), nil)
	if d.Gyle == nil {
		t.Fatalf("the test's entry is no gyle: %v", d.Errors)
	}
	r, err := RecipeOf(d.Gyle, []byte(raw))
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func TestDraftHasEveryKeyWithItsMeaning(t *testing.T) {
	text := string(Draft(Plan{Number: 15, Beer: "Towpath: Mild"}))
	d := journal.ReadFile("15.md", []byte(text), nil)
	if len(d.Errors) > 0 || d.Gyle == nil || d.Gyle.Number.N != 15 || d.Gyle.Beer.Text != "Towpath: Mild" {
		t.Fatalf("the draft reads as %+v, errors %v", d.Gyle, d.Errors)
	}
	flat := strings.Join(strings.Fields(strings.ReplaceAll(text, "#", "")), " ")
	for _, w := range journal.Words() {
		if w.File != "gyle" || w.Path != w.Key {
			continue
		}
		if !regexp.MustCompile(`(?m)^` + w.Key + `:`).MatchString(text) {
			t.Errorf("there is no %s", w.Key)
		}
		if !strings.Contains(flat, w.Says) {
			t.Errorf("nothing says what %s means", w.Key)
		}
		for _, part := range below(journal.Words(), "gyle", w) {
			if !regexp.MustCompile(`\b` + part.Key + `\b`).MatchString(text) {
				t.Errorf("%s.%s is nowhere", w.Key, part.Key)
			}
		}
	}
	for i, line := range strings.Split(text, "\n") {
		if len([]rune(line)) > 130 {
			t.Errorf("line %d is long: %s", i+1, line)
		}
	}
}

// TestDraftCarriesTheRecipe: of every entry that there is, the recipe reads the
// same in the draft after it, and nothing else of it is there.
func TestDraftCarriesTheRecipe(t *testing.T) {
	for name, raw := range entries(t) {
		was := journal.ReadFile(name, []byte(raw), nil).Gyle
		text := Draft(Plan{Number: 99, Beer: "Next", After: recipe(t, raw), Notes: []string{"a\nb # c"}})
		d := journal.ReadFile("99.md", text, nil)
		if len(d.Errors) > 0 || d.Gyle == nil {
			t.Errorf("%s: %v in\n%s", name, d.Errors, text)
			continue
		}
		g := d.Gyle
		if g.Follows.N != was.Number.N || g.Style.Name != was.Style.Name || g.Aim.OG.Value != was.Aim.OG.Value ||
			len(g.Grist) != len(was.Grist) || len(g.Hops) != len(was.Hops) ||
			g.Mash.Liquor.Value != was.Mash.Liquor.Value {
			t.Errorf("%s: the recipe became\n%s", name, text)
		}
		for i, grain := range was.Grist {
			if g.Grist[i].Weight.Value != grain.Weight.Value ||
				g.Grist[i].Into != grain.Into && g.Grist[i].Into.Word != grain.Into.Word {
				t.Errorf("%s: grist[%d] became %+v", name, i, g.Grist[i])
			}
		}
		left := g.Brewed.Written() || g.Mash.Started.Written() || g.Mash.PH.Written() ||
			g.Copper.Before.Where.Written() || g.Copper.Started.Written() || g.Copper.After.Where.Written() ||
			len(g.Readings)+len(g.Packages)+len(g.Done)+len(g.Tastings)+len(g.Poured)+len(g.Costs)+len(g.Photos) > 0 ||
			g.Racked.Where.Written() || g.Fermenter.Where.Written()
		for _, y := range g.Yeast {
			left = left || y.Pitched.Written() || y.At.Written() || y.Packed.Written()
		}
		if left {
			t.Errorf("%s: dates or readings came along:\n%s", name, text)
		}
	}
}

func TestPropertyScaled(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		number := rapid.SampledFrom([]string{"3.2", "250", "12", "1.05"}).Draw(t, "number")
		unit := rapid.SampledFrom([]string{"kg", "g", "lb", "oz"}).Draw(t, "unit")
		by := rapid.Float64Range(0.67, 1.5).Draw(t, "by")
		text, ok := Scaled(number+" "+unit, by)
		was, err1 := q.Parse[q.Mass](number + unit)
		now, err2 := q.Parse[q.Mass](text)
		if !ok || err1 != nil || err2 != nil {
			t.Fatalf("%s %s scaled by %v is %q: %v, %v", number, unit, by, text, err1, err2)
		}
		// Three figures, or whole grams: half a step of either off at most.
		want := float64(was.Value) * by
		if off := float64(now.Value) - want; off > want*0.0051+0.51 || -off > want*0.0051+0.51 || now.Unit != was.Unit {
			t.Fatalf("%s %s scaled by %v is %s", number, unit, by, text)
		}
	})
	if text, ok := Scaled("1 lb 4 oz", 1.5); !ok || text != "1.88 lb" {
		t.Errorf("a pound and a quarter and half as much is %q", text)
	}
	if _, ok := Scaled("some", 2); ok {
		t.Error("what is no weight was scaled")
	}
}

func TestFileName(t *testing.T) {
	for beer, want := range map[string]string{
		"Towpath Mild": "7-towpath-mild.md", "Lengthsman's  Bitter!": "7-lengthsmans-bitter.md",
		"Über / Ält": "7-über-ält.md", "../..": "7.md", "": "7.md",
	} {
		if got := FileName(7, beer); got != want {
			t.Errorf("FileName(7, %q) is %s, want %s", beer, got, want)
		}
	}
	if got := FileName(7, strings.Repeat("long ", 100)); len(got) > 70 {
		t.Errorf("a long name gives a file name of %d bytes", len(got))
	}
}

// TestNewJournalIsSound: its settings read, its samples are passed over, and
// taken under another name each is a card without an error.
func TestNewJournalIsSound(t *testing.T) {
	files := NewJournal("Mine: a book", "Europe/London")
	settings := journal.ReadFile("index.md", files[0].Text, nil)
	if settings.Settings == nil || len(settings.Errors) > 0 || settings.Settings.Title.Text != "Mine: a book" ||
		settings.Settings.Zone.String() != "Europe/London" {
		t.Fatalf("the settings read as %+v, errors %v", settings.Settings, settings.Errors)
	}
	kinds := map[string]bool{}
	for _, f := range files[1:] {
		d := journal.ReadFile("cards/mine.md", f.Text, settings.Settings)
		if d.Card == nil || len(d.Errors) > 0 {
			t.Errorf("%s: %v in\n%s", f.Name, d.Errors, f.Text)
			continue
		}
		kinds[d.Card.Kind.String()] = true
		if !journal.Ignored(f.Name, settings.Settings) {
			t.Errorf("%s is not passed over", f.Name)
		}
	}
	if found, _ := journal.LookUp("card"); len(found) == 0 || len(kinds) != len(found[0].Choices) {
		t.Errorf("there are samples of %d kinds of card", len(kinds))
	}
}

func TestCreateOverwritesNothing(t *testing.T) {
	dir := t.TempDir()
	old := filepath.Join(dir, "b.md")
	if err := os.WriteFile(old, []byte("old"), 0o600); err != nil {
		t.Fatal(err)
	}
	err := Create(dir, []File{{"gyles/a.md", []byte("a")}, {"b.md", []byte("b")}})
	if !errors.Is(err, ErrThere) {
		t.Errorf("over a file that is there: %v", err)
	}
	if _, err := os.Stat(filepath.Join(dir, "gyles/a.md")); !errors.Is(err, fs.ErrNotExist) {
		t.Error("the other file was written all the same")
	}
	if raw, _ := os.ReadFile(old); string(raw) != "old" {
		t.Errorf("the file that was there is now %q", raw)
	}
	if err := Create(dir, []File{{"gyles/a.md", []byte("a")}}, "photos"); err != nil {
		t.Fatal(err)
	}
	if raw, err := os.ReadFile(filepath.Join(dir, "gyles/a.md")); err != nil || string(raw) != "a" {
		t.Errorf("the new file is %q, %v", raw, err)
	}
	nothingBeside(t, filepath.Join(dir, "gyles/a.md"))
	if err := Create(dir, []File{{"../out.md", nil}}); err == nil {
		t.Error("a file was created outside the journal")
	}
}
