package proposals

import (
	"math"

	"gylebook/internal/assay"
	"gylebook/internal/figures"
)

// Outcome is what came of a proposal in the gyle that followed.
type Outcome struct {
	Proposal
	// Was, Asked and Is are the changed number in the first gyle, as proposed, and in
	// the one that followed, as an entry has them.
	Was, Asked, Is string
	Key            string // where it stands in the first entry
	// Got is the figure of the gyle that followed; Known is false while it has none.
	Got   figures.Figure
	Known bool
	// Judged says whether it came true, as a sentence.
	Judged string
	True   bool // it came true, within what the readings can tell
}

// Judge compares a proposal with the gyle that followed. It is false where the
// change was not made: not by at least half, or the other way.
func (p Proposal) Judge(next *figures.Sheet) (o Outcome, made bool) {
	if len(p.moves) == 0 {
		return Outcome{}, false
	}
	m := p.moves[0]
	is, ok := m.lever.find(next.Gyle)
	leftOut := !ok && m.lever.per != nil && len(next.Gyle.Grist) > 0
	share := 100 * (m.lever.inSize(is, p.gyle, next.Gyle) - m.lever.was) / (m.to - m.lever.was)
	if !ok && !leftOut || m.to == m.lever.was || share < halfway.Number {
		return Outcome{}, false
	}
	o = Outcome{Proposal: p, Key: m.lever.key}
	o.Was, o.Asked = m.fromTo()
	if o.Is = m.lever.said(is); leftOut {
		o.Is = "none"
	}
	o.Got, o.Known = gotOf(next, p.Figure, p.Of)
	if o.Known = o.Known && next.Stage >= figures.Working && !o.Got.Provisional; !o.Known {
		o.Judged = "Not known yet: there is no figure to compare it with."
		return o, true
	}
	o.Judged, o.True = p.judged(o.Got)
	return o, true
}

// judged says whether what was got is what was expected.
func (p Proposal) judged(got figures.Figure) (says string, cameTrue bool) {
	off := got.Value - p.Expect.Value
	doubtOf := math.Hypot(assay.DoubtOf(got.PlusMinus), assay.DoubtOf(p.Expect.PlusMinus))
	moved := got.Value - p.got.Value
	nothing := math.Abs(moved) <= math.Hypot(assay.DoubtOf(got.PlusMinus), assay.DoubtOf(p.got.PlusMinus))
	switch {
	case math.Abs(off) <= doubtOf && nothing:
		return "It agrees with what was expected; but the readings cannot tell it from no change either.", true
	case math.Abs(off) <= doubtOf:
		return "It came true, within what the readings can tell.", true
	case nothing:
		return "It did not come true: the readings cannot tell it from no change.", false
	case moved > 0 != (p.Expect.Value > p.got.Value):
		return "It did not come true: it went the other way. Look for another cause.", false
	case math.Abs(moved) > math.Abs(p.Expect.Value-p.got.Value):
		return "It went the right way, and further than expected.", false
	}
	return "It went the right way, and less far than expected.", false
}

// gotOf is a figure of the gyle that followed, or what was read in its place.
func gotOf(s *figures.Sheet, id figures.ID, of string) (figures.Figure, bool) {
	switch id {
	case mashHeat.ID:
		if len(s.Gyle.Mash.Rests) == 0 {
			return figures.Figure{}, false
		}
		f, ok := s.Inquire().RestHeat(0)
		return f, ok
	case mashPH.ID:
		return figures.AsRead(s.Gyle.Mash.PH)
	case inFermenter.ID:
		return figures.AsRead(s.Gyle.Fermenter.Volume)
	case racked.ID:
		return figures.AsRead(s.Gyle.Racked.Volume)
	}
	if f, ok := s.Find(id, of); ok {
		return f, true
	}
	return s.First(id)
}

// Levers are what the change was made at: the pale malt, the mash.
func (p Proposal) Levers() []string {
	var what []string
	for _, m := range p.moves {
		what = append(what, m.lever.what)
	}
	return what
}

// Label is what the proposal's figure is called.
func (p Proposal) Label() string { return p.Expect.Label }
