package figures

import (
	"fmt"
	"math"
	"strings"

	"gylebook/internal/journal"
	"gylebook/internal/quantity"
)

// Impossible is a value that was read and cannot be true. It counts as missing.
type Impossible struct {
	Where journal.Where
	Kind  *quantity.Kind
	Found string // as typed
	Limit string // what is possible
	Guess string // what was probably meant, or ""
}

func (b *bench) reportImpossible(found Impossible) {
	for _, old := range b.Impossible {
		if old.Where == found.Where {
			return
		}
	}
	b.Impossible = append(b.Impossible, found)
}

// limits are what a home brewery's value of one kind can be, in its canonical
// unit. They are wide: inside them a value may be odd, outside it is a slip.
type limits struct{ low, high float64 }

func (l limits) hold(x float64) bool { return x >= l.low && x <= l.high }

func (l limits) say(k *quantity.Kind) string {
	return strings.TrimSpace(fmt.Sprintf("%s to %s %s", quantity.Plain(l.low), quantity.Plain(l.high), k.Canonical().Symbol))
}

// least is the smallest amount that counts as some: nothing can be divided by
// less.
const least = 1e-6

// limitsOf is what is possible for a kind: from water and wort (gravity between
// pure alcohol's dilution and the strongest wort a copper holds, heat between
// ice and boiling brine), and from what one household can lift and hold.
func limitsOf(k *quantity.Kind) limits {
	switch k.Name {
	case "gravity":
		return limits{0.985, 1.150}
	case "temperature":
		return limits{-10, 105}
	case "volume":
		return limits{least, 2000}
	case "weight":
		return limits{least, 1e6}
	case "percentage":
		return limits{0, 100}
	case "length of time":
		return limits{0, 20 * 366 * 24 * 60}
	case "bitterness":
		return limits{0, 300}
	case "colour":
		return limits{0, 3000}
	case "extract":
		return limits{0, 400}
	case "amount of carbon dioxide":
		return limits{0, 8}
	case "pressure":
		return limits{-1, 30}
	case "concentration":
		return limits{0, 20000}
	case "count of cells", "density of cells":
		return limits{1, 1e15}
	case "pH":
		return limits{1, 13}
	case "number":
		return limits{0, 1e6}
	case "height":
		return limits{-500, 5000}
	case "pressure of the air":
		return limits{40, 110}
	case "refractometer reading":
		return limits{-1, 40}
	}
	return limits{-1e9, 1e9}
}

// guess is what an impossible value was probably meant to be: a gravity without
// its point. It is only ever proposed.
func guess[Q quantity.Quantity](v journal.Value[Q]) string {
	return guessOf(float64(v.Value), v.Value.Kind(), v.Unit)
}

func guessOf(x float64, kind *quantity.Kind, unit string) string {
	if kind.Name != "gravity" || unit != "" {
		return ""
	}
	switch {
	case x >= 985 && x <= 1150:
		return quantity.Fixed(x/1000, 3)
	case x >= 98.5 && x <= 115:
		return quantity.Fixed(x/100, 3)
	case x >= 1.25 && x < 2 && math.Abs(100*x-math.Round(100*x)) < 1e-9:
		return quantity.Fixed(1+(x-1)/10, 3) // 1.42 for 1.042: its first nought was left out
	case x >= 2 && x <= 36:
		return quantity.Plain(x) + " P"
	}
	return ""
}
