package rules_test

import (
	"slices"
	"strings"
	"testing"
	"time"

	"gylebook/internal/figures"
	"gylebook/internal/journal"
	"gylebook/internal/notice"
	"gylebook/internal/rules"
)

// primedBottles is a healthy bottling; each line of it that bears on gas is spoilt in turn.
const primedBottles = `---
gyle: 1
beer: A line gone wrong
brewed: 2026-03-01
aim: {volume: 21 L, og: 1.042, fg: 1.010, condition: 1.8 vol}
yeast: [{yeast: dried ale, weight: 11 g, pitched: 2026-03-01 14:00, at: 19 C}]
fermenter: {vessel: bucket, volume: 21 L, gravity: 1.042, sample_at: 20 C}
readings:
  - {when: 2026-03-06 09:00, gravity: 1.012, temp: 19 C}
  - {when: 2026-03-09 09:00, gravity: 1.012, temp: 19 C}
added: []
racked: {on: 2026-03-12, volume: 20 L, temp: 18 C, warmest: 20 C}
priming: {sugar: sucrose, weight: 80 g}
packages: [{vessel: bottle 500 mL, count: 39}]
cellared: {at: 12 C, from: 2026-03-12, warmest: 16 C}
---
`

// TestWhatCannotBeReadIsNeverSafe: a line that may have brought sugar, gas or a culture,
// and could not be read, leaves a container without the figures that rest on it, and with
// a warning that names the line.
func TestWhatCannotBeReadIsNeverSafe(t *testing.T) {
	for _, c := range []struct{ line, spoilt, names string }{
		{"priming: {sugar: sucrose, weight: 80 g}", "priming: 80 g", "priming"},
		{"priming: {sugar: sucrose, weight: 80 g}", "primed: {sugar: sucrose, weight: 80 g}", "priming"},
		{"priming: {sugar: sucrose, weight: 80 g}", "priming: {sugar: sucrose, weight: eighty}", "priming.weight"},
		{"priming: {sugar: sucrose, weight: 80 g}", "priming: {sugar: sucrose, weight: [80 g]}", "priming.weight"},
		{"count: 39}", "count: 39, priming: 3 g}", "packages[0].priming"},
		{"count: 39}", "count: 39, priming: {sugar: sucrose, each: 3 grams each}}", "packages[0].priming.each"},
		{"count: 39}", "count: 39, gas: 2 bar}", "packages[0].gas"},
		{"count: 39}", "count: 39, gas: {set: 2 bars}}", "packages[0].gas.set"},
		{"at: 19 C}]", "at: 19 C}, Brettanomyces]", "yeast[1]"},
		{"added: []", "added: raspberries", "added"},
		{"added: []", "added: [raspberries]", "added[0]"},
		{"added: []", "added: [{fruits: raspberries, weight: 2 kg, when: 2026-03-10}]", "added[0]"},
		{"added: []", "added: [{honey: 300 g, when: 2026-03-10}]", "added[0]"},
		{"added: []", "added: [{sugar: sucrose, weight: 400 g, when: 2026-03-10}]", "added[0]"},
	} {
		t.Run(c.spoilt, func(t *testing.T) {
			text := strings.Replace(primedBottles, c.line, c.spoilt, 1)
			d := journal.ReadFile("1.md", []byte(text), nil)
			if len(d.Errors) == 0 {
				t.Fatal("it reads")
			}
			now := time.Date(2026, 4, 2, 12, 0, 0, 0, time.UTC)
			s := figures.Work(d.Gyle, figures.Context{Larder: journal.NewLarder(nil), Now: now})
			for _, id := range []figures.ID{figures.IDGasInAll, figures.IDCondition, figures.IDPressureWarmest} {
				if f, ok := s.Find(id, "packages[0]"); ok {
					t.Errorf("%s is %g %s all the same", id, f.Value, f.Unit)
				}
			}
			for _, n := range rules.Examine(s) {
				if n.Severity >= notice.Mend && n.Of == "packages[0]" && strings.Contains(n.Says, c.names) {
					return
				}
			}
			t.Errorf("no warning names %s", c.names)
		})
	}
}

// TestSugarByAnyName: what holds sugar by its name counts as sugar.
func TestSugarByAnyName(t *testing.T) {
	for _, other := range []string{"honey", "golden syrup", "brown sugar", "strawberry jam"} {
		text := strings.Replace(primedBottles, "added: []", "added: [{other: "+other+", weight: 300 g, when: 2026-03-10}]", 1)
		d := journal.ReadFile("1.md", []byte(text), nil)
		s := figures.Work(d.Gyle, figures.Context{Larder: journal.NewLarder(nil), Now: time.Date(2026, 4, 2, 12, 0, 0, 0, time.UTC)})
		// 300 g of sugar are 3.7 volumes in 20 litres: 300 × 0.487 ÷ (20 × 1.977).
		if f, ok := s.Find("condition", "packages[0]"); !ok || f.UpperBound() < 4 {
			t.Errorf("300 g of %s after the last gravity: condition at most %g vol", other, f.UpperBound())
		}
	}
}

// TestWortWithoutYeastWaits: wort in the fermenter with no yeast and no reading noted at
// all is asked for its yeast; closed in, it is a danger.
func TestWortWithoutYeastWaits(t *testing.T) {
	for airlocked, want := range map[string]notice.Severity{"": notice.Look, ", airlocked: true": notice.Danger} {
		text := "---\ngyle: 1\nbeer: Half noted\nbrewed: 2026-03-01\nfermenter: {vessel: bucket, volume: 21 L, gravity: 1.042" + airlocked + "}\n---\n"
		d := journal.ReadFile("1.md", []byte(text), nil)
		s := figures.Work(d.Gyle, figures.Context{Larder: journal.NewLarder(nil), Now: time.Date(2026, 3, 10, 12, 0, 0, 0, time.UTC)})
		found := slices.IndexFunc(rules.Examine(s), func(n notice.Notice) bool { return n.ID == "wort-waits" && n.Severity == want })
		if found < 0 {
			t.Errorf("with %q nothing of %s is said of the wort", airlocked, want)
		}
	}
}

// TestToppedUpWithSyrupIsSugar: what is poured into bottles under the name of topping up
// counts by what it is, not as so much wort.
func TestToppedUpWithSyrupIsSugar(t *testing.T) {
	for _, what := range []string{"with a spoon of golden syrup", "honey", "sugar water"} {
		text := strings.Replace(primedBottles, "added: []", "done: [{when: 2026-03-20, did: topped up, package: 0, what: "+what+", volume: 0.3 L}]", 1)
		d := journal.ReadFile("1.md", []byte(text), nil)
		s := figures.Work(d.Gyle, figures.Context{Larder: journal.NewLarder(nil), Now: time.Date(2026, 4, 2, 12, 0, 0, 0, time.UTC)})
		if !slices.ContainsFunc(rules.Examine(s), func(n notice.Notice) bool { return n.Severity == notice.Danger }) {
			f, _ := s.Find(figures.IDGasInAll, "packages[0]")
			t.Errorf("%s: no danger at %g vol, at most %g", what, f.Value, f.UpperBound())
		}
	}
}
