package book

import (
	"reflect"
	"slices"
	"time"

	"gylebook/internal/journal"
)

// gist is what the book takes from an entry alone. It is made once for each
// version of the entry's front matter.
type gist struct {
	begun   time.Time
	moments []int64 // every date in it, Unix nanoseconds, rising
	named   []named
}

// named is one use of a subject, before it is known which subject that is: the
// spelling is known by its number.
type named struct {
	spelt  int
	where  journal.Where
	amount string
}

func (b *Book) gistOf(g *journal.Gyle) *gist {
	out := &gist{begun: begun(g), moments: momentsIn(reflect.ValueOf(g).Elem(), nil)}
	if g.Log != nil && g.Log.Rows() > 0 {
		out.moments = append(out.moments, g.Log.At(0).When.UnixNano(), g.Log.At(g.Log.Rows()-1).When.UnixNano())
	}
	slices.Sort(out.moments)
	naming{g: &Gyle{Gyle: g}, settings: b.settings(), says: func(kind string, name journal.Name, amount string) {
		if folded(name.Name) != "" {
			out.named = append(out.named, named{b.spoken.number(kind, name.Name), name.Where, amount})
		}
	}}.all()
	return out
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

// clockOf is the clock that a gyle is worked out at: the book's own while
// anything in the entry is dated within a week of it; else the beginning of the
// book's day. What happened weeks ago is told in days, and a gyle that rests then
// comes out the same all day long.
func (b *Book) clockOf(g *Gyle) time.Time {
	today := midnight(b.Now.In(b.zone()))
	from, to := today.AddDate(0, 0, -inHand).UnixNano(), today.AddDate(0, 0, 1+inHand).UnixNano()
	if i, _ := slices.BinarySearch(g.gist.moments, from); i < len(g.gist.moments) && g.gist.moments[i] < to {
		return b.Now
	}
	return today
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
	var next int64
	for _, g := range b.Gyles {
		i, found := slices.BinarySearch(g.gist.moments, b.Now.UnixNano())
		for ; found && i < len(g.gist.moments) && g.gist.moments[i] == b.Now.UnixNano(); i++ {
		}
		if i < len(g.gist.moments) && (next == 0 || g.gist.moments[i] < next) {
			next = g.gist.moments[i]
		}
	}
	for _, n := range b.Notes {
		if at := n.On.Time.UnixNano(); n.On.Written() && n.On.Time.After(b.Now) && (next == 0 || at < next) {
			next = at
		}
	}
	if next == 0 {
		return time.Time{}
	}
	return time.Unix(0, next)
}
