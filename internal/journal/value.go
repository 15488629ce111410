package journal

import (
	"slices"
	"time"

	"gylebook/internal/notice"
	"gylebook/internal/quantity"
)

// Where is where a value stands: its place in the file and its key path in the
// entry, such as readings[0].gravity. The zero Where is a value that was not
// written.
type Where struct {
	notice.Place
	Key string
}

// Written tells whether the entry has this value.
func (w Where) Written() bool { return w.Line > 0 }

// Value is a quantity of an entry: as typed, and where.
type Value[Q quantity.Quantity] struct {
	quantity.Amount[Q]
	// None says that the word none was written, where the field's tag allows
	// it: a boil that was left out, which is not a boil of unknown length.
	None bool
	Where
}

// Measured is the value in its kind's canonical unit, the kind, the unit as
// typed, and where it stands; nowhere for the word none.
func (v Value[Q]) Measured() (value float64, kind *quantity.Kind, unit string, where Where) {
	if v.None {
		return 0, nil, "", Where{}
	}
	return float64(v.Value), v.Value.Kind(), v.Unit, v.Where
}

// RangeOf is a range on a card, such as 72 to 78 %.
type RangeOf[Q quantity.Quantity] struct {
	quantity.Range[Q]
	Where
}

// Text is words, taken as they stand.
type Text struct {
	Text string
	Where
}

// String is the words.
func (t Text) String() string { return t.Text }

// Name is the name of something that has a page of its own: an ingredient, a
// vessel, a style, a taster. The field's tag says of which kind.
type Name struct {
	Name string
	Where
}

// String is the name as typed.
func (n Name) String() string { return n.Name }

// Choice is one word of a closed list; the field's tag has the list, and its type
// the same words as constants.
type Choice[W ~string] struct {
	Word W
	Where
}

// String is the word.
func (c Choice[W]) String() string { return string(c.Word) }

// Is tells whether the word is one of the given.
func (c Choice[W]) Is(words ...W) bool { return slices.Contains(words, c.Word) }

// Flag is true or false, or not said.
type Flag struct {
	True bool
	Where
}

// Yes tells that it was said and true; No that it was said and false.
func (f Flag) Yes() bool { return f.Written() && f.True }

// No tells that it was said and false.
func (f Flag) No() bool { return f.Written() && !f.True }

// Whole is a whole number, such as a gyle's.
type Whole struct {
	N int
	Where
}

// Money is an amount with its currency, such as 3.80 GBP.
type Money struct {
	Sum      float64
	Currency string
	Where
}

// Moment is a date, or a date and time, in the journal's time zone unless it
// was written with an offset.
type Moment struct {
	Time time.Time
	// DateOnly says that no hour was written: such a moment begins its stage at
	// 00:00 (Time) and counts as 12:00 in intervals (Middle).
	DateOnly bool
	Where
}

// Middle is the moment to reckon intervals from: noon where only a date is
// known.
func (m Moment) Middle() time.Time {
	if m.DateOnly {
		year, month, day := m.Time.Date()
		return time.Date(year, month, day, 12, 0, 0, 0, m.Time.Location())
	}
	return m.Time
}

// HalfWidth is how far off the moment may be: twelve hours for a bare date,
// five minutes for an hour.
func (m Moment) HalfWidth() time.Duration {
	if m.DateOnly {
		return 12 * time.Hour
	}
	return 5 * time.Minute
}
