package figures

import (
	"math"
	"math/bits"
)

// maxArguments bounds the arguments of one formula: arguments has a bit for each.
const maxArguments = 8

// formula is a formula of plain numbers, in the order of its arguments.
type formula = func(x *point) (float64, error)

// point is where a formula is tried: its arguments' values, moved or not.
type point [maxArguments]float64

// evaluate is the formula of known arguments with the doubts of their inputs
// carried through it. It is the one place where uncertainty propagates, but for
// sum and times, which need no trial.
func (b *bench) evaluate(f formula, args ...argument) argument {
	if lack := lackOf(args); lack != nil {
		return argument{lack: lack}
	}
	t, x := trying{f: f, args: args}, &b.trial
	most := 0
	for i := range args {
		x[i] = args[i].value
		most += len(args[i].shares)
	}
	var err error
	if t.value, err = f(x); err != nil {
		return argument{lack: &Lack{Because: err.Error()}}
	}
	if math.IsNaN(t.value) || math.IsInf(t.value, 0) {
		return argument{lack: &Lack{Because: "the readings make no number"}}
	}
	shares := b.arena.room(most)
	for input, moved := t.next(); moved != 0; input, moved = t.next() {
		if sh := t.share(input, moved, x); sh.up != 0 || sh.down != 0 {
			shares = append(shares, sh)
		}
		t.pass(moved)
	}
	shares = b.arena.keep(shares)
	return argument{value: t.value, u: combined(shares), shares: shares, known: true}
}

// trying is a formula being tried around its arguments. An input that moves one
// argument alone moves the value by that argument's slope, taken over the whole
// of the argument's u (JCGM 100:2008, 5.1.3, note 2); an input that moves several
// is tried in all of them at once, so that what cancels does.
type trying struct {
	f      formula
	args   []argument
	value  float64 // the formula's value there
	slopes [maxArguments]slope
	// at is how far into the shares of each argument the trial has come. Shares are
	// sorted by input, so one pass meets each input once.
	at [maxArguments]int
}

// slope is how steeply a value rises with one argument, on either side of it.
type slope struct {
	above, below float64
	known, holds bool // holds is false where the formula holds on neither side, or the argument is exact
}

// arguments are some of a formula's arguments, a bit for each.
type arguments uint8

func (a arguments) has(i int) bool { return a&(1<<i) != 0 }

// next is the smallest input that no argument has been passed over yet, and which
// arguments it moves: none when there is no more.
func (t *trying) next() (input int32, moved arguments) {
	for i := range t.args {
		shares := t.args[i].shares
		if t.at[i] >= len(shares) {
			continue
		}
		switch in := shares[t.at[i]].input; {
		case moved == 0 || in < input:
			input, moved = in, 1<<i
		case in == input:
			moved |= 1 << i
		}
	}
	return input, moved
}

// pass goes past the input that comes next in the arguments that it moves.
func (t *trying) pass(moved arguments) {
	for i := range t.args {
		if moved.has(i) {
			t.at[i]++
		}
	}
}

// share is what an input does to the value by the arguments that it moves.
func (t *trying) share(input int32, moved arguments, x *point) share {
	if moved&(moved-1) != 0 { // more than one
		return t.tried(input, moved, x)
	}
	only := bits.TrailingZeros8(uint8(moved))
	sl := t.slope(only, x)
	if !sl.holds {
		return t.tried(input, moved, x)
	}
	sh := &t.args[only].shares[t.at[only]]
	return share{input, sl.times(sh.up), sl.times(sh.down)}
}

// times is how far the value moves when the argument moves by so much.
func (sl *slope) times(by float32) float32 {
	if by < 0 {
		return float32(sl.below * float64(by))
	}
	return float32(sl.above * float64(by))
}

// slope is the slope with argument i, worked out when it is first asked for.
func (t *trying) slope(i int, x *point) *slope {
	sl := &t.slopes[i]
	if sl.known {
		return sl
	}
	sl.known = true
	u := t.args[i].u
	if u == 0 {
		return sl
	}
	x[i] = t.args[i].value + u
	up, upOK := t.difference(x)
	x[i] = t.args[i].value - u
	down, downOK := t.difference(x)
	x[i] = t.args[i].value
	up, down = mirrored(up, upOK, down, downOK)
	sl.above, sl.below, sl.holds = up/u, -down/u, upOK || downOK
	return sl
}

// tried moves one input up and down through all arguments at once.
func (t *trying) tried(input int32, moved arguments, x *point) share {
	t.move(x, moved, func(sh share) float64 { return float64(sh.up) })
	up, upOK := t.difference(x)
	t.move(x, moved, func(sh share) float64 { return float64(sh.down) })
	down, downOK := t.difference(x)
	t.move(x, moved, func(share) float64 { return 0 })
	up, down = mirrored(up, upOK, down, downOK)
	return share{input, float32(up), float32(down)}
}

// move puts arguments as far off their values as an input moves them.
func (t *trying) move(x *point, moved arguments, by func(share) float64) {
	for i := range t.args {
		if moved.has(i) {
			x[i] = t.args[i].value + by(t.args[i].shares[t.at[i]])
		}
	}
}

// mirrored takes the side on which a formula holds for the one on which it does
// not: its range ends there.
func mirrored(up float64, upOK bool, down float64, downOK bool) (float64, float64) {
	switch {
	case !upOK && downOK:
		return -down, down
	case upOK && !downOK:
		return up, -up
	}
	return up, down
}

// difference is how far the value is away at the arguments as they are moved, false
// where the formula does not hold there.
func (t *trying) difference(x *point) (float64, bool) {
	there, err := t.f(x)
	if err != nil || math.IsNaN(there) || math.IsInf(there, 0) {
		return 0, false
	}
	return there - t.value, true
}
