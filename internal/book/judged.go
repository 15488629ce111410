package book

import (
	"slices"
	"strings"

	"gylebook/internal/proposals"
)

// Outcomes are what came of the proposals of the gyle that this one follows, where
// their change was made, and what else was changed at the same time: with that, what
// did it cannot be told apart.
func (g *Gyle) Outcomes() (outcomes []proposals.Outcome, others []string) {
	step, ok := g.Step()
	if !ok {
		return nil, nil
	}
	var levers []string
	var parts []Part
	for _, p := range proposals.Propose(g.Follows.Sheet) {
		if o, made := p.Judge(g.Sheet); made {
			outcomes = append(outcomes, o)
			levers = append(levers, o.Levers()...)
			parts = append(parts, moving(o.Figure)...)
		}
	}
	for _, c := range step.Recipe {
		if slices.Contains(parts, c.Part) && !slices.ContainsFunc(levers, func(what string) bool { return c.isOf(what) }) {
			others = append(others, strings.ToLower(c.Label))
		}
	}
	return outcomes, others
}

// moving are the parts of a recipe that move a figure.
func moving(figure string) []Part {
	switch figure {
	case "og", "volume", "racked":
		return []Part{OfGrist, OfCopper}
	case "fg", "abv":
		return []Part{OfGrist, OfMash, OfYeast}
	case "bitterness":
		return []Part{OfHops, OfCopper}
	case "colour":
		return []Part{OfGrist}
	case "mash-heat", "mash-ph":
		return []Part{OfGrist, OfMash}
	}
	return nil
}

// isOf tells whether a row of the recipe is the one that a proposal moved.
func (c Change) isOf(what string) bool {
	label := strings.ToLower(c.Label)
	switch what {
	case "the mash":
		return c.Part == OfMash && strings.Contains(label, "rest")
	case "the boil":
		return c.Part == OfCopper
	}
	return what != "" && strings.Contains(label, strings.TrimPrefix(what, "the "))
}
