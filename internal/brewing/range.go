package brewing

import (
	"fmt"
	"math"

	q "gylebook/internal/quantity"
)

// RangeError says that a formula does not hold for one of its inputs.
type RangeError struct {
	Formula   string // "Balling's formula"
	Input     string // "the original gravity"
	Got       float64
	Low, High float64
	Unit      string // "" where there is none; gravitySG prints three decimals
}

// gravitySG is the unit of a gravity: printed 1.000, and no unit after it.
const gravitySG = "SG"

// Error says it so that a brewer can see which reading is meant.
func (e *RangeError) Error() string {
	return fmt.Sprintf("%s: %s must be %s; this is %s", e.Formula, e.Input, e.wanted(), e.spelt(e.Got))
}

// wanted is the range in words: an amount has no ends worth printing.
func (e *RangeError) wanted() string {
	switch {
	case e.High == aTun && e.Got > aTun:
		return "what a brewery might hold"
	case e.High == aTun && e.Low == aDrop:
		return "more than 0"
	case e.High == aTun && e.Low == 0:
		return "0 or more"
	case e.High == aTun:
		return "a plain number"
	case e.Unit == gravitySG:
		return "from " + q.Fixed(e.Low, 3) + " to " + q.Fixed(e.High, 3)
	}
	return "from " + q.Plain(e.Low) + " to " + e.spelt(e.High)
}

// spelt is a number with its unit.
func (e *RangeError) spelt(x float64) string {
	switch {
	case math.IsNaN(x) || math.IsInf(x, 0):
		return "not a number"
	case e.Unit == gravitySG:
		return q.Fixed(x, 3)
	case e.Unit == "":
		return q.Plain(x)
	}
	return q.Plain(x) + " " + e.Unit
}

// within reports an input outside its range; NaN is outside every range.
func within[Q ~float64](formula, input string, got Q, low, high float64, unit string) error {
	if x := float64(got); x >= low && x <= high {
		return nil
	}
	return &RangeError{Formula: formula, Input: input, Got: float64(got), Low: low, High: high, Unit: unit}
}

// firstOf is the first error of several checks.
func firstOf(errs ...error) error {
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}

// Some amounts. Less than aDrop of anything is nothing, and more than aTun of it
// is not a home brewery; both keep divisions and products finite.
const (
	aDrop = 1e-9
	aTun  = 1e9
)

// some checks an amount that will be divided by.
func some[Q ~float64](formula, input string, got Q, unit string) error {
	return within(formula, input, got, aDrop, aTun, unit)
}

// none checks an amount that may be nothing, but not less.
func none[Q ~float64](formula, input string, got Q, unit string) error {
	return within(formula, input, got, 0, aTun, unit)
}

// ifGood is a result, or nought beside an error.
func ifGood[Q ~float64](result Q, err error) (Q, error) {
	if err != nil {
		return 0, err
	}
	return result, nil
}
