package scribe

import (
	"path"
	"strings"

	"gylebook/internal/journal"
)

// File is a file to create.
type File struct {
	Name string // slash path in the journal
	Text []byte
}

// samples is the pattern of the names of the sample cards, which a new journal
// passes over: they show what a card may say, and are none.
const samples = "sample-*.md"

// folders are where the sample of each kind of card goes; kinds without one of
// their own share the last.
var folders = map[string]string{
	"malt": "malts", "sugar": "sugars", "hop": "hops", "yeast": "yeasts", "water": "waters", "vessel": "vessels",
	"instrument": "instruments", "style": "styles", "taster": "tasters",
}

// NewJournal is the files of a journal that has nothing in it yet: its settings
// and a sample of each kind of card. The zone is where its clock stands, such as
// Europe/London, or "" where that is not known.
func NewJournal(title, zone string) []File {
	files := []File{{"index.md", settings(title, zone)}}
	for _, w := range journal.Words() {
		if kind, is := strings.CutSuffix(w.File, " card"); is && w.Path == "card" {
			folder := folders[kind]
			if folder == "" {
				folder = "sundries"
			}
			files = append(files, File{path.Join("cards", folder, "sample-"+kind+".md"), sample(kind)})
		}
	}
	return files
}

// settings is the text of index.md.
func settings(title, zone string) []byte {
	var b strings.Builder
	b.WriteString("---\n")
	remark(&b, "", "The settings of the whole journal. A key with nothing after it is not written.")
	said := map[string]string{"journal": spell(title), "time_zone": zone, "ignore": "[" + quoted(samples) + "]"}
	words := journal.Words()
	for _, w := range words {
		if w.File != "settings" || w.Path != w.Key {
			continue
		}
		if parts := below(words, "settings", w); len(parts) > 0 {
			remark(&b, "", w.Key+": "+w.Says)
			remark(&b, "  ", "{"+strings.Join(keysOf(parts), ", ")+"}")
			b.WriteString(w.Key + ":\n")
			continue
		}
		line(&b, "", w, said[w.Key])
	}
	b.WriteString("---\n\nWhat I brew, and for whom.\n")
	return []byte(b.String())
}

// sample is the text of a card with nothing in it.
func sample(kind string) []byte {
	var b strings.Builder
	b.WriteString("---\n")
	remark(&b, "", "A "+kind+" card to copy: give the copy a name of its own, and fill in what you know. A card "+
		"goes before what gylebook itself knows of "+
		"the same name. Files named "+samples+" are passed over, as the settings say.")
	words := journal.Words()
	for _, w := range words {
		switch {
		case w.File != kind+" card" || w.Path != w.Key:
		case w.Key == "card":
			line(&b, "", w, kind)
		case w.Key == "name":
			line(&b, "", w, spell("sample "+kind))
		case len(below(words, w.File, w)) > 0:
			remark(&b, "", w.Key+": "+w.Says+": {"+strings.Join(keysOf(below(words, w.File, w)), ", ")+"}")
			b.WriteString(w.Key + ":\n")
		default:
			line(&b, "", w, "")
		}
	}
	b.WriteString("---\n\nThe words of its page.\n")
	return []byte(b.String())
}

// Folders are the folders of a new journal, besides those of its files.
func Folders() []string { return []string{"gyles", "notes", "photos"} }
