package histories

import (
	"fmt"
	"math/rand/v2"
	"time"
)

// Chance draws what a history is made of.
type Chance struct{ *rand.Rand }

// NewChance is the chance of one entry of a run: the same for the same numbers.
func NewChance(seed, entry uint64) Chance { return Chance{rand.New(rand.NewPCG(seed, entry))} }

// Maybe is true so often, of 1.
func (c Chance) Maybe(often float64) bool { return c.Float64() < often }

// Between is a number between two others.
func (c Chance) Between(low, high float64) float64 { return low + (high-low)*c.Float64() }

// Pick is one of some.
func Pick[T any](c Chance, of ...T) T { return of[c.IntN(len(of))] }

// begun is the day on which every history begins.
var begun = time.Date(2026, 3, 7, 0, 0, 0, 0, time.UTC)

// Day is a moment so many days after the beginning, as it is typed: by its date
// alone, or to ten minutes.
func (c Chance) Day(days float64) string {
	at := begun.Add(time.Duration(days * 24 * float64(time.Hour)))
	if c.Maybe(0.3) {
		return at.Format(time.DateOnly)
	}
	return at.Truncate(10 * time.Minute).Format("2006-01-02 15:04")
}

// Heat is a temperature as it is typed.
func (c Chance) Heat(low, high float64) string {
	return fmt.Sprintf("%.1f C", c.Between(low, high))
}

// amount is a number with its unit, as fine as it is typed, and at times with a doubt
// of its own.
func (c Chance) amount(value float64, digits int, unit string) string {
	if c.Maybe(0.08) {
		return fmt.Sprintf("%.*f ± %.*f %s", digits, value, digits+1, value*c.Between(0.005, 0.05), unit)
	}
	return fmt.Sprintf("%.*f %s", digits, value, unit)
}

// Litres is a volume as it is typed.
func (c Chance) Litres(value float64) string { return c.amount(value, 2, "L") }

// Grams is a weight as it is typed.
func (c Chance) Grams(value float64) string { return c.amount(value, 1, "g") }

// Bar is a pressure as it is typed.
func (c Chance) Bar(low, high float64) string { return c.amount(c.Between(low, high), 2, "bar") }

// gravity is one as it is typed: to a whole point or to half of one.
func (c Chance) gravity(sg float64) string {
	if c.Maybe(0.5) {
		return fmt.Sprintf("%.3f", sg)
	}
	return fmt.Sprintf("%.4f", sg)
}

// keys are those of a line, each written or not.
type keys struct {
	c    Chance
	line *Line
}

func (c Chance) line(in int, of string, list bool) keys {
	return keys{c, &Line{In: in, Of: of, List: list}}
}

// put writes a key.
func (k keys) put(name, value string) keys {
	k.line.Keys = append(k.line.Keys, Key{name, value})
	return k
}

// maybe writes a key so often, of 1.
func (k keys) maybe(often float64, name string, value func() string) keys {
	if k.c.Maybe(often) {
		k.put(name, value())
	}
	return k
}
