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
	b.Board = nil
	for _, stage := range []figures.Stage{figures.Pouring, figures.Maturing, figures.Working, figures.Copper, figures.Paper, figures.Empty} {
		rung := Rung{Stage: stage}
		for _, g := range b.Gyles {
			if g.Sheet.Stage == stage {
				rung.Gyles = append(rung.Gyles, g)
			}
		}
		b.Board = append(b.Board, rung)
	}
}
