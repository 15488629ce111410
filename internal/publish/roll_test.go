package publish

import (
	"crypto/sha256"
	"errors"
	"os"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// TestWhatARollMayOverwrite looks at a site in which nothing, a file or a folder
// stands at the path of a change.
func TestWhatARollMayOverwrite(t *testing.T) {
	text := func(s string) *sum {
		h := sha256.Sum256([]byte(s))
		return &h
	}
	replaced := []change{{"page", text("old"), text("new")}}
	added := []change{{"page", nil, text("new")}}
	removed := []change{{"page", text("old"), nil}}
	deleted := []change{{"page", nil, nil}}
	// As on a file system that ignores case, where Page and page are one.
	respelt := []change{{"Page", text("old"), nil}, {"page", nil, text("new")}}
	tests := []struct {
		name    string
		stands  tree
		changes []change
		refused bool
	}{
		{"replaced: nothing", tree{}, replaced, false},
		{"replaced: the old", tree{"page": "old"}, replaced, false},
		{"replaced: the new", tree{"page": "new"}, replaced, false},
		{"replaced: an edit", tree{"page": "mine"}, replaced, true},
		{"replaced: a folder", tree{"page/x": ""}, replaced, true},
		{"added: nothing", tree{}, added, false},
		{"added: the new", tree{"page": "new"}, added, false},
		{"added: another", tree{"page": "mine"}, added, true},
		{"added: a folder to be emptied", tree{"page/x": ""}, added, false},
		{"removed: the old", tree{"page": "old"}, removed, false},
		{"removed: an edit", tree{"page": "mine"}, removed, true},
		{"removed: a folder", tree{"page/x": ""}, removed, true},
		{"deleted: nothing", tree{}, deleted, false},
		{"deleted: another", tree{"page": "mine"}, deleted, true},
		{"deleted: a folder", tree{"page/x": ""}, deleted, false},
		{"respelt: the old", tree{"page": "old"}, respelt, false},
		{"respelt: the new", tree{"page": "new"}, respelt, false},
		{"respelt: an edit", tree{"page": "mine"}, respelt, true},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			dir := site(t)
			plant(t, dir, joined(tree{"/": ""}, tt.stands))
			root, err := os.OpenRoot(dir)
			if err != nil {
				t.Fatal(err)
			}
			defer root.Close()
			g := &ground{root: root, abs: dir, site: ".", work: insideName}
			err = g.checkUntouched(tt.changes)
			var strangers *StrangersError
			if refused := errors.As(err, &strangers); refused != tt.refused {
				t.Fatalf("got %v", err)
			}
			if tt.refused && !cmp.Equal(strangers.Edited, []string{"page"}) {
				t.Errorf("refused %v", strangers.Edited)
			}
		})
	}
}
