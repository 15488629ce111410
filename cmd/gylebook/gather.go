package main

import (
	"slices"

	"gylebook/internal/book"
	"gylebook/internal/journal"
	"gylebook/internal/notice"
	"gylebook/internal/site"
)

// allNotices is everything there is to say about the journal, in the order of
// place.
func allNotices(b *book.Book, s *site.Site) []notice.Notice {
	all := slices.Concat(b.Notices, s.Notices())
	for _, g := range b.Gyles {
		all = append(all, g.Notices...)
	}
	slices.SortStableFunc(all, notice.Compare)
	return all
}

// split parts what cannot be read from what can and wants seeing to.
func split(all []notice.Notice) (errs, findings []notice.Notice) {
	for _, n := range all {
		if n.Severity == notice.Unreadable {
			errs = append(errs, n)
		} else {
			findings = append(findings, n)
		}
	}
	return errs, findings
}

// tally counts notices by severity, without those that the brewer has accepted.
func tally(lists ...[]notice.Notice) map[notice.Severity]int {
	counts := map[notice.Severity]int{}
	for _, n := range slices.Concat(lists...) {
		if n.Accepted == "" {
			counts[n.Severity]++
		}
	}
	return counts
}

// texts is the words of a list.
func texts(list []journal.Text) []string {
	words := make([]string, 0, len(list))
	for _, t := range list {
		words = append(words, t.Text)
	}
	return words
}
