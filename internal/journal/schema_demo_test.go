package journal

import (
	"io/fs"
	"os"
	"path/filepath"
	"testing"
)

// TestSchemaAcceptsTheDemonstration: an editor that checks by the schema finds
// nothing wrong with any file of the demonstration that has a front matter.
func TestSchemaAcceptsTheDemonstration(t *testing.T) {
	s, checked := compiled(t), 0
	err := filepath.WalkDir("../../journal", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !IsMarkdown(name) {
			return err
		}
		raw, err := os.ReadFile(name)
		if err != nil {
			return err
		}
		if bad := ReadFile(name, raw, nil).Errors; len(bad) > 0 {
			t.Errorf("%s does not read: %v", name, bad)
			return nil
		}
		if _, err := OutlineOf(raw); err != nil {
			return nil // a note without front matter
		}
		checked++
		if err := s.Validate(instance(frontOf(t, raw))); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if checked < 40 {
		t.Errorf("only %d files were checked", checked)
	}
}
