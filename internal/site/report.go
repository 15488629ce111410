package site

import (
	"slices"

	"gylebook/internal/book"
	"gylebook/internal/figures"
	"gylebook/internal/rules"
	"gylebook/internal/site/view"
)

// Report is what the pages of a gyle say of its figures, of what its tasters found and
// of the next time, for whoever prints it elsewhere: in plain text, the figures in the
// order in which they are declared. Nothing is left out for being private, and its
// addresses lead nowhere.
func Report(b *book.Book, g *book.Gyle) view.Gyle {
	settings := b.Journal.Settings
	s := &Site{book: b, whole: b, options: Options{Live: true}, settings: settings, spell: newSpeller(settings)}
	s.spell.forTerminal = true
	r := s.pageAt(gylePath(g)).report(g, nil)
	place := map[string]int{}
	for i, k := range figures.Kinds() {
		place[string(k.ID)] = i
	}
	slices.SortStableFunc(r.Workings, func(a, b view.Working) int { return place[a.ID] - place[b.ID] })
	return r
}

// report is what is told of a gyle on its page and elsewhere, with the workings of some
// figures, by their ids; nil is all of them.
func (w pageWriter) report(g *book.Gyle, worked []figures.ID) view.Gyle {
	v := view.Gyle{Verdict: w.verdict(g), Units: w.formulaUnits()}
	v.Workings, _ = w.workings(g, worked)
	for _, m := range g.Sheet.Missing {
		v.Missing = append(v.Missing, w.lacking(g, m))
	}
	v.Diagnoses, v.Strange = w.diagnosed(g)
	v.Proposals, v.Unproposed = w.proposed(g)
	return v
}

// verdict is whether a gyle is finished or only quiet, nil where there is
// nothing to judge.
func (w pageWriter) verdict(g *book.Gyle) *view.Verdict {
	found, ok := rules.FinishedOrQuiet(g.Sheet)
	if !ok {
		return nil
	}
	v := &view.Verdict{Says: found.Says, Do: found.Do}
	for _, e := range found.Evidence {
		shown := view.Evidence{Text: e.Says}
		if e.Where.File == g.File && w.spell.forTerminal {
			shown.Line = e.Where.Line
		}
		v.Evidence = append(v.Evidence, shown)
	}
	return v
}
