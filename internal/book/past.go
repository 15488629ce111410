package book

import (
	"maps"
	"math"
	"slices"

	"gylebook/internal/figures"
	"gylebook/internal/journal"
	"gylebook/internal/parallel"
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
		this := yeastName(l, p.Yeast.Name)
		if name != "" && this != name {
			return "", false
		}
		name = this
	}
	return name, name != ""
}

// yeastName is a yeast's name as its card has it, else as typed.
func yeastName(l *journal.Larder, typed string) string {
	if c := cardOf(l, string(journal.CardYeast), typed); c != nil && c.Name.Text != "" {
		return c.Name.Text
	}
	return typed
}

// remembered is how many gyles back a brewer's past reaches, about a year of
// home brewing: kettles, crushers and habits change, and an old yield is no
// guide to the next. (Common practice, no source: brewers are told to use the
// median of their last few.)
const remembered = 10

// memory is the lessons of one figure in the order of brewing, and what is known by each
// of them.
type memory struct {
	turns   []int // whose lesson it is
	lessons []taught
	learned []figures.Learned // after each, from the latest
}

func (m *memory) add(turn int, t taught) {
	if t.known {
		m.turns, m.lessons = append(m.turns, turn), append(m.lessons, t)
	}
}

// learn works out what is known by each lesson.
func (m *memory) learn() {
	m.learned = make([]figures.Learned, len(m.lessons))
	parallel.Each(len(m.lessons), 0, func(i int) { m.learned[i] = learnedFrom(m.lessons[:i+1]) })
}

// before is what the gyles before a place in the order of brewing taught.
func (m *memory) before(turn int) figures.Learned {
	if m == nil {
		return figures.Learned{}
	}
	n, _ := slices.BinarySearch(m.turns, turn)
	if n == 0 {
		return figures.Learned{}
	}
	return m.learned[n-1]
}

// learnedFrom is the median and the spread of the latest lessons. The half-width is the
// deviation from the median that about two thirds of gyles stay within: of n
// deviations the ⌈2(n+1)/3⌉-th smallest, which allows for the next gyle being none of
// those seen; and never less than the readings' own doubt.
func learnedFrom(lessons []taught) figures.Learned {
	if len(lessons) == 0 {
		return figures.Learned{}
	}
	latest := lessons[max(0, len(lessons)-remembered):]
	n := len(latest)
	var allValues, allDoubts [remembered]float64
	values, doubts := allValues[:n], allDoubts[:n]
	for i, t := range latest {
		values[i], doubts[i] = t.value, t.doubt
	}
	middle := median(values)
	for i, v := range values {
		values[i] = math.Abs(v - middle)
	}
	slices.Sort(values)
	k := min((2*(n+1)+2)/3, n)
	return figures.Learned{Median: middle, HalfWidth: max(values[k-1], median(doubts)), Gyles: n}
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

// memories are what all gyles taught.
type memories struct {
	yield, losses, copperLosses, boilOff memory
	attenuation                          map[string]*memory // by the yeast's name as its card has it
}

// remember takes the lessons in the order of brewing.
func remember(lessons []lesson) *memories {
	m := &memories{attenuation: map[string]*memory{}}
	for turn, l := range lessons {
		m.yield.add(turn, l.yield)
		m.losses.add(turn, l.losses)
		m.copperLosses.add(turn, l.copperLosses)
		m.boilOff.add(turn, l.boilOff)
		if l.yeast == "" {
			continue
		}
		if m.attenuation[l.yeast] == nil {
			m.attenuation[l.yeast] = new(memory)
		}
		m.attenuation[l.yeast].add(turn, l.attenuation)
	}
	for _, one := range append(slices.Collect(maps.Values(m.attenuation)), &m.yield, &m.losses, &m.copperLosses, &m.boilOff) {
		one.learn()
	}
	return m
}

// known is what a gyle may lean on.
type known struct {
	yield, losses, copperLosses, boilOff figures.Learned
	yeasts                               []knownYeast // of its own
}

type knownYeast struct {
	typed, proper string // the name in the entry, and as its card has it
	attenuation   figures.Learned
}

// before is what the gyles before a place in the order of brewing taught.
func (m *memories) before(turn int, yeasts []knownYeast) known {
	k := known{m.yield.before(turn), m.losses.before(turn), m.copperLosses.before(turn), m.boilOff.before(turn), slices.Clone(yeasts)}
	for i, y := range k.yeasts {
		k.yeasts[i].attenuation = m.attenuation[y.proper].before(turn)
	}
	return k
}

// of is what a gyle may lean on: from the days before its own; and what is known once its
// own day has taught too.
func (m *memories) of(g *Gyle, l *journal.Larder) (then, next known) {
	yeasts := make([]knownYeast, 0, 1) // mostly
	for _, p := range g.Yeast {
		yeasts = append(yeasts, knownYeast{typed: p.Yeast.Name, proper: yeastName(l, p.Yeast.Name)})
	}
	return m.before(g.today.from, yeasts), m.before(g.today.to, yeasts)
}

// past is what is known as figures lean on it.
func (k known) past() figures.Past {
	past := figures.Past{Yield: k.yield, Losses: k.losses, CopperLosses: k.copperLosses, BoilOff: k.boilOff}
	for _, y := range k.yeasts {
		if y.attenuation.Gyles == 0 {
			continue
		}
		if past.Attenuation == nil {
			past.Attenuation = map[string]figures.Learned{}
		}
		past.Attenuation[y.proper], past.Attenuation[y.typed] = y.attenuation, y.attenuation
	}
	return past
}

// days gives each gyle, in the order of brewing, the places of those of its day.
func days(gyles []*Gyle) {
	for from, to := 0, 0; from < len(gyles); from = to {
		for to < len(gyles) && day(gyles[to].Begun).Equal(day(gyles[from].Begun)) {
			to++
		}
		for _, g := range gyles[from:to] {
			g.today = span{from, to}
		}
	}
}

// span is the places in the order of brewing of gyles one after another, the last one
// not among them.
type span struct{ from, to int }
