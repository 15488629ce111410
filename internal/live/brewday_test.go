package live

import (
	"fmt"
	"strings"
	"testing"
)

// brewDay is an entry in the copper at noon, with a last hop so many minutes before
// the end of the boil.
func brewDay(started string, lastHop int, words string) string {
	return fmt.Sprintf("---\ngyle: 1\nbeer: An Ale\nbrewed: 2026-06-01\ncopper: {boiled: 60 min%s}\nhops:\n  - {hop: goldings, weight: 30 g, boiled: 25 min}\n  - {hop: fuggle, weight: 20 g, boiled: %d min}\n---\n%s\n", started, lastHop, words)
}

// aClock gives the page a clock that the test sets, and a bell that counts: its first
// stroke is that of being switched on.
const aClock = `(() => {
	document.mark = "the same page";
	self.at = (t) => { const from = performance.now(), base = Date.parse("2026-06-01T" + t + "Z"); Date.now = () => base + performance.now() - from; };
	self.tones = 0;
	self.AudioContext = class { currentTime = 0; destination = null; createOscillator() { tones++; return { connect() {}, start() {}, stop() {} }; } };
	self.additions = () => [...document.querySelectorAll("[data-clock] li")].map((li) => li.className + ":" + li.textContent).join(" | ");
	self.clockSays = () => document.querySelector("[data-clock] output").textContent;
	at("12:04:00");
})()`

// rung tells how often the bell must have rung, and that it stays at that while the
// clock ticks on.
func (b *tab) rung(times int, what string) {
	b.t.Helper()
	b.becomes(what, fmt.Sprintf("tones === %d", 3*times))
	for range 2 {
		b.says(`document.dispatchEvent(new CustomEvent("gylebook:changed"))`) // each a tick
	}
	if got := b.says("tones / 3"); got != fmt.Sprint(times) {
		b.t.Errorf("%s: the bell rang %s times, want %d", what, got, times)
	}
}

// saveOnBrewDay saves and waits for the page to have the new words. It gives what the
// clock and the list said just before and just after.
func (b *tab) saveOnBrewDay(text, words string) (before, after string) {
	b.t.Helper()
	before = b.says(`clockSays() + " / " + additions()`)
	b.write("gyles/1.md", text)
	b.becomes("the page has "+words, fmt.Sprintf("document.body.textContent.includes(%q)", words))
	return before, b.says(`clockSays() + " / " + additions()`)
}

// TestBrewDayGoesOnOverASave runs the clock of a boil that the entry knows the
// beginning of, and saves the entry meanwhile.
func TestBrewDayGoesOnOverASave(t *testing.T) {
	started := ", started: 2026-06-01 11:30"
	s := serve(t, map[string]string{"index.md": settings, "gyles/1.md": brewDay(started, 10, "At first.")})
	b := browse(t, s)
	b.open("gyles/1/")
	b.becomes("the page is up", `document.readyState === "complete"`)
	b.says(aClock)
	b.becomes("the clock counts", `clockSays() === "Next in 1 min"`)
	b.says(`document.querySelector("[data-clock] input").click()`)
	b.rung(1, "switched on")
	b.says(`at("12:05:00")`)
	b.rung(2, "the first hop is due")

	before, after := b.saveOnBrewDay(brewDay(started, 10, "The wort smells of hay."), "smells of hay")
	if before != after {
		t.Errorf("a save of words makes the clock jump:\n%s\n%s", before, after)
	}
	b.rung(2, "after a save of words")
	_, after = b.saveOnBrewDay(brewDay(started, 15, "Later words."), "Later words.")
	if want := "12:15 15\u00a0min before the end: fuggle, 20\u00a0g in 10 min"; !strings.Contains(after, want) {
		t.Errorf("the addition has not moved at once: %s, want %s", after, want)
	}
	b.rung(2, "after an addition's time was changed")
	b.says(`at("12:14:30")`)
	b.becomes("it counts to the new time", `clockSays() === "Next in 1 min"`)
	b.says(`at("12:15:00")`)
	b.rung(3, "the second hop, at its new time")
	b.says(`at("12:20:00")`)
	b.rung(3, "at its old time")
	if got := b.says(`[document.mark, document.querySelector("[data-clock] input").checked].join()`); got != "the same page,true" {
		t.Errorf("the page has lost its state: %s", got)
	}
	b.end()
	b.says(`at("12:29:30")`)
	b.becomes("it counts without a server", `clockSays() === "Next in 1 min"`)
	b.says(`at("12:30:00")`)
	b.rung(4, "the end of the boil, without a server")
}

// TestABoilBegunByHandGoesOnOverASave begins the boil with the button, and saves.
func TestABoilBegunByHandGoesOnOverASave(t *testing.T) {
	s := serve(t, map[string]string{"index.md": settings, "gyles/1.md": brewDay("", 10, "At first.")})
	b := browse(t, s)
	b.open("gyles/1/")
	b.becomes("the page is up", `document.readyState === "complete"`)
	b.says(aClock)
	b.says(`document.querySelector("[data-clock] button").click()`)
	b.becomes("the boil has begun", `clockSays() === "Next in 35 min"`)
	b.says(`document.querySelector("[data-clock] input").click()`)
	b.rung(1, "switched on")
	b.says(`at("12:39:00")`)
	b.rung(2, "the first hop is due")
	before, after := b.saveOnBrewDay(brewDay("", 10, "The wort smells of hay."), "smells of hay")
	if before != after {
		t.Errorf("a save of words makes the clock jump:\n%s\n%s", before, after)
	}
	b.saveOnBrewDay(brewDay("", 15, "Later words."), "Later words.")
	b.rung(2, "after an addition's time was changed")
	if got := b.says(`document.querySelector("[data-clock] button").textContent`); got != "Begin again" {
		t.Errorf("the button says %q", got)
	}
	b.says(`at("12:49:00")`)
	b.rung(3, "the second hop, at its new time")
	b.end()
	b.says(`at("13:04:00")`)
	b.rung(4, "the end of the boil, without a server")
}
