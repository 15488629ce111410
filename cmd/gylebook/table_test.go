package main

import (
	"strings"
	"testing"
	"unicode/utf8"

	"gylebook/internal/site/view"
)

func TestTableFitsAPhoneAndLinesUp(t *testing.T) {
	measure := func(value, plusMinus, unit string) view.Measure {
		return view.Measure{Value: value, PlusMinus: plusMinus, Unit: unit}
	}
	g := view.Gyle{Workings: []view.Working{
		{Family: "Gravity", Label: "Original gravity", Cases: []view.Case{{Got: measure("1.0408", "0.0012", "SG")}}},
		{Family: "Gravity", Label: "Final gravity", Cases: []view.Case{{Got: measure("1.0093", "0.0012", "SG"), Provisional: true}}},
		{Family: "Alcohol", Label: "Alcohol", Cases: []view.Case{{Got: measure("4.1", "0.2", "% vol")}}},
		{Family: "Containers", Label: "Pressure at the warmest", Cases: []view.Case{
			{Of: "soft bag 10 L no. 1", Got: measure("0.0", "", "bar")},
			{Of: "soft bag 10 L no. 2", Got: measure("0.04", "0.03", "bar")},
			{Of: "24 × bottle 500 mL", Got: measure("1.9", "0.2", "bar"), Note: "with the air that was sealed in"},
		}},
		{Family: "Containers", Label: "Condition", Cases: []view.Case{
			{Got: measure("1.9", "0.2", "vol"), Provisional: true, Note: "by the aim"}, {Of: "pin", Got: measure("1.2", "0.2", "vol")},
		}},
		{Family: "Dates", Label: "Ready on", Cases: []view.Case{{Got: measure("2026-04-02", "3 days", ""), Date: true}}},
	}}
	const want = `
Gravity
  Original gravity        1.0408 ± 0.0012 SG
  Final gravity           1.0093 ± 0.0012 SG
    provisional

Alcohol
  Alcohol                    4.1 ± 0.2    % vol

Containers
  Pressure at the warmest
    soft bag 10 L no. 1      0.0          bar
    soft bag 10 L no. 2     0.04 ± 0.03   bar
    24 × bottle 500 mL       1.9 ± 0.2    bar
      with the air that was sealed in
  Condition                  1.9 ± 0.2    vol
    provisional; by the aim
    pin                      1.2 ± 0.2    vol

Dates
  Ready on                2026-04-02 ± 3 days
`
	var out strings.Builder
	printFigures(paper{Writer: &out, width: slender}, g, false)
	if out.String() != want {
		t.Errorf("printed\n%s\nwant\n%s", out.String(), want)
	}
	for _, width := range []int{slender, 40, 30} {
		out.Reset()
		printFigures(paper{Writer: &out, width: width}, g, false)
		for line := range strings.Lines(out.String()) {
			if n := utf8.RuneCountInString(strings.TrimSuffix(line, "\n")); n > max(width, 42) {
				t.Errorf("at width %d a line has %d characters: %s", width, n, line)
			}
		}
	}
}
