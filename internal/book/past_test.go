package book

import (
	"bytes"
	"fmt"
	"maps"
	"math"
	"testing"
	"time"

	"pgregory.net/rapid"

	"gylebook/internal/figures"
	"gylebook/internal/journal"
)

func TestLearned(t *testing.T) {
	values := func(xs ...float64) (lessons []lessonFigure) {
		for _, x := range xs {
			lessons = append(lessons, lessonFigure{known: true, value: x, doubt: 1})
		}
		return lessons
	}
	for name, test := range map[string]struct {
		lessons []lessonFigure
		want    figures.Learned
	}{
		"nothing":                         {nil, figures.Learned{}},
		"one: the reading's own doubt":    {values(72), figures.Learned{Median: 72, HalfWidth: 1, Gyles: 1}},
		"two: between them":               {values(70, 74), figures.Learned{Median: 72, HalfWidth: 2, Gyles: 2}},
		"three: the farthest":             {values(70, 72, 80), figures.Learned{Median: 72, HalfWidth: 8, Gyles: 3}},
		"five: four of them":              {values(70, 71, 72, 74, 90), figures.Learned{Median: 72, HalfWidth: 2, Gyles: 5}},
		"close together: the doubt again": {values(72, 72.1, 72.2, 72.3), figures.Learned{Median: 72.15, HalfWidth: 1, Gyles: 4}},
		"more than are remembered":        {values(1, 2, 70, 70, 70, 70, 70, 70, 70, 70, 70, 70), figures.Learned{Median: 70, HalfWidth: 1, Gyles: remembered}},
	} {
		got := learnedFrom(test.lessons)
		if math.Abs(got.Median-test.want.Median) > 1e-9 || math.Abs(got.HalfWidth-test.want.HalfWidth) > 1e-9 || got.Gyles != test.want.Gyles {
			t.Errorf("%s: got %+v, want %+v", name, got, test.want)
		}
	}
}

// brewedOften is so many gyles of one beer, a fortnight apart, each worked out
// and finished.
func brewedOften(n int) entries {
	files := entries{}
	for i := 1; i <= n; i++ {
		day := time.Date(2020, 1, 1, 0, 0, 0, 0, time.UTC).AddDate(0, 0, 14*i)
		on := func(days int) string { return day.AddDate(0, 0, days).Format(time.DateOnly) }
		files[fmt.Sprintf("gyles/%d.md", i)] = fmt.Sprintf(`gyle: %d
beer: Often
brewed: %s
aim: {volume: 20 L, og: 1.040, fg: 1.010, abv: 4 %%, bitterness: 30 IBU, colour: 20 EBC, condition: 1.5 vol}
grist: [{malt: pale malt, weight: 4 kg, extract: 300 Ldeg/kg, colour: 5 EBC}]
copper: {before: {volume: 27 L, gravity: 1.033}, boiled: 60 min, after: {volume: 23 L, gravity: 1.039}}
hops: [{hop: goldings, weight: 40 g, alpha: 5 %%, boiled: 60 min}]
yeast: {yeast: nobodys ale, sold: dried, weight: 11 g, pitched: %s, at: 19 C}
fermenter: {volume: %d L, gravity: 1.0%02d}
readings:
  - {when: %s, gravity: 1.020, temp: 20 C}
  - {when: %s, gravity: 1.010, temp: 20 C}
  - {when: %s, gravity: 1.010, temp: 20 C}
racked: {on: %s, volume: %d L, temp: 18 C, warmest: 20 C}
priming: {sugar: sucrose, weight: 50 g}
packages: [{vessel: bottle 500 mL, count: 36}]
`, i, on(0), on(0), 20+i%3, 38+i%5, on(3), on(7), on(10), on(11), 18+i%3)
	}
	return files
}

func TestThePastIsWhatEarlierGylesTaught(t *testing.T) {
	b := open(t, brewedOften(14))
	first := b.Gyle(1).Sheet.Past
	if first.Yield.Gyles != 0 || first.Losses.Gyles != 0 || len(first.Attenuation) != 0 {
		t.Errorf("the first gyle knows of a past: %+v", first)
	}
	for number := 2; number <= 14; number++ {
		past := b.Gyle(number).Sheet.Past
		want := min(number-1, remembered)
		if past.Yield.Gyles != want || past.Losses.Gyles != want || past.Attenuation["nobodys ale"].Gyles != want {
			t.Errorf("gyle %d knows of %d yields, %d losses, %d attenuations, want %d of each", number, past.Yield.Gyles, past.Losses.Gyles, past.Attenuation["nobodys ale"].Gyles, want)
		}
	}
	for number := 1; number < 14; number++ {
		past, next := b.Gyle(number).Sheet.Past, b.Gyle(number+1).Sheet.Past
		if past.Next == nil || past.Next.Yield != next.Yield || past.Next.Losses != next.Losses || past.Next.BoilOff != next.BoilOff || !maps.Equal(past.Next.Attenuation, next.Attenuation) {
			t.Errorf("what is planned by after gyle %d is %+v, and gyle %d leans on %+v", number, past.Next, number+1, next)
		}
	}
	// 27 L before an hour's boil and 23 after it, 20 to 22 of them in the fermenter.
	if off, lost := b.Gyle(9).Sheet.Past.BoilOff, b.Gyle(9).Sheet.Past.CopperLosses; off.Gyles != 8 || math.Abs(off.Median-4) > 1e-9 || lost.Gyles != 8 || math.Abs(lost.Median-2) > 1 {
		t.Errorf("gyle 9 knows of a boil-off of %+v and copper losses of %+v", off, lost)
	}
	var yields []lessonFigure
	for number := 1; number <= 5; number++ {
		f, ok := b.Gyle(number).Sheet.Find("brewhouse-yield", "")
		if !ok {
			t.Fatalf("gyle %d has no brewhouse yield", number)
		}
		yields = append(yields, lessonFigure{known: true, value: f.Value, doubt: f.PlusMinus / 2})
	}
	if got, want := b.Gyle(6).Sheet.Past.Yield, learnedFrom(yields); got != want {
		t.Errorf("gyle 6 expects %+v, its elders teach %+v", got, want)
	}
}

// TestWhatTeachesDoesNotLeanOnThePast is what lets lessons be heard in a pass
// of their own.
func TestWhatTeachesDoesNotLeanOnThePast(t *testing.T) {
	for name, files := range map[string]entries{
		"finished":    brewedOften(1),
		"no gravity":  {"1.md": "gyle: 1\nbeer: A\nbrewed: 2026-01-01\ngrist: [{malt: pale malt, weight: 4 kg}]\naim: {volume: 20 L}\nyeast: {yeast: nobodys ale, pitched: 2026-01-01}\nfermenter: {volume: 20 L}\nreadings: [{when: 2026-01-05, gravity: 1.010}, {when: 2026-01-09, gravity: 1.010}]\nracked: {on: 2026-01-10, volume: 19 L}"},
		"one reading": {"1.md": "gyle: 1\nbeer: A\nbrewed: 2026-01-01\ngrist: [{malt: pale malt, weight: 4 kg}]\naim: {volume: 20 L}\nyeast: {yeast: nobodys ale, pitched: 2026-01-01}\nfermenter: {volume: 20 L, gravity: 1.040}\nreadings: [{when: 2026-01-05, gravity: 1.020}]"},
	} {
		j := read(t, files)
		steep := figures.Past{
			Yield: figures.Learned{Median: 33, HalfWidth: 1, Gyles: 9}, Losses: figures.Learned{Median: 9, HalfWidth: 1, Gyles: 9},
			Attenuation: map[string]figures.Learned{"nobodys ale": {Median: 20, HalfWidth: 1, Gyles: 9}},
		}
		work := func(past figures.Past) lesson {
			return lessonOf(figures.Work(j.Gyles[0], figures.Context{Larder: j.Larder, Settings: j.Settings, Now: noon, Past: past}), j.Larder)
		}
		if without, with := work(figures.Past{}), work(steep); without != with {
			t.Errorf("%s: a lesson changed with the past it was heard in:\n%+v\n%+v", name, without, with)
		}
	}
}

func TestUnfinishedBeerTeachesNoAttenuation(t *testing.T) {
	files := brewedOften(5)
	files["gyles/3.md"] = "gyle: 3\nbeer: Hasty\nbrewed: 2020-02-12\nyeast: {yeast: nobodys ale, pitched: 2020-02-12}\nfermenter: {volume: 20 L, gravity: 1.040}\nreadings: [{when: 2020-02-15, gravity: 1.025}]\nracked: {on: 2020-02-16, volume: 19 L}"
	files["gyles/4.md"] = "gyle: 4\nbeer: Mixed\nbrewed: 2020-02-26\nyeast: [{yeast: nobodys ale, pitched: 2020-02-26}, {yeast: another}]\nfermenter: {volume: 20 L, gravity: 1.040}\nreadings: [{when: 2020-03-03, gravity: 1.005}, {when: 2020-03-06, gravity: 1.005}]\nracked: {on: 2020-03-07, volume: 19 L}"
	files["gyles/41.md"] = "gyle: 41\nbeer: Fruited\nbrewed: 2020-02-27\nadded: {fruit: damson, weight: 2 kg, into: fermenter}\nyeast: {yeast: nobodys ale, pitched: 2020-02-27}\nfermenter: {volume: 20 L, gravity: 1.040}\nreadings: [{when: 2020-03-03, gravity: 1.005}, {when: 2020-03-06, gravity: 1.005}]\nracked: {on: 2020-03-07, volume: 19 L}"
	files["gyles/42.md"] = "gyle: 42\nbeer: Drawn\ndrawn_from: {gyle: 1, volume: 5 L, on: 2020-02-28}\nyeast: {yeast: nobodys ale, pitched: 2020-02-28}\nreadings: [{when: 2020-03-03, gravity: 1.005}, {when: 2020-03-06, gravity: 1.005}]\nracked: {on: 2020-03-07, volume: 4 L}"
	b := open(t, files)
	if got := b.Gyle(5).Sheet.Past.Attenuation["nobodys ale"].Gyles; got != 2 {
		t.Errorf("gyle 5 learnt attenuation from %d gyles, want the 2 that were finished with that yeast alone and no sugar added later", got)
	}
}

func TestAttenuationGoesByTheYeastsCard(t *testing.T) {
	files := brewedOften(4)
	files["cards/y.md"] = "card: yeast\nname: The Proper Name\nalso: [nobodys ale]"
	b := open(t, files)
	past := b.Gyle(4).Sheet.Past.Attenuation
	if past["The Proper Name"].Gyles != 3 || past["nobodys ale"].Gyles != 3 {
		t.Errorf("attenuation is known as %v, want under the card's name and the typed one", past)
	}
}

// TestNoRecordIsRewrittenByALaterOne opens random journals whole and without
// the gyles brewed that day or later: the figures are the same.
func TestNoRecordIsRewrittenByALaterOne(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		files := randomEntries(rt)
		whole := Open(read(t, files), noon)
		for _, g := range whole.Gyles {
			if g.Begun.IsZero() || !g.Number.Written() {
				continue
			}
			kept := maps.Clone(files)
			for _, other := range whole.Gyles {
				if other != g && !day(other.Begun).Before(day(g.Begun)) || other.Begun.IsZero() {
					delete(kept, other.File)
				}
			}
			alone := Open(read(t, kept), noon).GyleIn(g.File)
			if a, b := figuresOf(rt, g.Sheet), figuresOf(rt, alone.Sheet); !bytes.Equal(a, b) {
				rt.Fatalf("the figures of gyle %s changed with later gyles:\n%s\n%s", g.Slug, a, b)
			}
		}
	})
}

func figuresOf(t *rapid.T, s *figures.Sheet) []byte {
	json, err := figures.JSON(s, nil)
	if err != nil {
		t.Fatal(err)
	}
	return json
}

// cardNames are what random entries name, some with cards.
var cardNames = []string{"goldings", "Goldings", "golding", "pale malt", "nobodys ale", "house ale", "bottle 500 mL", "Bottle 0.5 L", "soft bag 10 L"}

// randomEntries is a small journal of gyles that name, follow and are drawn
// from each other at random. A gyle is only drawn from one of an earlier day.
func randomEntries(t *rapid.T) entries {
	files := entries{"cards/hop.md": "card: hop\nname: Goldings\nalso: [golding]"}
	name := rapid.SampledFrom(cardNames)
	n := rapid.IntRange(1, 7).Draw(t, "gyles")
	for i := 1; i <= n; i++ {
		front := fmt.Sprintf("gyle: %d\nbeer: Beer %d\n", i, i%3)
		brewed := rapid.IntRange(0, 12).Draw(t, "day")
		date := func(days int) string {
			return time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC).AddDate(0, 0, 20*brewed+days).Format(time.DateOnly)
		}
		if brewed > 0 {
			front += "brewed: " + date(0) + "\n"
		}
		if f := rapid.IntRange(0, n+1).Draw(t, "follows"); f > 0 {
			front += fmt.Sprintf("follows: %d\n", f)
		}
		front += fmt.Sprintf("grist: [{malt: %s, weight: %d g}, {malt: %s, weight: 100 g}]\n", name.Draw(t, "malt"), rapid.IntRange(1000, 5000).Draw(t, "weight"), name.Draw(t, "malt"))
		front += fmt.Sprintf("hops: [{hop: %s, weight: 10 g, alpha: 5 %%, boiled: %d min}, {hop: %s, weight: 5 g, dry: 3 days}]\n", name.Draw(t, "hop"), rapid.IntRange(1, 60).Draw(t, "boil"), name.Draw(t, "hop"))
		front += fmt.Sprintf("tags: [%s, %s]\n", name.Draw(t, "tag"), name.Draw(t, "tag"))
		front += fmt.Sprintf("yeast: {yeast: %s, pitched: %s}\n", name.Draw(t, "yeast"), date(0))
		if brewed == 0 {
			front = front[:len(front)-len(fmt.Sprintf(", pitched: %s}\n", date(0)))] + "}\n"
		}
		if brewed > 0 && rapid.Bool().Draw(t, "measured") {
			front += fmt.Sprintf("fermenter: {volume: %d L, gravity: 1.0%02d}\naim: {volume: 20 L, og: 1.040}\n", rapid.IntRange(15, 25).Draw(t, "volume"), rapid.IntRange(30, 60).Draw(t, "og"))
			fg := rapid.IntRange(6, 20).Draw(t, "fg")
			front += fmt.Sprintf("readings: [{when: %s, gravity: 1.0%02d, temp: 20 C}, {when: %s, gravity: 1.0%02d, temp: 20 C}]\n", date(6), fg, date(9), fg)
			front += fmt.Sprintf("racked: {on: %s, volume: 15 L, warmest: 20 C}\npackages: [{vessel: %s, count: 3}]\n", date(10), name.Draw(t, "vessel"))
		}
		files[fmt.Sprintf("gyles/%s%d.md", rapid.StringMatching(`[a-z]`).Draw(t, "letter"), i)] = front
	}
	return files
}

// shuffled is the journal with everything in another order.
func shuffled(t *rapid.T, j *journal.Journal) *journal.Journal {
	other := *j
	other.Gyles = rapid.Permutation(j.Gyles).Draw(t, "gyles in order")
	other.Cards = rapid.Permutation(j.Cards).Draw(t, "cards in order")
	other.Errors = rapid.Permutation(j.Errors).Draw(t, "errors in order")
	return &other
}

func TestTheOrderOfFilesNeverMatters(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		j := read(t, randomEntries(rt))
		if a, b := portrait(Open(j, noon)), portrait(Open(shuffled(rt, j), noon)); a != b {
			rt.Fatalf("another order, another book:\n%s\n\n%s", a, b)
		}
	})
}

func TestEveryUseIsListedOnBothSides(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		b := Open(read(t, randomEntries(rt)), noon)
		both := map[Use]int{}
		for _, g := range b.Gyles {
			for _, u := range g.Uses() {
				both[u]++
				if u.Gyle != g {
					rt.Fatalf("gyle %s lists a use by gyle %s", g.Slug, u.Gyle.Slug)
				}
			}
		}
		for _, s := range b.Subjects {
			for _, u := range b.Uses(s) {
				both[u] += 1 << 16
				if u.Subject != s {
					rt.Fatalf("%s lists a use of %s", s.Name, u.Subject.Name)
				}
			}
			if b.Subject(s.Kind, s.Name) != s {
				rt.Fatalf("%s %q is not found by its own name", s.Kind, s.Name)
			}
		}
		for u, sides := range both {
			if sides%(1<<16) != sides>>16 {
				rt.Fatalf("%s %s by gyle %s is listed %d times there, %d times here", u.Subject.Kind, u.Subject.Name, u.Gyle.Slug, sides%(1<<16), sides>>16)
			}
		}
	})
}

// TestTheFourthGyleHasLearned: three mashes that came out too cool, and three beers that went
// farther than any card would say, tell the fourth on paper how hot to strike and where it
// will stop.
func TestTheFourthGyleHasLearned(t *testing.T) {
	files := entries{}
	for i := 1; i <= 3; i++ {
		day := time.Date(2026, 1, 7*i, 0, 0, 0, 0, time.UTC)
		on := func(days int) string { return day.AddDate(0, 0, days).Format(time.DateOnly) }
		files[fmt.Sprintf("%d.md", i)] = fmt.Sprintf(`gyle: %d
beer: A
brewed: %s
grist: [{malt: pale malt, weight: 4 kg}]
mash: {liquor: 10 L, strike: 74.4 C, grain_at: 15 C, vessel: bucket, rests: [{at: 64.2 C, aimed: 66 C}]}
yeast: {yeast: dried ale, pitched: %s}
fermenter: {volume: 20 L, gravity: 1.050}
readings: [{when: %s, gravity: 1.009}, {when: %s, gravity: 1.009}]
racked: {on: %s, volume: 19 L}
`, i, on(0), on(0), on(6), on(9), on(10))
	}
	files["4.md"] = "gyle: 4\nbeer: A\ngrist: [{malt: pale malt, weight: 4 kg}]\nmash: {liquor: 10 L, grain_at: 15 C, vessel: bucket, rests: [{at: 66 C}]}\nyeast: {yeast: dried ale}\naim: {volume: 20 L, og: 1.050}\n"
	s := open(t, files).Gyle(4).Sheet
	if lost := s.Past.MashLost["bucket"]; lost.Gyles != 3 || math.Abs(lost.Median-1.8) > 0.1 {
		t.Errorf("gyle 4 knows of mashes that lost %+v", lost)
	}
	if f, ok := s.Find("strike-temperature", ""); !ok || math.Abs(f.Value-76.5) > 0.2 {
		t.Errorf("it is struck at %.1f °C, by the three it should be 76.5", f.Value)
	}
	if past := s.Past.Attenuation["dried ale"]; past.Gyles != 3 || math.Abs(past.Median-81.5) > 1 || past.Mash != 64.2 {
		t.Errorf("gyle 4 knows of attenuations of %+v", past)
	}
}
