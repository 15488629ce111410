package proposals

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"gylebook/internal/assay"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

// Proposal is one change to make in the next gyle: the gap between aim and got,
// the cause believed, the change, the figure to expect of it, and how the brewer
// will know. A change without a figure to expect could not be judged.
type Proposal struct {
	Figure figures.ID // the id of the figure that missed its aim, or of what was read: see Reading
	Of     string     // the part it is about, such as packages[1]
	Gap    string     // by how much, as a sentence
	Cause  string     // what is believed to be behind it; where there are two, both
	Change string     // what to do, as a sentence
	// Key and Value are the change as KEY=VALUE, such as mash.rests[0].at=66.5 °C;
	// both "" where it is made at no single key, as where a line is left out.
	Key, Value string
	// Sets are all the changes that Expect was worked with, the one of Key among
	// them; none where the change is made at no key of the entry.
	Sets []Set
	// Expect is the figure to expect once the change is made and all else is as it
	// was, in the unit of its kind.
	Expect figures.Figure
	// Short says why Expect does not cover the aim, "" where it does.
	Short  string
	Know   string // how the brewer will know
	From   []journal.Where
	Source string // of the rule that the change was sized by

	gyle  *journal.Gyle
	moves []move
	aim   float64
	got   figures.Figure
}

// Set is one value of an entry as a what-if changes it; an empty value takes it away.
type Set struct{ Key, Value string }

// Unproposed is a figure off its aim that gives no proposal, and why.
type Unproposed struct {
	Figure figures.ID
	Why    string
}

// Propose is what to change in the next gyle: at most one proposal for a figure
// that missed its aim by more than the readings' own doubt, in the order of a
// gyle's life. Each is sized by the trade's rules of thumb and by what this
// brewer's own gyles taught, this one included, and its figure to expect is worked
// out by the same formulas from a copy of the entry with the change in it. A
// change that would put anybody in danger is not proposed.
func Propose(s *figures.Sheet) []Proposal {
	proposals, _ := Appraise(s)
	return proposals
}

// Appraise is Propose together with the figures that are off their aim and give
// no proposal, each with its reason: mostly that the readings cannot tell.
func Appraise(s *figures.Sheet) ([]Proposal, []Unproposed) {
	p := &proposer{Case: assay.Of(s), next: s.Past}
	if s.Past.Next != nil {
		p.next = *s.Past.Next
	}
	if s.Stage < figures.Working {
		return nil, nil
	}
	if !p.DrawnFrom() {
		p.mashHeat()
		p.mashPH()
		p.gravity()
		p.volume()
		p.bitterness()
		p.colour()
	}
	p.attenuation()
	p.strength()
	p.left()
	p.condition()
	return p.proposals, p.unproposed
}

// proposer gathers the proposals of one gyle.
type proposer struct {
	*assay.Case
	next       figures.Past // what is known for the gyle after this
	proposals  []Proposal
	unproposed []Unproposed
	byVolume   bool // the gravity's gap is one of volume, and put right with it
}

// gap is how far a figure lies from what was aimed at.
type gap struct {
	id    figures.ID
	name  string // name as in "The original gravity is …"
	got   figures.Figure
	aim   float64
	where journal.Where // of the aim
	of    *assay.Case   // whose units it is told in
}

// What a proposal is about that is read and not worked out.
var (
	mashHeat    = &figures.Kind{ID: "mash-heat", Label: "Mash", Unit: "°C", Decimals: 1}
	mashPH      = &figures.Kind{ID: "mash-ph", Label: "Mash pH", Unit: "pH", Decimals: 1}
	inFermenter = &figures.Kind{ID: "volume", Label: "In the fermenter", Unit: "L", Decimals: 1}
	racked      = &figures.Kind{ID: "racked", Label: "Racked", Unit: "L", Decimals: 1}
)

// gapRead is the gap of something that is read.
func (p *proposer) gapRead(kind *figures.Kind, name string, got figures.Figure, aim float64, where journal.Where) gap {
	got.Kind = kind
	return gap{of: p.Case, id: kind.ID, name: name, got: got, aim: aim, where: where}
}

// show is a value of the gap's figure as a sentence has it.
func (g gap) show(x float64) string {
	switch unit := g.got.Unit; unit {
	case "SG":
		return assay.SG(q.Gravity(x))
	case "pH":
		return "pH " + q.Fixed(x, 1)
	case "°C":
		return g.of.Units.Fixed(x, unit, 1).String()
	case "L":
		return g.of.Exactly(math.Round(x*10)/10, unit)
	case "EBC":
		return g.of.Exactly(x, unit)
	default:
		return q.Plain(x) + " " + unit
	}
}

// by is got less aim.
func (g gap) by() float64 { return g.got.Value - g.aim }

// tellable says whether the readings can tell got from aim.
func (g gap) tellable() bool {
	return !g.got.HasPlusMinus() || math.Abs(g.by()) > g.got.PlusMinus
}

// side is one word where too little was got, another where too much.
func (g gap) side(low, high string) string {
	if g.low() {
		return low
	}
	return high
}

// low tells that too little was got.
func (g gap) low() bool { return g.by() < 0 }

// from are the lines that the gap rests on: the aim's, and the figure's own.
func (g gap) from() []journal.Where {
	var lines []journal.Where
	for _, w := range slices.Concat([]journal.Where{g.where}, g.got.From()) {
		if w.Written() && !slices.Contains(lines, w) {
			lines = append(lines, w)
		}
	}
	slices.SortStableFunc(lines, func(a, b journal.Where) int { return cmp.Or(a.Place.Compare(b.Place)) })
	return lines
}

// says is the gap as a sentence.
func (g gap) says() string {
	const says = "%s came to %s, %s %s the aim of %s."
	return fmt.Sprintf(says, g.name, inSentence(g.of, g.got), g.difference(), g.side("under", "over"), g.show(g.aim))
}

// difference is the size of the gap with its doubt.
func (g gap) difference() string {
	f := figures.Figure{Kind: g.got.Kind, Value: math.Abs(g.by()), PlusMinus: g.got.PlusMinus}
	switch f.Unit {
	case "SG":
		f.Value, f.PlusMinus = 1000*f.Value, 1000*f.PlusMinus
		return assay.Points(f)
	case "°C":
		f.Kind = &figures.Kind{Unit: "K", Decimals: f.Decimals}
	}
	return g.of.Measure(f)
}

// inSentence is a figure as a sentence has it: a gravity without its unit.
func inSentence(c *assay.Case, f figures.Figure) string {
	if f.Unit == "SG" || f.Unit == "pH" {
		return assay.Bare(f)
	}
	return c.Measure(f)
}

// gapOf is the gap of a figure that is on the sheet and aimed at. What a later
// reading may change is none yet.
func gapOf[Q q.Quantity](p *proposer, id figures.ID, name string, aim journal.Value[Q]) (g gap, ok bool) {
	f, ok := p.Find(id, "")
	if !ok || !aim.Written() || aim.None || f.Provisional || math.IsNaN(f.Value) || implausible(aim) {
		return gap{}, false
	}
	return gap{of: p.Case, id: id, name: name, got: f, aim: float64(aim.Value), where: aim.Where}, true
}

// implausible tells of an aim that was typed wrong: a gravity without its point.
func implausible[Q q.Quantity](v journal.Value[Q]) bool {
	return v.Value.Kind() == q.KindOf[q.Gravity]() && (v.Value < 0.985 || v.Value > 1.150)
}

// pass notes a figure off its aim that gives no proposal.
func (p *proposer) pass(g gap, why string) {
	p.unproposed = append(p.unproposed, Unproposed{Figure: g.id, Why: why})
}

// proposed tells whether a change was proposed for a figure.
func (p *proposer) proposed(id figures.ID) bool {
	return slices.ContainsFunc(p.proposals, func(pr Proposal) bool { return pr.Figure == id })
}

// passedOver passes a gap over that the readings cannot tell from none, or that is
// not worth a change, and tells whether it did.
func (p *proposer) passedOver(g gap) bool {
	if g.tellable() && math.Abs(g.by()) >= worthChanging(g.id) {
		return false
	}
	if g.tellable() {
		p.pass(g, fmt.Sprintf("%s is %s off its aim: too little to change anything for.", g.name, g.amount()))
		return true
	}
	if math.Abs(g.by()) > g.got.PlusMinus/4 {
		const says = "%s is %s off its aim, which is within what the readings can tell: nothing to change."
		p.pass(g, fmt.Sprintf(says, g.name, g.amount()))
	}
	return true
}

// amount is the gap's size without its doubt.
func (g gap) amount() string {
	if g.got.Unit == "SG" {
		value, _ := q.Rounded(1000*math.Abs(g.by()), 1000*g.got.PlusMinus)
		return value + " points"
	}
	unit := g.got.Unit
	if unit == "°C" {
		unit = "K"
	}
	if g.got.HasPlusMinus() && g.got.PlusMinus > 0 {
		return g.of.Rough(math.Abs(g.by()), g.got.PlusMinus, unit)
	}
	return g.of.Exactly(math.Abs(g.by()), unit)
}

// propose adds a proposal, completed with what all have in common.
func (p *proposer) propose(g gap, expect figures.Figure, pr Proposal, moves ...move) {
	pr.Figure, pr.Of, pr.From = g.id, g.got.Of, g.from()
	pr.aim, pr.got, pr.moves, pr.gyle = g.aim, g.got, moves, p.Gyle
	if pr.Gap == "" {
		pr.Gap = g.says()
	}
	pr.Expect = figures.Figure{Kind: g.got.Kind, Of: g.got.Of, Value: expect.Value, PlusMinus: expect.PlusMinus}
	for _, m := range moves {
		pr.Sets = append(pr.Sets, m.asSet())
	}
	if len(moves) > 0 && pr.Sets[0].Value != "" {
		pr.Key, pr.Value = pr.Sets[0].Key, pr.Sets[0].Value
	}
	if off := math.Abs(pr.Expect.Value - g.aim); pr.Short == "" && off > math.Max(pr.Expect.PlusMinus, 1e-9) {
		pr.Short = "It goes part of the way to the aim of " + g.show(g.aim) + "; the rest is for the gyle after."
	}
	p.proposals = append(p.proposals, pr)
}
