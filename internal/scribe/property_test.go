package scribe

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"gylebook/internal/journal"
)

// entries are all gyles that the project has as examples.
func entries(t testing.TB) map[string]string {
	t.Helper()
	all := map[string]string{}
	for _, dir := range []string{"../../journal/gyles", "../../testdata/journal", "../../testdata/gyles-by-hand"} {
		err := filepath.WalkDir(dir, func(name string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() || filepath.Ext(name) != ".md" {
				return err
			}
			raw, err := os.ReadFile(name)
			if journal.ReadFile(name, raw, nil).Gyle != nil {
				all[name] = string(raw)
			}
			return err
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	if len(all) < 10 {
		t.Fatalf("only %d entries found", len(all))
	}
	return all
}

// agrees holds an edit to its promises by other means than Write's own: every
// byte of the old file is in the new one, in order, and what was added can be
// taken out again.
func agrees(t testing.TB, e *Edit, raw string) {
	t.Helper()
	if string(e.Undo()) != raw || string(e.Before) != raw {
		t.Fatalf("what was added, taken out again, does not leave the entry as it was:\n%s\nof\n%s", e.Undo(), raw)
	}
	if e.Replaces() { // a planned count
		return
	}
	at := 0
	for i := 0; i < len(e.After) && at < len(raw); i++ {
		if e.After[i] == raw[at] {
			at++
		}
	}
	if at != len(raw) {
		t.Fatalf("byte %d of the entry is gone:\n%s", at, e.After)
	}
	if body := raw[strings.LastIndex(raw, "\n---")+1:]; !strings.HasSuffix(string(e.After), body) {
		t.Fatalf("the story was touched:\n%s", e.After)
	}
}

// TestEveryJottingIntoEveryEntry: each example of each place, into each entry,
// is written or refused for a reason that has to do with the entry.
func TestEveryJottingIntoEveryEntry(t *testing.T) {
	written, refused := 0, 0
	for name, raw := range entries(t) {
		for i, p := range Places() {
			if testing.Short() && (i+len(raw))%3 != 0 {
				continue // a third of them, another in each entry
			}
			e, err := edit(raw, p.Eg)
			var why *Refusal
			switch {
			case err == nil:
				written++
				agrees(t, e, raw)
			case !errors.As(err, &why) || !strings.Contains(err.Error(), "already"):
				t.Errorf("%s: %s: %v", name, p.Eg, err)
			default:
				refused++
			}
		}
	}
	t.Logf("%d written, %d refused", written, refused)
	least := 100
	if testing.Short() {
		least = 30
	}
	if written < least || refused < least {
		t.Errorf("%d written and %d refused: the entries are not what they were", written, refused)
	}
}

// readingIn draws a reading: gravity and heat as typed, and a note.
func readingIn(t *rapid.T) (gravity, heat, note string) {
	gravity = fmt.Sprintf("%.3f", float64(rapid.IntRange(990, 1120).Draw(t, "gravity"))/1000)
	heat = fmt.Sprintf("%.1fC", float64(rapid.IntRange(0, 400).Draw(t, "heat"))/10)
	note = rapid.StringMatching(`[a-z]{2}[ -~äß°±–“”]{0,30}[a-z] [.!#:\]\[{}&*,'"-]{0,3}[a-z]`).Draw(t, "note")
	return gravity, heat, note
}

// listIn draws a list of readings as somebody might write it, with how many it
// has.
func listIn(t *rapid.T) (text string, parts int) {
	comment := func() string { return rapid.SampledFrom([]string{"", "  # so: [it] goes", "\t# {"}).Draw(t, "comment") }
	parts = rapid.IntRange(0, 3).Draw(t, "parts")
	item := func() string {
		return rapid.SampledFrom([]string{"{ph: 4.%d}", "{ when: 2026-03-1%d, note: 'a, b: ]' }",
			"{when: 2026-03-1%d, gravity: 1.010,}"}).Draw(t, "item")
	}
	indent := strings.Repeat(" ", rapid.IntRange(0, 4).Draw(t, "indent"))
	var b strings.Builder
	style := rapid.IntRange(0, 3).Draw(t, "style")
	if parts == 0 {
		style = min(style, 1)
	}
	switch {
	case style == 0 && parts == 0:
		return "readings:" + comment() + "\n", 0
	case style < 2: // in brackets
		broken := style == 1 && parts > 0
		b.WriteString("readings: [")
		for i := range parts {
			if broken {
				b.WriteString(comment() + "\n " + indent)
			}
			fmt.Fprintf(&b, item(), i)
			if i < parts-1 || rapid.Bool().Draw(t, "comma") {
				b.WriteString(",")
			}
			if !broken && i < parts-1 {
				b.WriteString(" ")
			}
		}
		if broken && rapid.Bool().Draw(t, "closed below") {
			b.WriteString(comment() + "\n ")
		}
		return b.String() + "]" + comment() + "\n", parts
	}
	b.WriteString("readings:" + comment() + "\n")
	for i := range parts {
		if style == 2 {
			fmt.Fprintf(&b, indent+"- "+item()+comment()+"\n", i)
			continue
		}
		fmt.Fprintf(&b, indent+"-  when: 2026-03-1%d%s\n"+indent+"   note: |\n"+indent+"     readings: []\n", i,
			comment())
	}
	return b.String(), parts
}

func TestPropertyAnyListAnyReading(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		list, parts := listIn(t)
		front := "gyle: 14\nbeer: B\n" + list +
			rapid.SampledFrom([]string{"", "# end\n", "racked: {volume: 20 L}\n"}).Draw(t, "after")
		raw := rapid.SampledFrom([]string{"", "\uFEFF"}).Draw(t, "mark") + "---\n" + front + "---" +
			rapid.SampledFrom([]string{"", "\n", "\nA story.\n"}).Draw(t, "story")
		raw = strings.ReplaceAll(raw, "\n", rapid.SampledFrom([]string{"\n", "\r\n", "\r"}).Draw(t, "line end"))
		before := journal.ReadFile("14.md", []byte(raw), nil)
		if before.Gyle == nil || len(before.Errors) > 0 || len(before.Gyle.Readings) != parts {
			t.Fatalf("the list drawn does not read: %v\n%q", before.Errors, raw)
		}
		gravity, heat, note := readingIn(t)
		j, err := Understand([]string{gravity, heat, "note", note}, noon, before.Gyle, nil)
		if err != nil {
			t.Fatal(err)
		}
		e, err := Write("14.md", []byte(raw), nil, j)
		if err != nil {
			t.Fatalf("%q into\n%s: %v", note, raw, err)
		}
		if string(e.Undo()) != raw {
			t.Fatalf("taken out again, not the same")
		}
		after := journal.ReadFile("14.md", e.After, nil)
		if len(after.Errors) > 0 || len(after.Gyle.Readings) != parts+1 {
			t.Fatalf("%d readings of %d, errors %v, in\n%s", len(after.Gyle.Readings), parts+1, after.Errors, e.After)
		}
		got := after.Gyle.Readings[parts]
		if fmt.Sprintf("%.3f", got.Gravity.Value) != gravity ||
			fmt.Sprintf("%.1fC", got.Temp.Value.Celsius()) != heat || got.Note.Text != note {
			t.Fatalf("%s %s %q reads back as %v %v %q in\n%s", gravity, heat, note, got.Gravity.Value, got.Temp.Value,
				got.Note.Text, e.After)
		}
	})
}

// TestPropertySpell: any words that the reader takes, spelt, are those words.
func TestPropertySpell(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := strings.TrimSpace(rapid.StringOf(rapid.RuneFrom([]rune(` \"'#:-,[]{}&*!|>%@?~äß°±–“ …\u2028\u00a0ntrue01.`))).Draw(t, "text"))
		if text == "" {
			return
		}
		for _, in := range []string{"gyle: 1\nbeer: b\nsummary: %s\n",
			"gyle: 1\nbeer: b\nreadings: [{note: %s, ph: 5}]\n"} {
			d := journal.ReadFile("x.md", []byte("---\n"+fmt.Sprintf(in, spell(text))+"---\n"), nil)
			if len(d.Errors) > 0 {
				continue // characters that no file may have
			}
			got := d.Gyle.Summary.Text
			if len(d.Gyle.Readings) > 0 {
				got = d.Gyle.Readings[0].Note.Text
			}
			if got != text {
				t.Fatalf("%q, spelt %s, reads as %q", text, spell(text), got)
			}
		}
	})
}

func FuzzWrite(f *testing.F) {
	for _, raw := range entries(f) {
		f.Add([]byte(raw), "1.022 19.5C")
	}
	f.Add([]byte("---\ngyle: 1\nbeer: b\nreadings: [\n]\n---"), "racked 20 L 18C")
	f.Add([]byte("---\ngyle: 1\nbeer: b\n? a\n: b\n---"), "pitched 19C")
	f.Fuzz(func(t *testing.T, raw []byte, typed string) {
		d := journal.ReadFile("x.md", raw, nil)
		if d.Gyle == nil {
			return
		}
		j, err := Understand(args(typed), noon, d.Gyle, nil)
		if err != nil {
			return
		}
		if e, err := Write("x.md", raw, nil, j); err == nil && string(e.Undo()) != string(raw) {
			t.Fatalf("taken out again, %q leaves %q of %q", typed, e.Undo(), raw)
		}
	})
}
