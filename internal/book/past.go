package book

import (
	"math"
	"slices"

	"gylebook/internal/figures"
	"gylebook/internal/journal"
)

// lesson is what one gyle teaches about how this brewer's beer comes out.
type lesson struct {
	yield, losses, copperLosses, boilOff, attenuation taught
	yeast                                             string // whose attenuation it is, "" where several yeasts share it
}

// taught is one figure of a lesson, unknown where the zero value.
type taught struct {
	known bool
	value float64
	doubt float64 // standard uncertainty u, in the figure's unit
}

// lessonOf is what a gyle worked out teaches.
func lessonOf(s *figures.Sheet, l *journal.Larder) lesson {
	if s.Stage < figures.Working {
		return lesson{}
	}
	learnt := lesson{
		yield: teaches(s, "brewhouse-yield", ""), losses: lossesToContainers(s),
		copperLosses: teaches(s, "losses", "copper to fermenter"), boilOff: teaches(s, "boil-off", ""),
	}
	if yeast, one := onlyYeast(s.Gyle, l); one && !sweetened(s.Gyle) {
		learnt.yeast, learnt.attenuation = yeast, teaches(s, "apparent-attenuation", "")
	}
	return learnt
}

// sweetened tells that sugar went in which the original gravity does not have:
// what became of it is not the yeast's attenuation.
func sweetened(g *journal.Gyle) bool {
	for _, a := range g.Added {
		if a.Fruit.Name != "" || a.Juice.Name != "" || a.Sugar.Written() {
			return true
		}
	}
	for _, grain := range g.Grist {
		if grain.Into.Is(journal.IntoFermenter) {
			return true
		}
	}
	return false
}

// teaches is a figure as a lesson, where no later reading can change it: a
// gravity that may still fall teaches no attenuation. A past with unfinished
// beers in it would expect too little of the yeast, and so too little gas.
func teaches(s *figures.Sheet, id, of string) taught {
	f, ok := s.Find(id, of)
	if !ok || f.Provisional || math.IsNaN(f.Value) {
		return taught{}
	}
	doubt := 0.0
	if f.HasPlusMinus() {
		doubt = f.PlusMinus / 2
	}
	return taught{known: true, value: f.Value, doubt: doubt}
}

// onlyYeast is the name, as its card has it, of the one yeast that made a gyle;
// of several yeasts none can be told from another.
func onlyYeast(g *journal.Gyle, l *journal.Larder) (name string, one bool) {
	if len(g.DrawnFrom) > 0 {
		return "", false
	}
	for _, p := range g.Yeast {
		if p.Yeast.Name == "" {
			continue
		}
		this := properName(l, "yeast", p.Yeast.Name)
		if name != "" && this != name {
			return "", false
		}
		name = this
	}
	return name, name != ""
}

// remembered is how many gyles back a brewer's past reaches, about a year of
// home brewing: kettles, crushers and habits change, and an old yield is no
// guide to the next. (Common practice, no source: brewers are told to use the
// median of their last few.)
const remembered = 10

// memory holds the latest lessons of one figure.
type memory []taught

func (m *memory) add(t taught) {
	if !t.known {
		return
	}
	*m = append(*m, t)
	if len(*m) > remembered {
		*m = slices.Delete(*m, 0, 1)
	}
}

// learned is the median and the spread of values. The half-width is the
// deviation from the median that about two thirds of gyles stay within: of n
// deviations the ⌈2(n+1)/3⌉-th smallest, which allows for the next gyle being
// none of those seen; and never less than the readings' own doubt.
func (m memory) learned() figures.Learned {
	if len(m) == 0 {
		return figures.Learned{}
	}
	values, doubts := make([]float64, len(m)), make([]float64, len(m))
	for i, t := range m {
		values[i], doubts[i] = t.value, t.doubt
	}
	middle := median(values)
	for i, v := range values {
		values[i] = math.Abs(v - middle)
	}
	slices.Sort(values)
	k := min((2*(len(m)+1)+2)/3, len(m))
	return figures.Learned{Median: middle, HalfWidth: max(values[k-1], median(doubts)), Gyles: len(m)}
}

// median is the middle value, halfway between the two middle ones of an even
// number. It sorts what it is given.
func median(values []float64) float64 {
	slices.Sort(values)
	n := len(values)
	if n%2 == 1 {
		return values[n/2]
	}
	return (values[n/2-1] + values[n/2]) / 2
}

// school takes lessons in the order of brewing and says what is known by then.
type school struct {
	yield, losses, copperLosses, boilOff memory
	attenuation                          map[string]*memory
}

func (s *school) learn(l lesson) {
	s.yield.add(l.yield)
	s.losses.add(l.losses)
	s.copperLosses.add(l.copperLosses)
	s.boilOff.add(l.boilOff)
	if l.yeast == "" {
		return
	}
	if s.attenuation == nil {
		s.attenuation = map[string]*memory{}
	}
	if s.attenuation[l.yeast] == nil {
		s.attenuation[l.yeast] = new(memory)
	}
	s.attenuation[l.yeast].add(l.attenuation)
}

// common is what any gyle of the next day may lean on, whatever its yeast.
func (s *school) common() figures.Past {
	return figures.Past{Yield: s.yield.learned(), Losses: s.losses.learned(), CopperLosses: s.copperLosses.learned(), BoilOff: s.boilOff.learned()}
}

// pastFor is what a gyle of the next day may lean on: what is common, and of
// attenuation only that of its own yeasts, under the card's name and as typed.
func (s *school) pastFor(g *journal.Gyle, l *journal.Larder, past figures.Past) figures.Past {
	for _, p := range g.Yeast {
		if p.Yeast.Name == "" {
			continue
		}
		name := properName(l, "yeast", p.Yeast.Name)
		m := s.attenuation[name]
		if m == nil {
			continue
		}
		if past.Attenuation == nil {
			past.Attenuation = map[string]figures.Learned{}
		}
		learnt := m.learned()
		past.Attenuation[name], past.Attenuation[p.Yeast.Name] = learnt, learnt
	}
	return past
}

// pasts is the past of each gyle from a place on, which begins a day: from the
// lessons of the days before its own, with what is known once its own day has taught
// too. The gyles are in the order of brewing.
func pasts(gyles []*Gyle, l *journal.Larder, from int) []figures.Past {
	known := new(school)
	for _, g := range gyles[:from] {
		known.learn(g.lesson())
	}
	before := known.common()
	all := make([]figures.Past, 0, len(gyles)-from)
	for rest := gyles[from:]; len(rest) > 0; {
		n := 1
		for n < len(rest) && day(rest[n].Begun).Equal(day(rest[0].Begun)) {
			n++
		}
		today := rest[:n]
		for _, g := range today {
			all = append(all, known.pastFor(g.Gyle, l, before))
		}
		for _, g := range today {
			known.learn(g.lesson())
		}
		after := known.common()
		for i, g := range today {
			next := known.pastFor(g.Gyle, l, after)
			all[len(all)-n+i].Next = &next
		}
		before, rest = after, rest[n:]
	}
	return all
}
