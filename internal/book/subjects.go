package book

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"unicode"
	"unique"

	"gylebook/internal/journal"
)

// called tells subjects apart: the kind of card, and the name that its card
// has, without case and spaces.
type called struct{ kind, name string }

// folded is a name without case and spaces, as the larder compares them.
func folded(name string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsSpace(r) {
			return -1
		}
		return unicode.ToLower(r)
	}, name)
}

// calledBy is what a name of a kind refers to.
func calledBy(l *journal.Larder, kind, name string) called {
	c := cardOf(l, kind, name)
	if c == nil {
		return called{kind, folded(name)}
	}
	return calledCard(c)
}

// calledCard is what a card stands for. A built-in vessel is its kind and size,
// so that a bottle of 0.5 L and one of 500 mL are one.
func calledCard(c *journal.Card) called {
	if c.BuiltIn && c.Vessel != nil && c.Vessel.Capacity.Written() {
		return called{"vessel", fmt.Sprintf("%s %.4f", c.Vessel.Is.Word, c.Vessel.Capacity.Value.Litres())}
	}
	return called{c.Kind.String(), folded(c.Name.Text)}
}

func cardOf(l *journal.Larder, kind, name string) *journal.Card {
	if l == nil || name == "" {
		return nil
	}
	return l.Card(journal.CardKind(kind), name)
}

// Uses is what a gyle used, in the order of the entry.
func (g *Gyle) Uses() []Use {
	uses := make([]Use, len(g.facts.names))
	for i, n := range g.facts.names {
		uses[i] = Use{Gyle: g, Subject: g.named[i], Amount: n.amount, Where: n.where}
	}
	return uses
}

// Uses are those of a subject of the book: by gyle, the latest brewed first, and in
// the order of the entry. They are gathered when those of any subject are first asked
// for.
func (b *Book) Uses(s *Subject) []Use { return b.uses()[s] }

// usesBySubject gathers what all gyles used.
func (b *Book) usesBySubject() map[*Subject][]Use {
	all := map[*Subject][]Use{}
	for _, g := range b.Gyles {
		for _, u := range g.Uses() {
			if all[u.Subject] == nil {
				all[u.Subject] = make([]Use, 0, u.Subject.Times)
			}
			all[u.Subject] = append(all[u.Subject], u)
		}
	}
	return all
}

// subjectLinker gathers subjects while the gyles are read.
type subjectLinker struct {
	book      *Book
	known     map[called]*Subject
	spellings map[unique.Handle[called]]*spelling
}

// spelling is a name as entries give it, what it means and how often it is given.
type spelling struct {
	key     called
	subject *Subject
	times   int
}

// linkSubjects makes the subjects: one for every card of the brewer's and one
// for whatever else the gyles name.
func (b *Book) linkSubjects() {
	c := &subjectLinker{book: b, known: map[called]*Subject{}, spellings: map[unique.Handle[called]]*spelling{}}
	for _, card := range b.Journal.Cards {
		c.carded(card)
	}
	names := 0
	for _, g := range b.Gyles {
		names += len(g.facts.names)
	}
	named := make([]*Subject, 0, names) // by all gyles: one piece of memory
	for _, g := range b.Gyles {
		before := len(named)
		named = c.uses(g, named)
		g.named = named[before:]
	}
	c.name()
	b.subjects = c.known
	b.Subjects = c.ordered()
	b.linkNearly()
}

func (c *subjectLinker) carded(card *journal.Card) {
	key := calledCard(card)
	if c.known[key] == nil && key.name != "" {
		c.known[key] = &Subject{Kind: card.Kind.String(), Name: card.Name.Text, Card: card}
	}
}

// uses counts what a gyle names, and adds it to what was named.
func (c *subjectLinker) uses(g *Gyle, named []*Subject) []*Subject {
	for _, n := range g.facts.names {
		s := c.spellings[n.name]
		if s == nil {
			s = c.means(n.name.Value())
			c.spellings[n.name] = s
		}
		s.times++
		s.subject.Times++
		if g.Draft.Yes() {
			s.subject.drafts++
		}
		named = append(named, s.subject)
	}
	return named
}

// means finds the subject of a name as typed, made where it is new.
func (c *subjectLinker) means(typed called) *spelling {
	larder := c.book.Journal.Larder
	key := calledBy(larder, typed.kind, typed.name)
	if c.known[key] == nil {
		c.known[key] = &Subject{Kind: typed.kind, Card: cardOf(larder, typed.kind, typed.name)}
	}
	return &spelling{key: key, subject: c.known[key]}
}

// name names what has no card of the brewer's: by the built-in card, else as it
// is most often typed, the first by bytes of equals. A built-in vessel has no
// spelling of its own.
func (c *subjectLinker) name() {
	typed := map[called]map[string]int{}
	for name, s := range c.spellings {
		if typed[s.key] == nil {
			typed[s.key] = map[string]int{}
		}
		typed[s.key][strings.Join(strings.Fields(name.Value().name), " ")] += s.times
	}
	for key, s := range c.known {
		switch {
		case s.Name != "":
		case s.Card != nil && s.Card.Vessel == nil:
			s.Name = s.Card.Name.Text
		default:
			s.Name = oftenest(typed[key])
		}
	}
}

func oftenest(spellings map[string]int) string {
	best := ""
	for spelling, times := range spellings {
		if best == "" || times > spellings[best] || times == spellings[best] && spelling < best {
			best = spelling
		}
	}
	return best
}

// ordered is all subjects by kind and then by name, in the order of the
// journal's language, each with its folder.
func (c *subjectLinker) ordered() []*Subject {
	byKind := map[string][]*Subject{}
	for _, s := range c.known {
		byKind[s.Kind] = append(byKind[s.Kind], s)
	}
	var all []*Subject
	for _, kind := range slices.Sorted(maps.Keys(byKind)) {
		group := byKind[kind]
		names := make([]string, len(group))
		for i, s := range group {
			names[i] = s.Name
		}
		given := slugs(names)
		for _, s := range group {
			s.Slug = given[s.Name]
		}
		sortByName(c.book.alphabet(), group, func(s *Subject) string { return s.Name })
		all = append(all, group...)
	}
	return all
}
