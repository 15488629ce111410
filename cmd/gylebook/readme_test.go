package main

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// TestTheReadmesJournalIsSound does what README.md says to begin a journal: its
// first two Markdown blocks are the settings and an entry.
func TestTheReadmesJournalIsSound(t *testing.T) {
	readme, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	var files []string
	for _, block := range strings.Split(string(readme), "```markdown\n")[1:] {
		text, _, _ := strings.Cut(block, "```")
		files = append(files, text)
	}
	if len(files) != 2 {
		t.Fatalf("README.md has %d Markdown blocks, want the settings and an entry", len(files))
	}
	dir := t.TempDir()
	for i, name := range []string{"index.md", "1-bitter.md"} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(files[i]), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	none := func(string) string { return "" }
	var out, faults strings.Builder
	args := []string{"verify", dir, "--fail-on", "mend", "--now", "2026-03-20T12:00:00Z"}
	if exit := run(context.Background(), args, strings.NewReader(""), &out, &faults, none); exit != exitDone {
		t.Errorf("gylebook verify ends with %d and says\n%s%s", exit, out.String(), faults.String())
	}
	out.Reset()
	if exit := run(context.Background(), []string{"figures", "1", "--journal", dir}, strings.NewReader(""), &out, &faults, none); exit != exitDone {
		t.Errorf("gylebook figures ends with %d: %s", exit, faults.String())
	}
	for _, figure := range []string{"Alcohol ", "Bitterness ", "Colour ", "Condition", "Pressure at the warmest", "Pints left", "Ready on"} {
		if !strings.Contains(out.String(), "  "+figure) {
			t.Errorf("the entry gives no figure %q:\n%s", figure, out.String())
		}
	}
}
