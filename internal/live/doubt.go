package live

import (
	"strings"
	"time"

	"gylebook/internal/journal"
)

// What a save may say before it is believed: a file that is half written, or
// moved aside for a moment, looks like one that was spoilt or deleted.

// suspicion is of a file that came to say less: since when, and what it says.
type suspicion struct {
	first, since time.Time
	hash         [32]byte
}

// over tells that it has lasted long enough to be believed.
func (s suspicion) over(now time.Time) bool { return now.Sub(s.since) >= doubt }

// lengthened is the suspicion of a file that still changes: it lasts on, though
// not for ever.
func (s suspicion) lengthened(d *journal.Document, now time.Time) suspicion {
	hash := [32]byte{}
	if d != nil {
		hash = d.Hash
	}
	if s.first.IsZero() {
		s.first, s.since = now, now
	}
	if hash != s.hash && now.Sub(s.first) < longestDoubt {
		s.since = now
	}
	s.hash = hash
	return s
}

// A file that came to say less is given doubt, from when it last changed, and at
// most longestDoubt.
const (
	doubt        = 250 * time.Millisecond
	longestDoubt = 3 * time.Second
)

// fewSaved is the most documents that an editor saves at once. Where more go, they
// were taken away.
const fewSaved = 3

// verdict is what becomes of a file that was read again.
type verdict int

const (
	takeIt verdict = iota
	doubtIt
	holdIt
)

// judge compares what a file says with what is shown of it.
func (f *folder) judge(
	name string, d, shown *journal.Document, all map[string]*journal.Document, now time.Time,
) verdict {
	if !saysLess(d, shown) {
		delete(f.doubted, name)
		return takeIt
	}
	suspected := f.doubted[name].lengthened(d, now)
	gone := d == nil && (len(all) > fewSaved || shown == nil || movedAmong(shown, all))
	if !gone && !suspected.over(now) && (d == nil || f.held[name] == nil) {
		f.doubted[name] = suspected
		return doubtIt
	}
	delete(f.doubted, name)
	if d != nil && shown != nil && newErrors(d, shown) {
		return holdIt
	}
	return takeIt
}

// saysLess tells that a file is gone or empty, has lost most of its story, has
// become something else, or has errors that what is shown of it has not.
func saysLess(d, shown *journal.Document) bool {
	switch {
	case d == nil:
		return shown != nil
	case shown == nil:
		return len(d.Errors) > 0 || isEmpty(d)
	case isEmpty(d):
		return !isEmpty(shown)
	case d.Entry() != nil && shown.Entry() != nil && 2*len(d.Entry().Body) < len(shown.Entry().Body):
		return true // more than half of its story is gone
	case d.Withheld() && shown.Withheld():
		return false
	case (d.Gyle != nil) != (shown.Gyle != nil), (d.Card != nil) != (shown.Card != nil),
		(d.Settings != nil) != (shown.Settings != nil):
		return !shown.Withheld()
	}
	return newErrors(d, shown)
}

// isEmpty tells a file with nothing in it, which counts as a note.
func isEmpty(d *journal.Document) bool {
	return d.Note != nil && d.Note.BodyLine == 1 && strings.TrimSpace(d.Note.Body) == ""
}

// newErrors tells that a document has an error that another has not, wherever its
// line has got to.
func newErrors(d, shown *journal.Document) bool {
	known := map[identity]int{}
	for _, n := range shown.Errors {
		known[identityOf(n)]++
	}
	for _, n := range d.Errors {
		if known[identityOf(n)]--; known[identityOf(n)] < 0 {
			return true
		}
	}
	return false
}

// movedAmong tells that a file that is gone is there under another name.
func movedAmong(shown *journal.Document, all map[string]*journal.Document) bool {
	for _, d := range all {
		switch {
		case d == nil || d.File == shown.File:
		case d.Hash == shown.Hash:
			return true
		case d.Gyle != nil && shown.Gyle != nil && d.Gyle.Number.N == shown.Gyle.Number.N:
			return true
		}
	}
	return false
}

// nextLook is when a doubted file is to be looked at again, zero for never.
func (f *folder) nextLook() time.Time {
	var next time.Time
	for _, s := range f.doubted {
		if at := s.since.Add(doubt); next.IsZero() || at.Before(next) {
			next = at
		}
	}
	return next
}
