package journal

import (
	"embed"
	"fmt"
	"slices"
	"strings"
	"sync"
	"unicode"

	"go.yaml.in/yaml/v4"

	"gylebook/internal/notice"
)

// Larder answers for cards by kind and name: the brewer's own first, then the
// built-in ones. It is never changed once made.
type Larder struct {
	own   []*Card
	named map[cardName]*Card
	taken []notice.Notice // cards that share a name
	asked *questions      // nil where nobody wants to know them
	// described are the cards, by kind and name as typed, of what was asked for by a
	// description: a vessel's kind and size, a culture's telling word.
	described *sync.Map
}

// cardName is the kind and name of a card, the name without case and spaces.
type cardName struct {
	kind CardKind
	name string
}

func nameOf(kind CardKind, name string) cardName { return cardName{kind, squash(name)} }

// squash is a name without case and spaces.
func squash(name string) string {
	return strings.Map(func(c rune) rune {
		if unicode.IsSpace(c) {
			return -1
		}
		return unicode.ToLower(c)
	}, name)
}

// NewLarder is the larder of these cards in front of the built-in ones.
func NewLarder(cards []*Card) *Larder {
	l := &Larder{own: cards, named: make(map[cardName]*Card), described: new(sync.Map)}
	for _, card := range cards {
		l.shelve(card, card.Name)
		for _, also := range card.Also {
			l.shelve(card, also)
		}
	}
	return l
}

// shelve puts a card under a name, and reports a name that another has.
func (l *Larder) shelve(card *Card, name Text) {
	key := nameOf(card.Kind.Word, name.Text)
	other := l.named[key]
	switch {
	case key.name == "" || other == card:
		return
	case other == nil:
		l.named[key] = card
		return
	}
	l.taken = append(l.taken, sharedName(name, card, other), sharedName(placeOf(other, key.name), other, card))
}

// placeOf is the name or other spelling under which a card was shelved.
func placeOf(card *Card, squashed string) Text {
	for _, also := range card.Also {
		if squash(also.Text) == squashed {
			return also
		}
	}
	return card.Name
}

func sharedName(name Text, card, other *Card) notice.Notice {
	return notice.Notice{
		Place: name.Place, Severity: notice.Unreadable, ID: idNameTaken, Of: name.Key,
		Says: fmt.Sprintf("another %s card, %s, is also called %s: expected a name of its own", card.Kind.Word,
			other.File, name.Text),
		Why:  "An entry that names it cannot tell which is meant; the first by file name is used.",
		Do:   "Give one of them another name.",
		Line: name.Text,
	}
}

// Card is the card of a kind ("malt", "vessel" …) with this name or other
// spelling, compared without case and spaces; nil for none. A vessel may also
// be named by its kind and size, a culture by a word that tells what it is.
func (l *Larder) Card(kind CardKind, name string) *Card {
	key := nameOf(kind, name)
	l.asked.card(key)
	return l.cardOf(key, name)
}

func (l *Larder) cardOf(key cardName, name string) *Card {
	if card := l.named[key]; card != nil {
		return card
	}
	if card := builtIn().named[key]; card != nil {
		return card
	}
	switch key.kind {
	case CardVessel:
		return l.describedAs(cardName{key.kind, name}, vesselOf)
	case CardYeast:
		return l.describedAs(cardName{key.kind, name}, cultureOf)
	}
	return nil
}

// describedAs is the card that a description makes, made once: nil for none.
func (l *Larder) describedAs(as cardName, make func(name string) *Card) *Card {
	if card, ok := l.described.Load(as); ok {
		return card.(*Card)
	}
	card := make(as.name)
	l.described.Store(as, card)
	return card
}

// Near is up to three names of a kind that are close to name, the closest
// first. A name with a number in it has only such near it as have the same one:
// crystal 90 is no crystal 60.
func (l *Larder) Near(kind CardKind, name string) []string {
	l.asked.near(kind, name)
	return l.nearOf(kind, name)
}

func (l *Larder) nearOf(kind CardKind, name string) []string {
	var near []string
	names := slices.DeleteFunc(l.names(kind), func(n string) bool { return numberIn(n) != numberIn(name) })
	for len(near) < 3 {
		best := nearest(name, names)
		if best == "" {
			break
		}
		near = append(near, best)
		names = slices.DeleteFunc(names, func(n string) bool { return n == best })
	}
	return near
}

// Known is every card of any kind that is called name, or so begins, by its name
// or another spelling.
func (l *Larder) Known(name string) []*Card {
	var found []*Card
	for _, kind := range plans().kinds {
		for _, card := range l.All(CardKind(kind)) {
			for _, spelling := range append([]Text{card.Name}, card.Also...) {
				if name != "" && speaksOf(spelling.Text, name) {
					found = append(found, card)
					break
				}
			}
		}
	}
	return found
}

// numberIn is the digits of a name.
func numberIn(name string) string {
	if !strings.ContainsAny(name, "0123456789") {
		return ""
	}
	return strings.Map(func(c rune) rune {
		if c < '0' || c > '9' {
			return -1
		}
		return c
	}, name)
}

// names is every spelling of every card of a kind, the brewer's own first, each
// once.
func (l *Larder) names(kind CardKind) []string {
	var own []string
	taken := map[string]bool{}
	for _, card := range l.own {
		if card.Kind.Word != kind {
			continue
		}
		for _, spelling := range append([]Text{card.Name}, card.Also...) {
			if name := squash(spelling.Text); !taken[name] {
				taken[name] = true
				own = append(own, spelling.Text)
			}
		}
	}
	slices.Sort(own)
	if len(own) == 0 {
		return slices.Clone(builtInNames()[kind])
	}
	return append(own, slices.DeleteFunc(slices.Clone(builtInNames()[kind]),
		func(name string) bool { return taken[squash(name)] })...)
}

// builtInNames is every spelling of every built-in card by its kind, sorted.
var builtInNames = sync.OnceValue(func() map[CardKind][]string {
	names := map[CardKind][]string{}
	for _, card := range builtIn().own {
		for _, spelling := range append([]Text{card.Name}, card.Also...) {
			names[card.Kind.Word] = append(names[card.Kind.Word], spelling.Text)
		}
	}
	for kind := range names {
		slices.Sort(names[kind])
	}
	return names
})

// All is every card of a kind: the brewer's own, then the built-in ones that
// none of those stands in for.
func (l *Larder) All(kind CardKind) []*Card {
	l.asked.all(kind)
	return l.allOf(kind)
}

func (l *Larder) allOf(kind CardKind) []*Card {
	var all []*Card
	for _, card := range l.own {
		if card.Kind.Word == kind {
			all = append(all, card)
		}
	}
	for _, card := range builtIn().own {
		if card.Kind.Word == kind && l.named[nameOf(kind, card.Name.Text)] == nil {
			all = append(all, card)
		}
	}
	return all
}

//go:embed larder/*.yaml
var larderFiles embed.FS

// builtIn is the larder that comes with gylebook, read at its first use.
var builtIn = sync.OnceValue(func() *Larder {
	cards, _ := readLarder() // a test holds the files to no errors
	return NewLarder(cards)
})

// readLarder reads the built-in files: each a list of cards of the kind that it
// is named for, with the keys that a brewer's card has.
func readLarder() ([]*Card, []notice.Notice) {
	var cards []*Card
	var errors []notice.Notice
	for _, kind := range plans().kinds {
		name := "larder/" + kind + ".yaml"
		raw, err := larderFiles.ReadFile(name)
		if err != nil {
			continue // no built-in cards of that kind
		}
		r := &reading{file: name, source: raw, settings: defaultSettings()}
		cards = append(cards, r.shelf(raw, CardKind(kind))...)
		errors = append(errors, r.errors...)
	}
	return cards, errors
}

// shelf reads the cards of one built-in file.
func (r *reading) shelf(raw []byte, kind CardKind) []*Card {
	root, err := parseTree(raw)
	if err != nil || root == nil || root.Kind != yaml.SequenceNode {
		r.report(notice.Place{File: r.file}, idNotYAML, "", fmt.Sprintf("no list of cards: %v", err), "")
		return nil
	}
	var cards []*Card
	for _, n := range root.Content {
		where := r.where(n, "card")
		n.Content = append(n.Content, &yaml.Node{Kind: yaml.ScalarNode, Tag: "!!str", Value: "card", Line: n.Line,
			Column: n.Column},
			&yaml.Node{Kind: yaml.ScalarNode, Tag: "!!str", Value: string(kind), Line: n.Line, Column: n.Column})
		card := r.cardOf(n, string(kind), Entry{File: r.file})
		card.BuiltIn, card.Kind = true, Choice[CardKind]{Word: kind, Where: where}
		cards = append(cards, card)
	}
	return cards
}
