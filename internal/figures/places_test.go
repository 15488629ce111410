package figures

import (
	"math"
	"testing"
	"time"

	"gylebook/internal/journal"
)

// TestWhereNobodySaysNothingIsCold: while the entry leaves open where a container stands, a
// warm room is taken, whatever it says of other days.
func TestWhereNobodySaysNothingIsCold(t *testing.T) {
	now := time.Date(2026, 4, 10, 12, 0, 0, 0, time.UTC)
	for _, c := range []struct {
		says, entry string
		warmest     float64 // °C
		named       bool
	}{
		{"only how cold it is to be served", "served: {at: 8 C}", 25, false},
		{"served for some days now", "served: {at: 8 C, broached: 2026-04-05}", 8, true},
		{"a cellar, and nothing else", "cellared: {at: 11 C}", 11, true},
		{"a cellar that it comes to later", "cellared: {at: 11 C, from: 2026-04-20}", 25, false},
		{"a cellar that it comes to tomorrow, and who knows where it is today", "cellared: {at: 11 C, from: 2026-04-11}", 25, false},
		{"on its way to the cellar since yesterday", "conditioned: {at: 18 C, to: 2026-04-09}\ncellared: {at: 11 C, from: 2026-04-11}", 11, true},
		{"a warm place until the cellar", "conditioned: {at: 18 C}\ncellared: {at: 11 C, from: 2026-04-20}", 18, true},
		{"a cool one until a day, the cellar a week later", "conditioned: {at: 18 C, to: 2026-04-13}\ncellared: {at: 11 C, from: 2026-04-20}", 25, false},
		{"a hotter place than a room, and then none", "conditioned: {at: 29 C, to: 2026-04-13}", 29, false},
		{"chilled as told, and a cellar to come", "conditioned: {at: 20 C}\ndone:\n  - {when: 2026-04-08, did: chilled, at: 4 C}", 12, true},
		{"chilled, nobody says how cold", "conditioned: {at: 20 C}\ndone:\n  - {when: 2026-04-08, did: chilled}", 20, true},
		{"moved, nobody says where to", "cellared: {at: 11 C}\ndone:\n  - {when: 2026-04-08, did: moved}", 25, false},
		{"to be warmed, nobody says how warm", "cellared: {at: 11 C}\ndone:\n  - {when: 2026-04-15, did: warmed}", 25, false},
		{"moved nobody says where to, and then back", "cellared: {at: 11 C}\ndone:\n  - {when: 2026-04-08, did: moved}\n  - {when: 2026-04-09, did: moved, at: 12 C}", 12, true},
	} {
		raw := "---\ngyle: 2\nbeer: Any\nbrewed: 2026-03-07\nyeast:\n  - {yeast: house ale, pitched: 2026-03-07}\nracked: {on: 2026-04-01}\npackages:\n  - {vessel: keg 9 L, fill: 8 L, on: 2026-04-01}\n" + c.entry + "\n---\n"
		s := Work(entry(t, &journal.Journal{}, []byte(raw)), Context{Larder: lawLarder, Now: now})
		k := s.Containers()[0]
		if got := s.Inquire().warmest(k).likely.Value.Celsius(); math.Abs(got-c.warmest) > 1e-9 {
			t.Errorf("%s: the warmest ahead is %g °C, it should be %g", c.says, got, c.warmest)
		}
		if named := s.PlaceNamed(k); named != c.named {
			t.Errorf("%s: its place is named: %t", c.says, named)
		}
	}
}

// TestUndatedCounts: what was put in or read on a day that nobody notes may have been just
// now.
func TestUndatedCounts(t *testing.T) {
	const head = "---\ngyle: 2\nbeer: Any\nbrewed: 2026-03-07\nyeast:\n  - {yeast: house ale, pitched: 2026-03-07}\nfermenter: {volume: 20 L, gravity: 1.045}\n" +
		"readings:\n  - {when: 2026-03-20, gravity: 1.010}\n  - {when: 2026-03-24, gravity: 1.010}\n"
	const tail = "racked: {on: 2026-04-01, volume: 19 L}\npackages:\n  - {vessel: keg 19 L, fill: 18 L, on: 2026-04-01}\n---\n"
	bound := func(lines string) float64 {
		s := Work(entry(t, &journal.Journal{}, []byte(head+lines+tail)), Context{Larder: lawLarder, Now: time.Date(2026, 4, 10, 12, 0, 0, 0, time.UTC)})
		f, ok := s.Find(IDPressureWarmest, "packages[0]")
		if !ok {
			t.Fatalf("with %q there is no pressure", lines)
		}
		return f.UpperBound()
	}
	without := bound("")
	for _, lines := range []string{
		"  - {pressure: 2.5 bar, package: 0}\n", "  - {pressure: 2.5 bar}\n",
		"done:\n  - {did: topped up, volume: 1 L, what: with wort}\n", "done:\n  - {did: topped up, volume: 1 L}\n",
	} {
		if with := bound(lines); with < without+0.5 {
			t.Errorf("%q counts for nothing: at most %.2f bar with it, %.2f without", lines, with, without)
		}
	}
}
