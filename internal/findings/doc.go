// Package findings turns one gyle's figures and lines into warnings a brewer can
// act on.
//
// Each rule is a small value: an id, the stages it watches, the severity it can
// reach, a test on figures with their uncertainty, its words (what, why, what to
// do now, source), and an example that a test runs. A test that lies within the
// figures' uncertainty says "may" and not "will", by Certainty. Thresholds stand
// in one place (thresholds.go), each with its source. The entry goes before a card, a
// card before the limits of the settings (limits.go), and these before the trade's;
// what keeps people safe the settings cannot move.
//
// Rules follow the clock. What can still be mended says how, for the hands that
// are wet now; what no longer can be is a note that begins "Next time:"; what is
// planned is warned of before it is done. Once everything is drunk, nothing is
// graver than a note.
//
// Danger is rare and right: it means that someone may be hurt. It cannot be
// silenced by accept:, only answered, by a reading or a line that shows it away.
//
// What is said is written in the units of the journal's settings (units.go), and no
// test depends on them. A limit that must not be passed is never rounded upward by
// that, nor a pressure downward. What was typed is quoted as it was typed; what is
// offered to be typed is spelt as the entry's reader takes it.
//
// A rule lives in the file of what it is about: readings and gaps (what was
// written), names (what no card knows), slips (what cannot have been meant), recipe, stores and brewday, hazards, pitch, ferment, working and beer,
// sealing with bags, casks and bottles, air and cleaning, cellar and service,
// label and people.
//
// # Next time, and until the party
//
// Propose turns each gap between aim and got that the readings can tell into one
// change for the next gyle, with the figure to expect of it, worked out by the same
// formulas from a copy of the entry with the change in it; Judge says of the gyle that
// followed whether it came true. Timetables count back from a party to brew day, one
// for each kind of container, and forward from where the gyle stands.
//
// # From tasting words to causes
//
// Hear gathers what tasters found: words for one thing count as one word (package
// tasting has them), and two tasters who agree are evidence, one is a hint, silence
// is neither. Diagnose then asks, for each word, every cause that may lie behind it.
// A cause is a small value like a rule: its words, its source, an example, and its
// tests. Each test answers with a sign, which speaks for the cause or against it,
// says nothing, or names the reading that is missing; it cites the reading with its
// ± and its line, and says "may" where the ± reaches over, or where something is
// concluded from what is not in the entry. A measurement of the thing itself weighs
// two, a circumstance one, a may half of it; causes are ranked by what speaks for
// them less what speaks against, and none is likely that nothing speaks for.
//
// Causes live in the files that begin with cause_, by what they come of; their
// limits stand in cause_limits.go.
package findings
