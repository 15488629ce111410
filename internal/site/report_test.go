package site

import (
	"strings"
	"testing"

	"gylebook/internal/book"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
	"gylebook/internal/site/view"
)

// reportOf is the report of the one gyle of a journal.
func reportOf(t *testing.T, entry string) view.Gyle {
	t.Helper()
	b := book.Open(journal.Read(entries("index.md", tasterJournal, "gyles/1.md", entry), journal.Options{}), clock)
	return Report(b, b.GyleIn("gyles/1.md"))
}

// TestAReportIsInPlainText: dates are as they are typed, a gravity says what it is, and
// containers are counted and told apart.
func TestAReportIsInPlainText(t *testing.T) {
	report := reportOf(t, `---
gyle: 1
beer: Many Vessels
brewed: 2026-03-07
fermenter: {volume: 22 L, gravity: 1.041}
readings: [{when: 2026-03-14, gravity: 1.010}, {when: 2026-03-17, gravity: 1.010}]
racked: {on: 2026-03-17, volume: 21 L, temp: 18 C}
priming: {sugar: sucrose, weight: 60 g}
packages:
  - {vessel: soft bag 5 L, fill: 4 L}
  - {vessel: soft bag 5 L, fill: 4 L}
  - {vessel: bottle 500 mL, count: 24}
  - {fill: 0.5 L}
---
`)
	got := map[string][]string{}
	for _, w := range report.Workings {
		for _, c := range w.Cases {
			got[w.ID] = append(got[w.ID], strings.ReplaceAll(c.Of+" "+c.Got.String(), "\u00a0", " "))
		}
	}
	for id, want := range map[string][]string{
		"og":        {" 1.0410 ± 0.00"},
		"condition": {"soft bag 5 L no. 1 ", "soft bag 5 L no. 2 ", "24 × bottle 500 mL ", "packages[3] "},
		"ready-on":  {"24 × bottle 500 mL 2026-0"},
	} {
		all := strings.Join(got[id], "; ")
		for _, part := range want {
			if !strings.Contains("; "+all, part) {
				t.Errorf("%s: %q does not have %q", id, all, part)
			}
		}
	}
	if sg := strings.Join(got["og"], ""); !strings.HasSuffix(sg, " SG") {
		t.Errorf("a gravity that does not say so: %q", sg)
	}
}

// TestAReportHasTheFiguresAsDeclared: family by family, and nothing twice.
func TestAReportHasTheFiguresAsDeclared(t *testing.T) {
	place := map[string]int{}
	for i, k := range figures.Kinds() {
		place[string(k.ID)] = i
	}
	last, family, over := -1, "", map[string]bool{}
	for _, w := range reportOf(t, tastedEntry).Workings {
		if place[w.ID] <= last {
			t.Errorf("%s stands after what is declared behind it", w.ID)
		}
		if w.Family != family && over[w.Family] {
			t.Errorf("the family %s comes twice", w.Family)
		}
		last, family = place[w.ID], w.Family
		over[family] = true
	}
}

// TestAReportHidesNothing: it is for the brewer, whatever the settings keep private.
func TestAReportHidesNothing(t *testing.T) {
	report := reportOf(t, tastedEntry)
	if len(report.Diagnoses) == 0 {
		t.Fatal("nothing is diagnosed")
	}
	if who := report.Diagnoses[0].Who; !strings.Contains(who, "Osbert") || strings.Contains(who, friend) {
		t.Errorf("the tasters are hidden: %q", who)
	}
}
