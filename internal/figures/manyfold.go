package figures

import (
	"cmp"
	"math"
	"slices"
)

// manyfold is a formula of many plain numbers that comes to several at once.
type manyfold = func(x, y []float64) error

// evaluateMany is a formula of known arguments that comes to several numbers, with the
// doubts of their inputs carried through it by the same rules as evaluate: an input
// that moves one argument alone moves each number by that argument's slope, one that
// moves several is tried in all of them at once.
func (b *bench) evaluateMany(f manyfold, args []argument, numbers int) ([]argument, *Lack) {
	if lack := lackOf(args); lack != nil {
		return nil, lack
	}
	t := &b.many
	t.prepare(f, args, numbers)
	if err := f(t.x, t.values); err != nil {
		return nil, &Lack{Because: err.Error()}
	}
	if slices.ContainsFunc(t.values, notANumber) {
		return nil, &Lack{Because: "the readings make no number"}
	}
	t.tryAll()
	out := make([]argument, numbers)
	for i, v := range t.values {
		out[i] = argument{value: v, known: true, shares: b.arena.keep(t.sharesOf(i, b.arena.room(t.inputs)))}
		out[i].u = combined(out[i].shares)
	}
	return out, nil
}

func notANumber(x float64) bool { return math.IsNaN(x) || math.IsInf(x, 0) }

// moved is how far an input moves one argument.
type moved struct {
	input    int32
	argument int32
	up, down float32
}

// manyTrying is such a formula being tried around its arguments.
type manyTrying struct {
	f        manyfold
	args     []argument
	values   []float64 // the numbers at the arguments' values
	x        []float64 // the arguments' values, moved or not
	up, down []float64 // the numbers' differences in one trial
	moves    []moved   // by input
	inputs   int       // that were tried
	// shares are what each input does to each number, those of one input side by side;
	// slopes the same of each argument moved by its u, where sloped.
	shares, slopes []share
	sloped         []bool
}

// prepare makes it ready for a formula, in the room that the last one had.
func (t *manyTrying) prepare(f manyfold, args []argument, numbers int) {
	most := 0
	for i := range args {
		most += len(args[i].shares)
	}
	t.f, t.args, t.inputs, t.moves = f, args, 0, t.moves[:0]
	t.values, t.up, t.down = roomFor(t.values, numbers), roomFor(t.up, numbers), roomFor(t.down, numbers)
	t.x, t.sloped = roomFor(t.x, len(args)), roomFor(t.sloped, len(args))
	clear(t.sloped)
	t.shares, t.slopes = roomFor(t.shares, numbers*most), roomFor(t.slopes, numbers*len(args))
	for i := range args {
		t.x[i] = args[i].value
		if args[i].u == 0 {
			continue // exact, though it was made of what is not
		}
		for _, sh := range args[i].shares {
			if sh.up != 0 || sh.down != 0 {
				t.moves = append(t.moves, moved{sh.input, int32(i), sh.up, sh.down})
			}
		}
	}
	slices.SortFunc(t.moves, func(a, c moved) int {
		return cmp.Or(cmp.Compare(a.input, c.input), cmp.Compare(a.argument, c.argument))
	})
}

// roomFor is a list of so many, in the room of an old one where that is enough.
func roomFor[T any](old []T, n int) []T {
	if n <= cap(old) {
		return old[:n]
	}
	return make([]T, n, 2*n)
}

// tryAll tries every input.
func (t *manyTrying) tryAll() {
	numbers := len(t.values)
	for rest := t.moves; len(rest) > 0; t.inputs++ {
		same := 1
		for same < len(rest) && rest[same].input == rest[0].input {
			same++
		}
		into := t.shares[t.inputs*numbers : (t.inputs+1)*numbers]
		if same > 1 {
			t.try(rest[:same], into)
		} else {
			t.bySlope(&rest[0], into)
		}
		rest = rest[same:]
	}
}

// bySlope is what an input does that moves one argument alone.
func (t *manyTrying) bySlope(m *moved, into []share) {
	u := float32(t.args[m.argument].u)
	slope := t.slopes[int(m.argument)*len(into) : (int(m.argument)+1)*len(into)]
	if !t.sloped[m.argument] {
		t.try([]moved{{m.input, m.argument, u, -u}}, slope)
		t.sloped[m.argument] = true
	}
	for i := range slope {
		into[i] = share{m.input, slope[i].along(m.up / u), slope[i].along(m.down / u)}
	}
}

// along is what moves where the argument moves by so many of its u.
func (s *share) along(by float32) float32 {
	if by < 0 {
		return -by * s.down
	}
	return by * s.up
}

// try moves one input up and down through all of its arguments at once.
func (t *manyTrying) try(moves []moved, into []share) {
	upOK := t.differences(moves, t.up, func(m *moved) float64 { return float64(m.up) })
	downOK := t.differences(moves, t.down, func(m *moved) float64 { return float64(m.down) })
	for i := range into {
		up, down := mirrored(t.up[i], upOK, t.down[i], downOK)
		into[i] = shareOf(int(moves[0].input), up, down)
	}
}

// differences are how far the numbers are away with arguments moved, false where the
// formula does not hold there.
func (t *manyTrying) differences(moves []moved, away []float64, by func(*moved) float64) bool {
	for i := range moves {
		t.x[moves[i].argument] += by(&moves[i])
	}
	err := t.f(t.x, away)
	for i := range moves {
		t.x[moves[i].argument] = t.args[moves[i].argument].value
	}
	if err != nil || slices.ContainsFunc(away, notANumber) {
		clear(away)
		return false
	}
	for i := range away {
		away[i] -= t.values[i]
		if math.Abs(away[i]) <= arithmetic*math.Abs(t.values[i]) {
			away[i] = 0
		}
	}
	return true
}

// arithmetic is the part of a number by which its last digits alone may move it.
const arithmetic = 1e-12

// sharesOf are what the inputs do to one of the numbers.
func (t *manyTrying) sharesOf(number int, kept []share) []share {
	for at := number; at < t.inputs*len(t.values); at += len(t.values) {
		if sh := t.shares[at]; sh.up != 0 || sh.down != 0 {
			kept = append(kept, sh)
		}
	}
	return kept
}
