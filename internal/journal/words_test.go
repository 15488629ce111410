package journal

import (
	"os"
	"reflect"
	"slices"
	"strings"
	"testing"

	"go.yaml.in/yaml/v4"
)

// everyKey is entries with every key of the vocabulary, by file name.
func everyKey(t testing.TB) []archived {
	t.Helper()
	raw, err := os.ReadFile("../../testdata/journal/every-key.md")
	if err != nil {
		t.Fatal(err)
	}
	return append(readArchive(t, "testdata/every-card.txtar").files, archived{"gyles/every-key.md", raw})
}

// TestEveryKey: an entry that uses every key of its kind reads without error,
// and every value has its place and its path.
func TestEveryKey(t *testing.T) {
	used := map[string]bool{}
	for _, f := range everyKey(t) {
		d := ReadFile(f.name, f.data, nil)
		if len(d.Errors) > 0 {
			t.Errorf("errors:\n%s", listing(d.Errors))
		}
		for _, key := range pathsIn(frontOf(t, f.data), "") {
			used[sameAs(kindOf(d), key)] = true
		}
		atLeaves(t, d, f)
	}
	for _, w := range Words() {
		if !used[sameAs(w.File, w.Path)] {
			t.Errorf("no entry uses %s of a %s", w.Path, w.File)
		}
	}
}

// sameAs is one name for the same key of the same map in two places: that of a
// package's priming and the gyle's, that of any card.
func sameAs(file, path string) string {
	if path == "also" || path == "source" || path == "name" {
		return "any card " + path
	}
	return file + " " + strings.TrimPrefix(strings.Replace(path, "copper.after", "copper.before", 1), "packages[].")
}

// atLeaves checks that at each value's place the file has that value's text.
func atLeaves(t *testing.T, d *Document, f archived) {
	t.Helper()
	lines := strings.Split(string(f.data), "\n")
	count := 0
	eachValue(documentValue(d), func(w Where, value string) {
		count++
		line := []rune(lines[w.Line-1])
		rest := string(line[w.Column-1:])
		before := string(line[:w.Column-1])
		key := w.Key[strings.LastIndex(w.Key, ".")+1:]
		if i := strings.Index(key, "["); i < 0 && !strings.HasSuffix(before, key+": ") &&
			!strings.HasPrefix(rest, key) {
			t.Errorf("%s: %s is said to stand before %q", w.Place, w.Key, rest)
		}
	})
	if count == 0 {
		t.Errorf("%s: no values", f.name)
	}
}

func documentValue(d *Document) reflect.Value {
	switch {
	case d.Gyle != nil:
		return reflect.ValueOf(d.Gyle)
	case d.Card != nil:
		return reflect.ValueOf(d.Card)
	case d.Note != nil:
		return reflect.ValueOf(d.Note)
	}
	return reflect.ValueOf(d.Settings)
}

func kindOf(d *Document) string {
	switch {
	case d.Gyle != nil:
		return "gyle"
	case d.Card != nil:
		return d.Card.Kind.String() + " card"
	case d.Note != nil:
		return "note"
	}
	return "settings"
}

// frontOf is the front matter of a file as a tree.
func frontOf(t testing.TB, raw []byte) *yaml.Node {
	t.Helper()
	parts := strings.SplitN(string(raw), "---\n", 3)
	root, err := parseTree([]byte(parts[1]))
	if err != nil {
		t.Fatal(err)
	}
	return root
}

// pathsIn is the paths of all keys in a tree, with [] for numbers.
func pathsIn(n *yaml.Node, path string) []string {
	var all []string
	switch n.Kind {
	case yaml.MappingNode:
		for i := 0; i < len(n.Content); i += 2 {
			at := join(path, n.Content[i].Value)
			all = append(append(all, at), pathsIn(n.Content[i+1], at)...)
		}
	case yaml.SequenceNode:
		for _, part := range n.Content {
			all = append(all, pathsIn(part, path+"[]")...)
		}
	}
	return all
}

// TestWords: every word says what it means, and its example reads.
func TestWords(t *testing.T) {
	for _, w := range Words() {
		if w.Says == "" || w.Type == "" || w.Example == "" {
			t.Errorf("%s of a %s has no meaning, type or example: %+v", w.Path, w.File, w)
		}
		if (w.Type == "choice" || w.Type == "list of choices") && len(w.Choices) == 0 {
			t.Errorf("%s has no words to choose from", w.Path)
		}
		if (w.Type == "name" || w.Type == "list of names") && w.Card == "" {
			t.Errorf("%s is the name of nothing", w.Path)
		}
	}
	for _, w := range Words() {
		text := "---\n" + exampleEntry(w) + "---\n"
		if d := ReadFile("x.md", []byte(text), nil); len(d.Errors) > 0 {
			t.Errorf("the example of %s in a %s does not read:\n%s%s", w.Path, w.File, text, listing(d.Errors))
		}
	}
}

// exampleEntry is a file with one word's example in it.
func exampleEntry(w Word) string {
	head := map[string]string{"gyle": "gyle: 1\nbeer: x\n", "settings": "journal: x\n", "note": ""}[w.File]
	if kind, ok := strings.CutSuffix(w.File, " card"); ok {
		head = "card: " + kind + "\nname: x\n"
	}
	if slices.Contains([]string{"gyle", "beer", "journal", "card", "name"}, w.Path) {
		return head // the head has it
	}
	value := w.Example
	parts := strings.Split(w.Path, ".")
	for _, part := range slices.Backward(parts) {
		name, list := strings.CutSuffix(part, "[]")
		if list {
			value = "[" + value + "]"
		}
		value = "{" + name + ": " + value + "}"
	}
	return head + strings.TrimSuffix(strings.TrimPrefix(value, "{"), "}") + "\n"
}

// TestTags: a tag of the vocabulary that names a card kind names one there is.
func TestTags(t *testing.T) {
	kinds := plans().kinds
	for _, w := range Words() {
		if w.Card != "" && !slices.Contains(kinds, w.Card) {
			t.Errorf("%s is the name of a %s, which is no kind of card", w.Path, w.Card)
		}
	}
	if len(kinds) != 13 {
		t.Errorf("%d kinds of card", len(kinds))
	}
}

func TestLookUp(t *testing.T) {
	for _, c := range []struct {
		key, want string
		exact     bool
	}{
		{"mash.rests[].at", "mash.rests[].at", true}, {"hops[1].alpha", "hops[].alpha", true}, {"hops[]", "hops", true},
		{"alpha", "hops[].alpha alpha", true}, {"alhpa", "hops[].alpha alpha", false},
		{"hops[0].alphas", "hops[].alpha alpha", false},
		{"gyle", "gyle drawn_from[].gyle", true}, {"quatloos", "", false}, {"", "", false}, {"[", "", false},
	} {
		words, exact := LookUp(c.key)
		var paths []string
		for _, w := range words {
			paths = append(paths, w.Path)
		}
		if got := strings.Join(paths, " "); got != c.want || exact != c.exact {
			t.Errorf("LookUp(%q) = %q, %v; want %q, %v", c.key, got, exact, c.want, c.exact)
		}
	}
}
