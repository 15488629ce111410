package scribe

import (
	"errors"
	"slices"
	"strings"
	"testing"
	"time"

	"gylebook/internal/journal"
)

// noon is the moment that the tests jot at.
var noon = Now(time.Date(2026, 3, 20, 12, 0, 0, 0, time.UTC), time.UTC)

// jotted is a file after a jotting, or the refusal.
func jotted(t *testing.T, raw, typed string) (string, error) {
	t.Helper()
	e, err := edit(raw, typed)
	if err != nil {
		return "", err
	}
	if back := string(e.Undo()); back != raw {
		t.Errorf("%s: what was added, taken out again, leaves\n%s\nof\n%s", typed, back, raw)
	}
	return string(e.After), nil
}

func edit(raw, typed string) (*Edit, error) {
	d := journal.ReadFile("gyles/14.md", []byte(raw), nil)
	if d.Gyle == nil {
		return nil, errors.New("the test's entry is no gyle")
	}
	j, err := Understand(args(typed), noon, d.Gyle, nil)
	if err != nil {
		return nil, err
	}
	return Write("gyles/14.md", []byte(raw), nil, j)
}

// args takes a command line apart as a shell would.
func args(typed string) []string {
	var all []string
	for i, part := range strings.Split(typed, `"`) {
		if i%2 == 1 {
			all = append(all, part)
			continue
		}
		all = append(all, strings.Fields(part)...)
	}
	return all
}

const top = "gyle: 14\nbeer: B\n"

func TestWriteKeepsTheEntrysOwnManner(t *testing.T) {
	const r = "{when: 2026-03-20 12:00, gravity: 1.022, temp: 19.5C}"
	for name, c := range map[string]struct{ front, typed, want string }{
		"no list yet": {top + "label: {vegan: true}\n", "1.022 19.5C",
			top + "readings:\n  - " + r + "\nlabel: {vegan: true}\n"},
		"a blank key": {top + "readings:   # each with its time\n  # so\nracked:\n", "1.022 19.5C",
			top + "readings:   # each with its time\n  # so\n  - " + r + "\nracked:\n"},
		"an empty list": {top + "readings: []  # none\n", "1.022 19.5C",
			top + "readings: [" + r + "]  # none\n"},
		"in brackets, one line": {top + "readings: [{when: 2026-03-10, ph: 5}]\n", "1.022 19.5C",
			top + "readings: [{when: 2026-03-10, ph: 5}, " + r + "]\n"},
		"a comma at the end": {top + "readings: [{ph: 5}, ] # c\n", "1.022 19.5C",
			top + "readings: [{ph: 5}, " + r + " ] # c\n"},
		"in brackets, many lines": {top +
			"readings: [\n    {ph: 5},   # first, of two\n    {ph: 4}    # second\n    # and no more\n]\n",
			"1.022 19.5C", top + "readings: [\n    {ph: 5},   # first, of two\n    {ph: 4},    # second\n    # " +
				"and no more\n    " + r + "\n]\n"},
		"many lines and a comma": {top + "readings: [\n  {ph: 5},\n]\n", "1.022 19.5C",
			top + "readings: [\n  {ph: 5},\n  " + r + ",\n]\n"},
		"closed on the last line": {top + "readings: [{ph: 5},\n           {ph: 4}]\n", "1.022 19.5C",
			top + "readings: [{ph: 5},\n           {ph: 4},\n           " + r + "]\n"},
		"by indentation": {top +
			"readings:\n    - {ph: 5}   # early\n    # a comment of the list's\n# one of the next key's\nracked:\n",
			"1.022 19.5C", top + "readings:\n    - {ph: 5}   # early\n    # a comment of the list's\n    - " + r +
				"\n# one of the next key's\nracked:\n"},
		"dashes at the margin": {top + "readings:\n- {ph: 5}\nracked:\n", "1.022 19.5C",
			top + "readings:\n- {ph: 5}\n- " + r + "\nracked:\n"},
		"parts over lines": {top + "readings:\n  -   when: 2026-03-10\n      ph: 5\n", "1.022 19.5C",
			top + "readings:\n  -   when: 2026-03-10\n      ph: 5\n  -   when: 2026-03-20 12:00\n      gravity: " +
				"1.022\n      temp: 19.5C\n"},
		"blanks in the braces": {top + "readings:\n  - { ph: 5 }\n", "1.022 19.5C",
			top + "readings:\n  - { ph: 5 }\n  - { when: 2026-03-20 12:00, gravity: 1.022, temp: 19.5C }\n"},
		"a tab before a comment": {top + "readings:\t# x\n  - {ph: 5}\t# y\n", "1.022 19.5C",
			top + "readings:\t# x\n  - {ph: 5}\t# y\n  - " + r + "\n"},
		"a key in a block": {top + "summary: |\n  readings: [{ph: 5}]\n  more\nracked:\n", "1.022 19.5C",
			top + "summary: |\n  readings: [{ph: 5}]\n  more\nreadings:\n  - " + r + "\nracked:\n"},
		"all in braces": {"{gyle: 14, beer: B}\n", "1.022 19.5C",
			"{gyle: 14, beer: B, readings: [" + r + "]}\n"},
		"errors elsewhere": {top + "hops: [{hop: x, weigth: 20}]\nfermenter: {volume: 20}\n", "1.022 19.5C",
			top + "hops: [{hop: x, weigth: 20}]\nfermenter: {volume: 20}\nreadings:\n  - " + r + "\n"},
		"quotation marks kept": {top + "\"readings\": [{note: 'it''s [here]'}]\n", "1.022 19.5C",
			top + "\"readings\": [{note: 'it''s [here]'}, " + r + "]\n"},
		"another list's indent": {top + "hops:\n- {hop: x}\n", "1.022 19.5C",
			top + "hops:\n- {hop: x}\nreadings:\n- " + r + "\n"},
		"a value in braces": {top + "racked: {on: 2026-03-16}   # late\n", "racked 20 L 18C",
			top + "racked: {on: 2026-03-16, volume: 20 L, temp: 18C}   # late\n"},
		"a blank map": {top + "racked:   # off the yeast\n", "racked 20 L",
			top + "racked: {on: 2026-03-20 12:00, volume: 20 L}   # off the yeast\n"},
		"blanks in a map": {top + "racked: {on: , volume: }\n", "racked 20 L",
			top + "racked: {on: 2026-03-20 12:00 , volume: 20 L }\n"},
		"a map over lines": {top +
			"mash:\n  liquor: 9 L   # hot\n  rests: [{at: 66 C}]\n  ph:  # cooled\nhops:\n", "mash ph 5.4",
			top + "mash:\n  liquor: 9 L   # hot\n  rests: [{at: 66 C}]\n  ph: 5.4  # cooled\nhops:\n"},
		"below a map over lines": {top + "copper:\n    boiled: 60 min\nhops:\n", "copper after 24 L 1.036",
			top + "copper:\n    boiled: 60 min\n    after: {volume: 24 L, gravity: 1.036}\nhops:\n"},
		"a list of words": {top + "next: [Colder.]\n", "next prime less, and: later",
			top + "next: [Colder., \"prime less, and: later\"]\n"},
		"yeast that waits": {top + "brewed: 2026-03-20\nyeast:\n  - {yeast: house ale, weight: 11 g}\n",
			"pitched 19C", top + "brewed: 2026-03-20\nyeast:\n  - {yeast: house ale, weight: 11 g, pitched: " +
				"2026-03-20 12:00, at: 19C}\n"},
		"no yeast yet": {top + "brewed:\n", "pitched 19C house ale",
			top + "brewed: 2026-03-20\nyeast: [{yeast: house ale, pitched: 2026-03-20 12:00, at: 19C}]\n"},
	} {
		for _, crlf := range []string{"\n", "\r\n", "\r"} {
			raw := strings.ReplaceAll("---\n"+c.front+"---\n\nThe story.\n", "\n", crlf)
			want := strings.ReplaceAll("---\n"+c.want+"---\n\nThe story.\n", "\n", crlf)
			got, err := jotted(t, raw, c.typed)
			if err != nil {
				t.Errorf("%s (%q): %v", name, crlf, err)
			} else if got != want {
				t.Errorf("%s (%q): got\n%s\nwant\n%s", name, crlf, got, want)
			}
		}
	}
}

func TestWriteKeepsMarksAndEnds(t *testing.T) {
	raw := "\uFEFF---\r\ngyle: 14\r\nbeer: Übel\u2028x # naïve\r\n---"
	got, err := jotted(t, raw, "1.022")
	want := "\uFEFF---\r\ngyle: 14\r\nbeer: Übel\u2028x # naïve\r\nreadings:\r\n  - {when: 2026-03-20 12:00, " +
		"gravity: 1.022}\r\n---"
	if err != nil || got != want {
		t.Errorf("got %q, %v, want %q", got, err, want)
	}
}

func TestWriteRefuses(t *testing.T) {
	for name, c := range map[string]struct{ front, typed, says string }{
		"a value that is there": {top + "racked: {volume: 21 L}\n", "racked 20 L",
			"racked.volume already says 21 L, on line 4"},
		"one that cannot be read":  {top + "racked: {volume: 21}\n", "racked 20 L", "already says 21"},
		"a time that is there":     {top + "racked: {on: 2026-03-16}\n", "racked", "racked.on already says 2026-03-16"},
		"a nought that is a word":  {top + "racked: ~\n", "racked 20 L", "racked says ~ on line 4"},
		"a null in a list's place": {top + "readings: null\n", "1.022", "readings says null"},
		"one map for a list":       {top + "readings: {ph: 5}\n", "1.022", "written as one map, on line 4"},
		"a word for a list":        {top + "readings: none\n", "1.022", "read"},
		"a part that is not": {top + "packages: [{vessel: pin}]\n", "broached package 1",
			"packages[1] is not there"},
		"no YAML":               {top + "hops: [{\n", "1.022", "front matter cannot be read"},
		"an anchor":             {top + "aim: &a {og: 1.040}\n", "1.022", "anchors"},
		"an alias":              {top + "aim: &a {og: 1.040}\nlabel: *a\n", "1.022", "anchors"},
		"two documents":         {top + "...\nhops: []\n", "1.022", "front matter cannot be read"},
		"a tab for an indent":   {top + "readings:\n\t- {ph: 5}\n", "1.022", "front matter cannot be read"},
		"a wrong unit":          {top, "racked volume 20 C", "cannot be read"},
		"a word of no list":     {top, "racked moved slowly", "cannot be read"},
		"what no file may have": {top, "note \"a\u202eb\"", "cannot be read"},
		"dashes far from words": {top + "readings:\n  -\n    ph: 5\n", "1.022", "dash"},
	} {
		got, err := jotted(t, "---\n"+c.front+"---\n", c.typed)
		var refused *Refusal
		if !errors.As(err, &refused) || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: got %q, error %v, want a refusal that says %q", name, got, err, c.says)
		}
	}
}

func TestDiffShowsWhatChanges(t *testing.T) {
	e, err := edit("---\ngyle: 14\nbeer: B\nracked: {on: 2026-03-16}\nlabel:\n---\nx\n", "racked 20 L")
	if err != nil {
		t.Fatal(err)
	}
	want := "@@ line 2 @@\n  gyle: 14\n  beer: B\n- racked: {on: 2026-03-16}\n+ racked: {on: 2026-03-16, volume: 20 " +
		"L}\n  label:\n  ---\n"
	if got := e.Diff(); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

func TestLinesAreThoseThatChange(t *testing.T) {
	e, err := edit("---\r\ngyle: 14\r\nbeer: B\r\nbrewed:\r\nhops: []\r\nmash:\r\n---\r\n", "mashed 9 L")
	if err != nil {
		t.Fatal(err)
	}
	want := []Line{{4, "brewed: 2026-03-20", "brewed:"}, {6, "mash: {started: 2026-03-20 12:00, liquor: 9 L}", "mash:"}}
	if got := e.Lines(); !slices.Equal(got, want) {
		t.Errorf("got %+v, want %+v", got, want)
	}
}
