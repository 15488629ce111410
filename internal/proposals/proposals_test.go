package proposals

import (
	"math"
	"strings"
	"testing"

	"gylebook/internal/assay/healthy"
	"gylebook/internal/brewing"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

// worked is one proposal worked by hand: what was read, what should be proposed, and
// what to expect.
type workedProposal struct {
	name, in string
	sets     []string
	figure   string
	key      string
	value    string  // "" where a range will do
	low      float64 // of the changed number, in its canonical unit
	high     float64
	expect   float64
	within   float64 // of expect
	cause    string  // a word of it
}

// The entries are those of package healthy: 4.0 kg of pale malt at 300 Ldeg/kg and
// 150 g of crystal 150 (its built-in card: 273 Ldeg/kg), 21 L aimed at, from 1.042 to
// 1.010.
var workedProposals = []workedProposal{
	{
		// 38 points in 21 L are 798 Ldeg of 4.0 × 300 + 0.15 × 273 = 1241: 64.3 %. For
		// 42 × 21 = 882 Ldeg 1372 are wanted: (1372 − 41) ÷ 300 = 4.44 kg.
		name: "weak wort, volume right: more grist", in: "bottled", sets: []string{"fermenter.gravity=1.038"},
		figure: "og", key: "grist[0].weight", low: 4420, high: 4460, expect: 1.042, within: 0.0003, cause: "goods",
	},
	{
		// 38 points in 23.1 L are 878 Ldeg: in 21 L that is 41.8 points. Nothing is wrong
		// with the extract; 2.1 L of liquor too much. At 4 L/h that is 31 minutes more of
		// boil, which is too long, so it comes off the 20 L of sparge: 17.9.
		name: "weak wort, too much of it: less sparge", in: "bottled",
		sets:   []string{"fermenter.gravity=1.038", "fermenter.volume=23.1 L", "sparge.liquor=20 L", "racked.volume=22 L"},
		figure: "og", key: "sparge.liquor", value: "17.9 L", expect: 1.0418, within: 0.0005, cause: "thinned",
	},
	{
		// The same with 22.3 L: 1.3 L at 4 L/h is 19.5 minutes more.
		name: "weak wort, a little too much of it: longer boil", in: "bottled",
		sets:   []string{"fermenter.gravity=1.0395", "fermenter.volume=22.3 L", "sparge.liquor=20 L"},
		figure: "og", key: "copper.boiled", low: 79, high: 80, expect: 1.042, within: 0.0005, cause: "thinned",
	},
	{
		// 35 points in 21.6 L are 756 Ldeg, 60.9 %, and in 21 L only 36 points: the volume
		// did one of the seven. (882 ÷ 0.609 − 41) ÷ 300 = 4.69 kg.
		name: "weak wort, a little too much of it: the grist first", in: "bottled",
		sets:   []string{"fermenter.gravity=1.035", "fermenter.volume=21.6 L", "sparge.liquor=20 L", "racked.volume=20.5 L"},
		figure: "og", key: "grist[0].weight", low: 4660, high: 4720, expect: 1.042, within: 0.0003, cause: "the grist first",
	},
	{
		// 1.042 is 10.5 °P and 1.0065 1.67 °P: 84.1 % where the aims ask for 2.56 °P, 75.5 %.
		// 8.6 ÷ 2.4 is 3.6 °C, of which 2 are enough at once: 68 °C, 84.1 − 4.8 = 79.3 %,
		// 2.17 °P, 1.0084.
		name: "dry: a warmer mash", in: "bottled", sets: []string{"readings[1].gravity=1.0065", "readings[2].gravity=1.0065"},
		figure: "fg", key: "mash.rests[0].at", value: "68 °C", expect: 1.0084, within: 0.0003, cause: "cooler mash",
	},
	{
		// 1.014 is 3.57 °P: 65.9 %; 9.6 ÷ 2.4 is 4 °C, 2 at once: 64 °C, 70.7 %, 3.07 °P, 1.012.
		name: "sweet: a cooler mash", in: "bottled", sets: []string{"readings[1].gravity=1.014", "readings[2].gravity=1.014"},
		figure: "fg", key: "mash.rests[0].at", value: "64 °C", expect: 1.012, within: 0.0003, cause: "warmer mash",
	},
	{
		// 0.3 kg of sugar is 115 Ldeg of 882, 13 %, and the mash was warm enough. 84.1 %
		// of all with 13 % attenuating 122 % leaves 78.4 % for the malt; for 75.5 % all
		// 13 % would have to go and more: all of it goes, and 2.29 °P is 1.0089.
		name: "dry with sugar in it: less sugar", in: "bottled",
		sets: []string{"readings[1].gravity=1.0065", "readings[2].gravity=1.0065", "grist[+].sugar=sucrose",
			"grist[2].weight=300 g", "mash.rests[0].at=67 C"},
		figure: "fg", key: "grist[2]", low: 0, high: 0, expect: 1.0089, within: 0.0006, cause: "Sugar",
	},
	{
		// Tinseth at 1.039 for an hour: 1.65 × 0.000125^0.039 × (1 − e^−2.4) ÷ 4.15 =
		// 0.2546 of 0.05 × 40 000 ÷ 23 = 87 mg/L is 22.1 IBU; 40 × 60 ÷ 22.1 = 108 g.
		name: "too little bitterness: more hops at the start", in: "bottled", sets: []string{"aim.bitterness=60 IBU"},
		figure: "bitterness", key: "hops[0].weight", low: 107, high: 110, expect: 60, within: 0.5, cause: "weight and alpha",
	},
	{
		// 22 EBC are (22 ÷ 1.97 ÷ 1.4922)^(1 ÷ 0.6859) = 18.8 MCU, in 6.08 US gallons 114.
		// The pale malt brings 8.82 lb × 2.54 °L = 22.4; 91.8 ÷ 76.1 °L = 1.21 lb, 547 g.
		name: "too pale: more crystal", in: "bottled", sets: []string{"aim.colour=22 EBC"},
		figure: "colour", key: "grist[1].weight", low: 535, high: 560, expect: 22, within: 0.2, cause: "crystal",
	},
	{
		// At 20 °C 0.81 vol are left. 60 g in 20 L at 0.488 g/g is 29.3 g, 0.74 vol: 1.55.
		// For 1.1 it is 0.29 × 20 × 1.977 ÷ 0.488 = 23.5 g.
		name: "too lively: less sugar", in: "bagged", sets: []string{"priming.weight=60 g"},
		figure: "condition", key: "priming.weight", low: 22, high: 25, expect: 1.1, within: 0.02, cause: "sugar",
	},
	{
		// Sugar for 0.45 vol on top of 0.80, and vented on the eighth day at 19 °C: down to
		// the 0.83 vol that it can hold there, with a fifth of the sugar still to come
		// (e^(−8/5)), 0.09 vol. Vented at 12 °C it keeps 1.03, and comes to 1.12.
		name: "flat, and vented warm: vent it cold", in: "bagged",
		sets: []string{"priming.weight=36 g", "done[+].did=vented", "done[0].when=2026-03-19", "done[0].at=19 C",
			"done[0].package=0"},
		figure: "condition", key: "done[0].at", value: "12 °C", expect: 1.12, within: 0.05, cause: "gone for good",
	},
	{
		// At 8 °C an atmosphere holds 1.28 vol in water, 1.20 in beer; 2.9 vol are 2.42
		// atmospheres, 2.45 bar, 1.44 above the air.
		name: "a keg too flat: more pressure", in: "kegged", sets: []string{"aim.condition=2.9 vol"},
		figure: "condition", key: "packages[0].gas.set", low: 1.38, high: 1.5, expect: 2.9, within: 0.03, cause: "Gas at",
	},
	{
		// 0.41 × 4.15 ÷ 11 = 0.155: liquor at 76 °C on a grist of 18 should settle at
		// (76 + 0.155 × 18) ÷ 1.155 = 68.2; it settled at 66. A degree of mash is 1.155 of
		// strike: 2.2 × 1.155 = 2.6 more, 78.5.
		name: "a tun that takes heat: hotter liquor", in: "bottled",
		sets:   []string{"mash.strike=76 C", "mash.grain_at=18 C", "mash.rests[0].at=66 C"},
		figure: "mash-heat", key: "mash.strike", value: "78.5 °C", expect: 68.2, within: 0.3, cause: "tun takes heat",
	},
	{
		// The card says that the tun is like a litre of liquor: (0.41 × 4.15 + 1) ÷ 11 =
		// 0.2456, and liquor at 78 °C should settle at (78 + 0.2456 × 18) ÷ 1.2456 = 66.2;
		// it settled at 63. 3.2 × 1.2456 = 4.0 more: 82.
		name: "a tun that takes more than its card says", in: "bottled",
		sets:   []string{"mash.vessel=wooden tun", "mash.strike=78 C", "mash.grain_at=18 C", "mash.rests[0].at=63 C"},
		figure: "mash-heat", key: "mash.strike", value: "82 °C", expect: 66.2, within: 0.3,
		cause: "takes more heat; the sum reckons with the 1.0 L of its card",
	},
	{
		// Half a pH in 4.15 kg at 35 mEq a kilogram is 73 mEq. 80 % lactic acid weighs
		// 1.19 g/mL: 10.6 mmol/mL, 97 % given at 5.4, 10.3 mEq/mL: 7.1 mL more than 3.
		name: "an alkaline mash: more acid", in: "bottled",
		sets: []string{"mash.ph=5.9", "liquor.acids[+].acid=lactic", "liquor.acids[0].strength=80 %",
			"liquor.acids[0].volume=3 mL", "liquor.acids[0].into=mash"},
		figure: "mash-ph", key: "liquor.acids[0].volume", value: "10 mL", expect: 5.4, within: 0.05, cause: "too little acid",
	},
	{
		// 3.5 L stayed behind where 1 to 2 are usual: 2 L more to be brewed; 23 − 3.5 L.
		name: "much left in the fermenter: brew more", in: "bottled",
		sets:   []string{"racked.volume=17.5 L", "packages[0].count=34"},
		figure: "racked", key: "aim.volume", value: "23 L", expect: 19.5, within: 0.05, cause: "sediment",
	},
	{
		// 18.5 L where 21 were aimed at, at the right gravity: 2.5 L of liquor more.
		name: "short of wort at the right gravity: more liquor", in: "bottled",
		sets:   []string{"fermenter.volume=18.5 L", "racked.volume=17.5 L", "sparge.liquor=18 L", "packages[0].count=34"},
		figure: "volume", key: "sparge.liquor", value: "20.5 L", expect: 21, within: 0.01, cause: "little liquor",
	},
	{
		// Alcohol alone is aimed at: 5.2 % for 4.2 is ten points, 52 in 21 L, at the same
		// 76 %: (1092 − 29) ÷ (0.711 × 300) = 4.98 kg by rule of thumb.
		name: "too weak, with no gravities aimed at: more grist", in: "bottled",
		sets:   []string{"aim.abv=5.2 %", "aim.og=", "aim.fg="},
		figure: "abv", key: "grist[0].weight", low: 4850, high: 5150, expect: 5.2, within: 0.02, cause: "tenth of a per cent",
	},
}

func TestProposalsWorkedByHand(t *testing.T) {
	for _, c := range workedProposals {
		t.Run(c.name, func(t *testing.T) {
			proposals, unproposed := Appraise(healthy.Sheet(t, c.in, "", c.sets...))
			p, ok := findProposal(proposals, figures.ID(c.figure))
			if !ok {
				t.Fatalf("nothing is proposed for %s; there are %v and %v", c.figure, proposals, unproposed)
			}
			if len(p.Sets) == 0 || p.Sets[0].Key != c.key || p.Key != "" && p.Key != c.key {
				t.Fatalf("the change is at %s, and the first of %v; want %s", p.Key, p.Sets, c.key)
			}
			if c.value != "" && p.Value != c.value {
				t.Errorf("%s=%s, want %s", p.Key, p.Value, c.value)
			}
			if to := p.moves[0].to; c.value == "" && (to < c.low || to > c.high) {
				t.Errorf("%s=%s, want %g to %g", p.Key, p.Value, c.low, c.high)
			}
			if math.Abs(p.Expect.Value-c.expect) > c.within {
				t.Errorf("expects %g ± %g, want %g", p.Expect.Value, p.Expect.PlusMinus, c.expect)
			}
			if !strings.Contains(p.Cause, c.cause) {
				t.Errorf("the cause is %q, want one with %q", p.Cause, c.cause)
			}
			readsWell(t, p)
			for _, set := range p.Sets[min(1, len(p.Sets)):] {
				// Of 115 Ldeg of sugar 21 ÷ 23 came out of the copper, 105: at (882 − 105) ÷ 1241
				// = 62.6 % the 115 are 0.61 kg of malt.
				if set.Key == "grist[0].weight" && set.Value != "4.61 kg" {
					t.Errorf("%s=%s, want 4.61 kg", set.Key, set.Value)
				}
			}
		})
	}
}

// readsWell holds a proposal's words to what all sentences here are held to.
func readsWell(t *testing.T, p Proposal) {
	t.Helper()
	for what, text := range map[string]string{"gap": p.Gap, "cause": p.Cause, "change": p.Change, "know": p.Know} {
		switch {
		case text == "" || !strings.HasSuffix(text, "."):
			t.Errorf("%s: the %s is no sentence: %q", p.Figure, what, text)
		case strings.Contains(text, "NaN") || strings.Contains(text, "%!") || strings.Contains(text, "  ") ||
			strings.Contains(text, ".."):
			t.Errorf("%s: the %s reads badly: %q", p.Figure, what, text)
		case len(text) > 260:
			t.Errorf("%s: the %s is too long (%d characters): %q", p.Figure, what, len(text), text)
		}
	}
	if p.Source == "" || len(p.From) == 0 || p.Expect.Kind == nil || p.Label() == "" {
		t.Errorf("%s lacks its source, its lines or its figure: %+v", p.Figure, p)
	}
	if math.Abs(p.Expect.Value-p.aim) > p.Expect.PlusMinus && p.Short == "" {
		t.Errorf("%s: %g ± %g does not cover the aim of %g, and nothing says why", p.Figure, p.Expect.Value,
			p.Expect.PlusMinus, p.aim)
	}
}

// TestWhatGivesNoProposal: a change that the readings cannot ask for, that follows
// from another, or that would hurt somebody, is not proposed, and the reason is said.
func TestWhatGivesNoProposal(t *testing.T) {
	for _, c := range []struct {
		name, in string
		sets     []string
		figure   string
		why      string
	}{
		{"within the doubt", "bottled", []string{"fermenter.gravity=1.0411"}, "og", "within what the readings can tell"},
		{"told but not worth it", "bottled", []string{"fermenter.volume=21.6 ± 0.1 L"}, "volume", "too little"},
		// 12.39 °P to 3.12 °P is 75 %, and 1.042 to 1.010 is too.
		{"the final gravity follows the original one", "bottled",
			[]string{"fermenter.gravity=1.050", "readings[1].gravity=1.0122", "readings[2].gravity=1.0122"}, "fg",
			"because the original gravity was"},
		{"the alcohol follows the gravities", "bottled",
			[]string{"aim.abv=4.2 %", "fermenter.gravity=1.050", "readings[1].gravity=1.010"}, "abv",
			"because the gravities are"},
		{"aims that do not agree", "bottled", []string{"aim.abv=6 %"}, "abv", "the aims do not agree"},
		{"fruit in it", "bottled", []string{"added[+].fruit=damson", "added[0].weight=1 kg", "readings[1].gravity=1.006",
			"readings[2].gravity=1.006"}, "fg", "cannot be told apart"},
		{"juice in it", "bottled", []string{"added[+].juice=apple juice", "added[0].volume=1 L", "readings[1].gravity=1.006",
			"readings[2].gravity=1.006"}, "fg", "cannot be told apart"},
		{"sugared water in it", "bottled", []string{"added[+].volume=1 L", "added[0].sugar=12 %",
			"readings[1].gravity=1.006", "readings[2].gravity=1.006"}, "fg", "cannot be told apart"},
		{"sugar in the fermenter", "bottled", []string{"grist[+].sugar=sucrose", "grist[2].weight=200 g",
			"grist[2].into=fermenter", "readings[1].gravity=1.006", "readings[2].gravity=1.006"}, "fg", "cannot be told apart"},
		{"more condition than a bottle may hold", "bottled", []string{"aim.condition=3.8 vol"}, "condition", "not proposed"},
		{"no dark malt to change", "bottled", []string{"aim.colour=40 EBC", "grist[1].malt=pale malt",
			"grist[1].weight=100 g"}, "colour", "no dark malt"},
		{"beer drawn off", "bottled", []string{"racked.volume=14 L", "packages[0].count=28"}, "racked", "drawn off"},
	} {
		t.Run(c.name, func(t *testing.T) {
			proposals, unproposed := Appraise(healthy.Sheet(t, c.in, "", c.sets...))
			if p, ok := findProposal(proposals, figures.ID(c.figure)); ok {
				t.Fatalf("proposed all the same: %+v", p)
			}
			for _, u := range unproposed {
				if u.Figure == figures.ID(c.figure) && strings.Contains(u.Why, c.why) {
					return
				}
			}
			t.Errorf("nothing says why %s gives no proposal (%q): %v", c.figure, c.why, unproposed)
		})
	}
}

// TestOnAimNothingIsProposed: gyles that came out as meant are left alone, and a
// gyle on paper has nothing to learn from yet.
func TestOnAimNothingIsProposed(t *testing.T) {
	// Three of them are healthy and not quite as aimed at.
	brought := map[string][]string{
		"bagged": {"priming.weight=24 g"}, "pouring": {"priming.weight=24 g"}, "kegged": {"racked.volume=19.5 L"},
	}
	for entry, day := range healthy.Days {
		for _, p := range Propose(healthy.Sheet(t, entry, day, brought[entry]...)) {
			t.Errorf("%s came out as aimed at, yet: %s %s", entry, p.Gap, p.Change)
		}
	}
}

// TestOwnYieldSizesTheGrist: with three gyles known, their median counts and not
// this gyle's slip.
func TestOwnYieldSizesTheGrist(t *testing.T) {
	s := healthy.Sheet(t, "bottled", "", "fermenter.gravity=1.038")
	usual := figures.Past{Yield: figures.Learned{Median: 71.1, HalfWidth: 2, Gyles: 5}}
	s.Past.Next = &usual
	// 0.711 × 1241 = 882 Ldeg: 42 points in 21 L with the grist as it is.
	proposals, unproposed := Appraise(s)
	if p, ok := findProposal(proposals, "og"); ok {
		t.Errorf("the yield was low this once, yet the grist is changed: %s", p.Change)
	}
	if len(unproposed) == 0 || !strings.Contains(unproposed[0].Why, "this once") {
		t.Errorf("nothing says that it was this once: %v", unproposed)
	}
	usual.Yield.Median = 66
	// (882 ÷ 0.66 − 41) ÷ 300 = 4.32 kg.
	p, ok := findProposal(Propose(s), "og")
	if !ok || p.moves[0].to < 4300 || p.moves[0].to > 4340 {
		t.Errorf("with a usual yield of 66 %%: %+v, want about 4.32 kg", p)
	}
	if !strings.Contains(p.Change, "median of your last 5 gyles") {
		t.Errorf("it does not say what it was sized by: %s", p.Change)
	}
}

// TestOwnGylesAreTold: where this gyle was not like the brewer's earlier ones, the cause
// says so with their number and median; where it was like them, or there are too few,
// it does not.
func TestOwnGylesAreTold(t *testing.T) {
	dry := []string{"readings[1].gravity=1.0065", "readings[2].gravity=1.0065"} // 84 %
	weak := []string{"fermenter.gravity=1.038"}                                 // a yield of 64.3 %
	for _, c := range []struct {
		name   string
		sets   []string
		figure string
		past   figures.Past
		says   string // "" where nothing is to be said
	}{
		{"dry beyond their yeast", dry, "fg", attenuated(76, 2, 4), "Your 4 gyles before with "},
		{"as dry as they were", dry, "fg", attenuated(83, 2, 4), ""},
		{"two are too few", dry, "fg", attenuated(76, 2, 2), ""},
		{"less than the goods give", weak, "og", figures.Past{Yield: figures.Learned{Median: 75, HalfWidth: 2, Gyles: 6}},
			"less than they usually do: "},
		{"the median of them", weak, "og", figures.Past{Yield: figures.Learned{Median: 75, HalfWidth: 2, Gyles: 6}},
			"75 % is the median of 6 gyles"},
		{"what the goods give", weak, "og", figures.Past{Yield: figures.Learned{Median: 65, HalfWidth: 2, Gyles: 6}}, ""},
		{"two yields are too few", weak, "og", figures.Past{Yield: figures.Learned{Median: 75, HalfWidth: 2, Gyles: 2}}, ""},
	} {
		s := healthy.Sheet(t, "bottled", "", c.sets...)
		s.Past = c.past
		s.Past.Next = &figures.Past{}
		p, ok := findProposal(Propose(s), figures.ID(c.figure))
		if !ok {
			t.Errorf("%s: nothing is proposed", c.name)
			continue
		}
		if told := strings.Contains(p.Cause, "gyles"); told != (c.says != "") || !strings.Contains(p.Cause, c.says) {
			t.Errorf("%s: %q, want %q", c.name, p.Cause, c.says)
		}
	}
}

// attenuated is what so many gyles have taught of the yeast of the healthy entries.
func attenuated(median, halfWidth float64, gyles int) figures.Past {
	return figures.Past{Attenuation: map[string]figures.Learned{"dried ale": {Median: median, HalfWidth: halfWidth,
		Gyles: gyles}}}
}

// TestAcidsWeighWhatTheySay: the straight lines that an acid's density is taken by lie
// within the twentieth that they own up to of the handbook values, at every strength
// that a bottle of it is sold at.
func TestAcidsWeighWhatTheySay(t *testing.T) {
	for word, c := range map[journal.AcidKind]struct {
		acid      brewing.Acid
		strengths []float64
	}{
		journal.Lactic:       {brewing.LacticAcid, []float64{80, 88, 90}},
		journal.Phosphoric:   {brewing.PhosphoricAcid, []float64{10, 25, 75, 85}},
		journal.Hydrochloric: {brewing.HydrochloricAcid, []float64{5, 15, 36}},
		journal.Sulphuric:    {brewing.SulphuricAcid, []float64{10, 37, 96}},
		journal.Citric:       {brewing.CitricAcid, []float64{10, 50}},
	} {
		for _, strength := range c.strengths {
			var bottle journal.Acid
			bottle.Acid.Word, bottle.Strength.Value = word, q.Percent(strength)
			acid, density, ok := acidOf(bottle)
			want, err := brewing.AcidDensity(c.acid, q.Percent(strength))
			if !ok || err != nil || acid != c.acid || math.Abs(float64(density/want)-1) > 0.05 {
				t.Errorf("%s acid of %v %%: %v (acid %d, %v), handbooks have %v", word, strength, density, acid, ok, want)
			}
		}
	}
	if _, _, ok := acidOf(journal.Acid{}); ok {
		t.Error("an acid without a name has a density")
	}
}

// TestTheBrewersOwnUnits: a change is asked for in the unit that the entry is
// written in.
func TestTheBrewersOwnUnits(t *testing.T) {
	for _, c := range []struct{ set, figure, want string }{
		{"grist[0].weight=8 lb 13 oz", "og", "lb"},
		{"mash.rests[0].at=151 F", "fg", "°F"},
	} {
		sets := []string{c.set, "fermenter.gravity=1.037", "readings[1].gravity=1.005", "readings[2].gravity=1.005"}
		p, ok := findProposal(Propose(healthy.Sheet(t, "bottled", "", sets...)), figures.ID(c.figure))
		if !ok || !strings.Contains(p.Value, c.want) {
			t.Errorf("%s: %s=%s, want it in %s", c.set, p.Key, p.Value, c.want)
		}
	}
}

func TestWritten(t *testing.T) {
	mass, heat, volume := q.KindOf[q.Mass](), q.KindOf[q.Temperature](), q.KindOf[q.Volume]()
	for _, c := range []struct {
		kind *q.Kind
		unit string
		x    float64
		want string
	}{
		{mass, "kg", 4437, "4.44 kg"},
		{mass, "g", 4437, "4440 g"},
		{mass, "g", 43.6, "44 g"},
		{mass, "g", 4.36, "4.4 g"},
		{mass, "lb", 3515, "7 lb 12 oz"},       // 7.75 lb of 453.592 g
		{mass, "lb", 3628.74, "8 lb"},          // eight of them
		{mass, "oz", 42, "1.5 oz"},             // 28.35 g each, to the twentieth of an ounce
		{mass, "oz", 500, "1 lb 1.5 oz"},       // 17.6 oz, to the half ounce
		{heat, "°C", 66.71, "66.5 °C"},         // to the half degree
		{heat, "°F", 66.6667, "152 °F"},        // 120 + 32
		{volume, "gal-uk", 20.5, "4.5 gal-uk"}, // 4.51 of 4.54609 L, to the twentieth
		{volume, "L", 17.86, "17.9 L"},
	} {
		if got := written(c.kind, c.unit, c.x); got != c.want {
			t.Errorf("%g in %s: %q, want %q", c.x, c.unit, got, c.want)
		}
	}
}

// findProposal is the proposal for a figure.
func findProposal(all []Proposal, figure figures.ID) (Proposal, bool) {
	for _, p := range all {
		if p.Figure == figure {
			return p, true
		}
	}
	return Proposal{}, false
}

// TestAPrimedKegIsPrimedLess: a cylinder takes nothing back, so that what is too lively by
// its sugar is not mended by another setting.
func TestAPrimedKegIsPrimedLess(t *testing.T) {
	s := healthy.Sheet(t, "kegged", "", "priming.sugar=sucrose", "priming.weight=120 g", "aim.condition=1.8 vol", "packages[0].gas.set=0.6 bar")
	p, ok := findProposal(Propose(s), figures.IDCondition)
	if !ok {
		t.Fatal("nothing is proposed")
	}
	for _, set := range p.Sets {
		if strings.Contains(set.Key, "gas") {
			t.Errorf("%s: %s", set.Key, p.Change)
		}
	}
	if math.Abs(p.Expect.Value-1.8) > 0.2 {
		t.Errorf("%s is expected to come to %g vol", p.Change, p.Expect.Value)
	}
}
