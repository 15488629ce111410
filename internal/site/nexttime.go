package site

import (
	"cmp"
	"fmt"
	"strings"

	"gylebook/internal/book"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
	"gylebook/internal/proposals"
	"gylebook/internal/site/view"
)

// CameTrue is what came of the proposals of the gyle that this one follows.
type CameTrue struct {
	Of       view.Link
	Outcomes []Outcome
	Also     string // what else was changed, so that it may not have been this alone
}

// Outcome is one proposal that was carried out.
type Outcome struct {
	Label         string
	Done          string // "64.5 °C before, 66.5 °C proposed, 67 °C now"
	Expected, Got view.Measure
	Judged        string
}

// proposed is what to change in the next gyle, and what is left as it is.
func (w pageWriter) proposed(g *book.Gyle) (all []view.Proposal, left []string) {
	proposals, unproposed := proposals.Appraise(g.Sheet)
	for _, p := range proposals {
		all = append(all, w.proposal(g, p))
	}
	for _, u := range unproposed {
		left = append(left, unbroken(u.Why))
	}
	return all, left
}

func (w pageWriter) proposal(g *book.Gyle, p proposals.Proposal) view.Proposal {
	out := view.Proposal{
		Label: p.Label(), Gap: unbroken(p.Gap), Cause: unbroken(p.Cause), Change: unbroken(p.Change),
		Expect: w.spell.figure(p.Expect), Short: unbroken(p.Short), Know: unbroken(p.Know),
	}
	for _, s := range p.Sets {
		out.Sets = append(out.Sets, s.Key+": "+cmp.Or(s.Value, "(left out)"))
	}
	out.Rests = phrase(" ", stated("From ", lineNames(g, p.From)), stated("Sized by ", p.Source))
	return out
}

// unbroken is a sentence whose numbers stay with their ± and unit on a narrow
// screen.
func unbroken(text string) string { return beforeUnits.Replace(text) }

var beforeUnits = strings.NewReplacer(" ± ", "\u00a0±\u00a0", " °C", "\u00a0°C", " °F", "\u00a0°F", " %", "\u00a0%", " L", "\u00a0L", " kg", "\u00a0kg", " IBU", "\u00a0IBU", " EBC", "\u00a0EBC", " vol", "\u00a0vol", " points", "\u00a0points", " lb", "\u00a0lb", " oz", "\u00a0oz", " min", "\u00a0min", " psi", "\u00a0psi", " SRM", "\u00a0SRM", " US gal", "\u00a0US\u00a0gal", " UK gal", "\u00a0UK\u00a0gal", " US pt", "\u00a0US\u00a0pt", " UK pt", "\u00a0UK\u00a0pt")

// cameTrue judges the proposals of the gyle that this one follows; nil where none
// was carried out.
func (w pageWriter) cameTrue(g *book.Gyle) *CameTrue {
	if g.Follows == nil || !w.published(g.Follows) {
		return nil
	}
	outcomes, others := g.Outcomes()
	if len(outcomes) == 0 {
		return nil
	}
	v := &CameTrue{Of: w.numbered(g.Follows)}
	for _, o := range outcomes {
		row := Outcome{Label: o.Label(), Done: unbroken(fmt.Sprintf("%s before, %s proposed, %s now", o.Was, o.Asked, o.Is)), Expected: w.spell.figure(o.Expect), Judged: o.Judged}
		if o.Known {
			got := o.Got
			got.Kind = o.Expect.Kind
			row.Got = w.spell.figure(got)
		}
		v.Outcomes = append(v.Outcomes, row)
	}
	if len(others) > 0 {
		v.Also = "Changed at the same time: " + strings.Join(others, "; ") + ". What did it cannot be told apart."
	}
	return v
}

// basis says what a figure that plans leans on: this brewer's own gyles, or what is
// taken until enough are known; "" for any other figure.
func basis(s *figures.Sheet, id figures.ID) string {
	switch id {
	case "og-expected":
		if past := s.Past.Yield; past.Enough() {
			return "Planned by the median yield of " + counted(past.Gyles, "gyle") + " of your own."
		}
		return "Planned by the stated default until three gyles of your own are known."
	case "fg-expected":
		return fgBasis(s)
	}
	return ""
}

func fgBasis(s *figures.Sheet) string {
	if s.Stability().AtLeast() {
		return "The gravity has stood still: this is where."
	}
	for _, p := range s.Gyle.Yeast {
		past := s.Past.Attenuation[p.Yeast.Name]
		card := s.Card(journal.CardYeast, p.Yeast)
		switch {
		case card != nil && card.Yeast != nil && card.Yeast.Attenuates.Written() && past.Enough():
			return fmt.Sprintf("By the yeast’s card; %s of your own with it attenuated %.0f\u00a0%% in the middle.", counted(past.Gyles, "gyle"), past.Median)
		case card != nil && card.Yeast != nil && card.Yeast.Attenuates.Written():
			return "By the yeast’s card."
		case past.Enough():
			return "By " + counted(past.Gyles, "gyle") + " of your own with this yeast."
		}
	}
	return ""
}
