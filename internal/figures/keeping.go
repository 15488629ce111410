package figures

import (
	"slices"
	"time"

	"gylebook/internal/journal"
)

// Keeping is how long a kind of container takes to be ready and how long it
// keeps. All of it is common practice; where a publication narrows it, its
// source is named.
type Keeping struct {
	Vessel    journal.VesselKind // the kind of vessel
	Ready     float64            // days from filling until ready
	ReadyOff  float64            // ± days
	Keeps     float64            // days from filling, unopened and cool
	KeepsOff  float64
	Broached  float64 // days once broached
	BroachOff float64
	Source    string
}

// Keepings is the table, a row for each kind of vessel.
func Keepings() []Keeping { return slices.Clone(keepings) }

var keepings = []Keeping{
	{journal.SoftBag, 14, 3, 32, 11, 14, 7, "common practice, no source; once broached, sellers say 5 days to 6 weeks"},
	{journal.Bottle, 28, 5, 180, 90, 1, 0, "common practice, no source"},
	{journal.PressureBarrel, 21, 5, 75, 15, 21, 10, "common practice, no source"},
	{journal.Cask, 14, 3, 35, 7, 3, 1, "common practice; broached: 2, 3 or 4 days by three trade sources"},
	{journal.Keg, 12, 4, 75, 15, 42, 14, "common practice, no source"},
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
		Says:    "When the container should be bright and in condition, reckoned from the day it was filled.",
		Formula: "{D} = filled {F} + {d} days",
		Symbols: []string{"D: ready on", "F: filled on", "d: days for this kind of container"},
		Valid:   "beer that had finished", Source: "common practice, no source", Checked: "a calendar backward from a party",
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
		b.addDate(kindReady, c.Key, filled, k.Ready, k.ReadyOff)
		if broached := b.Broached(c); b.past(broached) && !manyBottles(c) {
			b.addDate(kindDrinkBy, c.Key, broached, k.Broached, k.BroachOff)
		} else {
			b.addDate(kindDrinkBy, c.Key, filled, k.Keeps, k.KeepsOff)
		}
	}
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
