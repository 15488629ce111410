// Package brewing is the physics and the trade's formulas: pure functions of
// unit-typed numbers, each with its range of validity and its source.
//
// It knows no dates, no entries and no uncertainty: the package above perturbs
// the arguments and looks at what changes. So every function is continuous inside
// its range (two exceptions say so: the steps of the duty table, and the air that
// any headspace holds and none does not), rounds nothing, and allocates nothing
// on the good path. Outside its range it returns nought and a *RangeError; NaN
// and infinity neither go in nor come out.
//
// An amount (weight, volume) has no range but that it may not be less than
// nothing, nor nothing where it is divided by; doc comments leave that unsaid.
// Volumes are at 20 °C, and a litre of liquor there is taken as a kilogram of it,
// which is 0.2 % out.
//
// Where a formula is only a fit to real beer, its scatter stands beside it as a
// constant. Where published sources disagree, the doc comment says which was
// taken and why, and the tests hold both.
package brewing
