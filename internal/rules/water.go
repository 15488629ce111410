package rules

import (
	"fmt"
	"math"

	"gylebook/internal/figures"
	"gylebook/internal/notice"
	q "gylebook/internal/quantity"
)

// waterRules are about the report of the water.
func waterRules() []Rule {
	return []Rule{
		{
			ID: "water-unbalanced", Watches: []figures.Stage{figures.Paper, figures.Copper}, Worst: notice.Look,
			Source:  "electroneutrality; the bound is common practice, no source",
			When:    "all six ions on the water's card, and its metals and the others more than 0.5 mEq/L of charge apart",
			Example: Example{In: "mashing", Raises: []string{"liquor.water=old report"}, Spares: []string{"liquor.water=new report"}, On: "2026-03-01 09:40"},
			look:    waterUnbalanced,
		},
	}
}

// unbalancedBy is how far apart, in mEq/L, the charges of a water report may be: 10
// mg/L of calcium, or 30 of bicarbonate (common practice, no source).
const unbalancedBy = 0.5

func waterUnbalanced(c *inspection) []Found {
	balance, card, ok := c.WaterBalance()
	if !ok || math.Abs(balance.Value) <= unbalancedBy {
		return nil
	}
	much, little := "calcium, magnesium and sodium", "sulphate, chloride and bicarbonate"
	if balance.Value < 0 {
		much, little = little, much
	}
	return []Found{{
		Severity: notice.Look, Where: card,
		Says: fmt.Sprintf("The report of %s does not balance: it has %s mEq/L more of %s than of %s.", c.Gyle.Liquor.Water.Name, q.Fixed(math.Abs(balance.Value), 1), much, little),
		Why:  "No water is like that: the report is a mean of several days, in other units, or lacks an ion. What is worked from it may be as far off.",
		Do:   "Look for an ion that is missing or is given as something else, alkalinity as CaCO₃ above all; else ask for one day's analysis.",
	}}
}
