package site

import (
	"context"
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"

	"gylebook/internal/book"
	"gylebook/internal/journal"
)

// inTheCopper is an entry on its brew day, which the tests put at three moments.
const inTheCopper = `---
gyle: 1
beer: Early
brewed: 2026-03-07
grist: [{malt: pale malt, weight: 4 kg}, {sugar: invert no. 3, weight: 200 g, into: copper}]
mash: {started: 2026-03-07 09:05, rests: [{at: 66 C, for: 60 min}, {at: 75 C, for: 10 min, by: infusion, liquor: 3 L, liquor_at: 98 C}]}
copper: {boiled: 70 min%s}
hops:
  - {hop: goldings, weight: 25 g, alpha: 5.1 %%, boiled: 60 min}
  - {hop: fuggles, weight: 15 g, steeped: 20 min, at: 80 C}
---
`

// pageAt is a page of a journal with one entry, its clock in London, at a moment.
func pageAt(t *testing.T, entry, now, name string) string {
	t.Helper()
	files := entries("index.md", "---\njournal: J\ntime_zone: Europe/London\n---\n", "gyles/1.md", entry)
	at, err := time.Parse(time.RFC3339, now)
	if err != nil {
		t.Fatal(err)
	}
	s, err := Build(book.Open(journal.Read(files, journal.Options{}), at), Options{Files: files})
	if err != nil {
		t.Fatal(err)
	}
	return page(t, s, name)
}

func TestBrewClockSaysTimes(t *testing.T) {
	started := fmt.Sprintf(inTheCopper, ", started: 2026-03-07 11:20")
	for _, name := range []string{"gyles/1/index.html", "gyles/1/copper-card/index.html"} {
		text := pageAt(t, started, "2026-03-07T12:00:00Z", name)
		wants(t, text, "data-clock", "!data-length", "!The boil has begun",
			`<li data-at="2026-03-07T09:05:00Z"><b><time datetime="2026-03-07T09:05:00Z">09:05</time></b> mash in`,
			">10:05</time></b> end of the rest at 66\u00a0°C, then 75\u00a0°C by infusion, 3\u00a0L at 98\u00a0°C",
			">10:15</time></b> end of the rest at 75\u00a0°C",
			`data-minutes="60"><b><time datetime="2026-03-07T11:30:00Z">11:30</time></b> 60`+"\u00a0min before the end: goldings, 25\u00a0g, alpha 5.1\u00a0%",
			">12:15</time></b> about 15 min before the end: invert no. 3, 200\u00a0g",
			">12:30</time></b> end of the boil",
			">12:30</time></b> off the boil, for 20\u00a0min at 80\u00a0°C: fuggles, 15\u00a0g")
		if mash, hops := strings.Index(text, "mash in"), strings.Index(text, "before the end: goldings"); mash < 0 || hops < mash {
			t.Errorf("%s: the day is not in its order", name)
		}
	}
}

func TestBrewClockWithoutAStart(t *testing.T) {
	text := pageAt(t, fmt.Sprintf(inTheCopper, ""), "2026-03-07T12:00:00Z", "gyles/1/copper-card/index.html")
	wants(t, text, `data-length="70"`, "The boil has begun", `<li data-minutes="60"><b>60`+"\u00a0min before the end</b> goldings", `<li data-minutes="0">end of the boil`)
}

func TestBrewClockIsForBrewDayOnly(t *testing.T) {
	entry := fmt.Sprintf(inTheCopper, ", started: 2026-03-07 11:20")
	const name = "gyles/1/index.html"
	wants(t, pageAt(t, entry, "2026-03-06T00:00:00Z", name), "data-clock")  // on paper, with its times
	wants(t, pageAt(t, entry, "2026-03-07T00:00:00Z", name), "data-clock")  // published that morning
	wants(t, pageAt(t, entry, "2026-03-09T00:00:00Z", name), "!data-clock") // nobody wrote down the pitching
	pitched := strings.Replace(entry, "hops:", "yeast: [{yeast: ale, pitched: 2026-03-07 15:00}]\nhops:", 1)
	wants(t, pageAt(t, pitched, "2026-03-07T16:00:00Z", name), "!data-clock")
	untimed := "---\ngyle: 1\nbeer: B\nbrewed: 2026-03-20\nhops: [{hop: goldings, weight: 25 g, boiled: 60 min}]\n---\n"
	wants(t, pageAt(t, untimed, "2026-03-07T00:00:00Z", name), "!data-clock") // on paper, without times
	wants(t, pageAt(t, "---\ngyle: 1\nbeer: B\nbrewed: 2026-03-07\ncopper: {boiled: none}\n---\n", "2026-03-07T00:00:00Z", "gyles/1/copper-card/index.html"), "!data-clock")
}

// TestBrewClockRuns lets a browser count down from its own clock, in a page that
// is changed in place meanwhile.
func TestBrewClockRuns(t *testing.T) {
	ctx := browser(t)
	folder := onDisk(t)
	visit(t, ctx, folder, "gyles/41/copper-card/index.html")
	ticking := func(minutes int) string {
		return fmt.Sprintf(`(() => {
			const at = (m) => new Date(Date.now() + m * 60000 + 5000).toISOString();
			document.querySelector("[data-clock]").outerHTML = '<div data-clock><p class="clock" hidden><label><input type="checkbox"> with a sound</label> <output></output></p><ol class="additions">'
				+ '<li data-at="' + at(-10) + '">a<span class="left"></span></li><li data-at="' + at(%d) + '">b<span class="left"></span></li><li data-at="' + at(30) + '">c<span class="left"></span></li></ol></div>';
			return 1;
		})()`, minutes)
	}
	ask[int](t, ctx, ticking(4))
	until(t, ctx, `document.querySelector("[data-clock] output").textContent === "Next in 5 min"`)
	until(t, ctx, `document.querySelector(".next").textContent === "b in 5 min" && document.querySelector(".past").textContent === "a" && !document.querySelector(".clock").hidden`)
	if got := ask[string](t, ctx, `getComputedStyle(document.querySelector(".past")).order`); got != "1" {
		t.Errorf("what is past stands at order %q, want after what is due", got)
	}
	ask[int](t, ctx, `self.sounds = 0; self.AudioContext = class { currentTime = 0; destination = null; createOscillator() { sounds++; return { connect() {}, start() {}, stop() {} }; } }; 1`)
	ask[int](t, ctx, ticking(0))
	if err := chromedp.Do(ctx, chromedp.Click(`[data-clock] input`)); err != nil {
		t.Fatal(err)
	}
	until(t, ctx, `sounds === 3`) // as soon as it is switched on
	wait, cancel := context.WithTimeout(ctx, 20*time.Second)
	defer cancel()
	for !ask[bool](t, wait, `sounds === 6 && document.querySelector("[data-clock] output").textContent === "Now"`) {
		time.Sleep(200 * time.Millisecond)
	}
}
