package causes

import (
	"cmp"
	"slices"
	"sync"

	"gylebook/internal/assay"
	"gylebook/internal/figures"
	"gylebook/internal/tasting"
)

// Diagnosis is one word that tasters found, and what the gyle's own readings say
// of each thing that may lie behind it.
type Diagnosis struct {
	Saying
	Ask string // what tells the causes apart, a sentence
	// Glass is how it was served when the word was found.
	Glass Glass
	// Remarks are effects of the serving on how beer tastes, each a sentence.
	Remarks []string
	// Suspects are the causes, the likeliest first. A cause whose tests have
	// nothing to do with this gyle is left out.
	Suspects []Suspect
}

// Suspect is one cause with what the readings say of it.
type Suspect struct {
	Cause
	Signs []Sign // those that speak, for and then against, and the others
	// Weight is what speaks for it less what speaks against it.
	Weight float64
}

// Standing is where a cause stands after its tests.
type Standing int

// Likely: more speaks for it than against, by one sure circumstance at least.
// Possible: something speaks for it, and about as much against. Open: nothing
// speaks for it, and nothing sure against. Unlikely: more speaks against it, by
// one sure circumstance at least.
const (
	Likely Standing = iota
	Possible
	Open
	Unlikely
)

// String is the standing's word, as pages say it.
func (s Standing) String() string {
	return [...]string{"likely", "possible", "open", "unlikely"}[s]
}

// Standing is where the cause stands. Nothing that no sign speaks for is ever
// likely or possible.
func (s Suspect) Standing() Standing {
	switch {
	case s.Weight <= -1:
		return Unlikely
	case !s.Has(For):
		return Open
	case s.Weight < 1:
		return Possible
	}
	return Likely
}

// Standing are the suspects that stand so, the likeliest first.
func (d Diagnosis) Standing(as Standing) []Suspect {
	var some []Suspect
	for _, s := range d.Suspects {
		if s.Standing() == as {
			some = append(some, s)
		}
	}
	return some
}

// Has tells whether any sign has a voice.
func (s Suspect) Has(v Voice) bool {
	return slices.ContainsFunc(s.Signs, func(sign Sign) bool { return sign.Voice == v })
}

// Needs are the keys whose readings would settle it further.
func (s Suspect) Needs() []string {
	var keys []string
	for _, sign := range s.Signs {
		if sign.Voice == Unknown && !slices.Contains(keys, sign.Needs) {
			keys = append(keys, sign.Needs)
		}
	}
	return keys
}

// Advice is what to do next time: by the sign that speaks loudest for the cause.
func (s Suspect) Advice() string {
	if len(s.Signs) > 0 && s.Signs[0].Voice == For && s.Signs[0].next != "" {
		return s.Signs[0].next
	}
	return s.Next
}

// declared are the causes, made at the first use and never changed: a journal
// asks for them once a word.
var declared = sync.OnceValue(Causes)

// Diagnose is what the readings of a gyle say of each word that its tasters found,
// in the verdict's order. A word that is no known fault has no suspects.
func Diagnose(s *figures.Sheet, v Heard) []Diagnosis {
	if len(v.Sayings) == 0 {
		return nil
	}
	c, all := assay.Of(s), declared()
	c.Habits = nil // a habit is no evidence
	var out []Diagnosis
	for _, said := range v.Sayings {
		word, _ := tasting.Known(said.Word)
		if said.Known && len(word.LeadsTo) == 0 {
			continue // a description, and no fault
		}
		x := examine(c, said)
		if len(x.found) == 0 {
			continue // heard of another gyle
		}
		d := Diagnosis{Saying: said, Ask: word.Ask, Glass: x.glass, Remarks: x.remarks()}
		for _, id := range word.LeadsTo {
			if cause, ok := causeNamed(all, id); ok {
				if suspect := x.suspect(cause); len(suspect.Signs) > 0 {
					d.Suspects = append(d.Suspects, suspect)
				}
			}
		}
		slices.SortStableFunc(d.Suspects, likelier)
		out = append(out, d)
	}
	return out
}

// suspect puts a cause's tests to the gyle.
func (x *exam) suspect(cause Cause) Suspect {
	cause.Now, cause.Next = x.Text(cause.Now), x.Text(cause.Next)
	s := Suspect{Cause: cause}
	for _, t := range cause.Tests {
		sign := t.sign(x)
		switch sign.Voice {
		case Silent:
			if sign.Says == "" {
				continue
			}
		case For:
			s.Weight += sign.Weight
		case Against:
			s.Weight -= sign.Weight
		}
		s.Signs = append(s.Signs, sign)
	}
	rank := map[Voice]int{For: 0, Against: 1, Silent: 2, Unknown: 3}
	slices.SortStableFunc(s.Signs, func(a, b Sign) int {
		return cmp.Or(cmp.Compare(rank[a.Voice], rank[b.Voice]), cmp.Compare(b.Weight, a.Weight))
	})
	return s
}

// likelier orders suspects by where they stand, then by what speaks for them less
// what speaks against.
func likelier(a, b Suspect) int {
	return cmp.Or(cmp.Compare(a.Standing(), b.Standing()), cmp.Compare(b.Weight, a.Weight))
}
