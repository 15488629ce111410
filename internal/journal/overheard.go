package journal

import (
	"crypto/sha256"
	"slices"
	"sync"
)

// questions are what a larder was asked. Whatever was worked out with the answers
// stands as long as another larder would give the same ones.
type questions struct {
	mu    sync.Mutex
	cards []cardName
	kinds []CardKind
	names []cardName // as typed, for which names near them were wanted
}

func (q *questions) card(key cardName) {
	if q == nil {
		return
	}
	q.mu.Lock()
	defer q.mu.Unlock()
	if !slices.Contains(q.cards, key) {
		q.cards = append(q.cards, key)
	}
}

func (q *questions) all(kind CardKind) {
	if q == nil {
		return
	}
	q.mu.Lock()
	defer q.mu.Unlock()
	if !slices.Contains(q.kinds, kind) {
		q.kinds = append(q.kinds, kind)
	}
}

func (q *questions) near(kind CardKind, name string) {
	if q == nil {
		return
	}
	q.mu.Lock()
	defer q.mu.Unlock()
	if key := (cardName{kind, name}); !slices.Contains(q.names, key) {
		q.names = append(q.names, key)
	}
}

// answers is what was asked up to a moment.
type answers struct {
	cards []cardName
	kinds []CardKind
	names []cardName
}

// soFar is a copy, so that nothing is locked while the questions are asked again.
func (q *questions) soFar() answers {
	q.mu.Lock()
	defer q.mu.Unlock()
	return answers{slices.Clone(q.cards), slices.Clone(q.kinds), slices.Clone(q.names)}
}

// Overheard is the same larder, which from now on keeps in mind what it is asked:
// see AnsweredAlike. It may be asked from several goroutines.
func (l *Larder) Overheard() *Larder {
	if l == nil {
		return nil
	}
	heard := *l
	heard.asked = new(questions)
	return &heard
}

// AnsweredAlike tells that another larder gives the same answers, stories aside,
// to all that this one was asked since it was overheard.
func (l *Larder) AnsweredAlike(other *Larder) bool {
	switch {
	case l == nil || other == nil:
		return l == other
	case l.described == other.described: // two of one larder
		return true
	case l.asked == nil:
		return l.Facts() == other.Facts()
	}
	asked := l.asked.soFar()
	for _, key := range asked.cards { // where neither has one of the brewer's own, both give the built-in answer
		if !sameCard(l.named[key], other.named[key]) {
			return false
		}
	}
	for _, key := range asked.names {
		if !slices.Equal(l.nearOf(key.kind, key.name), other.nearOf(key.kind, key.name)) {
			return false
		}
	}
	for _, kind := range asked.kinds {
		if !slices.EqualFunc(l.allOf(kind), other.allOf(kind), sameCard) {
			return false
		}
	}
	return true
}

// Facts is a hash (SHA-256) of all that the brewer's cards say but for their stories.
// Larders of one hash answer every question alike.
func (l *Larder) Facts() [sha256.Size]byte {
	if l == nil {
		return [sha256.Size]byte{}
	}
	var all []byte
	for _, card := range l.own {
		all = append(append(all, card.File...), 0)
		all = append(all, card.Front[:]...)
	}
	return sha256.Sum256(all)
}

// sameCard tells that two cards say the same but for their stories.
func sameCard(a, b *Card) bool {
	switch {
	case a == b:
		return true
	case a == nil || b == nil || a.BuiltIn || b.BuiltIn:
		return false
	}
	return a.File == b.File && a.Front == b.Front
}
