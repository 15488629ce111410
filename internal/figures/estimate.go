package figures

import (
	"math"
	"slices"
)

// Estimate is a quantity worked out from readings: its value and how far each
// reading's doubt moves it. The zero Estimate is unknown for no stated reason;
// make one with the functions of this package.
type Estimate[Q ~float64] struct {
	Value Q
	u     float64 // what the shares come to
	// shares are sorted by input.
	shares []share
	lack   *Lack
	known  bool
}

// share is what one input does to an estimate: the change of the value when the
// input moves by +u and by −u. Of an uncertainty two digits are printed, and a
// float32 has seven: a sheet holds many hundreds of shares.
type share struct {
	input    int32 // index into the sheet's inputs
	up, down float32
}

func shareOf(input int, up, down float64) share {
	return share{int32(input), float32(up), float32(down)}
}

// larger is the change that counts: the worse of the two sides.
func (s share) larger() float64 { return math.Abs(float64(max(s.up, -s.up, s.down, -s.down))) }

// Lack is why an estimate is not known.
type Lack struct {
	// Needs are the keys that would suffice, when the entry lacks readings.
	Needs []string
	// Because is the reason when readings are there and no figure can be given:
	// a formula outside its range, a value that cannot be.
	Because string
}

// Known tells whether there is a value.
func (e Estimate[Q]) Known() bool { return e.known }

// Uncertainty is the standard uncertainty u, in the value's unit.
func (e Estimate[Q]) Uncertainty() float64 { return e.u }

// combined is the standard uncertainty that independent shares come to (JCGM
// 100:2008, 5.1.2).
func combined(shares []share) float64 {
	if len(shares) == 1 {
		return shares[0].larger()
	}
	sum := 0.0
	for i := range shares {
		worse := shares[i].larger()
		sum += worse * worse
	}
	return math.Sqrt(sum)
}

// PlusMinus is the expanded uncertainty U = 2u, in the value's unit.
func (e Estimate[Q]) PlusMinus() Q { return Q(2 * e.Uncertainty()) }

// exactly is a value without doubt: a definition, a count, a nominal number.
func exactly[Q ~float64](value Q) Estimate[Q] { return Estimate[Q]{Value: value, known: true} }

// missing is an estimate that waits for readings under the given keys.
func missing[Q ~float64](keys ...string) Estimate[Q] {
	return Estimate[Q]{lack: &Lack{Needs: keys}}
}

// withheld is an estimate that cannot be given, though the readings are there.
func withheld[Q ~float64](because string) Estimate[Q] {
	return Estimate[Q]{lack: &Lack{Because: because}}
}

// first is the first known estimate; where none is, the one that asks for the
// fewest readings, the earlier of equals.
func first[Q ~float64](estimates ...Estimate[Q]) Estimate[Q] {
	for _, e := range estimates {
		if e.known {
			return e
		}
	}
	best := estimates[0]
	for _, e := range estimates[1:] {
		if e.asksLess(best) {
			best = e
		}
	}
	return best
}

func (e Estimate[Q]) asksLess(other Estimate[Q]) bool {
	return e.lack != nil && len(e.lack.Needs) > 0 && other.lack != nil &&
		(len(other.lack.Needs) == 0 || len(e.lack.Needs) < len(other.lack.Needs))
}

// as is the same estimate in another type of the same unit.
func as[R, Q ~float64](e Estimate[Q]) Estimate[R] {
	return Estimate[R]{Value: R(e.Value), u: e.u, shares: e.shares, lack: e.lack, known: e.known}
}

// argument is an estimate stripped of its type, as a formula's evaluation needs
// it.
type argument struct {
	value  float64
	u      float64
	shares []share
	lack   *Lack
	known  bool
}

func arg[Q ~float64](e Estimate[Q]) argument {
	return argument{value: float64(e.Value), u: e.u, shares: e.shares, lack: e.lack, known: e.known}
}

// moved is the argument's value when inputs are off, each by so many of its u as the
// list has for it.
func (a argument) moved(off []share) float64 {
	value, i := a.value, 0
	for _, sh := range a.shares {
		for i < len(off) && off[i].input < sh.input {
			i++
		}
		if i == len(off) || off[i].input != sh.input {
			continue
		}
		if z := float64(off[i].up); z > 0 {
			value += z * float64(sh.up)
		} else {
			value -= z * float64(sh.down)
		}
	}
	return value
}

// scaled is shares made larger or smaller all alike.
func (b *bench) scaled(shares []share, by float64) []share {
	scaled := b.arena.room(len(shares))
	for _, sh := range shares {
		scaled = append(scaled, shareOf(int(sh.input), float64(sh.up)*by, float64(sh.down)*by))
	}
	return b.arena.keep(scaled)
}

// lackOf joins what the unknown arguments lack, nil where all are known. Missing
// readings outrank a withheld figure: with them typed, it may hold.
func lackOf(args []argument) *Lack {
	var joined *Lack
	for i := range args {
		if !args[i].known {
			joined = join(joined, args[i].lack)
		}
	}
	return joined
}

func join(a, b *Lack) *Lack {
	switch {
	case b == nil:
		b = &Lack{Because: "not worked out"}
	case a == nil:
		return b
	}
	if a == nil {
		return b
	}
	needs := slices.Clone(a.Needs)
	for _, key := range b.Needs {
		if !slices.Contains(needs, key) {
			needs = append(needs, key)
		}
	}
	because := a.Because
	if because == "" {
		because = b.Because
	}
	return &Lack{Needs: needs, Because: because}
}

// result gives an evaluated argument its type.
func result[R ~float64](a argument) Estimate[R] {
	return Estimate[R]{Value: R(a.value), u: a.u, shares: a.shares, lack: a.lack, known: a.known}
}

// from1 applies a formula of one quantity.
func from1[R, A ~float64](b *bench, f func(A) (R, error), a1 Estimate[A]) Estimate[R] {
	return result[R](b.evaluate(func(x *point) (float64, error) {
		r, err := f(A(x[0]))
		return float64(r), err
	}, arg(a1)))
}

// from2 applies a formula of two quantities.
func from2[R, A, B ~float64](b *bench, f func(A, B) (R, error), a1 Estimate[A], a2 Estimate[B]) Estimate[R] {
	return result[R](b.evaluate(func(x *point) (float64, error) {
		r, err := f(A(x[0]), B(x[1]))
		return float64(r), err
	}, arg(a1), arg(a2)))
}

// from3 applies a formula of three quantities.
func from3[R, A, B, C ~float64](
	b *bench, f func(A, B, C) (R, error), a1 Estimate[A], a2 Estimate[B], a3 Estimate[C],
) Estimate[R] {
	return result[R](b.evaluate(func(x *point) (float64, error) {
		r, err := f(A(x[0]), B(x[1]), C(x[2]))
		return float64(r), err
	}, arg(a1), arg(a2), arg(a3)))
}

// from4 applies a formula of four quantities.
func from4[R, A, B, C, D ~float64](
	b *bench, f func(A, B, C, D) (R, error), a1 Estimate[A], a2 Estimate[B], a3 Estimate[C], a4 Estimate[D],
) Estimate[R] {
	return result[R](b.evaluate(func(x *point) (float64, error) {
		r, err := f(A(x[0]), B(x[1]), C(x[2]), D(x[3]))
		return float64(r), err
	}, arg(a1), arg(a2), arg(a3), arg(a4)))
}

// from5 applies a formula of five quantities.
func from5[R, A, B, C, D, E ~float64](
	b *bench, f func(A, B, C, D, E) (R, error), a1 Estimate[A], a2 Estimate[B], a3 Estimate[C], a4 Estimate[D], a5 Estimate[E],
) Estimate[R] {
	return result[R](b.evaluate(func(x *point) (float64, error) {
		r, err := f(A(x[0]), B(x[1]), C(x[2]), D(x[3]), E(x[4]))
		return float64(r), err
	}, arg(a1), arg(a2), arg(a3), arg(a4), arg(a5)))
}

// from6 applies a formula of six quantities.
func from6[R, A, B, C, D, E, F ~float64](
	b *bench, f func(A, B, C, D, E, F) (R, error), a1 Estimate[A], a2 Estimate[B], a3 Estimate[C], a4 Estimate[D], a5 Estimate[E], a6 Estimate[F],
) Estimate[R] {
	return result[R](b.evaluate(func(x *point) (float64, error) {
		r, err := f(A(x[0]), B(x[1]), C(x[2]), D(x[3]), E(x[4]), F(x[5]))
		return float64(r), err
	}, arg(a1), arg(a2), arg(a3), arg(a4), arg(a5), arg(a6)))
}

// sum adds estimates of one kind; with none it is exactly nothing.
func sum[Q ~float64](b *bench, parts ...Estimate[Q]) Estimate[Q] {
	total := argument{known: true}
	for i := range parts {
		if p := &parts[i]; total.known && p.known {
			b.grow(&total, float64(p.Value), p.u, p.shares)
		} else {
			total = argument{lack: lackOf([]argument{total, arg(*p)})}
		}
	}
	if math.IsInf(total.value, 0) || math.IsNaN(total.value) {
		return withheld[Q]("the readings make no number")
	}
	return result[Q](total)
}

// times is an estimate times an exact number. It is linear and needs no trial.
func times[R, Q ~float64](b *bench, e Estimate[Q], factor float64) Estimate[R] {
	if !e.known {
		return Estimate[R]{lack: e.lack}
	}
	return Estimate[R]{Value: R(float64(e.Value) * factor), u: e.u * math.Abs(factor), shares: b.scaled(e.shares, factor), known: true}
}

// floored is an estimate, but never less than nothing. Where it would be, it is nothing
// however one reading is moved, but several together may raise it: then its ± is the
// high end of what it would be, owed to each reading as the doubt of that is.
func floored[Q ~float64](b *bench, e Estimate[Q]) Estimate[Q] {
	out := from1(b, func(x Q) (Q, error) { return max(x, 0), nil }, e)
	if owed := (float64(e.Value) + 2*e.u) / 2; e.known && e.Value < 0 && owed > out.u {
		out.shares, out.u = b.scaled(e.shares, owed/e.u), owed
	}
	return out
}

// grow adds a value to a known total. That is linear, so what each input does to
// both just adds.
func (b *bench) grow(total *argument, value, u float64, shares []share) {
	total.value += value
	switch {
	case len(shares) == 0:
	case len(total.shares) == 0:
		total.shares, total.u = shares, u
	default:
		total.shares = b.added(total.shares, shares)
		total.u = combined(total.shares)
	}
}

// added is two lists of shares, both sorted by input, in one.
func (b *bench) added(a, c []share) []share {
	all := b.arena.room(len(a) + len(c))
	for len(a) > 0 || len(c) > 0 {
		var both share
		switch {
		case len(c) == 0 || len(a) > 0 && a[0].input < c[0].input:
			both, a = a[0], a[1:]
		case len(a) == 0 || c[0].input < a[0].input:
			both, c = c[0], c[1:]
		default:
			both = share{input: a[0].input, up: a[0].up + c[0].up, down: a[0].down + c[0].down}
			a, c = a[1:], c[1:]
		}
		if both.up != 0 || both.down != 0 {
			all = append(all, both)
		}
	}
	return b.arena.keep(all)
}
