package scribe

import (
	"fmt"
	"slices"
	"strings"
)

// way is what an entry of one way of brewing asks for: a key, and an example that
// stands behind # until somebody takes that off.
type way struct {
	name string
	asks []string // KEY: EXAMPLE, or for a list KEY[]: EXAMPLE
}

// What several ways ask for.
const (
	brewedOn   = "brewed: 2026-03-07"
	pitchedAle = "yeast[]: {yeast: dried ale, weight: 11 g, pitched: 2026-03-07 16:10, at: 19 C}"
	wortIn     = "fermenter: {vessel: bucket, volume: 21 L, gravity: 1.042}"
	twice      = "readings[]: {when: 2026-03-14 09:00, gravity: 1.010, temp: 19 C}   # two alike, 48 hours " +
		"apart or more"
	rackedOff = "racked: {on: 2026-03-18, volume: 20 L, temp: 18 C}"
	sugared   = "priming: {sugar: sucrose, weight: 90 g}   # in all; or each: 2.5 g"
	bottled   = "packages[]: {vessel: bottle 500 mL, count: 38, on: 2026-03-18}"
	aims      = "aim: {volume: 20 L, og: 1.042, condition: 2.0 vol}"
	boil      = "copper: {before: {volume: 26 L, gravity: 1.036}, boiled: 60 min, after: {volume: 22 L, " +
		"gravity: 1.042}}"
	hopped    = "hops[]: {hop: goldings, weight: 30 g, alpha: 5.1 %, boiled: 60 min}"
	standsAt  = "conditioned: {at: 18 C, from: 2026-03-18, warmest: 21 C}"
	mashedAt  = "mash: {liquor: 11 L, strike: 73 C, rests: [{at: 66 C, for: 60 min}]}"
	spargedAt = "sparge: {liquor: 18 L, at: 76 C}"
	pale      = "grist[]: {malt: pale malt, weight: 4 kg}"
)

// ways are the ways of brewing that an entry may be begun for.
var ways = []way{
	{"kit", []string{brewedOn, "grist[]: {syrup: hopped malt extract, weight: 1.5 kg, bitterness: 20 IBU}",
		wortIn, pitchedAle, twice, rackedOff, sugared, bottled, standsAt}},
	{"extract", []string{brewedOn, aims, "grist[]: {syrup: light malt extract, weight: 3 " +
		"kg}", boil, hopped, wortIn, pitchedAle,
		twice, rackedOff, sugared, bottled, standsAt}},
	{"grain", []string{brewedOn, "style: best bitter", aims, pale, mashedAt, spargedAt, boil, hopped, wortIn, pitchedAle, twice,
		rackedOff, sugared, bottled, standsAt}},
	{"cask", []string{brewedOn, "aim: {volume: 20 L, og: 1.040, condition: 1.1 " +
		"vol}", pale, mashedAt, spargedAt, boil, hopped,
		wortIn, pitchedAle, twice, rackedOff, "finings[]: {with: isinglass, volume: 60 mL, into: package, " +
			"when: 2026-03-20}",
		"priming: {sugar: sucrose, weight: 30 g}   # in all", "packages[]: {vessel: pin, fill: 20 L, on: 2026-03-18}",
		"cellared: {at: 12 C, from: 2026-03-20, warmest: 14 C}", "served: {through: hand pump, sparkler: yes}"}},
	{"lager", []string{brewedOn, "aim: {volume: 20 L, og: 1.048, condition: 2.5 vol}",
		"grist[]: {malt: pilsner malt, weight: 4.5 kg}", mashedAt, spargedAt, boil, hopped, wortIn,
		"yeast[]: {yeast: dried lager, weight: 23 g, pitched: 2026-03-07 18:00, at: 10 C}", twice, rackedOff,
		"packages[]: {vessel: keg 19 L, fill: 18.5 L, on: 2026-03-28, gas: {set: 0.8 bar, at: 4 C, from: " +
			"2026-03-28}}",
		"conditioned: {at: 2 C, from: 2026-03-28, to: 2026-05-09}"}},
	{"sour", []string{brewedOn, pale, mashedAt, boil, hopped, wortIn,
		"yeast[]: {yeast: brettanomyces, pitched: 2026-03-07 16:10, at: 20 C}   # a line for each culture",
		"added[]: {fruit: sour cherry, weight: 4 kg, into: fermenter, when: 2026-09-01}",
		"readings[]: {when: 2026-06-14 09:00, gravity: 1.006, ph: 3.5, temp: 19 C}   # it may go on for months",
		rackedOff, sugared, bottled, standsAt}},
	{"cider", []string{brewedOn, "added[]: {juice: apple, volume: 20 L, into: fermenter, when: 2026-03-07}",
		"fermenter: {vessel: bucket, volume: 20 L, gravity: 1.050}", "yeast[]: {yeast: wine yeast, weight: 5 " +
			"g, pitched: 2026-03-07 16:10, at: 16 C}",
		"readings[]: {when: 2026-04-14 09:00, gravity: 1.000, temp: 15 C}   # two alike, 48 hours apart or " +
			"more", rackedOff,
		"priming: {sugar: sucrose, weight: 90 g}   # in all; nothing for a still cider", bottled, standsAt}},
	{"mead", []string{brewedOn, "grist[]: {sugar: honey, weight: 4 kg, into: fermenter}",
		"fermenter: {vessel: bucket, volume: 12 L, gravity: 1.100}", "yeast[]: {yeast: wine yeast, weight: 5 " +
			"g, pitched: 2026-03-07 16:10, at: 18 C}",
		"added[]: {other: yeast food, weight: 5 g, into: fermenter, when: 2026-03-07}",
		"readings[]: {when: 2026-06-14 09:00, gravity: 1.010, temp: 18 C}   # two alike, 48 hours apart or " +
			"more", rackedOff, bottled,
		standsAt}},
	{"wine", []string{brewedOn, "added[]: {fruit: grape, weight: 20 kg, into: fermenter, when: 2026-03-07}",
		"grist[]: {sugar: sucrose, weight: 1 kg, into: fermenter}", "fermenter: {vessel: bucket, volume: 15 L, " +
			"gravity: 1.085}",
		"yeast[]: {yeast: wine yeast, weight: 5 g, pitched: 2026-03-07 16:10, at: 20 C}",
		"readings[]: {when: 2026-04-14 09:00, gravity: 0.996, temp: 18 C}   # two alike, 48 hours apart or " +
			"more", rackedOff,
		"packages[]: {vessel: bottle 750 mL, count: 18, on: 2026-09-18}", standsAt}},
}

// Ways are the names of the ways of brewing that Begun knows.
func Ways() []string {
	var all []string
	for _, w := range ways {
		all = append(all, w.name)
	}
	return all
}

// Begun is the text of a new entry for one way of brewing, in thirty lines at
// most: what that way needs, each with an example behind #, which is not read and
// so never counts as said. A way that is not known gives nothing.
func Begun(p Plan, name string) []byte {
	at := slices.IndexFunc(ways, func(w way) bool { return w.name == name })
	if at < 0 {
		return nil
	}
	var b strings.Builder
	fmt.Fprintf(&b, "---\ngyle: %d\nbeer: %s\n", p.Number, spell(p.Beer))
	b.WriteString("# What stands behind # is an example, and is not read. Write yours before it.\n")
	for _, ask := range ways[at].asks {
		key, example, _ := strings.Cut(ask, ": ")
		if list, is := strings.CutSuffix(key, "[]"); is {
			fmt.Fprintf(&b, "%s:\n  # - %s\n", list, example)
			continue
		}
		fmt.Fprintf(&b, "%s:   # %s\n", key, example)
	}
	b.WriteString("---\nWhat I mean to make, and why.\n")
	return []byte(b.String())
}
