package site

import (
	"net/url"
	"path"
	"slices"
	"strconv"
	"strings"

	"gylebook/internal/book"
	"gylebook/internal/journal"
	"gylebook/internal/site/markdown"
)

// resolver answers a story's questions: where its links lead and what its
// pictures show. See markdown.Resolver.
type resolver struct {
	site  *Site
	story *story
	asked []question
}

// Link is where a destination leads.
func (r *resolver) Link(destination string) markdown.Target {
	target := r.link(destination)
	r.remember(question{destination: destination, target: target})
	return target
}

// remember keeps a question with its answer, once.
func (r *resolver) remember(q question) {
	same := func(a question) bool { return a.picture == q.picture && a.destination == q.destination }
	if !slices.ContainsFunc(r.asked, same) {
		r.asked = append(r.asked, q)
	}
}

// Picture is what a destination shows.
func (r *resolver) Picture(destination string) markdown.Picture {
	picture := r.picture(destination)
	r.remember(question{picture: true, destination: destination, shown: picture})
	return picture
}

// abroad are the schemes that lead out of the site and may.
var abroad = []string{"https", "http", "mailto", "tel", "gemini", "geo", "urn"}

// cardKinds are the kinds of card that a link may name, with the kind each
// stands for.
var cardKinds = map[string]string{
	"malt": "malt", "adjunct": "malt", "sugar": "sugar", "syrup": "sugar", "hop": "hop", "yeast": "yeast",
	"water": "water", "vessel": "vessel", "instrument": "instrument", "style": "style", "taster": "taster",
	"fruit": "fruit", "juice": "fruit", "salt": "salt", "fining": "fining", "cleaner": "cleaner",
}

// commonSchemes are those that are suggested for one that there is not.
var commonSchemes = []string{
	"gyle:", "figure:", "note:", "tag:", "hop:", "malt:", "yeast:", "vessel:", "style:", "https:",
}

func (r *resolver) link(destination string) markdown.Target {
	destination = strings.TrimSpace(destination)
	if destination == "" {
		return dead("", "a link leads nowhere", "Write where it should lead between the round brackets.")
	}
	if rest, ok := strings.CutPrefix(destination, "#"); ok {
		return markdown.Target{Href: markdown.Own + "#" + rest, Text: rest}
	}
	scheme, rest, found := strings.Cut(destination, ":")
	if !found || strings.ContainsAny(scheme, "/.?# ") {
		return r.file(destination)
	}
	scheme = strings.ToLower(scheme)
	name, fragment := named(rest)
	switch {
	case slices.Contains(abroad, scheme):
		return markdown.Target{
			Href: destination, Text: strings.TrimPrefix(strings.TrimPrefix(destination, scheme+"://"), "mailto:"),
		}
	case scheme == "gyle":
		return r.toGyle(name, fragment)
	case scheme == "figure":
		return r.toFigure(rest)
	case scheme == "note":
		return r.toNote(name, fragment)
	case scheme == "tag":
		return r.toGroup(name, "tag", r.site.book.Tags, tagPath)
	case scheme == "year":
		return r.toGroup(name, "year", r.site.book.Years, yearPath)
	case cardKinds[scheme] != "":
		return r.toCard(cardKinds[scheme], name, fragment)
	}
	do := "Links may begin with " + near(scheme, commonSchemes) + "."
	return dead(destination, "a link of the unknown kind "+scheme+":", do)
}

// named is the name after a scheme, with its fragment.
func named(rest string) (name, fragment string) {
	rest, fragment, _ = strings.Cut(rest, "#")
	if plain, err := url.PathUnescape(rest); err == nil {
		rest = plain
	}
	return strings.TrimSpace(strings.TrimLeft(rest, "/")), fragment
}

// dead is a link that leads nowhere.
func dead(text, says, do string) markdown.Target {
	return markdown.Target{
		Text: text,
		Fault: markdown.Fault{
			ID: "link-dead", Says: says,
			Why: "A reader who follows it would find nothing, so its words stand without a link.", Do: do,
		},
	}
}

// within is the address of a path of the site, in a story.
func (r *resolver) within(p, fragment, text string) markdown.Target {
	href := markdown.Root + escapePath(p)
	if fragment != "" {
		href += "#" + fragment
		if p == r.story.home {
			href = markdown.Own + "#" + fragment
		}
	}
	return markdown.Target{Href: href, Text: text}
}

func (r *resolver) toGyle(name, fragment string) markdown.Target {
	number, err := strconv.Atoi(name)
	var g *book.Gyle
	if err == nil {
		g = r.site.numbered(number)
	}
	if g == nil {
		return dead("gyle "+name, "there is no gyle "+name, "Name one that there is: "+r.nearGyles(number)+".")
	}
	return r.gyle(g, fragment)
}

func (r *resolver) gyle(g *book.Gyle, fragment string) markdown.Target {
	if !r.site.published(g) {
		target := dead(
			beer(g), "gyle "+g.Slug+" is a draft, so the link to it is left out",
			"It comes by itself once the draft is published.",
		)
		target.Fault.ID = "link-to-draft"
		return target
	}
	return r.within(gylePath(g), fragment, beer(g))
}

// numbered is the published gyle of a number, else the draft that has it.
func (s *Site) numbered(number int) *book.Gyle {
	if g := s.book.Gyle(number); g != nil {
		return g
	}
	return s.whole.Gyle(number)
}

// nearGyles names the gyles whose numbers are nearest.
func (r *resolver) nearGyles(number int) string {
	var near []string
	for distance := 1; distance < 1000 && len(near) < 2; distance++ {
		for _, n := range []int{number - distance, number + distance} {
			if g := r.site.book.Gyle(n); r.site.published(g) && g.Number.N == n {
				near = append(near, "gyle:"+strconv.Itoa(n))
			}
		}
	}
	if len(near) == 0 {
		return "the journal has none near it"
	}
	return strings.Join(near, " or ")
}

func (r *resolver) toCard(kind, name, fragment string) markdown.Target {
	if kind == "taster" && r.site.private.Tasters {
		return markdown.Target{Text: friend, Class: "friend"}
	}
	subject := r.site.book.Subject(kind, name)
	if subject == nil {
		subject = r.site.book.Subject(kind, strings.NewReplacer("-", " ", "_", " ").Replace(name))
	}
	if r.site.shown(subject) {
		return r.within(subjectPath(subject), fragment, subject.Name)
	}
	names := r.site.book.Journal.Larder.Near(journal.CardKind(kind), name)
	do := "Write a card for it, or name one that there is."
	if len(names) > 0 {
		do = "Name one that there is: " + kind + ":" + strings.Join(names, ", ") + "."
	}
	return dead(name, "no gyle uses a "+kind+" "+name+" and no card describes it", do)
}

func (r *resolver) toNote(name, fragment string) markdown.Target {
	var names []string
	for _, n := range r.site.notes {
		base := strings.TrimSuffix(path.Base(n.note.File), ".md")
		if name == n.slug || name == n.note.File || name == base || strings.EqualFold(name, n.note.Title.Text) {
			return r.within(notePath(n), fragment, n.title())
		}
		names = append(names, base)
	}
	return dead(name, "there is no note "+name, "Name one that there is: note:"+near(name, names)+".")
}

func (r *resolver) toGroup(name, what string, groups []*book.Group, at func(*book.Group) string) markdown.Target {
	var names []string
	for _, g := range groups {
		if strings.EqualFold(g.Name, name) || g.Slug == name {
			if r.site.groupShown(g) {
				return r.within(at(g), "", g.Name)
			}
		}
		names = append(names, g.Name)
	}
	return dead(name, "there is no "+what+" "+name, "Name one that there is: "+what+":"+near(name, names)+".")
}

// file is where a path leads: an entry's page, or a file that is copied into the
// site. It is relative to the entry's folder, or to the journal's where it
// begins with a slash.
func (r *resolver) file(destination string) markdown.Target {
	written, fragment, _ := strings.Cut(destination, "#")
	written, _, _ = strings.Cut(written, "?")
	name, ok := r.inJournal(written)
	if !ok {
		return dead(
			destination, "the link leads out of the journal: "+destination,
			"Only what is in the journal's folder is published.",
		)
	}
	if page, text, ok := r.entryPage(name); ok {
		if page == "" {
			return markdown.Target{Text: text, Class: "friend"}
		}
		return r.within(page, fragment, text)
	}
	if g := r.site.whole.GyleIn(name); g != nil {
		return r.gyle(g, fragment)
	}
	switch name {
	case ".", "":
		return r.within("index.html", fragment, r.site.bookTitle())
	case "gyles", "notes":
		return r.within(name+"/index.html", fragment, name)
	}
	if isPicture(name) {
		return r.toPicture(name, destination)
	}
	if f, ok := r.site.files[name]; ok {
		return r.toFile(name, destination, f.Size)
	}
	return dead(destination, "there is no "+destination, "The nearest is "+near(name, r.candidates(name))+".")
}

// inJournal is the path in the journal that a destination names.
func (r *resolver) inJournal(destination string) (string, bool) {
	plain, err := url.PathUnescape(destination)
	if err != nil {
		plain = destination
	}
	plain = strings.ReplaceAll(plain, "\\", "/")
	if rest, ok := strings.CutPrefix(plain, "/"); ok {
		plain = path.Clean(rest)
	} else {
		plain = path.Join(path.Dir(r.story.entry.File), plain)
	}
	return plain, plain != ".." && !strings.HasPrefix(plain, "../")
}

// entryPage is the page of a Markdown file; the page is "" where the file has
// none that may be linked (a private taster's card).
func (r *resolver) entryPage(name string) (page, text string, ok bool) {
	if g := r.site.book.GyleIn(name); r.site.published(g) {
		return gylePath(g), beer(g), true
	}
	if n := r.site.noteIn[name]; n != nil {
		return notePath(n), n.title(), true
	}
	if name == r.site.settings.File && name != "" || name == "index.md" {
		return "index.html", r.site.bookTitle(), true
	}
	document := r.site.book.Journal.Document(name)
	if document == nil || document.Card == nil {
		return "", "", false
	}
	kind := document.Card.Kind.String()
	if kind == "taster" && r.site.private.Tasters {
		return "", friend, true
	}
	subject := r.site.book.Subject(kind, document.Card.Name.Text)
	if !r.site.shown(subject) {
		return "", "", false
	}
	return subjectPath(subject), subject.Name, true
}

// candidates are the names near which a mistyped file may be.
func (r *resolver) candidates(name string) []string {
	var all []string
	add := func(file string) {
		if path.Ext(file) == path.Ext(name) {
			all = append(all, file)
		}
	}
	for _, g := range r.site.gyles {
		add(g.File)
	}
	for _, n := range r.site.notes {
		add(n.note.File)
	}
	for _, c := range r.site.book.Journal.Cards {
		if !c.Kind.Is(journal.CardTaster) || !r.site.private.Tasters {
			add(c.File)
		}
	}
	for _, f := range r.site.book.Journal.Files {
		add(f.Name)
	}
	return all
}
