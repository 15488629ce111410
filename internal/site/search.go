package site

import (
	"bytes"
	"encoding/json"
	"fmt"
	"strings"

	"gylebook/internal/site/markdown"
	"gylebook/internal/site/view"
)

// SearchPage is search.html, where a reader searches; the script does it.
type SearchPage struct{ view.Frame }

var (
	_ = declare(pagesOf[*Site, SearchPage]{
		path: "search/index.html", template: "search.html", menu: menu{8, "Search"},
		fill: func(_ pageWriter, v *SearchPage, _ *Site) {
			v.Title, v.Description = "Search", "Search the whole book."
		},
	})
	_ = declare(filesOf[*Site]{path: "search.json", render: (*Site).searchJSON})
	_ = declare(filesOf[*Site]{path: "search.js", render: (*Site).searchScript})
)

// found is one page as the search knows it.
type found struct {
	Title string `json:"title"`
	Kind  string `json:"kind"`
	URL   string `json:"url"`
	Words string `json:"words"`
}

// searchPages is every page worth finding: what it is called, what kind it is,
// where it is from the top of the site, and the words to find it by.
func (s *Site) searchPages() []found {
	w := s.pageAt("index.html")
	all := []found{}
	for _, g := range s.gyles {
		words := []string{g.Slug, g.Style.Name, g.Summary.Text}
		words = append(words, texts(g.Tags)...)
		for _, u := range g.Uses() {
			if u.Subject != nil && u.Subject.Kind != "taster" {
				words = append(words, u.Subject.Name)
			}
		}
		for _, t := range g.Tastings {
			words = append(words, texts(t.Found)...)
		}
		all = append(all, found{"Gyle " + g.Slug + ", " + beer(g), "gyle", w.to(gylePath(g)), searchText(append(words, s.story(g.File).words)...)})
	}
	for _, n := range s.notes {
		all = append(all, found{n.title(), "note", w.to(notePath(n)), searchText(n.note.Summary.Text, s.story(n.note.File).words)})
	}
	for _, subject := range s.subjectsShown() {
		words := ""
		if subject.Card != nil && !subject.Card.BuiltIn {
			words = s.story(subject.Card.File).words
		}
		all = append(all, found{shownName(subject), subject.Kind, w.to(subjectPath(subject)), searchText(words)})
	}
	for _, f := range s.familiesShown() {
		all = append(all, found{f.Name, "family", w.to(familyPath(f)), ""})
	}
	for _, t := range s.tagsShown() {
		all = append(all, found{t.Name, "tag", w.to(tagPath(t)), ""})
	}
	return all
}

// searchText is words in lower case, each once, without marks of a story's
// places.
func searchText(parts ...string) string {
	seen := map[string]bool{}
	var kept []string
	for _, w := range strings.Fields(strings.ToLower(strings.Join(parts, " "))) {
		w = strings.Trim(w, ".,;:!?()[]“”‘’\"'…"+markdown.Root+markdown.Own)
		if w != "" && !seen[w] {
			seen[w] = true
			kept = append(kept, w)
		}
	}
	return strings.Join(kept, " ")
}

func (s *Site) searchJSON(string, *Site) ([]byte, error) {
	data, err := json.Marshal(s.searchPages())
	if err != nil {
		return nil, fmt.Errorf("writing the search: %w", err)
	}
	return append(data, '\n'), nil
}

// searchScript is the same as a script, since a page opened from a disk may not
// fetch. JSON is JavaScript; the encoder escapes what a script could trip over.
func (s *Site) searchScript(string, *Site) ([]byte, error) {
	data, err := s.searchJSON("", s)
	if err != nil {
		return nil, err
	}
	return fmt.Appendf(nil, "self.gylebookPages=%s;\n", bytes.TrimSpace(data)), nil
}
