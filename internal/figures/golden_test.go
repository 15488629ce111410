package figures

import (
	"flag"
	"fmt"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"os"

	"github.com/rogpeppe/go-internal/txtar"

	"gylebook/internal/journal"
)

var update = flag.Bool("update", false, "rewrite the golden sheets; review every difference")

// TestGoldenSheets holds whole sheets to testdata/figures/*.txtar: the archive's
// comment ends with "now: TIME", entry.md is the entry, sheet is every figure
// with its working, and what is missing.
func TestGoldenSheets(t *testing.T) {
	archives, err := filepath.Glob(filepath.Join(figured, "*.txtar"))
	if err != nil || len(archives) == 0 {
		t.Fatalf("no golden sheets: %v", err)
	}
	for _, name := range archives {
		t.Run(strings.TrimSuffix(filepath.Base(name), ".txtar"), func(t *testing.T) {
			archive, err := txtar.ParseFile(name)
			if err != nil {
				t.Fatal(err)
			}
			_, clock, _ := strings.Cut(string(archive.Comment), "now: ")
			now, err := time.Parse(time.RFC3339, strings.TrimSpace(clock))
			if err != nil {
				t.Fatal(err)
			}
			if len(archive.Files) != 2 || archive.Files[0].Name != "entry.md" || archive.Files[1].Name != "sheet" {
				t.Fatal("it should hold entry.md and sheet")
			}
			d := journal.ReadFile("entry.md", archive.Files[0].Data, nil)
			if len(d.Errors) > 0 {
				t.Fatalf("the entry does not read: %v", d.Errors)
			}
			got := printed(Work(d.Gyle, Context{Larder: testLarder, Now: now}))
			if *update {
				archive.Files[1].Data = []byte(got)
				if err := os.WriteFile(name, txtar.Format(archive), 0o644); err != nil {
					t.Fatal(err)
				}
				return
			}
			if want := string(archive.Files[1].Data); got != want {
				t.Errorf("the sheet differs from %s:\n%s", name, differing(got, want))
			}
		})
	}
}

// printed is a sheet as a reader would check it.
func printed(s *Sheet) string {
	var w strings.Builder
	fmt.Fprintf(&w, "stage: %s\n", s.Stage)
	for _, f := range s.Figures {
		value, plusMinus := f.Rounded()
		if plusMinus != "" {
			value += " ± " + plusMinus
		}
		fmt.Fprintf(&w, "%s: %s", partOf(f), strings.TrimSpace(value+" "+strings.TrimSuffix(f.Unit, dateUnit)))
		switch {
		case f.HasUpper():
			fmt.Fprintf(&w, ", at most %.3g", f.Upper)
		case f.HasLower():
			fmt.Fprintf(&w, ", at least %.3g", f.Lower)
		}
		if f.Provisional {
			w.WriteString(" (provisional)")
		}
		w.WriteString("\n")
		if _, numbers, ok := strings.Cut(f.Working(), "\n"); ok {
			fmt.Fprintf(&w, "    %s\n", numbers)
		}
		keys := make([]string, len(f.From()))
		for i, from := range f.From() {
			keys[i] = fmt.Sprintf("%s:%d", from.Key, from.Line)
		}
		fmt.Fprintf(&w, "    from %s\n", strings.Join(keys, " "))
	}
	for _, m := range s.Missing {
		fmt.Fprintf(&w, "missing %s", part{m.Figure, m.Of})
		if len(m.Needs) > 0 {
			fmt.Fprintf(&w, ", needs %s", strings.Join(m.Needs, ", "))
		}
		if m.Because != "" {
			fmt.Fprintf(&w, ", because %s", m.Because)
		}
		w.WriteString("\n")
	}
	return w.String()
}

// differing are the lines that one text has and the other has not.
func differing(got, want string) string {
	var w strings.Builder
	gotLines, wantLines := strings.Split(got, "\n"), strings.Split(want, "\n")
	for i := range max(len(gotLines), len(wantLines)) {
		g, h := at(gotLines, i), at(wantLines, i)
		if g != h {
			fmt.Fprintf(&w, "  got  %s\n  want %s\n", g, h)
		}
	}
	return w.String()
}

func at(lines []string, i int) string {
	if i < len(lines) {
		return lines[i]
	}
	return ""
}
