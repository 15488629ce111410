// Package rules turns one gyle's figures and lines into warnings a brewer can act on.
//
// Each rule is a value: an id, the stages it watches, the severity it can reach, a
// test on figures with their uncertainty, its words (what, why, what to do now,
// source), and an example that a test runs (testdata/examples.yaml). A test that lies
// within the figures' uncertainty says "may" and not "will", by assay.Certainty. Limits
// are values too (limits.go), each with its source; sentences print them.
//
// Rules follow the clock. What can still be mended says how, for the hands that are
// wet now; what no longer can be is a note that begins "Next time:"; what is planned
// is warned of before it is done. Once everything is drunk, nothing is graver than a
// note.
//
// Danger is rare and right: it means that someone may be hurt. It cannot be silenced
// by accept:, only answered, by a reading or a line that shows it away.
//
// A rule lives in the file of what it is about: readings and gaps (what was written),
// names (what no card knows), slips (what cannot have been meant), recipe, stores and
// brewday, hazards, pitch, ferment, working and beer, sealing with bags, casks and
// bottles, air and cleaning, cellar and service, party, label, people and tasting.
package rules
