package main

import (
	"math"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"gylebook/internal/figures"
	"gylebook/internal/journal"
)

// kindOf is a figure as declared.
func kindOf(t *testing.T, id string) *figures.Kind {
	t.Helper()
	for _, k := range figures.Kinds() {
		if k.ID == id {
			return k
		}
	}
	t.Fatalf("there is no figure %s", id)
	return nil
}

func TestTableFitsAPhoneAndLinesUp(t *testing.T) {
	name := func(n string) journal.Name { return journal.Name{Name: n} }
	s := &figures.Sheet{
		Gyle: &journal.Gyle{Packages: []journal.Package{
			{Vessel: name("soft bag 10 L")}, {Vessel: name("soft bag 10 L")}, {Vessel: name("bottle 500 mL"), Count: journal.Whole{N: 24}}, {},
		}},
		Figures: []figures.Figure{
			{Kind: kindOf(t, "abv"), Value: 4.12, PlusMinus: 0.24},
			{Kind: kindOf(t, "og"), Value: 1.0408, PlusMinus: 0.0012},
			{Kind: kindOf(t, "fg"), Value: 1.0093, PlusMinus: 0.0012, Provisional: true},
			{Kind: kindOf(t, "pressure-warmest"), Of: "packages[0]", Value: 0, PlusMinus: math.NaN()},
			{Kind: kindOf(t, "pressure-warmest"), Of: "packages[1]", Value: 0.0412, PlusMinus: 0.031},
			{Kind: kindOf(t, "pressure-warmest"), Of: "packages[2]", Value: 1.9, PlusMinus: 0.2, Note: "with the air that was sealed in"},
			{Kind: kindOf(t, "pressure-warmest"), Of: "packages[3]", Value: 1.2, PlusMinus: 0.2},
			{Kind: kindOf(t, "ready-on"), Date: time.Date(2026, 4, 2, 12, 0, 0, 0, time.UTC), PlusMinus: 3},
		},
	}
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
    packages[3]              1.2 ± 0.2    bar

Dates
  Ready on                2026-04-02 ± 3 days
`
	var out strings.Builder
	tableOf(s).print(paper{Writer: &out, width: slender})
	if out.String() != want {
		t.Errorf("printed\n%s\nwant\n%s", out.String(), want)
	}
	for _, width := range []int{slender, 40, 30} {
		out.Reset()
		tableOf(s).print(paper{Writer: &out, width: width})
		for line := range strings.Lines(out.String()) {
			if n := utf8.RuneCountInString(strings.TrimSuffix(line, "\n")); n > max(width, 42) {
				t.Errorf("at width %d a line has %d characters: %s", width, n, line)
			}
		}
	}
}

func TestEveryHeadingStandsBeforeAFigure(t *testing.T) {
	for id := range headings {
		kindOf(t, id)
	}
}
