package main

import (
	"context"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// TestTheReadmesJottings does, on an entry with nothing in it, what README.md
// says to jot on the day, in its order.
func TestTheReadmesJottings(t *testing.T) {
	readme, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	entry := filepath.Join(dir, "14.md")
	for file, text := range map[string]string{filepath.Join(dir, "index.md"): "---\njournal: A book\n---\n", entry: "---\ngyle: 14\nbeer: B\n---\n"} {
		if err := os.WriteFile(file, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	lines := regexp.MustCompile(`(?m)^gylebook (jot 14 .*?)(?: +#.*)?$`).FindAllStringSubmatch(string(readme), -1)
	if len(lines) < 10 {
		t.Fatalf("README.md has only %d jottings", len(lines))
	}
	for _, line := range lines {
		args := append(typed(line[1]), "--journal", dir, "--now", "2026-06-01T18:00:00Z")
		var out, faults strings.Builder
		exit := run(context.Background(), args, strings.NewReader(""), &out, &faults, func(string) string { return "" })
		if exit != exitDone || !strings.Contains(out.String(), "14.md, line ") {
			t.Errorf("gylebook %s ends with %d: %s%s", line[1], exit, out.String(), faults.String())
		}
	}
	raw, err := os.ReadFile(entry)
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"mash: {started: 2026-06-01 18:00, liquor: 9 L, strike: 74C, ph: 5.4}", "racked: {on: 2026-06-01 16:10, volume: 20 L, temp: 18C}", "found: [sweet, flat]", "vessel: bottle 500 mL, count: 24"} {
		if !strings.Contains(string(raw), want) {
			t.Errorf("the entry has no %s:\n%s", want, raw)
		}
	}
}

// typed takes a command line apart at blanks and quotation marks, as a shell does.
func typed(line string) []string {
	var args []string
	for i, part := range strings.Split(line, `"`) {
		if i%2 == 1 {
			args = append(args, part)
		} else {
			args = append(args, strings.Fields(part)...)
		}
	}
	return args
}
