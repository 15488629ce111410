package journal

import (
	"strings"
	"testing"
	"time"
)

// TestFrontMatter is the traps of front matter that give no error.
func TestFrontMatter(t *testing.T) {
	for _, c := range []struct {
		name, text string
		kind       string
		body       string
		bodyLine   int
	}{
		{"plain", "---\ngyle: 1\nbeer: x\n---\nBody\n", "gyle", "Body\n", 5},
		{"byte-order mark", "\uFEFF---\ngyle: 1\nbeer: x\n---\nBody\n", "gyle", "Body\n", 5},
		{"carriage returns", "---\r\ngyle: 1\r\nbeer: x\r\n---\r\nBody\r\nmore\r\n", "gyle", "Body\nmore\n", 5},
		{"old line ends", "---\rgyle: 1\rbeer: x\r---\rBody\r", "gyle", "Body\n", 5},
		{"blank lines before", "\n\n---\ngyle: 1\nbeer: x\n---\nBody\n", "gyle", "Body\n", 7},
		{"space after the fences", "--- \ngyle: 1\nbeer: x\n---\t\nBody\n", "gyle", "Body\n", 5},
		{"no body", "---\ngyle: 1\nbeer: x\n---", "gyle", "", 5},
		{"rule in the body", "---\ngyle: 1\nbeer: x\n---\nBody\n---\nmore\n", "gyle", "Body\n---\nmore\n", 5},
		{"no front matter", "Body\n\n---\n\nmore\n", "note", "Body\n\n---\n\nmore\n", 1},
		{"an indented rule first", "  ---\nBody\n", "note", "  ---\nBody\n", 1},
		{"empty file", "", "note", "", 1},
		{"empty front matter", "---\n---\nBody\n", "note", "Body\n", 3},
		{"only a comment", "---\n# nothing yet\n---\nBody\n", "note", "Body\n", 4},
		{"a long rule first", "----\nBody\n", "note", "----\nBody\n", 1},
		{"a tag first", "<!-- x -->\n---\na: b\n---\n", "note", "<!-- x -->\n---\na: b\n---\n", 1},
		{"other line ends that YAML knows", "---\ngyle: 1\nbeer: x\u2028y\nsummary: a\u0085b\nnext: [z]\n---\nBody\n",
			"gyle", "Body\n", 7},
		{"flow", "---\n{gyle: 1, beer: x}\n---\nBody\n", "gyle", "Body\n", 4},
	} {
		d := ReadFile("x.md", []byte(c.text), nil)
		if len(d.Errors) > 0 || d.Entry() == nil {
			t.Errorf("%s: errors:\n%s", c.name, listing(d.Errors))
			continue
		}
		e := d.Entry()
		kind := "note"
		if d.Gyle != nil {
			kind = "gyle"
		}
		if kind != c.kind || e.Body != c.body || e.BodyLine != c.bodyLine {
			t.Errorf("%s: %s, body %q from line %d; want %s, %q from %d", c.name, kind, e.Body, e.BodyLine, c.kind,
				c.body, c.bodyLine)
		}
	}
}

// TestPositions: lines stay true behind each of the traps, and columns count
// characters.
func TestPositions(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"---\ngyle: 1\nbeer: x\nog: 1\n---\n", "x.md:4:1"},
		{"\uFEFF\r\n---\r\ngyle: 1\r\nbeer: x\r\nog: 1\r\n---\r\n", "x.md:5:1"},
		{"---\ngyle: 1\nbeer: \"a\u2028b\"\nsummary: |\n  two\n\n  lines\naim: {fg: ü, og: low}\n---\n",
			"x.md:8:11 x.md:8:18"},
		{"---\ngyle: 1\nbeer: é — mild\nfermenter: {volume: '22 — ± 1 L'}\n---\n", "x.md:4:25"},
		{"---\ngyle: 1\nbeer: x\nracked:\n  volume: >\n    20 litrs\n---\n", "x.md:5:11"},
		{"---\ngyle: 1\nbeer: x\nracked: {volume: \"20 \\x6Citrs\"}\n---\n", "x.md:4:18"},
	} {
		var places []string
		for _, e := range ReadFile("x.md", []byte(c.text), nil).Errors {
			places = append(places, e.Place.String())
		}
		if got := strings.Join(places, " "); got != c.want {
			t.Errorf("%q: %s, want %s", c.text, got, c.want)
		}
	}
}

// TestBounded: input made to stall a reader is refused soon. The bound is
// generous, since machines are shared; unbounded reading takes minutes.
func TestBounded(t *testing.T) {
	front := func(s string) []byte { return []byte("---\ngyle: 1\nbeer: x\n" + s + "\n---\nBody\n") }
	bomb := "a: &a [x,x,x,x,x,x,x,x,x]\n"
	for i := range 9 {
		c := string(rune('b' + i))
		p := string(rune('a' + i))
		bomb += c + ": &" + c + " [" + strings.Repeat("*"+p+",", 8) + "*" + p + "]\n"
	}
	for name, raw := range map[string][]byte{
		"alias bomb":     front(bomb),
		"brackets":       front("next: " + strings.Repeat("[", 100_000)),
		"braces":         front("next: " + strings.Repeat("{a: ", 30_000)),
		"dashes":         front("next:\n" + strings.Repeat("- ", 30_000)),
		"question marks": front(strings.Repeat("? ", 30_000)),
		"flow list":      front("tags: [" + strings.Repeat("a,", 30_000) + "]"),
		"flow maps":      front("hops: [" + strings.Repeat("{a: b},", 9_000) + "]"),
		"keys":           front(strings.Repeat("a: 1\n", 12_000)),
		"long key":       front(strings.Repeat("k", 60_000) + ": 1"),
		"long number":    front("follows: " + strings.Repeat("9", 60_000)),
		"long quantity":  front("mash: {liquor: " + strings.Repeat("1 L ", 30_000) + "}"),
		"fences":         []byte(strings.Repeat("---\n", 250_000)),
		"blank":          make([]byte, maxFile),
		"body":           []byte("---\ngyle: 1\nbeer: x\n---\n" + strings.Repeat("x\n", 500_000)),
		"unclosed":       []byte("---\n" + strings.Repeat("a: b\n", 200_000)),
		"not YAML":       []byte("---\n" + strings.Repeat("a: b: c\n", 16_000) + "---\n"),
		"bad bytes":      []byte(strings.Repeat("\xff\xfe\x00", 300_000)),
	} {
		start := time.Now()
		d := ReadFile("x.md", raw, nil)
		Redact(raw, Private{})
		if took := time.Since(start); took > 20*time.Second {
			t.Errorf("%s: %v", name, took)
		}
		if len(d.Errors) > maxErrors+2 {
			t.Errorf("%s: %d errors", name, len(d.Errors))
		}
		if testing.Verbose() {
			t.Logf("%s: %v, %d errors", name, time.Since(start), len(d.Errors))
		}
	}
}

// TestNotUTF8: other encodings are told of, and what is text in them is read.
func TestNotUTF8(t *testing.T) {
	d := ReadFile("x.md", []byte("---\ngyle: 1\nbeer: Caf\xe9 Stout\nstyle: stout\n---\nCaf\xe9 noir.\n"), nil)
	want := "x.md:3:7: error: beer: a byte that is no text: expected words [not-text]"
	if len(d.Errors) != 2 || d.Errors[0].String() != want || d.Gyle.Style.Name != "stout" || d.Gyle.Beer.Written() ||
		d.Gyle.Body != "Caf\uFFFD noir.\n" {
		t.Errorf("errors:\n%s", listing(d.Errors))
	}
	d = ReadFile("x.md", []byte("\xff\xfe-\x00-\x00-\x00\n\x00"), nil)
	if len(d.Errors) == 0 || d.Errors[0].ID != idNotText {
		t.Errorf("UTF-16: errors:\n%s", listing(d.Errors))
	}
}

// TestYAMLTypes: what a value is, the key decides and not YAML.
func TestYAMLTypes(t *testing.T) {
	d := ReadFile("x.md", []byte("---\ngyle: 042\nbeer: on\nstyle: 1926\nsummary: no\ntags: [yes, 2026, 1.10, true, "+
		"2026-03-07]\nnext: ['', \"~\"]\ncover: ~\nbrewed: null\nhops:\nmash: {ph: 5.40, started: 2026-03-07}\n---\n"),
		nil)
	want := `gyle
gyle = 42 @2:7
beer = "on" @3:7
style = name "1926" @4:8
tags[0] = "yes" @6:8
tags[1] = "2026" @6:13
tags[2] = "1.10" @6:19
tags[3] = "true" @6:25
tags[4] = "2026-03-07" @6:31
summary = "no" @5:10
mash.started = 2026-03-07T00:00:00Z (a date) @11:27
mash.ph = 5.4 [] @11:12
next[0] = "" @7:8
next[1] = "~" @7:12
`
	if got := listing(d.Errors) + summary(d); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

// TestNothingOnALine: brackets with nothing in them, in front matter that is otherwise no
// YAML, cost their own line.
func TestNothingOnALine(t *testing.T) {
	for _, line := range []string{"{}", "[]", "{ }", "!!map {}", "? ", "{}: {}", "- {}", "&a {}"} {
		d := ReadFile("x.md", []byte("---\ngyle: 7\n"+line+"\nbeer: [\n---\nWords.\n"), nil)
		if d.Gyle == nil || d.Gyle.Number.N != 7 || len(d.Errors) == 0 {
			t.Errorf("with %q: gyle %+v, errors %v", line, d.Gyle, d.Errors)
		}
		for _, e := range d.Errors {
			if e.ID == idOurFault {
				t.Errorf("with %q it broke down: %s", line, e.Says)
			}
		}
	}
}

// TestOurFault: where this program breaks down over a document, that is an error of the
// document, and no end of the run.
func TestOurFault(t *testing.T) {
	d := guarded("x.md", []byte("x"), func() *Document { panic("boom") })
	if !d.Withheld() || len(d.Errors) != 1 || d.Errors[0].ID != idOurFault || d.Errors[0].Place.File != "x.md" || !strings.Contains(d.Errors[0].Says, "boom") {
		t.Errorf("%+v", d.Errors)
	}
}

// TestEndlessLists: of a list with more parts than anybody needs the first are read, and an
// error says how many there were.
func TestEndlessLists(t *testing.T) {
	d := ReadFile("x.md", []byte("---\ngyle: 7\nbeer: Any\ntags: ["+strings.Repeat("a, ", maxItems+8)+"b]\n---\n"), nil)
	if len(d.Gyle.Tags) != maxItems || len(d.Errors) != 1 || d.Errors[0].ID != idTooBig || !strings.Contains(d.Errors[0].Says, "1009 parts") {
		t.Errorf("%d tags, %v", len(d.Gyle.Tags), d.Errors)
	}
}
