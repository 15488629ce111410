package rules_test

import (
	"fmt"
	"testing"

	"gylebook/internal/figures"
	"gylebook/internal/figures/histories"
	"gylebook/internal/journal"
	"gylebook/internal/notice"
	"gylebook/internal/rules"
)

// examinedHistory is the findings of a random entry, worked out from its text; ok is
// false where it does not read.
func examinedHistory(larder *journal.Larder, h histories.History) (s *figures.Sheet, found []notice.Notice, ok bool) {
	if h.Has(histories.Source) {
		return nil, nil, false
	}
	context := figures.Context{Larder: larder, Now: h.Now}
	if h.Has(histories.Settings) {
		context.Settings = journal.ReadFile("index.md", h.Text(histories.Settings), nil).Settings
	}
	d := journal.ReadFile("gyles/2.md", h.Text(histories.Subject), context.Settings)
	if len(d.Errors) > 0 {
		return nil, nil, false
	}
	s = figures.Work(d.Gyle, context)
	return s, rules.Examine(s), true
}

func larderOfHistories() *journal.Larder {
	var cards []*journal.Card
	for i, text := range histories.Cards {
		cards = append(cards, journal.ReadFile(fmt.Sprintf("cards/%d.md", i), []byte(text), nil).Card)
	}
	return journal.NewLarder(cards)
}

// TestMoreFermentableTakesNoDangerAway: whatever that ferments is added to an entry with a
// danger from gas, it has one from gas still.
func TestMoreFermentableTakesNoDangerAway(t *testing.T) {
	larder, dangers := larderOfHistories(), 0
	lines := []func(histories.Chance, int, float64, float64) histories.Line{
		histories.Sugar, histories.Fruit, histories.Wort, histories.Hops, histories.Yeast,
	}
	for i := range uint64(600) {
		c := histories.NewChance(20260601, i)
		h := histories.Random(c)
		more := lines[c.IntN(len(lines))](c, histories.Subject, c.Between(4, 40), c.Between(0.5, 60))
		lost := func(h histories.History) string {
			before, found, ok := examinedHistory(larder, h)
			if !ok || before.PitchedAt().IsZero() || len(before.Gyle.Yeast) == 0 || more.Of == "grist" && !more.Has("when") {
				return "" // a line of the grist without a day says what the wort was made of
			}
			_, after, ok := examinedHistory(larder, h.Added(more))
			if !ok {
				return ""
			}
			for _, n := range found {
				if n.Severity == notice.Danger && fromGas[n.ID] {
					dangers++
					if !stillTold(after, n.Of) {
						return fmt.Sprintf("with %s added: %s of %s is gone", more, n.ID, n.Of)
					}
				}
			}
			return ""
		}
		if lost(h) == "" {
			continue
		}
		h = histories.Shrunk(h, func(h histories.History) bool { return lost(h) != "" })
		t.Errorf("entry %d: %s\n%s", i, lost(h), h)
	}
	if dangers < 100 {
		t.Errorf("only %d dangers were tried", dangers)
	}
}

// fromGas are the rules whose dangers are of one kind: more than a container takes.
var fromGas = map[string]bool{
	"pressure-high": true, "rating-unknown": true, "barrel-over": true, "bottle-limit": true, "bag-will-swell": true,
	"not-finished": true, "still-to-fall": true, "hop-creep": true,
}

// stillTold tells whether a container is told of a danger from gas, or that nobody can say.
func stillTold(found []notice.Notice, of string) bool {
	for _, n := range found {
		if n.Severity == notice.Danger && fromGas[n.ID] || n.ID == "gas-unknown" {
			return true
		}
	}
	return false
}

// TestSayingLessTakesNoDangerAway leaves out one thing that an entry says. A danger from gas
// then stays, or something says what is not known any more.
func TestSayingLessTakesNoDangerAway(t *testing.T) {
	larder, dangers := larderOfHistories(), 0
	for i := range uint64(2500) {
		c := histories.NewChance(20260601, i)
		h := histories.Random(c)
		l := h.Lines[c.IntN(len(h.Lines))]
		if l.In != histories.Subject || len(l.Keys) < 2 {
			continue
		}
		k := l.Keys[c.IntN(len(l.Keys))]
		switch {
		case l.Of == "racked" && k.Name == "on": // without its day it may not be racked yet
			continue
		case l.Of == "readings" && (l.Has("gravity") || k.Name == "pressure"): // of another fall, or of none
			continue
		case l.Of == "yeast" && k.Name == "yeast": // of any yeast the least is expected
			continue
		}
		lost := func(h histories.History) string {
			before, found, ok := examinedHistory(larder, h)
			if !ok {
				return ""
			}
			after, foundAfter, ok := examinedHistory(larder, h.Changed(l.ID, func(l histories.Line) histories.Line { return l.Without(k.Name) }))
			if !ok {
				return ""
			}
			for _, n := range found {
				if n.Severity != notice.Danger || !fromGas[n.ID] {
					continue
				}
				dangers++
				if !stillTold(foundAfter, n.Of) && len(after.Missing) <= len(before.Missing) {
					return fmt.Sprintf("without %s of %s: %s of %s is gone", k.Name, l, n.ID, n.Of)
				}
			}
			return ""
		}
		if lost(h) == "" {
			continue
		}
		h = histories.Shrunk(h, func(h histories.History) bool { return lost(h) != "" })
		t.Errorf("entry %d: %s\n%s", i, lost(h), h)
	}
	if dangers < 100 {
		t.Errorf("only %d dangers were tried", dangers)
	}
}
