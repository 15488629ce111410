package site

import (
	"cmp"
	"slices"
	"strconv"
	"time"

	"gylebook/internal/book"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
	"gylebook/internal/site/view"
)

// due is one thing to do on brew day: at a moment, where the entry says from
// when, or so many minutes before the end of the boil.
type due struct {
	at            time.Time // zero where it is not known
	minutes       float64   // before the end of the boil; below nought after it
	boil          bool      // minutes is said
	when          string    // in words
	what, amounts string
}

// customaryMinutes is how long before the end of the boil finings and sugars go
// in where nothing else is said (common practice, no source).
const customaryMinutes = 15

// brewClock is what is to be done on brew day, the next first. Without a time
// for the start of the boil its part is told by the minutes before the end.
func (w pageWriter) brewClock(g *book.Gyle) view.BrewClock {
	all := slices.Concat(w.mashClock(g), w.boilClock(g))
	length := boilLength(g, all)
	v := view.BrewClock{}
	start, timed := hour(g.Copper.Started)
	timed = timed && g.Copper.Boiled.Written() // else there is no telling when it ends
	if length > 0 && !timed {
		v.Length = strconv.FormatFloat(length, 'f', -1, 64)
	}
	for _, d := range all {
		if d.boil && timed {
			d.at = start.Add(minutes(length - d.minutes))
		}
		shown := view.Due{When: d.when, What: d.what, Amount: d.amounts}
		if d.boil && d.minutes >= 0 {
			shown.Minutes = strconv.FormatFloat(d.minutes, 'f', -1, 64)
		}
		if !d.at.IsZero() {
			shown.At, shown.Time = d.at.UTC().Format(time.RFC3339), d.at.In(w.spell.zone).Format("15:04")
		}
		v.Due = append(v.Due, shown)
	}
	return v
}

// hour is a moment of which the hour is known.
func hour(m journal.Moment) (t time.Time, ok bool) { return m.Time, m.Written() && !m.DateOnly }

func minutes(n float64) time.Duration { return time.Duration(n * float64(time.Minute)) }

// boilLength is how long the boil lasts: as the entry says, else as long as
// anything is in it.
func boilLength(g *book.Gyle, all []due) float64 {
	if b := g.Copper.Boiled; b.Written() && !b.None {
		return b.Value.Minutes()
	}
	longest := 0.0
	for _, d := range all {
		longest = max(longest, d.minutes)
	}
	return longest
}

// mashClock is the mash by the clock, nothing where it is not said when it
// begins.
func (w pageWriter) mashClock(g *book.Gyle) []due {
	at, ok := hour(g.Mash.Started)
	if !ok {
		return nil
	}
	all := []due{{at: at, what: "mash in"}}
	for i, r := range g.Mash.Rests {
		if !r.For.Written() {
			break // from here on the clock does not tell
		}
		at = at.Add(minutes(r.For.Value.Minutes()))
		end := due{at: at, what: w.phrase(" ", "end of the rest", w.with("at", r.At))}
		if i+1 < len(g.Mash.Rests) {
			next := g.Mash.Rests[i+1]
			end.what += w.with(", then", w.phrase(" by ", next.At, next.By))
			end.amounts = w.phrase(" ", next.Liquor, w.with("at", next.LiquorAt))
		}
		all = append(all, end)
	}
	return all
}

// boilClock is what goes into the copper and its end, the earliest first.
func (w pageWriter) boilClock(g *book.Gyle) []due {
	if g.Copper.Boiled.None {
		return nil
	}
	all := w.boiledHops(g)
	into := func(what, amounts string) {
		all = append(all, due{boil: true, minutes: customaryMinutes, when: "about " + strconv.Itoa(customaryMinutes) + " min before the end", what: what, amounts: amounts})
	}
	for _, grain := range g.Grist {
		if grain.Into.Is(journal.IntoCopper) && !grain.When.Written() {
			into(w.grain(grain).Text, w.text(grain.Weight))
		}
	}
	for _, f := range g.Finings {
		if f.Into.Is(journal.IntoCopper) {
			into(f.With.Name, w.phrase(", ", f.Weight, f.Volume))
		}
	}
	if g.Copper.Boiled.Written() {
		all = append(all, due{boil: true, what: "end of the boil"})
	}
	slices.SortStableFunc(all, func(x, y due) int { return cmp.Compare(y.minutes, x.minutes) })
	return slices.Concat(all, w.steeped(g))
}

func (w pageWriter) boiledHops(g *book.Gyle) []due {
	var all []due
	for _, h := range g.Hops {
		if h.Boiled.Written() {
			all = append(all, due{
				boil: true, minutes: h.Boiled.Value.Minutes(), when: w.text(h.Boiled) + " before the end",
				what: h.Hop.Name, amounts: w.hopAmount(h),
			})
		}
	}
	return all
}

// steeped are the hops that go in when the boil is over.
func (w pageWriter) steeped(g *book.Gyle) []due {
	var all []due
	for _, h := range g.Hops {
		if h.Steeped.Written() && !h.Boiled.Written() {
			when := w.phrase(" ", "off the boil, for", h.Steeped, w.with("at", h.At))
			all = append(all, due{boil: g.Copper.Boiled.Written(), when: when, what: h.Hop.Name, amounts: w.hopAmount(h)})
		}
	}
	return all
}

func (w pageWriter) hopAmount(h journal.Hop) string {
	return w.phrase(", ", h.Weight, w.with("alpha", h.Alpha))
}

// clockOnPage is the brew-day clock for the gyle's own page: while it is in the
// copper, and on paper once it is said at what time anything begins. A gyle whose
// brew day is over has none, whatever its entry leaves open.
func (w pageWriter) clockOnPage(g *book.Gyle) view.BrewClock {
	clock := w.brewClock(g)
	last, timed := time.Time{}, false
	if g.Brewed.Written() {
		last = g.Brewed.Time.AddDate(0, 0, 1)
	}
	for _, d := range clock.Due {
		if at, err := time.Parse(time.RFC3339, d.At); err == nil {
			timed = true
			if at.After(last) {
				last = at
			}
		}
	}
	brewing := g.Sheet.Stage == figures.Copper || g.Sheet.Stage == figures.Paper && timed
	if !brewing || w.book.Now.After(last.Add(12*time.Hour)) {
		return view.BrewClock{}
	}
	return clock
}
