package figures

import (
	"cmp"
	"math"
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
}

// Past is what this brewer's earlier-brewed gyles taught, each with its spread.
// The zero Past knows nothing, and the stated defaults are used.
type Past struct {
	Yield       Learned            // brewhouse yield, %
	Losses      Learned            // from fermenter to containers, L
	Attenuation map[string]Learned // apparent, %, by the yeast's name as its card has it
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
	arena []share
	memos
}

// Work works one gyle out, as it stands at the context's clock.
func Work(g *journal.Gyle, c Context) *Sheet {
	s := &Sheet{Gyle: g, Context: c, arena: make([]share, 0, 1024)}
	s.Stage = stageOf(g, c.Now)
	for _, family := range families {
		family(s)
	}
	return s
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
	f := Figure{Kind: k, Of: of, Value: float64(e.Value), PlusMinus: float64(e.PlusMinus()), symbols: symbols}
	f.budget, f.From = s.account(e.shares)
	s.Figures = append(s.Figures, f)
	return &s.Figures[len(s.Figures)-1]
}

func (s *Sheet) lacks(k *Kind, of string, lack *Lack) {
	m := Missing{Figure: k.ID, Of: of, Because: "not worked out"}
	if lack != nil {
		m.Needs, m.Because = lack.Needs, lack.Because
	}
	s.Missing = append(s.Missing, m)
}

// account turns shares into an uncertainty budget and the lines it rests on.
func (s *Sheet) account(shares []share) ([]Contribution, []journal.Where) {
	total := 0.0
	for _, sh := range shares {
		total += sh.larger() * sh.larger()
	}
	budget := make([]Contribution, 0, len(shares))
	from := make([]journal.Where, 0, len(shares))
	for _, sh := range shares {
		in := s.Inputs[sh.input]
		budget = append(budget, Contribution{Input: in, Moves: sh.larger(), Share: sh.larger() * sh.larger() / max(total, math.SmallestNonzeroFloat64)})
		if in.Where.Written() {
			from = append(from, in.Where)
		}
	}
	slices.SortStableFunc(budget, func(a, b Contribution) int { return cmp.Compare(b.Share, a.Share) })
	slices.SortStableFunc(from, func(a, b journal.Where) int { return a.Compare(b.Place) })
	return budget, from
}

// memo remembers an estimate that several figures share.
type memo[Q ~float64] struct {
	done bool
	e    Estimate[Q]
}

func (m *memo[Q]) once(work func() Estimate[Q]) Estimate[Q] {
	if !m.done {
		m.e = work()
		m.done = true
	}
	return m.e
}
