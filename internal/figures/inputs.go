package figures

import (
	"fmt"
	"hash/maphash"
	"math"

	"gylebook/internal/journal"
	"gylebook/internal/quantity"
)

// Input is one source of doubt: a reading, the bias of an instrument, a
// customary value taken where nothing was read, the scatter of a formula.
type Input struct {
	What  string        // in words: fermenter.gravity, the hydrometer's bias
	Where journal.Where // the zero Where for what no line of the entry says
	// Uncertainty is the standard uncertainty u, in the unit.
	Uncertainty float64
	Unit        string
	Reason      string // why u is what it is
}

// standard is the standard uncertainty of a rectangular distribution of the
// given half-width (JCGM 100:2008, 4.3.7).
func standard(halfWidth float64) float64 { return halfWidth / math.Sqrt(3) }

// input makes a value with a doubt of its own. An input that names a line of the
// entry is the same one however often it is read.
func input[Q ~float64](b *bench, value Q, in Input) Estimate[Q] {
	if in.Uncertainty == 0 && !in.Where.Written() {
		return exactly(value)
	}
	id := b.inputNumber(&in)
	if b.astray != nil {
		value += Q(b.astray(in))
	}
	shares := b.arena.keep(append(b.arena.room(1), shareOf(id, in.Uncertainty, -in.Uncertainty)))
	return Estimate[Q]{Value: value, u: in.Uncertainty, shares: shares, known: true}
}

// inputNumber is the number of an input, the old one where it is known already:
// by its line, or by its name where no line says it.
func (b *bench) inputNumber(in *Input) int {
	mark := markOf(in)
	for id := b.numbers.first(mark); id >= 0; id = b.numbers.next(id) {
		known := &b.Inputs[id]
		if known.What != in.What || known.Where != in.Where {
			continue
		}
		if in.Uncertainty > known.Uncertainty { // read before as a wish, which is exact
			known.Uncertainty, known.Reason = in.Uncertainty, in.Reason
		}
		return id
	}
	b.Inputs = append(b.Inputs, *in)
	b.numbers.add(mark)
	return len(b.Inputs) - 1
}

// numbers finds the numbers of inputs by their marks: chains of those that share
// one, the newest first. A gyle asks for its hundred inputs a thousand times.
type numbers struct {
	newest [64]int32 // of a chain, plus one: 0 is none
	older  []int32   // of each input, likewise
}

func (n *numbers) first(mark uint64) int { return int(n.newest[mark%uint64(len(n.newest))]) - 1 }

func (n *numbers) next(id int) int { return int(n.older[id]) - 1 }

func (n *numbers) add(mark uint64) {
	chain := &n.newest[mark%uint64(len(n.newest))]
	n.older = append(n.older, *chain)
	*chain = int32(len(n.older))
}

// markOf is a number that two inputs seldom share.
func markOf(in *Input) uint64 {
	if in.Where.Written() {
		return uint64(in.Where.Line)*37 + uint64(in.Where.Column)
	}
	return maphash.String(marking, in.What)
}

var marking = maphash.MakeSeed()

// read makes an entry's value an input, with the half-width typed or else the
// given doubt. The key says what is missing where it was not written. A value
// that cannot be true is reported and counts as missing.
func read[Q quantity.Quantity](b *bench, v journal.Value[Q], key string, d doubt) Estimate[Q] {
	if !v.Written() || v.None {
		return missing[Q](key)
	}
	if limit := limitsOf(v.Value.Kind()); !limit.hold(float64(v.Value)) {
		b.reportImpossible(Impossible{Where: v.Where, Kind: v.Value.Kind(), Found: typed(v), Limit: limit.say(v.Value.Kind()), Guess: guess(v)})
		return withheld[Q](fmt.Sprintf("%s cannot be %s", v.Key, typed(v)))
	}
	in := Input{What: v.Key, Where: v.Where, Uncertainty: standard(d.halfWidth(float64(v.Value))), Unit: v.Value.Kind().Canonical().Symbol, Reason: d.reason}
	if v.Typed {
		in.Uncertainty, in.Reason = standard(float64(v.Within)), "as typed after ±"
	}
	return input(b, v.Value, in)
}

// customary is a value taken where nothing was read, with its stated doubt.
func customary[Q ~float64](b *bench, value Q, halfWidth float64, unit, what, reason string) Estimate[Q] {
	return input(b, value, Input{What: what, Uncertainty: standard(halfWidth), Unit: unit, Reason: reason})
}

// learned is what this brewer's earlier gyles taught. Its spread holds two thirds
// of them and so is a standard uncertainty as it stands.
func learned[Q ~float64](b *bench, l Learned, unit, what string) Estimate[Q] {
	return input(b, Q(l.Median), Input{What: what, Uncertainty: l.HalfWidth, Unit: unit, Reason: "the spread of this brewer's own gyles"})
}

// scattered adds the scatter of a formula that is only a fit, as one more input
// of standard uncertainty u.
func scattered[Q ~float64](b *bench, e Estimate[Q], u float64, unit, what, reason string) Estimate[Q] {
	if !e.known {
		return e
	}
	off := input(b, Q(0), Input{What: what, Uncertainty: u, Unit: unit, Reason: reason})
	return sum(b, e, off)
}

// typed is a value as the brewer wrote it.
func typed[Q quantity.Quantity](v journal.Value[Q]) string {
	return typedIn(float64(v.Value), v.Value.Kind(), v.Unit)
}

func typedIn(value float64, kind *quantity.Kind, symbol string) string {
	unit := kind.Canonical()
	for _, u := range kind.Units {
		if symbol != "" && symbol == u.Symbol {
			unit = u
		}
	}
	text := quantity.Plain(unit.Out(value))
	if symbol != "" {
		text += " " + symbol
	}
	return text
}
