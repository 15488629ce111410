package journal

import (
	"encoding/csv"
	"math"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"gylebook/internal/quantity"
)

// TestBuiltInLarder: the built-in files read without an error, no two cards of
// a kind share a name, and each card says where its facts are from.
func TestBuiltInLarder(t *testing.T) {
	cards, errors := readLarder()
	if len(errors) > 0 {
		t.Errorf("errors:\n%s", listing(errors))
	}
	if taken := NewLarder(cards).taken; len(taken) > 0 {
		t.Errorf("shared names:\n%s", listing(taken))
	}
	counts := map[string]int{}
	for _, c := range cards {
		counts[c.Kind.String()]++
		if !c.BuiltIn || !c.Source.Written() || !c.Name.Written() || c.File == "" {
			t.Errorf("%s: no source, name or file: %+v", c.Name, c.Entry)
		}
	}
	for kind, least := range map[string]int{"malt": 25, "sugar": 12, "hop": 25, "yeast": 6, "fruit": 40, "style": 30,
		"salt": 8, "fining": 5, "cleaner": 5} {
		if counts[kind] < least {
			t.Errorf("%d cards of %s, want %d", counts[kind], kind, least)
		}
	}
}

// TestBuiltInSugars holds carbon dioxide to stoichiometry, worked here from the
// IUPAC 2021 abridged atomic masses: two molecules from each hexose.
func TestBuiltInSugars(t *testing.T) {
	const (
		carbon, hydrogen, oxygen = 12.011, 1.008, 15.999
		co2                      = carbon + 2*oxygen
		hexose                   = 6*carbon + 12*hydrogen + 6*oxygen
		water                    = 2*hydrogen + oxygen
		tolerance                = 0.01 // of a per cent: the cards give as much
	)
	l := NewLarder(nil)
	for name, want := range map[string]float64{
		"sucrose": 4 * co2 / (2*hexose - water), "table sugar": 4 * co2 / (2*hexose - water),
		"glucose": 2 * co2 / hexose, "fructose": 2 * co2 / hexose, "dextrose": 2 * co2 / (hexose + water), "Lactose": 0,
	} {
		if got := float64(l.Card(CardSugar, name).Sugar.CO2.Value); math.Abs(got-100*want) > tolerance {
			t.Errorf("%s gives %v %%, want %v", name, got, 100*want)
		}
	}
}

// TestBuiltInSalts: the ions of a salt weigh less than the salt, and positive
// and negative charges are equal. Slaked lime and chalk bring their carbon from
// dissolved gas.
func TestBuiltInSalts(t *testing.T) {
	for _, c := range NewLarder(nil).All(CardSalt) {
		s := c.Salt
		plus := float64(s.Calcium.Value)/40.078*2 + float64(s.Magnesium.Value)/24.305*2 + float64(s.Sodium.Value)/22.990
		minus := float64(s.Sulphate.Value)/96.06*2 + float64(s.Chloride.Value)/35.45 +
			float64(s.Bicarbonate.Value)/61.016
		if math.Abs(plus-minus) > 0.005*plus { // the ions are given to four digits
			t.Errorf("%s: charges %v and %v", c.Name, plus, minus)
		}
	}
}

// TestBuiltInStyles: every range of a style lies among the others as beer does.
func TestBuiltInStyles(t *testing.T) {
	for _, c := range NewLarder(nil).All(CardStyle) {
		s := c.Style
		if s.OG.Low <= s.FG.High || s.OG.Low < 1.025 || s.OG.High > 1.125 || s.ABV.High > 13 ||
			s.Bitterness.High > 120 || s.Colour.High > 90 {
			t.Errorf("%s: %+v", c.Name, s)
		}
	}
}

// published is the rows of a table of testdata/reference, without its head.
func published(t *testing.T, name string) [][]string {
	t.Helper()
	file, err := os.Open("../../testdata/reference/" + name)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	return rows[1:]
}

// TestBuiltInCasks holds the named casks to the published sizes.
func TestBuiltInCasks(t *testing.T) {
	held := 0
	for _, row := range published(t, "13a_cask_sizes.csv") {
		// A barrel, too, is a size; to a home brewer it is the plastic one.
		c := NewLarder(nil).Card(CardVessel, row[0])
		if c == nil || !c.Vessel.Is.Is(Cask) {
			continue
		}
		held++
		if math.Abs(float64(c.Vessel.Size.Value)-number64(t, row[2])) > 1e-5 {
			t.Errorf("%s: %v, want %s", row[0], c.Vessel.Size.Value, row[2])
		}
	}
	if held < 3 {
		t.Errorf("only %d casks of the table are known", held)
	}
}

// TestBuiltInStylesAsPublished holds every built-in style to a row of the guideline that its
// card names: names differ, all ten numbers must be the same.
func TestBuiltInStylesAsPublished(t *testing.T) {
	rows := published(t, "12_style_ranges.csv")
	for _, c := range NewLarder(nil).All(CardStyle) {
		s := c.Style
		numbers := []float64{
			float64(s.OG.Low), float64(s.OG.High), float64(s.FG.Low), float64(s.FG.High), float64(s.ABV.Low),
			float64(s.ABV.High),
			float64(s.Bitterness.Low), float64(s.Bitterness.High), float64(s.Colour.Low / quantity.SRM),
			float64(s.Colour.High / quantity.SRM),
		}
		if !slices.ContainsFunc(rows, func(row []string) bool {
			return strings.HasPrefix(c.Source.Text, strings.Fields(row[0])[0]) &&
				!slices.ContainsFunc([]int{0, 1, 2, 3, 4, 5, 6, 7, 8, 9}, func(i int) bool {
					return row[3+i] == "" || math.Abs(numbers[i]-number64(t, row[3+i])) > 1e-9*math.Abs(numbers[i])+1e-9
				})
		}) {
			t.Errorf("no row has the numbers of %s: %v", c.Name.Text, numbers)
		}
	}
}

func TestVessels(t *testing.T) {
	l := NewLarder(nil)
	for _, c := range []struct {
		name           string
		kind           VesselKind
		size, capacity float64
	}{
		{"soft bag 10 L", SoftBag, 10, 10}, {"Soft  Bag 10L", SoftBag, 10, 10}, {"bottle 500 mL", Bottle, 0.5, 0.525},
		{"keg 19 L", Keg, 19, 19.95},
		{"pressure barrel 25 L", PressureBarrel, 25, 26.25}, {"pin", Cask, 20.457405, 21.48027525},
		{"firkin", Cask, 40.91481, 42.9605505},
		{"kilderkin", Cask, 81.82962, 85.921101}, {"bucket", Bucket, 0, 0}, {"bucket 25 L", Bucket, 25, 26.25},
		{"keg 5 gal-us", Keg, 18.92705892, 19.873411866},
		{"bottle 1 pt-uk", Bottle, 0.56826125, 0.5966743125}, {"cask 10 L", Cask, 10, 10.5},
		{"demijohn 5 L", "", 0, 0}, {"", "", 0, 0}, {"500 mL", "", 0, 0}, {"the kegerator 19 L", "", 0, 0},
	} {
		card := l.Card(CardVessel, c.name)
		if card == nil {
			if c.kind != "" {
				t.Errorf("no %q", c.name)
			}
			continue
		}
		v := card.Vessel
		if v.Is.Word != c.kind || math.Abs(float64(v.Size.Value)-c.size) > 1e-9 ||
			math.Abs(float64(v.Capacity.Value)-c.capacity) > 1e-9 || v.Rated.Written() || !card.BuiltIn {
			t.Errorf("%q: %+v", c.name, v)
		}
		if v.Size.Written() != (c.size > 0) {
			t.Errorf("%q: an unknown size is written", c.name)
		}
	}
}

// TestLarder: a brewer's card wins, by its name and its other spellings.
func TestLarder(t *testing.T) {
	own := ReadFile("cards/g.md", []byte("---\ncard: hop\nname: Goldings\nalso: [fuggles, our own]\nalpha: 9 %\n---\n"),
		nil).Card
	keg := ReadFile("cards/k.md", []byte("---\ncard: vessel\nname: keg 19 L\nkind: keg\nrated: 9 bar\n---\n"), nil).Card
	l := NewLarder([]*Card{own, keg})
	for name, want := range map[string]float64{"goldings": 9, "GOLD INGS": 9, "Fuggles": 9, "our own": 9, "fuggle": 4.5,
		"east kent goldings": 5, "saaz": 3.5} {
		if c := l.Card(CardHop, name); c == nil || float64(c.Hop.Alpha.Value) != want {
			t.Errorf("%q: %+v, want alpha %v", name, c, want)
		}
	}
	if l.Card(CardMalt, "goldings") != nil || l.Card(CardHop, "quatloo") != nil || l.Card("nothing", "goldings") != nil {
		t.Error("a card that is not there")
	}
	if c := l.Card(CardVessel, "Keg 19L"); c != keg {
		t.Error("a vessel's own card does not win over its name")
	}
	for name, want := range map[string]string{"golding": "Goldings", "cascad": "cascade", "hallertaw": "hallertau",
		"quatloo": ""} {
		near := l.Near(CardHop, name)
		if want == "" && len(near) > 0 || want != "" && !slices.Contains(near, want) || len(near) > 3 {
			t.Errorf("near %q: %q, want %q", name, near, want)
		}
	}
	all := l.All(CardHop)
	if all[0] != own || slices.ContainsFunc(all[1:],
		func(c *Card) bool { return c.Name.Text == "goldings" || c.Name.Text == "fuggles" }) {
		t.Error("built-in cards that the brewer's stand in for are listed")
	}
}

func number64(t *testing.T, text string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatal(err)
	}
	return x
}

// TestBuiltInFruits: a fruit's ± takes in what each published table says of it.
func TestBuiltInFruits(t *testing.T) {
	l := NewLarder(nil)
	for _, row := range published(t, "17_fruit_sugar.csv") {
		c := l.Card(CardFruit, row[0])
		if c == nil {
			t.Errorf("no %s", row[0])
			continue
		}
		if off := math.Abs(float64(c.Fruit.Sugar.Value) - number64(t, row[1])); off > float64(c.Fruit.Sugar.Within) {
			t.Errorf("%s: %v ± %v %%, but %s say %s", row[0], c.Fruit.Sugar.Value, c.Fruit.Sugar.Within, row[2], row[1])
		}
	}
}

// TestCultures: what goes on where a beer yeast stops is known by its word, with
// a maker's, a number or another culture beside it.
func TestCultures(t *testing.T) {
	own := ReadFile("cards/b.md", []byte("---\ncard: yeast\nname: house brett\nattenuates: 90 %\n---\n"), nil).Card
	l := NewLarder([]*Card{own})
	for name, want := range map[string]struct {
		high float64
		slow bool
	}{
		"Brett": {100, true}, "brett. bruxellensis": {100, true}, "No. 3 Brettanomyces, dried": {100, true},
		"the neighbour's lambic dregs": {100, true},
		"lacto and brett":              {100, true}, "Lactobacillus": {80, false}, "sour pitch of L. lactobacillus": {100, true},
		"wild from the orchard": {100, true},
		"pedio":                 {85, true}, "S. cerevisiae var. diastaticus": {100, false}, "our saison blend": {100, false},
		"farmhouse kveik": {86, false},
		"house brett":     {90, false},
	} {
		c := l.Card(CardYeast, name)
		if c == nil || float64(c.Yeast.Attenuates.High) != want.high || c.Yeast.Superattenuates.Yes() != want.slow {
			t.Errorf("%q: %+v, want up to %v %%, slowly on: %v", name, c, want.high, want.slow)
		}
	}
	for _, name := range []string{"uncle's crock", "bretton ale", "lactose-tolerant ale", "mixture", ""} {
		if c := l.Card(CardYeast, name); c != nil {
			t.Errorf("%q is taken for %s", name, c.Name)
		}
	}
	if c := l.Card(CardYeast, "Brett  No. 7"); c.Name.Text != "Brett No. 7" ||
		builtIn().named[nameOf(CardYeast, "brett")].Name.Text != "brettanomyces" {
		t.Errorf("its name is %q", c.Name)
	}
	for _, c := range cultures {
		if builtIn().named[nameOf(CardYeast, c.card)] == nil {
			t.Errorf("no card of %s", c.card)
		}
	}
}

// TestAskedForNearNamesAndAnsweredAgain: what was asked can be asked of another
// larder while it is still being kept in mind.
func TestAskedForNearNamesAndAnsweredAgain(t *testing.T) {
	ours := NewLarder(nil).Overheard()
	if len(ours.Near(CardHop, "goldngs")) == 0 {
		t.Fatal("no hop near goldngs")
	}
	ours.Card(CardMalt, "pale malt")
	ours.All(CardYeast)
	done := make(chan bool, 1)
	go func() { done <- ours.AnsweredAlike(NewLarder(nil)) }()
	select {
	case alike := <-done:
		if !alike {
			t.Error("two empty larders answer differently")
		}
	case <-time.After(10 * time.Second):
		t.Fatal("it waits for itself")
	}
	card := &Card{}
	card.Kind.Word, card.Name.Text = CardHop, "goldngs"
	if ours.AnsweredAlike(NewLarder([]*Card{card})) {
		t.Error("a card of the very name that was asked for makes no difference")
	}
}
