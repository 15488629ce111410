package figures

import (
	"cmp"
	"math"
	"slices"
)

// manyfold is a formula of many plain numbers that comes to several at once.
type manyfold = func(x, y []float64) error

// moved is how far an input moves one argument.
type moved struct {
	input    int32
	argument int32
	up, down float64
}

// evaluateMany is a formula of known arguments that comes to several numbers, with the
// doubts of their inputs carried through it by the same rules as evaluate: an input
// that moves one argument alone moves each number by that argument's slope, one that
// moves several is tried in all of them at once.
func (b *bench) evaluateMany(f manyfold, args []argument, numbers int) ([]argument, *Lack) {
	if lack := lackOf(args); lack != nil {
		return nil, lack
	}
	t := &manyTrying{f: f, nominal: make([]float64, len(args)), y: make([]float64, 3*numbers), n: numbers}
	for i := range args {
		t.nominal[i] = args[i].value
	}
	t.x = slices.Clone(t.nominal)
	values := t.y[:numbers]
	if err := f(t.x, values); err != nil {
		return nil, &Lack{Because: err.Error()}
	}
	for _, v := range values {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return nil, &Lack{Because: "the readings make no number"}
		}
	}
	out := make([]argument, numbers)
	for i, v := range values {
		out[i] = argument{value: v, known: true}
	}
	shares := t.sharesOf(args)
	for i := range out {
		kept := b.arena.room(len(shares) / numbers)
		for j := i; j < len(shares); j += numbers {
			if sh := shares[j]; sh.up != 0 || sh.down != 0 {
				kept = append(kept, sh)
			}
		}
		out[i].shares = b.arena.keep(kept)
		out[i].u = combined(out[i].shares)
	}
	return out, nil
}

// manyTrying is such a formula being tried around its arguments.
type manyTrying struct {
	f       manyfold
	nominal []float64 // the arguments' values
	x       []float64 // the same, moved
	y       []float64 // the numbers there, then room for those of two trials
	n       int
}

// sharesOf is what each input does to each number, the numbers of one input side by
// side.
func (t *manyTrying) sharesOf(args []argument) []share {
	var moves []moved
	for i := range args {
		for _, sh := range args[i].shares {
			moves = append(moves, moved{sh.input, int32(i), float64(sh.up), float64(sh.down)})
		}
	}
	slices.SortFunc(moves, func(a, c moved) int {
		return cmp.Or(cmp.Compare(a.input, c.input), cmp.Compare(a.argument, c.argument))
	})
	shares := make([]share, 0, len(moves)*t.n)
	slopes := make([][]share, len(args)) // of an argument moved by its u
	for len(moves) > 0 {
		same := 1
		for same < len(moves) && moves[same].input == moves[0].input {
			same++
		}
		if same > 1 {
			shares = append(shares, t.tried(moves[:same])...)
		} else {
			shares = append(shares, t.bySlope(moves[0], &args[moves[0].argument], &slopes[moves[0].argument])...)
		}
		moves = moves[same:]
	}
	return shares
}

// bySlope is what an input does that moves one argument alone.
func (t *manyTrying) bySlope(m moved, a *argument, slope *[]share) []share {
	if *slope == nil {
		*slope = t.tried([]moved{{m.input, m.argument, a.u, -a.u}})
	}
	out := make([]share, t.n)
	for i, s := range *slope {
		by := func(move float64) float64 {
			if move < 0 {
				return float64(s.down) * -move / a.u
			}
			return float64(s.up) * move / a.u
		}
		out[i] = shareOf(int(m.input), by(m.up), by(m.down))
	}
	return out
}

// tried moves one input up and down through all arguments at once.
func (t *manyTrying) tried(moves []moved) []share {
	up, down := t.y[t.n:2*t.n], t.y[2*t.n:3*t.n]
	upOK := t.at(moves, func(m moved) float64 { return m.up }, up)
	downOK := t.at(moves, func(m moved) float64 { return m.down }, down)
	out := make([]share, t.n)
	for i := range out {
		u, d := mirrored(up[i], upOK, down[i], downOK)
		out[i] = shareOf(int(moves[0].input), u, d)
	}
	return out
}

// at is how far the numbers are away with arguments moved, false where the formula
// does not hold there.
func (t *manyTrying) at(moves []moved, by func(moved) float64, away []float64) bool {
	for _, m := range moves {
		t.x[m.argument] += by(m)
	}
	err := t.f(t.x, away)
	for _, m := range moves {
		t.x[m.argument] = t.nominal[m.argument]
	}
	if err != nil {
		clear(away)
		return false
	}
	for i := range away {
		away[i] -= t.y[i]
		if math.IsNaN(away[i]) || math.IsInf(away[i], 0) {
			return false
		}
	}
	return true
}
