package site

import (
	"strings"
	"testing"

	"gylebook/internal/causes"
)

// tastedEntry is a gyle that fermented further than meant and has two tasters.
const tastedEntry = `---
gyle: 7
beer: Thin Ice
brewed: 2026-01-10
aim: {volume: 20 L, og: 1.041, fg: 1.010, condition: 1.9 vol}
grist: [{malt: pale malt, weight: 3.2 kg}, {sugar: sucrose, weight: 450 g, into: copper}]
mash: {rests: [{at: 63.5 C, for: 75 min}]}
hops: [{hop: goldings, weight: 40 g, alpha: 5 %, boiled: 60 min}]
yeast: [{yeast: house ale, pitched: 2026-01-10 15:00}]
fermenter: {volume: 20 L, gravity: 1.041}
readings:
  - {when: 2026-01-18 08:00, gravity: 1.0065, temp: 19 C}
  - {when: 2026-01-21 08:00, gravity: 1.0065, temp: 19 C, note: Osbert says it smells of pears}
racked: {on: 2026-01-22, volume: 19 L}
packages: [{vessel: bottle 500 mL, count: 38}]
tastings:
  - {when: 2026-02-20, by: Osbert, at: 12 C, found: [thin, <b>wibbly</b>]}
  - {when: 2026-02-21, by: Wren, at: 12 C, found: [watery, dry, nutty]}
---
`

const tasterJournal = "---\njournal: The Lock-side Book\n---\n"

// why is the section of a page.
func why(t *testing.T, text string) string {
	t.Helper()
	_, rest, ok := strings.Cut(text, `<h2 id="p-why">`)
	if !ok {
		t.Fatal("there is no diagnosis on the page")
	}
	section, _, _ := strings.Cut(rest, "</details>")
	return section
}

func TestDiagnosisOnThePage(t *testing.T) {
	s := build(t, entries("index.md", tasterJournal, "gyles/7.md", tastedEntry), Options{})
	text := page(t, s, "gyles/7/index.html")
	wants(t, text, `<a href="#p-why">Why it tastes so</a>`)
	section := why(t, text)
	wants(t, section,
		"<h3>Thin</h3>", "2 of 2 tasters: they agree. Said as watery.", "In the glass at 12\u00a0°C",
		`Likely: <a href="../../workings/index.html#c-fermented-far">it fermented further than was meant</a>`,
		"<b>For:</b> the final gravity is 1.0063 ± 0.0013, with 1.010 aimed at; ", "!line\u00a013",
		"Unlikely: ", "<b>Against:</b> ", "<b>To tell them apart:</b>",
		"<h3>Dry</h3>", "A friend, 1 of 2 tasters: a hint.", "As under thin.",
		"<code>liquor.water</code>", "No causes are known of “&lt;b&gt;wibbly&lt;/b&gt;”.",
		"!Osbert", "!Wren", "!Nutty", "!<b>wibbly",
	)
	if strings.Index(section, "Likely: ") > strings.Index(section, "Unlikely: ") {
		t.Error("an unlikely cause stands before a likely one")
	}
}

// TestDiagnosisNamesTasters: where tasters are no secret, they are named.
func TestDiagnosisNamesTasters(t *testing.T) {
	open := strings.Replace(tasterJournal, "\n---\n", "\nprivate: [nothing]\n---\n", 1)
	s := build(t, entries("index.md", open, "gyles/7.md", tastedEntry), Options{})
	wants(t, why(t, page(t, s, "gyles/7/index.html")), "Osbert and Wren, 2 of 2 tasters: they agree.", "Wren, 1 of 2 tasters: a hint.", "!friend")
}

// TestDiagnosisOfNothing: a word in an entry without readings names what to note,
// and no cause as if it were one; a gyle that nobody tasted has no section.
func TestDiagnosisOfNothing(t *testing.T) {
	s := build(t, entries("index.md", tasterJournal,
		"gyles/1.md", "---\ngyle: 1\nbeer: A\ntastings: [{found: [thin]}]\n---\n",
		"gyles/2.md", "---\ngyle: 2\nbeer: B\ntastings: [{found: [nutty]}]\n---\n"), Options{})
	wants(t, why(t, page(t, s, "gyles/1/index.html")), "Nothing in the readings speaks for any of its causes.", "Not known either way:", "<b>To settle it,</b> note", "<code>readings[].gravity</code>", "!Likely", "!Unlikely")
	if strings.Contains(page(t, s, "gyles/2/index.html"), "p-why") {
		t.Error("a description is diagnosed")
	}
}

// TestDiagnosisIsSmall keeps the longest diagnosis of one gyle in bounds.
func TestDiagnosisIsSmall(t *testing.T) {
	s := build(t, entries("index.md", tasterJournal, "gyles/7.md", strings.Replace(tastedEntry, "found: [watery, dry, nutty]", "found: [watery, dry, hazy, flat, sour]", 1)), Options{})
	if size := len(why(t, page(t, s, "gyles/7/index.html"))); size > 6<<10 {
		t.Errorf("five words take %d bytes, over 6 KB", size)
	}
}

// TestCausesOnTheWorkingsPage: each declared cause has its row, with its words.
func TestCausesOnTheWorkingsPage(t *testing.T) {
	text := page(t, build(t, entries("index.md", tasterJournal), Options{}), "workings/index.html")
	for _, c := range causes.Causes() {
		wants(t, text, `id="c-`+c.ID+`">`)
	}
	wants(t, text, "final gravity 2 points or more under its aim", "thin, dry, fizzy")
}

// TestDrawnOtherwise: a glass that was drawn another way than the gyle is served says
// so, at the tasting and where the tasters are counted.
func TestDrawnOtherwise(t *testing.T) {
	entry := strings.NewReplacer(
		"packages: [{vessel: bottle 500 mL, count: 38}]", "packages: [{vessel: keg 19 L, fill: 18 L, broached: 2026-02-18}]\nserved: {through: hand pump}",
		"{when: 2026-02-21, by: Wren, at: 12 C,", "{when: 2026-02-21, by: Wren, through: picnic tap, at: 12 C,",
	).Replace(tastedEntry)
	s := build(t, entries("index.md", tasterJournal, "gyles/7.md", entry), Options{})
	text := page(t, s, "gyles/7/index.html")
	wants(t, text, "through the picnic tap, at 12\u00a0°C")
	wants(t, why(t, text), "Through the hand pump: 1 of 1. Through the picnic tap: 1 of 1.")
}
