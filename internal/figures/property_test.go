package figures

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"gylebook/internal/journal"
)

// anyGyle is a random gyle that can be: written out as an entry by text, so that
// each property goes the whole way from what is typed.
type anyGyle struct {
	batch    float64 // L in the fermenter
	malt     float64 // kg
	hop      float64 // g
	og, fg   float64
	warmest  float64 // °C
	at       float64 // °C
	aim      float64 // vol
	bottles  int
	sugar    float64 // g for the gyle, 0 for none
	readings []string
}

func anyBrewing() *rapid.Generator[anyGyle] {
	return rapid.Custom(func(t *rapid.T) anyGyle {
		og := rapid.Float64Range(1.030, 1.090).Draw(t, "og")
		fg := 1 + (og-1)*rapid.Float64Range(0.15, 0.40).Draw(t, "left")
		b := anyGyle{
			batch:   rapid.Float64Range(8, 60).Draw(t, "batch"),
			og:      og,
			fg:      fg,
			hop:     rapid.Float64Range(10, 120).Draw(t, "hop"),
			warmest: rapid.Float64Range(12, 28).Draw(t, "warmest"),
			at:      rapid.Float64Range(4, 24).Draw(t, "at"),
			aim:     rapid.Float64Range(1, 2.6).Draw(t, "aim"),
			bottles: rapid.IntRange(0, 12).Draw(t, "bottles"),
			sugar:   rapid.SampledFrom([]float64{0, 20, 55.5, 120}).Draw(t, "sugar"),
		}
		b.malt = b.batch * (og - 1) * 1000 / 300 / rapid.Float64Range(0.6, 0.9).Draw(t, "yield")
		b.readings = []string{
			fmt.Sprintf("{when: 2026-03-08 08:00, gravity: %.4f, temp: %.1f C}", og-(og-fg)*0.3, b.warmest),
			fmt.Sprintf("{when: 2026-03-10 08:00, gravity: %.4f, temp: %.1f C}", fg+0.003, b.warmest),
			fmt.Sprintf("{when: 2026-03-13 08:00, gravity: %.4f, temp: 18 C}", fg),
			fmt.Sprintf("{when: 2026-03-16 08:00, gravity: %.4f, temp: 18 C}", fg),
		}
		return b
	})
}

// text is the entry, all its volumes and weights made larger by a factor.
func (b anyGyle) text(by float64) []byte {
	var w strings.Builder
	p := func(format string, args ...any) { fmt.Fprintf(&w, format+"\n", args...) }
	p("---\ngyle: 1\nbeer: Any\nbrewed: 2026-03-07")
	p("aim: {volume: %.13g L, condition: %.13g vol}", b.batch*by, b.aim)
	p("grist: [{malt: any, weight: %.13g kg, colour: 8 EBC, extract: 300 Ldeg/kg}]", b.malt*by)
	p("mash: {liquor: %.13g L, grain_at: 15 C, rests: [{at: 66 C, for: 60 min}]}", b.malt*2.6*by)
	p("copper: {before: {volume: %.13g L, gravity: %.5f}, boiled: 60 min, after: {volume: %.13g L, gravity: %.5f}}", b.batch*1.25*by, 1+(b.og-1)*0.85, b.batch*1.07*by, b.og)
	p("hops: [{hop: any, weight: %.13g g, alpha: 5 %%, boiled: 60 min}]", b.hop*by)
	p("yeast: [{yeast: any, pitched: 2026-03-07 14:00}]")
	p("fermenter: {volume: %.13g L, gravity: %.5f, sample_at: 20 C}", b.batch*by, b.og)
	p("readings:\n  - %s", strings.Join(b.readings, "\n  - "))
	p("racked: {on: 2026-03-17, volume: %.13g L, temp: 18 C, warmest: %.4f C}", b.batch*0.93*by, b.warmest)
	if b.sugar > 0 {
		p("priming: {sugar: sucrose, weight: %.13g g}", b.sugar*by)
	}
	p("packages:\n  - {vessel: soft bag %.13g L, fill: %.13g L}", b.batch*0.6*by, b.batch*0.5*by)
	if b.bottles > 0 {
		each := b.batch * 0.4 / float64(b.bottles)
		p("  - {vessel: bottle %.13g L, fill: %.13g L, count: %d}", each*by, each*by, b.bottles)
	}
	p("conditioned: {at: %.4f C, from: 2026-03-17}\ncellared: {at: 12 C}\n---\n", b.at)
	return []byte(w.String())
}

// testLarder is the built-in cards, without a brewer's own.
var testLarder = journal.NewLarder(nil)

func plainContext() Context { return Context{Larder: testLarder, Now: longAfter} }

// works works out an entry's text, which must read.
func works(t interface{ Fatalf(string, ...any) }, raw []byte, sets ...string) *Sheet {
	d := journal.ReadFileSet("entry.md", raw, nil, sets)
	if d.Gyle == nil || len(d.Errors) > 0 {
		t.Fatalf("the entry does not read: %v\n%s", d.Errors, raw)
	}
	return Work(d.Gyle, plainContext())
}

// must is the value of a figure that has to be there.
func must(t *rapid.T, s *Sheet, id ID, of string) Figure {
	f, ok := s.Find(id, of)
	if !ok {
		t.Fatalf("no %s; missing are %+v", part{id, of}, s.Missing)
	}
	return f
}

func TestMoreSugarIsNeverLessCondition(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := anyBrewing().Draw(t, "gyle")
		more := rapid.Float64Range(0, 60).Draw(t, "more")
		b.sugar = max(b.sugar, 1)
		less := works(t, b.text(1))
		b.sugar += more
		richer := works(t, b.text(1))
		for _, id := range []ID{"condition", "abv-conditioned", "pressure-warmest", "pressure-cellar", "gas-free"} {
			for _, f := range less.Figures {
				if f.ID == id && must(t, richer, id, f.Of).Value < f.Value-rounding {
					t.Errorf("%.4g g more: %s falls from %.13g to %.13g", more, partOf(f), f.Value, must(t, richer, id, f.Of).Value)
				}
			}
		}
	})
}

func TestWarmerIsNeverMoreGas(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := anyBrewing().Draw(t, "gyle")
		cool := must(t, works(t, b.text(1)), "residual-co2", "")
		b.warmest += rapid.Float64Range(0, 15).Draw(t, "warmer")
		if warm := must(t, works(t, b.text(1)), "residual-co2", ""); warm.Value > cool.Value {
			t.Errorf("at %.4g °C it holds %.6g, cooler %.6g", b.warmest, warm.Value, cool.Value)
		}
	})
}

func TestAdviceMeetsTheAim(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := anyBrewing().Draw(t, "gyle")
		b.sugar = 0
		advised := works(t, b.text(1))
		sugar := rapid.SampledFrom(primingSugars).Draw(t, "sugar")
		grams := must(t, advised, "priming-sugar", sugar).Value
		if grams == 0 {
			if without := must(t, advised, "condition", ""); without.Value < b.aim-rounding {
				t.Errorf("no sugar is advised at %.4g vol for an aim of %.4g", without.Value, b.aim)
			}
			return
		}
		if grams < 0.01 {
			return // less than a reading can be
		}
		primed := works(t, b.text(1), fmt.Sprintf("priming={sugar: %s, weight: %.13g g}", sugar, grams))
		reached := must(t, primed, "condition", "")
		if math.Abs(reached.Value-b.aim) > reached.PlusMinus || !near(reached.Value, b.aim, 1e-6) {
			t.Errorf("%.6g g of %s reach %.6g ± %.2g vol for an aim of %.6g", grams, sugar, reached.Value, reached.PlusMinus, b.aim)
		}
	})
}

// extensive are the figures that grow with the gyle; every other stays.
var extensive = []ID{"priming-sugar", "boil-off", "losses", "pints", "headspace", "gas-free", "bag-slack", "liquor-needed"}

func TestScalingLeavesWhatIsIntensive(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := anyBrewing().Draw(t, "gyle")
		by := rapid.Float64Range(0.4, 4).Draw(t, "by")
		one, other := works(t, b.text(1)), works(t, b.text(by))
		for _, f := range one.Figures {
			if f.ID == "pints-left" || f.Unit == dateUnit {
				continue // sediment does not grow with the gyle; dates are no amounts
			}
			want := f.Value
			if slices.Contains(extensive, f.ID) {
				want *= by
			}
			if got := must(t, other, f.ID, f.Of).Value; math.Abs(got-want) > 1e-6*max(math.Abs(want), 1) {
				t.Errorf("%.4g times as large: %s is %.13g, want %.13g", by, partOf(f), got, want)
			}
		}
	})
}

func TestOrderOfReadingsDoesNotMatter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := anyBrewing().Draw(t, "gyle")
		one := works(t, b.text(1))
		b.readings = rapid.Permutation(b.readings).Draw(t, "order")
		other := works(t, b.text(1))
		if len(one.Figures) != len(other.Figures) {
			t.Fatalf("%d figures, and in another order %d", len(one.Figures), len(other.Figures))
		}
		for _, f := range one.Figures {
			got := must(t, other, f.ID, f.Of)
			if got.Value != f.Value || !near(got.PlusMinus, f.PlusMinus, 1e-9) {
				t.Errorf("%s: %.13g ± %.6g, in another order %.13g ± %.6g", partOf(f), f.Value, f.PlusMinus, got.Value, got.PlusMinus)
			}
		}
	})
}

// TestAnotherReadingTakesNothingAway: a likely reading, whenever it was taken,
// may change figures and never removes one, unless it brings a formula beyond
// its range, which is then said.
func TestAnotherReadingTakesNothingAway(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := anyBrewing().Draw(t, "gyle")
		one := works(t, b.text(1))
		b.readings = append(b.readings, fmt.Sprintf("{when: 2026-03-%02d %02d:00, gravity: %.4f, temp: %.1f C}",
			rapid.IntRange(7, 30).Draw(t, "day"), rapid.IntRange(0, 23).Draw(t, "hour"),
			rapid.Float64Range(b.fg-0.001, b.fg+0.006).Draw(t, "gravity"), rapid.Float64Range(8, 30).Draw(t, "temp")))
		other := works(t, b.text(1))
		for _, f := range one.Figures {
			if _, ok := other.Find(f.ID, f.Of); ok || beyondItsRange(other, f) {
				continue
			}
			t.Errorf("with %s there is no %s; missing are %+v", b.readings[len(b.readings)-1], partOf(f), other.Missing)
		}
	})
}

// beyondItsRange tells whether a figure is withheld because its formula does not
// hold for what the readings say: eight volumes of gas from a gravity that rose.
func beyondItsRange(s *Sheet, f Figure) bool {
	return slices.ContainsFunc(s.Missing, func(m Missing) bool {
		return m.Figure == f.ID && m.Of == f.Of && len(m.Needs) == 0 && strings.Contains(m.Because, " must be from ")
	})
}

// amounts are the figures that cannot be less than nothing.
var amounts = []ID{
	"priming-sugar", "pints", "pints-left", "headspace", "gas-free", "condition", "residual-co2", "priming-co2", "co2-to-come",
	"bitterness", "colour", "liquor-to-grist",
}

// possible holds that every number is one, and that no amount is less than
// nothing.
func possible(t interface{ Errorf(string, ...any) }, s *Sheet) {
	for _, f := range s.Figures {
		if math.IsNaN(f.Value) || math.IsInf(f.Value, 0) || math.IsInf(f.PlusMinus, 0) || f.PlusMinus < 0 {
			t.Errorf("%s is %g ± %g", partOf(f), f.Value, f.PlusMinus)
		}
		if notANumber(f.UpperBound()) || notANumber(f.Lower) {
			t.Errorf("%s is at most %g, at least %g", partOf(f), f.UpperBound(), f.Lower)
		}
		if f.Value < -rounding && slices.Contains(amounts, f.ID) {
			t.Errorf("%s is %g: less than nothing", partOf(f), f.Value)
		}
		f.Rounded()
		f.Working()
		for _, c := range f.Budget() {
			if math.IsNaN(c.Share) || c.Share < 0 || c.Share > 1+rounding {
				t.Errorf("%s owes %g of its doubt to %s", partOf(f), c.Share, c.What)
			}
		}
	}
	if _, err := JSON(s, nil); err != nil {
		t.Errorf("%v", err)
	}
}

// wild are values that read and seldom can be.
var wild = []string{"0 L", "0 g", "1e-9 L", "1e9 L", "1e300 g", "0 C", "-40 C", "104 C", "0 min", "1e6 h", "0.990", "1.149", "1.000", "0 %", "100 %", "0 vol", "8 vol", "9 bar", "-0.9 bar", "0 EBC", "3000 EBC", "0 Ldeg/kg", "20 ± 20 L", "1.010 ± 0.5", "0", "1"}

func TestWildValuesMakeNoWildFigures(t *testing.T) {
	keys := keysOf(t, file(t, every))
	raw := file(t, every)
	rapid.Check(t, func(t *rapid.T) {
		var sets []string
		for range rapid.IntRange(1, 6).Draw(t, "changes") {
			sets = append(sets, rapid.SampledFrom(keys).Draw(t, "key")+"="+rapid.SampledFrom(wild).Draw(t, "value"))
		}
		d := journal.ReadFileSet("entry.md", raw, nil, sets)
		if d.Gyle != nil {
			possible(t, Work(d.Gyle, plainContext()))
		}
	})
}

// FuzzWork: whatever bytes an entry has, working it out ends, and every number
// on the sheet is one.
func FuzzWork(f *testing.F) {
	f.Add(file(f, every), int64(60))
	f.Add(file(f, byHand, "soft-bag-and-bottles.md"), int64(20))
	f.Add(file(f, byHand, "keg-in-us-units.md"), int64(0))
	f.Add([]byte("---\ngyle: 1\nbeer: x\nreadings: [{gravity: 1.0}]\nfermenter: {volume: 0 L}\npackages: [{vessel: pin}]\n---\n"), int64(400))
	f.Fuzz(func(t *testing.T, raw []byte, days int64) {
		d := journal.ReadFile("entry.md", raw, nil)
		if d.Gyle == nil {
			return
		}
		c := plainContext()
		c.Now = d.Gyle.Brewed.Time.AddDate(0, 0, int(days%1000))
		possible(t, Work(d.Gyle, c))
	})
}
