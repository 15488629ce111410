package proposals

import (
	"fmt"
	"math"
	"time"

	"gylebook/internal/assay"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
	"gylebook/internal/notice"
	q "gylebook/internal/quantity"
	"gylebook/internal/rules"
)

// condition is put right at the gas, the venting or the sugar, container by
// container; the first that missed its aim by more than the doubt is enough, since
// one change is made at a time.
func (p *proposer) condition() {
	aim := p.Gyle.Aim.Condition
	if !aim.Written() || p.Stage < figures.Maturing {
		return
	}
	small, known := gap{}, false
	for _, f := range p.conditions() {
		g := gap{of: p.Case, id: "condition", name: "The condition", got: f, aim: float64(aim.Value), where: aim.Where}
		k, inContainer := p.containerOf(f.Of)
		if inContainer && len(p.Containers()) > 1 {
			g.name = "The condition in " + k.Called()
		}
		if !g.tellable() || math.Abs(g.by()) < worthChanging(g.id) {
			small, known = g, true
			continue
		}
		p.otherCondition(g, k, inContainer)
		return
	}
	if known {
		p.passedOver(small)
	}
}

// conditions are the figures to compare with the aim: those of the containers, which
// have followed the ventings; without containers that of the whole.
func (p *proposer) conditions() []figures.Figure {
	var whole, each []figures.Figure
	for _, f := range p.Figures {
		switch {
		case f.ID != figures.IDCondition || math.IsNaN(f.Value) || f.Provisional:
		case f.Of == "":
			whole = append(whole, f)
		default:
			each = append(each, p.asPrimed(f))
		}
	}
	if len(each) > 0 {
		return each
	}
	return whole
}

// asPrimed is the condition of a container as sugar can change it: of a soft bag all of
// its gas, since the bag swells and its beer keeps what its heat dissolves, however much
// sugar went in.
func (p *proposer) asPrimed(f figures.Figure) figures.Figure {
	if k, ok := p.containerOf(f.Of); ok && k.Is(journal.SoftBag) {
		if all, known := p.Find(figures.IDGasInAll, f.Of); known {
			return all
		}
	}
	return f
}

func (p *proposer) containerOf(key string) (figures.Container, bool) {
	for _, k := range p.Containers() {
		if k.Key == key {
			return k, true
		}
	}
	return figures.Container{}, false
}

func (p *proposer) otherCondition(g gap, k figures.Container, inContainer bool) {
	if inContainer {
		if gas, ok := p.gasLever(k); ok && p.otherGas(g, gas) {
			return
		}
		if p.ventedCooler(g, k) {
			return
		}
	}
	sugar, ok := p.sugarLever(k, inContainer)
	if !ok {
		p.pass(g, fmt.Sprintf("%s is off its aim, and no priming is weighed in the entry that could be changed.", g.name))
		return
	}
	p.otherSugar(g, sugar)
}

// conditionWith is the condition with a lever moved.
func (p *proposer) conditionWith(g gap) func(move) (figures.Figure, bool) {
	return func(m move) (figures.Figure, bool) { return p.worked(p.Past, m).Find(g.got.ID, g.got.Of) }
}

// gasLever is a keg's regulator.
func (p *proposer) gasLever(k figures.Container) (lever, bool) {
	return leverAt(p.Case, "the gas", func(g *journal.Gyle) *journal.Value[q.Pressure] {
		if k.Index >= len(g.Packages) {
			return nil
		}
		return &g.Packages[k.Index].Gas.Set
	})
}

// otherGas proposes another setting; it tells whether there is one that would do it. A
// cylinder takes nothing back: in a primed keg it may not be what matters.
func (p *proposer) otherGas(g gap, gas lever) bool {
	m, expected, ok := solved(gas, g.aim, p.conditionWith(g))
	if !ok || math.Abs(expected.Value-g.aim) > math.Abs(g.by())/10 {
		return false
	}
	was, text := m.fromTo()
	p.safely(g, expected, Proposal{
		Cause:  fmt.Sprintf("Gas at %s holds this much in beer at that heat; a warmer keg would hold less.", was),
		Change: fmt.Sprintf("Set the gas to %s instead of %s.", text, was),
		Know:   "Give it a week at the new setting, and pour through a clean line before judging.",
		Source: "Henry's law, as for every condition here",
	}, m)
	return true
}

// ventedCooler proposes to vent colder, where a warm venting let out most of what
// is lacking; it tells whether it did.
func (p *proposer) ventedCooler(g gap, k figures.Container) bool {
	if !g.low() {
		return false
	}
	for i, d := range p.Gyle.Done {
		warm := d.At.Written() && d.At.Value.Celsius() > warmVent.Number
		if !d.Did.Is(journal.Vented, journal.Burped) || !assay.Concerns(d, k) || !warm {
			continue
		}
		vent, ok := leverAt(p.Case, "the venting", func(g *journal.Gyle) *journal.Value[q.Temperature] { return ventingAt(g, i) })
		if !ok {
			continue
		}
		m := vent.moved(coolVent.Number)
		expected, ok := p.conditionWith(g)(m)
		if !ok || expected.Value-g.got.Value < math.Abs(g.by())/2 {
			continue
		}
		was, text := m.fromTo()
		p.safely(g, expected, Proposal{
			Cause: fmt.Sprintf("It was vented at %s, and warm beer holds little: what leaves then is gone for good. "+
				"Little sugar could have done it too; the venting first.", was),
			Change: fmt.Sprintf("Chill it swollen to %s, wait a day, and vent then, not at %s.", text, was),
			Know:   "The bag goes half slack as it cools; the first pint should hold its head to the bottom.",
			Source: "solubility of carbon dioxide (IUPAC-NIST Solubility Database 106), worked",
		}, m)
		return true
	}
	return false
}

// ventingAt is the heat of the nth deed, where that is a venting; in another gyle,
// of its first venting.
func ventingAt(g *journal.Gyle, n int) *journal.Value[q.Temperature] {
	isVent := func(d journal.Deed) bool { return d.Did.Is(journal.Vented, journal.Burped) }
	if n < len(g.Done) && isVent(g.Done[n]) {
		return &g.Done[n].At
	}
	for i, d := range g.Done {
		if isVent(d) {
			return &g.Done[i].At
		}
	}
	return nil
}

// sugarLever is the weight of the priming: the container's own, else the gyle's.
func (p *proposer) sugarLever(k figures.Container, inContainer bool) (lever, bool) {
	if inContainer && k.Package.Priming.Written() {
		return leverAt(p.Case, "priming sugar", func(g *journal.Gyle) *journal.Value[q.Mass] {
			if k.Index >= len(g.Packages) {
				return nil
			}
			own := &g.Packages[k.Index].Priming
			if own.Each.Written() {
				return &own.Each
			}
			return &own.Weight
		})
	}
	l, ok := leverAt(p.Case, "priming sugar", func(g *journal.Gyle) *journal.Value[q.Mass] { return &g.Priming.Weight })
	return l.perBeer(), ok
}

func (p *proposer) otherSugar(g gap, sugar lever) {
	m, expected, ok := solved(sugar, g.aim, p.conditionWith(g))
	if !ok {
		return
	}
	residual, _ := p.Find(figures.IDResidualCO2, "")
	was, text := m.fromTo()
	p.safely(g, expected, Proposal{
		Cause:  fmt.Sprintf("%s of sugar in the beer racked, on top of the %s that it still held, comes to that.", was, p.Measure(residual)),
		Change: fmt.Sprintf("Prime with %s instead of %s, in the same volume; weigh it once the volume racked is known.", text, was),
		Know: "Pour one at cellar heat, once it has stood as long: head and prickle should be as aimed at, " +
			"and the sum says what they were.",
		Source: "stoichiometry, less the yeast's share; 1 g/L of sucrose is about 0.26 vol",
	}, m)
}

// safely proposes, unless the change would put anybody in danger.
func (p *proposer) safely(g gap, expected figures.Figure, pr Proposal, m move) {
	before, after := dangers(p.asSealed()), dangers(p.asSealed(m))
	for rule, says := range after {
		if _, old := before[rule]; !old {
			p.pass(g, fmt.Sprintf("%s is off its aim, and the change that would mend it is not proposed: %s", g.name, says))
			return
		}
	}
	p.propose(g, expected, pr, m)
}

// dangers are the dangers of a gyle as it is sealed, by rule and part.
func dangers(s *figures.Sheet) map[string]string {
	found := map[string]string{}
	for _, n := range rules.Examine(s) {
		if n.Severity == notice.Danger {
			found[n.ID+" "+n.Of] = n.Says
		}
	}
	return found
}

// asSealed is the gyle worked out as on the day after it was sealed, when a danger
// still is one: nobody is warned of an empty cask.
func (p *proposer) asSealed(moves ...move) *figures.Sheet {
	g := changed(p.Gyle, moves...)
	g.Served.Broached, g.Served.Emptied = journal.Moment{}, journal.Moment{}
	g.Poured, g.Tastings, g.Accept = nil, nil, nil
	sealed := g.Racked.On
	for i := range g.Packages {
		g.Packages[i].Broached, g.Packages[i].Emptied = journal.Moment{}, journal.Moment{}
		if on := g.Packages[i].On; on.Written() && on.Time.After(sealed.Time) {
			sealed = on
		}
	}
	context := p.Context
	if sealed.Written() {
		context.Now = sealed.Middle().Add(24 * time.Hour)
	}
	return figures.Work(g, context)
}
