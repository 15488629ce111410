package brewing

import q "gylebook/internal/quantity"

// BoilOff is the litres that a copper loses in an hour, both volumes at 20 °C.
// Range: 1 min to 12 h. More after than before, as liquor let in makes it, gives
// a number below nothing.
//
// Source: definition.
func BoilOff(before, after q.Volume, boiled q.Duration) (q.Number, error) {
	const name = "boil-off"
	err := firstOf(none(name, "the volume before", before, "L"), none(name, "the volume after", after, "L"), within(name, "the boil", boiled, 1, 720, "min"))
	if err != nil {
		return 0, err
	}
	return q.Number((before - after).Litres() / boiled.Hours()), nil
}
