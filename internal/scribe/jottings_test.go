package scribe

import (
	"os"
	"strings"
	"testing"

	"gylebook/internal/journal"
)

// natural is one line of a table of jottings.
type natural struct {
	brewer, front, units, typed, want string
	refused                           bool
}

// naturals reads a table of jottings.
func naturals(t *testing.T, file string) []natural {
	t.Helper()
	raw, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	var all []natural
	var at natural
	head := false
	for line := range strings.Lines(string(raw)) {
		line = strings.TrimRight(line, "\n")
		name, section := strings.CutPrefix(line, "== ")
		units, choice := strings.CutPrefix(line, "units: ")
		switch {
		case line == "" || line[0] == '#':
		case section:
			at, head = natural{brewer: name}, true
		case line == "--":
			head = false
		case head && choice:
			at.units = units
		case head:
			at.front += line + "\n"
		default:
			one := at
			var taken bool
			if one.typed, one.want, taken = strings.Cut(line, " > "); !taken {
				one.typed, one.want, one.refused = strings.Cut(line, "!")
				if !one.refused {
					t.Fatalf("%s: a line without > or !: %s", file, line)
				}
			}
			one.want = strings.TrimSpace(one.want)
			all = append(all, one)
		}
	}
	return all
}

// settingsOf are those of a journal that speaks in these units.
func settingsOf(t *testing.T, units string) *journal.Settings {
	t.Helper()
	d := journal.ReadFile("index.md", []byte("---\njournal: A book\ntime_zone: UTC\nunits: "+units+"\n---\n"), nil)
	if d.Settings == nil {
		t.Fatalf("no settings of %s", units)
	}
	return d.Settings
}

// TestAsPeopleSpeak: of sixty jottings as people would type them 54 or more are
// taken, each as it was meant, and the rest refused for the reason named.
func TestAsPeopleSpeak(t *testing.T) {
	taken, all := 0, 0
	for _, n := range naturals(t, "testdata/jottings.txt") {
		all++
		raw := []byte("---\ngyle: 14\nbeer: B\n" + n.front + "---\n")
		s := settingsOf(t, n.units)
		d := journal.ReadFile("14.md", raw, s)
		if d.Gyle == nil || len(d.Errors) > 0 {
			t.Fatalf("%s: the test's entry: %v", n.brewer, d.Errors)
		}
		j, err := Understand(args(n.typed), noon, d.Gyle, s)
		if err == nil {
			_, err = Write("14.md", raw, s, j)
		}
		want := strings.NewReplacer("NOW", "2026-03-20 12:00", "DAY", "2026-03-20").Replace(n.want)
		switch {
		case n.refused && (err == nil || !strings.Contains(err.Error(), want)):
			t.Errorf("%s: %s: got %s, %v, want a refusal that says %q", n.brewer, n.typed, said(j), err, want)
		case n.refused:
		case err != nil:
			t.Errorf("%s: %s: %v", n.brewer, n.typed, err)
		case said(j) != want:
			t.Errorf("%s: %s:\n got %s\nwant %s", n.brewer, n.typed, said(j), want)
		default:
			taken++
		}
	}
	if taken*60 < all*54 {
		t.Errorf("%d of %d jottings taken, want nine in ten", taken, all)
	}
}
