package figures

import (
	"flag"
	"fmt"
	"testing"
	"time"

	"gylebook/internal/figures/histories"
	"gylebook/internal/journal"
)

var (
	entriesToTry = flag.Int("entries", 600, "on how many random entries each law is tried")
	lawSeed      = flag.Uint64("lawseed", 0, "the seed of the laws' random entries, 0 for one of their own")
)

// seedOfLaws is a known one, so that a red run means that something changed; -lawseed takes
// another, and -lawseed 1 one that was never used.
func seedOfLaws() uint64 {
	switch *lawSeed {
	case 0:
		return 20260601
	case 1:
		return uint64(time.Now().UnixNano())
	}
	return *lawSeed
}

// lawLarder is the built-in cards and those that random entries lean on.
var lawLarder = journal.NewLarder(cardsOfHistories())

func cardsOfHistories() []*journal.Card {
	var cards []*journal.Card
	for i, text := range histories.Cards {
		cards = append(cards, journal.ReadFile(fmt.Sprintf("cards/%d.md", i), []byte(text), nil).Card)
	}
	return cards
}

// sheetOf works a history out the whole way from its text, nil where it does not read.
func sheetOf(h histories.History) *Sheet {
	c := Context{Larder: lawLarder, Now: h.Now}
	if h.Has(histories.Settings) {
		c.Settings = journal.ReadFile("index.md", h.Text(histories.Settings), nil).Settings
	}
	read := func(in int) *journal.Gyle {
		d := journal.ReadFile(fmt.Sprintf("gyles/%d.md", in), h.Text(in), c.Settings)
		if len(d.Errors) > 0 {
			return nil
		}
		return d.Gyle
	}
	subject := read(histories.Subject)
	if subject == nil {
		return nil
	}
	if h.Has(histories.Source) && len(subject.DrawnFrom) > 0 {
		source := read(histories.Source)
		if source == nil {
			return nil
		}
		other := Work(source, c)
		c.Other = func(n int) *Sheet {
			if n == histories.Source {
				return other
			}
			return nil
		}
	}
	return Work(subject, c)
}

// TestHistoriesRead: what is made at random reads without an error, and is worked out
// to figures that can be.
func TestHistoriesRead(t *testing.T) {
	seed := seedOfLaws()
	figured := 0
	for i := range *entriesToTry {
		h := histories.Random(histories.NewChance(seed, uint64(i)))
		for in := range histories.Subject + 1 {
			for _, e := range journal.ReadFile("entry.md", h.Text(in), nil).Errors {
				t.Fatalf("entry %d of seed %d: %s\n%s", i, seed, e, h)
			}
		}
		s := sheetOf(h)
		possible(t, s)
		if _, is := s.First(kindPressureWarmest.ID); is {
			figured++
		}
		if t.Failed() {
			t.Fatalf("entry %d of seed %d:\n%s", i, seed, h)
		}
	}
	t.Logf("%d entries, %d of them with a pressure", *entriesToTry, figured)
	if figured*3 < *entriesToTry {
		t.Errorf("only %d of %d entries come to a pressure", figured, *entriesToTry)
	}
}
