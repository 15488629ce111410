package live

import (
	"fmt"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
)

// numberedEntry is an entry of a gyle with a number and a line of its own.
func numberedEntry(n int, beer, line string) string {
	return strings.Replace(entry(beer, "Words."), "gyle: 1\n", fmt.Sprintf("gyle: %d\n%s", n, line), 1)
}

// typed types into a field as a reader does, and stands in it.
func (b *tab) typed(field, text string) {
	b.t.Helper()
	b.says(fmt.Sprintf(`(() => {
		document.mark = "the same page";
		const box = document.querySelector(%q);
		box.focus();
		box.value = %q;
		box.dispatchEvent(new Event("input", {bubbles: true}));
	})()`, field, text))
}

// TestAnOpenSearchFollowsTheJournal types a query and saves: the hits are those that
// there are now, and what was typed and the focus stay.
func TestAnOpenSearchFollowsTheJournal(t *testing.T) {
	s := serve(t, map[string]string{"index.md": settings, "gyles/1.md": entry("Osier Ale", "Words."), "gyles/2.md": numberedEntry(2, "Quite Another", "")})
	b := browse(t, s)
	b.open("search/")
	b.becomes("the search is up", `document.readyState === "complete" && !document.querySelector("[data-search]").hidden`)
	b.typed("#q", "osier")
	hits := `[...document.querySelectorAll("#found a")].map((a) => a.textContent).join(" | ")`
	if got := b.says(hits); got != "Gyle 1, Osier Ale" {
		t.Fatalf("found %s", got)
	}
	s.write("gyles/2.md", numberedEntry(2, "Osier Stout", ""))
	b.becomes("the second beer is found", `document.querySelectorAll("#found a").length === 2`)
	if got := b.says(`[document.mark, document.activeElement.id, document.querySelector("#q").value, document.querySelector("output[for=q]").textContent].join()`); got != "the same page,q,osier,2 pages." {
		t.Errorf("what was typed is lost: %s", got)
	}
	b.says(`document.querySelectorAll("#found a")[1].focus()`)
	at := b.says(`document.activeElement.textContent`)
	s.write("gyles/3.md", numberedEntry(3, "Osier Porter", ""))
	b.becomes("the third is found", `document.querySelectorAll("#found a").length === 3`)
	if got := b.says(`document.activeElement.textContent`); got != at {
		t.Errorf("the focus went from %q to %q", at, got)
	}
	s.write("gyles/1.md", entry("Willow Ale", "It smelt of osier beds."))
	b.becomes("one of them is found by its story alone", hits+`.includes("Willow Ale")`)
	b.typed("#q", "beds")
	if got := b.says(hits); got != "Gyle 1, Willow Ale" {
		t.Errorf("by a new word of a story: %s", got)
	}
}

// TestASortedListKeepsItsOrder sorts and filters the gyle list and saves entries that
// change places, come and go.
func TestASortedListKeepsItsOrder(t *testing.T) {
	files := map[string]string{"index.md": settings}
	for i, beer := range []string{"Delta Ale", "Alpha Ale", "Charlie Stout", "Bravo Ale"} {
		files[fmt.Sprintf("gyles/%d.md", i+1)] = numberedEntry(i+1, beer, "")
	}
	s := serve(t, files)
	b := browse(t, s)
	b.open("gyles/")
	b.becomes("the list is up", `document.readyState === "complete" && !document.querySelector("[data-filter]").hidden`)
	b.must(chromedp.Do(b.ctx, chromedp.EmulateViewport(1200, 700))) // a narrow one has no heads to sort by
	b.typed("[data-filter] [name=words]", "ale")
	b.says(`(() => { const button = document.querySelector("th[data-key=beer] button"); button.click(); button.click(); button.focus(); })()`)
	shown := `[...document.querySelectorAll("tbody tr")].filter((r) => !r.hidden).map((r) => r.cells[1].textContent.trim().split(" ")[0]).join(" ")`
	held := func(what, rows string) {
		t.Helper()
		b.becomes(what, fmt.Sprintf("(%s) === %q", shown, rows))
		if got := b.says(`[document.mark, document.activeElement.closest("th").dataset.key, document.querySelector("[data-key=beer]").getAttribute("aria-sort"), document.querySelector("[name=words]").value, location.hash].join()`); got != "the same page,beer,descending,ale,#words=ale&sort=-beer" {
			t.Errorf("%s: the reader's list is lost: %s", what, got)
		}
	}
	held("sorted by name, the last first", "Delta Bravo Alpha")
	s.write("gyles/2.md", numberedEntry(2, "Echo Ale", ""))
	held("one with another name is at its new place", "Echo Delta Bravo")
	s.write("gyles/5.md", numberedEntry(5, "Cherry Ale", ""))
	held("a new one is at its place", "Echo Delta Cherry Bravo")
	s.write("gyles/3.md", numberedEntry(3, "Charlie Ale", ""))
	held("one that fits now comes in", "Echo Delta Cherry Charlie Bravo")
	s.write("gyles/4.md", numberedEntry(4, "Bravo Stout", ""))
	held("one that does not fit any more goes", "Echo Delta Cherry Charlie")
}
