package site

import (
	"encoding/json"
	"encoding/xml"
	"net/url"
	"strings"
	"testing"
	"time"
	"unicode/utf8"
)

func TestTheFeedIsAtom(t *testing.T) {
	_, pages := demoSite(t)
	var feed struct {
		XMLName xml.Name `xml:"http://www.w3.org/2005/Atom feed"`
		ID      string   `xml:"id"`
		Updated string   `xml:"updated"`
		Author  string   `xml:"author>name"`
		Links   []struct {
			Rel  string `xml:"rel,attr"`
			Href string `xml:"href,attr"`
		} `xml:"link"`
		Entries []struct {
			ID      string `xml:"id"`
			Title   string `xml:"title"`
			Updated string `xml:"updated"`
			Content string `xml:"content"`
		} `xml:"entry"`
	}
	if err := xml.Unmarshal([]byte(pages["feed.xml"]), &feed); err != nil {
		t.Fatal(err)
	}
	if feed.Author == "" || len(feed.Entries) == 0 || len(feed.Links) == 0 || feed.Links[0].Rel != "self" || feed.Links[0].Href != "https://sluicehouse.example/book/feed.xml" {
		t.Errorf("%+v", feed)
	}
	seen := map[string]bool{}
	for _, e := range feed.Entries {
		if u, err := url.Parse(e.ID); err != nil || !u.IsAbs() || seen[e.ID] {
			t.Errorf("the id %q", e.ID)
		}
		seen[e.ID] = true
		if _, err := time.Parse(time.RFC3339, e.Updated); err != nil {
			t.Error(err)
		}
		for _, l := range links(e.Content) {
			if u, err := url.Parse(l); err != nil || !u.IsAbs() {
				t.Errorf("%s: the link %q is not a whole address", e.Title, l)
			}
		}
	}
}

func TestAFeedWithoutAnAddressHasIDs(t *testing.T) {
	files := archive(t, "testdata/site/small.txtar")
	files["index.md"].Data = []byte("---\njournal: No address\n---\n")
	s := build(t, files, Options{})
	wants(t, page(t, s, "feed.xml"), "<id>urn:gylebook:no-address:gyles%2F2</id>")
	if _, ok := s.Page("sitemap.xml"); ok {
		t.Error("a sitemap without an address")
	}
}

func TestTheCalendarIsICalendar(t *testing.T) {
	_, pages := demoSite(t)
	text := pages["calendar.ics"]
	if strings.Count(text, "\n") != strings.Count(text, "\r\n") || !strings.HasSuffix(text, "END:VCALENDAR\r\n") {
		t.Error("lines do not end in CRLF")
	}
	uids := map[string]bool{}
	for _, line := range strings.Split(text, "\r\n") {
		if len(line) > 75 || !utf8.ValidString(line) {
			t.Errorf("%d octets: %q", len(line), line)
		}
		if uid, ok := strings.CutPrefix(line, "UID:"); ok {
			if uids[uid] {
				t.Errorf("twice %s", uid)
			}
			uids[uid] = true
		}
	}
	if len(uids) < 10 || strings.Count(text, "DTSTAMP:20260601T120000Z") != len(uids) {
		t.Errorf("%d events", len(uids))
	}
	wants(t, text, "Puddle: party: Gate-painting day")
}

func TestLongLinesAreFoldedBetweenLetters(t *testing.T) {
	var c calendar
	c.text("SUMMARY", strings.Repeat("ü;", 80))
	for _, line := range strings.Split(strings.TrimSuffix(c.String(), "\r\n"), "\r\n") {
		if len(line) > 75 || !utf8.ValidString(line) {
			t.Errorf("%q", line)
		}
	}
	if got := strings.ReplaceAll(c.String(), "\r\n ", ""); got != "SUMMARY:"+strings.Repeat(`ü\;`, 80)+"\r\n" {
		t.Errorf("unfolded: %q", got)
	}
}

// TestTextInACalendarIsOneLine: RFC 5545 writes what ends a line or a value as two
// characters (3.3.11), and has no way at all to write a control character.
func TestTextInACalendarIsOneLine(t *testing.T) {
	var c calendar
	c.text("SUMMARY", "a\r\nX:1\nY\rZ;,\\\x00\x1B\x7Fb")
	c.line("UID", "1\r\nX:1")
	if got, want := c.String(), `SUMMARY:a\nX:1\nY\nZ\;\,\\b`+"\r\nUID:1X:1\r\n"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

func TestSearchIsTheSameTwice(t *testing.T) {
	_, pages := demoSite(t)
	var found []found
	if err := json.Unmarshal([]byte(pages["search.json"]), &found); err != nil {
		t.Fatal(err)
	}
	script, ok := strings.CutPrefix(pages["search.js"], "self.gylebookPages=")
	if !ok {
		t.Fatal(pages["search.js"][:40])
	}
	var again []struct{ URL string }
	if err := json.Unmarshal([]byte(strings.TrimSuffix(script, ";\n")), &again); err != nil || len(again) != len(found) {
		t.Fatal(err, len(again), len(found))
	}
	for _, f := range found {
		if pages[f.URL] == "" {
			t.Errorf("the search leads to %s, which is not there", f.URL)
		}
	}
}

func TestTheFiguresOfAGyleAreJSON(t *testing.T) {
	_, pages := demoSite(t)
	var out struct {
		Gyle    int
		Figures []struct{ ID string }
	}
	if err := json.Unmarshal([]byte(pages["gyles/34/figures.json"]), &out); err != nil || out.Gyle != 34 || len(out.Figures) == 0 {
		t.Error(err, out)
	}
}

func TestAnUnreadEntryHasAPage(t *testing.T) {
	s := build(t, entries("gyles/1.md", "---\ngyle: 1\nbeer: Bad\n  broken: [\n---\nA story.\n"), Options{})
	pages := rendered(t, s)
	for name, text := range pages {
		if strings.HasPrefix(name, "gyles/") && strings.HasSuffix(name, "/index.html") && strings.Count(name, "/") == 2 {
			wants(t, text, "Could not be read", "A story.", "gyles/1.md:")
			return
		}
	}
	t.Errorf("it has none among %d pages", len(pages))
}

func TestTwoGylesOfOneNumberHaveTwoPages(t *testing.T) {
	s := build(t, entries("gyles/a.md", "---\ngyle: 1\nbeer: Ayes\n---\n", "gyles/b.md", "---\ngyle: 1\nbeer: Bees\n---\n"), Options{})
	all := ""
	for name, text := range rendered(t, s) {
		if strings.HasPrefix(name, "gyles/") && strings.Count(name, "/") == 2 {
			all += text
		}
	}
	wants(t, all, "<h1>Ayes</h1>", "<h1>Bees</h1>")
}
