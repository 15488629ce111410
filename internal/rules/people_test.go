package rules

import (
	"strings"
	"testing"

	"gylebook/internal/assay/healthy"
)

// TestAllergens: what is in the beer, by grist, additions and the names that
// brewers give to malt extract.
func TestAllergens(t *testing.T) {
	for _, c := range []struct {
		sets []string
		want string
	}{
		{nil, "barley"},
		{[]string{"grist[1]=", "grist[0]=", "grist[+].syrup=hopped malt extract", "grist[0].weight=1.5 kg"}, "barley"},
		{[]string{"grist[+].syrup=wheat malt extract", "grist[2].weight=1 kg"}, "barley, wheat"},
		{[]string{"grist[+].syrup=rice syrup", "grist[2].weight=1 kg"}, "barley"},
		{[]string{"grist[+].sugar=lactose", "grist[2].weight=300 g"}, "barley, milk"},
		{[]string{"grist[+].adjunct=flaked oats", "grist[2].weight=300 g"}, "barley, oats"},
		{adding("other", "peanut butter powder"), "barley, peanuts"},
		{adding("other", "coconut milk"), "barley"},
		{adding("spice", "celery seed"), "barley, celery"},
		{adding("spice", "mustard seed"), "barley, mustard"},
		{adding("other", "toasted sesame"), "barley, sesame"},
		{adding("other", "soy lecithin"), "barley, soya"},
		{adding("other", "roasted lupin seed"), "barley, lupin"},
		{adding("other", "oysters in their shells"), "barley, molluscs"},
		{adding("other", "crab shells"), "barley, crustaceans"},
		{adding("other", "campden tablet"), "barley, sulphites"},
		{adding("other", "egg white"), "barley, eggs"},
		{adding("other", "brazil nuts"), "barley, nuts"},
		{adding("spice", "nutmeg"), "barley"},
		{adding("other", "brazil coffee beans"), "barley"},
		{adding("other", "brazil nut essence"), "barley, nuts"},
		{[]string{"grist[+].adjunct=spelt flakes", "grist[2].weight=300 g"}, "barley, wheat"},
		{[]string{"grist[+].adjunct=buckwheat", "grist[2].weight=300 g"}, "barley"},
		{[]string{"added[+].other=hazelnut essence", "added[0].into=fermenter", "added[0].when=2026-03-05"}, "barley, nuts"},
	} {
		if got := strings.Join(Allergens(healthy.Sheet(t, "bottled", "", c.sets...)), ", "); got != c.want {
			t.Errorf("%v: %q, want %q", c.sets, got, c.want)
		}
	}
}

func adding(key, what string) []string {
	return []string{"added[+]." + key + "=" + what, "added[0].into=fermenter", "added[0].when=2026-03-05"}
}

// TestPeanutsAreNoNuts: a label that names nuts does not tell of peanuts, nor the other way
// round.
func TestPeanutsAreNoNuts(t *testing.T) {
	for _, c := range []struct {
		what, label string
		told        bool
	}{
		{"peanut", "nuts", false}, {"peanut", "peanuts", true}, {"walnut", "peanuts", false}, {"walnut", "nuts", true}, {"walnut", "walnuts", true},
	} {
		sets := append(adding("other", c.what), "label.allergens[0]=barley", "label.allergens[+]="+c.label)
		missing := false
		for _, n := range Examine(healthy.Sheet(t, "bottled", "", sets...)) {
			missing = missing || n.ID == "allergen-missing"
		}
		if missing == c.told {
			t.Errorf("%s, labelled %s: told %t", c.what, c.label, !missing)
		}
	}
}
