// Package planning counts the days of a gyle back from a party to brew day, and
// forward from where the gyle stands.
//
// There is a timetable for each kind of container that the party is to be served
// from. A step in it has its usual gap in days from the step before, and the least
// that will do; what is in hand, and what is late, follows from the two. Two
// gravities that agree, 48 hours apart or as far as the settings ask, and the day on
// which a cask stands still are never shortened. A step that the entry shows to be
// done is done; one that it plans keeps its day.
//
// Round is the other half of a party: what the guests are likely to drink, beside
// what there is to pour.
package planning

import "gylebook/internal/assay"

// planner is one gyle on its way to a party: its case, with the questions that only
// a timetable asks.
type planner struct{ *assay.Case }
