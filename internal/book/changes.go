package book

import (
	"math"
	"slices"
	"strings"

	"gylebook/internal/figures"
	"gylebook/internal/proposals"
)

// Step is what one revision changed, and what came of it.
type Step struct {
	From, To *Gyle
	// Recipe are the rows of the recipe that differ; a part that one of the two
	// has nothing of, as the yeast of a gyle on paper, is not compared. Results
	// are those of what came out, whether or not they differ by more than their
	// doubt.
	Recipe, Results []Change
}

// Change is one row of two neighbours.
type Change struct {
	Part    Part
	Label   string
	Subject *Subject
	Figure  figures.ID
	Was, Is Cell
	// By is Is less Was in the unit, NaN where one side has no number; PlusMinus
	// is its doubt, by the two sides' own, NaN where neither has one. The bias of
	// an instrument that both share is not taken off, so the doubt is rather too
	// large.
	By, PlusMinus float64
	Unit          string
}

// Clear tells whether the difference is larger than its doubt: what the
// readings cannot tell is no difference to learn from.
func (c Change) Clear() bool {
	switch {
	case c.Was.Known != c.Is.Known:
		return true
	case math.IsNaN(c.By):
		return c.Was.Text != c.Is.Text
	case math.IsNaN(c.PlusMinus):
		return differs(c)
	}
	return math.Abs(c.By) > c.PlusMinus
}

// Steps are what each revision of a family changed, in the order of brewing.
func (f *Family) Steps() []Step {
	var steps []Step
	for _, g := range f.Gyles {
		if step, ok := g.Step(); ok {
			steps = append(steps, step)
		}
	}
	return steps
}

// Step is what this gyle changed in the one it follows; ok is false where it
// follows none.
func (g *Gyle) Step() (step Step, ok bool) {
	if g.Follows == nil {
		return Step{}, false
	}
	return stepOf(g.Follows, g), true
}

func stepOf(from, to *Gyle) Step {
	s := Step{From: from, To: to}
	rows := SideBySide([]*Gyle{from, to})
	written := func(part Part, side int) bool {
		return slices.ContainsFunc(rows, func(r Row) bool { return r.Part == part && r.Cells[side].Known })
	}
	for _, r := range rows {
		c := changeOf(r, r.Cells[0], r.Cells[1])
		both := c.Was.Known && c.Is.Known
		switch {
		case r.Part == OfResult && both:
			s.Results = append(s.Results, c)
		case r.Part != OfResult && (both || r.Used && written(r.Part, 0) && written(r.Part, 1)) && differs(c):
			s.Recipe = append(s.Recipe, c)
		}
	}
	return s
}

// differs tells that a line of the recipe is another: by its number or manner,
// or where it has no number by its words. An amount in other units is the same
// one.
func differs(c Change) bool {
	if c.Was.Known != c.Is.Known {
		return true
	}
	if math.IsNaN(c.By) {
		return c.Was.Text != c.Is.Text
	}
	return !alike(c.Was.Value, c.Is.Value) || !alike(c.Was.Share, c.Is.Share) || c.Was.manner != c.Is.manner
}

// alike tells that two numbers differ by less than printing shows.
func alike(a, b float64) bool {
	if math.IsNaN(a) || math.IsNaN(b) {
		return math.IsNaN(a) == math.IsNaN(b)
	}
	return math.Abs(a-b) <= 1e-6*max(math.Abs(a), math.Abs(b))
}

func changeOf(r Row, was, is Cell) Change {
	c := Change{
		Part: r.Part, Label: r.Label, Subject: r.Subject, Figure: r.Figure, Was: was, Is: is, By: math.NaN(),
		PlusMinus: math.NaN(), Unit: is.Unit,
	}
	if !was.Known || !is.Known {
		if was.Known {
			c.Unit = was.Unit
		}
		return c
	}
	if was.Unit != is.Unit || was.Unit == "" && r.Part != OfMash {
		return c
	}
	c.By = is.Value - was.Value
	switch {
	case math.IsNaN(was.PlusMinus) && math.IsNaN(is.PlusMinus):
	case math.IsNaN(was.PlusMinus):
		c.PlusMinus = is.PlusMinus
	case math.IsNaN(is.PlusMinus):
		c.PlusMinus = was.PlusMinus
	default:
		c.PlusMinus = math.Hypot(was.PlusMinus, is.PlusMinus)
	}
	return c
}

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
		if slices.Contains(parts, c.Part) && !slices.ContainsFunc(levers, c.isOf) {
			others = append(others, strings.ToLower(c.Label))
		}
	}
	return outcomes, others
}

// moving are the parts of a recipe that move a figure.
func moving(figure figures.ID) []Part {
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
