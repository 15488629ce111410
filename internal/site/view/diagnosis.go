package view

import "html/template"

// Diagnosis is what the readings say of one word that tasters found.
type Diagnosis struct {
	Word  string
	Who   string // who found it, of how many, and how much that tells: a sentence
	Glass string // how it was served, sentences, "" where nothing was noted
	// Nothing says that no reading speaks for any cause, "" where one does.
	Nothing string
	Causes  []Suspect     // those that some reading speaks of, the likeliest first
	Open    string        // those that none speaks of, in one clause
	Settle  template.HTML // what to note to settle them
	Ask     string        // what tells the causes apart, a sentence
}

// Suspect is one cause with what speaks for and against it.
type Suspect struct {
	Standing string // Likely, Possible or Unlikely
	Name     string
	Href     string // of its row among the workings
	// As is the word under which the same was said before; then nothing but the
	// standing and the name is here.
	As    string
	Signs []SignGroup
	Needs template.HTML // the keys of readings that would tell more
	Do    string        // what to do now and next time, "" for an unlikely cause
}

// SignGroup is the signs of one voice: For, May be for, Against, May be against.
type SignGroup struct {
	Voice string
	Signs []Sign
}

// Sign is one reading and what it says, with its place.
type Sign struct{ Says, Place, Href string }

// CauseRow is one cause as declared, for workings.html.
type CauseRow struct {
	ID, Name, For, Against, Source string
	Words                          string // the tasting words that lead to it
}
