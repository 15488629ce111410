package site

import (
	"sync"

	"gylebook/internal/figures"
)

// explained keeps the sheets that were last worked again with their workings. Three
// pages of a gyle ask for one, mostly one after the other; to keep them all would
// take more memory than the book.
type explained struct {
	mu     sync.Mutex
	sheets [8]struct{ of, full *figures.Sheet }
	next   int
}

// sheet is a gyle's sheet with its workings.
func (e *explained) sheet(of *figures.Sheet) *figures.Sheet {
	if full := e.kept(of); full != nil {
		return full
	}
	full := of.Explained()
	e.mu.Lock()
	defer e.mu.Unlock()
	e.sheets[e.next].of, e.sheets[e.next].full = of, full
	e.next = (e.next + 1) % len(e.sheets)
	return full
}

func (e *explained) kept(of *figures.Sheet) *figures.Sheet {
	e.mu.Lock()
	defer e.mu.Unlock()
	for _, s := range e.sheets {
		if s.of == of {
			return s.full
		}
	}
	return nil
}
