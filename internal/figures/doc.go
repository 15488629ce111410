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
