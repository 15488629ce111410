package causes

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"gylebook/internal/assay"
	"gylebook/internal/assay/healthy"
	"gylebook/internal/tasting"
)

// mayBeNoted are readings that a brewer might add to the example entry, each by
// itself or on top of others.
var mayBeNoted = []string{
	"aim.abv=4.2 %", "aim.bitterness=30 IBU", "aim.colour=14 EBC", "liquor.water=tap water", "copper.fuel=mains gas",
	"sparge.last_runnings=1.011", "sparge.last_runnings=1.003", "sparge.ph=5.5", "sparge.at=74 C", "hops[0].crop=2025", "hops[0].crop=2020",
	"yeast[0].sold=dried", "yeast[0].best_by=2027-01-31", "yeast[0].best_by=2025-01-31", "copper.boiled=90 min", "copper.boiled=20 min",
	"cellared.warmest=22 C", "tastings[0].at=7 C", "tastings[0].at=18 C", "tastings[0].sparkler=true", "tastings[0].when=2026-04-20",
	"conditioned.at=9 C", "mash.rests[0].at=70 C", "mash.rests[0].at=63 C", "racked.moved=open", "aim.fg=1.016", "aim.fg=1.006",
	"priming.weight=60 g", "finings[+].with=copper finings", "finings[+].with=isinglass", "grist[1].weight=900 g", "fermenter.volume=25 L",
}

// glassOf are readings of the beer in its container, which the entry has none of.
var glassOf = [][]string{
	{"readings[+].when=2026-03-27 09:00", "readings[3].gravity=1.010", "readings[3].package=0"},
	{"readings[+].when=2026-03-27 09:00", "readings[3].gravity=1.004", "readings[3].package=0"},
	{"readings[+].when=2026-03-27 09:00", "readings[3].ph=4.0", "readings[3].package=0"},
	{"readings[+].when=2026-03-27 09:00", "readings[3].ph=3.4", "readings[3].package=0"},
}

// noted are keys that the example entry has.
var noted = []string{
	"aim.og", "aim.fg", "aim.condition", "aim.volume", "liquor.chlorine", "mash.rests", "mash.ph", "copper.boiled", "copper.before", "hops", "yeast[0].at",
	"readings[0].temp", "readings[2].ph", "readings[1]", "racked.moved", "racked.on", "conditioned", "cellared", "served.broached", "served.through", "done", "tastings[0].sparkler", "packages[0].vessel", "grist",
}

// TestAgainstNeverRaises: a reading that turns a test from saying nothing to
// speaking against its cause, and changes nothing else of it, makes the cause less
// likely than it was, and never puts it before one that it stood behind.
func TestAgainstNeverRaises(t *testing.T) {
	spoke := 0
	rapid.Check(t, func(r *rapid.T) {
		words := slices.DeleteFunc(tasting.Words(), func(w tasting.Word) bool { return len(w.LeadsTo) == 0 })
		word := rapid.SampledFrom(words).Draw(r, "word")
		sets := rapid.SliceOfNDistinct(rapid.SampledFrom(mayBeNoted), 0, 6, rapid.ID[string]).Draw(r, "sets")
		var less, more []string
		switch rapid.IntRange(0, 2).Draw(r, "what is added") {
		case 0:
			more = []string{rapid.SampledFrom(mayBeNoted).Draw(r, "one more")}
		case 1:
			more = rapid.SampledFrom(glassOf).Draw(r, "the glass")
		case 2: // one that the entry has, and that was not there before
			less = []string{rapid.SampledFrom(noted).Draw(r, "one that was missing") + "="}
		}
		before, was := examinedFor(t, word.Word, append(slices.Clone(sets), less...))
		after, is := examinedFor(t, word.Word, append(slices.Clone(sets), more...))
		for id, voices := range was {
			fell, other := turned(voices, is[id])
			if !fell || other {
				continue
			}
			spoke++
			a, b := find(before, id), find(after, id)
			if a.Cause.ID != "" && (b.Weight >= a.Weight || b.Standing() < a.Standing()) {
				r.Fatalf("%s, %v, then %v: %s was %s at %g and is %s at %g", word.Word, sets, more, id, a.Standing(), a.Weight, b.Standing(), b.Weight)
			}
			for _, rival := range before.Suspects {
				if now := find(after, rival.ID); rival.ID != id && now.Cause.ID != "" && now.Weight == rival.Weight && now.Standing() == rival.Standing() && likelier(rival, a) < 0 && likelier(now, b) > 0 {
					r.Fatalf("%s, %v, then %v: %s now stands before %s", word.Word, sets, more, id, rival.ID)
				}
			}
		}
	})
	if spoke == 0 { // some dozen of a hundred do, as chance has it
		t.Error("no reading spoke against anything: the property is empty")
	}
}

// examinedFor is a diagnosis, and what each test of each cause says in it.
func examinedFor(t *testing.T, word string, sets []string) (Diagnosis, map[string][]Voice) {
	s := healthy.Sheet(t, "pouring", "2026-05-01", append([]string{"tastings[0].found[+]=" + word}, sets...)...)
	d := Diagnose(s, Hear(s.Gyle))[0]
	x := examine(assay.Of(s), d.Saying)
	voices := map[string][]Voice{}
	for _, suspect := range d.Suspects {
		for _, test := range suspect.Tests {
			voices[suspect.ID] = append(voices[suspect.ID], test.sign(x).Voice)
		}
	}
	return d, voices
}

// turned tells whether a test turned from saying nothing to against, and whether
// any changed in another way.
func turned(was, is []Voice) (fell, other bool) {
	if len(was) != len(is) {
		return false, true
	}
	for i := range was {
		switch {
		case was[i] == is[i]:
		case (was[i] == Unknown || was[i] == Silent) && is[i] == Against:
			fell = true
		case was[i]+is[i] == Unknown+Silent:
		default:
			other = true
		}
	}
	return fell, other
}

func find(d Diagnosis, id string) Suspect {
	s, _ := suspected(d, id)
	return s
}
