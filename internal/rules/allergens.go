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

// allergen is one of those that Regulation (EU) 1169/2011, Annex II, wants told of.
type allergen struct {
	name string // as a label has it
	// brought are the words in what goes in that bring it; cereals are told by their cards.
	brought []string
	told    []string // words on a label, or in a taster's card, besides its name
}

// allergens are the fourteen of Annex II, the cereals with gluten one by one. Peanuts are no
// nuts there. Fish is not among what is looked for: isinglass as a fining is exempt, and a
// sauce that brings it is told by its name.
var allergens = []allergen{
	{name: "barley", told: []string{"gluten", "cereals", "coeliac", "celiac"}},
	{name: "wheat", told: []string{"gluten", "cereals", "coeliac", "celiac"}},
	{name: "rye", told: []string{"gluten", "cereals", "coeliac", "celiac"}},
	{name: "oats", told: []string{"oat*", "gluten", "cereals", "coeliac", "celiac"}},
	{name: "crustaceans", brought: []string{"crab*", "shrimp*", "prawn*", "lobster*", "crayfish", "krill", "crustacean*"}},
	{name: "eggs", brought: []string{"egg", "eggs", "albumen", "meringue*"}, told: []string{"egg"}},
	{name: "fish", brought: []string{"fish", "anchov*", "bonito", "worcester*"}},
	{name: "peanuts", brought: []string{"peanut*", "groundnut*"}, told: []string{"peanut*"}},
	{name: "soya", brought: []string{"soya*", "soy", "tofu", "miso", "soybean*"}, told: []string{"soy*"}},
	{name: "milk", brought: []string{"milk", "lactose", "cream", "whey", "butter", "buttermilk", "yoghurt", "yogurt"}, told: []string{"lactose"}},
	{name: "nuts", brought: nutNames, told: append([]string{"nut"}, nutNames...)},
	{name: "celery", brought: []string{"celer*"}, told: []string{"celer*"}},
	{name: "mustard", brought: []string{"mustard*"}},
	{name: "sesame", brought: []string{"sesam*", "tahini"}, told: []string{"sesam*"}},
	{name: "sulphites", brought: []string{"sulphit*", "sulfit*", "metabisul*", "bisul*", "campden", "sulphur", "sulfur"}, told: []string{"sulphit*", "sulfit*", "sulphur", "sulfur"}},
	{name: "lupin", brought: []string{"lupin*"}},
	{name: "molluscs", brought: []string{"oyster*", "mussel*", "clam*", "squid", "scallop*", "mollus*"}, told: []string{"oyster*", "mollus*"}},
}

// nutNames are the nuts that Annex II lists.
var nutNames = []string{
	"almond*", "marzipan", "amaretto", "hazelnut*", "filbert*", "praline*", "walnut*", "pecan*", "cashew*", "pistachio*", "macadamia*", "nuts",
}

// Allergens are the names of those in a beer, by its grist, what was added and
// what it was drawn from, in the order in which labels name them.
func Allergens(s *figures.Sheet) []string {
	in := map[string]bool{}
	addAllergens(s, in, 0)
	var names []string
	for _, a := range allergens {
		if in[a.name] {
			names = append(names, a.name)
		}
	}
	return names
}

func addAllergens(s *figures.Sheet, in map[string]bool, depth int) {
	brought := func(text string) {
		text = strings.ReplaceAll(strings.ToLower(text), "brazil nut ", "nuts ")
		for _, plant := range []string{"peanut butter", "cocoa butter", "shea butter", "coconut milk", "coconut cream", "oat milk", "cream of tartar"} {
			text = strings.ReplaceAll(text, plant, strings.Fields(plant)[0])
		}
		for _, a := range allergens {
			in[a.name] = in[a.name] || assay.HasWord(text, a.brought...)
		}
	}
	for _, g := range s.Gyle.Grist {
		if name := cereal(s.GrainCard(g), g); name != "" {
			in[name] = true
		}
		brought(g.Sugar.Name + " " + g.Syrup.Name + " " + g.Adjunct.Name)
	}
	for _, a := range s.Gyle.Added {
		brought(a.Other.Text + " " + a.Spice.Text + " " + a.Fruit.Name + " " + a.Juice.Name)
	}
	for _, f := range s.Gyle.Finings {
		if told := assay.FiningFacts(s.Card(journal.CardFining, f.With)).Allergen.Text; !strings.EqualFold(told, "fish") {
			brought(told)
		}
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
	if assay.HasWord(name, "spelt", "kamut", "einkorn", "emmer", "triticale", "semolina", "couscous") {
		return "wheat"
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
	for _, a := range allergens {
		if slices.Contains(in, a.name) && !a.isTold(label) {
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

// isTold tells whether a text names an allergen.
func (a allergen) isTold(text string) bool {
	return assay.HasWord(text, a.name) || assay.HasWord(text, a.told...)
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
			if a.isTold(allergy.Text) {
				return true
			}
		}
	}
	return false
}
