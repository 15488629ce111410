package book

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"unicode"

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
	return called{c.Kind.Word, folded(c.Name.Text)}
}

func cardOf(l *journal.Larder, kind, name string) *journal.Card {
	if l == nil || name == "" {
		return nil
	}
	return l.Card(kind, name)
}

// properName is the name as its card has it, else as typed.
func properName(l *journal.Larder, kind, name string) string {
	if c := cardOf(l, kind, name); c != nil && c.Name.Text != "" {
		return c.Name.Text
	}
	return name
}

// cast gathers subjects while the gyles are read.
type cast struct {
	book  *Book
	known map[called]*Subject
	names map[called]*spelling // by kind and name exactly as typed: saves the larder's work
}

// spelling is a name as typed.
type spelling struct {
	subject *Subject
	key     called // of the subject
	times   int    // that it was used
}

// linkSubjects makes the subjects: one for every card of the brewer's and one
// for whatever else the gyles name. The gyles are the latest first.
func (b *Book) linkSubjects() {
	c := &cast{book: b, known: map[called]*Subject{}, names: map[called]*spelling{}}
	for _, card := range b.Journal.Cards {
		c.carded(card)
	}
	total := 0
	for _, g := range b.Gyles {
		total += len(g.gist.named)
	}
	all := make([]Use, 0, total) // one piece of memory for all of them
	for _, g := range b.Gyles {
		all = c.uses(g, all)
	}
	c.name()
	b.subjects = c.known
	b.Subjects = c.ordered()
	c.used(all)
}

// used gives every subject its uses, in one piece of memory.
func (c *cast) used(all []Use) {
	count := make(map[*Subject]int, len(c.known))
	for _, s := range c.names {
		count[s.subject] += s.times
	}
	shelf := make([]Use, 0, len(all))
	for s, n := range count {
		at := len(shelf)
		shelf = shelf[:at+n]
		s.Uses = shelf[at : at : at+n]
	}
	for _, u := range all {
		u.Subject.Uses = append(u.Subject.Uses, u)
	}
}

func (c *cast) carded(card *journal.Card) {
	key := calledCard(card)
	if c.known[key] == nil && key.name != "" {
		c.known[key] = &Subject{Kind: card.Kind.Word, Name: card.Name.Text, Card: card}
	}
}

// uses adds what a gyle names to all uses, and gives it its part of them.
func (c *cast) uses(g *Gyle, all []Use) []Use {
	start := len(all)
	for _, n := range g.gist.named {
		s := c.spelling(n.kind, n.name.Name)
		s.times++
		all = append(all, Use{Gyle: g, Subject: s.subject, Amount: n.amount, Where: n.name.Where})
	}
	g.Uses = all[start:len(all):len(all)]
	return all
}

// spelling is a name as typed, whose subject is made where it is new.
func (c *cast) spelling(kind, name string) *spelling {
	asTyped := called{kind, name}
	if s := c.names[asTyped]; s != nil {
		return s
	}
	key := calledBy(c.book.Journal.Larder, kind, name)
	subject := c.known[key]
	if subject == nil {
		subject = &Subject{Kind: kind, Card: cardOf(c.book.Journal.Larder, kind, name)}
		c.known[key] = subject
	}
	s := &spelling{subject: subject, key: key}
	c.names[asTyped] = s
	return s
}

// name names what has no card of the brewer's: by the built-in card, else as it
// is most often typed, the first by bytes of equals. A built-in vessel has no
// spelling of its own.
func (c *cast) name() {
	typed := map[called]map[string]int{}
	for asTyped, s := range c.names {
		if typed[s.key] == nil {
			typed[s.key] = map[string]int{}
		}
		typed[s.key][strings.Join(strings.Fields(asTyped.name), " ")] += s.times
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
func (c *cast) ordered() []*Subject {
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

// settings are the journal's, or the defaults of one that has none.
func (b *Book) settings() *journal.Settings {
	if b.Journal.Settings == nil {
		return &journal.Settings{}
	}
	return b.Journal.Settings
}
