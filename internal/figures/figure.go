package figures

import (
	"cmp"
	"math"
	"slices"
	"strings"
	"time"

	"gylebook/internal/brewing"
	"gylebook/internal/journal"
	"gylebook/internal/quantity"
)

// Kind is one figure as declared: what it is and where it comes from. The
// Workings page, the JSON and the terminal table all read it.
type Kind struct {
	ID    ID     // as in JSON and in figure: links
	Label string // as on pages
	Unit  string // of values in JSON and on pages; "" for a ratio, "date" for a date
	Says  string // one sentence for the Workings page
	// Formula is in ordinary notation, with symbols in braces: {A} = {P₀} − {P₁}.
	// A working is the same text with this gyle's numbers in place of the
	// symbols.
	Formula string
	Symbols []string // "P₀: original extract, °P", in order
	Valid   string   // the range it holds in
	Source  string
	Checked string // what it was checked against
	// Decimals is how many to print where there is no ±.
	Decimals int
	// Cut says that it is printed cut, not rounded, to one decimal and without its
	// ±: that is how duty is reckoned.
	Cut bool
}

// Figure is one worked-out figure of one gyle.
type Figure struct {
	*Kind
	// Of tells several of one kind apart: a package's key path, a sugar, an
	// ion, a step of loss.
	Of    string
	Value float64 // unrounded, in the kind's unit
	// PlusMinus is U = 2u, in the kind's unit (days for a date); NaN where none
	// makes sense.
	PlusMinus float64
	// Upper is the bound that 97.5 in 100 lie under, with all that the entry leaves open
	// at its worst, where HasUpper; Lower of a margin or a slack the one that they lie
	// above, where HasLower.
	Upper, Lower float64
	// Date is the value of a figure whose unit is "date".
	Date time.Time
	// Provisional says that a later reading may still change it.
	Provisional bool
	// Note is a qualification printed beside it, or "".
	Note string

	hasUpper, hasLower bool

	at     []journal.Where // the lines that it rests on, where its shares don't say
	worked span
	shares []share
	sheet  *Sheet
}

// Contribution is what one input adds to a figure's uncertainty.
type Contribution struct {
	Input
	// Moves is by how much the figure changes when the input moves by its u.
	Moves float64
	// Share is its part of the variance, 0 to 1.
	Share float64
}

// Missing is a figure that cannot be given yet.
type Missing struct {
	Figure  ID
	Of      string
	Needs   []string // the keys that would suffice
	Because string   // why it is withheld though the readings are there
}

// HasUpper tells whether the figure has a bound of its own.
func (f Figure) HasUpper() bool { return f.hasUpper }

// HasLower tells whether the figure has a bound below: a margin, a slack.
func (f Figure) HasLower() bool { return f.hasLower }

// UpperBound is what the figure is held against where it might hurt somebody: its own
// bound, else its value and all of its ±.
func (f Figure) UpperBound() float64 {
	switch {
	case f.hasUpper:
		return f.Upper
	case f.HasPlusMinus():
		return f.Value + f.PlusMinus
	}
	return f.Value
}

// Mirrored is the figure with its sign changed, its bounds with it.
func (f Figure) Mirrored() Figure {
	f.Value = -f.Value
	f.Upper, f.Lower = -f.Lower, -f.Upper
	f.hasUpper, f.hasLower = f.hasLower, f.hasUpper
	return f
}

// bounded gives a figure an upper bound. It is less than the value and its ± only where
// something holds the value down, such as a valve.
func (f *Figure) bounded(upper float64) {
	if f != nil {
		f.Upper, f.hasUpper = max(upper, f.Value), true
	}
}

// lowerBounded gives a figure that is the better the more it is a bound below.
func (f *Figure) lowerBounded(lower float64) {
	if f != nil {
		f.Lower, f.hasLower = min(lower, f.Value), true
	}
}

// HasPlusMinus tells whether an uncertainty makes sense for the figure.
func (f Figure) HasPlusMinus() bool { return !math.IsNaN(f.PlusMinus) }

// Rounded is the value and its ± as printed, without the unit. The second is ""
// where there is none.
func (f Figure) Rounded() (value, plusMinus string) {
	switch {
	case f.Unit == dateUnit:
		return f.Date.Format("2006-01-02"), days(f.PlusMinus)
	case f.Cut:
		if cut, err := brewing.CutDuty(quantity.Percent(f.Value)); err == nil {
			return quantity.Fixed(float64(cut), 1), ""
		}
	case f.HasPlusMinus() && f.PlusMinus > 0 && tooFine(f.Value, f.PlusMinus, f.Decimals):
		return toFinest(f.Value, f.Decimals), ""
	case f.HasPlusMinus() && f.PlusMinus > 0:
		return quantity.Rounded(f.Value, f.PlusMinus)
	}
	return quantity.Fixed(f.Value, f.Decimals), ""
}

// ShownPlusMinus is the ± as far as it is worth printing: 0 where it is finer than
// any number is printed, NaN where none makes sense.
func (f Figure) ShownPlusMinus() float64 {
	if f.HasPlusMinus() && tooFine(f.Value, f.PlusMinus, f.Decimals) {
		return 0
	}
	return f.PlusMinus
}

func days(plusMinus float64) string {
	if math.IsNaN(plusMinus) || plusMinus <= 0 {
		return ""
	}
	if plusMinus < 1.5 {
		return "1 day"
	}
	return quantity.Fixed(plusMinus, 0) + " days"
}

// Working is the formula, then the same with this gyle's numbers in it.
func (f Figure) Working() string {
	if f.Formula == "" {
		return ""
	}
	plain := filled(f.Formula, nil)
	if f.worked.from == f.worked.to {
		return plain
	}
	return plain + "\n" + filled(f.Formula, f.sheet.symbols[f.worked.from:f.worked.to])
}

// At is the figure as resting on the given lines.
func (f Figure) At(lines ...journal.Where) Figure {
	f.at = lines
	return f
}

// From are the lines of the entry that it was worked from, in order.
func (f Figure) From() []journal.Where {
	if f.at != nil {
		return f.at
	}
	lines := make([]journal.Where, 0, len(f.shares))
	for _, sh := range f.shares {
		if where := f.sheet.Inputs[sh.input].Where; where.Written() {
			lines = append(lines, where)
		}
	}
	slices.SortStableFunc(lines, func(a, b journal.Where) int { return a.Compare(b.Place) })
	return slices.Compact(lines)
}

// Budget is what each input contributes to the uncertainty, the largest first.
func (f Figure) Budget() []Contribution {
	variance := 0.0
	for _, sh := range f.shares {
		variance += sh.larger() * sh.larger()
	}
	budget := make([]Contribution, 0, len(f.shares))
	for _, sh := range f.shares {
		moves := sh.larger()
		budget = append(budget, Contribution{Input: f.sheet.Inputs[sh.input], Moves: moves, Share: moves * moves / max(variance, math.SmallestNonzeroFloat64)})
	}
	slices.SortStableFunc(budget, func(a, b Contribution) int { return cmp.Compare(b.Share, a.Share) })
	return budget
}

// filled is a formula with its symbols' texts in place of the braces.
func filled(formula string, symbols []symbol) string {
	var b strings.Builder
	b.Grow(2 * len(formula))
	for {
		open := strings.IndexByte(formula, '{')
		if open < 0 {
			b.WriteString(strings.ReplaceAll(formula, "}", ""))
			return b.String()
		}
		b.WriteString(formula[:open])
		name, rest, _ := strings.Cut(formula[open+1:], "}")
		text := name
		for _, s := range symbols {
			if s.name == name {
				text = s.text()
				break
			}
		}
		b.WriteString(text)
		formula = rest
	}
}
