package live

import (
	"fmt"
	"slices"
	"time"

	"gylebook/internal/book"
	"gylebook/internal/notice"
)

// Rebuild is what came of one build.
type Rebuild struct {
	First   bool          // the one that the server started with
	Changed []string      // what was saved, by path in the journal
	Took    time.Duration // until open pages were told
	Told    int           // how many different open pages are others by it
	// Notices counts all there is to see to, by severity, without what the
	// brewer has accepted.
	Notices map[notice.Severity]int
	// New and Cured are what this save brought and what it mended, by place. A
	// notice that only moved to another line is neither.
	New, Cured []notice.Notice
	// Err says why there is no new build; the last good one stands.
	Err error
}

// compare fills in what changed from the old edition, nil where there is none.
func (r *Rebuild) compare(old, made *edition) {
	defer func() {
		if thrown := recover(); thrown != nil {
			r.Err = fmt.Errorf("finding out what is new: a fault of this program: %v", thrown)
		}
	}()
	r.Notices = map[notice.Severity]int{}
	count := func(all []notice.Notice) {
		for _, n := range all {
			if n.Accepted == "" {
				r.Notices[n.Severity]++
			}
		}
	}
	var before, now []notice.Notice // of all that is not the same in both
	differ := func(was, is []notice.Notice) {
		count(is)
		if !slices.Equal(was, is) {
			before, now = append(before, was...), append(now, is...)
		}
	}
	if old == nil {
		old = noEdition
	}
	differ(old.loose(), made.loose())
	for _, g := range made.book.Gyles {
		var was []notice.Notice
		if o := old.book.GyleIn(g.File); o != nil {
			was = o.Notices
		}
		differ(was, g.Notices)
	}
	for _, g := range old.book.Gyles {
		if made.book.GyleIn(g.File) == nil {
			before = append(before, g.Notices...)
		}
	}
	if old != noEdition {
		r.New, r.Cured = without(now, before), without(before, now)
	}
}

// noEdition is the edition before the first.
var noEdition = &edition{book: &book.Book{}}

// loose are the notices of no gyle, those that only the site sees, and the errors
// of what is held.
func (e *edition) loose() []notice.Notice {
	if e.site == nil {
		return nil
	}
	return slices.Concat(e.book.Notices, e.site.Notices(), e.broken)
}

// identity is what two notices of one thing have in common, wherever its line has
// got to and whatever its figures say now.
type identity struct {
	file, id, of string
	severity     notice.Severity
	accepted     bool
}

func identityOf(n notice.Notice) identity {
	return identity{n.Place.File, n.ID, n.Of, n.Severity, n.Accepted != ""}
}

// without is the notices of these that are not among those, counting like ones.
func without(these, those []notice.Notice) []notice.Notice {
	known := map[identity]int{}
	for _, n := range those {
		known[identityOf(n)]++
	}
	var rest []notice.Notice
	for _, n := range these {
		if known[identityOf(n)]--; known[identityOf(n)] < 0 && n.Accepted == "" {
			rest = append(rest, n)
		}
	}
	slices.SortStableFunc(rest, notice.Compare)
	return rest
}
