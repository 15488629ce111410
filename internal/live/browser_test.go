package live

import (
	"context"
	"fmt"
	"os"
	"os/exec"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
)

// tab is a page of a server in a browser.
type tab struct {
	*served
	ctx context.Context
}

// browse opens a browser. Without one the test is skipped aloud; where CI=true it
// fails.
func browse(t *testing.T, s *served) *tab {
	t.Helper()
	if testing.Short() {
		t.Skip("in short mode no browser is opened: that open pages change in place is not tested")
	}
	program, err := exec.LookPath("chromium")
	switch {
	case err != nil && os.Getenv("CI") == "true":
		t.Fatal("there is no chromium")
	case err != nil:
		t.Skip("there is no chromium: that open pages change in place is not tested")
	}
	ctx, stop := context.WithTimeout(t.Context(), 5*time.Minute)
	t.Cleanup(stop)
	ctx, stop = chromedp.NewExecAllocator(ctx, append(chromedp.DefaultExecAllocatorOptions[:],
		chromedp.ExecPath(program), chromedp.NoSandbox, chromedp.UserDataDir(t.TempDir()))...)
	t.Cleanup(stop)
	ctx, stop = chromedp.NewContext(ctx)
	t.Cleanup(stop)
	return &tab{s, ctx}
}

func (b *tab) open(page string) {
	b.t.Helper()
	b.must(chromedp.Do(b.ctx, chromedp.EmulateViewport(400, 700), chromedp.Navigate(b.address+page)))
}

// says is what an expression comes to.
func (b *tab) says(expression string) string {
	b.t.Helper()
	text, err := chromedp.Run(b.ctx, chromedp.Evaluate[string]("String("+expression+")"))
	b.must(err)
	return text
}

// becomes waits until an expression is true.
func (b *tab) becomes(what, expression string) {
	b.t.Helper()
	for end := time.Now().Add(patience); time.Now().Before(end); time.Sleep(20 * time.Millisecond) {
		if b.says(expression) == "true" {
			return
		}
	}
	b.t.Fatalf("never: %s (%s)", what, expression)
}

// aLongStory has a first paragraph that the browser tests change, and enough after
// it to scroll.
func aLongStory(first string) string {
	var b strings.Builder
	b.WriteString(first + "\n\n")
	for i := range 100 {
		fmt.Fprintf(&b, "Paragraph %d of the story.\n\n", i)
	}
	return b.String()
}

// TestAnOpenPageChangesInPlace saves an entry in every manner, and looks whether
// the open page has the new words, is still the same page, and stands where it
// stood, with what the reader opened and typed.
func TestAnOpenPageChangesInPlace(t *testing.T) {
	s := serve(t, map[string]string{"index.md": settings, "gyles/1.md": entry("First Ale", aLongStory("The beginning."))})
	b := browse(t, s)
	b.open("gyles/1/")
	b.becomes("the page is up", `document.readyState === "complete"`)
	b.says(`(() => {
		document.mark = "the same page";
		const box = document.createElement("input");
		box.id = "mine";
		box.value = "typed";
		document.querySelector("main").prepend(box);
		box.focus({preventScroll: true});
		const box2 = document.querySelector("details");
		if (box2) box2.open = true;
		scrollTo({top: 1234, behavior: "instant"});
	})()`)
	s.eventually("somebody listens", func() bool { return b.says(`scrollY`) == "1234" })
	for i, m := range manners {
		words := fmt.Sprintf("Saved %s, no. %d.", m.how, i)
		m.save(s, entry("First Ale", aLongStory(words)))
		b.becomes("the page has the words saved "+m.how, fmt.Sprintf("document.body.textContent.includes(%q)", words))
		if got := b.says(`[document.mark, document.getElementById("mine")?.value, document.activeElement.id, document.querySelector("details")?.open ?? true].join()`); got != "the same page,typed,mine,true" {
			t.Errorf("saved %s, the page has lost what the reader did: %s", m.how, got)
		}
		if at := b.says(`Math.abs(scrollY - 1234) < 60`); at != "true" {
			t.Errorf("saved %s, the page stands at %s, not at about 1234", m.how, b.says("scrollY"))
		}
	}
}

func TestAnErrorStandsOverTheOpenPageUntilItIsMended(t *testing.T) {
	whole := entry("Whole Ale", aLongStory("Whole."))
	s := serve(t, map[string]string{"index.md": settings, "gyles/1.md": whole})
	b := browse(t, s)
	b.open("gyles/1/")
	b.says(`(() => { document.mark = "the same page"; scrollTo({top: 900, behavior: "instant"}); })()`)
	s.write("gyles/1.md", strings.Replace(whole, "brewed:", "brwed:", 1))
	b.becomes("the error is in view", `(() => { const r = document.querySelector(".broken")?.getBoundingClientRect(); return !!r && r.bottom > 0 && r.top < innerHeight; })()`)
	if text := b.says(`document.querySelector(".broken").textContent`); !strings.Contains(text, "gyles/1.md:4") || !strings.Contains(text, "brwed: 2026-03-07") || !strings.Contains(text, "brewed") {
		t.Errorf("the error does not say the place, the line and what to write: %s", text)
	}
	if b.says(`document.body.textContent.includes("Whole.")`) != "true" {
		t.Error("the last words are gone")
	}
	s.write("gyles/1.md", whole)
	b.becomes("the error goes", `document.querySelector(".broken") === null && document.mark === "the same page"`)
}

func TestAFilteredListKeepsItsFilter(t *testing.T) {
	files := map[string]string{"index.md": settings}
	for i := 1; i <= 4; i++ {
		files[fmt.Sprintf("gyles/%d.md", i)] = strings.Replace(entry("Ale "+[]string{"Alpha", "Beta", "Gamma", "Delta"}[i-1], "Words."), "gyle: 1", fmt.Sprintf("gyle: %d", i), 1)
	}
	s := serve(t, files)
	b := browse(t, s)
	b.open("gyles/")
	b.says(`(() => {
		document.mark = "the same page";
		const box = document.querySelector("[data-filter] [name=words]");
		box.focus();
		box.value = "ale beta";
		box.dispatchEvent(new Event("input", {bubbles: true}));
	})()`)
	shown := `[...document.querySelectorAll("tbody tr")].filter((r) => !r.hidden).length`
	if got := b.says(shown); got != "1" {
		t.Fatalf("the filter shows %s rows", got)
	}
	s.write("gyles/5.md", strings.Replace(entry("Ale Betage", "Words."), "gyle: 1", "gyle: 5", 1))
	b.becomes("the new row is there, and fits", shown+" === 2")
	s.write("gyles/6.md", strings.Replace(entry("Ale Omega", "Words."), "gyle: 1", "gyle: 6", 1))
	b.becomes("a row that does not fit is there, hidden", `document.querySelectorAll("tbody tr").length === 6 && `+shown+" === 2")
	if got := b.says(`[document.mark, document.activeElement.name, document.activeElement.value].join()`); got != "the same page,words,ale beta" {
		t.Errorf("the reader's filter is lost: %s", got)
	}
}

// TestALostNetworkIsMadeUpFor saves while the server does not answer: the page
// asks again when it does.
func TestALostNetworkIsMadeUpFor(t *testing.T) {
	s := serve(t, map[string]string{"index.md": settings, "gyles/1.md": entry("First Ale", "Words.")})
	b := browse(t, s)
	b.open("gyles/1/")
	b.says(`document.mark = "the same page"`)
	address := strings.TrimSuffix(strings.TrimPrefix(s.address, "http://"), "/")
	s.end()
	s.write("gyles/1.md", entry("Second Ale", "Words."))
	serveFolder(t, s.dir, func(o *Options) { o.Address = address })
	b.becomes("the page has what it missed", `document.title.includes("Second Ale") && document.mark === "the same page"`)
}
