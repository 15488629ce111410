// Package findings turns one gyle's figures and lines into warnings a brewer can
// act on.
//
// Each rule is a small value: an id, the stages it watches, the severity it can
// reach, a test on figures with their uncertainty, and its words (what, why,
// what to do now, source). A test that lies within the figures' uncertainty
// says "may" and not "will", by Doubtful. Thresholds stand in one place
// (thresholds.go), each with its source; a card or the entry overrides them.
//
// Danger is rare and right: it means that someone may be hurt. It cannot be
// silenced by accept:, only answered.
package findings
