package site

import (
	"encoding/json"
	"reflect"
	"regexp"
	"strings"
	"testing"

	"gylebook/internal/site/view"
)

// TestNoPageHidesTheFrame holds every page's own fields to other names than the
// frame's: one of the same name would stand in the head or the foot in its place.
func TestNoPageHidesTheFrame(t *testing.T) {
	frame := reflect.TypeFor[view.Frame]()
	for name, v := range pageTemplates() {
		page := reflect.TypeOf(v).Elem()
		for i := range page.NumField() {
			if _, hides := frame.FieldByName(page.Field(i).Name); hides {
				t.Errorf("%s: %s.%s hides the frame's", name, page.Name(), page.Field(i).Name)
			}
		}
	}
}

// TestEveryPageEndsAlike holds the foot of every page to say how many gyles
// there are, and when it was worked out.
func TestEveryPageEndsAlike(t *testing.T) {
	_, pages := demoSite(t)
	for name, text := range pages {
		if strings.HasSuffix(name, ".html") && !strings.Contains(text, "gyles since 2025 · worked out 1\u00a0June\u00a02026") {
			t.Errorf("%s has another foot", name)
		}
	}
}

func TestTheHeadlineIsASentence(t *testing.T) {
	_, pages := demoSite(t)
	for name, want := range map[string]string{
		"gyles/34/index.html": `<p class="said"><b>4\.\d %( ± 0\.\d)?</b>, <b>\d\d IBU</b>, the colour of amber, <b>36 pints racked</b>; emptied on 25 October 2025`,
		"gyles/37/index.html": ` pints racked</b>, <b>\d\d left</b>; `,
		"gyles/42/index.html": `Aims at <b>4 % vol</b> and <b>31 IBU</b>, the colour of amber`,
	} {
		if text := strings.ReplaceAll(pages[name], "\u00a0", " "); !regexp.MustCompile(want).MatchString(text) {
			t.Errorf("%s does not say %s", name, want)
		}
	}
}

// TestWorkingsAreOneClickAway holds the workings of all figures to a page of
// their own, which the aims and the story lead to.
func TestWorkingsAreOneClickAway(t *testing.T) {
	s, pages := demoSite(t)
	for _, g := range s.gyles {
		own, all := pages[gylePath(g)], pages[workingsPath(g)]
		for _, f := range g.Sheet.Figures {
			if !strings.Contains(all, `id="`+workingID(f)+`"`) {
				t.Errorf("gyle %s: no working of %s", g.Slug, workingID(f))
			}
		}
		for _, f := range g.Sheet.Figures {
			for _, id := range headlines() {
				if f.ID == id && !strings.Contains(own, `id="`+workingID(f)+`"`) {
					t.Errorf("gyle %s: its own page has no working of %s", g.Slug, id)
				}
			}
		}
		if !g.Unread && !strings.Contains(own, `href="../../`+workingsPath(g)+`"`) {
			t.Errorf("gyle %s does not lead to its workings", g.Slug)
		}
	}
}

func TestAVesselHasAHistory(t *testing.T) {
	_, pages := demoSite(t)
	bag := pages["vessels/soft-bag-10-l/index.html"]
	wants(t, bag, "History", "27\u00a0Sep\u00a02025", "0.0\u00a0bar", "with percarbonate", "8.5\u00a0L")
	if n := strings.Count(bag, "Gyle 34, Lengthsman"); n != 2 {
		t.Errorf("gyle 34 filled it twice, and stands there %d times", n)
	}
	wants(t, pages["vessels/bucket/index.html"], "History", "22\u00a0L")
}

func TestWhichVesselATextNames(t *testing.T) {
	for _, c := range []struct {
		text, vessel string
		names        bool
	}{
		{"bags and hose", "soft bag 10 L", true},
		{"the keg", "steel keg", true},
		{"hand pump and line", "pin", false},
		{"soft soap", "soft bag 10 L", false},
		{"10 L of it", "soft bag 10 L", false},
		{"", "bucket", false},
	} {
		if got := namesVessel(c.text, c.vessel); got != c.names {
			t.Errorf("%q of %q: %v", c.text, c.vessel, got)
		}
	}
}

func TestAFamilyMarksWhatDiffers(t *testing.T) {
	_, pages := demoSite(t)
	page := pages["families/lengthsmans-bitter/index.html"]
	wants(t, page, `<td class="differs">67`, "Came out", "Changed")
	if strings.Contains(page, `<td class="differs">22`+"\u00a0L") {
		t.Error("the volume is the same in all, and is marked")
	}
}

func TestWhatIsUsedStandsOnce(t *testing.T) {
	_, pages := demoSite(t)
	_, also, found := strings.Cut(pages["gyles/34/index.html"], `id="p-used"`)
	if !found {
		t.Fatal("nothing else was used")
	}
	also, _, _ = strings.Cut(also, "</section>")
	wants(t, also, "glass hydrometer", "bucket", "!pale malt", "!goldings")
}

// TestPagesDescribeThemselves reads what pages say of themselves to machines.
func TestPagesDescribeThemselves(t *testing.T) {
	_, pages := demoSite(t)
	for name, kind := range map[string]string{"index.html": "Blog", "gyles/34/index.html": "Recipe", "notes/why-the-bag-swells/index.html": "BlogPosting"} {
		_, rest, found := strings.Cut(pages[name], `<script type="application/ld+json">`)
		data, _, ended := strings.Cut(rest, "</script>")
		if !found || !ended {
			t.Fatalf("%s has no linked data", name)
		}
		var thing map[string]any
		if err := json.Unmarshal([]byte(data), &thing); err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		if thing["@context"] != "https://schema.org" || thing["@type"] != kind || thing["name"] == "" || !strings.HasPrefix(thing["url"].(string), "https://sluicehouse.example/book/") {
			t.Errorf("%s: %v", name, thing)
		}
		if author, ok := thing["author"].(map[string]any); !ok || author["name"] != "Perrin Quoin" {
			t.Errorf("%s: the author is %v", name, thing["author"])
		}
		wants(t, pages[name], `<meta property="og:title" content="`, `<meta property="og:url" content="https://sluicehouse.example/book/`, `<meta property="og:description"`)
	}
	wants(t, pages["gyles/34/index.html"], `<meta property="og:type" content="article">`, `<meta property="article:published_time" content="2025-09-13">`, `"recipeYield":"22`, `"goldings, 40`)
}

// TestWithoutAnAddressNothingIsDescribed: both vocabularies are about public
// pages.
func TestWithoutAnAddressNothingIsDescribed(t *testing.T) {
	s := build(t, entries("index.md", "---\njournal: At home\n---\n", "gyles/1.md", "---\ngyle: 1\nbeer: Plain\n---\n"), Options{})
	wants(t, page(t, s, "gyles/1/index.html"), "!og:", "!ld+json", "!canonical")
	wants(t, page(t, s, "gyles/1/labels/index.html"), "!<symbol", "!<use", "Home-brewed, not for sale")
}

// TestLinkedDataCannotLeaveItsElement gives a beer a name that would end it.
func TestLinkedDataCannotLeaveItsElement(t *testing.T) {
	s := build(t, entries("index.md", "---\njournal: X\naddress: https://x.example/\n---\n", "gyles/1.md", "---\ngyle: 1\nbeer: '</script><b>'\n---\n"), Options{})
	wants(t, page(t, s, "gyles/1/index.html"), `\u003c/script\u003e`, "!</script><b>")
}

func TestALabelTellsWhatItMust(t *testing.T) {
	_, pages := demoSite(t)
	labels := pages["gyles/34/labels/index.html"]
	wants(t, labels, "Lengthsman", `<p class="number">34</p>`, "4.1\u00a0% vol", "8.5\u00a0L", "racked 27\u00a0September\u00a02025", "drink by", "Contains <b>", "barley", "If it swells tight", "open it cold and slowly", "Home-brewed, not for sale",
		`<symbol id="code"`, "https://sluicehouse.example/book/gyles/34/</span>")
	if codes := strings.Count(labels, "<symbol"); codes != 1 {
		t.Errorf("the code is drawn %d times", codes)
	}
}

func TestRulesAreLinked(t *testing.T) {
	_, pages := demoSite(t)
	wants(t, pages["gyles/39/index.html"], `<code>[<a href="../../workings/index.html#r-not-finished">not-finished</a>]</code>`)
}

// TestTablesKnowTheirWidth: two narrow ones go beside each other.
func TestTablesKnowTheirWidth(t *testing.T) {
	s := new(Site)
	narrow := s.newTable("", "", "What", "#Weight")
	narrow.row("pale malt", "3.75 kg")
	wide := s.newTable("", "", "When", "#Gravity", "#Brix", "#Beer at", "#Sample at", "Notes")
	wide.row("13 Sep 2025, 14:00", "1.041", "10.2", "19 °C", "20 °C", "late for work; with refractometer")
	if narrow.done().Wide() || !wide.done().Wide() {
		t.Error("they do not")
	}
	wants(t, string(wide.done().Body()), `<td class="n" data-of="gravity">1.041</td>`, `<td>13 Sep`)
}
