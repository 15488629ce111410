package figures

import (
	"gylebook/internal/journal"
)

// bench is where a sheet is made: the inputs found so far, the formula that is
// being tried, the estimates that several families share. It belongs to one
// goroutine and is thrown away once the sheet is done.
type bench struct {
	*Sheet          // that is being made
	numbers numbers // of the inputs
	arena   arena
	trial   point // of the formula that is being tried
	many    manyTrying
	// astray is how far an input is off in one trial of a Monte Carlo test, nil
	// outside of one.
	astray func(Input) float64
	memos
}

// newBench is a bench for a gyle, with an empty sheet on it.
func newBench(g *journal.Gyle, c Context) *bench {
	b := &bench{Sheet: &Sheet{Gyle: g, Context: c, Stage: stageOf(g, c.Now)}}
	b.containers = b.containersOf()
	b.ofContainer = make([]containerMemos, len(b.containers))
	return b
}

// Work works one gyle out, as it stands at the context's clock.
func Work(g *journal.Gyle, c Context) *Sheet { return newBench(g, c).work() }

func (b *bench) work() *Sheet {
	b.Figures, b.symbols = make([]Figure, 0, 96), make([]symbol, 0, 320)
	b.Inputs, b.numbers.older = make([]Input, 0, 128), make([]int32, 0, 128)
	for _, family := range families {
		family(b)
	}
	impossibles(b)
	s := b.Sheet
	if s.Stage == Working {
		s.forecast, _ = b.forecastCurve()
	}
	s.readings, s.logged, s.stability = b.gravityReadings(), b.sightings(), b.standing()
	if l := b.logOf(); l != nil {
		s.logCheck = l.check
	}
	s.left, s.late, s.lowest, s.gauges = b.leftOverTime(), b.unsettled(), b.lowestOf(), b.gaugesChecked()
	s.Figures, s.Inputs, s.symbols = trimmed(s.Figures), trimmed(s.Inputs), trimmed(s.symbols)
	return s
}

// add puts an estimate on the sheet: as a figure where it is known, else among
// what is missing. It returns the figure so that the family can qualify it, nil
// where there is none.
func add[Q ~float64](b *bench, k *Kind, of string, e Estimate[Q], symbols ...symbol) *Figure {
	if !e.known {
		b.lacks(k, of, e.lack)
		return nil
	}
	if !likely(float64(e.Value), float64(e.PlusMinus())) {
		b.lacks(k, of, &Lack{Because: tooMuch})
		return nil
	}
	b.Figures = append(b.Figures, Figure{
		Kind: k, Of: of, Value: float64(e.Value), PlusMinus: float64(e.PlusMinus()),
		worked: b.keepSymbols(symbols), shares: e.shares, sheet: b.Sheet,
	})
	return &b.Figures[len(b.Figures)-1]
}

// keepSymbols puts a figure's symbols with those of the others, so that the list
// that add was called with need not outlive the call.
func (b *bench) keepSymbols(symbols []symbol) span {
	from := int32(len(b.symbols))
	b.symbols = append(b.symbols, symbols...)
	return span{from, int32(len(b.symbols))}
}

// span is a stretch of the sheet's symbols.
type span struct{ from, to int32 }

func (b *bench) lacks(k *Kind, of string, lack *Lack) {
	m := Missing{Figure: k.ID, Of: of, Because: "not worked out"}
	if lack != nil {
		m.Needs, m.Because = lack.Needs, lack.Because
	}
	b.Missing = append(b.Missing, m)
}

// Inquiry asks of a gyle what its sheet does not say: what would be at another
// heat, with another attenuation. It has a bench of its own, so the sheet stays as
// it is; it belongs to one goroutine.
type Inquiry struct{ *bench }

// Inquire is an inquiry about the sheet's gyle, as it stands there.
func (s *Sheet) Inquire() *Inquiry { return &Inquiry{newBench(s.Gyle, s.Context)} }
