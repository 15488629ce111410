package site

import (
	"bytes"
	"cmp"
	"io/fs"
	"regexp"
	"slices"
	"strings"
	"unicode/utf8"

	"gylebook/internal/book"
	"gylebook/internal/journal"
	"gylebook/internal/notice"
)

// friend is what a private taster is called.
const friend = "a friend"

// secrets is what must not be published, in a form that can be searched for.
type secrets struct {
	names *regexp.Regexp // private tasters, nil for none
	lower []string       // the same in lower case
}

// collectSecrets gathers the names of private tasters: from tastings and from
// cards, in every spelling.
func (s *Site) collectSecrets() *secrets {
	if !s.private.Tasters {
		return &secrets{}
	}
	set := map[string]bool{}
	add := func(name string) {
		if name = strings.TrimSpace(name); len(name) > 1 {
			set[name] = true
		}
	}
	for _, g := range s.book.Gyles {
		for _, t := range g.Tastings {
			add(t.By.Name)
		}
	}
	for _, c := range s.book.Journal.Cards {
		if c.Kind.Is(journal.CardTaster) {
			add(c.Name.Text)
			for _, also := range c.Also {
				add(also.Text)
			}
		}
	}
	if len(set) == 0 {
		return &secrets{}
	}
	var names, lower []string
	for name := range set {
		names = append(names, regexp.QuoteMeta(name))
		lower = append(lower, strings.ToLower(name))
	}
	// The longest first, so that no part of a name is left.
	slices.SortFunc(names, func(a, b string) int { return cmp.Or(len(b)-len(a), strings.Compare(a, b)) })
	pattern := `(?i)(^|[^\pL\pN])(` + strings.Join(names, "|") + `)($|[^\pL\pN])`
	return &secrets{lower: lower, names: regexp.MustCompile(pattern)}
}

// scrub is a text with private names taken out.
func (s *Site) scrub(text string) string {
	if !s.private.Tasters || text == "" {
		return text
	}
	secrets := s.secrets()
	names := secrets.names
	if names == nil || !secrets.mayBeIn(text) {
		return text
	}
	// Twice, since neighbours share the character between them.
	for range 2 {
		text = names.ReplaceAllString(text, "${1}"+friend+"${3}")
	}
	return text
}

// mayBeIn tells whether a name may be in a text: most texts have none, and a
// look is cheaper than a search.
func (s *secrets) mayBeIn(text string) bool {
	lower := strings.ToLower(text)
	for _, name := range s.lower {
		if strings.Contains(lower, name) {
			return true
		}
	}
	return false
}

// withheld are the lines of a file that hold something private.
type withheld struct {
	lines  map[int]bool
	public []string // the file as published, by line
	known  bool     // false where the file could not be read
}

// hidden compares the file as published with the file less its comments only.
// Where the source is not at hand everything counts as private.
func (s *Site) hidden(file string) withheld {
	if s.options.Files == nil || !fs.ValidPath(file) {
		return withheld{}
	}
	raw, err := fs.ReadFile(s.options.Files, file)
	if err != nil {
		return withheld{}
	}
	public := lines(journal.Redact(raw, s.private))
	whole := lines(journal.Redact(raw, journal.Private{}))
	w := withheld{lines: map[int]bool{}, public: public, known: true}
	for i, line := range whole {
		if i >= len(public) || public[i] != line {
			w.lines[i+1] = true
		}
	}
	return w
}

func lines(text []byte) []string {
	var out []string
	for line := range bytes.Lines(text) {
		out = append(out, strings.TrimRight(string(line), "\r\n"))
	}
	return out
}

// presentable is notices as they may be published: private names are taken out,
// an error's line is shown as the published source has it, and an error on a line
// with something private says only that there is one.
func (s *Site) presentable(notices []notice.Notice) []notice.Notice {
	out := slices.Clone(notices)
	sources := map[string]withheld{}
	for i := range out {
		n := &out[i]
		if n.Severity == notice.Unreadable || n.Line != "" {
			source, ok := sources[n.Place.File]
			if !ok {
				source = s.hidden(n.Place.File)
				sources[n.Place.File] = source
			}
			s.veil(n, source)
		}
		for _, text := range []*string{&n.Says, &n.Why, &n.Do, &n.Accepted, &n.Line} {
			*text = s.scrub(*text)
		}
	}
	return out
}

// veil hides what an error would tell of a private line.
func (s *Site) veil(n *notice.Notice, source withheld) {
	switch {
	case !source.known:
		n.Line = ""
	case source.lines[n.Place.Line]:
		n.Says, n.Do = "A line with something private in it could not be read.", "Run gylebook verify to see it."
		n.Why, n.Line = "", ""
	case n.Line != "" && n.Place.Line >= 1 && n.Place.Line <= len(source.public):
		n.Line = strings.TrimSpace(source.public[n.Place.Line-1])
	default:
		n.Line = ""
	}
}

// hush blanks private names on the lines of tastings, where they stand, in a
// source that is to be published. The story and every other text is the
// brewer's own and stays as written.
func (s *Site) hush(g *book.Gyle, source []byte) []byte {
	names := s.secrets().names
	if names == nil {
		return source
	}
	all := bytes.SplitAfter(source, []byte("\n"))
	for i, t := range g.Tastings {
		last := max(t.Where.Line, t.By.Line)
		if t.Text.Written() {
			last = max(last, t.Text.Line+strings.Count(t.Text.Text, "\n")+1)
		}
		if i+1 < len(g.Tastings) {
			last = min(last, max(t.Where.Line, g.Tastings[i+1].Where.Line-1))
		}
		for n := max(t.Where.Line, 1); n <= last && n <= len(all) && n < g.BodyLine; n++ {
			for range 2 {
				all[n-1] = names.ReplaceAllFunc(all[n-1], func(found []byte) []byte {
					parts := names.FindSubmatch(found)
					return bytes.Join(
						[][]byte{parts[1], bytes.Repeat([]byte(" "), utf8.RuneCount(parts[2])), parts[3]}, nil,
					)
				})
			}
		}
	}
	return bytes.Join(all, nil)
}
