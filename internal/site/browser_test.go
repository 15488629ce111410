package site

import (
	"context"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
)

// browser is a browser to test in. Without one the test is skipped aloud; where
// CI=true it fails.
func browser(t *testing.T) context.Context {
	t.Helper()
	if testing.Short() {
		t.Skip("in short mode no browser is opened: how pages look and behave is not tested")
	}
	program := ""
	for _, name := range []string{"chromium", "chromium-browser", "google-chrome"} {
		if found, err := exec.LookPath(name); err == nil {
			program = found
			break
		}
	}
	if program == "" {
		if os.Getenv("CI") == "true" {
			t.Fatal("there is no chromium")
		}
		t.Skip("there is no chromium: how pages look and behave is not tested")
	}
	ctx, stop := context.WithTimeout(t.Context(), 4*time.Minute)
	t.Cleanup(stop)
	ctx, stop = chromedp.NewExecAllocator(ctx, append(chromedp.DefaultExecAllocatorOptions[:],
		chromedp.ExecPath(program), chromedp.NoSandbox, chromedp.UserDataDir(t.TempDir()),
		chromedp.Flag("disable-gpu", true), chromedp.Flag("disable-quic", true), chromedp.Flag("disable-background-networking", true),
		chromedp.Flag("disable-component-update", true), chromedp.Flag("disable-sync", true))...)
	t.Cleanup(stop)
	ctx, stop = chromedp.NewContext(ctx)
	t.Cleanup(stop)
	// The first action starts the browser; two at once would start two.
	if err := chromedp.Do(ctx, chromedp.Navigate("about:blank")); err != nil {
		t.Fatalf("starting the browser: %v", err)
	}
	return ctx
}

// onDisk writes the demonstration site into a folder with a blank in its name.
func onDisk(t *testing.T) string {
	t.Helper()
	_, pages := demoSite(t)
	folder := filepath.Join(t.TempDir(), "a site")
	for name, text := range pages {
		file := filepath.Join(folder, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(file), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(file, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return folder
}

// visit opens a page of the folder.
func visit(t *testing.T, ctx context.Context, folder, page string) {
	t.Helper()
	address := "file://" + strings.ReplaceAll(filepath.ToSlash(folder), " ", "%20") + "/" + page
	if err := chromedp.Do(ctx, chromedp.Navigate(address)); err != nil {
		t.Fatalf("%s: %v", page, err)
	}
}

func ask[T any](t *testing.T, ctx context.Context, expression string) T {
	t.Helper()
	value, err := chromedp.Run(ctx, chromedp.Evaluate[T](expression))
	if err != nil {
		t.Fatalf("%s: %v", expression, err)
	}
	return value
}

// until waits for a page to do what it was asked for. An error on the way is of a
// page that is just being left.
func until(t *testing.T, ctx context.Context, expression string) {
	t.Helper()
	var last error
	for range 100 {
		var is bool
		if is, last = chromedp.Run(ctx, chromedp.Evaluate[bool](expression)); last == nil && is {
			return
		}
		time.Sleep(50 * time.Millisecond)
	}
	t.Errorf("never: %s (%v)", expression, last)
}

// looked are the pages that are looked at: one of each template.
var looked = []string{
	"index.html", "board/index.html", "gyles/index.html", "gyles/34/index.html", "gyles/36/index.html", "gyles/39/index.html", "gyles/42/index.html", "gyles/34/workings/index.html", "gyles/41/copper-card/index.html", "gyles/34/labels/index.html",
	"larder/index.html", "larder/yeast/house-ale/index.html", "styles/index.html", "vessels/index.html", "vessels/soft-bag-10-l/index.html", "tags/index.html", "tags/cask/index.html", "years/index.html", "years/2026/index.html",
	"families/index.html", "families/lengthsmans-bitter/index.html", "trends/index.html", "notes/index.html", "notes/why-the-bag-swells/index.html", "workings/index.html", "search/index.html", "404.html",
}

// contrast is a script that lists texts whose contrast with their ground is less
// than 4.5 (WCAG 2.2, 1.4.3), by the relative luminance of its definition.
const contrast = `(() => {
  const rgb = (c) => (c.match(/[\d.]+/g) || []).map(Number);
  const light = ([r, g, b]) => { const f = (v) => { v /= 255; return v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4; }; return 0.2126 * f(r) + 0.7152 * f(g) + 0.0722 * f(b); };
  const ground = (e) => { for (; e; e = e.parentElement) { const c = rgb(getComputedStyle(e).backgroundColor); if (c.length === 3 || c[3] > 0) return c; } return [255, 255, 255]; };
  const poor = new Set();
  for (const e of document.querySelectorAll("body *")) {
    if (![...e.childNodes].some((n) => n.nodeType === 3 && n.data.trim()) || !e.checkVisibility()) continue;
    const style = getComputedStyle(e);
    const a = light(rgb(e.closest("svg") ? style.fill : style.color)), b = light(ground(e));
    const ratio = (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
    if (ratio < 4.5) poor.add(e.tagName + "." + (e.getAttribute("class") || "") + " " + ratio.toFixed(2));
  }
  return [...poor].slice(0, 5).join("; ");
})()`

// TestInABrowser opens pages from disk at three widths, light and dark: nothing
// may be said on the console, nothing may make the page scroll sideways, and
// every text must stand out from its ground.
func TestInABrowser(t *testing.T) {
	ctx := browser(t)
	folder := onDisk(t)
	var mu sync.Mutex
	var said []string
	messages := chromedp.Console(ctx)
	go func() {
		for m, err := range messages {
			if err != nil {
				return
			}
			mu.Lock()
			said = append(said, fmt.Sprintf("%s %s", m.URL, m.Text))
			mu.Unlock()
		}
	}()
	for _, scheme := range []string{"light", "dark"} {
		features := emulation.SetEmulatedMediaParams{Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: scheme}}}
		if _, err := chromedp.Call(ctx, emulation.SetEmulatedMedia, features); err != nil {
			t.Fatal(err)
		}
		for _, width := range []int64{360, 800, 1440} {
			if err := chromedp.Do(ctx, chromedp.EmulateViewport(width, 900)); err != nil {
				t.Fatal(err)
			}
			for _, page := range looked {
				if page == "404.html" {
					continue // it is for servers
				}
				visit(t, ctx, folder, page)
				ask[int](t, ctx, `for (const d of document.querySelectorAll("details")) d.open = true; 1`)
				if wide := ask[int64](t, ctx, "document.documentElement.scrollWidth"); wide > width {
					t.Errorf("%s is %d wide at %d", page, wide, width)
				}
				if poor := ask[string](t, ctx, contrast); poor != "" {
					t.Errorf("%s, %s at %d: poor contrast: %s", page, scheme, width, poor)
				}
			}
		}
	}
	mu.Lock()
	defer mu.Unlock()
	if len(said) > 0 {
		t.Errorf("on the console: %s", strings.Join(said, "\n"))
	}
}

// TestScripts tries what the script does: sort, filter, share, search, open.
func TestScripts(t *testing.T) {
	ctx := browser(t)
	folder := onDisk(t)
	const order = `[...document.querySelectorAll("#gyles tbody tr")].filter(r => !r.hidden).map(r => r.cells[0].textContent).join(" ")`

	visit(t, ctx, folder, "gyles/index.html")
	before := ask[string](t, ctx, order)
	ask[int](t, ctx, `document.querySelector('[data-key="abv"] button').click(); 1`)
	sorted := ask[string](t, ctx, order)
	if sorted == before || !strings.Contains(ask[string](t, ctx, "location.hash"), "sort=abv") {
		t.Errorf("sorting by strength gave %s at %s", sorted, ask[string](t, ctx, "location.hash"))
	}
	if got := ask[string](t, ctx, `document.querySelector('[data-key="abv"]').getAttribute("aria-sort")`); got != "ascending" {
		t.Errorf("aria-sort is %q", got)
	}
	visit(t, ctx, folder, "index.html")
	visit(t, ctx, folder, "gyles/index.html#stage=paper&sort=number")
	if got := ask[string](t, ctx, order); got != "42 43" {
		t.Errorf("the shared address shows %q", got)
	}

	visit(t, ctx, folder, "search/index.html#q=gongoozler")
	until(t, ctx, `document.querySelector("#found a")?.textContent.includes("Gongoozler") ?? false`)
	ask[int](t, ctx, `document.querySelector("#found a").click(); 1`)
	until(t, ctx, `document.title.includes("Gongoozler") && document.title.startsWith("Gyle")`)

	visit(t, ctx, folder, "gyles/index.html#yeast=american+ale")
	if got := ask[string](t, ctx, order); got != "33" {
		t.Errorf("filtered by yeast the list shows %q", got)
	}
	visit(t, ctx, folder, "search/index.html#q=xyzzy")
	until(t, ctx, `document.getElementById("none").checkVisibility() && document.querySelector("output").textContent.includes("Nothing found")`)

	visit(t, ctx, folder, "gyles/34/index.html#w-abv")
	until(t, ctx, `document.getElementById("w-abv").closest("details").open`)

	visit(t, ctx, folder, "gyles/41/copper-card/index.html")
	ask[int](t, ctx, `document.querySelector("[data-clock] button").click(); 1`)
	until(t, ctx, `document.querySelector("[data-clock] output").textContent === "Now" && document.querySelectorAll(".next").length === 1`)
}

// TestWithoutScripts holds the pages to be whole without a script.
func TestWithoutScripts(t *testing.T) {
	ctx := browser(t)
	folder := onDisk(t)
	if _, err := chromedp.Call(ctx, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: true}); err != nil {
		t.Fatal(err)
	}
	visit(t, ctx, folder, "gyles/index.html")
	if got := ask[bool](t, ctx, `document.querySelectorAll("#gyles tbody tr").length > 10 && !document.querySelector(".filter").checkVisibility()`); !got {
		t.Error("the gyle list is not whole, or shows a filter that does nothing")
	}
	visit(t, ctx, folder, "search/index.html")
	if got := ask[bool](t, ctx, `document.querySelector("noscript").checkVisibility()`); !got {
		t.Error("the search does not say that it needs a script")
	}
}
