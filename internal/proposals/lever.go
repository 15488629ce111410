package proposals

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"gylebook/internal/assay"
	"gylebook/internal/figures"
	"gylebook/internal/journal"
	q "gylebook/internal/quantity"
)

// lever is one number of an entry that a change is made at. It works in the
// number's canonical unit and writes it in the brewer's own, so that the entry's
// reader accepts it.
type lever struct {
	key   string // mash.rests[0].at
	what  string // the pale malt
	was   float64
	where journal.Where
	// to is the nearest to a value that can be weighed, measured or set, and as an entry
	// has it; set sets it in a copy of its own, find finds the same thing in another gyle.
	to   func(x float64) (value float64, text string)
	set  func(g *journal.Gyle, x float64)
	find func(g *journal.Gyle) (value float64, ok bool)
	// per is the volume that the number goes with, where it does: a gyle of half the
	// size takes half the malt. nil for one that stands by itself.
	per func(g *journal.Gyle) journal.Value[q.Volume]
}

// leverAt makes a lever of a value. The function finds the value in any gyle: by
// what it is of, since the next entry may list it elsewhere. ok is false where
// this gyle has no such number.
func leverAt[Q q.Quantity](c *assay.Case, what string, at func(*journal.Gyle) *journal.Value[Q]) (l lever, ok bool) {
	v := at(c.Gyle)
	if v == nil || !v.Written() || v.None {
		return lever{}, false
	}
	kind := v.Value.Kind()
	unit := c.Units.Offered(kind, v.Unit, float64(v.Value))
	return lever{
		key: v.Key, what: what, was: float64(v.Value), where: v.Where,
		to: func(x float64) (float64, string) {
			text := written(kind, unit, math.Max(x, 0))
			if read, err := q.Parse[Q](text); err == nil {
				return float64(read.Value), text
			}
			return x, text
		},
		set: func(g *journal.Gyle, x float64) { at(g).Value = Q(x) },
		find: func(g *journal.Gyle) (float64, bool) {
			other := at(g)
			if other == nil || !other.Written() || other.None {
				return 0, false
			}
			return float64(other.Value), true
		},
	}, true
}

// written is a number in the brewer's own unit, as finely as a home brewer can
// weigh, measure or set it.
func written(kind *q.Kind, symbol string, x float64) string {
	unit := kind.Canonical()
	for _, u := range kind.Units {
		if u.Symbol == symbol {
			unit = u
		}
	}
	if kind == q.KindOf[q.Mass]() && (unit.Symbol == "lb" || unit.Symbol == "oz" && x >= float64(q.Pound)) {
		return poundsAndOunces(x)
	}
	step := finestStep(kind, unit.Symbol, x)
	text := strconv.FormatFloat(math.Round(unit.Out(x)/step)*step, 'f', decimalsOf(step), 64)
	if strings.Contains(text, ".") {
		text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	}
	if unit.Symbol == "pH" || unit.Symbol == "SG" {
		return text
	}
	return text + " " + unit.Symbol
}

// poundsAndOunces is a weight to the half ounce, as in 7 lb 12 oz.
func poundsAndOunces(grams float64) string {
	halves := math.Round(grams / float64(q.Ounce) * 2)
	pounds, ounces := math.Floor(halves/32), math.Mod(halves, 32)/2
	switch {
	case ounces == 0:
		return fmt.Sprintf("%.0f lb", pounds)
	case pounds == 0:
		return strconv.FormatFloat(ounces, 'f', -1, 64) + " oz"
	}
	return fmt.Sprintf("%.0f lb %s oz", pounds, strconv.FormatFloat(ounces, 'f', -1, 64))
}

// finestStep is the finest step, in a unit, that is worth asking for: a kitchen
// scale's and thermometer's (common practice, no source).
func finestStep(kind *q.Kind, unit string, x float64) float64 {
	steps := map[string]float64{
		"kg": 0.01, "oz": 0.05, "lb": 0.05, "°C": 0.5, "°F": 1,
		"L": 0.1, "mL": 1, "gal-uk": 0.05, "gal-us": 0.05, "pt-uk": 0.1, "pt-us": 0.1, "min": 1, "h": 0.1,
		"vol": 0.05, "bar": 0.02, "psi": 0.5, "kPa": 2, "%": 0.1,
	}
	if unit == "g" {
		return gramStep(x)
	}
	if step, ok := steps[unit]; ok {
		return step
	}
	return math.Pow10(int(math.Floor(math.Log10(math.Max(kind.Canonical().Out(math.Abs(x)), 1e-3)))) - 2)
}

func gramStep(grams float64) float64 {
	switch {
	case grams >= 500:
		return 10
	case grams >= 10:
		return 1
	}
	return 0.1
}

func decimalsOf(step float64) int { return max(0, -int(math.Floor(math.Log10(step)+1e-9))) }

// nextToNothing stands for a line that is left out, in grams: formulas refuse to
// weigh nothing, and this changes no figure.
const nextToNothing = 1e-3

// changed is a copy of the gyle with one lever moved; its lists are its own.
func changed(g *journal.Gyle, moves ...move) *journal.Gyle {
	c := *g
	c.Grist, c.Hops, c.Packages, c.Done = slices.Clone(g.Grist), slices.Clone(g.Hops), slices.Clone(g.Packages), slices.Clone(g.Done)
	c.Mash.Rests, c.Yeast, c.Liquor.Acids = slices.Clone(g.Mash.Rests), slices.Clone(g.Yeast), slices.Clone(g.Liquor.Acids)
	for _, m := range moves {
		to := m.to
		if m.leftOut() {
			to = nextToNothing
		}
		m.lever.set(&c, to)
	}
	return &c
}

// move is a lever and where it is moved to.
type move struct {
	lever lever
	to    float64
}

// leftOut tells of a move that leaves nothing of a line: what is weighed as nought is
// better not in the list.
func (m move) leftOut() bool { return m.to == 0 && strings.HasSuffix(m.lever.key, ".weight") }

// asSet is the move as an entry has it: an empty value takes the line away.
func (m move) asSet() Set {
	if m.leftOut() {
		return Set{Key: strings.TrimSuffix(m.lever.key, ".weight")}
	}
	_, text := m.lever.to(m.to)
	return Set{Key: m.lever.key, Value: text}
}

// perWort is the lever of what is weighed for the wort.
func (l lever) perWort() lever {
	l.per = func(g *journal.Gyle) journal.Value[q.Volume] { return g.Aim.Volume }
	return l
}

// perBeer is the lever of what is weighed for the beer racked.
func (l lever) perBeer() lever {
	l.per = func(g *journal.Gyle) journal.Value[q.Volume] { return g.Racked.Volume }
	return l
}

// inSize is a number of another gyle as it would be in one of this one's size.
func (l lever) inSize(x float64, here, there *journal.Gyle) float64 {
	if l.per == nil {
		return x
	}
	a, b := l.per(here), l.per(there)
	if !a.Written() || !b.Written() || a.Value <= 0 || b.Value <= 0 {
		return x
	}
	return x * float64(a.Value/b.Value)
}

// moved is the lever at the nearest to a value that can be weighed or set.
func (l lever) moved(x float64) move {
	value, _ := l.to(x)
	return move{l, value}
}

// fromTo are the lever's number as it was and as it is moved, as a sentence has
// them.
func (m move) fromTo() (was, to string) {
	return m.lever.said(m.lever.was), m.lever.said(m.to)
}

// insteadOf is the move as an order: Weigh 4.1 kg of pale malt instead of 3.9 kg.
func (m move) insteadOf(verb string) string {
	was, to := m.fromTo()
	return fmt.Sprintf("%s %s of %s instead of %s", verb, to, m.lever.what, was)
}

// solved moves a lever to where the figure that a move leads to meets its aim; ok is
// false where it cannot be worked out, or nothing is moved.
func solved(l lever, aim float64, leads func(move) (figures.Figure, bool)) (m move, expected figures.Figure, ok bool) {
	m = l.moved(solve(l.was, aim, func(x float64) (float64, bool) {
		f, ok := leads(move{l, x})
		return f.Value, ok
	}))
	expected, ok = leads(m)
	return m, expected, ok && m.to != l.was
}

// said is the nearest to a value, as a sentence has it.
func (l lever) said(x float64) string {
	_, text := l.to(x)
	return spokenUnits.Replace(text)
}

// spokenUnits are the units that an entry spells in another way than sentences do.
var spokenUnits = strings.NewReplacer(
	"gal-uk", "UK gal", "gal-us", "US gal", "pt-uk", "UK pt", "pt-us", "US pt", "qt-uk", "UK qt", "qt-us", "US qt")

// worked is the gyle worked out with levers moved, with what is known for the
// next one.
func (p *proposer) worked(past figures.Past, moves ...move) *figures.Sheet {
	context := p.Context
	context.Past = past
	return figures.Work(changed(p.Gyle, moves...), context)
}

// solve is where a rising or falling figure meets its aim, by the secant rule:
// figures here are straight lines or nearly so in what is weighed.
func solve(from, aim float64, at func(x float64) (float64, bool)) float64 {
	x, next := from, from*1.1
	if from == 0 {
		next = 1
	}
	y, ok := at(x)
	if !ok {
		return from
	}
	for range 12 {
		there, ok := at(next)
		if !ok || there == y || math.Abs(there-aim) < nearEnough*math.Abs(aim) {
			break
		}
		slope := (there - y) / (next - x)
		x, y = next, there
		next = math.Max(x+(aim-y)/slope, 0)
	}
	return next
}

// nearEnough is how near to its aim, as a share of it, a figure is solved for: far
// nearer than a scale weighs.
const nearEnough = 1e-6
