// Package proposals says what to change in the next gyle, and judges afterwards
// whether it came true.
//
// Appraise turns each gap between aim and got that the readings can tell into one
// change: a lever, the one number of an entry that is moved, and the figure to expect
// of the gyle that follows, worked out by the same formulas from a copy of the entry
// with the change in it. Only where no formula says (what a warmer mash does) does a
// rule of thumb size it, from sizes.go, with its source and a ± that owns up to what
// sources disagree about. A change that the rules would find dangerous is not
// proposed. Judge says of the gyle that followed whether what was expected of the
// change was read.
package proposals
