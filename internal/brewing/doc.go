// Package brewing is the physics and the trade's formulas: pure functions of
// unit-typed numbers, each with its range of validity and its source.
//
// It knows no dates, no entries and no uncertainty: the package above perturbs
// the arguments and looks at what changes. So every function is smooth inside
// its range (the duty table's steps are the one exception, and say so), rounds
// nothing, and allocates nothing on the good path. Outside its range it returns
// a *RangeError; NaN and infinity neither go in nor come out.
//
// Where a formula is only a fit to real beer, its scatter stands beside it as a
// constant.
package brewing

import (
	"fmt"
	"math"

	"gylebook/internal/quantity"
)

// RangeError says that a formula does not hold for one of its inputs.
type RangeError struct {
	Formula   string // "alcohol by Balling's proportions"
	Input     string // "original gravity"
	Got       float64
	Low, High float64
	Unit      string
}

// Error says it so that a brewer can see which reading is meant.
func (e *RangeError) Error() string {
	unit := e.Unit
	if unit != "" {
		unit = " " + unit
	}
	return fmt.Sprintf("%s holds for %s from %s to %s%s; this is %s", e.Formula, e.Input, quantity.Plain(e.Low), quantity.Plain(e.High), unit, quantity.Plain(e.Got))
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

// clamp keeps x between low and high.
func clamp(x, low, high float64) float64 { return math.Min(math.Max(x, low), high) }
