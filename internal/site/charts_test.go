package site

import (
	"regexp"
	"testing"
)

// cellaredEntry is a gyle of which some was dumped and some poured, in a bag that
// holds sediment too.
const cellaredEntry = `---
gyle: 7
beer: Low Water
brewed: 2026-01-10
yeast: [{yeast: house ale, pitched: 2026-01-10 15:00}]
fermenter: {volume: 20 L, gravity: 1.041}
racked: {on: 2026-01-22, volume: 18 L}
packages: [{vessel: soft bag 20 L, fill: 18 L, broached: 2026-02-20}]
done: [{when: 2026-02-01, did: dumped, volume: 0.5 L}]
poured: [{when: 2026-02-20, volume: 10 pt-uk}, {when: 2026-02-21, volume: 6 pt-uk}]
---
`

// TestChartEndsAtTheFigure: 18 L less half a litre of sediment are 30.8 pints; less
// half a litre dumped and sixteen pints, 13.9: the chart says it as the figure does.
func TestChartEndsAtTheFigure(t *testing.T) {
	s := build(t, entries("index.md", tasterJournal, "gyles/7.md", cellaredEntry), Options{})
	text := page(t, s, "gyles/7/index.html")
	if ends := regexp.MustCompile(`31 pints on [^,]*, 14 on `); !ends.MatchString(text) {
		t.Errorf("the chart does not say that 31 pints became 14: %q", regexp.MustCompile(`[^>]*pints on [^<]*`).FindString(text))
	}
	wants(t, text, "14 left")
	split := "---\ngyle: 8\nbeer: Split\ndrawn_from: [{gyle: 7, volume: 5 L, on: 2026-02-10}]\n---\n"
	s = build(t, entries("index.md", tasterJournal, "gyles/7.md", cellaredEntry, "gyles/8.md", split), Options{})
	text = page(t, s, "gyles/7/index.html")
	if ends := regexp.MustCompile(`31 pints on [^,]*, 5 on `); !ends.MatchString(text) {
		t.Errorf("5 L more are 8.8 pints: %q", regexp.MustCompile(`[^>]*pints on [^<]*`).FindString(text))
	}
	wants(t, text, "drawn off", "dumped")
}
