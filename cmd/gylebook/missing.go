package main

import (
	"fmt"
	"slices"
	"strings"

	"gylebook/internal/figures"
)

// printMissing says what one more reading would give. A figure that is missing
// of several parts is named once.
func printMissing(out paper, s *figures.Sheet) {
	var order []string
	lacking := map[string][]figures.Missing{}
	for _, m := range s.Missing {
		by := "With " + strings.Join(m.Needs, " and ")
		if len(m.Needs) == 0 {
			by = "Withheld, since " + m.Because
		}
		if lacking[by] == nil {
			order = append(order, by)
		}
		lacking[by] = append(lacking[by], m)
	}
	if len(order) > 0 {
		fmt.Fprintf(out, "\n%s\n", out.ink(bold, "Missing"))
	}
	for _, by := range order {
		out.hanging("  ", "    ", by+": "+strings.Join(labelsOf(s, lacking[by]), ", "))
	}
}

// labelsOf names what is missing, each figure once, with its part where there
// is only one.
func labelsOf(s *figures.Sheet, missing []figures.Missing) []string {
	parts := map[string]int{}
	for _, m := range missing {
		parts[m.Figure]++
	}
	var labels []string
	for _, m := range missing {
		label := m.Figure
		if at := slices.IndexFunc(figures.Kinds(), func(k *figures.Kind) bool { return k.ID == m.Figure }); at >= 0 {
			label = midSentence(figures.Kinds()[at].Label)
		}
		if m.Of != "" && parts[m.Figure] == 1 {
			label += " (" + named(s, m.Of) + ")"
		}
		if !slices.Contains(labels, label) {
			labels = append(labels, label)
		}
	}
	return labels
}
