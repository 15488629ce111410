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
	typed map[called]map[string]int // how often each spelling was used, of those without a card of the brewer's
	names map[called]*Subject       // by kind and name exactly as typed: saves the larder's work
}

// linkSubjects makes the subjects: one for every card of the brewer's and one
// for whatever else the gyles name. The gyles are the latest first.
func (b *Book) linkSubjects() {
	c := &cast{book: b, known: map[called]*Subject{}, typed: map[called]map[string]int{}, names: map[called]*Subject{}}
	for _, card := range b.Journal.Cards {
		c.carded(card)
	}
	for _, g := range b.Gyles {
		c.uses(g)
	}
	c.name()
	b.subjects = c.known
	b.Subjects = c.ordered()
	for _, g := range b.Gyles {
		for _, u := range g.Uses {
			u.Subject.Uses = append(u.Subject.Uses, u)
		}
	}
}

func (c *cast) carded(card *journal.Card) {
	key := calledCard(card)
	if c.known[key] == nil && key.name != "" {
		c.known[key] = &Subject{Kind: card.Kind.Word, Name: card.Name.Text, Card: card}
	}
}

func (c *cast) uses(g *Gyle) {
	g.Uses = nil
	naming{g: g, settings: c.book.settings(), says: func(kind string, name journal.Name, amount string) {
		if folded(name.Name) == "" {
			return
		}
		g.Uses = append(g.Uses, Use{Gyle: g, Subject: c.subject(kind, name.Name), Amount: amount, Where: name.Where})
	}}.all()
}

// subject is the one that a name as typed refers to, made where it is new.
func (c *cast) subject(kind, name string) *Subject {
	asTyped := called{kind, name}
	s := c.names[asTyped]
	if s == nil {
		card := cardOf(c.book.Journal.Larder, kind, name)
		key := calledBy(c.book.Journal.Larder, kind, name)
		if s = c.known[key]; s == nil {
			s = &Subject{Kind: kind, Card: card}
			c.known[key] = s
		}
		c.names[asTyped] = s
	}
	if s.Card == nil || s.Card.BuiltIn {
		c.counted(kind, name)
	}
	return s
}

func (c *cast) counted(kind, name string) {
	key := calledBy(c.book.Journal.Larder, kind, name)
	if c.typed[key] == nil {
		c.typed[key] = map[string]int{}
	}
	c.typed[key][strings.Join(strings.Fields(name), " ")]++
}

// name names what has no card of the brewer's: by the built-in card, else as it
// is most often typed, the first by bytes of equals. A built-in vessel has no
// spelling of its own.
func (c *cast) name() {
	for key, s := range c.known {
		switch {
		case s.Name != "":
		case s.Card != nil && s.Card.Vessel == nil:
			s.Name = s.Card.Name.Text
		default:
			s.Name = oftenest(c.typed[key])
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
