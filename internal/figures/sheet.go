package figures

import (
	"slices"
	"time"

	"gylebook/internal/journal"
)

// Context is what a gyle is worked out in: the cards, the clock, and what this
// brewer's earlier gyles taught.
type Context struct {
	Larder   *journal.Larder
	Settings *journal.Settings
	Now      time.Time
	Past     Past
	// Other is the sheet of another gyle, nil where there is none: for beer that
	// was drawn from it.
	Other func(number int) *Sheet
	// Taken is what other gyles say that they drew from this one.
	Taken []journal.Drawn
}

// Past is what this brewer's earlier-brewed gyles taught, each with its spread.
// The zero Past knows nothing, and the stated defaults are used.
type Past struct {
	Yield  Learned // brewhouse yield, %
	Losses Learned // from fermenter to containers, L
	// CopperLosses is from copper to fermenter, L; BoilOff is L/h.
	CopperLosses, BoilOff Learned
	Attenuation           map[string]Learned // apparent, %, by the yeast's name as its card has it
	// Next is what is known once this gyle, and the others of its day, have taught
	// too: what to plan the one after it by. No figure of this gyle leans on it.
	Next *Past
}

// Learned is the median of earlier gyles and how far they spread.
type Learned struct {
	Median    float64
	HalfWidth float64 // within which about two thirds of them lie, at least the readings' own doubt
	Gyles     int
}

// Enough tells whether there are gyles enough to lean on.
func (l Learned) Enough() bool { return l.Gyles >= 3 }

// Sheet is one gyle worked out.
type Sheet struct {
	Gyle       *journal.Gyle
	Stage      Stage
	Figures    []Figure
	Missing    []Missing
	Impossible []Impossible
	Inputs     []Input

	Context
	numbers numbers // of the inputs
	arena   arena
	trial   point // of the formula that is being tried
	// explains says that the numbers of the workings are kept: in symbols, of all
	// figures one after the other.
	explains bool
	symbols  []symbol
	// astray is how far an input is off in one trial of a Monte Carlo test, nil
	// outside of one.
	astray func(Input) float64
	memos
}

// Work works one gyle out, as it stands at the context's clock.
func Work(g *journal.Gyle, c Context) *Sheet {
	s := &Sheet{Gyle: g, Context: c}
	s.work()
	return s
}

// Explained is the same sheet with the numbers of its workings, which Figure.Working
// needs. A sheet goes without them, since a book keeps one for every gyle, and
// is worked again for the few pages that print them: all that it was worked from
// stands in it, so that it comes out the same.
func (s *Sheet) Explained() *Sheet {
	if s.explains || len(s.Figures) == 0 { // there is nothing to explain, or it could not be worked out
		return s
	}
	full := &Sheet{Gyle: s.Gyle, Context: s.Context, astray: s.astray, explains: true}
	full.work()
	return full
}

func (s *Sheet) work() {
	s.Figures = make([]Figure, 0, 80)
	s.cards = make([]foundCard, 0, 16)
	s.Inputs, s.numbers.older = make([]Input, 0, 88), make([]int32, 0, 88)
	s.Stage = stageOf(s.Gyle, s.Now)
	for _, family := range families {
		family(s)
	}
	s.Containers()
	if s.Stage == Working {
		s.Forecast()
	}
	s.GravityReadings()
	s.logOf()
	s.Figures, s.Inputs = trimmed(s.Figures), trimmed(s.Inputs)
}

// Apart is the sheet to ask questions of beyond its figures, its containers and its
// readings: what is worked out for an answer is kept for the next one, so that a
// sheet that several goroutines have in hand stays as it is and each asks its own.
func (s *Sheet) Apart() *Sheet {
	own := *s
	own.arena = arena{}
	own.Inputs, own.numbers.older = slices.Clone(s.Inputs), slices.Clip(s.numbers.older)
	own.Impossible, own.cards = slices.Clip(s.Impossible), slices.Clip(s.cards)
	own.ofContainer = slices.Clone(s.ofContainer)
	own.hydrometers = make([]*hydrometer, len(s.hydrometers))
	for i, h := range s.hydrometers {
		copied := *h
		own.hydrometers[i] = &copied
	}
	return &own
}

// Find is the figure of an id and of the part it is about.
func (s *Sheet) Find(id, of string) (Figure, bool) {
	for _, f := range s.Figures {
		if f.ID == id && f.Of == of {
			return f, true
		}
	}
	return Figure{}, false
}

// First is the first figure of an id, whatever part it is about.
func (s *Sheet) First(id string) (Figure, bool) {
	for _, f := range s.Figures {
		if f.ID == id {
			return f, true
		}
	}
	return Figure{}, false
}

// add puts an estimate on the sheet: as a figure where it is known, else among
// what is missing. It returns the figure so that the family can qualify it, nil
// where there is none.
func add[Q ~float64](s *Sheet, k *Kind, of string, e Estimate[Q], symbols ...symbol) *Figure {
	if !e.known {
		s.lacks(k, of, e.lack)
		return nil
	}
	if !likely(float64(e.Value), float64(e.PlusMinus())) {
		s.lacks(k, of, &Lack{Because: tooMuch})
		return nil
	}
	f := Figure{Kind: k, Of: of, Value: float64(e.Value), PlusMinus: float64(e.PlusMinus()), worked: s.keepSymbols(symbols), shares: e.shares, sheet: s}
	s.Figures = append(s.Figures, f)
	return &s.Figures[len(s.Figures)-1]
}

// keepSymbols puts a figure's symbols with those of the others, where the sheet
// keeps them, so that the list that add was called with need not outlive the call.
func (s *Sheet) keepSymbols(symbols []symbol) (kept span) {
	if !s.explains {
		return span{}
	}
	kept.from = int32(len(s.symbols))
	s.symbols = append(s.symbols, symbols...)
	kept.to = int32(len(s.symbols))
	return kept
}

// span is a stretch of the sheet's symbols.
type span struct{ from, to int32 }

func (s *Sheet) lacks(k *Kind, of string, lack *Lack) {
	m := Missing{Figure: k.ID, Of: of, Because: "not worked out"}
	if lack != nil {
		m.Needs, m.Because = lack.Needs, lack.Because
	}
	s.Missing = append(s.Missing, m)
}
