// Package quantity holds the numbers of a brewing journal: typed, with their
// units and with the half-width within which the brewer is sure of them.
//
// Each quantity is a defined type over float64 whose value is in one canonical
// unit (litres, grams, degrees Celsius, specific gravity, bar gauge …). A wrong
// unit is therefore hard to write: a Volume cannot be passed for a Mass, and
// the way in is always Parse, a constant (20.5 * Litre) or a constructor
// (Fahrenheit(151), Plato(10.2)) where the scale has an offset or a bend.
//
// # Spelling
//
// A quantity is written as the trade writes it: a number, a unit with or
// without a space before it, and if wished a half-width after ± or +/-:
//
//	20.5 L    500mL    1 lb 4 oz    66 °C    10.2 P    2 h 30 min
//	20.5 ± 0.5 L       1.041 +/- 0.001       72 to 78 %       2½ oz    1/2 lb
//
// A bare number stands only for a kind that customarily has no unit (gravity,
// pH, degrees Brix under a key that says so, counts). Plain gal, pt, qt and
// fl oz are refused, because they differ by a fifth between the UK and the US;
// a decimal comma is refused with the fix, and 1,000 without one, since it may be
// a thousand or one. Units are the exact legal ones.
//
// Volumes are at 20 °C, gravities are relative to water with both at 20 °C,
// pressures are above the atmosphere (gauge).
package quantity
