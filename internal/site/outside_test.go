package site

import (
	"context"
	"encoding/json"
	"fmt"
	"net/http"
	"net/http/httptest"
	"os"
	"path"
	"regexp"
	"strings"
	"sync"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// checker is the source of a checker that others wrote, installed by npm as
// .ci/package.json pins it. Without it the test is skipped aloud; where CI=true
// it fails.
func checker(t *testing.T, file string) string {
	t.Helper()
	source, err := os.ReadFile("../../.ci/node_modules/" + file)
	if err == nil {
		return string(source)
	}
	if os.Getenv("CI") == "true" {
		t.Fatalf("the checker is not installed: %v", err)
	}
	t.Skipf("the checker %s is not installed (npm --prefix .ci ci): what it would find is not known", file)
	return ""
}

// TestAccessibility asks axe-core about every kind of page with all that opens
// open, light and wide, and dark and narrow.
func TestAccessibility(t *testing.T) {
	axe := checker(t, "axe-core/axe.min.js")
	ctx := browser(t)
	_, address := served(t)
	check := func(name, scheme string) {
		open(t, ctx, address+name)
		if name != "workings/index.html" { // whose vocabulary of a thousand cells takes axe a quarter of a minute
			ask[int](t, ctx, `for (const d of document.querySelectorAll("details")) d.open = true; 1`)
		}
		ask[bool](t, ctx, axe+";true")
		found, err := chromedp.Run(ctx, chromedp.Evaluate[string](`axe.run({ resultTypes: ["violations"] }).then((r) => r.violations.map((v) => v.id + ": " + v.help + ": " + v.nodes.slice(0, 3).map((n) => n.html.slice(0, 160)).join(" | ")).join("\n"))`, chromedp.EvalAwaitPromise))
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		if found != "" {
			t.Errorf("%s, %s:\n%s", name, scheme, found)
		}
	}
	dress(t, ctx, "light", 1440)
	for _, name := range looked {
		check(name, "light")
	}
	dress(t, ctx, "dark", 360)
	for _, name := range looked {
		check(name, "dark")
	}
}

// dress sets the scheme and the width of the window.
func dress(t *testing.T, ctx context.Context, scheme string, width int64) {
	t.Helper()
	features := emulation.SetEmulatedMediaParams{Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: scheme}}}
	if _, err := chromedp.Call(ctx, emulation.SetEmulatedMedia, features); err != nil {
		t.Fatal(err)
	}
	if err := chromedp.Do(ctx, chromedp.EmulateViewport(width, 900)); err != nil {
		t.Fatal(err)
	}
}

// open opens an address.
func open(t *testing.T, ctx context.Context, address string) {
	t.Helper()
	if err := chromedp.Do(ctx, chromedp.Navigate(address)); err != nil {
		t.Fatalf("%s: %v", address, err)
	}
}

// subPath serves a site below a path, with a strict content security policy, and
// remembers what it was asked for in vain.
type subPath struct {
	pages map[string]string
	mu    sync.Mutex
	vain  []string
}

var kinds = map[string]string{".html": "text/html; charset=utf-8", ".css": "text/css", ".js": "text/javascript", ".svg": "image/svg+xml", ".jpg": "image/jpeg", ".json": "application/json"}

func (s *subPath) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	name, within := strings.CutPrefix(r.URL.Path, "/book/")
	if name == "" || strings.HasSuffix(name, "/") {
		name += "index.html"
	}
	text, ok := s.pages[name]
	if !within || !ok {
		s.mu.Lock()
		s.vain = append(s.vain, r.Method+" "+r.URL.String())
		s.mu.Unlock()
		http.NotFound(w, r)
		return
	}
	w.Header().Set("Content-Type", kinds[path.Ext(name)])
	w.Header().Set("Content-Security-Policy", "default-src 'none'; style-src 'self'; script-src 'self'; img-src 'self'; connect-src 'self'")
	fmt.Fprint(w, text)
}

// served serves the demonstration site below the path of its public address.
func served(t *testing.T) (*subPath, string) {
	t.Helper()
	_, pages := demoSite(t)
	s := &subPath{pages: pages}
	server := httptest.NewServer(s)
	t.Cleanup(server.Close)
	return s, server.URL + "/book/"
}

// TestFromAServer opens every kind of page below a sub-path of a server with a
// strict content security policy: everything asked for is there, nothing is
// asked of anyone else, and the console stays empty.
func TestFromAServer(t *testing.T) {
	site, address := served(t)
	ctx := browser(t)
	if _, err := chromedp.Call(ctx, network.Enable, network.EnableParams{}); err != nil {
		t.Fatal(err)
	}
	var mu sync.Mutex
	var said []string
	asked := 0
	requests, messages := chromedp.Events(ctx, network.RequestWillBeSent), chromedp.Console(ctx)
	go func() {
		for ev, err := range requests {
			if err != nil {
				return
			}
			mu.Lock()
			if asked++; !strings.HasPrefix(ev.Request.URL, address) {
				said = append(said, "asked of another: "+ev.Request.URL)
			}
			mu.Unlock()
		}
	}()
	go func() {
		for m, err := range messages {
			if err != nil {
				return
			}
			mu.Lock()
			said = append(said, m.URL+" "+m.Text)
			mu.Unlock()
		}
	}()
	for _, name := range looked {
		open(t, ctx, address+strings.TrimSuffix(name, "index.html"))
		ask[int](t, ctx, `for (const i of document.images) i.loading = "eager"; 1`)
		until(t, ctx, `[...document.images].every((i) => i.complete && i.naturalWidth > 0)`)
	}
	mu.Lock()
	defer mu.Unlock()
	if asked < len(looked)*3 {
		t.Errorf("only %d requests were seen", asked)
	}
	for _, s := range append(site.vain, said...) {
		t.Error(s)
	}
}

var pdfPage = regexp.MustCompile(`/Type\s*/Page\b[^s]`)

// TestOnPaper prints what is made for paper on both papers: eight labels go on a
// sheet, and a copper card on two.
func TestOnPaper(t *testing.T) {
	ctx := browser(t)
	folder := onDisk(t)
	for _, paper := range []chromedp.PaperSize{chromedp.PaperA4, chromedp.PaperLetter} {
		for _, c := range []struct {
			name string
			most int
		}{{"gyles/34/labels/index.html", 2}, {"gyles/41/copper-card/index.html", 2}, {"gyles/34/index.html", 12}} {
			visit(t, ctx, folder, c.name)
			printed, err := chromedp.Run(ctx, chromedp.PrintToPDF(chromedp.PDFPaper(paper)))
			if err != nil {
				t.Fatalf("%s: %v", c.name, err)
			}
			if n := len(pdfPage.FindAll(printed, -1)); n < 1 || n > c.most {
				t.Errorf("%s takes %d sheets of %v", c.name, n, paper)
			}
		}
	}
}

// TestTheCodeCanBeRead has a reader of QR codes that others wrote read the code
// of a label.
func TestTheCodeCanBeRead(t *testing.T) {
	reader := checker(t, "jsqr/dist/jsQR.js")
	ctx := browser(t)
	visit(t, ctx, onDisk(t), "gyles/34/labels/index.html")
	ask[bool](t, ctx, reader+";true")
	got := ask[string](t, ctx, `(() => {
  const symbol = document.querySelector("symbol"), size = symbol.viewBox.baseVal.width, scale = 6;
  const canvas = document.createElement("canvas");
  canvas.width = canvas.height = size * scale;
  const pen = canvas.getContext("2d");
  pen.fillStyle = "#fff";
  pen.fillRect(0, 0, size * scale, size * scale);
  pen.scale(scale, scale);
  pen.fillStyle = "#000";
  pen.fill(new Path2D(symbol.querySelector("path").getAttribute("d")));
  return jsQR(pen.getImageData(0, 0, canvas.width, canvas.height).data, canvas.width, canvas.height)?.data ?? "nothing";
})()`)
	if got != "https://sluicehouse.example/book/gyles/34/" {
		t.Errorf("it reads %q", got)
	}
	if there := ask[bool](t, ctx, `[...document.querySelectorAll(".code")].every((c) => c.getBoundingClientRect().width > 80 && c.getAttribute("aria-label")) && document.querySelectorAll(".code").length === document.querySelectorAll(".label").length`); !there {
		t.Error("not every label shows its code")
	}
}

// TestOthersReadTheFiles has parsers that others wrote read the calendar and the
// feed.
func TestOthersReadTheFiles(t *testing.T) {
	reader := checker(t, "ical.js/dist/ical.es5.min.cjs")
	_, pages := demoSite(t)
	ctx := browser(t)
	quoted := func(name string) string {
		text, err := json.Marshal(pages[name])
		if err != nil {
			t.Fatal(err)
		}
		return string(text)
	}
	events := ask[int](t, ctx, `(() => { const module = { exports: {} }, exports = module.exports; `+reader+`;
  const ICAL = module.exports.default ?? module.exports;
  const calendar = new ICAL.Component(ICAL.parse(`+quoted("calendar.ics")+`));
  return calendar.getAllSubcomponents("vevent").map((e) => new ICAL.Event(e)).filter((e) => e.uid && e.summary && e.startDate.toJSDate() > 0).length; })()`)
	if want := strings.Count(pages["calendar.ics"], "BEGIN:VEVENT"); events != want || want < 10 {
		t.Errorf("of %d events others read %d", want, events)
	}
	feed := ask[string](t, ctx, `(() => {
  const feed = new DOMParser().parseFromString(`+quoted("feed.xml")+`, "application/xml"), atom = "http://www.w3.org/2005/Atom";
  if (feed.querySelector("parsererror")) return "it is not XML";
  const root = feed.documentElement;
  if (root.namespaceURI !== atom || root.localName !== "feed") return "it is no feed";
  // RFC 4287, 4.1.1 and 4.1.2: exactly one of each; an author for all; content or an alternate for each entry.
  const one = (e, name) => [...e.children].filter((c) => c.localName === name && c.namespaceURI === atom).length === 1;
  for (const e of [root, ...root.getElementsByTagNameNS(atom, "entry")]) for (const name of ["id", "title", "updated"]) if (!one(e, name)) return "not one " + name + " in " + e.localName;
  if (!one(root, "author") || !root.querySelector("author > name").textContent) return "no author";
  if (![...root.querySelectorAll(":scope > link")].some((l) => l.getAttribute("rel") === "self")) return "no link to itself";
  for (const e of root.getElementsByTagNameNS(atom, "entry")) {
    const content = e.querySelector("content");
    if (content.getAttribute("type") !== "html" || !new DOMParser().parseFromString(content.textContent, "text/html").body.children.length) return "an entry without content";
    for (const name of ["updated", "published"]) { const t = e.querySelector(name); if (t && Number.isNaN(Date.parse(t.textContent))) return "no date: " + t.textContent; }
  }
  return "";
})()`)
	if feed != "" {
		t.Error("the feed: " + feed)
	}
}

// TestByKeyboard goes through pages with the Tab key alone: everything that can
// be used is reached, and it shows where one is.
func TestByKeyboard(t *testing.T) {
	ctx := browser(t)
	folder := onDisk(t)
	for _, name := range []string{"gyles/index.html", "gyles/39/index.html", "search/index.html#q=goldings", "gyles/41/copper-card/index.html"} {
		visit(t, ctx, folder, name)
		want := ask[int](t, ctx, `[...document.querySelectorAll("a[href], button, input, select, summary, [tabindex='0']")].filter((e) => e.checkVisibility({ visibilityProperty: true }) || e.matches(".skip")).length`)
		ask[int](t, ctx, `document.activeElement.blur(); window.reached = new Set(); window.unseen = []; addEventListener("focusin", (e) => { reached.add(e.target); const s = getComputedStyle(e.target); if (s.outlineStyle === "none" || parseFloat(s.outlineWidth) < 2) unseen.push(e.target.outerHTML.slice(0, 80)); }); 1`)
		for range want + 2 {
			if err := chromedp.Do(ctx, chromedp.KeyEvent(kb.Tab)); err != nil {
				t.Fatal(err)
			}
		}
		if got := ask[int](t, ctx, `reached.size`); got < want {
			t.Errorf("%s: of %d things the keyboard reaches %d; not: %s", name, want, got, ask[string](t, ctx, `[...document.querySelectorAll("a[href], button, input, select, summary")].filter((e) => e.checkVisibility() && !reached.has(e)).slice(0, 3).map((e) => e.outerHTML.slice(0, 120)).join(" | ")`))
		}
		if unseen := ask[string](t, ctx, `unseen.slice(0, 3).join(" | ")`); unseen != "" {
			t.Errorf("%s: the focus does not show on %s", name, unseen)
		}
	}
}
