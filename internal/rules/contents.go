package rules

import (
	"fmt"
	"math"

	"gylebook/internal/assay"
	"gylebook/internal/figures"
	"gylebook/internal/notice"
	q "gylebook/internal/quantity"
)

// contentsRules are about what a container holds that it cannot, and a gauge that says
// otherwise than the account.
func contentsRules() []Rule {
	return []Rule{
		{
			ID: "overfilled", Watches: always, Worst: notice.Mend, Source: "definition",
			When: "more beer noted in a container than it holds to the brim, beyond the doubt of both",
			look: overfilled,
		},
		{
			ID: "gauge-disagrees", Watches: sealed, Worst: notice.Mend, Source: solubility,
			When: "a gauge read on a container that is higher (mend) or lower (look) than the account can explain, beyond the doubts of both",
			look: gaugeDisagrees,
		},
		{
			ID: "aim-impossible", Watches: always, Worst: notice.Mend, Source: "definition",
			When: "an aim of a final gravity above the original one",
			look: aimImpossible,
		},
	}
}

func overfilled(c *inspection) []Found {
	var found []Found
	for _, k := range c.Containers() {
		fill, ok := figures.AsRead(k.Package.Fill)
		holds := c.CapacityOf(k)
		if !ok || holds <= 0 {
			continue
		}
		fill.PlusMinus = overfilledBy.Number / 100 * holds
		if assay.Over(fill, holds) < assay.Surely {
			continue
		}
		found = append(found, Found{
			Severity: notice.Mend, Where: k.Package.Fill.Where, Of: k.Key,
			Says: fmt.Sprintf("%s is noted with %s of beer, and holds %s to the brim.", the(k), c.Exactly(fill.Value, "L"), c.Exactly(holds, "L")),
			Why:  "Gas and pressure go by the room above the beer, and there is none; full to the brim nothing gives when it warms.",
			Do:   "Correct the fill or the vessel. If it is so full, pour some off before it is warm.",
		})
	}
	return found
}

func gaugeDisagrees(c *inspection) []Found {
	var found []Found
	for _, g := range c.Gauges() {
		off := g.Read.PlusMinus + g.PlusOff
		high, low := g.Read.Value-off > g.Most, g.Read.Value+off < g.Least
		k, ok := c.containerOf(g.Of)
		if !ok || !high && !low {
			continue
		}
		f := Found{
			Severity: notice.Look, Where: g.Where, Of: g.Of,
			Says: fmt.Sprintf("The gauge on %s showed %s; by what the entry says it should have been at least %s.", k.Called(), c.Measure(g.Read), c.PressureAtLeast(hundredths(g.Least))),
			Why:  "It leaks, it was let out without a note, or less went in than is written.",
			Do:   "Listen at the seals with soapy water, and note when it was vented (done).",
		}
		if high {
			f.Severity = notice.Mend
			f.Says = fmt.Sprintf("The gauge on %s showed %s; by what the entry says it should have been no more than %s.", k.Called(), c.Measure(g.Read), c.PressureAtMost(hundredths(g.Most)))
			f.Why = "More has gone in or fermented than the entry tells of, and the gauge is believed."
			f.Do = c.relief(k) + " Then look for what is not written: sugar, gas, a reading that was too low."
		}
		found = append(found, f)
	}
	return found
}

// hundredths is a pressure as a gauge shows it.
func hundredths(bar float64) float64 { return math.Round(bar*100) / 100 }

func aimImpossible(c *inspection) []Found {
	aim := c.Gyle.Aim
	og, known := figures.AsRead(aim.OG)
	fg, both := figures.AsRead(aim.FG)
	if !known || !both || fg.Value <= og.Value {
		return nil
	}
	return []Found{{
		Severity: notice.Mend, Where: aim.FG.Where,
		Says: fmt.Sprintf("The aim is a final gravity of %s, above the original one of %s.", assay.SG(q.Gravity(fg.Value)), assay.SG(q.Gravity(og.Value))),
		Why:  "Fermentation only lowers gravity, and what is worked for the aim goes wrong.",
		Do:   "Correct the one that is wrong (aim.og, aim.fg).",
	}}
}
