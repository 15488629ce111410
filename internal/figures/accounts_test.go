package figures

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"go.yaml.in/yaml/v4"
)

const accounts = "../../testdata/accounts-by-hand"

// story is what one account by pencil holds the program to.
type story struct {
	Now     time.Time
	Figures []pencilled
	Uppers  []pencilled
	Hours   []struct {
		At        time.Time
		Of, What  string
		Low, High float64
	}
}

// pencilled is one number and how far off the program may be, by what the choices
// that the account leaves open come to.
type pencilled struct {
	ID, Of           string
	Value, Low, High float64
}

// stories are the accounts by pencil, by the names of their files.
func stories(t *testing.T) map[string]story {
	t.Helper()
	files, err := filepath.Glob(filepath.Join(accounts, "[0-9]*.md"))
	if err != nil || len(files) < 12 {
		t.Fatalf("%d accounts, %v", len(files), err)
	}
	all := map[string]story{}
	for _, name := range files {
		raw, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		_, held, found := strings.Cut(string(raw), "\n```yaml\nnow:")
		held, _, ended := strings.Cut("now:"+held, "\n```")
		var s story
		if err := yaml.Unmarshal([]byte(held), &s); err != nil || !found || !ended || len(s.Figures) == 0 {
			t.Fatalf("%s: %v", name, err)
		}
		all[strings.TrimSuffix(filepath.Base(name), ".md")] = s
	}
	return all
}

// TestAccountsByHand holds the program to whole stories that were reckoned by pencil
// from the physics alone, within what the pencil says its choices come to.
func TestAccountsByHand(t *testing.T) {
	j := opened(t, accounts)
	for name, told := range stories(t) {
		t.Run(name, func(t *testing.T) {
			g := j.Find(name)
			if g == nil {
				t.Fatal("no such gyle")
			}
			s := Work(g, contextOf(j, told.Now))
			for _, want := range told.Figures {
				f, ok := s.Find(want.ID, want.Of)
				if !ok {
					t.Errorf("no %s", part{want.ID, want.Of})
				} else if !(f.Value >= want.Low && f.Value <= want.High) {
					t.Errorf("%s: %.4g, by pencil %.4g, from %.4g to %.4g", partOf(f), f.Value, want.Value, want.Low, want.High)
				}
			}
			for _, want := range told.Uppers {
				f, _ := s.Find(want.ID, want.Of)
				if upper := f.UpperBound(); !(upper >= want.Low && upper <= want.High) {
					t.Errorf("the bound of %s: %.4g, by pencil %.4g to %.4g", part{want.ID, want.Of}, upper, want.Low, want.High)
				}
			}
		})
	}
}
