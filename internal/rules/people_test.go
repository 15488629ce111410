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
		{[]string{"added[+].other=hazelnut essence", "added[0].into=fermenter", "added[0].when=2026-03-05"}, "barley, nuts"},
	} {
		if got := strings.Join(Allergens(healthy.Sheet(t, "bottled", "", c.sets...)), ", "); got != c.want {
			t.Errorf("%v: %q, want %q", c.sets, got, c.want)
		}
	}
}
