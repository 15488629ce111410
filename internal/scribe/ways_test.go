package scribe

import (
	"bytes"
	"regexp"
	"testing"

	"gylebook/internal/journal"
)

// TestWays: an entry begun for a way of brewing is short, says nothing but its
// number and name, and each of its examples can be read where it stands.
func TestWays(t *testing.T) {
	for _, name := range Ways() {
		raw := Begun(Plan{Number: 14, Beer: "B"}, name)
		if lines := bytes.Count(raw, []byte("\n")); lines > 30 {
			t.Errorf("%s: %d lines, want 30 at most", name, lines)
		}
		d := journal.ReadFile("14.md", raw, nil)
		bare := journal.ReadFile("14.md", []byte("---\ngyle: 14\nbeer: B\n---\n"+"What I mean to make, and why.\n"), nil)
		if len(d.Errors) > 0 || d.Gyle == nil || d.Gyle.Brewed.Written() || len(d.Gyle.Readings)+len(d.Gyle.Packages) > 0 ||
			len(d.Gyle.Grist) != len(bare.Gyle.Grist) {
			t.Errorf("%s: says more than its name: %v", name, d.Errors)
		}
		filled := regexp.MustCompile(`(?m)^(  |\w+: +)# (- \{|\{|2026|best)`).ReplaceAll(raw, []byte("$1$2"))
		if d := journal.ReadFile("14.md", filled, nil); len(d.Errors) > 0 || !d.Gyle.Brewed.Written() || len(d.Gyle.Readings) != 1 {
			t.Errorf("%s: its examples are not read: %v\n%s", name, d.Errors, filled)
		}
		if j, err := Understand(args("1.022 19.5C"), noon, d.Gyle, nil); err != nil {
			t.Error(err)
		} else if _, err := Write("14.md", raw, nil, j); err != nil {
			t.Errorf("%s: it cannot be jotted into: %v", name, err)
		}
	}
}
