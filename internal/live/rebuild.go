package live

import (
	"slices"
	"time"

	"gylebook/internal/notice"
)

// Rebuild is what came of one build.
type Rebuild struct {
	First   bool          // the one that the server started with
	Changed []string      // what was saved, by path in the journal
	Took    time.Duration // until open pages were told
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
	now := made.notices()
	r.Notices = map[notice.Severity]int{}
	for _, n := range now {
		if n.Accepted == "" {
			r.Notices[n.Severity]++
		}
	}
	if old != nil {
		before := old.notices()
		r.New, r.Cured = without(now, before), without(before, now)
	}
}

// mark is what two notices of one thing have in common, wherever its line has
// got to and whatever its figures say now.
type mark struct {
	file, id, of string
	severity     notice.Severity
	accepted     bool
}

func markOf(n notice.Notice) mark {
	return mark{n.Place.File, n.ID, n.Of, n.Severity, n.Accepted != ""}
}

// without is the notices of these that are not among those, counting like ones.
func without(these, those []notice.Notice) []notice.Notice {
	known := map[mark]int{}
	for _, n := range those {
		known[markOf(n)]++
	}
	var rest []notice.Notice
	for _, n := range these {
		if known[markOf(n)]--; known[markOf(n)] < 0 && n.Accepted == "" {
			rest = append(rest, n)
		}
	}
	slices.SortStableFunc(rest, notice.Compare)
	return rest
}
