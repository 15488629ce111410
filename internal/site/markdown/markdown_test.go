package markdown

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"golang.org/x/net/html"
)

// journal is a Resolver with a few things in it.
type journal struct{}

func (journal) Link(destination string) Target {
	switch {
	case strings.HasPrefix(destination, "https:"), strings.HasPrefix(destination, "mailto:"):
		return Target{Href: destination, Text: destination}
	case destination == "gyle:11":
		return Target{Href: Root + "gyles/11/index.html", Text: "Towpath Mild"}
	case destination == "figure:abv":
		return Target{Href: Own + "#w-abv", Text: "3.3\u00a0±\u00a00.2\u00a0% vol", Class: "figure"}
	}
	return Target{Text: destination, Fault: Fault{ID: "link-dead", Says: "nothing is at " + destination}}
}

func (journal) Picture(destination string) Picture {
	if destination == "mash.jpg" {
		return Picture{Src: Root + "photos/mash-480.jpg", SrcSet: Root + "photos/mash-480.jpg 480w, " + Root + "photos/mash-1200.jpg 1200w", Sizes: "(max-width: 40rem) 100vw, 38rem", Width: 480, Height: 360, Name: destination}
	}
	return Picture{Name: destination, Fault: Fault{ID: "picture-missing", Says: "there is no picture " + destination}}
}

func render(text string) Rendered {
	return Render(Story{Text: text, Prefix: "g14-", Level: 3}, journal{})
}

func TestMarkdown(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"raw HTML is text", "a <b onclick=x>c</b>", `<p>a &lt;b onclick=x&gt;c&lt;/b&gt;</p>`},
		{"a block of raw HTML is text", "<script>alert(1)</script>", `<p>&lt;script&gt;alert(1)&lt;/script&gt;</p>`},
		{"a link of the journal", "[the last](gyle:11)", "<p><a href=\"\x01gyles/11/index.html\">the last</a></p>"},
		{"an empty link is filled", "[](gyle:11)", "<p><a href=\"\x01gyles/11/index.html\">Towpath Mild</a></p>"},
		{"a figure", "It had [](figure:abv).", "<p>It had <a href=\"\x02#w-abv\" class=\"figure\">3.3\u00a0±\u00a00.2\u00a0% vol</a>.</p>"},
		{"a reference link", "[a][b]\n\n[b]: gyle:11", "<p><a href=\"\x01gyles/11/index.html\">a</a></p>"},
		{"a dead link", "see [that](gyle:99)", `<p>see <span class="dead">that</span></p>`},
		{"a script", "[x](javascript:alert(1))", `<p><span class="dead">x</span></p>`},
		{"a script with a blank in it", "[x](<java\tscript:alert(1)>)", `<p><span class="dead">x</span></p>`},
		{"a script by entity", "[x](&#106;avascript:alert(1))", `<p><span class="dead">x</span></p>`},
		{"a script in angle brackets", "<javascript:alert(1)>", `<p><span class="dead">javascript:alert(1)</span></p>`},
		{"data", "![x](data:image/svg+xml,x)", `<figure><span class="broken">Picture: x</span></figure>`},
		{"an address", "<https://example.org/a?b=c&d>", `<p><a href="https://example.org/a?b=c&amp;d">https://example.org/a?b=c&amp;d</a></p>`},
		{"an entity in an address", "[x](https://e.org/?a&amp;b=&ouml;)", `<p><a href="https://e.org/?a&amp;b=ö">x</a></p>`},
		{"a script by the entity of a tab", "[x](java&Tab;script:alert(1))", `<p><span class="dead">x</span></p>`},
		{"a quotation mark in an address", `[x](<https://e.org/"onclick=a>)`, `<p><a href="https://e.org/&#34;onclick=a">x</a></p>`},
		{"typography", `"It's" -- well`, `<p>&ldquo;It&rsquo;s&rdquo; &ndash; well</p>`},
		{"tasks", "- [x] rack\n- [ ] drink", "<ul>\n<li><span class=\"tick\" role=\"img\" aria-label=\"done\">☑</span> rack</li>\n<li><span class=\"tick\" role=\"img\" aria-label=\"to do\">☐</span> drink</li>\n</ul>"},
		{"headings follow the page's", "# One\n\n### Two\n\n# Three", "<h3 id=\"one\">One</h3>\n<h4 id=\"two\">Two</h4>\n<h3 id=\"three\">Three</h3>"},
		{"a heading keeps its letters", "# Über die Würze", `<h3 id="über-die-würze">Über die Würze</h3>`},
		{"equal headings", "# Mash\n# Mash", "<h3 id=\"mash\">Mash</h3>\n<h3 id=\"mash-2\">Mash</h3>"},
		{"a heading like an id of the site", "# p story", `<h3 id="h-p-story">p story</h3>`},
		{"a heading of marks", "# !!!", `<h3 id="h">!!!</h3>`},
		{"a figure with its caption", `![The mash](mash.jpg "At o'clock")`, "<figure><img src=\"\x01photos/mash-480.jpg\" srcset=\"\x01photos/mash-480.jpg 480w, \x01photos/mash-1200.jpg 1200w\" sizes=\"(max-width: 40rem) 100vw, 38rem\" width=\"480\" height=\"360\" alt=\"The mash\" loading=\"lazy\" decoding=\"async\"><figcaption>At o’clock</figcaption></figure>"},
		{"a missing picture", "a ![b](c.jpg) d", `<p>a <span class="broken">Picture: b</span> d</p>`},
		{"a table", "| | a |\n|--|-:|\n| b | *c* |", "<div class=\"scroll\" role=\"group\" aria-label=\"Table\"><table>\n<thead>\n<tr>\n<td></td>\n<th scope=\"col\" class=\"right\">a</th>\n</tr>\n</thead>\n<tbody>\n<tr>\n<td>b</td>\n<td class=\"right\"><em>c</em></td>\n</tr>\n</tbody>\n</table></div>"},
		{"control characters", "a\x01b\x02c\x00d", "<p>a\uFFFDb\uFFFDc\uFFFDd</p>"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := strings.TrimSpace(render(c.text).HTML); got != c.want {
				t.Errorf("got  %q\nwant %q", got, c.want)
			}
		})
	}
}

// trusting is a Resolver that lets everything lead where it says.
type trusting struct{}

func (trusting) Link(destination string) Target     { return Target{Href: destination} }
func (trusting) Picture(destination string) Picture { return Picture{Src: destination} }

// TestWhatRunsIsNeverAskedFor holds the schemes that run in a reader's browser to
// nothing, even where the Resolver would let them.
func TestWhatRunsIsNeverAskedFor(t *testing.T) {
	for _, scheme := range []string{"javascript", "JavaScript", "vbscript", "data", "file", "blob", "about", "view-source", "java&#9;script", "&#106;avascript"} {
		for _, text := range []string{"[a](" + scheme + ":x)", "[a]( <" + scheme + ":x>)", "[a]\n\n[a]: " + scheme + ":x", "<" + scheme + ":x>", "![a](" + scheme + ":x)", "![a](<" + scheme + ":x>)"} {
			for _, address := range addresses(t, Render(Story{Text: text}, trusting{}).HTML) {
				if before, _, found := strings.Cut(address, ":"); found && !strings.ContainsAny(before, "&#;") {
					t.Errorf("%s leads to %s", text, address)
				}
			}
		}
	}
	for _, text := range []string{"[a](https://x.example/)", "<https://x.example/>", "![a](b.jpg)"} {
		if got := addresses(t, Render(Story{Text: text}, trusting{}).HTML); len(got) != 1 {
			t.Errorf("%s leads to %q", text, got)
		}
	}
}

// addresses is what links and pictures lead to, as a browser reads it.
func addresses(t *testing.T, text string) []string {
	t.Helper()
	root, err := html.Parse(strings.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	var all []string
	for n := range root.Descendants() {
		for _, a := range n.Attr {
			if a.Key == "href" || a.Key == "src" {
				all = append(all, a.Val)
			}
		}
	}
	return all
}

func TestFootnotesCarryTheEntrysPrefix(t *testing.T) {
	got := render("One[^a] and two[^a].\n\n[^a]: It *is*.").HTML
	for _, want := range []string{`id="g14-fn:1"`, `id="g14-fnref:1"`, `id="g14-fnref1:1"`, "href=\"\x02#g14-fn:1\"", "href=\"\x02#g14-fnref:1\"", "<em>is</em>"} {
		if !strings.Contains(got, want) {
			t.Errorf("no %q in %s", want, got)
		}
	}
}

func TestFaultsHavePlaces(t *testing.T) {
	got := render("Über [a](gyle:99)\nand [](gyle:98)\n\n- ![](x.jpg)\n\n[b]: gyle:97\n\n> [x][b]").Faults
	want := []string{
		"1:6 link-dead nothing is at gyle:99",
		"2:5 link-dead nothing is at gyle:98",
		"4:3 alt-missing the picture x.jpg has no words for those who cannot see it",
		"4:3 picture-missing there is no picture x.jpg",
		"8:3 link-dead nothing is at gyle:97",
	}
	if len(got) != len(want) {
		t.Fatalf("faults %+v, want %d", got, len(want))
	}
	for i, f := range got {
		if text := fmt.Sprintf("%d:%d %s %s", f.Line, f.Column, f.ID, f.Says); text != want[i] {
			t.Errorf("fault %d is %q, want %q", i, text, want[i])
		}
	}
}

func TestWords(t *testing.T) {
	got := render("# A \"mild\"\n\nIt *was* [good](gyle:11)[^1].\nReally.\n\n| a | b |\n|--|--|\n| c | d |\n\n[^1]: note").Words
	if want := "A “mild”\nIt was good. Really.\na\nb\nc\nd\nnote"; got != want {
		t.Errorf("words %q, want %q", got, want)
	}
}

func TestPlace(t *testing.T) {
	got := Place("a\x01b \x02#c", "../../", "")
	if got != "a../../b #c" {
		t.Error(got)
	}
	if got := Place("a\x01b \x02#c", "https://x.example/y/", "https://x.example/y/gyles/1/"); got != "ahttps://x.example/y/b https://x.example/y/gyles/1/#c" {
		t.Error(got)
	}
}

// traps are texts that take a Markdown reader more than linear time or memory.
func traps() map[string]string {
	r := strings.Repeat
	wide := "|" + r("a|", 7000) + "\n|" + r("-|", 7000) + "\n" + r("|b\n", 2000)
	long := "|" + r("a|", 60) + "\n|" + r("-|", 60) + "\n" + r("|b\n", 100000)
	return map[string]string{
		"open links":        r("[a](b", 50000),
		"open images":       r("![", 100000),
		"brackets":          r("[", 200000),
		"links":             r("[a](b) ", 50000),
		"emphasis":          r("*a **a ", 50000),
		"emphasis closes":   r("a**b"+r("c* ", 50), 1000),
		"underscores":       r("_", 300000),
		"code spans":        ticks(700),
		"entities":          r("&a", 100000),
		"autolinks":         r("<a", 100000),
		"quotes":            r("\"'", 100000),
		"deep quotation":    r(">", 50000) + "a",
		"deep quotations":   r(r("> ", 200)+"a\n", 2000),
		"deep lists":        r("- ", 50000) + "a",
		"stairs":            stairs(1500),
		"wide table":        wide,
		"long table":        long,
		"headings":          "# " + r("[a](b", 50000),
		"setext":            r("[a](b", 50000) + "\n===\n",
		"definitions":       r("[a]: b\n", 40000),
		"footnotes":         "[^1]: a\n\n" + r("[^1]", 50000),
		"footnotes defined": r("[^a]: b\n\n", 30000),
		"nested fences":     r("- ```\n", 20000),
		"many paragraphs":   r(r("[a](b", 350)+"\n\n", 280),
		"backslashes":       r("\\", 400000),
		"tildes":            r("~", 300000) + r(">", 100) + "x",
		"blank lines":       r("\n", 400000),
		"tabs":              r("\t", 400000),
		"list of blanks":    r("-\n", 100000),
		"numbers":           r("1. ", 10000),
		"sibling headings":  r("# a\n", 60000),
	}
}

func ticks(n int) string {
	var b strings.Builder
	for i := range n {
		b.WriteString("a" + strings.Repeat("`", i))
	}
	return b.String()
}

func stairs(n int) string {
	var b strings.Builder
	for i := range n {
		b.WriteString(strings.Repeat("  ", i) + "- a\n")
	}
	return b.String()
}

// TestTraps holds each trap to a bound that a quadratic reader overruns many
// times; a slow machine has a wide margin.
func TestTraps(t *testing.T) {
	const bound = 5 * time.Second * slowdown
	for name, text := range traps() {
		t.Run(name, func(t *testing.T) {
			done := make(chan Rendered, 1)
			begun := time.Now()
			go func() { done <- render(text) }()
			select {
			case got := <-done:
				t.Logf("%d KB in %v, %d KB out, %d faults", len(text)>>10, time.Since(begun).Round(time.Millisecond), len(got.HTML)>>10, len(got.Faults))
				if len(got.HTML) > 40*len(text)+1000 {
					t.Errorf("%d bytes became %d", len(text), len(got.HTML))
				}
			case <-time.After(bound):
				t.Fatalf("still at it after %v", bound)
			}
		})
	}
}

// FuzzRender holds any text to HTML without scripts, handlers, styles or
// addresses that run.
func FuzzRender(f *testing.F) {
	for _, seed := range []string{"# a\n[x](javascript:a)", "![a](b \"c\")", "<img src=x onerror=y>", "| a |\n|--|\n| [](figure:abv) |", "a[^1]\n\n[^1]: b", "- [x] c\n> d", "[a]: javascript:b\n\n[a]"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		out := render(text)
		for _, fault := range out.Faults {
			if fault.ID == "story-unreadable" {
				t.Fatalf("%q: %s", text, fault.Says)
			}
		}
		tokens := html.NewTokenizer(strings.NewReader(out.HTML))
		for tokens.Next() != html.ErrorToken {
			token := tokens.Token()
			switch token.Data {
			case "script", "style", "iframe", "object", "embed", "form", "base", "meta", "link":
				if token.Type != html.TextToken {
					t.Fatalf("%q gave <%s>", text, token.Data)
				}
			}
			for _, a := range token.Attr {
				if strings.HasPrefix(a.Key, "on") || a.Key == "style" || (a.Key == "href" || a.Key == "src") && runs(a.Val) {
					t.Fatalf("%q gave %s=%q", text, a.Key, a.Val)
				}
			}
		}
	})
}
