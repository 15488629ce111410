package figures

import "math"

// maxArguments bounds the arguments of one formula.
const maxArguments = 8

// formula is a formula of plain numbers, in the order of its arguments.
type formula = func(x [maxArguments]float64) (float64, error)

// evaluate is the formula of known arguments with the doubts of their inputs
// carried through it. It is the one place where uncertainty propagates, but for
// plus, which needs no trial.
func (s *Sheet) evaluate(f formula, args ...argument) argument {
	if lack := lackOf(args); lack != nil {
		return argument{lack: lack}
	}
	t := trying{f: f, args: args}
	most := 0
	for i := range args {
		t.x[i] = args[i].value
		most += len(args[i].shares)
	}
	var err error
	if t.value, err = f(t.x); err != nil {
		return argument{lack: &Lack{Because: err.Error()}}
	}
	if math.IsNaN(t.value) || math.IsInf(t.value, 0) {
		return argument{lack: &Lack{Because: "the readings make no number"}}
	}
	shares := s.arena.room(most)
	for input := t.next(); input >= 0; input = t.next() {
		if sh := t.share(input); sh.up != 0 || sh.down != 0 {
			shares = append(shares, sh)
		}
		t.pass(input)
	}
	shares = s.arena.keep(shares)
	return argument{value: t.value, u: combined(shares), shares: shares, known: true}
}

// trying is a formula being tried around its arguments. An input that moves one
// argument alone moves the value by that argument's slope, taken over the whole
// of the argument's u (JCGM 100:2008, 5.1.3, note 2); an input that moves several
// is tried in all of them at once, so that what cancels does.
type trying struct {
	f      formula
	args   []argument
	x      [maxArguments]float64 // the arguments' values
	value  float64               // the formula's value there
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

// next is the smallest input that no argument has been passed over yet, −1 when
// there is none.
func (t *trying) next() int {
	next := -1
	for i := range t.args {
		if shares := t.args[i].shares; t.at[i] < len(shares) {
			if input := int(shares[t.at[i]].input); next < 0 || input < next {
				next = input
			}
		}
	}
	return next
}

// pass goes past an input in all arguments.
func (t *trying) pass(input int) {
	for i := range t.args {
		if t.moves(input, i) {
			t.at[i]++
		}
	}
}

// moves tells whether the input that comes next moves argument i.
func (t *trying) moves(input, i int) bool {
	shares := t.args[i].shares
	return t.at[i] < len(shares) && shares[t.at[i]].input == int32(input)
}

// share is what the input that comes next does to the value.
func (t *trying) share(input int) share {
	only := -1
	for i := range t.args {
		if !t.moves(input, i) {
			continue
		}
		if only >= 0 {
			return t.tried(input)
		}
		only = i
	}
	sl := t.slope(only)
	if !sl.holds {
		return t.tried(input)
	}
	sh := &t.args[only].shares[t.at[only]]
	return shareOf(input, sl.times(float64(sh.up)), sl.times(float64(sh.down)))
}

// times is how far the value moves when the argument moves by so much.
func (sl *slope) times(by float64) float64 {
	if by < 0 {
		return sl.below * by
	}
	return sl.above * by
}

// slope is the slope with argument i, worked out when it is first asked for.
func (t *trying) slope(i int) *slope {
	sl := &t.slopes[i]
	if sl.known {
		return sl
	}
	sl.known = true
	u := t.args[i].u
	if u == 0 {
		return sl
	}
	x := t.x
	x[i] = t.x[i] + u
	up, upOK := t.difference(x)
	x[i] = t.x[i] - u
	down, downOK := t.difference(x)
	up, down = mirrored(up, upOK, down, downOK)
	sl.above, sl.below, sl.holds = up/u, -down/u, upOK || downOK
	return sl
}

// tried moves one input up and down through all arguments at once.
func (t *trying) tried(input int) share {
	above, below := t.x, t.x
	for i := range t.args {
		if t.moves(input, i) {
			sh := &t.args[i].shares[t.at[i]]
			above[i] += float64(sh.up)
			below[i] += float64(sh.down)
		}
	}
	up, upOK := t.difference(above)
	down, downOK := t.difference(below)
	up, down = mirrored(up, upOK, down, downOK)
	return shareOf(input, up, down)
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

// difference is how far the value is away at other arguments, false where the
// formula does not hold there.
func (t *trying) difference(x [maxArguments]float64) (float64, bool) {
	there, err := t.f(x)
	if err != nil || math.IsNaN(there) || math.IsInf(there, 0) {
		return 0, false
	}
	return there - t.value, true
}
