package markdown

import (
	"encoding/json"
	"fmt"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"golang.org/x/net/html"
)

// example is one of the CommonMark specification's, as goldmark's own test data has them.
type example struct {
	Markdown, HTML, Section string
	Example                 int
}

func commonMark(t *testing.T) []example {
	t.Helper()
	dir, err := exec.Command("go", "list", "-m", "-f", "{{.Dir}}", "github.com/yuin/goldmark").Output()
	if err != nil {
		t.Skip("the module's source is not at hand:", err)
	}
	raw, err := os.ReadFile(filepath.Join(strings.TrimSpace(string(dir)), "_test", "spec.json"))
	if err != nil {
		t.Fatal(err)
	}
	var all []example
	if err := json.Unmarshal(raw, &all); err != nil {
		t.Fatal(err)
	}
	return all
}

// asTyped undoes what our typography does to quotation marks, dashes and dots.
var asTyped = strings.NewReplacer("“", `"`, "”", `"`, "‘", "'", "’", "'", "—", "---", "–", "--", "…", "...", "«", "<<", "»", ">>")

// structure is HTML without what differs everywhere on purpose: the ids and levels of
// headings, how a picture is loaded, and how a character is escaped.
func structure(source string) string {
	var b strings.Builder
	tokens := html.NewTokenizer(strings.NewReader(source))
	for tokens.Next() != html.ErrorToken {
		token := tokens.Token()
		name := token.Data
		if len(name) == 2 && name[0] == 'h' && name[1] >= '1' && name[1] <= '6' {
			name = "h"
		}
		switch token.Type {
		case html.TextToken:
			b.WriteString(html.EscapeString(asTyped.Replace(token.Data)))
		case html.EndTagToken:
			b.WriteString("</" + name + ">")
		default:
			b.WriteString("<" + name)
			slices.SortFunc(token.Attr, func(a, b html.Attribute) int { return strings.Compare(a.Key, b.Key) })
			for _, a := range token.Attr {
				if slices.Contains([]string{"href", "src", "alt", "title", "start", "class"}, a.Key) {
					fmt.Fprintf(&b, " %s=%q", a.Key, asTyped.Replace(plainAddress(a.Key, a.Val)))
				}
			}
			b.WriteString(">")
		}
	}
	return strings.TrimSpace(b.String())
}

// plainAddress is an address without percents: whether a character has one is the browser's
// matter, since it puts them where they are needed.
func plainAddress(key, value string) string {
	if key != "href" && key != "src" {
		return value
	}
	if plain, err := url.PathUnescape(value); err == nil {
		value = plain
	}
	return strings.TrimPrefix(value, Own)
}

// otherwise are the examples that come out in another form on purpose, by why they do.
var otherwise = map[string][]int{
	"raw HTML is shown as it was typed": append(append(from(148, 191),
		21, 31, 201, 308, 309, 344, 475, 476, 477, 491, 494, 524, 536, 642, 643), append(from(613, 617), 623, 625, 626, 627, 628, 629, 630, 631)...),
	"a picture alone in its paragraph is a figure, its title the caption": {
		520, 572, 573, 574, 575, 576, 577, 578, 580, 581, 582, 583, 584, 585, 586, 588, 589, 591,
	},
	"a link without a destination leads nowhere":              {200, 485, 486, 487, 567},
	"a link without words has those of what it leads to":      {484},
	"a title of several lines is one line, as a browser's is": {196},
}

func from(first, last int) []int {
	var all []int
	for n := first; n <= last; n++ {
		all = append(all, n)
	}
	return all
}

// TestCommonMark holds every example of the specification (CommonMark 0.31.2, whose 652
// examples are goldmark's test data) to come out as there, but for those listed, and those
// listed not to.
func TestCommonMark(t *testing.T) {
	listed := map[int]string{}
	for why, examples := range otherwise {
		for _, n := range examples {
			listed[n] = why
		}
	}
	all := commonMark(t)
	if len(all) != 652 {
		t.Errorf("%d examples, want all 652", len(all))
	}
	for _, e := range all {
		got := structure(Render(Story{Text: e.Markdown, Level: 1}, trusting{}).HTML)
		want := structure(e.HTML)
		switch why := listed[e.Example]; {
		case got != want && why == "":
			t.Errorf("%d (%s) %q\n got %s\nwant %s", e.Example, e.Section, e.Markdown, got, want)
		case got == want && why != "":
			t.Errorf("%d comes out as there; it is listed since %s", e.Example, why)
		}
	}
}
