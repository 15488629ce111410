package site

import (
	"strings"
	"testing"
)

const dryAt64 = `---
gyle: 1
beer: Try
brewed: 2026-01-01
aim: {volume: 20 L, og: 1.042, fg: 1.010}
grist: [{malt: pale malt, weight: 4 kg, extract: 300 Ldeg/kg}]
mash: {rests: [{at: 64 C, for: 60 min}]}
yeast: {yeast: nobodys ale, pitched: 2026-01-01 14:00}
fermenter: {volume: 20 L, gravity: 1.042}
readings: [{when: 2026-01-05, gravity: 1.007, temp: 20 C}, {when: 2026-01-09, gravity: 1.007, temp: 20 C}]
next: [More body.]
---
`

// second is the same beer mashed warmer.
var second = strings.NewReplacer("gyle: 1", "gyle: 2\nfollows: 1", "2026-01", "2026-03", "at: 64 C", "at: 66 C", "1.007", "1.0095").Replace(dryAt64)

// has tells whether a page has a text, whatever blanks are in it.
func has(page, text string) bool {
	return strings.Contains(strings.Join(strings.Fields(strings.ReplaceAll(page, "\u00a0", " ")), " "), text)
}

func TestNextTimeOnThePage(t *testing.T) {
	pages := rendered(t, build(t, entries("index.md", "---\njournal: T\n---\n", "1.md", dryAt64, "2.md", second), Options{}))
	first := pages["gyles/1/index.html"]
	for _, text := range []string{"More body.", "3.0 ± 1.3 points under the aim of 1.010", "Mash at 66 °C instead of 64 °C", "mash.rests[0].at: 66 °C", "How we shall know"} {
		if !has(first, text) {
			t.Errorf("gyle 1 does not say %q", text)
		}
	}
	if has(first, "Did it come true?") {
		t.Error("gyle 1 follows nobody, and is judged")
	}
	then := pages["gyles/2/index.html"]
	for _, text := range []string{"Did it come true?", "64 °C before, 66 °C proposed, 66 °C now", "It came true, within what the readings can tell."} {
		if !has(then, text) {
			t.Errorf("gyle 2 does not say %q", text)
		}
	}
}

// TestNothingOfADraftIsJudged: what a draft proposed is nobody's business.
func TestNothingOfADraftIsJudged(t *testing.T) {
	draft := strings.Replace(dryAt64, "gyle: 1", "gyle: 1\ndraft: true", 1)
	page := rendered(t, build(t, entries("index.md", "---\njournal: T\n---\n", "1.md", draft, "2.md", second), Options{}))["gyles/2/index.html"]
	if has(page, "Did it come true?") || has(page, "64 °C before") {
		t.Error("the page tells what a draft said")
	}
}

const onPaper = "---\ngyle: 1\nbeer: Plain\nbrewed: 2026-06-20\naim: {volume: 21 L, abv: 4 %}\nparty: {on: 2026-07-25, guests: 12, hours: 3, occasion: Hush do}\n---\n"

func TestPlanOnThePage(t *testing.T) {
	pages := rendered(t, build(t, entries("index.md", "---\njournal: T\n---\n", "1.md", onPaper), Options{}))
	page := pages["gyles/1/index.html"]
	for _, text := range []string{
		"Soft bag or cask: in time. Next: brew, set for Sat 20 June; Tue 30 June would do.",
		"Bottles: 4 days of the usual time are lacking",
		"Tue 30 June (12)", "Sat 11 July (8)", "Never shortened",
		"makes 24 to 30 pints. There should be 30 ± 2 pints to pour.",
		// 4 % of 568 mL is 2.3 units; 2 and 2.5 pints of it.
		"A pint holds 2.3 units of alcohol: 5 to 6 units a guest, 55 to 68 in all. Put out water and food",
	} {
		if !has(page, text) {
			t.Errorf("the page does not say %q", text)
		}
	}
	if calendar := pages["calendar.ics"]; !strings.Contains(calendar, "UID:gyle-1-plan-rack@") || !strings.Contains(calendar, "DTSTART;VALUE=DATE:20260711") {
		t.Error("the calendar has no day to rack on")
	}
}

// TestAPrivatePartyHasNoPlan: neither on the page nor in the calendar.
func TestAPrivatePartyHasNoPlan(t *testing.T) {
	for path, page := range rendered(t, build(t, entries("index.md", "---\njournal: T\nprivate: [party]\n---\n", "1.md", onPaper), Options{})) {
		for _, text := range []string{"Until the party", "plan-rack", "Hush do", "12 guests"} {
			if has(page, text) {
				t.Errorf("%s tells of a private party: %s", path, text)
			}
		}
	}
}

// TestWhatIsLearntIsSaid: the pages say what a figure that plans leans on.
func TestWhatIsLearntIsSaid(t *testing.T) {
	files := entries("index.md", "---\njournal: T\n---\n", "1.md", dryAt64, "2.md", second)
	for number, month := range map[string]string{"3": "2026-04", "4": "2026-05"} {
		files[number+".md"] = entries("", strings.NewReplacer("gyle: 1", "gyle: "+number, "2026-01", month).Replace(dryAt64))[""]
	}
	pages := rendered(t, build(t, files, Options{}))
	for path, text := range map[string]string{
		"gyles/3/workings/index.html": "Planned by the stated default until three gyles of your own are known.",
		"gyles/4/workings/index.html": "Planned by the median yield of 3 gyles of your own.",
		"trends/index.html":           "The next gyle is planned by it.",
	} {
		if !has(pages[path], text) {
			t.Errorf("%s does not say %q", path, text)
		}
	}
	if yeast := pages["larder/yeast/nobodys-ale/index.html"]; !has(yeast, "Of your own 4 settled gyles with it") || !has(yeast, "The next gyle with it is expected by that.") {
		t.Error("the yeast's page does not say what the next gyle is expected by")
	}
}
