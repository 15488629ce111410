package site

import (
	"bytes"
	"encoding/json"
	"encoding/xml"
	"errors"
	"io"
	"path"
	"strings"
	"testing"
	"testing/fstest"

	"golang.org/x/net/html"

	"gylebook/internal/chart"
	"gylebook/internal/site/markdown"
	"gylebook/internal/site/view"
)

// escapes is what of marked words got out in a file of the site, "" for nothing.
func escapes(name string, data []byte) string {
	if name == "search.js" {
		return outInBytes(data)
	}
	switch path.Ext(name) {
	case ".html":
		return outInHTML(data)
	case ".xml":
		return outInXML(data)
	case ".json":
		if !json.Valid(data) {
			return "it is no JSON"
		}
		return outInBytes(data)
	case ".ics":
		return outInCalendar(data)
	}
	return ""
}

// outInHTML is a marked element or attribute of a page, or an address that runs.
func outInHTML(data []byte) string {
	root, err := html.Parse(bytes.NewReader(data))
	if err != nil {
		return err.Error()
	}
	for n := range root.Descendants() {
		if n.Type == html.CommentNode || n.Type == html.ElementNode && n.Data == "gb" {
			return "an element or a comment: " + shown(n.Parent)
		}
		for _, a := range n.Attr {
			address := strings.Map(func(r rune) rune {
				if r <= ' ' {
					return -1
				}
				return r
			}, strings.ToLower(a.Val))
			if strings.Contains(a.Key, "gb") || strings.HasPrefix(a.Key, "on") || strings.HasPrefix(address, "javascript:") || strings.HasPrefix(address, "data:") {
				return "an attribute: " + shown(n)
			}
		}
	}
	return ""
}

// shown is the beginning of an element.
func shown(n *html.Node) string {
	var b strings.Builder
	_ = html.Render(&b, n)
	return around(b.String(), "gb")
}

// outInXML is a marked element or attribute of a feed or map, or one in the HTML
// that an entry of the feed carries.
func outInXML(data []byte) string {
	decoder := xml.NewDecoder(bytes.NewReader(data))
	for {
		token, err := decoder.Token()
		switch {
		case errors.Is(err, io.EOF):
			return ""
		case err != nil:
			return err.Error()
		}
		switch token := token.(type) {
		case xml.StartElement:
			if token.Name.Local == "gb" {
				return "an element"
			}
			for _, a := range token.Attr {
				if a.Name.Local == "gb" {
					return "an attribute of " + token.Name.Local
				}
			}
			if token.Name.Local == "content" {
				var content string
				if err := decoder.DecodeElement(&content, &token); err != nil {
					return err.Error()
				}
				if out := outInHTML([]byte(content)); out != "" {
					return "in an entry, " + out
				}
			}
		}
	}
}

// outInBytes is a tag in a file that a page may be given to stand in it.
func outInBytes(data []byte) string {
	if at := bytes.IndexAny(data, "<>"); at >= 0 {
		return "a tag: " + string(data[max(0, at-40):min(len(data), at+40)])
	}
	return ""
}

// outInCalendar is a line of a calendar that some words made.
func outInCalendar(data []byte) string {
	for line := range strings.SplitSeq(strings.ReplaceAll(string(data), "\r\n ", ""), "\n") {
		if strings.HasPrefix(line, "X-GB") || strings.Contains(strings.TrimSuffix(line, "\r"), "\r") {
			return "a line: " + line
		}
	}
	return ""
}

// TestTheHostileJournalIsOnlyWords publishes a journal whose every text, name and
// file tries to leave where it stands: with settings that read and hide nothing,
// and with settings that do not read and so hide all that may be private.
func TestTheHostileJournalIsOnlyWords(t *testing.T) {
	marks := map[string]string{}
	files := hostileJournal(t, marks)
	for _, live := range []bool{false, true} {
		all := onlyWords(t, files, live)
		for key, mark := range marks {
			if !strings.Contains(all, mark) && notShown[key] == "" {
				t.Errorf("live %v: the words of %s stand on no page, so that nothing is known of them", live, key)
			}
		}
	}
	files["index.md"] = hostileSettings(t)
	onlyWords(t, files, false)
}

// onlyWords is all of a journal's site but its sources, after looking for words
// that got out.
func onlyWords(t *testing.T, files fstest.MapFS, live bool) string {
	t.Helper()
	var all strings.Builder
	for name, text := range rendered(t, build(t, files, Options{Live: live})) {
		if out := escapes(name, []byte(text)); out != "" {
			t.Errorf("live %v: %s: %s", live, name, out)
		}
		if path.Ext(name) != ".md" {
			all.WriteString(text)
		}
	}
	return all.String()
}

// notShown is the keys whose words stand on no page, and why.
var notShown = map[string]string{
	"taster card also":      "other names of a friend, only recognised in words",
	"taster card allergies": "asked when a party is planned, never printed",
	"gyle packages[].note":  "seen in the published source alone",
	"gyle added[].liquor":   "seen in the published source alone",
	"gyle added[].wort":     "seen in the published source alone",
}

// TestEscapesAreFound looks for words where they got out, and where they did not: a
// check that finds nothing proves nothing unless it finds what there is.
func TestEscapesAreFound(t *testing.T) {
	for name, text := range map[string]string{
		"element.html":   "<p>a<gb>b</p>",
		"attribute.html": `<p title="" gb="1">a</p>`,
		"unquoted.html":  "<p title=a gb=1>a</p>",
		"handler.html":   `<p onclick="gb()">a</p>`,
		"address.html":   "<a href=\" java\nscript:gb()\">a</a>",
		"comment.html":   "<!-- raw HTML omitted -->",
		"title.html":     "<title>a</title><gb></title>",
		"script.html":    `<script type="application/ld+json">{"a":"</script><gb>"}</script>`,
		"drawing.html":   "<svg><title>a<gb></title></svg>",
		"element.xml":    "<feed><gb/></feed>",
		"attribute.xml":  `<feed gb="1"/>`,
		"broken.xml":     "<feed>&",
		"content.xml":    "<feed><entry><content>&lt;gb&gt;</content></entry></feed>",
		"figures.json":   `{"beer":"<gb>"}`,
		"broken.json":    `{"beer":`,
		"search.js":      `self.gylebookPages=[{"title":"<gb>"}];`,
		"calendar.ics":   "SUMMARY:a\r\nX-GB:1\r\n",
	} {
		if escapes(name, []byte(text)) == "" {
			t.Errorf("%s: nothing is found in %s", name, text)
		}
	}
	for name, text := range map[string]string{
		"words.html":   `<p title="&lt;gb> &#34; gb=&#34;1">&lt;gb&gt; javascript:gb()</p>`,
		"words.xml":    `<feed title="&lt;gb>"><content>&amp;lt;gb&amp;gt;</content></feed>`,
		"figures.json": `{"beer":"\u003cgb\u003e"}`,
		"search.js":    `self.gylebookPages=[{"title":"\u003cgb\u003e"}];`,
		"calendar.ics": "SUMMARY:a\\nX-GB:1\r\n b\r\n",
	} {
		if out := escapes(name, []byte(text)); out != "" {
			t.Errorf("%s: found where there is nothing: %s", name, out)
		}
	}
}

// TestWritersOfHTMLEscape gives marked words to what writes HTML past the template
// engine and has, so far, nothing to write that an entry can say.
func TestWritersOfHTMLEscape(t *testing.T) {
	words := marked("A word")
	cells := func(href string) view.Table {
		return view.Table{
			Columns: []view.Column{{Head: words}, {Head: words, Number: true}},
			Rows:    [][]view.Cell{{{Text: words, Href: href}, {Text: words, Href: href}}},
		}
	}
	frame := chart.Frame{Prefix: words, Title: words, Desc: words}
	picture := markdown.Picture{Src: words, SrcSet: words, Sizes: words, Name: words}
	for name, text := range map[string]string{
		"a table":              "<table>" + string(cells("").Head()+cells("").Body()) + "</table>",
		"a table of links":     "<table>" + string(cells(words).Head()+cells(words).Body()) + "</table>",
		"a measure":            string(plusMinus(view.Measure{Value: words, PlusMinus: words, Unit: words})),
		"a formula":            string(plainHTML(words)),
		"keys":                 string(needs([]string{words, "a.<gb>"})),
		"a page in vain":       string(sorry(errors.New(words))),
		"a picture":            markdown.ImageHTML(picture, words, words, true),
		"no picture":           markdown.ImageHTML(markdown.Picture{Name: words}, "", "", true),
		"no picture but a way": markdown.ImageHTML(markdown.Picture{Name: words, Link: words}, words, "", true),
		"a place":              markdown.Place(`<a href="`+markdown.Root+`"><a href="`+markdown.Own+`">`, words, words),
		"a row of dots": string(chart.Dots(chart.DotsInput{
			Frame: frame, Name: words, Range: words, Low: 1, High: 2, Median: 1, Results: []chart.Result{{Gyle: 1, Value: 1}},
		})),
		"a family": string(chart.Lineage(chart.LineageInput{
			Frame: frame, Gyles: []chart.Gyle{{Number: 1, Name: words, Href: `?" gb="1`}, {Number: 2, Name: words, Href: "javascript:gb()"}},
		})),
	} {
		if text == "" || !strings.Contains(text, "gb") {
			t.Errorf("%s: nothing is written", name)
		}
		if out := outInHTML([]byte(text)); out != "" {
			t.Errorf("%s: %s", name, out)
		}
	}
}
