package figures

import (
	"bytes"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"go.yaml.in/yaml/v4"

	"gylebook/internal/journal"
)

// keysOf lists the path of every key and every item of an entry's front matter.
func keysOf(t testing.TB, raw []byte) []string {
	t.Helper()
	parts := bytes.SplitN(raw, []byte("---\n"), 3)
	if len(parts) != 3 {
		t.Fatal("no front matter")
	}
	var root yaml.Node
	if err := yaml.Unmarshal(parts[1], &root); err != nil {
		t.Fatal(err)
	}
	return pathsIn(root.Content[0], "")
}

func pathsIn(n *yaml.Node, at string) []string {
	var paths []string
	switch n.Kind {
	case yaml.MappingNode:
		for i := 0; i+1 < len(n.Content); i += 2 {
			path := strings.TrimPrefix(at+"."+n.Content[i].Value, ".")
			paths = append(append(paths, path), pathsIn(n.Content[i+1], path)...)
		}
	case yaml.SequenceNode:
		for i, item := range n.Content {
			path := fmt.Sprintf("%s[%d]", at, i)
			paths = append(append(paths, path), pathsIn(item, path)...)
		}
	}
	return paths
}

// loss is a figure that is on neither list once a key, or one below it, is
// deleted, and why that is right.
type loss struct {
	key    string
	only   bool // not for the keys below it
	id     ID   // of the figure, "" for any
	reason string
}

// rightly are the figures that rightly vanish without a word. What is not
// explained here, or by the gyle's having come less far, is a silent loss.
var rightly = []loss{
	{key: "packages", reason: "a container that is no longer in the entry, or no longer of that kind, has no figures"},
	{key: "priming", id: "priming-co2", reason: "beer that is not primed gets no gas from priming"},
	{key: "done", id: "losses", reason: "nothing was dumped"},
	{key: "added", id: "priming-co2", reason: "a container that nothing was put into gets no gas from priming"},
	{key: "added", id: "abv-conditioned", reason: "a container that nothing went into alone is as strong as the whole"},
	{key: "hops", only: true, id: "bitterness", reason: "beer without hops is not asked for its bitterness"},
	{key: "hops", only: true, id: "bitterness-ratio", reason: "beer without hops is not asked for its bitterness"},
	{key: "grist", only: true, reason: "beer without a grist was not mashed here"},
	{key: "racked", id: "losses", reason: "without a racked volume nothing can be lacking from the containers"},
	{key: "racked", only: true, id: "condition", reason: "beer that nobody plans to close in is not asked for its condition"},
	{key: "copper", id: "og", reason: "on paper an original gravity is only expected"},
	{key: "liquor", only: true, reason: "an entry that says nothing of its liquor is not asked for its ions"},
	{key: "mash", id: "infusion-liquor", reason: "a rest that is gone, or is not reached by an infusion, needs no liquor"},
	{key: "mash", id: "infusion-heat", reason: "a rest that is gone, or is not reached by an infusion, needs no liquor"},
	{key: "mash", id: "mash-heat-lost", reason: "a mash whose liquor or first rest nobody read is not asked what it lost"},
	{key: "yeast", id: "abv-expected", reason: "wort in the fermenter without a day for its yeast counts as pitched, and has its alcohol from its readings"},
	{key: "yeast", id: "liquor-needed", reason: "wort in the fermenter without a day for its yeast counts as pitched, and its liquor is behind it"},
	{key: "yeast", id: "sparge-liquor", reason: "wort in the fermenter without a day for its yeast counts as pitched, and its liquor is behind it"},
	{key: "yeast", id: "liquor-back", reason: "wort in the fermenter without a day for its yeast counts as pitched, and its liquor is behind it"},
	{key: "yeast", id: "boil-on", reason: "wort in the fermenter without a day for its yeast counts as pitched, and its liquor is behind it"},
	{key: "copper", only: true, id: "boil-off", reason: "an entry without a copper tells of no boil: a kit, or beer left raw"},
}

func (l loss) explains(key string, lost Figure) bool {
	return (key == l.key || !l.only && under(key, l.key)) && (l.id == "" || l.id == lost.ID)
}

// TestAblation deletes every key of an entry in turn. Every figure then stays,
// or loses certainty, or is worked from other readings, or is named among what
// is missing together with what it needs. It never vanishes without a word.
func TestAblation(t *testing.T) {
	demonstration := opened(t, demo)
	hand := opened(t, byHand)
	for i, c := range []struct {
		name string
		j    *journal.Journal
		raw  []byte
	}{
		{"every-key", demonstration, file(t, every)},
		{"demonstration", demonstration, file(t, demo, "gyles/34-lengthsmans-bitter.md")},
		{"soft-bag-and-bottles", hand, file(t, byHand, "soft-bag-and-bottles.md")},
		{"keg-in-us-units", hand, file(t, byHand, "keg-in-us-units.md")},
		{"brew-day-in-steps", hand, file(t, byHand, "brew-day-in-steps.md")},
	} {
		t.Run(c.name, func(t *testing.T) {
			brewed, moments := entry(t, c.j, c.raw).Brewed.Time, []int{-3, 0, 11, 45}
			if testing.Short() {
				moments = moments[i%4 : i%4+1] // of each entry one, and of each moment an entry
			}
			for _, days := range moments {
				ablate(t, c.j, c.raw, brewed.Add(time.Duration(days)*24*time.Hour+20*time.Hour))
			}
		})
	}
}

// ablation is one entry with all its keys, at one moment.
type ablation struct {
	j     *journal.Journal
	raw   []byte
	now   time.Time
	whole *Sheet
}

func ablate(t *testing.T, j *journal.Journal, raw []byte, now time.Time) {
	t.Helper()
	a := ablation{j, raw, now, Work(entry(t, j, raw), contextOf(j, now))}
	for _, key := range keysOf(t, raw) {
		d := journal.ReadFileSet("entry.md", raw, j.Settings, []string{key + "="})
		if d.Gyle == nil {
			if key != "gyle" {
				t.Errorf("without %s it is no gyle", key)
			}
			continue
		}
		without := Work(d.Gyle, contextOf(j, now))
		sound(t, "without "+key, without)
		for _, f := range a.whole.Figures {
			if fault := a.afterwards(key, f, without); fault != "" {
				t.Errorf("on %s without %s: %s %s", now.Format(time.DateOnly), key, partOf(f), fault)
			}
		}
	}
}

// afterwards is what is wrong with what became of a figure, "" where it is
// right.
func (a ablation) afterwards(key string, f Figure, without *Sheet) string {
	if after, there := without.Find(f.ID, f.Of); there {
		return stillThere(key, f, after)
	}
	for _, m := range without.Missing {
		if m.Figure == f.ID && m.Of == f.Of {
			return a.asks(key, m)
		}
	}
	if without.Stage < a.whole.Stage {
		return "" // the gyle has not come so far
	}
	for _, l := range rightly {
		if l.explains(key, f) {
			return ""
		}
	}
	return "vanished without a word"
}

// doubled is how much surer a figure may be for losing a reading where one that
// it rests on already takes over with the same value: one doubt then stands for
// two that were apart.
const doubled = 0.01

// stillThere holds what a figure that stayed must be: no surer by having lost a reading
// that it rested on, nor another value without being less sure, unless another reading
// took over, or what was taken away was no reading but something done to the beer. A
// figure at the floor of nothing, such as the pressure in a slack bag, may be surer of it
// for having come farther below; but it is never nothing for want of knowing.
func stillThere(key string, before, after Figure) string {
	for _, w := range after.From() {
		if w.Key == key {
			return "still rests on it"
		}
	}
	tookOver := slices.ContainsFunc(after.From(), func(w journal.Where) bool { return !slices.Contains(before.From(), w) })
	rested := slices.ContainsFunc(before.From(), func(w journal.Where) bool { return under(w.Key, key) })
	surer := after.PlusMinus < before.PlusMinus*(1-doubled)
	switch {
	case !rested || tookOver || tellsOfDeedOrPlace(key) || after.Unit == dateUnit || after.Cut:
	case after.Value == 0 && after.PlusMinus == 0 && before.Value != 0 && !after.HasUpper() && !neverNeeded[after.ID]:
		return fmt.Sprintf("is exactly nothing without it, before %g ± %g", before.Value, before.PlusMinus)
	case before.Value != 0 && near(before.Value, after.Value, 1e-9) && surer:
		return fmt.Sprintf("is surer without it: ± %g, before ± %g", after.PlusMinus, before.PlusMinus)
	case neverNeeded[after.ID] && after.Value == 0:
	case math.Abs(after.Value-before.Value) > after.PlusMinus+rounding && after.PlusMinus <= before.PlusMinus*(1+doubled):
		return fmt.Sprintf("moves and is no less sure: %g ± %g, before %g ± %g", after.Value, after.PlusMinus, before.Value, before.PlusMinus)
	case before.HasUpper() && after.Upper < before.Upper-rounding && near(before.Value, after.Value, 1e-9):
		return fmt.Sprintf("has a lower bound without it: %g, before %g", after.UpperBound(), before.UpperBound())
	}
	return ""
}

// deeds are the keys that say what was done to the beer, or put into it: without one the
// entry tells of another beer, and not less of the same. Their own numbers are readings.
var deeds = []string{
	"priming", "added", "grist", "hops", "liquor.salts", "liquor.acids", "yeast", "done", "packages", "poured",
	"mash", "mash.rests", "fermenter", "fermenter.topped_up", "drawn_from",
}

// places say where the beer stands: without one, those that are named stand alone.
var places = []string{"conditioned", "cellared", "served"}

// neverNeeded are exactly nothing where it is sure that none is wanted: no sugar for a
// beer that may have all of its fall ahead, no liquor for a wort far weaker than its aim.
var neverNeeded = map[ID]bool{kindPrimingSugar.ID: true, kindLiquorBack.ID: true, kindBoilOn.ID: true}

func tellsOfDeedOrPlace(key string) bool {
	deed := slices.ContainsFunc(deeds, func(deed string) bool {
		rest, ok := strings.CutPrefix(key, deed)
		return ok && !strings.Contains(rest, ".") && (rest == "" || rest[0] == '[')
	})
	return deed || slices.ContainsFunc(places, func(place string) bool { return under(key, place) })
}

// under tells whether a key is another, or lies below it.
func under(key, of string) bool {
	rest, ok := strings.CutPrefix(key, of)
	return ok && (rest == "" || rest[0] == '.' || rest[0] == '[')
}

// asks tells whether what a missing figure asks for is what was deleted, or else
// would do as well: typed in, it brings the figure back, or leaves only that no
// formula holds for such numbers.
func (a ablation) asks(key string, m Missing) string {
	if len(m.Needs) == 0 {
		if m.Because == "" {
			return "is missing and nobody says why"
		}
		return ""
	}
	if slices.ContainsFunc(m.Needs, func(need string) bool { return under(need, key) || under(key, need) }) {
		return ""
	}
	sets := []string{key + "="}
	for _, need := range m.Needs {
		sets = append(sets, a.supposed(need))
	}
	d := journal.ReadFileSet("entry.md", a.raw, a.j.Settings, sets)
	answered := Work(d.Gyle, contextOf(a.j, a.now))
	if _, back := answered.Find(m.Figure, m.Of); back {
		return ""
	}
	for _, still := range answered.Missing {
		if still.Figure == m.Figure && still.Of == m.Of && len(still.Needs) == 0 {
			return "" // everything is there now, and no formula holds for it
		}
	}
	return fmt.Sprintf("is missing and asks for %v, which does not bring it back; errors %v", m.Needs, d.Errors)
}

// supposed is a set that answers a need with something likely.
func (a ablation) supposed(need string) string {
	if need == "readings[+].gravity" {
		when := a.whole.Gyle.Brewed.Time.AddDate(0, 0, 7).Format(time.RFC3339)
		if lately := a.now.Add(-time.Hour); a.now.Before(a.whole.Gyle.Brewed.Time.AddDate(0, 0, 8)) {
			when = lately.Format(time.RFC3339)
		}
		return "readings[+]={when: " + when + ", gravity: 1.010, temp: 20 C}"
	}
	likely := map[string]string{
		"extract": "300 Ldeg/kg", "colour": "5 EBC", "weight": "20 g", "each": "2 g", "fill": "400 mL", "volume": "20 L",
		"yeast": "house ale", "vessel": "keg 19 L", "gravity": "1.040", "cells": "200e9 cells", "boiled": "60 min", "og": "1.040", "water": "well water", "strength": "80 %", "acid": "lactic", "warmest": "20 C", "at": "18 C", "alpha": "5 %",
	}
	return need + "=" + likely[need[strings.LastIndex(need, ".")+1:]]
}

// sound holds every number of a sheet to be a number.
func sound(t testing.TB, when string, s *Sheet) {
	t.Helper()
	for _, f := range s.Figures {
		if notANumber(f.Value) || math.IsInf(f.PlusMinus, 0) || f.PlusMinus < 0 {
			t.Errorf("%s: %s is %g ± %g", when, partOf(f), f.Value, f.PlusMinus)
		}
		if notANumber(f.UpperBound()) || notANumber(f.Lower) {
			t.Errorf("%s: %s is at most %g, at least %g", when, partOf(f), f.UpperBound(), f.Lower)
		}
	}
	for _, m := range s.Missing {
		if _, ok := s.Find(m.Figure, m.Of); ok {
			t.Errorf("%s: %s is both worked and missing", when, part{m.Figure, m.Of})
		}
	}
}
