package journal

import (
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// TestSlips: one for a letter changed, left out, put in, or in its neighbour's
// place.
func TestSlips(t *testing.T) {
	for _, c := range []struct {
		a, b string
		want int
	}{
		{"copper", "copper", 0}, {"coper", "copper", 1}, {"copppper", "copper", 2}, {"hpos", "hops", 1},
		{"grsit", "grist", 1}, {"märz", "marz", 1},
		{"ca", "abc", 3}, {"", "abc", 3}, {"abcdef", "badcfe", 3}, {"kitten", "sitting", 3},
	} {
		if got := slips([]rune(c.a), []rune(c.b)); got != c.want {
			t.Errorf("%q to %q: %d, want %d", c.a, c.b, got, c.want)
		}
	}
}

// TestSlipsAreADistance: the same both ways, nothing for the same word, and
// never more than the longer word has letters.
func TestSlipsAreADistance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		word := rapid.SliceOfN(rapid.RuneFrom([]rune("abcé")), 0, 8)
		a, b := word.Draw(t, "a"), word.Draw(t, "b")
		d := slips(a, b)
		if d != slips(b, a) || d > max(len(a), len(b)) || d < max(len(a), len(b))-min(len(a), len(b)) ||
			(d == 0) != slices.Equal(a, b) {
			t.Fatalf("%q and %q: %d and %d", string(a), string(b), d, slips(b, a))
		}
	})
}

// TestKeysAreNotGuessedAtFromAfar: a wrong guess makes a brewer move what was
// right.
func TestKeysAreNotGuessedAtFromAfar(t *testing.T) {
	for typed, want := range map[string]string{
		"coper: {boiled: 60 min}": "copper", "coper: x.jpg": "cover", "brewd: 2026-03-07": "brewed",
		"hop: [{hop: saaz}]": "hops", "yeats: {yeast: x}": "yeast",
		"pakages: [{vessel: pin}]": "packages", "stlye: mild": "style", "fermentor: {volume: 20 L}": "fermenter",
		"tag: [x]":  "tags",
		"og: 1.041": "", "fg: 1.010": "", "kg: 3": "", "beef: {x: y}": "", "started: 2026-03-07": "",
		"salts: [{salt: gypsum}]": "", "batch_size: 20 L": "", "made: 2026-03-07": "", "draught: x": "",
	} {
		d := ReadFile("gyles/14.md", []byte("---\ngyle: 14\nbeer: x\n"+typed+"\n---\n"), nil)
		if len(d.Errors) == 0 {
			t.Errorf("%s is read", typed)
			continue
		}
		guess, _ := strings.CutSuffix(d.Errors[0].Do, ", if that is meant.")
		if want == "" && guess != d.Errors[0].Do || want != "" && guess != "Write "+want {
			t.Errorf("%s: %q, want %q", typed, d.Errors[0].Do, want)
		}
	}
}

// TestMeaningsAreTrue: every meaning holds in a map that there is, is not a key
// of it, and its keys in curly brackets are keys.
func TestMeaningsAreTrue(t *testing.T) {
	maps := map[string]*plan{}
	var walk func(p *plan)
	walk = func(p *plan) {
		maps[p.what] = p
		for i := range p.fields {
			if p.fields[i].sub != nil {
				walk(p.fields[i].sub)
			}
		}
	}
	walk(plans().gyle)
	walk(plans().settings)
	told := map[string]bool{}
	for _, here := range meanings {
		for _, in := range splitBars(here.maps) {
			p := maps[in]
			if p == nil {
				t.Errorf("there is no map %s", in)
				continue
			}
			for _, m := range here.all {
				for _, word := range splitBars(m.words) {
					if _, is := p.byKey[word]; is || word != folded(word) {
						t.Errorf("%s is a key of %s, or not folded", word, in)
					}
					if told[in+" "+word] {
						t.Errorf("%s has two meanings in %s", word, in)
					}
					told[in+" "+word] = true
				}
			}
		}
	}
}

// TestUnreadable: what was written and could not be read is known by its key,
// the key of what it stands in, or as any part of a list.
func TestUnreadable(t *testing.T) {
	text := strings.Join([]string{
		"---", "gyle: 14", "beer: x", "racked: {volume: 20 gal, temp: 18 C}",
		"readings:", "  - {when: 2026-03-09, gravity: 1.012}", "  - {when: 2026-03-11, gravity: 1,010}",
		"coper: {after: {gravity: 1.041}}", "conditioned: 18 degrees", "zymurgy: yes", "---", "",
	}, "\n")
	g := ReadFile("gyles/14.md", []byte(text), nil).Gyle
	for key, line := range map[string]int{
		"racked.volume": 4, "racked.temp": 0, "racked": 0, "readings[1].gravity": 7, "readings[0].gravity": 0,
		"readings[].gravity": 7, "readings[].when": 0,
		"copper.after.gravity": 8, "copper": 8, "conditioned.warmest": 9, "conditioned.at": 9, "zymurgy": 0,
		"priming.weight": 0,
	} {
		if got := g.Unreadable(key); got.Line != line || got.Written() != (line > 0) {
			t.Errorf("%s: %v, want line %d", key, got, line)
		}
	}
}

// TestFindWords searches explanations and what brewers call a thing.
func TestFindWords(t *testing.T) {
	for text, path := range map[string]string{
		"ibu": "aim.bitterness", "IBU": "aim.bitterness", "refractometer": "readings[].brix",
		"slurry": "yeast[].volume", "dry hop": "hops[].dry", "parcel": "",
		"gauge": "readings[].pressure", "tap": "served.through", "": "",
	} {
		found := Find(text)
		if path == "" && len(found) > 0 ||
			path != "" && !slices.ContainsFunc(found, func(w Word) bool { return w.Path == path }) {
			t.Errorf("%q: %d words, want %s", text, len(found), path)
		}
	}
	if words, exact := LookUp("Priming"); !exact || words[0].Path != "priming" {
		t.Errorf("Priming: %v, %v", words, exact)
	}
	for name, want := range map[string]string{"lactose": "sugar", "sugar": "sugar", "2-row": "malt",
		"isinglass": "fining", "quatloo": ""} {
		cards := NewLarder(nil).Known(name)
		if want == "" && len(cards) > 0 ||
			want != "" && !slices.ContainsFunc(cards, func(c *Card) bool { return c.Kind.Is(CardKind(want)) }) {
			t.Errorf("%q: %d cards, want a %s", name, len(cards), want)
		}
	}
	if Meaning("carbonation") == "" || Meaning("quatloo") != "" {
		t.Error("meanings")
	}
}

// TestSpellingsThatBrewersUse: the larder knows the common ones, and a number in
// a name is part of it.
func TestSpellingsThatBrewersUse(t *testing.T) {
	l := NewLarder(nil)
	for spelling, want := range map[string]string{
		"sugar sugar": "sucrose", "sugar table sugar": "sucrose", "sugar cane sugar": "sucrose",
		"sugar White Sugar": "sucrose", "sugar corn sugar": "dextrose",
		"sugar brewing sugar": "dextrose", "sugar carbonation drops": "carbonation drops",
		"sugar DME": "dried light malt extract", "malt 2-row": "pale malt",
		"malt pilsner": "lager malt", "malt crystal 40": "caramel 40", "malt crystal 150": "crystal 150",
		"yeast British ale": "english ale", "yeast bohemian lager": "lager yeast",
	} {
		kind, name, _ := strings.Cut(spelling, " ")
		if card := l.Card(CardKind(kind), name); card == nil || card.Name.Text != want {
			t.Errorf("%s: %v, want %s", spelling, card, want)
		}
	}
	if near := l.Near(CardMalt, "crystal 90"); len(near) > 0 {
		t.Errorf("crystal 90 is near %q", near)
	}
}
