package site

import (
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"gylebook/internal/book"
	"gylebook/internal/journal"
)

// TestCautionsStandWhereTheyMatter asks of one gyle after the other which
// cautions its page has: those named and no other of the list.
func TestCautionsStandWhereTheyMatter(t *testing.T) {
	const working = "brewed: 2026-03-01\nyeast: [{yeast: dried ale, pitched: 2026-03-01 14:00}]\n"
	cases := []struct{ what, entry, want string }{
		{"on paper", "", "scald"},
		{"raw ale", "copper: {boiled: none}", ""},
		{"over bottled gas", "copper: {fuel: bottled gas}", "scald outdoors"},
		{"over a plate", "copper: {fuel: induction}", "scald residual-current"},
		{"a party to come", "party: {on: 2026-05-01, guests: 4}", "scald adults"},
		{"working", working, "headache burst"},
		{"cleaned with something", working + "done: [{when: 2026-03-01, did: cleaned, what: bucket, with: line cleaner}]", "goggles headache burst"},
		{"in a bag", working + "packages: [{vessel: soft bag 10 L, fill: 9 L, on: 2026-03-10}]", "burst swollen"},
		{"in bottles", working + "packages: [{vessel: bottle 500 mL, count: 20, on: 2026-03-10}]", "burst glass"},
		{"in a keg on gas", working + "packages: [{vessel: keg 19 L, fill: 18 L, on: 2026-03-10, gas: {with: co2, set: 0.7 bar, at: 8 C}}]", "burst cylinder"},
		{"broached", working + "packages: [{vessel: soft bag 10 L, fill: 9 L, on: 2026-03-10}]\nserved: {broached: 2026-03-18}", "burst swollen adults"},
		{"all drunk", working + "packages: [{vessel: soft bag 10 L, fill: 9 L, on: 2026-03-10}]\nserved: {broached: 2026-03-15, emptied: 2026-03-18}", ""},
	}
	words := []string{"scald", "outdoors only", "residual-current", "add them to water", "headache", "burst.", "swollen", "glass.", "cylinder", "adults"}
	short := map[string]string{"outdoors only": "outdoors", "add them to water": "goggles", "burst.": "burst", "glass.": "glass"}
	for _, c := range cases {
		t.Run(c.what, func(t *testing.T) {
			files := fstest.MapFS{"index.md": {Data: []byte("---\njournal: Any\n---\n")}, "1.md": {Data: []byte("---\ngyle: 1\nbeer: Any\n" + c.entry + "\n---\n")}}
			j := journal.Read(files, journal.Options{})
			if len(j.Errors) > 0 {
				t.Fatal(j.Errors)
			}
			all := cautions(book.Open(j, time.Date(2026, 3, 20, 12, 0, 0, 0, time.UTC)).Gyles[0])
			text := strings.Join(all, " ")
			var got []string
			for _, w := range words {
				if strings.Contains(text, w) {
					name := w
					if s := short[w]; s != "" {
						name = s
					}
					got = append(got, name)
				}
			}
			if strings.Join(got, " ") != c.want {
				t.Errorf("cautions about %q, want %q", strings.Join(got, " "), c.want)
			}
			if (len(all) > 0) != strings.HasSuffix(text, follow) {
				t.Errorf("the last is %q", all)
			}
		})
	}
}
