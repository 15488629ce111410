package figures

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"
	"time"

	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

// TestGuessesAtAGravity: a gravity that cannot be is one without its point or without
// its first nought, or degrees Plato without a unit; what is none of these is not
// guessed at.
func TestGuessesAtAGravity(t *testing.T) {
	for typed, want := range map[string]string{
		"1042": "1.042", "985": "0.985", "1150": "1.150", "984": "", "1151": "",
		"104.2": "1.042", "98.5": "0.985", "115": "1.150", "98.4": "", "115.1": "",
		"1.42": "1.042", "1.25": "1.025", "1.99": "1.099", "1.24": "", "1.421": "",
		"2": "2 P", "10.5": "10.5 P", "36": "36 P", "36.1": "", "0.5": "", "42": "",
	} {
		s := works(t, withLines("fermenter: {volume: 20 L, gravity: "+typed+"}"))
		if len(s.Impossible) != 1 {
			t.Errorf("%s: %+v", typed, s.Impossible)
			continue
		}
		if got := s.Impossible[0]; got.Guess != want || got.Found != typed || got.Limit != "0.985 to 1.15 SG" {
			t.Errorf("%s: it may be %q, want %q; %+v", typed, got.Guess, want, got)
		}
	}
	if s := works(t, withLines("fermenter: {volume: 20 L, gravity: 50 P}")); len(s.Impossible) != 1 ||
		s.Impossible[0].Guess != "" {
		t.Errorf("50 °P with its unit: %+v", s.Impossible)
	}
}

// TestMedian, of as many as of few.
func TestMedian(t *testing.T) {
	for want, of := range map[float64][]float64{3: {3}, 2.5: {4, 1}, 2: {9, 1, 2}, 4: {5, 100, 3, 1},
		7: {7, 7, 7, 0, 99}} {
		if got := median(of); got != want {
			t.Errorf("the median of %v is %v, want %v", of, got, want)
		}
	}
	if got := median(nil); !math.IsNaN(got) {
		t.Errorf("nothing has the median %v", got)
	}
}

// TestTopAttenuation: the most that any of the yeasts' cards allows, where one says.
func TestTopAttenuation(t *testing.T) {
	for yeast, want := range map[string]float64{"house ale": 75, "dried ale": 80, "low-attenuating ale": 70,
		"nobody's": 0} {
		text := "---\ngyle: 1\nbeer: Any\nyeast: [{yeast: \"" + yeast + "\"}]\n---\n"
		top, where := works(t, []byte(text)).TopAttenuation()
		if top != want || where.Written() != (want > 0) {
			t.Errorf("%s ferments %v %% at most, want %v (%v)", yeast, top, want, where)
		}
	}
	both := "---\ngyle: 1\nbeer: Any\nyeast: [{yeast: dried ale}, {yeast: low-attenuating ale}]\n---\n"
	if top, _ := works(t, []byte(both)).TopAttenuation(); top != 80 {
		t.Errorf("two yeasts ferment %v %% at most", top)
	}
}

// TestWaterBalance holds the balance of a card to the published waters of cities,
// reckoned with the carbonate that each names taken for bicarbonate.
func TestWaterBalance(t *testing.T) {
	file, err := os.Open("../../testdata/reference/09d_city_waters.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	tried := 0
	for _, r := range rows[1:] {
		want, err := strconv.ParseFloat(r[8], 64)
		if err != nil {
			continue // a report that lacks an ion
		}
		tried++
		card := "---\ncard: water\nname: brook\ncalcium: " + r[1] + " ppm\nbicarbonate: " + r[2] + " ppm\nchloride: " + r[3] +
			" ppm\nmagnesium: " + r[4] + " ppm\nsodium: " + r[5] + " ppm\nsulphate: " + r[6] + " ppm\n---\n"
		f, where, ok := balanced(t, card)
		if !ok || math.Abs(f.Value-want) > 0.011 || where.File != "cards/brook.md" { // printed to 0.01
			t.Errorf("%s: %v mEq/L (%v, %v), want %v", r[0], f.Value, ok, where, want)
		}
	}
	if tried < 10 {
		t.Errorf("only %d waters were tried", tried)
	}
	if f, _, ok := balanced(t, "---\ncard: water\nname: brook\ncalcium: 50 ppm\n---\n"); ok {
		t.Errorf("a water of one ion balances to %v", f.Value)
	}
	if f, _, ok := balanced(t, "---\ncard: water\nname: another\ncalcium: 50 ppm\n---\n"); ok {
		t.Errorf("a water without a card balances to %v", f.Value)
	}
}

// balanced is the balance of a gyle brewed with the water brook, and one card.
func balanced(t *testing.T, card string) (Figure, journal.Where, bool) {
	t.Helper()
	d := journal.ReadFile("gyles/1.md", withLines("liquor: {water: brook}"), nil)
	read := journal.ReadFile("cards/brook.md", []byte(card), nil)
	if d.Gyle == nil || read.Card == nil {
		t.Fatal(d.Errors, read.Errors)
	}
	c := plainContext()
	c.Larder = journal.NewLarder([]*journal.Card{read.Card})
	return Work(d.Gyle, c).Inquire().WaterBalance()
}

// TestHeatHolding: where beer vented until it is quiet keeps a condition. Of all whole
// degrees none keeps it nearer, and what no heat from 2 to 20 °C keeps has none.
func TestHeatHolding(t *testing.T) {
	inquiry := works(t, withLines()).Inquire()
	for volumes := 0.86; volumes < 1.46; volumes += 0.05 {
		got, ok := inquiry.HeatHolding(q.Carbonation(volumes))
		held, known := inquiry.HeldAt(got)
		if !ok || !known {
			t.Errorf("%v vol are held at no heat", volumes)
			continue
		}
		for heat := q.Temperature(2); heat <= 20; heat++ {
			other, _ := inquiry.HeldAt(heat)
			if math.Abs(other.Value-volumes) < math.Abs(held.Value-volumes) {
				t.Errorf("%v vol: %v °C hold %v, and %v °C %v", volumes, got, held.Value, heat, other.Value)
			}
		}
	}
	for _, volumes := range []q.Carbonation{0.6, 1.8} { // a room keeps more, a refrigerator less
		if got, ok := inquiry.HeatHolding(volumes); ok {
			t.Errorf("%v vol are held at %v °C", volumes, got)
		}
	}
}

// rackedInto is a fermented beer in one container.
func rackedInto(t *testing.T, lines string) *Sheet {
	return works(t, withLines(fermenting, finished, "racked: {on: 2026-03-21, volume: 19 L, temp: 18 C}",
		"priming: {sugar: sucrose, weight: 80 g}", lines))
}

// TestPressureAtAnotherHeat: at the warmest place that the entry names it is the
// sheet's own figure, colder it is less, and the remedy found by it is the warmest
// that serves.
func TestPressureAtAnotherHeat(t *testing.T) {
	for _, vessel := range []string{"keg", "soft bag 20 L"} {
		s := rackedInto(t, "packages: [{vessel: "+vessel+", fill: 18 L}]\nconditioned: {at: 18 C, warmest: 26 C, from: 2026-03-21}")
		c, inquiry := s.Containers()[0], s.Inquire()
		want, ok := s.Find(kindPressureWarmest.ID, c.Key)
		got, known := inquiry.PressureAt(c, 26)
		if !ok || !known || math.Abs(got.Value-want.Value) > 1e-9 || got.UpperBound() > want.UpperBound() ||
			got.UpperBound() < got.Value+got.PlusMinus { // a heat that is asked about has no doubt
			t.Errorf("%s at 26 °C: %v up to %v, the sheet has %v up to %v", vessel, got.Value, got.UpperBound(), want.Value,
				want.UpperBound())
		}
		if cold, known := inquiry.PressureAt(c, 5); !known || cold.Value > got.Value || vessel == "keg" &&
			cold.Value >= got.Value-0.5 {
			t.Errorf("%s at 5 °C: %v bar, at 26 °C %v", vessel, cold.Value, got.Value)
		}
		if f, known := inquiry.PressureAt(c, 60); known {
			t.Errorf("%s at 60 °C: %v bar, where no law is known", vessel, f.Value)
		}
	}
	s := rackedInto(t, "packages: [{vessel: keg, fill: 18 L}]\nconditioned: {at: 18 C, warmest: 26 C, from: 2026-03-21}")
	c, inquiry := s.Containers()[0], s.Inquire()
	for _, limit := range []q.Pressure{1.6, 2, 2.6} {
		heat, at, ok := inquiry.HeatUnder(c, limit)
		if !ok || at.UpperBound() > limit.Bar() {
			t.Errorf("under %v bar: %v °C, %v bar (%v)", limit, heat, at.UpperBound(), ok)
			continue
		}
		if warmer, _ := inquiry.PressureAt(c, heat+1); heat < warmestRemedy && warmer.UpperBound() <= limit.Bar() {
			t.Errorf("under %v bar: %v °C, and a degree warmer would do", limit, heat)
		}
	}
	if heat, _, ok := inquiry.HeatUnder(c, 0.01); ok {
		t.Errorf("conditioned beer stands at no pressure at %v °C", heat)
	}
	bare := works(t, withLines("packages: [{vessel: keg}]"))
	if f, known := bare.Inquire().PressureAt(bare.Containers()[0], 18); known {
		t.Errorf("nothing is known, and it stands at %v bar", f.Value)
	}
}

// TestWarmestSoFar: of the places that an entry names, the warmest that a container
// has stood in, and the warmest where it still is to stand.
func TestWarmestSoFar(t *testing.T) {
	d := journal.ReadFile("gyles/1.md", withLines(fermenting, "racked: {on: 2026-03-21}", "packages: [{vessel: keg}]",
		"conditioned: {at: 18 C, warmest: 26 C, from: 2026-03-21, to: 2026-04-04}",
		"cellared: {at: 11 C, warmest: 15 C, from: 2026-04-04}"), nil)
	if d.Gyle == nil || len(d.Errors) > 0 {
		t.Fatal(d.Errors)
	}
	for day, want := range map[string][2]q.Temperature{
		"2026-03-20": {0, 26}, "2026-03-25": {26, 26}, "2026-04-10": {26, 15},
	} {
		c := plainContext()
		now, err := time.Parse(time.DateOnly, day)
		if err != nil {
			t.Fatal(err)
		}
		c.Now = now
		s := Work(d.Gyle, c)
		stood, stoodAt := s.StoodAt(s.Containers()[0])
		still, stillAt := s.WarmestPlace(s.Containers()[0])
		if stood != want[0] || stoodAt.Written() != (want[0] > 0) || still != want[1] || !stillAt.Written() {
			t.Errorf("on %s: it stood at %v (%v) and is to stand at %v (%v), want %v", day, stood, stoodAt, still, stillAt, want)
		}
	}
}

// TestMayBeFilled: what nobody dates may be filled two weeks after brew day, and at any
// time where brew day is not known; what is dated is known.
func TestMayBeFilled(t *testing.T) {
	on := func(day int, lines string) bool {
		d := journal.ReadFile("gyles/1.md", []byte("---\ngyle: 1\nbeer: Any\n"+lines+"\npackages: [{vessel: keg}]\n---\n"),
			nil)
		c := plainContext()
		c.Now = time.Date(2026, 3, day, 12, 0, 0, 0, time.UTC)
		s := Work(d.Gyle, c)
		return s.MayBeFilled(s.Containers()[0])
	}
	const brewed = "brewed: 2026-03-07"
	for _, c := range []struct {
		day   int
		lines string
		want  bool
	}{
		{8, brewed, false}, {20, brewed, false}, {22, brewed, true}, {8, "", true},
		{30, brewed + "\nracked: {on: 2026-03-21}", false},
		{30, brewed + "\npriming: {sugar: sucrose, weight: 60 g, on: 2026-03-21}", false},
	} {
		if got := on(c.day, c.lines); got != c.want {
			t.Errorf("%q on the %d: it may be filled: %v", c.lines, c.day, got)
		}
	}
}

// TestSugarAdded: whatever raises a gravity and went in between two moments, to the
// day, and what is not dated may have.
func TestSugarAdded(t *testing.T) {
	from, to := time.Date(2026, 3, 10, 12, 0, 0, 0, time.UTC), time.Date(2026, 3, 14, 12, 0, 0, 0, time.UTC)
	for lines, want := range map[string]bool{
		"":                         false,
		"racked: {on: 2026-03-12}": false,
		"priming: {sugar: sucrose, weight: 60 g, on: 2026-03-12}":                    true,
		"priming: {sugar: sucrose, weight: 60 g, on: 2026-03-15}":                    false,
		"priming: {sugar: sucrose, weight: 60 g}\nracked: {on: 2026-03-12}":          true,
		"added: [{fruit: raspberries, weight: 500 g, when: 2026-03-12}]":             true,
		"added: [{fruit: raspberries, weight: 500 g, when: 2026-03-08}]":             false,
		"added: [{fruit: raspberries, weight: 500 g, when: 2026-03-15}]":             false,
		"added: [{fruit: raspberries, weight: 500 g}]":                               true,
		"grist: [{sugar: sucrose, weight: 60 g, into: fermenter, when: 2026-03-12}]": true,
		"grist: [{sugar: sucrose, weight: 60 g, into: fermenter}]":                   true,
		"grist: [{sugar: sucrose, weight: 60 g}]":                                    false,
		"done: [{did: topped up, when: 2026-03-12}]":                                 true,
		"done: [{did: topped up, when: 2026-03-16}]":                                 false,
		"done: [{did: vented, when: 2026-03-12}]":                                    false,
	} {
		if got := works(t, withLines(lines)).SugarAdded(from, to); got != want {
			t.Errorf("%s: %v", lines, got)
		}
	}
}
