package causes

import (
	"fmt"

	"gylebook/internal/assay"
	"gylebook/internal/figures"
)

// servingCauses are about the glass itself.
func servingCauses() []Cause {
	return []Cause{
		{
			ID: "serving", Name: "it was served too cold or too warm", Source: assay.BarChecklist,
			Now: "Bring it to {11 to 13 °C} and taste it again.", Next: "Note the heat in the glass with each tasting.",
			Tests: []Test{
				{For: "the glass under 9 or over 15 °C", Against: "found at 11 to 13 °C too", Weight: Measurement, Needs: "tastings[].at", look: servedWrong},
			},
		},
	}
}

// servedWrong looks at all glasses with the word: one that was served right is
// enough to speak against the serving.
func servedWrong(x *exam) Sign {
	sign := unknown
	for _, t := range x.found {
		f, ok := figures.AsRead(x.heatOf(t))
		if !ok {
			continue
		}
		says := fmt.Sprintf("the glass was at %s", x.Measure(f))
		cold := x.judged(f, serveTooCold, serveRightLow, says)
		warm := x.judged(f, serveTooWarm, serveRightHigh, says)
		switch {
		case cold.Voice == Against && warm.Voice == Against:
			warm.May = cold.May || warm.May
			return warm
		case cold.Voice == For:
			sign = cold
		case warm.Voice == For:
			sign = warm
		case sign.Voice == Unknown:
			sign = silent
		}
	}
	return sign
}
