package journal

import (
	"errors"
	"io/fs"
	"maps"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/google/go-cmp/cmp"

	"gylebook/internal/quantity"
)

// TestSpelling: one word for all, and a kind's own before it.
func TestSpelling(t *testing.T) {
	chosen := func(word quantity.System) Choice[quantity.System] { return Choice[quantity.System]{Word: word} }
	for _, c := range []struct {
		name  string
		units Units
		want  quantity.Spelling
	}{
		{"nothing set", Units{}, quantity.Spelling{Volume: quantity.Metric, Weight: quantity.Metric,
			Temperature: quantity.Metric, Pressure: quantity.Metric, Colour: quantity.Metric}},
		{"all", Units{All: chosen("us")},
			quantity.Spelling{Volume: quantity.US, Weight: quantity.US, Temperature: quantity.US, Pressure: quantity.US,
				Colour: quantity.US}},
		{"by kind", Units{Volume: chosen("uk"), Pressure: chosen("us")},
			quantity.Spelling{Volume: quantity.UK, Weight: quantity.Metric, Temperature: quantity.Metric,
				Pressure: quantity.US, Colour: quantity.Metric}},
	} {
		if got := c.units.Spelling(); got != c.want {
			t.Errorf("%s: %+v, want %+v", c.name, got, c.want)
		}
	}
}

func TestSettingsMissing(t *testing.T) {
	files := sample()
	delete(files, "index.md")
	maps.DeleteFunc(files, func(name string,
		file *fstest.MapFile) bool {
		return strings.Contains(string(file.Data), "nonsense")
	})
	j := Read(files, Options{})
	if j.Settings == nil || j.Settings.Zone.String() != "UTC" ||
		j.Settings.Privacy() != (Private{Tasters: true, Costs: true}) {
		t.Errorf("settings %+v", j.Settings)
	}
	want := `index.md: error: the journal has no settings: expected index.md with a journal key [no-settings]
  > Write index.md with journal: and its title between two lines of ---.
`
	if diff := cmp.Diff(want, listing(j.Errors)); diff != "" {
		t.Error(diff)
	}
}

func TestSettingsDoubled(t *testing.T) {
	files := sample()
	files["notes/more.md"] = text("---\njournal: Another\ntime_zone: Asia/Tokyo\n---\n")
	j := Read(files, Options{})
	want := "notes/more.md:2:10: error: settings outside index.md: expected all of them there [doubled-settings]\n"
	if got := listing(j.Errors); !strings.HasPrefix(got, want) {
		t.Errorf("errors:\n%s", got)
	}
	if j.Settings.Title.Text != "The book" || !slices.Contains(j.Withheld, "notes/more.md") {
		t.Error("the settings of index.md stand, and the other file is withheld")
	}
}

// TestPrivacy: what cannot be read is private, all of it.
func TestPrivacy(t *testing.T) {
	all := Private{true, true, true, true}
	for text, want := range map[string]Private{
		"":                                  {Tasters: true, Costs: true},
		"private: [nothing]\n":              {},
		"private: []\n":                     {},
		"private: [photos, party]\n":        {Photos: true, Party: true},
		"private: [fotos]\n":                all,
		"private: costs\n":                  all,
		"keeper: a: b\n":                    all,
		"private: [photos]\nkeeper: a: b\n": all,
	} {
		d := ReadFile("index.md", []byte("---\njournal: x\n"+text+"---\n"), nil)
		if got := d.Settings.Privacy(); got != want {
			t.Errorf("%q: %+v, want %+v", text, got, want)
		}
	}
}

// failing is a file system in which one file cannot be opened.
type failing struct {
	fs.FS
	name string
}

func (f failing) Open(name string) (fs.File, error) {
	if name == f.name {
		return nil, &fs.PathError{Op: "open", Path: name, Err: errors.New("permission denied")}
	}
	return f.FS.Open(name)
}
