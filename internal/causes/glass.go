package causes

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"gylebook/internal/assay"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

// exam is one gyle under examination for one word that was found.
type exam struct {
	*assay.Case
	said Saying
	// found are the tastings with the word, others those without it.
	found, others []journal.Tasting
	glass         Glass
}

// Glass is how a beer was served when a word was found. A span whose Known is
// false was not noted.
type Glass struct {
	Heat   Span   // in the glass, °C
	Open   Span   // days since its container was broached; bottles are opened one by one
	Age    Span   // days since the yeast went in
	Groups []Part // who found it from which container, drawn through what, and with a sparkler or without, where the tastings differ in it
}

// Span is the least and the most of what was noted.
type Span struct {
	Low, High float64
	Known     bool
}

func (s *Span) add(x float64) {
	if !s.Known {
		s.Low, s.High, s.Known = x, x, true
		return
	}
	s.Low, s.High = min(s.Low, x), max(s.High, x)
}

// Part is how many of those who had it one way found the word.
type Part struct {
	Package  int              // the container's index, -1 where the part is not about one
	Through  journal.Dispense // where it is not: what the glass came through, "" where the part is not about that
	Sparkler bool             // where it is neither: whether a sparkler was on
	Said, Of int              // tasters
}

// examine gathers what is known of the glasses in which a word was found.
func examine(c *assay.Case, said Saying) *exam {
	x := &exam{Case: c, said: said}
	for i, t := range c.Gyle.Tastings {
		if !slices.Contains(said.Tastings, i) {
			x.others = append(x.others, t)
			continue
		}
		x.found = append(x.found, t)
		if heat := x.heatOf(t); heat.Written() {
			x.glass.Heat.add(heat.Value.Celsius())
		}
		if !t.When.Written() {
			continue
		}
		if since := c.PitchedAt(); !since.IsZero() && t.When.Middle().After(since) {
			x.glass.Age.add(daysApart(since, t.When.Middle()))
		}
		if k, ok := x.containerOf(t); ok && !k.Is(journal.Bottle) && c.Broached(k).Written() {
			x.glass.Open.add(max(0, daysApart(c.Broached(k).Middle(), t.When.Middle())))
		}
	}
	x.glass.Groups = x.groups()
	return x
}

// heatOf is the heat in the glass: the tasting's own, else as the gyle is served.
func (x *exam) heatOf(t journal.Tasting) journal.Value[q.Temperature] {
	if t.At.Written() {
		return t.At
	}
	return x.Gyle.Served.At
}

// containerOf is what a tasting was drawn from: the one it names, else the only
// one there is.
func (x *exam) containerOf(t journal.Tasting) (figures.Container, bool) {
	all := x.Containers()
	switch {
	case t.Package.Written():
		for _, k := range all {
			if k.Index == t.Package.N {
				return k, true
			}
		}
	case len(all) == 1:
		return all[0], true
	}
	return figures.Container{}, false
}

// from are the containers in which the word was found, each once; all of them
// where no tasting says.
func (x *exam) from() []figures.Container { return x.fromOf(x.found) }

func (x *exam) fromOf(tastings []journal.Tasting) []figures.Container {
	var some []figures.Container
	for _, t := range tastings {
		if k, ok := x.containerOf(t); ok && !slices.ContainsFunc(some, func(o figures.Container) bool { return o.Index == k.Index }) {
			some = append(some, k)
		}
	}
	if len(some) == 0 {
		return x.Containers()
	}
	return some
}

// groups count the tasters by container, by what their beer came through and by
// sparkler, where there are two kinds of any.
func (x *exam) groups() []Part {
	byContainer := x.parts(func(t journal.Tasting) (Part, bool) {
		return Part{Package: t.Package.N}, t.Package.Written()
	})
	byThrough := x.parts(func(t journal.Tasting) (Part, bool) {
		through := x.throughOf(t)
		return Part{Package: -1, Through: through.Word}, through.Written()
	})
	bySparkler := x.parts(func(t journal.Tasting) (Part, bool) {
		return Part{Package: -1, Sparkler: t.Sparkler.Yes()}, t.Sparkler.Written()
	})
	return slices.Concat(byContainer, byThrough, bySparkler)
}

// parts count tasters by a part that each tasting belongs to; none where all
// belong to one.
func (x *exam) parts(of func(journal.Tasting) (Part, bool)) []Part {
	var parts []Part
	count := func(tastings []journal.Tasting, found bool) {
		seen := map[Part]map[string]bool{}
		for _, t := range tastings {
			p, ok := of(t)
			if !ok || seen[p][Taster(t)] {
				continue
			}
			if seen[p] == nil {
				seen[p] = map[string]bool{}
			}
			seen[p][Taster(t)] = true
			i := slices.IndexFunc(parts, func(o Part) bool { return o.Package == p.Package && o.Through == p.Through && o.Sparkler == p.Sparkler })
			if i < 0 {
				i = len(parts)
				parts = append(parts, p)
			}
			if found {
				parts[i].Said++
			} else {
				parts[i].Of++
			}
		}
	}
	count(x.Gyle.Tastings, false)
	count(x.found, true)
	if len(parts) < 2 {
		return nil
	}
	return parts
}

// firstTasting and lastTasting are the first and the last tasting with the word that
// has a date.
func (x *exam) firstTasting() (journal.Tasting, bool) { return datedOf(x.found, -1) }

func (x *exam) lastTasting() (journal.Tasting, bool) { return datedOf(x.found, +1) }

func datedOf(tastings []journal.Tasting, order int) (best journal.Tasting, ok bool) {
	for _, t := range tastings {
		if t.When.Written() && (!ok || order*t.When.Middle().Compare(best.When.Middle()) > 0) {
			best, ok = t, true
		}
	}
	return best, ok
}

// tastedFrom is a tasting with the container that it was drawn from, or the key that
// would tell.
func (x *exam) tastedFrom(t journal.Tasting, dated bool) (of journal.Tasting, k figures.Container, missing string) {
	k, known := x.containerOf(t)
	switch {
	case !dated:
		missing = "tastings[].when"
	case !known:
		missing = "tastings[].package"
	}
	return t, k, missing
}

func daysApart(from, to time.Time) float64 { return to.Sub(from).Hours() / 24 }

// remarks are how the serving itself alters what is tasted: what tasters say is
// to be read with them in mind.
func (x *exam) remarks() []string {
	var all []string
	on := slices.ContainsFunc(x.found, func(t journal.Tasting) bool { return t.Sparkler.Yes() })
	if on && x.says("flat", "thin", "no hop nose", "not bitter enough", "fading", "fizzy", "sweet") {
		all = append(all, "A sparkler was on: it takes gas out of the beer, and softens bitterness and aroma.")
	}
	heat, open := x.glass.Heat, x.glass.Open
	if heat.Known && heat.Low < coldGlass.Number && x.says("flat", "thin", "no hop nose", "not bitter enough", "sweet", "fading", "hazy") {
		const says = "The glass was at %s: cold beer tastes thinner and flatter than it is, and may haze."
		all = append(all, fmt.Sprintf(says, x.Heat(heat.Low)))
	}
	if open.Known && open.High > openFresh.Number && x.says("flat", "sour", "vinegary", "fading", "cardboard", "sherry", "thin") {
		all = append(all, fmt.Sprintf("It had been open for %s: open beer first goes flat, then sour.", wholeDays(open.High)))
	}
	return all
}

// says tells whether the word that was found is one of some.
func (x *exam) says(words ...string) bool { return slices.Contains(words, x.said.Word) }

// wholeDays prints a number of days.
func wholeDays(days float64) string {
	n := q.Fixed(days, 0)
	if n == "1" {
		return "a day"
	}
	return n + " days"
}

// noted is the first line, of a reading, a container, a tasting or a deed, whose
// words name one of some things; words ending in a star are beginnings.
func (x *exam) noted(words ...string) (what string, where journal.Where, ok bool) {
	var texts []journal.Text
	for _, r := range x.Gyle.Readings {
		texts = append(texts, r.Note)
	}
	for _, p := range x.Gyle.Packages {
		texts = append(texts, p.Note)
	}
	for _, d := range x.Gyle.Done {
		texts = append(texts, d.Note)
	}
	for _, t := range texts {
		if assay.HasWord(t.Text, words...) {
			return strings.TrimSuffix(strings.Join(strings.Fields(t.Text), " "), "."), t.Where, true
		}
	}
	return "", journal.Where{}, false
}

// warmestGlass and coolestGlass are the heat of the warmest and the coolest glass in
// which the word was found.
func warmestGlass(says string) func(*exam) reading { return glassAt(says, +1) }
func coolestGlass(says string) func(*exam) reading { return glassAt(says, -1) }

func glassAt(says string, sign float64) func(*exam) reading {
	return func(x *exam) reading {
		var best figures.Figure
		found := false
		for _, t := range x.found {
			if f, read := figures.AsRead(x.heatOf(t)); read && (!found || sign*f.Value > sign*best.Value) {
				best, found = f, true
			}
		}
		return x.measured(best, found, says)
	}
}

// openFor is for how many days the container was open when the word was first
// found, for containers that are drawn from more than once.
func (x *exam) openFor() (days figures.Figure, of figures.Container, ok bool) {
	for _, t := range x.found {
		k, known := x.containerOf(t)
		if !known || k.Is(journal.Bottle) || k.Package.Gas.Set.Written() || !t.When.Written() {
			continue
		}
		broached := x.Broached(k)
		if !broached.Written() {
			continue
		}
		open := max(0, daysApart(broached.Middle(), t.When.Middle()))
		if !ok || open < days.Value {
			days, of, ok = number(open, 0.5, "days", broached.Where), k, true
		}
	}
	return days, of, ok
}
