package site

import (
	"gylebook/internal/book"
	"gylebook/internal/rules"
	"gylebook/internal/site/view"
)

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
		if e.Where.File == g.File {
			shown.Line = e.Where.Line
		}
		v.Evidence = append(v.Evidence, shown)
	}
	return v
}
