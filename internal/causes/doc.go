// Package causes weighs what may lie behind the words that tasters find, by the
// readings of the gyle alone.
//
// Hear gathers what tasters found: words for one thing count as one word (package
// tasting has them), and two tasters who agree are evidence, one is a hint, silence
// is neither. Diagnose then asks, for each word, every cause that may lie behind it.
// A cause is a value: its words, its source, an example, and its tests. Each test
// answers with a sign, which speaks for the cause or against it, says nothing, or
// names the reading that is missing; it cites the reading with its ± and its line, and
// says "may" where the ± reaches over, or where something is concluded from what is
// not in the entry. A measurement of the thing itself weighs two, a circumstance one,
// a may half of it; causes are ranked by what speaks for them less what speaks
// against, and none is likely that nothing speaks for.
//
// A cause lives in the file of what it comes of; the limits stand in limits.go. The
// settings' habits have no say here: what a beer tastes of is no matter of habit.
package causes
