package rules

import (
	"fmt"
	"slices"
	"strings"

	"gylebook/internal/assay"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
	"gylebook/internal/notice"
)

// peopleRules are about who drinks it.
func peopleRules() []Rule {
	return []Rule{
		{
			ID: "allergen-missing", Watches: sealed, Worst: notice.Danger,
			Source: "Regulation (EU) 1169/2011 Annex II, by which isinglass as a fining is exempt",
			When: "packaged, and a cereal with gluten, milk, nuts or egg in it is not on the label (look); " +
				"danger where a taster's card names that allergy",
			look: once(allergenMissing),
		},
		{
			ID: "under-age", Watches: always, Worst: notice.Danger, Source: "a UK government web archive on children and alcohol",
			When: say("a tasting by somebody whose card says under %d, or not adult", adultAge),
			Why:  "Alcohol harms a child sooner than it does an adult, and the law is plain.",
			Do:   "Give them none. If the card is out of date, correct it.",
			Next: "ask somebody who is of age.", mendable: (*inspection).notDrunk,
			look: per(tastings, underAge),
		},
	}
}

// allergen is something that must be told of, with the words that tell it.
type allergen struct {
	name  string
	words []string // on a label, or in a taster's card
}

// allergens are those that beer may have. Gluten tells of any cereal that has
// it.
func allergens() []allergen {
	return []allergen{
		{"barley", []string{"barley", "gluten", "cereals"}},
		{"wheat", []string{"wheat", "gluten", "cereals"}},
		{"rye", []string{"rye", "gluten", "cereals"}},
		{"oats", []string{"oat*", "gluten", "cereals"}},
		{"milk", []string{"milk", "lactose"}},
		{"nuts", append([]string{"nut", "nuts"}, nuts()...)},
		{"eggs", []string{"egg*"}},
	}
}

func nuts() []string {
	return []string{"almond*", "hazelnut*", "walnut*", "pecan*", "cashew*", "pistachio*", "macadamia*", "peanut*"}
}

// Allergens are the names of those in a beer, by its grist, what was added and
// what it was drawn from, in the order in which labels name them.
func Allergens(s *figures.Sheet) []string {
	in := map[string]bool{}
	addAllergens(s, in, 0)
	var names []string
	for _, a := range allergens() {
		if in[a.name] {
			names = append(names, a.name)
		}
	}
	return names
}

func addAllergens(s *figures.Sheet, in map[string]bool, depth int) {
	for _, g := range s.Gyle.Grist {
		if name := cereal(s.GrainCard(g), g); name != "" {
			in[name] = true
		}
		if assay.HasWord(g.Sugar.Name+" "+g.Syrup.Name, "lactose", "milk") {
			in["milk"] = true
		}
	}
	for _, a := range s.Gyle.Added {
		text := a.Other.Text + " " + a.Spice.Text + " " + a.Fruit.Name
		in["milk"] = in["milk"] || assay.HasWord(text, "milk", "lactose", "cream")
		in["nuts"] = in["nuts"] || assay.HasWord(text, nuts()...)
	}
	for _, f := range s.Gyle.Finings {
		in["eggs"] = in["eggs"] || assay.HasWord(assay.FiningFacts(s.Card(journal.CardFining, f.With)).Allergen.Text, "egg*")
	}
	for _, d := range s.Gyle.DrawnFrom {
		if s.Other == nil || depth > 3 {
			continue
		}
		if other := s.Other(d.Gyle.N); other != nil {
			addAllergens(other, in, depth+1)
		}
	}
}

// cereal is the cereal with gluten that a line of the grist brings, by its card,
// else by its name; "" for none.
func cereal(card *journal.Card, g journal.Grain) string {
	name := g.Malt.Name + " " + g.Adjunct.Name
	malt, sugar := assay.MaltFacts(card), assay.SugarFacts(card)
	switch {
	case malt.Gluten.No(), sugar.Gluten.No():
		return ""
	case malt.Cereal.Written():
		return withGluten(malt.Cereal.String())
	case sugar.Gluten.Yes():
		return "barley"
	case g.Syrup.Written() && assay.HasWord(g.Syrup.Name, "malt*", "wort") && !assay.HasWord(g.Syrup.Name, "wheat", "rice", "sorghum"):
		return "barley" // malt extract, whatever its maker calls it
	case g.Syrup.Written() && assay.HasWord(g.Syrup.Name, "wheat"):
		return "wheat"
	case !g.Malt.Written() && !g.Adjunct.Written():
		return ""
	case assay.HasWord(name, "maize", "corn", "rice", "buckwheat", "millet", "sorghum"):
		return ""
	}
	for _, grain := range []string{"wheat", "rye", "oats"} {
		if assay.HasWord(name, strings.TrimSuffix(grain, "s")+"*") {
			return grain
		}
	}
	return "barley"
}

func withGluten(cereal string) string {
	if slices.Contains([]string{"barley", "wheat", "rye", "oats"}, cereal) {
		return cereal
	}
	return ""
}

func allergenMissing(c *inspection) Found {
	in, label := Allergens(c.Sheet), c.labelText()
	var missing []string
	allergic := false
	for _, a := range allergens() {
		if slices.Contains(in, a.name) && !assay.HasWord(label, a.words...) {
			missing = append(missing, a.name)
			allergic = allergic || c.someoneAllergic(a)
		}
	}
	if len(c.Live()) == 0 || len(missing) == 0 {
		return Found{}
	}
	f := Found{Where: c.labelLine(), Says: fmt.Sprintf("The label does not name the %s in it.", list(missing))}
	names := "label.allergens: [" + strings.Join(missing, ", ") + "]"
	if allergic {
		f.Why = "The card of one of your tasters names that allergy: a glass may be enough to harm."
		f.Do = fmt.Sprintf("Keep it away from them. Mark every container, and the label (%s).", names)
		return f
	}
	f.Severity = notice.Look
	f.Why = "Whoever must avoid it has nothing else to go by."
	f.Do = fmt.Sprintf("Put it on the label (%s), and tell guests before they drink.", names)
	return f
}

// labelText is all that the label says.
func (c *inspection) labelText() string {
	text := c.Gyle.Label.Text.Text
	for _, a := range c.Gyle.Label.Allergens {
		text += " " + a.Text
	}
	return text
}

// labelLine is where a finding about the label points: to it, else to the first
// container.
func (c *inspection) labelLine() journal.Where {
	if c.Gyle.Label.Written() {
		return c.Gyle.Label.Where
	}
	for _, k := range c.Live() {
		return assay.WhereOf(k)
	}
	return journal.Where{}
}

// someoneAllergic tells whether any taster's card names an allergen.
func (c *inspection) someoneAllergic(a allergen) bool {
	if c.Larder == nil {
		return false
	}
	for _, card := range c.Larder.All(journal.CardTaster) {
		if card.Taster == nil {
			continue
		}
		for _, allergy := range card.Taster.Allergies {
			if assay.HasWord(allergy.Text, a.words...) {
				return true
			}
		}
	}
	return false
}

// list joins names as a sentence does.
func list(names []string) string {
	if len(names) < 2 {
		return strings.Join(names, "")
	}
	return strings.Join(names[:len(names)-1], ", ") + " and " + names[len(names)-1]
}

func underAge(c *inspection, t journal.Tasting) Found {
	card := c.Card(journal.CardTaster, t.By)
	if card == nil || card.Taster == nil || !c.Come(t.When) && t.When.Written() {
		return Found{}
	}
	young := card.Taster.Age.Written() && float64(card.Taster.Age.N) < adultAge.Number
	if !young && !card.Taster.Adult.No() {
		return Found{}
	}
	return Found{Where: t.Where, Says: "This tasting is by somebody who is under age, by their card."}
}
