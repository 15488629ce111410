package journal

import (
	"slices"
	"strings"

	"gylebook/internal/notice"
)

// notRead is the keys that were written and could not be read: those with an
// error, and those that were surely meant by a key that is none.
func (r *reading) notRead() []Where {
	var all []Where
	for _, e := range r.errors {
		if e.Of != "" && e.ID != idUnknownKey && e.ID != idDoubledKey && e.ID != idMissingKey {
			all = append(all, Where{Place: e.Place, Key: e.Of})
		}
	}
	all = append(all, r.missed...)
	slices.SortStableFunc(all, func(a, b Where) int { return notice.Place.Compare(a.Place, b.Place) })
	return all
}

// Unreadable is where a key was written that could not be read, itself or with
// the map or list that it stands in; not Written where that is not so. A path
// with [] in it is any part of that list: readings[].gravity. What could not be
// read counts as not written, and yet it is not missing: it is to be put right,
// not to be measured again.
func (g *Gyle) Unreadable(key string) Where {
	for _, w := range g.NotRead {
		written := w.Key
		if strings.Contains(key, "[]") {
			written = unnumbered(written)
		}
		if key == written || strings.HasPrefix(key, written+".") || strings.HasPrefix(key, written+"[") {
			return w
		}
	}
	return Where{}
}
