package journal

import (
	"reflect"

	"gylebook/internal/quantity"
)

// Fact is one key of a map with its value, as pages show it.
type Fact struct {
	Key, Label string // by their tags in the vocabulary
	Value      any    // the field: a Value, a RangeOf, a Text, a Choice, a Flag or a Whole
}

// Facts are those of a card that have a label in the vocabulary, in its order, whether
// written or not.
func (c *Card) Facts() []Fact {
	of := reflect.ValueOf(c).Elem().FieldByIndex(factsOf(reflect.TypeFor[Card](), c.Kind.String()).Index)
	if of.IsNil() {
		return nil
	}
	return labelled(of.Elem())
}

// Facts are the aims that have a label, likewise.
func (a Aim) Facts() []Fact { return labelled(reflect.ValueOf(a)) }

// labelled are the fields of a struct that have a label.
func labelled(of reflect.Value) []Fact {
	var facts []Fact
	for i := range of.NumField() {
		if label := of.Type().Field(i).Tag.Get("label"); label != "" {
			facts = append(facts, Fact{of.Type().Field(i).Tag.Get("key"), label, of.Field(i).Interface()})
		}
	}
	return facts
}

// Quantified is a Value of any quantity.
type Quantified interface {
	// Given tells that it was written, and not as none.
	Given() bool
	// Canonical is its kind, and the value with its half-width in the kind's canonical
	// unit; unit is the one that it was typed in.
	Canonical() (kind *quantity.Kind, value, within float64, unit string)
}

// Given tells whether there is such a quantity: that it was written, and not as none.
func (v Value[Q]) Given() bool { return v.Written() && !v.None }

// Canonical is the value whatever its quantity: see Quantified.
func (v Value[Q]) Canonical() (kind *quantity.Kind, value, within float64, unit string) {
	return quantity.KindOf[Q](), float64(v.Value), float64(v.Within), v.Unit
}

// Ranged is a RangeOf any quantity.
type Ranged interface {
	Written() bool
	// Ends are its kind, and both ends in the kind's canonical unit.
	Ends() (kind *quantity.Kind, low, high float64)
}

// Ends are those of the range whatever its quantity: see Ranged.
func (r RangeOf[Q]) Ends() (kind *quantity.Kind, low, high float64) {
	return quantity.KindOf[Q](), float64(r.Low), float64(r.High)
}
