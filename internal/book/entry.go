package book

import (
	"reflect"
	"slices"
	"time"
	"unique"

	"gylebook/internal/journal"
	"gylebook/internal/store"
)

// entryFacts is what the book takes from a gyle's entry alone.
type entryFacts struct {
	key     store.Key // of the file's name, its front matter, its logger's file and the settings
	begun   time.Time
	moments []int64 // every date in it, Unix nanoseconds, rising
	names   []naming
}

// naming is one use of a subject, before it is known which subject that is.
type naming struct {
	name   unique.Handle[called] // by the kind of card and as typed
	where  journal.Where
	amount string
}

var entryKind = store.Kind[*entryFacts]{Name: "entry", Rounds: 1}

// factsOf reads an entry, unless it was read before.
func factsOf(g *journal.Gyle, settings *journal.Settings, settingsKey store.Key, kept *store.Store) *entryFacts {
	key := store.KeyOf(settingsKey, g.File, g.Front)
	if g.Log != nil {
		key = store.KeyOf(key, g.Log.File, g.Log.Hash)
	}
	return store.Do(kept, &entryKind, key, func() *entryFacts {
		e := &entryFacts{
			key: key, begun: begun(g), moments: momentsIn(reflect.ValueOf(g).Elem(), nil),
			names: namingsIn(g, settings),
		}
		if g.Log != nil && g.Log.Rows() > 0 {
			e.moments = append(e.moments, g.Log.At(0).When.UnixNano(), g.Log.At(g.Log.Rows()-1).When.UnixNano())
		}
		slices.Sort(e.moments)
		return e
	})
}

// settingsKey is of all that the settings say.
func (b *Book) settingsKey() store.Key {
	s := b.settings()
	return store.KeyOf(s.File, s.Front)
}

var momentType = reflect.TypeFor[journal.Moment]()

// momentsIn gathers every moment of a value, wherever the vocabulary has one.
func momentsIn(v reflect.Value, all []int64) []int64 {
	switch {
	case v.Type() == momentType:
		if m := v.Addr().Interface().(*journal.Moment); m.Written() {
			all = append(all, m.Time.UnixNano())
		}
	case v.Kind() == reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				all = momentsIn(v.Field(i), all)
			}
		}
	case v.Kind() == reflect.Slice && v.Type().Elem().Kind() == reflect.Struct:
		for i := range v.Len() {
			all = momentsIn(v.Index(i), all)
		}
	}
	return all
}

// inHand is how near, in days, a date in an entry must be to the clock for the
// hour to matter.
const inHand = 7

// clock is the book's, with the days about it, Unix nanoseconds.
type clock struct {
	now, today time.Time
	from, to   int64
}

func (b *Book) clock() clock {
	today := midnight(b.Now.In(b.zone()))
	return clock{b.Now, today, today.AddDate(0, 0, -inHand).UnixNano(), today.AddDate(0, 0, 1+inHand).UnixNano()}
}

// of is the clock that a gyle is worked out at: the book's own while anything in the
// entry is dated within a week of it; else the beginning of the book's day. What
// happened weeks ago is told in days, and a gyle that rests then comes out the same all
// day long.
func (c clock) of(e *entryFacts) time.Time {
	if i, _ := slices.BinarySearch(e.moments, c.from); i < len(e.moments) && e.moments[i] < c.to {
		return c.now
	}
	return c.today
}

// StillAt tells that at a later moment of the same day nothing that an entry or
// note dates has come since the book's clock: a book at that moment would hardly
// differ.
func (b *Book) StillAt(now time.Time) bool {
	if now.Before(b.Now) || !midnight(now.In(b.zone())).Equal(midnight(b.Now.In(b.zone()))) {
		return false
	}
	next := b.nextMoment()
	return next.IsZero() || now.Before(next)
}

// nextMomentOf is the first date in the journal after the book's clock, the zero
// time for none.
func (b *Book) nextMomentOf() time.Time {
	now, next := b.Now.UnixNano(), int64(0)
	for _, g := range b.Gyles {
		all := g.facts.moments
		if i, _ := slices.BinarySearch(all, now+1); i < len(all) && (next == 0 || all[i] < next) {
			next = all[i]
		}
	}
	for _, n := range b.Notes {
		if at := n.On.Time.UnixNano(); n.On.Written() && at > now && (next == 0 || at < next) {
			next = at
		}
	}
	if next == 0 {
		return time.Time{}
	}
	return time.Unix(0, next)
}
