package site

import (
	"fmt"
	"io/fs"
	"path"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"go.yaml.in/yaml/v4"

	"gylebook/internal/journal"
)

// marked is words with all about them that could end what they stand in: an
// element <gb> first, so that a label cut short still has it, then what closes
// attributes, elements and comments, each followed by an attribute or an element
// of that name. A page on which either exists has let the words out.
func marked(words string) string {
	return "<gb> " + words + ` " gb="' gb=' gb=1 --></title></desc></script></style></textarea><gb>`
}

// markedLines is marked words that also hold what would be a line of its own in a
// calendar.
func markedLines(words string) string { return marked(words) + "\nX-GB:1" }

// markedStory is Markdown with marked words in every place that Markdown has.
const markedStory = `# A heading <gb> " gb="1

Raw <gb>inline</gb> and &lt;gb&gt;, **<gb>**, ~~<gb>~~, ` + "`<gb>`" + `, <https://x.example/?"gb='1'gb="1>, <a'gb='b@x.example>.

<gb>
a block
</gb>

[words <gb>](https://x.example/a"gb="1 "a title <gb> &quot; gb=&quot;1 \" gb=\"1"), [](hop:<gb>),
[](<nowhere <gb\> " gb="1.md>), [b](javascript:gb()), [c](< javascript:gb()>), [d](figure:<gb>), [e](figure:abv?of=<gb>),
[f](gyle:1#<gb>"gb="1), [x](//x.example/"gb="1), <javascript:gb()>, <JavaScript:gb()>, [g](data:text/html,<gb>).

![alt <gb> " gb="1](photos/a.jpg "a caption <gb> &quot; gb=&quot;1")

Beside words ![alt <gb> " gb="1](photos/a.jpg "a title <gb> &quot; gb=&quot;1"), ![<gb>](https://x.example/"gb="1.jpg),
![<gb> " gb="1](<photos/<gb\> " gb="1.png>), ![](<photos/none <gb\> " gb="1.png>), ![x](javascript:gb()).

| <gb> " gb="1 | b |
|:--|--:|
| <gb> " gb="1 | ![<gb>](photos/a.jpg "<gb> &quot; gb=&quot;1") |

- [ ] <gb> " gb="1
- [x] a footnote[^<gb>"gb="1]

[^<gb>"gb="1]: It says <gb> " gb="1.

` + "```<gb>\" gb=\"1\n<gb> \" gb=\"1\n```" + `

[ref]: https://x.example/"gb="1 "title <gb> &quot; gb=&quot;1"
A [ref] and ![ref].
`

// tooManyMarks is a paragraph with so many marks that it is shown as it was tooManyMarks.
var tooManyMarks = strings.Repeat("*<gb>* ", 800) + "\n"

// hostileFile is the name of a file with marked words in it.
func hostileFile(folder, words, ending string) string {
	return path.Join(folder, words+`<gb> " gb="1' gb='1`+ending)
}

// written is a file of the journal.
func written(t *testing.T, front *yaml.Node, body string) *fstest.MapFile {
	t.Helper()
	text, err := yaml.Marshal(front)
	if err != nil {
		t.Fatal(err)
	}
	return &fstest.MapFile{Data: []byte("---\n" + string(text) + "---\n" + body)}
}

// scribbler writes entries from the vocabulary's own declaration.
type scribbler struct {
	words []journal.Word // of one kind of file
	marks map[string]string
	// value is what stands under a key that is no map.
	value func(s *scribbler, w journal.Word) string
}

// hostileWords is a marked text for each key that takes words, and for every other
// its example. A name is that of the card of its kind.
func hostileWords(s *scribbler, w journal.Word) string {
	switch {
	case w.Path == "accept[].finding":
		return "picture-missing" // which the entry has, so that the reason is told
	case w.File == "settings" && ownForm[w.Path] != "":
		return ownForm[w.Path]
	case isName(w):
		return marked(w.Card)
	case strings.HasSuffix(w.File, " card") && w.Path == "name":
		return marked(strings.TrimSuffix(w.File, " card"))
	case isWords(w):
		return markedLines(s.mark(w))
	case w.Path == "draft":
		return "no"
	case w.Path == "private":
		return "nothing"
	case w.Path == "card":
		return strings.TrimSuffix(w.File, " card")
	}
	return strings.Trim(w.Example, "[]")
}

// ownForm is the texts of the settings that have a form of their own: with any
// other they are errors, as they are in the hostile settings. The address is as
// hostile as an address can be.
var ownForm = map[string]string{
	"address": `https://x.example/<gb>"gb="1'gb='1/`, "time_zone": "Europe/London", "currency": "GBP",
	"ignore": "*.<gb>", "keep": "<gb>",
}

// hostileValues is marked words under every key, whatever it takes: what cannot be
// read is told of, in the words of the entry.
func hostileValues(s *scribbler, w journal.Word) string {
	if w.Key == "gyle" && w.Path == "gyle" || w.Path == "card" || w.Path == "journal" {
		return hostileWords(s, w)
	}
	return markedLines(s.mark(w))
}

func isWords(w journal.Word) bool { return w.Type == "words" || w.Type == "list of words" }
func isName(w journal.Word) bool  { return w.Type == "name" || w.Type == "list of names" }

// mark is a word that is found again on a page if the key's text is.
func (s *scribbler) mark(w journal.Word) string {
	if s.marks == nil {
		return "x"
	}
	name := w.File + " " + w.Path
	if s.marks[name] == "" {
		s.marks[name] = fmt.Sprintf("q%dq", len(s.marks))
	}
	return s.marks[name]
}

// below is the keys of the map at a path that ends in a dot, or is "".
func (s *scribbler) below(prefix string) []journal.Word {
	var all []journal.Word
	for _, w := range s.words {
		if rest, ok := strings.CutPrefix(w.Path, prefix); ok && !strings.Contains(rest, ".") {
			all = append(all, w)
		}
	}
	return all
}

// entry is a whole file of the kind.
func (s *scribbler) entry(keep func(journal.Word) bool) *yaml.Node {
	return s.mapping("", keep)
}

// mapping is the map at a path, with those keys that are kept.
func (s *scribbler) mapping(prefix string, keep func(journal.Word) bool) *yaml.Node {
	m := &yaml.Node{Kind: yaml.MappingNode}
	for _, w := range s.below(prefix) {
		if keep(w) {
			m.Content = append(m.Content, scalar(w.Key), s.node(w, prefix))
		}
	}
	return m
}

func every(journal.Word) bool { return true }

func scalar(text string) *yaml.Node {
	n := &yaml.Node{Kind: yaml.ScalarNode, Value: text}
	if strings.ContainsAny(text, "<\"") {
		n.Style = yaml.DoubleQuotedStyle
	}
	return n
}

// node is what stands under a key. A list of maps has one with all keys, and for
// each key that takes words one that has no other such: of several that name a
// thing only one may stand there.
func (s *scribbler) node(w journal.Word, prefix string) *yaml.Node {
	list := strings.HasPrefix(w.Type, "list of")
	switch {
	case w.Type == "map":
		return s.mapping(prefix+w.Key+".", every)
	case strings.HasSuffix(w.Type, " maps"):
		part := prefix + w.Key + "[]."
		all := &yaml.Node{Kind: yaml.SequenceNode, Content: []*yaml.Node{s.mapping(part, every)}}
		for _, only := range s.below(part) {
			if isWords(only) || isName(only) {
				all.Content = append(all.Content, s.mapping(part, func(w journal.Word) bool {
					return w.Path == only.Path || !isWords(w) && !isName(w)
				}))
			}
		}
		return all
	case list:
		return &yaml.Node{Kind: yaml.SequenceNode, Content: []*yaml.Node{scalar(s.value(s, w))}}
	}
	return scalar(s.value(s, w))
}

// of is the vocabulary of one kind of file.
func of(file string) []journal.Word {
	return slices.DeleteFunc(journal.Words(), func(w journal.Word) bool { return w.File != file })
}

// hostileJournal is a journal whose every text is marked: each key of the
// vocabulary in entries that read, each in entries that do not, the
// demonstration with its words marked, and files whose names are.
func hostileJournal(t *testing.T, marks map[string]string) fstest.MapFS {
	t.Helper()
	files := fstest.MapFS{}
	hostileDemonstration(t, files)
	number := 100
	for _, file := range slices.Concat([]string{"gyle", "note", "settings"}, cardFiles()) {
		good := scribbler{of(file), marks, hostileWords}
		bad := scribbler{of(file), nil, hostileValues}
		switch file {
		case "settings":
			files["index.md"] = written(t, good.entry(every), markedStory)
			continue
		case "gyle":
			files[hostileFile("gyles", "good", ".md")] = written(t, good.entry(every), markedStory+tooManyMarks)
			// Of a file a hundred errors are told, so that each key has one of its own.
			for _, w := range bad.below("") {
				number++
				name := hostileFile("gyles", fmt.Sprint("bad", number), ".md")
				front := bad.entry(func(other journal.Word) bool { return other.Path == w.Path && w.Key != "gyle" })
				front.Content = append([]*yaml.Node{scalar("gyle"), scalar(fmt.Sprint(number))}, front.Content...)
				files[name] = written(t, front, "")
			}
			continue
		}
		name := strings.ReplaceAll(file, " ", "-")
		files[hostileFile("cards", "good-"+name, ".md")] = written(t, good.entry(every), markedStory)
		files[hostileFile("cards", "bad-"+name, ".md")] = written(t, bad.entry(every), markedStory)
	}
	hostileFiles(t, files)
	return files
}

// hostileSettings are settings of which none can be read but the words.
func hostileSettings(t *testing.T) *fstest.MapFile {
	t.Helper()
	bad := scribbler{of("settings"), nil, hostileValues}
	return written(t, bad.entry(every), markedStory)
}

func cardFiles() []string {
	var all []string
	for _, kind := range journal.CardKinds() {
		all = append(all, kind+" card")
	}
	return all
}

// hostileFiles are those that are hostile in another way than by their values.
func hostileFiles(t *testing.T, files fstest.MapFS) {
	t.Helper()
	picture := &fstest.MapFile{Data: located(t)}
	files["photos/a.jpg"], files[hostileFile("photos", "b", ".jpg")] = picture, picture
	for name, text := range map[string]string{
		hostileFile("notes", "plain", ".md"):    markedStory,
		hostileFile("notes", "unclosed", ".md"): "---\ntitle: <gb>\n" + markedStory,
		hostileFile("notes", "unknown", ".md"):  "---\n\"<gb> \\\" gb=\\\"1\": <gb>\n---\n" + markedStory,
		hostileFile("gyles", "broken", ".md"):   "---\ngyle: 201\nbeer: <gb> \" gb=\"1\n  broken: [<gb> \" gb=\"1\n---\n" + markedStory,
		hostileFile("gyles", "keys", ".md"):     "---\ngyle: 202\nbeer: x\n\"<gb> \\\" gb=\\\"1\": <gb>\nmash: {\"<gb> \\\" gb=\\\"1\": <gb>}\n---\n" + markedStory,
		hostileFile("gyles", "kind", ".md"):     "---\ncard: <gb> \" gb=\"1\n---\n" + markedStory,
		"gyles/logged.md": "---\ngyle: 203\nbeer: x\nbrewed: 2026-05-01\nreadings_from: '" +
			strings.ReplaceAll(path.Base(hostileFile("gyles", "log", ".csv")), "'", "''") + "'\n" +
			"photos: [{file: '" + strings.ReplaceAll(hostileFile("photos", "b", ".jpg"), "'", "''") + "'}]\n" +
			"cover: '" + strings.ReplaceAll(hostileFile("photos", "b", ".jpg"), "'", "''") + "'\n---\n",
		"gyles/no-log.md":                     "---\ngyle: 204\nbeer: x\nreadings_from: none.csv\n---\n",
		"gyles/none.csv":                      "<gb> \"\" gb=\"\"1,<gb>\n1,2\n",
		hostileFile("gyles", "log", ".csv"):   "when,gravity,<gb> \"\" gb=\"\"1,temp (<gb>)\n2026-05-02,1.040,1,1\n<gb> \"\" gb=\"\"1,1.030,1,1\n2026-05-03,<gb> \"\" gb=\"\"1,1,1\n2026-05-04,1.020,<gb>,1\n",
		hostileFile("notes", "other", ".txt"): "<gb>",
	} {
		files[name] = &fstest.MapFile{Data: []byte(text)}
	}
}

// hostileDemonstration is the demonstration with its words marked, as far as they
// are not names that the built-in larder knows: it has every figure and chart.
func hostileDemonstration(t *testing.T, files fstest.MapFS) {
	t.Helper()
	demonstration := demoFiles(t)
	types := map[string]journal.Word{}
	for _, w := range journal.Words() {
		types[w.File+" "+w.Path] = w
	}
	err := fs.WalkDir(demonstration, ".", func(name string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		data, err := fs.ReadFile(demonstration, name)
		if err != nil {
			return err
		}
		parts := strings.SplitN(string(data), "---\n", 3)
		if path.Ext(name) != ".md" || len(parts) < 3 || name == "index.md" {
			files[name] = &fstest.MapFile{Data: data}
			return nil
		}
		var root yaml.Node
		if err := yaml.Unmarshal([]byte(parts[1]), &root); err != nil {
			return err
		}
		front := root.Content[0]
		m := marker{types: types, file: kindOfFront(front)}
		m.mapping(front, "")
		files[name] = written(t, front, markedStory+parts[2])
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}

func kindOfFront(front *yaml.Node) string {
	for i := 0; i < len(front.Content); i += 2 {
		switch front.Content[i].Value {
		case "gyle":
			return "gyle"
		case "card":
			return front.Content[i+1].Value + " card"
		}
	}
	return "note"
}

// marker marks the words of an entry, in place.
type marker struct {
	types map[string]journal.Word
	file  string
}

func (m marker) mapping(n *yaml.Node, prefix string) {
	for i := 0; i < len(n.Content); i += 2 {
		m.value(n.Content[i+1], prefix+n.Content[i].Value)
	}
}

func (m marker) value(n *yaml.Node, at string) {
	w := m.types[m.file+" "+at]
	switch {
	case n.Kind == yaml.MappingNode && strings.HasSuffix(w.Type, " maps"):
		m.mapping(n, at+"[].")
	case n.Kind == yaml.MappingNode:
		m.mapping(n, at+".")
	case n.Kind == yaml.SequenceNode:
		for _, part := range n.Content {
			if part.Kind == yaml.MappingNode {
				m.mapping(part, at+"[].")
			} else {
				m.value(part, at)
			}
		}
	case isWords(w) && !plainly[w.File+" "+at] || isName(w) && (w.Card == "vessel" || w.Card == "taster"):
		n.Value, n.Style = marked(n.Value), yaml.DoubleQuotedStyle
	}
}

// plainly is the words that the demonstration could not do without: what a name
// refers to, files, numbers.
var plainly = map[string]bool{
	"gyle readings_from": true, "gyle cover": true, "gyle photos[].file": true, "gyle accept[].finding": true,
	"instrument card resolution": true, "instrument card within": true, "instrument card bias": true,
}

func init() {
	for _, kind := range journal.CardKinds() {
		if kind != "vessel" && kind != "taster" {
			plainly[kind+" card name"], plainly[kind+" card also"] = true, true
		}
	}
}
