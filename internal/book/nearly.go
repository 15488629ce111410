package book

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/agnivade/levenshtein"

	"gylebook/internal/notice"
	"gylebook/internal/rules"
)

// linkNearly finds, for each name without a card, the name of another subject
// without one that it was probably meant to be; a name that is nearly a card's is
// told of by the findings of its gyle. Tasters are left out: people are called Ann
// and Anna, and a friend's name is not for a page.
func (b *Book) linkNearly() {
	byKind := map[string][]*Subject{}
	for _, s := range b.Subjects {
		if s.Card == nil && s.Kind != "taster" {
			byKind[s.Kind] = append(byKind[s.Kind], s)
		}
	}
	for _, subjects := range byKind {
		for _, s := range subjects {
			s.nearly = nearest(s, subjects)
		}
	}
}

// mostCompared bounds the names that one name is compared with, so that a
// journal of nothing but names cannot stall the book.
const mostCompared = 2000

// nearest is the name of another subject that is used more often.
func nearest(s *Subject, others []*Subject) string {
	if len(others) > mostCompared {
		return ""
	}
	for _, other := range others {
		if other != s && published(other) > published(s) && slip(s.Name, other.Name) {
			return other.Name
		}
	}
	return ""
}

// published is how often a subject is used, drafts aside: what stands on a page
// must not tell what is in a draft.
func published(s *Subject) int { return s.Times - s.drafts }

// slip tells that one name is probably a slip of the pen for another: a letter
// off in five to nine, two in more. Names that differ in a number are meant to:
// crystal 120 is not crystal 150.
func slip(typed, name string) bool {
	a, c := folded(typed), folded(name)
	letters := min(utf8.RuneCountInString(a), utf8.RuneCountInString(c))
	allowed := 2
	switch {
	case a == c || letters < 5 || digits(a) != digits(c):
		return false
	case letters < 10:
		allowed = 1
	}
	shorter, longer := min(len(a), len(c)), max(len(a), len(c))
	if longer-shorter > 2*utf8.UTFMax || longer > longestSlug {
		return false
	}
	return levenshtein.ComputeDistance(a, c) <= allowed
}

func digits(text string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsDigit(r) {
			return r
		}
		return -1
	}, text)
}

func nameNearly(b *Book, g *Gyle) []rules.Found {
	var found []rules.Found
	var said []*Subject
	for i, n := range g.facts.names {
		subject := g.named[i]
		if subject.nearly == "" || slices.Contains(said, subject) {
			continue
		}
		said = append(said, subject)
		found = append(found, rules.Found{
			Severity: notice.Note, Where: n.where, Of: n.where.Key,
			Says: fmt.Sprintf(
				"The name %s is nearly %s, which other gyles have; no card knows either.", subject.Name, subject.nearly,
			),
			Why: "Two spellings are two pages, and neither tells the whole.",
			Do: fmt.Sprintf(
				"Write %s if that was meant, or a card with one name and the other under also.", subject.nearly,
			),
		})
	}
	return found
}
