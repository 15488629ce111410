package book

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"sync"
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
	return called{c.Kind.String(), folded(c.Name.Text)}
}

func cardOf(l *journal.Larder, kind, name string) *journal.Card {
	if l == nil || name == "" {
		return nil
	}
	return l.Card(journal.CardKind(kind), name)
}

// properName is the name as its card has it, else as typed.
func properName(l *journal.Larder, kind, name string) string {
	if c := cardOf(l, kind, name); c != nil && c.Name.Text != "" {
		return c.Name.Text
	}
	return name
}

// spellings numbers the names that entries give, by kind and exactly as typed, so
// that the uses of ten thousand gyles can be counted without looking names up.
type spellings struct {
	mu      sync.Mutex
	numbers map[called]int
	all     []called
}

func newSpellings() *spellings { return &spellings{numbers: map[called]int{}} }

func (s *spellings) number(kind, name string) int {
	s.mu.Lock()
	defer s.mu.Unlock()
	asTyped := called{kind, name}
	n, known := s.numbers[asTyped]
	if !known {
		n = len(s.all)
		s.numbers[asTyped] = n
		s.all = append(s.all, asTyped)
	}
	return n
}

// tally is which subject each spelling means: by the number of the spelling, nil for
// one that no gyle has. Books of the same subjects share it.
type tally struct{ meant []*Subject }

// Uses is what a gyle used, in the order of the entry.
func (g *Gyle) Uses() []Use {
	uses := make([]Use, len(g.gist.named))
	for i, n := range g.gist.named {
		uses[i] = Use{Gyle: g, Subject: g.tally.meant[n.spelt], Amount: n.amount, Where: n.where}
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

// cast gathers subjects while the gyles are read.
type cast struct {
	book  *Book
	known map[called]*Subject
	keys  []called // of the subjects, by the number of the spelling
	times []int    // that a spelling is used
	tally *tally
}

// linkSubjects makes the subjects: one for every card of the brewer's and one
// for whatever else the gyles name. Those of a book abreast are the same, unless its
// gyles do not name the same.
func (b *Book) linkSubjects(f *former) {
	if f.abreast && !f.renamed {
		b.Subjects, b.subjects, b.tally = f.book.Subjects, f.book.subjects, f.book.tally
		for _, turn := range f.others {
			b.at(turn).tally = b.tally
		}
		return
	}
	n := len(b.spoken.all)
	c := &cast{book: b, known: map[called]*Subject{}, keys: make([]called, n), times: make([]int, n), tally: &tally{make([]*Subject, n)}}
	for _, card := range b.Journal.Cards {
		c.carded(card)
	}
	for _, g := range b.Gyles {
		c.uses(g)
	}
	c.name()
	b.subjects, b.tally = c.known, c.tally
	b.Subjects = c.ordered()
	b.linkNearly()
}

// sameUses tells that two gyles name the same in the same order, whatever amounts
// of it.
func sameUses(a, b *Gyle) bool {
	return a.Draft.Yes() == b.Draft.Yes() && slices.EqualFunc(a.gist.named, b.gist.named, func(x, y named) bool { return x.spelt == y.spelt })
}

func (c *cast) carded(card *journal.Card) {
	key := calledCard(card)
	if c.known[key] == nil && key.name != "" {
		c.known[key] = &Subject{Kind: card.Kind.String(), Name: card.Name.Text, Card: card}
	}
}

// uses counts what a gyle names.
func (c *cast) uses(g *Gyle) {
	g.tally = c.tally
	for _, n := range g.gist.named {
		s := c.tally.meant[n.spelt]
		if s == nil {
			s = c.means(n.spelt)
		}
		c.times[n.spelt]++
		s.Times++
		if g.Draft.Yes() {
			s.drafts++
		}
	}
}

// means finds the subject of a spelling, made where it is new.
func (c *cast) means(spelt int) *Subject {
	typed := c.book.spoken.all[spelt]
	key := calledBy(c.book.Journal.Larder, typed.kind, typed.name)
	s := c.known[key]
	if s == nil {
		s = &Subject{Kind: typed.kind, Card: cardOf(c.book.Journal.Larder, typed.kind, typed.name)}
		c.known[key] = s
	}
	c.tally.meant[spelt], c.keys[spelt] = s, key
	return s
}

// name names what has no card of the brewer's: by the built-in card, else as it
// is most often typed, the first by bytes of equals. A built-in vessel has no
// spelling of its own.
func (c *cast) name() {
	typed := map[called]map[string]int{}
	for n, times := range c.times {
		if times == 0 {
			continue
		}
		if typed[c.keys[n]] == nil {
			typed[c.keys[n]] = map[string]int{}
		}
		typed[c.keys[n]][strings.Join(strings.Fields(c.book.spoken.all[n].name), " ")] += times
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
