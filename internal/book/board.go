package book

import (
	"gylebook/internal/figures"
)

// Rung is one stage of the board with the gyles that stand there.
type Rung struct {
	Stage figures.Stage
	// Gyles are the latest brewed first.
	Gyles []*Gyle
}

// linkBoard sorts the gyles by stage, the beer that can be drunk first.
func (b *Book) linkBoard() {
	rungs := map[figures.Stage][]*Gyle{}
	for _, g := range b.Gyles {
		rungs[g.Status.Stage] = append(rungs[g.Status.Stage], g)
	}
	b.Board = nil
	for _, stage := range []figures.Stage{figures.Pouring, figures.Maturing, figures.Working, figures.Copper, figures.Paper, figures.Empty} {
		b.Board = append(b.Board, Rung{Stage: stage, Gyles: rungs[stage]})
	}
}
