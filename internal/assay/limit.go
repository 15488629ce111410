package assay

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"

	"gylebook/internal/figures"
	q "gylebook/internal/quantity"
)

// Limit is a number that something is held against, or that a rule of thumb reckons
// with. Whatever is said of it prints it, and types it nowhere again.
type Limit struct {
	Name   string  // as lists have it: mash-too-hot
	Number float64 // in Unit; only a test changes it
	Unit   string  // °C, hours, points; SG or pH; "" for a ratio
	Says   string  // what it is the limit of, as a clause
	Source string
	Key    string // of the settings' limits, which may move it; "" for none
}

// Limits are the limits of one room, in the order in which they are declared.
type Limits struct{ all []*Limit }

// Add declares one more.
func (t *Limits) Add(name string, number float64, unit, says, source string) *Limit {
	l := &Limit{Name: name, Number: number, Unit: unit, Says: says, Source: source}
	t.all = append(t.all, l)
	return l
}

// MovedBy names the key of the settings that may move the limit.
func (l *Limit) MovedBy(key string) *Limit {
	l.Key = key
	return l
}

// All are the limits, for lists of them and for the test that steps each.
func (t *Limits) All() []*Limit { return t.all }

// Origin is where the limit comes from, and who may move it.
func (l *Limit) Origin() string {
	if l.Key == "" {
		return l.Source
	}
	return l.Source + "; limits." + l.Key + " moves it"
}

// Shared are the limits that several rooms hold against.
func Shared() []*Limit { return limits.All() }

// Notch is the smallest step that is worth telling apart: one in the second
// significant digit, a point of a gravity, and one of what is counted.
func (l *Limit) Notch() float64 {
	switch {
	case l.Unit == "SG":
		return float64(q.Point)
	case l.Unit == "years" || strings.HasPrefix(l.Unit, "whole "):
		return 1
	}
	return math.Pow10(int(math.Floor(math.Log10(l.Number))) - 1)
}

// Duration is a limit of time.
func (l *Limit) Duration() time.Duration {
	return time.Duration(l.Number * float64(spanUnits[l.Unit]))
}

// spanUnits are the units of limits of time; a month has 30.4 days.
var spanUnits = map[string]time.Duration{
	"minutes": time.Minute, "hours": time.Hour, "days": 24 * time.Hour, "months": time.Duration(30.4 * 24 * float64(time.Hour)),
}

// In is a limit in another unit, where both are of time; nought where there is none.
func (l *Limit) In(unit string) float64 {
	if l == nil {
		return 0
	}
	from, to := spanUnits[l.Unit], spanUnits[unit]
	if from == 0 || to == 0 {
		return l.Number
	}
	return l.Number * float64(from) / float64(to)
}

// String is the limit as a sentence has it: 70 °C, 36 hours, 1.006.
func (l *Limit) String() string {
	switch l.Unit {
	case "", "SG", "pH":
		return l.digits()
	}
	return l.digits() + " " + l.Unit
}

func (l *Limit) digits() string {
	if l.Unit == "SG" {
		return SG(q.Gravity(l.Number))
	}
	return q.Plain(math.Round(l.Number*1e6) / 1e6)
}

// Format prints a limit in a sentence: %s and %v with its unit, %d without, %.1d with
// so many decimals, and %q in words: a point, half a litre, a quarter of a volume.
func (l *Limit) Format(f fmt.State, verb rune) {
	text := l.String()
	switch decimals, set := f.Precision(); {
	case verb == 'q':
		text = l.inWords()
	case verb == 'd' && set:
		text = strconv.FormatFloat(l.Number, 'f', decimals, 64)
	case verb == 'd':
		text = l.digits()
	}
	_, _ = fmt.Fprint(f, text) // a builder's, which takes everything
}

// inWords is the limit without digits, where there are words for it.
func (l *Limit) inWords() string {
	switch {
	case l.Unit == "hours" && math.Mod(l.Number, 24) == 0:
		return (&Limit{Number: l.Number / 24, Unit: "days"}).inWords()
	case l.Unit == "times" && l.Number == 2:
		return "twice"
	case l.Unit == "%" && l.Number < 100:
		return (&Limit{Number: l.Number / 100}).inWords()
	}
	unit := strings.TrimSuffix(l.Unit, "s")
	if noun, ok := spokenUnits[l.Unit]; ok {
		unit = noun
	}
	for _, w := range spokenNumbers {
		if math.Abs(l.Number-w.number) > 1e-9 {
			continue
		}
		if unit == "" {
			return strings.TrimSuffix(w.word, " of a")
		}
		if w.number > 1 {
			unit += "s"
		}
		return w.word + " " + unit
	}
	return l.String()
}

// spokenUnits are units by the noun that they have in speech.
var spokenUnits = map[string]string{"vol": "volume", "L": "litre", "°C": "degree", "UK pints": "pint", "g/L": "gram", "°C/h": "degree"}

var spokenNumbers = []struct {
	number float64
	word   string
}{
	{0.05, "a twentieth of a"}, {0.1, "a tenth of a"}, {0.2, "a fifth of a"}, {0.25, "a quarter of a"}, {0.5, "half a"}, {1, "a"},
	{2, "two"}, {3, "three"}, {4, "four"}, {5, "five"}, {6, "six"}, {7, "seven"},
}

// Over compares a figure with an upper limit.
func Over[L float64 | *Limit](f figures.Figure, limit L) Certainty {
	doubt, most := 0.0, numberOf(limit)
	if f.HasPlusMinus() {
		doubt = f.PlusMinus
	}
	switch {
	case f.Value-doubt > most:
		return Surely
	case f.Value > most:
		return Probably
	case f.UpperBound() > most:
		return Perhaps
	}
	return No
}

// Under compares a figure with a lower limit.
func Under[L float64 | *Limit](f figures.Figure, limit L) Certainty {
	return Over(f.Mirrored(), -numberOf(limit))
}

// Outside compares a figure with both ends of a range.
func Outside(f figures.Figure, low, high float64) Certainty { return max(Over(f, high), Under(f, low)) }

func numberOf[L float64 | *Limit](limit L) float64 {
	if l, ok := any(limit).(*Limit); ok {
		return l.Number
	}
	return any(limit).(float64)
}

// IsOver tells whether a figure is over a limit, whatever its ± says.
func IsOver[L float64 | *Limit](f figures.Figure, limit L) bool { return Over(f, limit) >= Probably }

// IsUnder tells whether a figure is under a limit, whatever its ± says.
func IsUnder[L float64 | *Limit](f figures.Figure, limit L) bool { return Under(f, limit) >= Probably }
