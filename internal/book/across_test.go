package book

import (
	"slices"
	"strings"
	"testing"

	"gylebook/internal/notice"
)

func TestFindingsAcrossGyles(t *testing.T) {
	for name, test := range map[string]struct {
		files entries
		want  map[int][]string // by gyle: severity, id and part
	}{
		"nothing to find": {
			files: entries{
				"1.md": "gyle: 1\nbeer: A\nbrewed: 2026-01-01\nracked: {on: 2026-01-10, volume: 20 L}",
				"2.md": "gyle: 2\nbeer: B\nbrewed: 2026-02-01\nfollows: 1\nyeast: {yeast: house ale, sold: slurry, from_gyle: 1}",
				"3.md": "gyle: 3\nbeer: C\ndrawn_from: {gyle: 1, volume: 5 L, on: 2026-01-10}\nformerly: [77]",
				"4.md": "gyle: 4\nbeer: D\nbrewed: 2026-03-01\nfollows: 77",
			},
			want: map[int][]string{1: nil, 2: nil, 3: nil, 4: nil},
		},
		"numbers that lead nowhere": {
			files: entries{"1.md": "gyle: 1\nbeer: A\nfollows: 50\ndrawn_from: [{gyle: 51, volume: 5 L}, {gyle: 1, volume: 5 L}]\nyeast: {yeast: house ale, from_gyle: 52}"},
			want:  map[int][]string{1: {"look no-such-gyle drawn_from[0].gyle", "look no-such-gyle follows", "look no-such-gyle yeast[0].from_gyle", "mend drawn-from-itself drawn_from[1].gyle"}},
		},
		"a gyle that follows itself": {
			files: entries{"1.md": "gyle: 1\nbeer: A\nfollows: 1"},
			want:  map[int][]string{1: {"look revision-ring follows"}},
		},
		"a ring of three, and one that hangs on it": {
			files: entries{
				"1.md": "gyle: 1\nbeer: A\nfollows: 3", "2.md": "gyle: 2\nbeer: B\nfollows: 1",
				"3.md": "gyle: 3\nbeer: C\nfollows: 2", "4.md": "gyle: 4\nbeer: D\nfollows: 3",
			},
			want: map[int][]string{1: {"look revision-ring follows"}, 2: {"look revision-ring follows"}, 3: {"look revision-ring follows"}, 4: nil},
		},
		"a ring of drawing": {
			files: entries{
				"1.md": "gyle: 1\nbeer: A\ndrawn_from: {gyle: 2, volume: 5 L, on: 2026-01-01}",
				"2.md": "gyle: 2\nbeer: B\ndrawn_from: {gyle: 1, volume: 5 L, on: 2026-01-01}",
				"3.md": "gyle: 3\nbeer: C\ndrawn_from: {gyle: 2, volume: 5 L, on: 2026-01-01}",
			},
			want: map[int][]string{1: {"mend drawn-from-itself drawn_from[0].gyle"}, 2: {"mend drawn-from-itself drawn_from[0].gyle"}, 3: nil},
		},
		"from a gyle that came later": {
			files: entries{
				"1.md": "gyle: 1\nbeer: A\nbrewed: 2026-01-01\nfollows: 2\nyeast: {yeast: house ale, from_gyle: 2}",
				"2.md": "gyle: 2\nbeer: B\nbrewed: 2026-02-01",
			},
			want: map[int][]string{1: {"look later-gyle follows", "look later-gyle yeast[0].from_gyle"}, 2: nil},
		},
		"two gyles of one day": {
			files: entries{"1.md": "gyle: 1\nbeer: A\nbrewed: 2026-01-01\nfollows: 2", "2.md": "gyle: 2\nbeer: B\nbrewed: 2026-01-01 19:00"},
			want:  map[int][]string{1: nil},
		},
		"old numbers that are taken": {
			files: entries{"1.md": "gyle: 1\nbeer: A\nformerly: [2, 8]", "2.md": "gyle: 2\nbeer: B", "3.md": "gyle: 3\nbeer: C\nformerly: [8]"},
			want:  map[int][]string{1: {"look number-in-use formerly[0]"}, 2: nil, 3: {"look number-in-use formerly[0]"}},
		},
		"more drawn than there was": {
			files: entries{
				"1.md": "gyle: 1\nbeer: A\nbrewed: 2026-01-01\nracked: {on: 2026-01-10, volume: 10 L}",
				"2.md": "gyle: 2\nbeer: B\ndrawn_from: {gyle: 1, volume: 6 L, on: 2026-01-10}",
				"3.md": "gyle: 3\nbeer: C\ndrawn_from: {gyle: 1, volume: 5.2 L, on: 2026-01-10}",
			},
			want: map[int][]string{1: {"look overdrawn racked.volume"}, 2: nil, 3: nil},
		},
		"as much drawn as dip sticks can tell": {
			files: entries{
				"1.md": "gyle: 1\nbeer: A\nbrewed: 2026-01-01\nracked: {on: 2026-01-10, volume: 10 L}",
				"2.md": "gyle: 2\nbeer: B\ndrawn_from: {gyle: 1, volume: 10.9 L, on: 2026-01-10}",
			},
			want: map[int][]string{1: nil},
		},
		"names nearly a card's, of which the findings tell, and names meant to differ": {
			files: entries{
				"cards/h.md": "card: hop\nname: Bishops Crook\nalso: [crooked hop]",
				"1.md":       "gyle: 1\nbeer: A\nhops: [{hop: bishop crook, weight: 5 g, boiled: 60 min}, {hop: croked hop, weight: 5 g, boiled: 9 min}, {hop: bishop crook, weight: 5 g, boiled: 1 min}]",
				"2.md":       "gyle: 2\nbeer: B\ngrist: [{malt: oddmill 120, weight: 1 kg}]\ntastings: [{by: Annabel, found: [sweet]}]",
				"3.md":       "gyle: 3\nbeer: C\ngrist: [{malt: oddmill 150, weight: 1 kg}, {malt: oddmill 150, weight: 1 kg}]\ntastings: [{by: Annabell, found: [sweet]}, {by: Annabell, found: [dry]}]",
			},
			want: map[int][]string{1: nil, 2: nil, 3: nil},
		},
		"names nearly alike, none with a card": {
			files: entries{
				"1.md": "gyle: 1\nbeer: A\nhops: [{hop: bishops crook, weight: 5 g, boiled: 60 min}]",
				"2.md": "gyle: 2\nbeer: B\nhops: [{hop: bishops crook, weight: 5 g, boiled: 60 min}]",
				"3.md": "gyle: 3\nbeer: C\nhops: [{hop: bishops croock, weight: 5 g, boiled: 60 min}]",
			},
			want: map[int][]string{1: nil, 2: nil, 3: {"note name-nearly hops[0].hop"}},
		},
	} {
		t.Run(name, func(t *testing.T) {
			b := open(t, test.files)
			for number, want := range test.want {
				got := idsOf(b.Gyle(number))
				if !slices.Equal(got, want) {
					t.Errorf("gyle %d: got %q, want %q", number, got, want)
				}
			}
		})
	}
}

// TestEveryRuleIsShown holds each declared rule to an example above, and its
// words to the form of notices.
func TestEveryRuleIsShown(t *testing.T) {
	b := open(t, entries{
		"cards/h.md": "card: hop\nname: Bishops Crook",
		"1.md":       "gyle: 1\nbeer: A\nbrewed: 2026-01-01\nracked: {on: 2026-01-10, volume: 10 L}\nfollows: 3\nformerly: [2]\nhops: [{hop: lockside cross, weight: 5 g, boiled: 60 min}, {hop: lockside cross, weight: 5 g, boiled: 5 min}]",
		"2.md":       "gyle: 2\nbeer: B\nbrewed: 2026-02-01\nfollows: 2\ndrawn_from: [{gyle: 1, volume: 16 L, on: 2026-02-01}, {gyle: 2, volume: 1 L}]",
		"3.md":       "gyle: 3\nbeer: C\nbrewed: 2026-03-01\nfollows: 99\nhops: {hop: lockside cros, weight: 5 g, boiled: 60 min}",
	})
	seen := map[string]notice.Notice{}
	for _, c := range b.Concerns() {
		seen[c.ID] = c.Notice
	}
	for _, r := range Rules() {
		n, ok := seen[r.ID]
		switch {
		case !ok:
			t.Errorf("%s is declared and was not found", r.ID)
			continue
		case n.Severity > r.Worst:
			t.Errorf("%s: %s is graver than declared", r.ID, n.Severity)
		case n.Source == "" || n.Place.Line == 0 || n.Place.Column == 0:
			t.Errorf("%s: no source or no place: %+v", r.ID, n)
		}
		for part, text := range map[string]string{"says": n.Says, "why": n.Why, "do": n.Do} {
			if !strings.HasSuffix(text, ".") || strings.Contains(text, "!") || strings.ToUpper(text[:1]) != text[:1] {
				t.Errorf("%s %s is no plain sentence: %q", r.ID, part, text)
			}
		}
	}
}
