package figures

import (
	"math"
	"slices"
	"strings"
	"time"

	"gylebook/internal/journal"
)

// Keeping is how long a kind of container takes to be ready and how long it
// keeps. All of it is common practice; where a publication narrows it, its
// source is named.
type Keeping struct {
	Vessel    journal.VesselKind // the kind of vessel
	Ready     float64            // days from filling until ready, of beer of ordinary strength, not fined
	ReadyOff  float64            // ± days
	Takes     float64            // of them, until the priming is taken up; the rest is dropping bright
	At        float64            // °C, the heat at which it takes so long
	Keeps     float64            // days from filling, unopened and cool
	KeepsOff  float64
	Broached  float64 // days once broached
	BroachOff float64
	Source    string
}

// Keepings is the table, a row for each kind of vessel.
func Keepings() []Keeping { return slices.Clone(keepings) }

var keepings = []Keeping{
	{journal.SoftBag, 14, 3, 7, 18, 32, 11, 14, 7, "common practice, no source; once broached, sellers say 5 days to 6 weeks"},
	{journal.Bottle, 28, 5, 14, 18, 180, 90, 1, 0, "common practice, no source"},
	{journal.PressureBarrel, 21, 5, 7, 18, 75, 15, 21, 10, "common practice, no source"},
	{journal.Cask, 14, 3, 7, 14, 35, 7, 3, 1, "common practice; broached: 2, 3 or 4 days by three trade sources"},
	{journal.Keg, 12, 4, 1, 18, 75, 15, 42, 14, "common practice, no source"},
}

// KeepingOf is the row for a container; one that nobody knows keeps like a bag.
func KeepingOf(c Container) Keeping {
	for _, k := range keepings {
		if c.Is(k.Vessel) {
			return k
		}
	}
	return keepings[0]
}

var (
	kindReady = &Kind{
		ID: IDReadyOn, Label: "Ready on", Unit: dateUnit,
		Says:    "When the container should be bright and in condition, reckoned from the day it was filled: by its kind, longer where it stands cool or is strong, shorter where it was fined or stands warm.",
		Formula: "{D} = filled {F} + {d} days",
		Symbols: []string{"D: ready on", "F: filled on", "d: days for this kind of container, at its heat and strength"},
		Valid:   "beer that had finished", Source: "common practice, no source: twice as fast for 10 °C more, a quarter longer for each % vol over 5, and bright in half the time where it was fined", Checked: "a calendar backward from a party",
	}
	kindDrinkBy = &Kind{
		ID: IDDrinkBy, Label: "At its best until", Unit: dateUnit,
		Says:    "How long the container keeps: unopened and cool, or once broached. Your own tastings outrank it.",
		Formula: "{D} = {F} + {d} days",
		Symbols: []string{"D: at its best until", "F: filled, or broached, on", "d: days for this kind of container"},
		Valid:   "kept cool", Source: "common practice; sources differ and the ± spans them", Checked: "trade sources for broached casks",
	}
	keepingKinds = []*Kind{kindReady, kindDrinkBy}
)

// keeping is when each container is ready and until when it is good.
func keeping(b *bench) {
	for _, c := range b.Containers() {
		filled := b.Filled(c)
		if c.Is(journal.Bucket) {
			continue
		}
		if !filled.Written() {
			b.lacks(kindReady, c.Key, &Lack{Needs: []string{"racked.on"}})
			b.lacks(kindDrinkBy, c.Key, &Lack{Needs: []string{"racked.on"}})
			continue
		}
		k := KeepingOf(c)
		days, off := b.ripens(c)
		b.addDate(kindReady, c.Key, filled, days, off)
		if broached := b.Broached(c); b.past(broached) && !manyBottles(c) {
			b.addDate(kindDrinkBy, c.Key, broached, k.Broached, k.BroachOff)
		} else {
			b.addDate(kindDrinkBy, c.Key, filled, k.Keeps, k.KeepsOff)
		}
	}
}

// What makes beer ready sooner or later than usual (common practice, no source).
const (
	twiceAsFastBy = 10.0 // K
	ordinaryBeer  = 5.0  // % vol
	strongTakes   = 0.25 // of the usual time more, for each % vol over that
	finedIn       = 0.5  // of the usual time to drop bright
	coldestWork   = 6.0  // °C: colder, nothing more is taken up that anybody waits for
	warmestWork   = 26.0
)

// Ripens is how many days a container takes from filling until it is ready, and ± how many.
func (i *Inquiry) Ripens(c Container) (days, off float64) { return i.ripens(c) }

func (b *bench) ripens(c Container) (days, off float64) {
	k := KeepingOf(c)
	takes, clears := k.Takes, k.Ready-k.Takes
	if c.Is(journal.Keg) && !c.Forced() {
		takes, clears = clears, takes // primed in the keg, as any other
	}
	if abv := b.abv(); abv.known && abv.Value > ordinaryBeer {
		takes *= 1 + strongTakes*float64(abv.Value-ordinaryBeer)
	}
	takes = b.atItsHeat(c, takes)
	if b.fined() {
		clears *= finedIn
	}
	days = math.Round(takes + clears)
	return days, math.Round(k.ReadyOff * max(days/k.Ready, 1))
}

// atItsHeat is how long so many days' work at the usual heat takes where a container stands: as warm
// as it is conditioned, and after that in its cellar.
func (b *bench) atItsHeat(c Container, days float64) float64 {
	rate := func(celsius float64) float64 {
		return math.Pow(2, (min(max(celsius, coldestWork), warmestWork)-KeepingOf(c).At)/twiceAsFastBy)
	}
	conditioned := b.Conditioned(c)
	if !conditioned.At.Written() {
		return days
	}
	warm := rate(conditioned.At.Value.Celsius())
	from, to := first1(conditioned.From, b.Filled(c)), conditioned.To
	if !to.Written() || !from.Written() {
		return days / warm
	}
	span := max(to.Middle().Sub(from.Middle()).Hours()/24, 0)
	if done := span * warm; done < days {
		return span + (days-done)/rate(b.cellarHeat(c).Value.Celsius())
	}
	return days / warm
}

// fined tells whether finings that clear beer went in.
func (b *bench) fined() bool {
	return slices.ContainsFunc(b.Gyle.Finings, func(f journal.Fining) bool {
		ofCopper := f.Into.Is(journal.IntoCopper) || containsAny(strings.ToLower(f.With.Name), "moss", "carrageen", "copper", "kettle")
		return !ofCopper && (!f.When.Written() || b.past(f.When))
	})
}

// manyBottles tells of bottles that one line stands for: that the first of them
// was opened says nothing of the others.
func manyBottles(c Container) bool { return c.Is(journal.Bottle) && c.Count() > 1 }

// addDate puts a date so many days after a moment on the sheet.
func (b *bench) addDate(k *Kind, of string, since journal.Moment, days, off float64) {
	date := dayOf(since.Time).AddDate(0, 0, int(days))
	f := Figure{Kind: k, Of: of, Date: date, Value: float64(date.Unix()), PlusMinus: off, at: []journal.Where{since.Where}, sheet: b.Sheet}
	f.worked = b.keepSymbols([]symbol{onDay("D", date), onDay("F", since.Time), inWords("d", number0(days))})
	b.Figures = append(b.Figures, f)
}

func dayOf(t time.Time) time.Time {
	year, month, day := t.Date()
	return time.Date(year, month, day, 0, 0, 0, 0, t.Location())
}
