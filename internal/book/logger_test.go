package book

import (
	"testing"
	"testing/fstest"
	"time"

	"gylebook/internal/journal"
)

// TestLoggersErrorsAreTheGyles: what cannot be read of a logger's file is told on
// the page of the gyle that names it.
func TestLoggersErrorsAreTheGyles(t *testing.T) {
	j := journal.Read(fstest.MapFS{
		"index.md":        {Data: []byte("---\njournal: x\n---\n")},
		"gyles/1.md":      {Data: []byte("---\ngyle: 1\nbeer: Mild\nreadings_from: float.csv\n---\n")},
		"gyles/2.md":      {Data: []byte("---\ngyle: 2\nbeer: Stout\nreadings_from: none.csv\n---\n")},
		"gyles/float.csv": {Data: []byte("when,gravity\nsoon,1.040\n")},
	}, journal.Options{})
	b := Open(j, time.Date(2026, 6, 1, 12, 0, 0, 0, time.UTC))
	for file, id := range map[string]string{"gyles/1.md": "broken-row", "gyles/2.md": "no-log"} {
		found := false
		for _, n := range b.GyleIn(file).Notices {
			found = found || n.ID == id
		}
		if !found {
			t.Errorf("%s has no %s: %v", file, id, b.GyleIn(file).Notices)
		}
	}
	if len(b.Notices) > 0 {
		t.Errorf("errors without a gyle: %v", b.Notices)
	}
}
