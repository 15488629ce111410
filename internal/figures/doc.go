// Package figures works one entry, and the cards it names, into its figures:
// each a value with its uncertainty, the working, the readings it came from
// and the published source of its formula; and where a reading is missing,
// which one.
//
// # How uncertainty is carried
//
// It follows JCGM 100:2008 (the GUM). Every reading is an input: its value and
// its standard uncertainty u. A half-width a, within which the brewer is sure
// the value lies, is a rectangular distribution, u = a/√3. It is the one typed
// after ±, else the instrument's card's, else the default for that kind of
// reading (doubts.go).
//
// An Estimate is a value together with how far each input, moved up or down by
// its own u, moves it. A formula is applied to estimates by moving one input
// at a time through all of its arguments at once: so a reading used twice is
// one input, and the bias shared by an instrument's readings cancels in a
// difference and adds in a sum. Sensitivities are taken on both sides, and at a
// kink, as at max(0, …) or where a bag goes tight, the larger counts. Printed
// ± is U = 2u, about 95 %.
//
// A formula that is only a fit brings its own scatter as one more input.
//
// # Bench and sheet
//
// Work happens on a private bench: the inputs found so far, the formula that is being
// tried, the estimates that several families share. It is thrown away. The Sheet that
// it leaves is a result: nothing changes it, and any number of readers share it. What
// is not on it, such as the pressure at another heat or a container's state at an
// hour, is asked of an Inquiry, which has a bench of its own.
//
// # The account of gas, sugar and water
//
// Everything an entry says that bears on a container's gas is a posting: what it was
// filled with, what was put in, fed by a cylinder, let out, drawn, and read of a gauge
// (ledger.go), in order of time. A walk (walk.go) goes through the postings with plain
// numbers and the physics of brewing.Held; it is a pure function and knows no entry and
// no clock. Each figure of a container's gas and pressure is one outcome of the walk,
// with the doubts of all its numbers carried through (manyfold.go). What the postings
// rest on has a file each: what was put into the beer (additions.go), the gas left in it
// (residual.go), what its gravity still gives (fall.go, cultures.go), what a gravity read
// in a container proves (inside.go), priming (priming.go), and where it stands (places.go).
//
// Undated postings of things done stand at the latest moment that the rest allows. What
// is dated ahead is a plan.
//
// # Value, ± and bound
//
// The walk is gone through twice: as the entry has it, and at its worst, with all that
// the entry leaves open at the worst that is reasonable: a fall that the readings do not
// rule out, sugar that may not have fermented before the beer was closed in, a summer's
// day, pure carbon dioxide in a gas of unknown share. A figure has a value and ± = 2u
// from the first, and an upper bound: the larger of the two walks' values with twice
// their u, which 97.5 in 100 lie under. A margin and a slack have a lower bound instead.
// Whoever judges danger goes by UpperBound, never by the value alone.
//
// Two figures, two names: gas-in-all is all the carbon dioxide, as volumes of the beer;
// condition is what of it is dissolved at the heat of the cellar.
//
// # What holds on any entry
//
// More that can ferment lowers no bound. A cylinder turned on lowers no pressure while it
// is on, a venting raises none, a warmer place ahead lowers none; at the warmest is never
// below in the cellar. Water raises no strength. A line taken away narrows no ± and lowers
// no bound unless something says what is now unknown. An hour, or a reading's last digit,
// moves no figure by more than its ±. Two containers alike are one with a count of 2, and
// the same thing said otherwise gives the same figures. Carbon dioxide, extract, alcohol
// and volume balance at every hour. No zero that is printed means unknown.
//
// # A logger's file
//
// A logger's thousand gravities share one doubt: how far off its scale is. So its
// rows are taken six hours together, each lot by its median as one sighting
// (log_rows.go); the readings by hand of the same hour give the offset and, over
// some days, the drift, by least squares, and these are inputs shared by all of
// its sightings (log.go). Two sightings count in the forecast as one reading. A
// float alone never shows that a gravity stands still, and the final gravity is
// the hydrometer's unless the beer has plainly fallen on (log_sightings.go).
//
// What a gyle takes over from another (drawn.go) brings its inputs along: the bias
// of one instrument stays one input across gyles, what no line says is of its own
// gyle alone.
//
// # Ranges
//
// A Kind says what range its formula holds for. Outside it a figure is withheld
// with the reason, or, where the formula still gives a number, marked as
// extrapolated (ranges.go). What comes to more than any brewery has is withheld,
// and nothing is printed finer than a reader could use.
//
// # How a figure is declared
//
// One Kind (id, label, unit, formula, symbols, range, source) and one function
// of the sheet, together in the file of its family. The Workings page is made
// from the same declarations.
package figures
